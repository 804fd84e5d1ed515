"""Handles and their parts: bows and wraps, ears, what hangs and what swings."""
