"""The pattern's own measures: each worked out once, from values and formulas, loops found and told."""

from __future__ import annotations

from slath.language.formula import NUMBER
from slath.language.spelling import nearest, shortened
from slath.language.view import LENGTH, MASS, TOLD, View
from slath.messages.told import told, word
from slath.units import Amount, Basis, Unit, worked
from slath.units.names import Dimension
from slath.units.reading import MeasureFaultError, Quantity, everyday_unit

_UNITS: dict[Dimension, Unit] = {LENGTH: "mm", MASS: "g"}


_LONGEST_LOOP = 8  # measures told of a loop
_LONGEST_CHAIN = 60  # measures one upon another, of which nobody can keep track


class MeasureBook:
    """Measures of one size, worked out as they are asked for, each after those it rests on."""

    def __init__(self, view: View | None) -> None:
        self._views = dict(view.entries()) if view is not None else {}
        self._faulty = {name: None for name in view.data if name not in self._views} if view is not None else {}
        self._known: dict[str, Quantity | None] = {}
        self._open: dict[str, None] = {}
        self._depths: dict[str, int] = {}
        self._called = {name: each.called_measures() for name, each in self._views.items()}
        self.used: dict[str, None] = {}
        for name in self._views:
            if everyday_unit(name) or name == "per":
                self._views[name].note(
                    "name-taken",
                    told("A measure cannot be called {name}: it is a unit.", name=name),
                    told("call it the_{name}", name=name),
                    at_key=True,
                )

    def lookup(self, name: str, offset: int) -> Quantity:
        """The value of the measure `name`; MeasureFaultError where it has none."""
        self.used[name] = None
        if name in self._faulty:
            raise MeasureFaultError(TOLD, told("told elsewhere"), (), offset)
        if name not in self._views:
            near = self._nearest(name)
            raise MeasureFaultError(
                "unknown-name",
                told("There is no measure called {name}.", name=shortened(name)),
                (told("write {near}", near=near) if near else told("add it under measures:"),),
                offset,
            )
        if name in self._open:
            names = list(self._open)
            loop = [*names[names.index(name) :], name]
            if len(loop) > _LONGEST_LOOP:
                loop = [*loop[: _LONGEST_LOOP - 2], "…", *loop[-2:]]
            raise MeasureFaultError(
                "measure-cycle",
                told("The measures lead back to themselves: {join}.", join=" → ".join(loop)),
                (told("give one of them a value of its own"),),
                offset,
            )
        value = self._worked_out(name)
        if value is None:
            raise MeasureFaultError(TOLD, told("told elsewhere"), (), offset)
        return value

    def _nearest(self, name: str) -> str | None:
        known = [*self._views, *self._faulty]
        one = next(iter(self._views.values()), None)
        return one.reading.nearest(name, known) if one else nearest(name, known)

    def amounts(self) -> dict[str, Amount]:
        """Every measure as an amount that knows its formula, those a measure rests on before it."""
        for name in self._views:
            self._worked_out(name)
        amounts: dict[str, Amount] = {}
        for name, value in self._known.items():
            if value is not None:
                amounts[name] = self._amount(name, value, amounts)
        return amounts

    def _worked_out(self, name: str) -> Quantity | None:
        """The value of a measure, those it rests on worked out before it: a long chain must not become a deep one."""
        waiting = [name] if name not in self._known else []
        while waiting:
            last = waiting[-1]
            self._open[last] = None
            inner = next((each for each in self._called[last] if self._is_to_come(each)), None)
            if inner is not None:
                waiting.append(inner)
                continue
            value = self._views[last].any_quantity()
            self._known[last] = self._checked(last, value)
            del self._open[last]
            waiting.pop()
        return self._known[name]

    def _is_to_come(self, name: str) -> bool:
        return name in self._views and name not in self._known and name not in self._open

    def _checked(self, name: str, value: Quantity | None) -> Quantity | None:
        self._depths[name] = 1 + max((self._depths.get(each, 0) for each in self._called[name]), default=0)
        if self._depths[name] == _LONGEST_CHAIN + 1:  # said of the first; those that rest on it have no value either
            self._views[name].note(
                "formula-broken",
                told(
                    "{name} rests on a chain of more than {longest_chain} measures.",
                    name=name,
                    longest_chain=_LONGEST_CHAIN,
                ),
                told("give one of them a value of its own"),
            )
            return None
        if value is not None and value.dimension not in {NUMBER, LENGTH, MASS}:
            self._views[name].note(
                "wrong-dimension",
                told(
                    "{name} comes to {words}; a measure is a length, a mass or a number.",
                    name=name,
                    words=word(value.dimension.words),
                ),
            )
        return value

    def _amount(self, name: str, value: Quantity, amounts: dict[str, Amount]) -> Amount:
        view = self._views[name]
        whole = value.dimension == NUMBER and value.value == round(value.value)
        unit = _UNITS.get(value.dimension, "count" if whole else "ratio")
        title = name.replace("_", " ")
        called = self._called[name]
        if not called:
            return Amount(title, value.value, unit, Basis.GIVEN, path=view.path)
        inputs = [amounts[other] for other in called if other in amounts]
        return worked(
            title, value.value, unit, view.own_text().replace("_", " "), *inputs, basis=Basis.GIVEN, path=view.path
        )
