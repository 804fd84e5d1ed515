"""``python -m slath``, where the command itself is not on the path."""

from slath.cli import main

if __name__ == "__main__":
    main()
