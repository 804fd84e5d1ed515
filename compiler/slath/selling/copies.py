"""Copies of a booklet, one for each buyer: set once, stamped for each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from slath.booklet.blocks import copy_line
from slath.editions import EDITIONS, editions_of
from slath.output.stamping import stampable
from slath.pipeline import CommandFaultError, Compilation
from slath.selling.buyers import Buyer
from slath.work import BuildOptions, style_for

STAMPED = ("booklet", "large print", "handout", "bench cards")  # sold page by page as they are set


def copies_of(
    compilation: Compilation, options: BuildOptions, buyers: Sequence[Buyer], tell: Callable[[str], None]
) -> Iterator[tuple[str, bytes]]:
    """The file of every buyer by name. `options` name the one edition that is sold; its copy line is nobody's.

    Raises CommandFaultError for an edition that is not sold in copies.
    """
    (name,) = options.editions
    if name not in STAMPED:
        raise CommandFaultError(f"copies are made of {', '.join(STAMPED)}; not of {name}")
    ((file, plain),) = editions_of(compilation, options, tell)
    stamp = stampable(plain, style_for(EDITIONS[name], options))
    stem = file.removesuffix(".pdf")
    language = options.language or compilation.pattern.language
    for buyer in buyers:
        yield f"{stem}-for-{buyer.file}.pdf", stamp.copy_for(copy_line(buyer.name, language))
