"""The designer's own words, and the warnings overruled."""

from msgspec import Struct

from slath.language import keys as key
from slath.language.keys import Annotated, declare, declared
from slath.language.places import Path


@declared(
    "acceptance", listed="an acceptance", example="{code: size-not-woven, reason: woven last year from older numbers}"
)
class Acceptance(Struct, frozen=True):
    """A warning the designer overrules, with the reason printed in the proof. Empty `size`/`part` means any."""

    path: Path
    code: Annotated[str, key.text("The warning's code, as slath check prints it.")]
    reason: Annotated[str, key.text("Why it may stand.")]
    size: Annotated[str, key.text("Only for this size.")] = ""
    part: Annotated[str, key.text("Only for this part.")] = ""


@declared(
    "stage",
    "Your words for one stage.",
    listed="a stage",
    example="{stage: border, notes: [Leave the first two loops loose.]}",
)
class StageWords(Struct, frozen=True):
    """The designer's own words for one stage: `replace` its steps, or add notes, cautions and pictures."""

    path: Path
    stage: Annotated[str, key.text("Which stage: base, stakes, a band's name, border, handle, finish.")]
    replace: Annotated[
        tuple[str, ...], key.texts("Steps in place of the written ones; numbers as {band.spiral.rounds}.")
    ] = ()
    notes: Annotated[tuple[str, ...], key.texts("Remarks added.")] = ()
    safety: Annotated[tuple[str, ...], key.texts("Cautions for people, printed before the action.")] = ()
    care: Annotated[tuple[str, ...], key.texts("Cautions for the work, printed before the action.")] = ()
    pictures: Annotated[
        tuple[tuple[str, str], ...], key.by_hand("picture_or_list", "Pictures from this folder.")
    ] = ()  # (file beside the pattern, alternative text)
    figures: Annotated[tuple[str, ...] | None, key.texts("Which figures go here, by name.")] = None


declare(
    "picture",
    example="{file: rim.png, shows: The rim from above.}",
    listed="a picture",
    also={
        "file": key.text("The picture's file, beside the pattern.", needed=True),
        "shows": key.text("What it shows, in words that do without it.", needed=True),
    },
)
