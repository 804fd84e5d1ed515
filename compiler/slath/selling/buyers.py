"""A list of buyers, one a row of a CSV file, each with the name that stands on their copy."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from msgspec import Struct

from slath.fonts.letters import lacking
from slath.language.files import read_bytes
from slath.language.spelling import letters_lacking
from slath.output.naming import file_names
from slath.units.counting import listed
from slath.work import LONGEST_NAME

LARGEST = 4_000_000  # bytes, far more than the longest list of sales
MOST = 20_000
COLUMN = "name"


class BuyersError(ValueError):
    """A list of buyers that cannot be used, with the line."""


class Buyer(Struct, frozen=True):
    """One copy: whose it is, and how that name stands in the name of its file, which no other copy has."""

    name: str
    file: str


def read_buyers(path: Path) -> tuple[Buyer, ...]:
    """The buyers of a list: UTF-8, a row of headings, one of which is ``name``; commas or semicolons between columns.

    A buyer named twice gets two copies. Raises BuyersError, OSError.
    """
    raw = read_bytes(path, LARGEST)
    if len(raw) > LARGEST:
        raise BuyersError(f"{path} is larger than any list of buyers")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        raise BuyersError(f"{path} is not UTF-8 text; save it from the spreadsheet as CSV UTF-8") from problem
    rows = _rows(path, text)
    names = [_printed(path, line, name) for line, name in rows]
    if not names:
        raise BuyersError(f"{path} names no buyers below its headings")
    if len(names) > MOST:
        raise BuyersError(f"{path} names {len(names)} buyers; at most {MOST} copies are made at once")
    numbered = _numbered(names)
    files = file_names(numbered)
    return tuple(Buyer(name, files[own]) for name, own in zip(names, numbered, strict=True))


def _rows(path: Path, text: str) -> list[tuple[int, str]]:
    """The name of each row with its line; rows with nothing in them are passed over."""
    first, _, _ = text.partition("\n")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=";" if first.count(";") > first.count(",") else ",")
    try:
        headings = [heading.strip().casefold() for heading in next(reader, [])]
        if COLUMN not in headings:
            found = [heading for heading in headings if heading]
            there = f"; these are {listed(found)}" if found else ""
            raise BuyersError(f"{path}:1: one column must be headed {COLUMN}{there}")
        column = headings.index(COLUMN)
        rows = [
            (reader.line_num, row[column] if column < len(row) else "") for row in reader if any(map(str.strip, row))
        ]
    except csv.Error as problem:
        raise BuyersError(f"{path}:{reader.line_num}: this cannot be read as CSV ({problem})") from problem
    return rows


def _printed(path: Path, line: int, name: str) -> str:
    """The name on one line, if every page can show it."""
    said = " ".join(name.split())
    if not said:
        raise BuyersError(f"{path}:{line}: this buyer has no name")
    if missing := lacking(said):
        raise BuyersError(f"{path}:{line}: {letters_lacking(missing)[0]}")
    if len(said) > LONGEST_NAME:
        raise BuyersError(f"{path}:{line}: a name may have {LONGEST_NAME} letters; this one has {len(said)}")
    return said


def _numbered(names: list[str]) -> list[str]:
    """Names told apart: the second Ada Marsh is “Ada Marsh 2”."""
    taken, met = set(names), set[str]()
    told = []
    for name in names:
        own, number = name, 2
        while own in met or (own != name and own in taken):
            own, number = f"{name} {number}", number + 1
        met.add(own)
        told.append(own)
    return told
