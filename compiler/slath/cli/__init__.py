"""The command line: arguments, progress and exit codes. The only room that prints.

Exit codes: 0 good; 1 the file is at fault; 2 the command is, or it was stopped; 3 the surroundings are (disk,
permission, a file in the way); 4 our own bug.
"""

from slath.cli.running import main

__all__ = ["main"]
