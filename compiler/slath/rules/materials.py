"""Materials: what is used, in what order of thickness, how sure its figures are, and how old its prices."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from slath.basket.made_parts import part_alone
from slath.language.pattern import (
    Band,
    Base,
    Board,
    Border,
    Frame,
    Lid,
    Material,
    OvalSlath,
    ReadyMade,
    RoundSlath,
    Side,
    SizedPattern,
    StakeChange,
)
from slath.language.places import Path
from slath.messages.told import Figure, told
from slath.rules.finding import Context, Finding
from slath.rules.stock_choice import numbered_above, numbers_apart, stock_at_most
from slath.trade import find_stock, suspect_density
from slath.trade.stock import Pack

_USUAL_NUMBERS = 2  # Mary White, How to Make Baskets (1901): stakes about two numbers coarser than the weavers
_WIDEST_NUMBERS = 4  # published pairs go from one to four numbers apart (Gill 1916: No. 5 stakes with No. 2 weavers)


# ------------------------------------------------------------------------------------------------------------- used
def used_materials(sized: SizedPattern) -> frozenset[str]:
    """The keys of every material that some part of the pattern is made of."""
    used = set(_of_base(sized.base)) | set(_of_side(sized.side))
    used |= set(sized.stakes.materials) if sized.stakes else set()
    used |= {key for bye in sized.bye_stakes for key in (bye.material, *bye.in_turn)}
    for handle in sized.handles:
        used |= {handle.material, handle.lash}
        used |= {key for wrap in handle.wraps for key in wrap.strands}
    used |= {fitting.material for fitting in sized.fittings}
    used |= set(_of_foot(sized.foot)) if sized.foot else set()
    if sized.lid:
        used |= set(_of_lid(sized.lid))
    for part in sized.parts:
        used |= used_materials(part_alone(part, sized)) | {part.join.material}
    return frozenset(used)


def _of_foot(foot: Border) -> Iterator[str]:
    if foot.stakes is not None:
        yield foot.stakes.material
    for band in foot.bands:
        yield from band.strands


def _of_lid(lid: Lid) -> Iterator[str]:
    yield from (lid.ring, *_of_base(lid.base), *_of_side(lid.side))
    yield from lid.stakes.materials if lid.stakes else ()
    yield from (handle.material for handle in lid.handles)
    for part in (lid.hinge, lid.fastening, lid.knob):
        if part is not None:
            yield part.material


def _of_base(base: Base) -> Iterator[str]:
    if isinstance(base, RoundSlath | Frame | Board):
        yield base.material
    if isinstance(base, Frame) and base.corner_posts is not None:
        yield base.corner_posts.material
    elif isinstance(base, OvalSlath):
        yield from (base.lengthwise_material, base.crosswise_material)
    if not isinstance(base, Board | ReadyMade):
        for band in base.weaving:
            yield from band.strands


def _of_side(side: Side | None) -> Iterator[str]:
    for item in side.bands if side else ():
        if isinstance(item, Band):
            yield from item.strands
        elif isinstance(item, StakeChange):
            yield item.material


# -------------------------------------------------------------------------------------------------------- thickness
def stakes_coarser(context: Context) -> Iterator[Finding]:
    """Stakes about two numbers coarser than the weavers stand up to them and still turn down in the border."""
    stakes, main = context.sized.stakes, _main_weaver(context)
    if stakes is None or main is None:
        return
    stake = context.material(stakes.material).stock
    apart = numbers_apart(stake, main.stock)
    if apart is None or 1 <= apart <= _WIDEST_NUMBERS or stake.thickness_mm < main.thickness_mm:
        return
    weaver = main.stock
    better = numbered_above(weaver, _USUAL_NUMBERS)
    said = (
        told("of the same number as")
        if apart == 0
        else told("{apart} numbers coarser than", apart=Figure(f"{apart:g}"))
    )
    yield Finding(
        (*stakes.path, "material"),
        "stakes",
        told(
            "The stakes ({stake}) are {related} the main weaver ({weaver}); about two numbers coarser is usual.",
            stake=stake.name,
            related=said,
            weaver=weaver.name,
        ),
        (
            told("use stakes of {better} with this weaver", better=better)
            if better
            else told("use stakes two numbers coarser"),
        ),
    )


def _main_weaver(context: Context) -> Material | None:
    """The material most of the side is woven with."""
    lengths: dict[str, float] = {}
    for run in context.quantities.strands:
        if run.part not in {"base", "foot"}:
            lengths[run.material] = lengths.get(run.material, 0.0) + run.woven_mm.value
    return context.material(max(lengths, key=lambda key: lengths[key])) if lengths else None


def willow_in_order(context: Context) -> Iterator[Finding]:
    """In willow the base sticks are the thickest rods, the stakes next, the weavers the thinnest."""
    stakes = context.sized.stakes
    if stakes is None or context.material(stakes.material).stock.kind != "willow":
        return
    stake = context.material(stakes.material)
    for key in dict.fromkeys(stick.material for stick in context.basket.base.cut_sticks):
        stick = context.material(key)
        if stick.stock.kind == "willow" and stick.thickness_mm < stake.thickness_mm:
            yield Finding(
                context.sized.base.path,
                "base",
                told(
                    "Base sticks of {stick_stock} are {thickness} thick, thinner than the stakes of {stake_stock}, {thickness2}; the sticks carry the basket.",
                    stick_stock=stick.stock.name,
                    thickness=context.measure(stick.thickness_mm),
                    stake_stock=stake.stock.name,
                    thickness2=context.measure(stake.thickness_mm),
                ),
                (
                    told("use sticks of {thickness} or more", thickness=context.measure(stake.thickness_mm)),
                    told("use thinner stakes"),
                ),
            )
    for band in context.on_stakes:
        for key in dict.fromkeys(band.spec.strands):
            weaver = context.material(key)
            # Waling rods are of the stakes' own class in common practice, no source; only thicker ones bend the stakes.
            thicker = weaver.thickness_mm > stake.thickness_mm
            alike = weaver.thickness_mm == stake.thickness_mm and band.spec.weave.kind != "wale"
            if weaver.stock.kind == "willow" and (thicker or alike):
                yield Finding(
                    (*band.spec.path, "strands"),
                    told("side band {index}", index=band.index + 1),
                    told(
                        "Weavers of {weaver_stock} are {thickness} thick, {thicker?thicker|no finer} than the stakes of {stake_stock}, {thickness2}.",
                        weaver_stock=weaver.stock.name,
                        thickness=context.measure(weaver.thickness_mm),
                        thicker=thicker,
                        stake_stock=stake.stock.name,
                        thickness2=context.measure(stake.thickness_mm),
                    ),
                    (
                        told("weave with rods a class shorter{finer}", finer=_finer(weaver, stake)),
                        told("use thicker stakes"),
                    ),
                )


def _finer(weaver: Material, stake: Material) -> str:
    return stock_at_most(weaver.stock, stake.thickness_mm - 0.1)


def sticks_carry_stakes(context: Context) -> Iterator[Finding]:
    """Base sticks are the thickest part: stakes that are pushed in beside thinner ones pull the base about."""
    stakes = context.sized.stakes
    if stakes is None or not context.basket.base.sticks:
        return
    stake = context.material(stakes.material)
    sticks = [context.material(stick.material) for stick in context.basket.base.cut_sticks]
    thinnest = min(sticks, key=lambda item: item.thickness_mm)
    if thinnest.stock.kind == stake.stock.kind == "willow" or thinnest.thickness_mm >= stake.thickness_mm:
        return
    finer = stock_at_most(stake.stock, thinnest.thickness_mm)
    yield Finding(
        context.sized.base.path,
        "base",
        told(
            "The base sticks are {thickness} thick and the stakes set in beside them {thickness2}; the sticks carry the basket and are the thickest part of it.",
            thickness=context.measure(thinnest.thickness_mm),
            thickness2=context.measure(stake.thickness_mm),
        ),
        (
            told("use sticks of {thickness} or more", thickness=context.measure(stake.thickness_mm)),
            told(
                "use stakes of at most {thickness}{finer}",
                thickness=context.at_most(thinnest.thickness_mm),
                finer=finer,
            ),
        ),
    )


# ---------------------------------------------------------------------------------------------------------- figures
def density_believable(context: Context) -> Iterator[Finding]:
    """Size and mass together give a density; reed and cane outside 0.40 to 0.65 g/cm³ have one of the two wrong."""
    used = used_materials(context.sized)
    for key, material in context.sized.materials.items():
        density = suspect_density(material.stock) if key in used else None
        if density is not None:
            yield Finding(
                (*material.path, "stock"),
                "materials",
                told(
                    "{material_stock}: its thickness and its mass give {density} g/cm³; reed and cane lie between 0.40 and 0.65, so one of the two figures is wrong.",
                    material_stock=material.stock.name,
                    density=Figure(f"{density:.2f}"),
                ),
                (
                    told("measure its thickness with callipers"),
                    told("weigh a measured length and give mass_per_length"),
                ),
            )


def prices_fresh(context: Context) -> Iterator[Finding]:
    """A price much older than the edition misleads the buyer."""
    dated, most = context.pattern.dated, context.setting("price_age")
    for path, stock, pack in _priced(context):
        priced = _day(pack.priced_on)
        if priced is None:
            yield Finding(
                path,
                "materials",
                told("The price of {stock}, {pack}, has no day.", stock=stock, pack=pack.title),
                (told("say when it was asked (priced_on: year-month-day)"),),
            )
        elif dated and (dated - priced).days > most:
            from_whom = told(" from {supplier}", supplier=pack.supplier) if pack.supplier else ""
            yield Finding(
                (*path, "priced_on"),
                "materials",
                told(
                    "The price of {stock}, {pack}{from_whom}, is {days} days older than this edition.",
                    stock=stock,
                    pack=pack.title,
                    from_whom=from_whom,
                    days=(dated - priced).days,
                ),
                (told("ask for the price again and date it"), told("leave the price out")),
            )


def _day(written: str) -> date | None:
    try:
        return date.fromisoformat(written)
    except ValueError:
        return None


def _priced(context: Context) -> Iterator[tuple[Path, str, Pack]]:
    """Every priced pack of a stock that is used: its place in the pattern or its workshop file, and its stock."""
    used = used_materials(context.sized)
    materials = [material for key, material in context.sized.materials.items() if key in used]
    named = {material.stock.name for material in materials}
    listed: set[Pack] = set()
    for name, packs in context.pattern.packs.items():
        stock = find_stock(name)
        listed |= set(packs)
        if (stock.name if stock else name) in named:
            own: Path = ("packs", name)
            path = own if own in context.pattern.places else ("workshop_file", *own)
            yield from (((*path, index), name, pack) for index, pack in enumerate(packs) if pack.price is not None)
    for material in materials:
        for index, pack in enumerate(material.stock.packs):
            if pack.price is not None and pack not in listed:
                yield (*material.path, "stock", "packs", index), material.stock.name, pack


def tops_long_enough(context: Context) -> Iterator[Finding]:
    """Strands taken from the tops of whole rods are no longer and no more than what is cut off these."""
    whole = [piece for piece in context.quantities.pieces if piece.whole]
    for piece in context.quantities.pieces:
        if not piece.offcut:
            continue
        own = [stake for stake in whole if stake.material == piece.material]
        rod = context.material(piece.material).stock.length_class_mm or 0.0
        left = max((rod - stake.needed_mm.value for stake in own), default=0.0)
        tops = sum(round(stake.count.value) for stake in own)
        many, needed = round(piece.count.value), piece.cut_mm.value
        if own and needed <= left and many <= tops:
            continue
        if not own:
            reason = told(
                "no whole rods of {material} are worked into the border",
                material=context.material(piece.material).title,
            )
        elif needed > left:
            reason = told(
                "each must be {needed} long, and {left} is cut off a rod",
                needed=context.measure(needed),
                left=context.measure(max(left, 0.0)),
            )
        else:
            reason = told("{many} are needed, and {tops} tops are cut off", many=many, tops=tops)
        remedies = (told("take stakes of a longer class"), told("leave offcuts out: rods of their own are bought"))
        yield Finding(
            (*piece.path, "offcuts"),
            "handle",
            told("The tops do not serve for this: {reason}.", reason=reason),
            remedies,
        )
