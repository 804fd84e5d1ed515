"""Borders: the course of every end, how each pass starts, goes round and finishes, and the notes beside it."""
