"""Geometry of one basket turned into scenes of plain records."""
