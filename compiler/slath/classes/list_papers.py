"""The shopping list, the cutting plan and the dye sheets as papers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from slath.booklet.blocks import (
    Block,
    Caution,
    Column,
    Definition,
    Definitions,
    Document,
    Heading,
    Notice,
    PageBreak,
    Paragraph,
    Row,
    TickBox,
    Words,
    pieces_of,
)  # fmt: skip
from slath.classes.cutting import CutLength, StockPlan
from slath.classes.dyeing import Dyeing
from slath.classes.kits import Summed
from slath.classes.prepared import order_days
from slath.classes.shopping import ToBuy
from slath.classes.telling import Teller, blocks_of, joined, money, own, table, to_fill_in
from slath.messages import Length, Mass, message
from slath.trade.cautions import cautions
from slath.wording.cautioning import said_as

FEW = 4  # names told in a cell; more are counted


# ------------------------------------------------------------------------------------------------------ shopping list
def shopping_document(teller: Teller) -> Document:
    """What to buy for the whole class, what it costs, what is left over, and the sums the kits come to."""
    voice, shopping = teller.voice, teller.prepared.shopping
    name = voice.text(message("class.shopping-list"))
    people = len(teller.prepared.roster.record.people)
    blocks = blocks_of(
        Heading(1, name),
        Paragraph(voice.say(message("class.bought-for", people=people, days=own(teller.days()))), role="lead"),
        Paragraph(voice.say(message("class.bought-once", home=teller.prepared.roster.record.dyed_at_home))),
        _to_buy(teller),
        _costs(teller),
        Notice(voice.say(message("class.no-price", items=own(", ".join(shopping.unpriced))))) if shopping.unpriced else None,
        _left_over(teller),
        Heading(2, voice.say(message("class.summed-pieces"))),
        Paragraph(voice.say(message("class.summed-from"))),
        _sums(teller),
    )  # fmt: skip
    return teller.document(name, blocks)


def _to_buy(teller: Teller) -> Block | None:
    voice, days = teller.voice, order_days(teller.prepared)

    def row(item: ToBuy) -> Row:
        bought = item.purchase
        by = days.get(item.suppliers[0] if item.suppliers else "")
        rods = bought.rods.value if bought.rods is not None else None
        taken = f"{rods:.0f}" if rods is not None else voice.long(bought.length_mm.value, up=True)
        return Row((
            teller.stock(item.stock, item.dye),
            voice.say(message("class.rods", count=round(rods))) if rods is not None else taken,
            voice.long(bought.have_mm.value) if bought.have_mm is not None and bought.have_mm.value else "",
            voice.long(bought.buy_mm.value, up=True) if rods is None else "",
            voice.mass(bought.mass_g.value) if bought.mass_g is not None else "",
            ", ".join(f"{pack.count} × {pack.title}" for pack in bought.packs if pack.count),
            by.isoformat() if by is not None and bought.buy_mm.value > 0 else "",
        ))  # fmt: skip

    columns = (
        Column(voice.text(message("class.material")), row_header=True, weight=2.0),
        Column(voice.text(message("class.taken"))),
        Column(voice.text(message("class.in-hand"))),
        Column(voice.text(message("class.to-buy"))),
        Column(voice.text(message("class.weight"))),
        Column(voice.text(message("class.packs"))),
        Column(voice.text(message("class.order-by"))),
    )
    rows: list[Row] = []
    for supplier, items in groupby(
        sorted(teller.prepared.shopping.rows, key=lambda item: not item.suppliers),  # a stable sort
        key=lambda item: item.suppliers[0] if item.suppliers else "",
    ):
        rows.append(Row((supplier or voice.text(message("class.no-supplier")),), kind="group"))
        rows += [row(item) for item in items]
    return table(voice.text(message("class.to-buy-for-class")), columns, rows)


def _costs(teller: Teller) -> Block | None:
    voice = teller.voice
    rows = []
    fee = teller.prepared.roster.record.fee
    for cost in teller.prepared.shopping.costs:
        rows.append(Row((voice.text(message("class.cost-by-packs")), money(cost.by_packs, cost.currency),
                         money(cost.a_head_by_packs, cost.currency))))  # fmt: skip
        rows.append(Row((voice.text(message("class.cost-by-use")), money(cost.by_use, cost.currency),
                         money(cost.a_head_by_use, cost.currency))))  # fmt: skip
        if fee is not None and fee.currency == cost.currency:
            rows.append(Row((voice.text(message("class.fees")), money(fee.amount * cost.people, fee.currency),
                             money(fee.amount, fee.currency))))  # fmt: skip
    columns = (
        Column(voice.text(message("class.cost")), row_header=True, weight=2.0),
        Column(voice.text(message("class.in-all")), align="right"),
        Column(voice.text(message("class.a-head")), align="right"),
    )
    return table(voice.text(message("class.what-it-costs")), columns, rows)


def _left_over(teller: Teller) -> Block | None:
    voice = teller.voice
    offcuts = {(plan.stock.name, plan.dye): plan.left_mm for plan in teller.prepared.plans}
    rows = []
    for item in teller.prepared.shopping.rows:
        surplus = item.purchase.surplus_mm.value if item.purchase.surplus_mm is not None else 0.0
        short = offcuts.get((item.stock.name, item.dye), 0.0)
        if surplus > 0 or short > 0:
            rows.append(
                Row(
                    (
                        teller.stock(item.stock, item.dye),
                        voice.long(surplus) if surplus else "",
                        voice.long(short) if short else "",
                    )
                )
            )
    columns = (
        Column(voice.text(message("class.material")), row_header=True, weight=2.0),
        Column(voice.text(message("class.uncut"))),
        Column(voice.text(message("class.offcuts"))),
    )
    return table(voice.text(message("class.left-over")), columns, rows)


def _sums(teller: Teller) -> Block | None:
    voice = teller.voice

    def row(summed: Summed) -> Row:
        line = summed.line
        count, each = f"{summed.count}", voice.length(line.length_mm)
        if not line.whole:
            count = voice.text(message("class.rods", count=summed.count)) if line.rods else ""
            each = voice.long(summed.total_mm, up=True)
        return Row(
            (
                teller.part(line.part, 2 if line.whole else 1),
                teller.stock(line.stock, line.dye),
                count,
                each,
                whose(teller, summed.kits),
            )
        )

    columns = (
        Column(voice.text(message("class.part")), row_header=True, weight=1.2),
        Column(voice.text(message("class.material")), weight=1.6),
        Column(voice.text(message("class.how-many")), align="right"),
        Column(voice.text(message("class.each-or-in-all"))),
        Column(voice.text(message("class.for-whom")), weight=1.4),
    )
    return table(voice.text(message("class.all-pieces")), columns, map(row, teller.prepared.sums))


def whose(teller: Teller, names: Sequence[str]) -> str:
    """The kits a line is for, by name if they are few."""
    if len(names) <= FEW:
        return ", ".join(names)
    return teller.voice.text(message("class.kits-counted", count=len(names)))


# ------------------------------------------------------------------------------------------------------- cutting plan
def cutting_document(teller: Teller) -> Document:
    """From each length as it lies before the maker, cut these for these kits; a box to tick for every cut."""
    voice = teller.voice
    name = voice.text(message("class.cutting-plan"))
    blocks: list[Block] = [
        Heading(1, name),
        Paragraph(voice.say(message("class.cut-how")), role="lead"),
        *_cut_cautions(teller),
    ]
    for plan in teller.prepared.plans:
        blocks += _plan(teller, plan)
    return teller.document(name, blocks)


def _cut_cautions(teller: Teller) -> Iterator[Block]:
    for caution in cautions():
        if caution.key in {"ends fly", "cut long"}:
            yield Caution(caution.kind, teller.voice.say(said_as(caution)))


def _plan(teller: Teller, plan: StockPlan) -> Iterator[Block]:
    voice = teller.voice
    title = teller.stock(plan.stock, plan.dye)
    yield Heading(2, title)
    yield Paragraph(
        voice.say(message("class.from-lengths", count=len(plan.lengths), bought=plan.bought, length=Length(plan.sold_mm),
                          measured=plan.measured, left=Length(plan.left_mm)))
    )  # fmt: skip
    columns = (
        Column(voice.text(message("class.number")), row_header=True, align="right", weight=0.4),
        Column(voice.text(message("class.from-length")), weight=1.2),
        Column(voice.text(message("class.cut-longest-first")), weight=4.0),
        Column(voice.text(message("class.left")), weight=1.2),
    )
    made = table(
        voice.text(message("class.cuts-of", stock=own(title))), columns, (_length(teller, one) for one in plan.lengths)
    )
    if made is not None:
        yield made
    if plan.too_long:
        pieces = joined([voice.length(piece.length_mm) for piece in plan.too_long])
        yield Notice((*pieces_of(voice.say(message("class.too-long"))), " ", *pieces_of(pieces)))


def _length(teller: Teller, length: CutLength) -> Row:
    voice = teller.voice
    cuts: list[Words] = []
    for (part, mm, kit), pieces in groupby(length.pieces, key=lambda piece: (piece.part, piece.length_mm, piece.kit)):
        count = len(list(pieces))
        what = voice.text(
            message("class.cut-for", length=Length(mm), part=own(teller.part_text(part, count)), kit=own(kit))
        )
        cuts.append((*[TickBox()] * count, f" {what}"))
    left = voice.length(length.left_mm) if length.left_mm >= 1 else ""
    kept = voice.text(message("class.keep")) if length.left_serves else ""
    hand = f" ({voice.text(message('class.in-hand')).lower()})" if length.in_hand else ""
    return Row(
        (
            f"{length.number}",
            f"{voice.length(length.length_mm)}{hand}",
            joined(cuts, "; "),
            " ".join(filter(None, (left, kept))),
        )
    )


# --------------------------------------------------------------------------------------------------------- dye sheets
def dyeing_document(teller: Teller) -> Document | None:
    """A sheet for each colour: what goes into its bath, and a record to fill in; None where nothing is dyed at home."""
    if not teller.prepared.dyeing:
        return None
    voice = teller.voice
    name = voice.text(message("class.dye-sheets"))
    blocks: list[Block] = [Heading(1, name), Paragraph(voice.say(message("class.dye-by-the-sheet")), role="lead")]
    blocks += [
        Caution(caution.kind, voice.say(said_as(caution)))
        for caution in cautions()
        if caution.key in {"dye", "hot water", "wet floor"}
    ]
    for number, dyeing in enumerate(teller.prepared.dyeing):
        blocks += [PageBreak()] if number else []
        blocks += _dye_sheet(teller, dyeing)
    return teller.document(name, blocks)


def _dye_sheet(teller: Teller, dyeing: Dyeing) -> Iterator[Block]:
    voice = teller.voice
    yield Heading(2, voice.say(message("class.dye-named", dye=own(dyeing.dye))))
    rows = [
        Row((
            teller.stock(lot.stock),
            voice.long(lot.needed_mm, up=True),
            voice.long(lot.in_hand_mm) if lot.in_hand_mm else "",
            voice.long(lot.length_mm, up=True),
            voice.mass(lot.mass_g) if lot.mass_g is not None else voice.text(message("class.weigh-it")),
        ))
        for lot in dyeing.lots
    ]  # fmt: skip
    columns = (
        Column(voice.text(message("class.material")), row_header=True, weight=1.6),
        Column(voice.text(message("class.taken"))),
        Column(voice.text(message("class.dyed-already"))),
        Column(voice.text(message("class.to-dye"))),
        Column(voice.text(message("class.dry-weight"))),
    )
    made = table(voice.text(message("class.goes-into-the-bath")), columns, rows)
    if made is not None:
        yield made
    yield Definitions(tuple(_dye_facts(teller, dyeing)), kind="facts")
    yield to_fill_in(teller, voice.text(message("class.record")), [voice.text(one) for one in _RECORD])


_RECORD = (
    message("class.record-lot"), message("class.record-day"), message("class.record-weight"),
    message("class.record-water"), message("class.record-from-to"), message("class.record-outcome"),
)  # fmt: skip


def _dye_facts(teller: Teller, dyeing: Dyeing) -> Iterator[Definition]:
    voice = teller.voice
    if dyeing.mass_g is not None and dyeing.baths is not None:
        baths = message("class.baths", count=dyeing.baths, mass=Mass(dyeing.mass_g), pan=Mass(dyeing.pan.value),
                        given=dyeing.pan.path == () and dyeing.pan.source == "")  # fmt: skip
        yield Definition(voice.text(message("class.bath")), voice.say(baths))
    for task in teller.prepared.tasks:
        if task.key in {f"dye {dyeing.dye}", f"dry {dyeing.dye}"}:
            when = message("class.from-to", begins=own(f"{teller.day(task.begins.date())} {task.begins:%H:%M}"),
                           ends=own(f"{teller.day(task.ends.date())} {task.ends:%H:%M}"))  # fmt: skip
            title = message("class.dyeing") if task.key.startswith("dye") else message("class.rinse-and-dry")
            yield Definition(voice.text(title), voice.say(when))
    yield Definition(voice.text(message("class.for-whom")), ", ".join(dict.fromkeys(dyeing.kits)))
    yield Definition(voice.text(message("class.by-the-sheet")), voice.say(message("class.the-sheet-settles")))
