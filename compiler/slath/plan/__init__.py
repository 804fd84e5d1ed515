"""The plan of the work: stages, steps and acts as records, told from one bench state; words and figures read them."""
