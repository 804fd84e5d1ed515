"""Names become names of files: plain ones stay, and no two that differ become one, on any system."""

from __future__ import annotations

import itertools
import re
import string
import unicodedata
from pathlib import PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from slath.output.naming import LONGEST, file_name, file_names

# Microsoft, "Naming Files, Paths, and Namespaces": what no file may be called, and signs no name may hold.
RESERVED = ("CON", "PRN", "AUX", "NUL", *(f"{port}{number}" for port in ("COM", "LPT") for number in range(1, 10)))
FORBIDDEN = set('<>:"/\\|?*') | {chr(code) for code in range(32)}
MARK = "[2-7][a-z2-7]{7}"
NAMES = st.text() | st.text("aA ./-\\_é", max_size=6) | st.sampled_from(RESERVED) | st.text("ab", min_size=30)


def allowed(name: str) -> bool:
    """Whether every system in use takes `name` as a file's, and as it is written."""
    return (
        0 < len(name.encode()) <= LONGEST + 1
        and not FORBIDDEN & set(name)
        and name[-1] not in ". "
        and name[0] not in ".-~ "
        and name == unicodedata.normalize("NFC", name)
        and PureWindowsPath(name).name.partition(".")[0].upper() not in RESERVED
    )


@pytest.mark.parametrize(
    ("name", "file"),
    [("small", "small"), ("extra large", "extra-large"), ("8.5 in", "8.5-in"), ("Jo Marsh", "Jo-Marsh")],
)
def test_plain_names_stay(name: str, file: str) -> None:
    """A word or a few are a file's name as they are, blanks made hyphens."""
    assert file_name(name) == file
    assert file_names([name, "other"])[name] == file


def test_a_files_own_name_keeps_its_blanks_and_hyphens() -> None:
    """What was a file's name already is not changed without need."""
    assert file_name("weir-field", blanks=" ") == "weir-field"
    assert file_name("Weir Field 2", blanks=" ") == "Weir Field 2"


@given(NAMES)
def test_every_name_can_be_a_files(name: str) -> None:
    """Whatever it holds, it is a short name every system takes, a part of no path, alone and among others."""
    for made in (file_name(name), file_name(name, blanks=" "), file_names([name, "small"])[name]):
        assert allowed(made)


@given(st.lists(NAMES, unique=True, min_size=2, max_size=12))
def test_no_two_names_are_one_file(names: list[str]) -> None:
    """Names beside one another are told apart where capitals are not told apart, and where a figure's name (which has no
    mark) is added behind a hyphen; names that never meet are told apart by more than capitals.
    """
    together = [made.casefold() for made in file_names(names).values()]
    assert not any(
        re.match(rf"{re.escape(other)}(?:-(?!.*{MARK}$)|$)", one) for one, other in itertools.permutations(together, 2)
    )
    by_file: dict[str, set[str]] = {}
    for name in names:
        by_file.setdefault(file_name(name).casefold(), set()).add(name.casefold())
    assert all(len(told) == 1 for told in by_file.values())


def test_names_of_a_few_signs_are_all_told_apart() -> None:
    """Every name of up to three of these signs: among them all that a careless rule would take for one another."""
    signs = "aZ -._/é"
    names = ["".join(chosen) for length in range(1, 4) for chosen in itertools.product(signs, repeat=length)]
    assert len({file_name(name) for name in names}) == len(names)


def test_a_marked_name_is_not_to_be_had_by_writing_it() -> None:
    """A name that looks as if it were marked is marked itself."""
    marked = file_name("../evil")
    assert marked.startswith("evil-")
    assert marked.strip(string.ascii_lowercase + "-234567") == ""
    assert file_name(marked) != marked
    assert file_name(marked.replace("-", " ")) != marked
    assert file_names(["../evil", marked])[marked] != marked
