"""The pattern's own measures: each worked out once, from values and formulas, loops found and told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.language.formula import NUMBER, names_in, parse_formula
from slath.language.spelling import nearest
from slath.language.view import LENGTH, MASS, TOLD
from slath.units import Amount, Basis, Unit, worked
from slath.units.names import Dimension
from slath.units.reading import MeasureFaultError, Quantity, everyday_unit

if TYPE_CHECKING:
    from slath.language.view import View

_UNITS: dict[Dimension, Unit] = {LENGTH: "mm", MASS: "g"}


class MeasureBook:
    """Measures of one size, worked out as they are asked for."""

    def __init__(self, view: View | None) -> None:
        self._views = dict(view.entries()) if view is not None else {}
        self._faulty = [name for name in view.data if name not in self._views] if view is not None else []
        self._known: dict[str, Quantity | None] = {}
        self._open: list[str] = []
        self.used: dict[str, None] = {}
        if view is not None:
            for name in self._views:
                if everyday_unit(name) or name == "per":
                    self._views[name].note(
                        "name-taken",
                        f"A measure cannot be called {name}: it is a unit.",
                        f"call it the_{name}",
                        at_key=True,
                    )

    def lookup(self, name: str, offset: int) -> Quantity:
        """The value of the measure `name`; MeasureFaultError where it has none."""
        self.used[name] = None
        if name in self._faulty:
            raise MeasureFaultError(TOLD, "", (), offset)
        if name not in self._views:
            near = nearest(name, [*self._views, *self._faulty])
            raise MeasureFaultError(
                "unknown-name",
                f"There is no measure called {name}.",
                (f"write {near}" if near else "add it under measures:",),
                offset,
            )
        if name in self._open:
            loop = " → ".join([*self._open[self._open.index(name) :], name])
            raise MeasureFaultError(
                "measure-cycle",
                f"The measures lead back to themselves: {loop}.",
                ("give one of them a value of its own",),
                offset,
            )
        value = self._worked_out(name)
        if value is None:
            raise MeasureFaultError(TOLD, "", (), offset)
        return value

    def amounts(self) -> dict[str, Amount]:
        """Every measure as an amount that knows its formula."""
        found = {name: self._worked_out(name) for name in self._views}
        amounts: dict[str, Amount] = {}
        for name, value in found.items():
            if value is not None:
                self._add_amount(name, found, amounts)
        return amounts

    def _worked_out(self, name: str) -> Quantity | None:
        if name not in self._known:
            self._open.append(name)
            self._known[name] = value = self._views[name].any_quantity()
            self._open.pop()
            if value is not None and value.dimension not in {NUMBER, LENGTH, MASS}:
                self._views[name].note(
                    "wrong-dimension",
                    f"{name} comes to {value.dimension.words}; a measure is a length, a mass or a number.",
                )
        return self._known[name]

    def _add_amount(self, name: str, found: dict[str, Quantity | None], amounts: dict[str, Amount]) -> None:
        value = found[name]
        if value is None or name in amounts:
            return
        view = self._views[name]
        whole = value.dimension == NUMBER and value.value == round(value.value)
        unit = _UNITS.get(value.dimension, "count" if whole else "ratio")
        title = name.replace("_", " ")
        called = names_in(parse_formula(view.own_text()))
        if not called:
            amounts[name] = Amount(title, value.value, unit, Basis.GIVEN, path=view.path)
            return
        for other in called:
            self._add_amount(other, found, amounts)
        inputs = [amounts[other] for other in called if other in amounts]
        amounts[name] = worked(
            title, value.value, unit, view.own_text().replace("_", " "), *inputs, basis=Basis.GIVEN, path=view.path
        )
