"""Every code a note may carry, with what it means: a code not listed here is never printed."""

from __future__ import annotations

from slath.notes.codes_of_basket import CANNOT_BE_WOVEN, CONSTRUCTION, TO_LOOK_AT
from slath.notes.entry import Entry

# The file itself: whether it can be read at all.
_FILE = {
    "file-not-read": Entry(
        "a file that cannot be read", "A file named in the pattern is not there, or may not be opened."
    ),
    "not-a-picture": Entry("a file that is no picture", "Pictures are printed from JPEG and PNG files."),
    "file-too-large": Entry(
        "a file too large", "A pattern is a few pages of text; larger files are refused before they are read."
    ),
    "wrong-encoding": Entry(
        "text that is not UTF-8", "Files are read as UTF-8, so that every fraction and accent survives."
    ),
    "strange-character": Entry(
        "a character that cannot be printed",
        "Control characters come in by pasting; they show nowhere and break the file.",
    ),
    "letter-not-in-fonts": Entry(
        "a letter the fonts lack",
        "Booklets are set in bundled fonts, which have the letters of western and central Europe and the signs of the trade.",
    ),
    "empty-file": Entry("an empty file", "The file holds nothing but blank lines or remarks."),
    "yaml-broken": Entry(
        "broken YAML", "The file cannot be read as YAML from here on: brackets, quotes, indents or colons do not fit."
    ),
    "second-document": Entry(
        "a second document", "A line of three dashes starts another document; a file holds one pattern."
    ),
    "not-a-pattern": Entry(
        "no set of keys", "A pattern is a set of keys, such as title: and base:, with their values."
    ),
    "nested-too-deep": Entry("values too deep inside one another", "No pattern needs brackets or indents this deep."),
    "alias-broken": Entry(
        "an alias that repeats nothing or too much",
        "Anchors and aliases are read, but only where they repeat something plain and finite.",
    ),
    "tag-refused": Entry("a tag", "Tags (!like this) have no meaning in a pattern."),
    "duplicate-key": Entry("a key given twice", "Of two values under one key, nobody could say which holds."),
    "key-not-a-word": Entry(
        "a key that is no word", "Every key is a word; merging (<<) is left out so that a reader sees what is there."
    ),
    "outside-folder": Entry(
        "a file outside the pattern's folder",
        "Nothing is read from outside the pattern's own folder unless given on the command line.",
    ),
}

# The shape of the data: keys, kinds of values, names.
_SHAPE = {
    "language-version": Entry(
        "another version of the language", "The key slath: says which version of the language a file is written in."
    ),
    "unknown-key": Entry(
        "an unknown key", "Keys are fixed words; one that is not known would be dropped silently, so it is refused."
    ),
    "missing-key": Entry("a key left out", "Something needed to make the basket is not said."),
    "key-unfit": Entry("a key without meaning here", "The key is known, but says nothing about a part of this kind."),
    "choose-one": Entry("two ways of saying one thing", "Of several keys only one can hold."),
    "no-value": Entry("a key without a value", "Nothing stands after the colon."),
    "wrong-kind": Entry(
        "a value of the wrong kind", "Text, a number, a list or a set of keys stands where another is needed."
    ),
    "wrong-form": Entry("a value in the wrong form", "The value is of the right kind but not written as it must be."),
    "unknown-choice": Entry("a word that is no choice here", "The key takes one of a few words."),
    "too-few-given": Entry("an empty value", "A list, set or text with nothing in it."),
    "too-many-given": Entry("too many entries", "The list or set holds more than it can."),
    "given-twice": Entry("one thing named twice in a list", "Every entry of this list must be another."),
    "name-form": Entry(
        "a name in the wrong form", "Names that formulas use are lower-case words joined by underscores."
    ),
    "name-taken": Entry("a name that is taken", "A measure named like a unit would make every formula doubtful."),
    "part-name-taken": Entry(
        "a name that no part can have",
        "Every part made by itself has a name of its own, by which the list tells its pieces apart.",
    ),
    "unknown-part": Entry("an unknown part", "A part is joined to the basket, or to a part that is made before it."),
    "variant-changes-nothing": Entry(
        "a variant that changes nothing", "A variant leaves out what the pattern has, and has of its own what differs."
    ),
    "no-such-day": Entry("a day that does not exist", "Days are written year-month-day."),
}

# Sizes.
_SIZES = {
    "size-name-taken": Entry(
        "a size named like a key", "A size called like a key of the language could not be told from it."
    ),
    "unknown-size": Entry("an unknown size", "A value is given for a size that the pattern does not list."),
    "size-without-value": Entry("a size without a value", "Where values differ by size, every size needs one."),
    "same-for-all-sizes": Entry(
        "a value that cannot differ by size", "Title, edition and the like are the same for every size."
    ),
}

# Measures, counts and formulas.
_MEASURES = {
    "unknown-unit": Entry("an unknown unit", "Lengths are in, ft, yd, mm, cm, m; masses g, kg, oz, lb."),
    "unit-missing": Entry(
        "a number without a unit", "A bare number could be inches or millimetres; only nought needs no unit."
    ),
    "decimal-comma": Entry("a decimal comma", "Numbers are written with a point: a comma parts the values of a list."),
    "number-form": Entry("a number written for machines", "Powers of ten and underscores are not read."),
    "number-too-large": Entry("a number beyond any basket", "No basket has a measure like this."),
    "number-out-of-reach": Entry(
        "a number beyond any basket", "The number is infinite, not a number at all, or beyond counting."
    ),
    "number-out-of-range": Entry("a number out of range", "The number is smaller or greater than it can be here."),
    "length-out-of-range": Entry(
        "a length out of range", "A length must be more than nothing and no longer than a basket's part can be."
    ),
    "not-whole": Entry("a count that is not whole", "Sticks, stakes and rounds are counted whole."),
    "formula-broken": Entry(
        "a formula that cannot be read", "Formulas are sums, products, brackets and a few functions over measures."
    ),
    "unknown-name": Entry("an unknown measure", "A formula uses a measure that the pattern does not define."),
    "measure-cycle": Entry("measures that lead back to themselves", "A measure cannot be worked out from itself."),
    "wrong-dimension": Entry(
        "a formula of the wrong dimension",
        "Lengths add to lengths, numbers to numbers; a length times a length is an area.",
    ),
    "division-by-zero": Entry("a division by nought", "A formula or fraction divides by nought."),
    "unknown-setting": Entry("an unknown setting", "Settings have fixed names."),
}

# Materials, parts and weaves.
_PARTS = {
    "unknown-material": Entry("an unknown material", "A part uses a material that is not listed under materials."),
    "unknown-stock": Entry("an unknown stock", "The stock is neither in the catalogue nor in the workshop file."),
    "letter-twice": Entry("one letter for two materials", "Letters tell the strands apart in every drawing."),
    "colour-missing": Entry("a dye without a colour", "A dyed material without a colour is drawn as natural."),
    "material-unused": Entry("a material nothing uses", "Often a name is typed otherwise elsewhere."),
    "measure-unused": Entry("a measure nothing uses", "Often a name is typed otherwise elsewhere."),
    "shape-unfit": Entry(
        "a shape that does not fit its measures", "A circle has a diameter; other shapes a length and a width."
    ),
    "width-over-length": Entry("a width more than the length", "The length is always the longer way."),
    "groups-break-count": Entry(
        "groups that do not add up", "The groups of sticks must hold as many sticks as there are."
    ),
    "other-work": Entry(
        "basket work of another kind",
        "Coiling, plaiting in strips, ribbed work, twill on splints and seating are made without stakes.",
    ),
    "unknown-weave": Entry("an unknown weave", "A weave is named in the trade's words or by its strokes."),
    "turns-need-rounds": Entry(
        "an arrow or chain without even rounds", "Arrows and chains are worked in pairs of rounds, straight and turned."
    ),
    "points-out-of-order": Entry(
        "a profile whose points do not rise", "Points of a profile are given from the base up."
    ),
    "unknown-move": Entry(
        "an unknown move of a border", "A border's moves are behind, before, over, under; its ends out, in, down."
    ),
    "move-after-end": Entry("a move after the end of a pass", "Out, in and down end a pass."),
    "border-rods-few": Entry("a plain border with too few rods", "Rods laid behind b must be more than b."),
    "unknown-code": Entry("a code that is no note's", "Only warnings that exist can be accepted."),
}

# The designer's own words.
_WORDS = {
    "unknown-stage": Entry(
        "words for a stage that is not there", "Words are printed at a stage or a band of this basket."
    ),
    "unknown-reference": Entry("a reference to no number", "A name in braces stands for a number of the list."),
    "typed-measure-disagrees": Entry(
        "a typed measure that disagrees", "A measure typed in the words is nowhere in the list."
    ),
}

# A class: people, what they make, when.
_CLASS = {
    "unknown-pattern": Entry("an unknown pattern", "A class makes only the patterns it names under patterns."),
    "unknown-colourway": Entry("an unknown colourway", "Somebody makes a colourway that the class does not describe."),
    "name-twice": Entry(
        "two people of one name", "Kits, labels and papers bear the name, so that it must tell them apart."
    ),
    "hours-overlap": Entry(
        "hours that do not follow one another", "The sittings of a day stand in order, each from and to."
    ),
    "hours-too-short": Entry(
        "hours shorter than the work",
        "The stages take longer than the class sits; times are a guess unless somebody wove it and said.",
    ),
    "class-too-soon": Entry(
        "a class too soon", "What has to be ordered, dyed or soaked before the day cannot be ready by then."
    ),
    "cut-too-long": Entry(
        "a piece longer than what it is cut from", "No length of the stock, as sold or as measured, holds the piece."
    ),
    "labels-off-sheet": Entry(
        "labels that do not fit", "The grid of labels is larger than its sheet, or a label too small for its words."
    ),
}

CATALOGUE: dict[str, Entry] = {
    **_FILE,
    **_SHAPE,
    **_SIZES,
    **_MEASURES,
    **_PARTS,
    **CONSTRUCTION,
    **CANNOT_BE_WOVEN,
    **TO_LOOK_AT,
    **_WORDS,
    **_CLASS,
}
