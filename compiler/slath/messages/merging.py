"""Several sizes said as one, before there are words: values that differ become a row of values, one a size."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

from slath.messages.values import BySize, Decimals, Length, Listed, Mass, Message, Numbers, OfSizes, Value


def shape(value: Value) -> Hashable:
    """What must be alike for two values to be said in one sentence: all but numbers and lengths, and of a count whether
    it is none, one or several.
    """
    found: Hashable = value
    match value:
        case bool() | str() | None:
            pass
        case int():
            found = ("count", min(abs(value), 2))
        case Length() | Mass() | Decimals():
            found = (type(value).__name__,)
        case Message(key, values):
            found = (key, tuple((name, shape(one)) for name, one in values))
        case Listed(items) if all(type(one) is int for one in items):
            found = (
                "listed",
                items,
            )  # counts in a row, some of them other in some sizes, cannot be read in one sentence
        case Listed(items):
            found = ("listed", tuple(shape(one) for one in items))
        case Numbers(numbers):
            found = ("numbers", min(len(numbers), 2))
        case BySize(values):
            found = tuple(shape(one) for one in values)
    return found


def merged(values: Sequence[Value]) -> Value:
    """Values of one shape, size by size: one value where they are the same."""
    first = values[0]
    if all(value == first for value in values):
        return first
    if isinstance(first, Message):
        columns = zip(*([one for _, one in each.values] for each in values if isinstance(each, Message)), strict=True)
        names = [name for name, _ in first.values]
        return Message(first.key, tuple((name, merged(column)) for name, column in zip(names, columns, strict=True)))
    if isinstance(first, Listed):
        rows = zip(*(one.items for one in values if isinstance(one, Listed)), strict=True)
        return Listed(tuple(merged(row) for row in rows))
    return BySize(tuple(values))


def merged_messages(said: Sequence[tuple[str, Message]], sizes: Sequence[str]) -> tuple[Message | OfSizes, ...]:
    """One message of all sizes if only its values differ, else one for each group of sizes that say the same shape.

    `said` is (size, message); `sizes` are all there are: what only some of them say is said under their names.
    """
    groups: dict[Hashable, list[tuple[str, Message]]] = {}
    for size, one in said:
        groups.setdefault(shape(one), []).append((size, one))
    found: list[Message | OfSizes] = []
    for group in groups.values():
        whole = merged([one for _, one in group])
        assert isinstance(whole, Message)  # noqa: S101 - messages of one shape are one message
        names = tuple(size for size, _ in group)
        found.append(whole if len(names) == len(sizes) else OfSizes(names, whole))
    return tuple(found)
