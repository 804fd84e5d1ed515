"""What changed, told: to the designer as text or data, to buyers as a slip to fold into a sold copy and as a note."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import Any

from msgspec.structs import asdict

from slath.booklet.blocks import Block, Column, Document, Heading, Paragraph, Row, Table
from slath.output.facts import Fact
from slath.selling.causes import Cause
from slath.selling.comparing import Comparison, FigureChange, NumberChange, WordsChange
from slath.units.counting import listed
from slath.wording.speech import sentence_case

MOST_CAUSES = 3  # told of one number; more say little
NOTHING = "—"


# ------------------------------------------------------------------------------------------------- for the designer
def comparison_text(found: Comparison) -> str:
    """What changed and why, as text for a terminal; sizes in which nothing changed are not named."""
    heading = f"{found.new.title}: {found.old.named} → {found.new.named}"
    if found.same:
        return f"{heading}\nNothing a buyer reads has changed.\n"
    lines = [heading]
    lines += [f"New size: {name}" for name in found.sizes_new]
    lines += [f"No longer there: {name}" for name in found.sizes_gone]
    for size in found.sizes_concerned:
        rows = [change for change in found.numbers if change.size == size and is_printed(change)]
        if rows:
            lines += ["", sentence_case(size)]
            lines += [f"  {number_line(change)}{_because(change.causes)}" for change in rows]
    if found.words:
        lines += ["", "Steps that read otherwise"]
        for words in found.words:
            lines.append(f"  {words.title} ({listed(list(words.sizes))})")
            lines += [f"    - {sentence}" for sentence in words.struck]
            lines += [f"    + {sentence}" for sentence in words.written]
    if found.figures:
        lines += ["", "Figures that show something else"]
        lines += [f"  {_figure_line(figure)}" for figure in found.figures]
    return "\n".join(lines) + "\n"


def comparison_data(found: Comparison) -> dict[str, Any]:
    """The same as plain data, every number unrounded with its key."""
    return {
        "comparison": 1,
        "pattern": {"title": found.new.title, "from": found.old.edition, "to": found.new.edition},
        "same": found.same,
        "sizes": {
            "new": list(found.sizes_new),
            "gone": list(found.sizes_gone),
            "concerned": list(found.sizes_concerned),
        },
        "numbers": [
            {
                "size": change.size,
                "key": list(change.fact.key),
                "part": change.fact.part,
                "what": change.fact.what,
                "before": _fact(change.before),
                "after": _fact(change.after),
                "causes": [asdict(cause) for cause in change.causes],
            }
            for change in found.numbers
        ],
        "words": [asdict(change) for change in found.words],
        "figures": [asdict(change) for change in found.figures],
    }


def number_line(change: NumberChange) -> str:
    """``stakes, cut to: 13 1/2 in (343 mm) → 13 in (330 mm)``."""
    fact = change.fact
    return f"{fact.part}, {fact.what}: {_printed(change.before)} → {_printed(change.after)}"


def is_printed(change: NumberChange) -> bool:
    """Whether a buyer's booklet prints it otherwise; smaller changes round to what it says already."""
    return _printed(change.before) != _printed(change.after)


def _fact(fact: Fact | None) -> dict[str, Any] | None:
    return None if fact is None else {"value": fact.value, "printed": fact.printed}


def _printed(fact: Fact | None) -> str:
    return fact.printed if fact else NOTHING


def _because(causes: Sequence[Cause]) -> str:
    told = [
        f"line {cause.line}, {cause.key}: {cause.before or NOTHING} → {cause.after or NOTHING}"
        if cause.line
        else f"{cause.key}: {cause.before or NOTHING} → {cause.after or NOTHING}"
        for cause in causes[:MOST_CAUSES]
    ]
    return f"   [{'; '.join(told)}]" if told else ""


def _figure_line(figure: FigureChange) -> str:
    return f"{figure.name}: {figure.how} ({listed(list(figure.sizes))})"


# ------------------------------------------------------------------------------------------------------- for buyers
def errata_slip(found: Comparison, contact: str = "") -> Document:
    """A small page to fold into sold copies: what to strike out and what to write, for the sizes concerned alone."""
    old, new = found.old, found.new
    blocks: list[Block] = [
        Heading(1, "Please correct your copy"),
        Paragraph(f"{new.title}, {old.named}. With these corrections it says what {new.named} says.", role="lead"),
    ]
    several = len(new.sizes) > 1
    for sizes, rows in _by_sizes(found):
        if several:
            blocks.append(Heading(2, sentence_case(listed(list(sizes)))))
        blocks.append(_strike_out("Numbers" if not several else f"Numbers of {listed(list(sizes))}", rows))
    if found.words:
        blocks.append(Heading(2, "In the steps"))
        blocks.append(_strike_out("Sentences", [row for change in found.words for row in _words_rows(change, several)]))
    redrawn = [figure for figure in found.figures if figure.how != "gone"]
    if redrawn:
        names = listed(sorted({figure.name.replace("-", " ") for figure in redrawn}))
        blocks.append(Paragraph(f"Where a figure and these words differ, the words hold. Redrawn are: {names}."))
    if contact:
        blocks.append(Paragraph(f"Questions, or another mistake? {contact}", role="small"))
    return Document(
        title=f"{new.title}: corrections",
        blocks=tuple(blocks),
        author=new.designer,
        subject="corrections to a basket pattern",
        date=dt.date.fromisoformat(new.dated) if new.dated else dt.date(2000, 1, 1),
        foot=f"{new.title} · {old.named} → {new.named}",
    )


def buyers_note(found: Comparison, contact: str = "") -> str:
    """A short letter for those who bought the edition before."""
    old, new = found.old, found.new
    sizes = listed(list(found.sizes_concerned))
    lines = [f"{new.title}: {new.named} is out", ""]
    if found.same:
        lines.append(f"Nothing you read in {old.named} has changed.")
    else:
        lines.append(f"You have {old.named}. What changed concerns {sizes}." if sizes else f"You have {old.named}.")
        untouched = [size.name for size in new.sizes if size.name not in found.sizes_concerned + found.sizes_new]
        if untouched and sizes:
            lines.append(f"If you are making {listed(untouched)}, go on as you are: nothing in it changed.")
        lines += [f"There is a new size: {name}." for name in found.sizes_new]
        lines += [f"The size {name} is no longer offered." for name in found.sizes_gone]
        printed = [change for change in found.numbers if is_printed(change)]
        if printed:
            lines += ["", "Numbers:"]
            lines += [f"- {change.size}: {number_line(change)}" for change in printed]
        if found.words:
            lines += ["", "Steps that read otherwise:"]
            lines += [f"- {title}" for title in dict.fromkeys(change.title for change in found.words)]
        lines += ["", "The slip that comes with this note says what to strike out and what to write."]
    if contact:
        lines += ["", f"Questions, or another mistake? {contact}"]
    return "\n".join(lines) + "\n"


def _by_sizes(found: Comparison) -> list[tuple[tuple[str, ...], list[Row]]]:
    """Rows to strike out and write, once for all sizes in which they are the same."""
    by_row: dict[tuple[str, str, str], list[str]] = {}
    for change in found.numbers:
        if is_printed(change):
            cells = (
                sentence_case(f"{change.fact.part}, {change.fact.what}"),
                _printed(change.before),
                _printed(change.after),
            )
            by_row.setdefault(cells, []).append(change.size)
    grouped: dict[tuple[str, ...], list[Row]] = {}
    for cells, sizes in by_row.items():
        grouped.setdefault(tuple(sizes), []).append(Row(cells))
    order = [size.name for size in found.new.sizes]
    return sorted(grouped.items(), key=lambda item: [order.index(name) for name in item[0]])


def _words_rows(change: WordsChange, several: bool) -> list[Row]:
    """Sentence against sentence where as many are written as are struck out, else all against all."""
    where = f"{change.title} ({listed(list(change.sizes))})" if several else change.title
    if len(change.struck) == len(change.written):
        return [Row((where, old, new)) for old, new in zip(change.struck, change.written, strict=True)]
    return [Row((where, " ".join(change.struck) or NOTHING, " ".join(change.written) or NOTHING))]


def _strike_out(caption: str, rows: Iterable[Row]) -> Table:
    columns = (Column("Where", row_header=True), Column("Strike out", weight=1.4), Column("Write", weight=1.4))
    return Table(caption, columns, tuple(rows))
