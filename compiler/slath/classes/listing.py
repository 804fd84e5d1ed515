"""The class as data: kits, sums, purchase, cutting plan, dyeing, timetable. CSV for spreadsheets, JSON by a shipped schema.

Numbers are rounded here and nowhere before; lengths are millimetres, masses grams. The JSON follows
`schema/class-list.schema.json` (JSON Schema 2020-12); its version stands under ``class_list``.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator
from functools import cache
from importlib import resources
from typing import Any

from slath.classes.cutting import CutLength, StockPlan
from slath.classes.kits import Kit, Line, Summed
from slath.classes.prepared import Prepared, order_days
from slath.classes.shopping import ToBuy
from slath.classes.timetable import Task
from slath.messages import Voice
from slath.notes import Place
from slath.output.listing import rounded_to
from slath.output.listing_text import safe_cell

VERSION = 1
_ENGLISH = Voice({})  # data are in one language
Row = dict[str, Any]
CSV_COLUMNS = (
    "list", "name", "pattern", "size", "part", "stock", "dye", "letter", "count", "length_mm", "total_mm", "mass_g", "packs",
    "cost", "currency", "order_by",
)  # fmt: skip


@cache
def class_list_schema() -> Row:
    """The JSON Schema (2020-12) of `class_data`."""
    text = (resources.files("slath.classes") / "schema" / "class-list.schema.json").read_text("utf-8")
    schema: Row = json.loads(text)
    return schema


def class_data(prepared: Prepared) -> Row:
    """Everything a class comes to, as plain data in a fixed order of keys."""
    record = prepared.roster.record
    return {
        "class_list": VERSION,
        "class": {
            "file": Place(record.file).in_print,
            "title": record.title,
            "days": [day.isoformat() for day in record.days],
            "people": len(record.people),
        },
        "kits": [_kit(kit) for kit in prepared.kits.all],
        "sums": [_sum(summed) for summed in prepared.sums],
        "to_buy": [_to_buy(row, prepared) for row in prepared.shopping.rows],
        "costs": [
            {
                "currency": cost.currency,
                "by_packs": rounded_to(cost.by_packs, 2),
                "by_use": rounded_to(cost.by_use, 2),
                "a_head_by_packs": rounded_to(cost.a_head_by_packs, 2),
                "a_head_by_use": rounded_to(cost.a_head_by_use, 2),
            }
            for cost in prepared.shopping.costs
        ],
        "cutting": [_plan(plan) for plan in prepared.plans],
        "dyeing": [
            {
                "dye": one.dye,
                "lots": [
                    {
                        "stock": lot.stock.name,
                        "needed_mm": rounded_to(lot.needed_mm, 1),
                        "in_hand_mm": rounded_to(lot.in_hand_mm, 1),
                        "to_dye_mm": rounded_to(lot.length_mm, 1),
                        "mass_g": _maybe(lot.mass_g),
                    }
                    for lot in one.lots
                ],
                "mass_g": _maybe(one.mass_g),
                "baths": one.baths,
            }
            for one in prepared.dyeing
        ],
        "timetable": [_task(task) for task in prepared.tasks],
        "notes": [
            {"code": note.code, "severity": note.severity.value, "line": note.place.line, "message": note.sentence}
            for note in prepared.notes
        ],
    }


def class_json(prepared: Prepared) -> str:
    """`class_data` as JSON text, two spaces a level, ending in a newline."""
    return json.dumps(class_data(prepared), ensure_ascii=False, indent=2) + "\n"


def _maybe(value: float | None) -> float | int | None:
    return None if value is None else rounded_to(value, 1)


def _kit(kit: Kit) -> Row:
    person = kit.person
    return {
        "name": kit.name,
        "spare": person is None,
        "pattern": kit.title,
        "size": kit.size.name,
        "colourway": person.colourway if person else "",
        "mass_g": _maybe(kit.mass_g),
        "lines": [_line(line) for line in kit.lines],
    }


def _line(line: Line) -> Row:
    return {
        "part": line.part,
        "stock": line.stock.name,
        "dye": line.dye,
        "letter": line.material.letter,
        "cut_before": line.whole,
        "count": line.rods or line.count,
        "length_mm": rounded_to(line.length_mm, 1),
        "total_mm": rounded_to(line.total_mm, 1),
        "mass_g": _maybe(line.mass_g),
    }


def _sum(summed: Summed) -> Row:
    line = summed.line
    return {
        "part": line.part,
        "stock": line.stock.name,
        "dye": line.dye,
        "cut_before": line.whole,
        "count": summed.count,
        "length_mm": rounded_to(line.length_mm, 1) if line.whole else None,
        "total_mm": rounded_to(summed.total_mm, 1),
        "kits": list(summed.kits),
    }


def _to_buy(row: ToBuy, prepared: Prepared) -> Row:
    bought = row.purchase
    by = order_days(prepared).get(row.suppliers[0] if row.suppliers else "")
    return {
        "stock": row.stock.name,
        "dye": row.dye,
        "title": row.title,
        "taken_mm": rounded_to(bought.length_mm.value, 1),
        "dyes_mm": {dye: rounded_to(length, 1) for dye, length in row.dyes},
        "in_hand_mm": rounded_to(bought.have_mm.value, 1) if bought.have_mm is not None else 0,
        "to_buy_mm": rounded_to(bought.buy_mm.value, 1),
        "rods": round(bought.rods.value) if bought.rods is not None else None,
        "mass_g": _maybe(bought.mass_g.value if bought.mass_g is not None else None),
        "packs": [
            {"title": pack.title, "count": pack.count, "price": pack.price} for pack in bought.packs if pack.count
        ],
        "left_over_mm": _maybe(bought.surplus_mm.value if bought.surplus_mm is not None else None),
        "cost_by_packs": None if row.by_packs is None else rounded_to(row.by_packs, 2),
        "cost_by_use": None if row.by_use is None else rounded_to(row.by_use, 2),
        "currency": row.currency,
        "suppliers": list(row.suppliers),
        "order_by": by.isoformat() if by is not None and bought.buy_mm.value > 0 else None,
    }


def _plan(plan: StockPlan) -> Row:
    return {
        "stock": plan.stock.name,
        "dye": plan.dye,
        "sold_mm": rounded_to(plan.sold_mm, 1),
        "measured": plan.measured,
        "lengths": [_length(length) for length in plan.lengths],
        "too_long": [_piece(piece.part, piece.length_mm, piece.kit) for piece in plan.too_long],
    }


def _length(length: CutLength) -> Row:
    return {
        "number": length.number,
        "length_mm": rounded_to(length.length_mm, 1),
        "in_hand": length.in_hand,
        "cuts": [_piece(piece.part, piece.length_mm, piece.kit) for piece in length.pieces],
        "left_mm": rounded_to(length.left_mm, 1),
    }


def _piece(part: str, length_mm: float, kit: str) -> Row:
    return {"part": part, "length_mm": rounded_to(length_mm, 1), "kit": kit}


def _task(task: Task) -> Row:
    return {
        "what": _ENGLISH.text(task.what),
        "begins": task.begins.isoformat(timespec="minutes"),
        "ends": task.ends.isoformat(timespec="minutes"),
        "why": _ENGLISH.text(task.why),
    }


# --------------------------------------------------------------------------------------------------------------- CSV
def class_csv(prepared: Prepared) -> str:
    """One row for each line of each kit, for each sum and for each thing to buy; the column `list` says which it is."""
    text = io.StringIO()
    writer = csv.DictWriter(text, CSV_COLUMNS, restval="", lineterminator="\r\n")
    writer.writeheader()
    for row in _csv_rows(class_data(prepared)):
        writer.writerow(
            {key: safe_cell(value) for key, value in row.items() if key in CSV_COLUMNS and value is not None}
        )
    return text.getvalue()


def _csv_rows(data: Row) -> Iterator[Row]:
    for kit in data["kits"]:
        named = {"list": "kit", "name": kit["name"], "pattern": kit["pattern"], "size": kit["size"]}
        yield from ({**line, **named} for line in kit["lines"])
    for line in data["sums"]:
        yield {**line, "list": "class", "name": _names(line["kits"])}
    for row in data["to_buy"]:
        yield {
            "list": "buy",
            "name": row["title"],
            "stock": row["stock"],
            "dye": row["dye"],
            "count": row["rods"],
            "total_mm": row["to_buy_mm"],
            "mass_g": row["mass_g"],
            "packs": "; ".join(f"{pack['count']} × {pack['title']}" for pack in row["packs"]),
            "cost": row["cost_by_packs"],
            "currency": row["currency"],
            "order_by": row["order_by"],
        }


def _names(kits: Iterable[str]) -> str:
    return "; ".join(kits)
