"""Formulas over measures: a small grammar, read by hand and never run as code.

    sum     = product {("+" | "-") product}
    product = signed {("*" | "/" | "per") signed}
    signed  = ["-"] value
    value   = quantity | name | unit | function "(" sum {"," sum} ")" | "(" sum ")"

A quantity is read as `slath.units.reading` reads it (``3 3/4 in``). A reader made by a grammar library was measured at
0.09 s of import and set-up, a third of what `slath check` may take; this one costs nothing.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from functools import lru_cache
from typing import NoReturn

from msgspec import Struct

from slath.language.spelling import nearest, or_list, shortened
from slath.messages.told import Spoken, told, word
from slath.units.names import Dimension
from slath.units.reading import MeasureFaultError, Quantity, everyday_unit, scan_quantity, unknown_unit

NUMBER = Dimension(0, 0)
_NAME = re.compile(r"[^\W\d]\w*")
_SIGNS = {"×": "*", "·": "*", "÷": "/", "−": "-", "–": "-"}
_GREATEST_VALUE = 1e12
_DEEPEST = 30
_LONGEST = 100  # parts: a formula of which nobody can keep track is better given in pieces


class Written(Struct, frozen=True):
    """A quantity written in the formula."""

    quantity: Quantity
    offset: int
    text: str = ""


class Name(Struct, frozen=True):
    """A measure called by name."""

    name: str
    offset: int


class Negation(Struct, frozen=True):
    """Minus a value."""

    value: Formula
    offset: int


class Operation(Struct, frozen=True):
    """Two values joined by + - * or /; `offset` is where the sign stands."""

    sign: str
    left: Formula
    right: Formula
    offset: int


class Call(Struct, frozen=True):
    """A function of one or more values."""

    function: str
    values: tuple[Formula, ...]
    offset: int


Formula = Written | Name | Negation | Operation | Call
Lookup = Callable[[str, int], Quantity]

# Function name -> least and most number of values, and how a note shows its use.
FUNCTIONS = {
    "min": (1, 12, "min(a, b)"),
    "max": (1, 12, "max(a, b)"),
    "round": (2, 2, "round(a, 1/4 in)"),
    "round_up": (2, 2, "round_up(a, 1/4 in)"),
    "round_down": (2, 2, "round_down(a, 1/4 in)"),
}


@lru_cache(maxsize=4096)
def parse_formula(text: str) -> Formula:
    """The formula written in `text`; MeasureFaultError with the offset of what is not understood."""
    reader = _Reader(text)
    formula = reader.sum()
    reader.expect_end()
    return formula


def evaluate(formula: Formula, lookup: Lookup) -> Quantity:
    """The value of `formula`, its measures found by `lookup(name, offset)`; MeasureFaultError where it has none."""
    if isinstance(formula, Written):
        return formula.quantity
    if isinstance(formula, Name):
        return lookup(formula.name, formula.offset)
    if isinstance(formula, Negation):
        inner = evaluate(formula.value, lookup)
        return Quantity(-inner.value, inner.dimension)
    if isinstance(formula, Call):
        return _called(formula, [evaluate(value, lookup) for value in formula.values])
    return _operated(formula, evaluate(formula.left, lookup), evaluate(formula.right, lookup))


def names_in(formula: Formula) -> tuple[str, ...]:
    """The measures a formula calls by name, in order, each once."""
    if isinstance(formula, Name):
        return (formula.name,)
    inner: tuple[Formula, ...] = ()
    if isinstance(formula, Negation):
        inner = (formula.value,)
    elif isinstance(formula, Operation):
        inner = (formula.left, formula.right)
    elif isinstance(formula, Call):
        inner = formula.values
    return tuple(dict.fromkeys(name for value in inner for name in names_in(value)))


def _operated(operation: Operation, left: Quantity, right: Quantity) -> Quantity:
    sign = operation.sign
    if sign in "+-":
        _same_dimension(operation, left, right)
        return _bounded(left.value + (right.value if sign == "+" else -right.value), left.dimension, operation.offset)
    turn = 1 if sign == "*" else -1
    dimension = Dimension(
        left.dimension.length + turn * right.dimension.length, left.dimension.mass + turn * right.dimension.mass
    )
    if sign == "*":
        return _bounded(left.value * right.value, dimension, operation.offset)
    if right.value == 0:
        raise MeasureFaultError("division-by-zero", told("The formula divides by zero here."), (), operation.offset)
    return _bounded(left.value / right.value, dimension, operation.offset)


def _same_dimension(operation: Operation, left: Quantity, right: Quantity) -> None:
    if left.dimension == right.dimension:
        return
    sides = (left, right)
    numbers = [side for side in sides if side.dimension == NUMBER]
    remedies: tuple[Spoken, ...] = ()
    if len(numbers) == 1 and Dimension(1, 0) in {left.dimension, right.dimension}:
        shown = f"{numbers[0].value:g}"
        remedies = (told("give the number a unit: {shown} in, or {shown} cm", shown=shown),)
        if operation.sign == "-" and isinstance(operation.left, Written):
            remedies = (told("write a mixed number with a space, not a dash: 3 3/4 in"),)
    joined = told("they cannot be added") if operation.sign == "+" else told("one cannot be taken from the other")
    raise MeasureFaultError(
        "wrong-dimension",
        told(
            "{first} is {words}, {second} {words2}: {joined}.",
            first=_said(operation.left, told("what stands before it")),
            words=word(left.dimension.words),
            second=_said(operation.right, told("what follows")),
            words2=word(right.dimension.words),
            joined=joined,
        ),
        remedies,
        operation.offset,
    )


def _said(formula: Formula, otherwise: str) -> str:
    if isinstance(formula, Name):
        return formula.name
    return formula.text or otherwise if isinstance(formula, Written) else otherwise


def _called(call: Call, values: list[Quantity]) -> Quantity:
    dimension = values[0].dimension
    for value in values[1:]:
        if value.dimension != dimension:
            raise MeasureFaultError(
                "wrong-dimension",
                told(
                    "{function} compares {words} with {words2}.",
                    function=call.function,
                    words=word(dimension.words),
                    words2=word(value.dimension.words),
                ),
                (told("give all its values the same kind of unit"),),
                call.offset,
            )
    if call.function in {"min", "max"}:
        chosen = min if call.function == "min" else max
        return Quantity(chosen(value.value for value in values), dimension)
    step = values[1].value
    if step <= 0:
        raise MeasureFaultError(
            "division-by-zero",
            told("{function} needs a step greater than nothing.", function=call.function),
            (told("give a step such as 1/4 in"),),
            call.offset,
        )
    steps = values[0].value / step
    nearest_whole = round(steps)
    if abs(steps - nearest_whole) < 1e-9:  # 3 in is twelve steps of 1/4 in, whatever binary makes of it
        return Quantity(nearest_whole * step, dimension)
    whole = {"round": math.floor(steps + 0.5), "round_up": math.ceil(steps), "round_down": math.floor(steps)}[
        call.function
    ]
    return Quantity(whole * step, dimension)


def _bounded(value: float, dimension: Dimension, offset: int) -> Quantity:
    if abs(value) > _GREATEST_VALUE:
        raise MeasureFaultError(
            "number-out-of-reach", told("The formula comes to more than any basket has."), (), offset
        )
    return Quantity(value, dimension)


class _Reader:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.depth = 0
        self.in_call = 0
        self.parts = 0

    def sum(self) -> Formula:
        left = self.product()
        while (sign := self.sign("+-")) is not None:
            offset = self.at - 1
            left = Operation(sign, left, self.product(), offset)
        return left

    def product(self) -> Formula:
        left = self.signed()
        while (sign := self.sign("*/")) is not None or self.word("per"):
            offset = self.at - 1
            left = Operation(sign or "/", left, self.signed(), offset)
        return left

    def signed(self) -> Formula:
        offset = self.at
        if self.sign("-") is not None:
            return Negation(self.value(), offset)
        return self.value()

    def value(self) -> Formula:
        self.blanks()
        self.depth += 1
        self.parts += 1
        if self.parts > _LONGEST:
            self.fault(
                told("The formula has more than {longest} parts.", longest=_LONGEST),
                remedies=(told("give pieces of it names under measures:"),),
            )
        if self.depth > _DEEPEST:
            self.fault(told("The formula has too many brackets."))
        try:
            return self.bracketed() or self.quantity() or self.named()
        finally:
            self.depth -= 1

    def bracketed(self) -> Formula | None:
        if not self.take("("):
            return None
        start, calls, self.in_call = self.at - 1, self.in_call, 0
        inner = self.sum()
        self.in_call = calls
        if not self.take(")"):
            self.fault(told("The bracket opened here is not closed."), start)
        return inner

    def quantity(self) -> Formula | None:
        scan = scan_quantity(self.text, self.at, commas_part=self.in_call > 0)
        if scan is None:
            return None
        literal = Written(scan.quantity, self.at, self.text[self.at : scan.end].strip())
        self.at = scan.end
        after = self.peek_name()
        if after is not None and after != "per":
            if scan.quantity.dimension == NUMBER and "_" not in after:
                raise unknown_unit(after, self.at)
            self.fault(
                told("Between the number and {after} a sign is missing.", after=after),
                remedies=(told("to multiply, write * {after}", after=after),),
            )
        return literal

    def named(self) -> Formula:
        match = _NAME.match(self.text, self.at)
        if match is None:
            rest = self.text[self.at :].strip()
            self.fault(
                told("A measure or a number is missing before “{rest}”.", rest=rest[0])
                if rest
                else told("The formula ends where a measure or a number is missing.")
            )
        name, offset = match.group(), self.at
        self.at = match.end()
        if self.peek("("):
            return self.call(name, offset)
        unit = everyday_unit(name) if name.isalpha() and offset and self.before(offset) in {"/", "r"} else None
        if unit is not None:
            return Written(Quantity(*unit), offset)
        return Name(name, offset)

    def call(self, name: str, offset: int) -> Formula:
        known = FUNCTIONS.get(name)
        if known is None:
            near = nearest(name, FUNCTIONS)
            raise MeasureFaultError(
                "unknown-name",
                told("There is no function {name}.", name=shortened(name)),
                (
                    told("write {functions}", functions=FUNCTIONS[near][2])
                    if near
                    else told("use {functions}", functions=or_list(FUNCTIONS)),
                ),
                offset,
            )
        self.take("(")
        self.in_call += 1
        values = [self.sum()]
        while self.take(","):
            values.append(self.sum())
        self.in_call -= 1
        if not self.take(")"):
            self.fault(told("The bracket of {name} is not closed.", name=name), offset)
        least, most, shown = known
        if not least <= len(values) <= most:
            self.fault(
                told("{name} takes {two_values?two values|one value or more}.", name=name, two_values=most == 2),
                offset,
                (told("write {shown}", shown=shown),),
            )
        return Call(name, tuple(values), offset)

    def before(self, offset: int) -> str:
        return self.text[:offset].rstrip()[-1:]

    def sign(self, wanted: str) -> str | None:
        self.blanks()
        if self.at < len(self.text):
            sign = _SIGNS.get(self.text[self.at], self.text[self.at])
            if sign in wanted:
                self.at += 1
                return sign
        return None

    def word(self, wanted: str) -> bool:
        if self.peek_name() == wanted:
            self.at += len(wanted)
            return True
        return False

    def take(self, char: str) -> bool:
        if self.peek(char):
            self.at += 1
            return True
        return False

    def peek(self, char: str) -> bool:
        self.blanks()
        return self.text.startswith(char, self.at)

    def peek_name(self) -> str | None:
        self.blanks()
        match = _NAME.match(self.text, self.at)
        return match.group() if match else None

    def blanks(self) -> None:
        while self.at < len(self.text) and self.text[self.at].isspace():
            self.at += 1

    def expect_end(self) -> None:
        self.blanks()
        if self.at < len(self.text):
            self.fault(
                told("“{text}” is not understood after what stands before it.", text=shortened(self.text[self.at :]))
            )

    def fault(self, sentence: Spoken, offset: int | None = None, remedies: tuple[Spoken, ...] = ()) -> NoReturn:
        raise MeasureFaultError("formula-broken", sentence, remedies, self.at if offset is None else offset)
