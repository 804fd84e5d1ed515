"""A pattern file read whole: data with places, held against the schema, every value worked out for every size."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path as FilePath

from msgspec import Struct, field
from msgspec.structs import replace

from slath.language.bases import read_base
from slath.language.borders import read_border
from slath.language.checking import check
from slath.language.document import Document, read_document
from slath.language.extras import read_acceptance, read_gauge, read_packs, read_settings, read_stage, read_test_weave
from slath.language.gathering import gathered
from slath.language.handles import read_handles
from slath.language.in_languages import words_in as words_in_language
from slath.language.joined_parts import read_parts
from slath.language.keys import read
from slath.language.lids import read_fitting, read_lid
from slath.language.materials import read_materials, read_stock
from slath.language.measures import MeasureBook
from slath.language.offering import read_money, read_photograph
from slath.language.own_units import own_units
from slath.language.pattern import Material, Pattern, SizedPattern, WovenSize
from slath.language.places import Path
from slath.language.schemas import is_key, schema
from slath.language.sides import read_bye_stakes, read_side, read_stakes
from slath.language.sizes import check_sizes, size_names
from slath.language.source import read_source
from slath.language.variants import as_variant, variants_of, words_in
from slath.language.view import Reading, View
from slath.language.workshop import PREFIX, Workshop, read_workshop
from slath.messages.told import told
from slath.notes import Note, PatternFaultError, Place, Severity
from slath.trade import default_settings, find_stock
from slath.trade.stock import Pack, Stock

Packs = Mapping[str, tuple[Pack, ...]]


_PATTERN_KEY = re.compile(r"^(?:title|materials|base)[ ]*:", re.MULTILINE)
_WORKSHOP_KEYS = {"name", "stocks", "settings", "gauge", "packs"}  # at least one tells that it is meant for a workshop
_NO_BASE = {"kind": "ready made", "diameter": "1 ft"}  # a stand-in, so that the rest is still looked at


class _Files(Struct):
    """The pattern's document and the workshop's, joined: one table of places, faults and spellings."""

    pattern: Document
    workshop: Workshop
    sizes: tuple[str, ...]
    faulty: set[Path]
    misspelt: set[Path]
    places: dict[Path, tuple[Place, Place]] = field(default_factory=dict)
    raw: dict[Path, str] = field(default_factory=dict)
    inside: dict[Path, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for document, prefix in ((self.pattern, ()), (self.workshop.document, PREFIX)):
            if document is not None:
                self.places |= {(*prefix, *path): places for path, places in document.places.items()}
                self.raw |= {(*prefix, *path): text for path, text in document.raw.items()}
                self.inside |= {(*prefix, *path): shift for path, shift in document.inside.items()}
        self.faulty |= self.workshop.faulty

    def reading(self, size: str) -> Reading:
        """A reading of both files for one size."""
        return Reading(
            self.sizes, size, self.places, self.raw, self.inside, self.faulty, self.pattern.source.file, self.misspelt
        )


def read_pattern(path: FilePath, *, workshop: FilePath | None = None, variant: str = "", language: str = "") -> Pattern:
    """The pattern in the file at `path`, every value worked out for every size, warnings and advice in its notes.

    `workshop` is a workshop file given on the command line, in place of the one the pattern names; `variant` one of the
    file's variants, in place of the first; `language` the code of the one whose words are wanted of those the designer gives
    in several, in place of the file's own. PatternFaultError, with every note found, where the file leaves something that
    cannot be worked out; NoSuchVariantError for a variant it does not have; OSError where it cannot be opened.
    """
    written = read_document(read_source(path))
    document = as_variant(words_in_language(written, language), variant)
    sizes = size_names(document)
    size_notes, lacking = check_sizes(document, sizes, is_key)
    schema_notes, faulty, misspelt = check(document, schema("pattern"), sizes)
    files = _Files(
        document, read_workshop(document, path.parent, workshop), sizes, lacking | faulty | document.faulty, misspelt
    )
    notes = [*document.notes, *size_notes, *schema_notes, *files.workshop.notes]
    whole = files.reading("")
    packs = _packs(files, whole)
    taken = sizes[: schema("pattern")["properties"]["sizes"]["maxItems"]]  # a fault by now, where there are more
    readings = [_read_size(files, size, packs) for size in taken]
    pattern = _whole_pattern(files, whole, tuple(sized for _, sized in readings), packs)
    notes += gathered([reading.notes for reading, _ in readings], whole.notes, taken)
    if any(reading.incomplete for reading in (whole, *(reading for reading, _ in readings))):
        raise PatternFaultError(_in_order(notes))
    elsewhere = words_in({**written.data, "materials": (), "measures": ()}) if variants_of(written) else frozenset()
    notes += _unused(files, [reading for reading, _ in readings], elsewhere)
    known = variants_of(written)
    chosen = variant or (known[0].name if known else "")
    return replace(pattern, notes=_in_order(notes), variant=chosen, variants=known)


def check_workshop(path: FilePath) -> tuple[Note, ...] | None:
    """The notes on a workshop file taken by itself; None if the file at `path` is a pattern.

    PatternFaultError where it cannot be read as a file of keys at all; OSError where it cannot be opened.
    """
    source = read_source(path)
    if _PATTERN_KEY.search(source.text):
        return None
    document = read_document(source)
    if document.data.keys() & {"title", "materials", "base"} or not document.data.keys() & _WORKSHOP_KEYS:
        return None
    notes, faulty, _ = check(document, schema("workshop"), ())
    reading = Reading((), "", document.places, document.raw, document.inside, faulty | document.faulty, source.file)
    shop = View(document.data, (), reading)
    house = _house_stocks(shop)
    settings, gauge = shop.get("settings"), shop.get("gauge")
    read_settings([settings] if settings else [], default_settings())
    for item in gauge.items() if gauge else ():
        read_gauge(item, {}, house)
    read_packs(shop.get("packs"), house)
    shop.each("steps", read_stage)
    return _in_order([*document.notes, *notes, *reading.notes])


def _read_size(files: _Files, size: str, packs: Packs) -> tuple[Reading, SizedPattern]:
    reading = files.reading(size)
    top = View(files.pattern.data, (), reading)
    shop = _shop_view(files, reading)
    book = MeasureBook(top.get("measures"))
    reading.lookup = book.lookup
    measures = book.amounts()
    house = _house_stocks(shop)
    units = top.choice("units", own_units(files.pattern.data))
    settings = read_settings(
        [view for view in (shop and shop.get("settings"), top.get("settings")) if view], default_settings(units)
    )
    materials = read_materials(top.get("materials"), house, _by_own_name(packs))
    under, stakes, side = top.get("base"), top.get("stakes"), top.get("side")
    border, foot, lid = top.get("border"), top.get("foot"), top.get("lid")
    base = read_base(under if under is not None else View(_NO_BASE, ("base",), reading), materials, settings)
    woven = _woven(top, size, materials)
    # Where two speak of one weave the later holds: the pattern's own, not the workshop's.
    gauge_views = [view for view in (shop and shop.get("gauge"), top.get("gauge")) if view]
    sized = SizedPattern(
        size=size,
        woven_on=woven.on if woven else None,
        measures=measures,
        materials=materials,
        base=base,
        stakes=read_stakes(stakes, materials, base) if stakes else None,
        bye_stakes=top.each("bye_stakes", lambda view: read_bye_stakes(view, materials)),
        side=read_side(side, "side", base, materials) if side else None,
        border=read_border(border, materials) if border else None,
        foot=read_border(foot, materials, foot=True) if foot else None,
        handles=read_handles(top, materials),
        lid=read_lid(lid, materials, settings) if lid else None,
        gauge=tuple(read_gauge(item, materials, house) for view in gauge_views for item in view.items()),
        settings=settings,
        woven=woven,
        parts=read_parts(top, materials, settings),
        fittings=top.each("fittings", lambda view: read_fitting(view, materials)),
        units=units,
        measured=top.choice("measured", "at the stakes"),
        leftwards=top.choice("working_direction", "left to right") == "right to left",
        money=read_money(money) if (money := top.get("money")) else None,
    )
    reading.used |= {("measures", name): None for name in book.used}
    return reading, sized


def _packs(files: _Files, reading: Reading) -> Packs:
    """How stocks are sold, as the pattern says, or else its workshop."""
    top, shop = View(files.pattern.data, (), reading), _shop_view(files, reading)
    stocks = shop.get("stocks") if shop is not None else None
    house = list(stocks.data) if stocks is not None else []
    return (read_packs(shop.get("packs"), house) if shop else {}) | read_packs(top.get("packs"), house)


def _by_own_name(packs: Packs) -> Packs:
    """Packs by the name the stock itself has, however the designer spells it."""
    return {stock.name if (stock := find_stock(name)) else name: listed for name, listed in packs.items()}


def _whole_pattern(files: _Files, reading: Reading, sized: tuple[SizedPattern, ...], packs: Packs) -> Pattern:
    """What is the same for every size."""
    top = View(files.pattern.data, (), reading)
    shop = _shop_view(files, reading)
    stages = top.each("steps", read_stage)
    said = {stage.stage for stage in stages}
    house_stages = shop.each("steps", read_stage) if shop else ()
    return read(
        Pattern,
        top,
        {},
        file=files.pattern.source.file,
        workshop=top.text("workshop") or (shop.text("name") if shop else ""),
        units=top.choice("units", own_units(files.pattern.data)),
        sizes=sized,
        accept=top.each("accept", lambda view: read_acceptance(view, files.sizes)),
        stages=stages + tuple(stage for stage in house_stages if stage.stage not in said),
        tools=tuple(dict.fromkeys((shop.texts("tools") if shop else ()) + top.texts("tools"))),
        photographs=top.each("photographs", read_photograph),
        packs=packs,
        places=files.places,
    )


def _shop_view(files: _Files, reading: Reading) -> View | None:
    document = files.workshop.document
    return View(document.data, PREFIX, reading) if document is not None else None


def _house_stocks(shop: View | None) -> dict[str, Stock]:
    stocks = shop.get("stocks") if shop is not None else None
    return {name: read_stock(view, name) for name, view in stocks.entries()} if stocks else {}


def _woven(top: View, size: str, materials: Mapping[str, Material]) -> WovenSize | None:
    entries = top.data.get("woven")
    path: Path = ("woven", size)
    if (
        not isinstance(entries, dict)
        or size not in entries
        or path in top.reading.faulty
        or ("woven",) in top.reading.faulty
    ):
        return None
    return read_test_weave(View(entries[size], path, top.reading), materials)


def _unused(files: _Files, readings: list[Reading], elsewhere: frozenset[str]) -> list[Note]:
    """Advice on measures and materials that nothing uses: often a name typed otherwise elsewhere. Names used `elsewhere`, in
    any variant, are none of them.
    """
    used = {name for reading in readings for name in reading.used}
    used |= {(key, name) for key in ("measures", "materials") for name in elsewhere}
    notes = []
    for key, code in (("measures", "measure-unused"), ("materials", "material-unused")):
        for name in files.pattern.data.get(key) or ():
            path: Path = (key, name)
            if (key, name) not in used and name not in files.sizes and path in files.places:
                notes.append(
                    Note(
                        code,
                        Severity.ADVICE,
                        files.places[path][0],
                        told("Nothing uses the {key} {name}.", key=key[:-1], name=name),
                        remedies=(told("take it out, or use its name"),),
                    )
                )
    return notes


def _in_order(notes: list[Note]) -> tuple[Note, ...]:
    """Each note once, in the order of the file; of several faults at one place, the first found stands first."""
    return tuple(sorted(dict.fromkeys(notes), key=lambda note: note.place))
