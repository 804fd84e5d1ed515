"""The side and its weaving: strands on their uprights, the side opened out, colours, step-ups, the profile."""
