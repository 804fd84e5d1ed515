"""Basket work that is none of ours, by the words makers have for it, so that a pattern of it is told what it is."""

from __future__ import annotations

import re

from slath.messages.told import Told, told, word

# Words that mean work without stakes and strands woven round them, and what that work is called.
_WORDS = (
    (r"coil\w*|skep|sewn|lip ?work", "coiled work"),
    (r"plait\w*|plaid\w*|checker\w*|chequer\w*|strip\w*|bias|diagonal|cat ?head|hexagonal|mad weave", "plaiting in strips"),
    (r"rib(?:bed|s)?|hoops?|melon|egg|frame basket|gods? eye|potato", "ribbed work on hoops"),
    (r"twill\w*|herringbone|splints?|splint ?work", "twill on splints"),
    (r"can(?:ed|ing)|six way.*|seat\w*|seven step.*|rush(?:ed|ing)", "seating"),
    (r"knot\w*|loop\w*|net\w*|macram\w*|random", "knotted or looped work"),
    (r"stakeless|asse|zarzo|spiral bundle", "work without a base"),
)  # fmt: skip


def other_work(text: str) -> str:
    """What other kind of basket work a word means; empty where it means none."""
    plain = " ".join(text.casefold().replace("-", " ").replace("_", " ").split())
    return next((work for words, work in _WORDS if re.fullmatch(words, plain)), "")


def of_other_work(work: str) -> tuple[Told, Told]:
    """The sentence that says such work is not ours, and what can be done instead."""
    return (
        told(
            "That is {work}, which slath does not reckon: it knows stakes, and strands woven round them.",
            work=word(work),
        ),
        told("make that part apart, and write what is woven on it: kind: ready made, with made_of and its ends"),
    )
