"""The commands of who sells patterns: editions kept and compared, copies for buyers."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from slath.cli.asking import (
    FILE,
    PAPERS,
    Command,
    file_argument,
    form_option,
    out_option,
    overwrite_option,
    paper_option,
    size_option,
    speech_options,
    style_option,
    units_option,
    workshop_option,
)
from slath.cli.compiling import compiled_good
from slath.cli.leaving import Exit, leave
from slath.cli.telling import say, show_written


@click.command(short_help="Keep this edition, to compare later ones with.")
@file_argument
@click.option(
    "--out",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE",
    help="Where to keep it; left out, editions/ beside the pattern.",
)
@workshop_option
@overwrite_option
def keep(file: Path, out: Path | None, workshop: Path | None, *, overwrite: bool) -> None:  # fmt: skip
    """Keep an edition as one small file: its numbers, steps and words, with a checksum.

    Do it when you publish. Later editions are compared with it, and slath check warns when numbers change while the
    edition keeps its name.
    """
    from slath.output.kept import kept_text  # noqa: PLC0415
    from slath.output.naming import kept_beside  # noqa: PLC0415
    from slath.output.writing import write_new, write_whole  # noqa: PLC0415
    from slath.selling.keeping import edition_of  # noqa: PLC0415

    compilation = compiled_good(file, workshop, ())
    if not compilation.pattern.edition:
        leave(Exit.FILE_AT_FAULT, f"Error: {file} names no edition; write edition: in it, then keep it.")
    path = out or kept_beside(file, compilation.pattern.edition)
    text = kept_text(edition_of(compilation, workshop)).encode()
    if path.exists() and not overwrite:
        if path.read_bytes() == text:
            say(f"{path} holds this edition already.")
            return
        leave(
            Exit.SURROUNDINGS_AT_FAULT,
            f"{path} holds an edition of this name that is not the same; give the edition another name, or --overwrite.",
        )
    if overwrite:
        write_whole(path, text)
    else:
        write_new(path, text)
    say(f"Kept {compilation.pattern.title}, edition {compilation.pattern.edition}, in {path}")


@click.command(short_help="See what changed between two editions.")
@click.argument("old", type=FILE)
@click.argument("new", type=FILE)
@form_option("text", "json")
@out_option("nothing is written")
@overwrite_option
def compare(old: Path, new: Path, form: str, out: Path | None, *, overwrite: bool) -> None:
    """See what changed between two editions of a pattern, in which sizes, and which line of the file did it.

    Each is a pattern file or an edition that was kept. With --out, an errata slip to fold into sold copies, a note for
    buyers and the comparison as JSON are written.
    """
    from slath.output.kept import KeptEditionError  # noqa: PLC0415
    from slath.output.writing import write_set  # noqa: PLC0415
    from slath.selling.causes import causes_between  # noqa: PLC0415
    from slath.selling.comparing import compared  # noqa: PLC0415
    from slath.selling.errata import comparison_data, comparison_text  # noqa: PLC0415
    from slath.selling.files import change_files  # noqa: PLC0415
    from slath.selling.keeping import read_edition  # noqa: PLC0415

    try:
        before, after = read_edition(old), read_edition(new)
    except KeptEditionError as problem:
        leave(Exit.FILE_AT_FAULT, f"Error: {problem}.")
    found = compared(before, after, causes_between(before, after))
    if form == "json":
        say(json.dumps(comparison_data(found), ensure_ascii=False, indent=2))
    else:
        say(comparison_text(found), end="")
    if out:
        made = change_files(found)
        write_set(out, made, replace=overwrite)
        if form == "text":
            show_written(out, made, ())


@click.command(short_help="Make a copy for each buyer of a list.")
@file_argument
@click.argument("buyers", type=FILE)
@out_option("build/ here, a folder for each pattern, and copies/ in it")
@size_option
@click.option("--edition", default="booklet", show_default=True, metavar="NAME", help="Which edition is sold.")
@style_option
@paper_option
@speech_options
@workshop_option
@overwrite_option
def copies(file: Path, buyers: Path, **options: Any) -> None:
    """Make a copy for each buyer in a CSV file, their name on every page and in the file's own name.

    The file has a row of headings, one of which is "name". The pages are set once; every copy is the plain file with one
    line more on its pages, so nothing of one buyer is in another's.
    """
    from slath.cli.making import Making, copies_for  # noqa: PLC0415
    from slath.selling.buyers import BuyersError, read_buyers  # noqa: PLC0415

    try:
        listed = read_buyers(buyers)
    except BuyersError as problem:
        leave(Exit.FILE_AT_FAULT, f"Error: {problem}.")
    making = Making(editions=(options.pop("edition"),), sections=(), copy_for="", form="text", **options)
    copies_for(file, listed, making)


@click.command(short_help="See what a basket of each size costs you.")
@file_argument
@form_option("text", "json")
@size_option
@workshop_option
def cost(file: Path, form: str, sizes: tuple[str, ...], workshop: Path | None) -> None:
    """See what a basket of each size costs you: material by use and by pack, work, fees, and the price of a kit.

    Prices come from packs:, hours, rate, fees and mark-up from money: in the pattern. None of it is in a booklet.
    """
    from slath.selling.costs import costs_data, costs_text  # noqa: PLC0415

    compilation = compiled_good(file, workshop, sizes)
    if form == "json":
        say(json.dumps(costs_data(compilation), ensure_ascii=False, indent=2))
    else:
        say(costs_text(compilation), end="")


def _watermark(command: Command) -> Command:
    return click.option(
        "--watermark",
        metavar="WORDS",
        default="",
        help="Pale words across every picture, such as your workshop's name.",
    )(command)


@click.command(short_help="Make pictures, listing and flyer for a shop.")
@file_argument
@out_option("build/ here, a folder for each pattern, and offer/ in it")
@size_option
@_watermark
@style_option
@paper_option
@speech_options
@workshop_option
@overwrite_option
def offer(file: Path, watermark: str, **options: Any) -> None:
    """Make what a shop's page wants: the cover and three pages as pictures, the listing as text and JSON, a flyer.

    What the licence withholds, the cut list and the lists of material are on none of them.
    """
    from slath.cli.making import Making, offer_of  # noqa: PLC0415

    offer_of(file, Making(editions=("booklet",), sections=(), copy_for="", form="text", **options), watermark)


@click.command(short_help="Make the folder a shop needs, with a manifest.")
@file_argument
@out_option("build/ here, a folder for each pattern, and shop/ in it")
@size_option
@click.option(
    "--edition",
    "editions",
    multiple=True,
    default=("booklet",),
    show_default=True,
    metavar="NAME",
    help="An edition that is sold; may be repeated.",
)
@click.option(
    "--language",
    "languages",
    multiple=True,
    default=("en",),
    show_default=True,
    metavar="CODE",
    help="A language to sell it in; may be repeated.",
)
@click.option(
    "--paper",
    "papers",
    multiple=True,
    default=("a4",),
    show_default=True,
    type=click.Choice(PAPERS),
    help="A paper to sell it on; may be repeated.",
)
@_watermark
@style_option
@units_option
@workshop_option
@overwrite_option
def shop(
    file: Path, editions: tuple[str, ...], languages: tuple[str, ...], papers: tuple[str, ...], watermark: str,
    **options: Any,
) -> None:  # fmt: skip
    """Make everything a shop needs in one folder: every edition in every language on every paper, and the offer.

    A manifest names each file with its size, its pages and its SHA-256.
    """
    from slath.cli.making import Making, shop_of  # noqa: PLC0415
    from slath.messages.language import languages as known  # noqa: PLC0415

    for code in languages:
        if code not in known():
            leave(Exit.COMMAND_AT_FAULT, f"Error: there is no language {code}; choose from {', '.join(known())}.")
    ways = [(edition, language, paper) for language in languages for paper in papers for edition in editions]
    makings = [
        Making(
            editions=(edition,), sections=(), copy_for="", form="text", paper=paper, language=language, vocabulary="uk",
            left_handed=False, **options,
        )
        for edition, language, paper in ways
    ]  # fmt: skip
    shop_of(file, makings, watermark)
