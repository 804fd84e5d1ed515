"""Sentences from the construction: steps, captions, glossary, and the designer's own words bound to the list."""
