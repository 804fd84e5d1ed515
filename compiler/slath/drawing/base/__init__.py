"""The base and its staking: sticks, boards and frames as they lie, and their weaving stage by stage."""
