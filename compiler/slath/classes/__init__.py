"""A class: from one file to its lists, its plans and everybody's papers."""
