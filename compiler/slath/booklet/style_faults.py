"""What is wrong with a style file, in words: the file, the line, the key, and what would be right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from jsonschema import ValidationError

from slath.language.spelling import nearest, or_list

LEAST_LINE = 40.0  # mm; a shorter line holds no step
LEAST_COLUMN = 60.0  # mm; a lower page holds no step with its figure
_KINDS = {
    "number": "a number",
    "integer": "a whole number",
    "string": "text",
    "boolean": "yes or no",
    "array": "a list in square brackets",
    "object": "a set of keys with their values",
}


def fault_words(error: ValidationError) -> str:  # noqa: PLR0911 - one line for each keyword of the schema
    """One finding of the schema as a sentence."""
    said: Any = error.instance
    keyword: Any = error.validator_value
    match error.validator:
        case "additionalProperties":
            known = _known(error)
            strange = next(key for key in said if key not in known)
            near = nearest(str(strange), known)
            return f"there is no key {strange!r} here" + (
                f"; did you mean {near}?" if near else f"; there are {or_list(known)}"
            )
        case "required":
            missing = [key for key in keyword if key not in said]
            return f"{or_list(missing).replace(' or ', ' and ')} must be given"
        case "type":
            return f"must be {_KINDS[keyword]}, not {_shown(said)}"
        case "enum":
            return f"must be {or_list(str(one) for one in keyword)}, not {_shown(said)}"
        case "pattern":
            return f'must be a colour such as "#7d3f21" in quotes, not {_shown(said)}'
        case "minimum" | "maximum":
            limit = "less" if error.validator == "minimum" else "more"
            return f"must be no {limit} than {keyword}, not {_shown(said)}"
        case "uniqueItems":
            return "names one thing twice"
        case "minItems" | "minLength":
            return "must not be empty"
        case _:
            return str(error.message)


def _shown(value: Any) -> str:
    return "nothing" if value is None else f"{value!r}"


def room_fault(line: float, height: float, paper: str) -> str:
    """What is wrong with margins and columns on one paper: too short a line or too low a page, both in mm; empty if
    nothing is.
    """
    if line < LEAST_LINE:
        return (
            f"a line of text on {paper} is {max(line, 0.0):.0f} mm long, and at least {LEAST_LINE:.0f} mm are "
            "needed: lessen margins, columns, gutter, grid or indent"
        )
    if height < LEAST_COLUMN:
        return (
            f"a page of {paper} has {max(height, 0.0):.0f} mm for text between its margins, and at least "
            f"{LEAST_COLUMN:.0f} mm are needed: lessen margins.top or margins.bottom"
        )
    return ""


def line_in(text: str, path: Sequence[str | int]) -> int:
    """The line of a YAML file on which the value of ``path`` begins, or the innermost part of it that is there."""
    import yaml  # noqa: PLC0415

    node = yaml.compose(text, Loader=yaml.SafeLoader)
    line = 1
    for step in path:
        found = None
        if isinstance(node, yaml.MappingNode):
            found = next(((key, value) for key, value in node.value if key.value == step), None)
        elif isinstance(node, yaml.SequenceNode) and isinstance(step, int) and step < len(node.value):
            found = (node.value[step], node.value[step])
        if found is None:
            break
        line, node = found[0].start_mark.line + 1, found[1]
    return int(line)


def place(path: Sequence[str | int]) -> str:
    """A key as it is written in messages: ``margins.inner``, ``paper 2``."""
    words = ""
    for step in path:
        words += f" {step + 1}" if isinstance(step, int) else f".{step}" if words else step
    return words


def strange_key(error: ValidationError) -> tuple[str, ...]:
    """The key a finding is about, where it is one that should not be there, so that its line can be told."""
    if error.validator != "additionalProperties" or not isinstance(error.instance, Mapping):
        return ()
    known = _known(error)
    return (str(next(key for key in error.instance if key not in known)),)


def _known(error: ValidationError) -> list[str]:
    """The keys there may be where one too many was found."""
    schema: Any = error.schema
    return list(schema["properties"])
