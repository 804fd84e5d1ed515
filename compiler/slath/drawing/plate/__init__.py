"""The sheet a figure is drawn on: words and their measure, labels kept clear of one another, keys, plans to scale."""
