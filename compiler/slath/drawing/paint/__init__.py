"""Rods in their materials: dress and tones, smooth courses, and what lies over what turned into path records."""
