"""The records a pattern is read into, each field with the key of the language it is read from."""
