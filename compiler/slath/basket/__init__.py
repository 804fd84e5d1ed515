"""One size of one pattern as geometry and strands: counts, outline, profile, base, weave, border, handle."""
