"""Whether a file is of a class: asked of every file that is checked, so it waits for nothing else of this room."""

from __future__ import annotations

import re
from pathlib import Path as FilePath

from slath.language.source import read_source
from slath.notes import PatternFaultError


def is_class_file(path: FilePath) -> bool:
    """Whether the file at `path` speaks of people who make baskets, and so is a class. OSError if it cannot be opened."""
    try:
        text = read_source(path).text
    except PatternFaultError:
        return False
    return bool(re.search(r"^people[ ]*:", text, re.MULTILINE)) and not re.search(r"^base[ ]*:", text, re.MULTILINE)
