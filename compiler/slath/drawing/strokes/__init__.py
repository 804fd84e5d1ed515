"""How each weave starts and goes on: one panel a movement."""
