"""Keys of the language, each declared once: on the field of the record it is read into.

A field ``lay_mm: Annotated[float | None, length("Length of bow for one turn.")] = None`` is the key `lay` in the schema, in
what editors complete and explain, in the quick look before the schema, and in the reading, which makes the record. A field
without a key is worked out, and given to `read` by whoever reads the record.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, TypeVar, get_args, get_origin

from msgspec import Struct, field
from msgspec.structs import replace

from slath.language.formula import NUMBER
from slath.language.view import GREATEST_COUNT, GREATEST_LENGTH_MM, View
from slath.units.names import Dimension

Schema = dict[str, Any]
Materials = Mapping[str, object]
Record = TypeVar("Record", bound=Struct)


if TYPE_CHECKING:
    from typing import Annotated as Annotated  # noqa: PLC0414 - handed on to the records
else:

    class Annotated(Struct, frozen=True):
        """A type with its key. What `typing` makes of the same costs thirty times as much, at every start, for each field."""

        kind: Any
        key: Key

        def __class_getitem__(cls, said: tuple[Any, Key]) -> Annotated:
            return cls(*said)


class Key(Struct, frozen=True):
    """A key: the schema of its value, how that is read, and what an editor says of it.

    `name` is its name where it is not that of its field; `needed`, whether it must be given, where that does not follow from
    the field having no default. `stand_in` takes the place of a value at fault, so that the rest is still read. `once`: no
    value a size.
    """

    part: Schema
    read: Callable[[View, Materials], Any]
    words: str = ""
    name: str = ""
    needed: bool | None = None
    stand_in: Any = None
    once: bool = False

    def schema(self) -> Schema:
        """The schema of its value, with its words."""
        said = {"description": self.words} if self.words else {}
        return said | self.part | ({"x-one-for-all-sizes": True} if self.once else {})


class Declared(Struct, frozen=True):
    """A part of the language: the record it is read into, and what holds of its keys together.

    `also`: keys that are worked into fields, and none themselves. `fields`: keys of a record that declares none itself, or
    other ones than it declares; None: not a key here. `includes`: parts whose keys stand among its own, `without` some of
    them; `hidden`: a part that stands nowhere else. `otherwise`: what may stand in place of its set of
    keys. `one_of`: exactly one of these is given; `some_of`: one set of these at least. `needs`: keys that call for others.
    `listed`: what it is called where a list of them may stand in its place. `more`: what else its schema says.
    """

    record: type[Struct] | None = None
    words: str = ""
    example: str = ""
    kind: str = ""
    also: Mapping[str, Key] = field(default_factory=dict)
    fields: Mapping[str, Key | None] = field(default_factory=dict)
    includes: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    hidden: bool = False
    otherwise: Schema = field(default_factory=dict)
    one_of: tuple[str, ...] = ()
    some_of: tuple[tuple[str, ...], ...] = ()
    needs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    listed: str = ""
    more: Schema = field(default_factory=dict)


class _Field(Struct, frozen=True):
    name: str
    key: str
    said: Key
    optional: bool


DECLARED: dict[str, Declared] = {}
FORMS: dict[str, Schema] = {}  # parts that are no record: forms of single values, and one part out of several
_PART_OF: dict[type[Struct], str] = {}


def declare(part: str, words: str = "", record: type[Struct] | None = None, **said: Any) -> None:
    """Declare a `part` of the language; `said` are fields of `Declared`."""
    DECLARED[part] = Declared(record, words, **said)
    if record is not None:
        _PART_OF.setdefault(record, part)


def declared(part: str, words: str = "", **said: Any) -> Callable[[type[Record]], type[Record]]:
    """Declare the record below as a `part` of the language."""

    def declaring(record: type[Record]) -> type[Record]:
        declare(part, words, record, **said)
        return record

    return declaring


@cache
def keys_of(part: str) -> tuple[_Field, ...]:
    """The keys of a part that are fields of its record, in their order."""
    declaration = DECLARED[part]
    return tuple(_keys(declaration.record, declaration.fields)) if declaration.record is not None else ()


def _keys(record: type[Struct], otherwise: Mapping[str, Key | None]) -> Iterable[_Field]:
    required = len(record.__struct_fields__) - len(record.__struct_defaults__)
    for index, field_name in enumerate(record.__struct_fields__):
        kind = record.__annotations__[field_name]
        own = getattr(kind, "key", None)
        said = otherwise.get(field_name, own)
        if said is None:
            continue
        if said.part.get("enum") == ():
            said = replace(said, part=said.part | {"enum": list(_choices(kind.kind))})
        if own is not None and type(None) in get_args(kind.kind):
            said = replace(said, stand_in=None)
        key = said.name or field_name.removesuffix("_mm").removesuffix("_g")
        yield _Field(field_name, key, said, index >= required)


def _choices(kind: Any) -> Iterable[str]:
    """The words of a literal type, whatever else the type allows besides."""
    if get_origin(kind) is Literal:
        yield from get_args(kind)
    else:
        for inner in get_args(kind):
            yield from _choices(inner)


@cache
def properties_of(part: str) -> dict[str, Schema]:
    """The schema of every key of a declared part."""
    said = DECLARED[part]
    properties: dict[str, Schema] = {"kind": {"const": said.kind}} if said.kind else {}
    properties |= {each.key: each.said.schema() for each in keys_of(part)}
    for other in said.includes:
        properties |= {name: key for name, key in properties_of(other).items() if name not in said.without}
    return properties | {name: key.schema() for name, key in said.also.items()}


def part_schema(part: str) -> Schema:
    """The schema of a declared part."""
    own, said = keys_of(part), DECLARED[part]
    needed = [each.key for each in own if (not each.optional if each.said.needed is None else each.said.needed)]
    holds: Schema = {
        "x-example": said.example,
        "description": said.words,
        "required": needed + [name for name, key in said.also.items() if key.needed],
        "oneOf": [{"required": [key]} for key in said.one_of],
        "anyOf": [{"required": list(keys)} for keys in said.some_of],
        "dependentRequired": {key: list(others) for key, others in said.needs.items()},
    }
    present = {word: value for word, value in holds.items() if value}
    keys = {"additionalProperties": False, "properties": properties_of(part), **said.more}
    if not said.otherwise:
        return {**present, "type": "object", **keys}
    outside: Schema = {word: present.pop(word) for word in ("x-example", "description") if word in present}
    return {**outside, "if": {"type": "object"}, "then": present | keys, "else": said.otherwise}


def list_schema(part: str, called: str) -> Schema:
    """The schema of a part, or of a list of them; `called`: what one is called."""
    wants = f"{called}, or a list of them"
    own = refer(part)
    return {
        "x-wants": wants,
        "type": ["object", "array"],
        "minItems": 1,
        "items": own,
        "if": {"type": "object"},
        "then": own,
    }


def read(record: type[Record], view: View, materials: Materials, part: str = "", /, **worked_out: Any) -> Record:
    """The record at `view`: every field by its key, but those that are `worked_out` by whoever asks."""
    values = {"path": view.path} | worked_out if "path" in record.__annotations__ else dict(worked_out)
    for each in keys_of(part or _PART_OF[record]):
        if each.name in worked_out:
            continue
        item = view.get(each.key)
        found = each.said.read(item, materials) if item is not None else None
        if found is not None:
            values[each.name] = found
        elif not each.optional:
            values[each.name] = each.said.stand_in
    return record(**values)


# ----------------------------------------------------------------------------------------------------- kinds of value
def refer(part: str) -> Schema:
    """A part by its name."""
    return {"$ref": f"#/$defs/{part}"}


def text(words: str = "", part: str | Schema = "text", examples: str = "", **said: Any) -> Key:
    """Words, printed as they are written. `examples` names the list of which an editor offers them."""
    own = (refer(part) if isinstance(part, str) else part) | ({"x-examples": examples} if examples else {})
    return Key(own, lambda item, _: item.printed_text(), words, stand_in="", **said)


def texts(words: str = "", part: str | Schema = "texts", **said: Any) -> Key:
    """Words, or a list of them."""
    own = refer(part) if isinstance(part, str) else part
    return Key(own, lambda item, _: tuple(each.printed_text() for each in item.items()), words, stand_in=(), **said)


def material(words: str = "", **said: Any) -> Key:
    """One of the pattern's materials, by its key."""
    return Key(refer("name"), lambda item, known: item.own_material(known), words, stand_in="", **said)


def materials(words: str = "", part: str = "strands", **said: Any) -> Key:
    """Materials in their order, or one."""
    return Key(
        refer(part),
        lambda item, known: tuple(each.own_material(known) for each in item.items()),
        words,
        stand_in=(),
        **said,
    )


def choice(
    words: str = "", say: Mapping[str, str] | None = None, among: Iterable[Any] = (), default: str = "", **said: Any
) -> Key:
    """One of the words of the field's literal type, or of those it is `among`.

    `say` are remedies, each with the other words of the trade it answers, parted by commas.
    """
    part: Schema = {"enum": list(among) or ()}
    if say:
        part["x-say"] = {word: remedy for remedy, words in say.items() for word in words.split(", ")}
    if default:
        part["default"] = default
    return Key(part, lambda item, _: item.printed_text(), words, **said)


def yes(words: str = "", **said: Any) -> Key:
    """Yes or no."""
    return Key(refer("yes_or_no"), lambda item, _: item.own_yes(), words, stand_in=False, **said)


def day(words: str = "", *, as_text: bool = False, **said: Any) -> Key:
    """A day, or its text."""

    def own(item: View, _: Materials) -> Any:
        found = item.own_day()
        return found.isoformat() if found and as_text else found

    return Key(refer("date"), own, words, **said)


def length(
    words: str = "", *, nought: bool = False, most: float = GREATEST_LENGTH_MM, stand_in: float = 1.0, **said: Any
) -> Key:
    """A length, mm; more than nothing, or `nought` too."""
    return Key(
        refer("length"), lambda item, _: item.own_length(nought=nought, most=most), words, stand_in=stand_in, **said
    )


def mass(words: str = "", **said: Any) -> Key:
    """A mass, g."""
    return Key(refer("mass"), lambda item, _: item.quantity(Dimension(0, 1)), words, **said)


def ratio(words: str = "", **said: Any) -> Key:
    """A plain number."""
    return Key(refer("ratio"), lambda item, _: item.quantity(NUMBER), words, **said)


def money(words: str = "", **said: Any) -> Key:
    """A price."""
    return Key(refer("money"), lambda item, _: float(item.data), words, stand_in=0.0, **said)


def count(words: str = "", *, least: int = 1, most: int = GREATEST_COUNT, part: str = "count", **said: Any) -> Key:
    """A whole number."""
    return Key(refer(part), lambda item, _: item.own_count(least=least, most=most), words, stand_in=least, **said)


def counts(words: str = "", *, most: int = GREATEST_COUNT, part: Schema | None = None, **said: Any) -> Key:
    """A whole number, or a list of them."""
    own = part or refer("count_or_list")
    return Key(
        own, lambda item, _: tuple(each.own_count(most=most) for each in item.items()), words, stand_in=(), **said
    )


def worked(words: str = "", part: str = "worked", **said: Any) -> Key:
    """How many uprights are taken together."""
    return Key(refer(part), lambda item, _: item.own_together(), words, **said)


def span(words: str = "", **said: Any) -> Key:
    """From one number to another, or one."""
    return Key(refer("range"), lambda item, _: item.own_span(), words, stand_in=(1, 1), **said)


def spans(words: str = "", **said: Any) -> Key:
    """From one number to another, or several such."""
    own = refer("stretches")
    return Key(own, lambda item, _: tuple(each.own_span() for each in item.items()), words, stand_in=(), **said)


def by_name(value: Key, words: str = "", names: Schema | None = None, **said: Any) -> Key:
    """A value under each of several names."""
    part: Schema = {"type": "object", "additionalProperties": value.part} | (names or {})

    def under(item: View, known: Materials) -> dict[str, Any]:
        return {name: value.read(each, known) for name, each in item.entries()}

    return Key(part, under, words, **said)


def one(record: type[Struct], part: str = "", words: str = "", **said: Any) -> Key:
    """A declared part."""
    return Key(refer(part), lambda item, known: read(record, item, known), words, **said)


def many(record: type[Struct], part: str, words: str = "", **said: Any) -> Key:
    """A declared part, or a list of them."""
    return Key(
        refer(f"{part}_or_list"), lambda item, known: tuple(read(record, each, known) for each in item.items()), words,
        stand_in=(), **said,
    )  # fmt: skip


def by_hand(part: str | Schema, words: str = "", **said: Any) -> Key:
    """A value that whoever reads the whole works out; left out where nobody does."""
    return Key(refer(part) if isinstance(part, str) else part, lambda _item, _known: None, words, **said)
