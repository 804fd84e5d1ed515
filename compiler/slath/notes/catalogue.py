"""Every code a note may carry, with what it means: a code not listed here is never printed."""

from __future__ import annotations

from typing import NamedTuple


class Entry(NamedTuple):
    """What a code stands for: a short title and an explanation of one or two sentences."""

    title: str
    explanation: str


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

# Construction: counts and sizes that allow no basket at all.
_CONSTRUCTION = {
    "no-stakes": Entry("a side without stakes", "A side is woven round stakes; without them there is only a mat."),
    "too-few-stakes": Entry("too few stakes", "Fewer than three uprights cannot hold a side."),
    "no-side-bands": Entry("a side without weaving", "The side stands as high as its bands come to."),
    "no-height": Entry("a round without height", "Rounds are counted by their height, which cannot be nothing."),
    "height-not-given": Entry(
        "a band to a top that is not given", "To go to the top, a band must know how high the side is."
    ),
    "too-many-rounds": Entry(
        "more rounds than any basket has", "Height and thickness of the weavers do not go together."
    ),
    "rim-out-of-reach": Entry("a rim out of reach", "The side is too short to come out to its rim."),
    "oval-not-longer": Entry("an oval no longer than wide", "An oval slath needs a base longer than it is wide."),
    "groups-do-not-sum": Entry(
        "groups of sticks that do not sum", "The groups of sticks must hold as many sticks as there are."
    ),
    "holes-off-board": Entry(
        "holes off the board", "The line of holes stands in from the edge and must leave a board."
    ),
    "holes-not-counted": Entry(
        "holes neither counted nor spaced", "A board needs the number of its holes, or their spacing."
    ),
    "handle-no-stake": Entry(
        "a handle at a stake that is not there", "The feet of a handle go down beside stakes, counted from the first."
    ),
    "handle-no-span": Entry("a handle without a span", "The two feet of a handle stand apart."),
    "handle-too-low": Entry("a half circle that is too low", "A half circle stands half as high as it is wide."),
    "handle-too-short": Entry(
        "a bow too short for its ears", "A bow is cut as its arch between the ears and a scarf at each end."
    ),
    "wrap-beyond-handle": Entry(
        "a wrap that begins beyond the handle", "What is wound begins somewhere between the two ends of the handle."
    ),
    "ring-size": Entry("a ring without a size", "A ring handle needs its diameter, more than twice its thickness."),
    "ear-height": Entry("an ear without a height", "An ear stands above the rim by its rise."),
    "wrap-too-wide": Entry("a wrap too wide for its handle", "Strands laid side by side must go round the handle."),
    "colours-not-strands": Entry(
        "colours that are not the strands", "A weave needs a material for each of its strands, or one for all."
    ),
}

# The basket: whether it can be woven as it is written.
_CANNOT_BE_WOVEN = {
    "weave-does-not-hold": Entry(
        "a weave that does not hold",
        "On this count strands pass some uprights on one face only, and the weaving falls off them.",
    ),
    "too-few-for-rods": Entry("too few uprights for the rods", "A pair or wale needs more uprights than it has rods."),
    "stakes-do-not-double": Entry("an odd number of doubled stakes", "A length doubled over a ring makes two stakes."),
    "stakes-do-not-fill-groups": Entry("stakes left over", "Stakes worked together must share out among the groups."),
    "band-does-not-fill-groups": Entry(
        "uprights left over in a band", "A band worked in groups must take up all uprights."
    ),
    "sticks-regrouped": Entry(
        "sticks brought together again", "Sticks are parted as the base grows and do not go back."
    ),
    "stakes-too-close": Entry(
        "stakes too close to weave between", "The spacing is no more than stake and weaver together."
    ),
    "piece-too-short": Entry(
        "a piece shorter than its parts", "The length given does not cover what the piece is made up of."
    ),
    "piece-may-not-reach": Entry(
        "a piece that may not reach", "The length given covers its parts only if what is estimated comes out shorter."
    ),
    "stock-too-short": Entry("a piece longer than its stock", "No piece can be cut longer than its material comes."),
    "working-length-too-short": Entry(
        "strands no longer than their joins", "Each new strand laps the one before, so it must be longer than the lap."
    ),
    "stake-too-deep": Entry("stakes set into the slath", "Stakes go in from the edge no further than to the slath."),
    "foot-too-short": Entry(
        "too little stake below the board", "A foot border is worked with what stands below the board."
    ),
    "border-meets-itself": Entry(
        "a border that meets itself", "Its passes reach round to where they began, so that it cannot be finished."
    ),
    "end-not-there": Entry("a stick end that is not there", "Stick ends are named by number, counted round the base."),
    "strands-do-not-run-on": Entry(
        "strands that cannot run on", "A band is worked on with the strands before it only where these are the same."
    ),
    "border-through-no-band": Entry(
        "ends that go down through no band", "The bands ends are threaded down through are bands of the side."
    ),
    "stake-length-unknown": Entry(
        "stakes of no known length",
        "Weaving that stops where so much of the stakes is left needs to know how long they are cut.",
    ),
    "stakes-all-left": Entry(
        "nothing left to weave on", "What is to stand above the weaving is all there is of the stakes."
    ),
    "tops-do-not-serve": Entry(
        "tops that do not serve",
        "Strands wound of the tops cut off whole rods can be no longer and no more than these.",
    ),
    "laid-in-without-roll": Entry(
        "short stakes laid into no roll", "Short stakes are laid beside ends that are rolled."
    ),
    "side-without-border": Entry(
        "a side without a border", "Something must hold the last round and the ends of the stakes."
    ),
    "gathered-do-not-meet": Entry(
        "stakes that do not meet",
        "Stakes drawn together over the weaving must be long enough to reach the middle, and make no border.",
    ),
    "border-ends-loose": Entry(
        "ends that nothing holds",
        "Every end of a border is held: between stakes, in the weaving, or under ends laid later.",
    ),
    "border-does-not-fill-groups": Entry(
        "uprights left over in the border", "A border worked in groups must take up all uprights."
    ),
    "border-under-later-pass": Entry("a pass under one not yet worked", "An end goes under a pass that is there."),
    "hole-too-small": Entry("holes too small for the stakes", "A stake thicker than its hole does not go in."),
    "flat-stakes-in-holes": Entry(
        "flat stakes in round holes", "A flat stake stands loose in a round hole as wide as it; a slot holds it."
    ),
    "holes-too-close": Entry(
        "holes with too little wood between",
        "The board breaks along a line of holes too close together or to the edge.",
    ),
    "holes-and-stakes-differ": Entry("another number of holes than stakes", "Every hole takes one stake."),
    "holes-not-as-spaced": Entry(
        "holes not as far apart as is written", "A count of holes and their spacing, both written, must agree."
    ),
    "piece-far-too-long": Entry(
        "a piece far too long",
        "What is cut far longer than its parts leaves a rest, and somebody must know what it is for.",
    ),
    "profile-not-followed": Entry(
        "a profile that is not followed",
        "Bands that end at outlines of their own shape the side; heights of a profile stretch.",
    ),
    "foot-ends-too-short": Entry(
        "ends that do not come to the foot", "A foot is made of ends that come out below the base."
    ),
    "tail-not-used": Entry("a tail that is not used", "An end that goes down into the weaving leaves no tail."),
    "material-runs-out": Entry(
        "a material that runs out", "What the maker has of a material must cover all that is made of it."
    ),
    "board-beyond-sheet": Entry(
        "a board larger than its wood", "A board is sawn from wood no wider and no longer than it is sold."
    ),
    "ear-hole-too-small": Entry(
        "holes of ears too small for the bows",
        "A swinging bow goes through a hole at least as wide; two in one hole need twice the width.",
    ),
    "ear-too-small": Entry("ears too small for their holes", "The holes of an ear lie inside its head."),
    "ear-wood-thin": Entry(
        "little wood beside the holes of ears", "Wood thinner than half a hole splits with the grain under the load."
    ),
    "scarfs-meet": Entry("scarfs that meet", "Ends turned back over one bow leave some of its arch single."),
    "liner-without-band": Entry("liners after a band that is not there", "Liners go in after a band of the side."),
    "handle-wider-than-lid": Entry("a handle wider than its lid", "A lid is lifted by a handle that stands on it."),
    "handle-foot-cut-away": Entry(
        "a handle beside a stake that is gone", "A foot goes down beside a stake that still stands at the rim."
    ),
    "handle-foot-too-deep": Entry(
        "handle feet deeper than the side", "A foot goes no deeper beside its stake than the side is high."
    ),
    "change-without-stake": Entry(
        "a change at a stake that is not there", "Stakes named for a change must stand there when it is made."
    ),
    "bye-stakes-without-band": Entry(
        "bye-stakes after a band that is not there", "Bye-stakes go in after a band of the side."
    ),
    "bye-stakes-too-deep": Entry(
        "bye-stakes deeper than the weaving", "A bye-stake is pushed into weaving that is already there."
    ),
    "woven-band-unknown": Entry(
        "a test weave of a band that is not there",
        "Rounds and heights are read under the names of the pattern's bands.",
    ),
    "band-named-twice": Entry("two bands of one name", "Steps, list and drawings call a band by its name."),
    "figure-outside-band": Entry(
        "a figure outside its band", "A figure is worked over rows and stakes that are there."
    ),
    "typed-count-disagrees": Entry(
        "a typed number that disagrees", "A count in the designer's own words differs from the one worked out."
    ),
}

# The basket: what can be woven, but should be looked at. Each can be accepted in the file with a reason.
_TO_LOOK_AT = {
    "rows-pair-up": Entry(
        "rows that lie in pairs", "On an odd count the second of two chasing strands repeats the row below it."
    ),
    "half-stick-changes-nothing": Entry(
        "a half stick that changes nothing", "A half stick is there to make the count odd; here it stays even."
    ),
    "piece-leaves-no-hold": Entry(
        "a piece with nothing to hold", "The length given covers the parts, but leaves the hand nothing at the end."
    ),
    "sticks-opened-too-early": Entry(
        "sticks parted too early", "Sticks worked singly need room between them for the weaver."
    ),
    "sticks-not-parted": Entry(
        "sticks never parted", "Stakes go in beside single ends, so the base ends with its sticks worked singly."
    ),
    "border-allowance-too-small": Entry(
        "a border allowance too small", "The border takes more of each stake than is allowed for it."
    ),
    "handle-span-off": Entry(
        "a span that is not the rim's",
        "A handle over the top spans from the stake at one foot to the stake at the other.",
    ),
    "handle-feet-not-facing": Entry(
        "handle feet that do not face", "A handle from side to side has a stake at each foot only on an even count."
    ),
    "lid-no-stake": Entry(
        "a hinge where there is no stake", "Hinges and fastenings of a lid are counted from the stakes of the rim."
    ),
    "ends-used-twice": Entry(
        "ends worked into two borders", "An end that comes down to make the foot is no longer there for the border."
    ),
    "border-without-ends": Entry(
        "a border no end is worked into", "A border is made of the ends of all stakes, or of those it names."
    ),
    "rope-does-not-cover": Entry(
        "rope strands that do not just cover", "As many strands as are listed are wound, whether they cover or not."
    ),
    "fitting-no-stake": Entry(
        "a fitting where there is no stake", "The places of a fitting are counted from the stakes of the rim."
    ),
    "part-no-stake": Entry(
        "a part joined where there is no stake",
        "The places of a part are counted from the stakes of what it is joined to.",
    ),
    "part-without-ends": Entry(
        "a part that has no ends to push in", "A part is pushed in by the ends of its own stakes or sticks."
    ),
    "part-does-not-meet": Entry(
        "a part that does not meet what it is joined to",
        "Edges that are laced are of one length; a partition spans the inside.",
    ),
    "lid-does-not-fit": Entry("a lid that does not fit", "A lid needs room all round the rim it is predicted to meet."),
    "looks-not-kept": Entry(
        "colours that do not look as promised", "The count of stakes decides which way colours step."
    ),
    "looks-unclear": Entry(
        "a promise that cannot be checked",
        "What colours look like is checked if it says stripes, left, right or alternating.",
    ),
    "arrow-does-not-meet": Entry(
        "an arrow whose halves do not meet",
        "On a count the rods do not divide, the second half must start with its colours turned.",
    ),
    "colours-do-not-close": Entry(
        "colours that break where the round closes", "Colours taken in turn must share out among the rods."
    ),
    "band-misses-height": Entry(
        "a band that misses its height", "Whole rounds come to another height than is asked for."
    ),
    "side-misses-height": Entry(
        "a side that misses its height", "The bands come to another height than the side is to have."
    ),
    "rim-misses-size": Entry(
        "a rim that misses its size", "The bands bring the rim to another size than is asked for."
    ),
    "base-misses-size": Entry(
        "a base that misses its size", "The rounds of the base come to another size than is asked for."
    ),
    "base-spacing-unusual": Entry(
        "unusual spacing at the base", "Stakes stand closer or wider than in most published baskets."
    ),
    "rim-spacing-unusual": Entry(
        "unusual spacing at the rim", "Stakes stand closer or wider at the rim than in most baskets."
    ),
    "stakes-crack-in-border": Entry(
        "stakes that may crack in the border",
        "Stakes turned down round a near neighbour bend too sharply for their thickness.",
    ),
    "weaver-thicker-than-stake": Entry(
        "weavers thicker than the stakes", "A weaver thicker than the stakes bends them in place of itself."
    ),
    "sticks-thinner-than-stakes": Entry(
        "base sticks thinner than the stakes", "The sticks carry the basket and are its thickest part."
    ),
    "willow-out-of-order": Entry(
        "willow out of order", "In willow sticks are thickest, stakes next, weavers thinnest."
    ),
    "stakes-not-coarser": Entry(
        "stakes not two numbers coarser", "Stakes about two numbers coarser than the weavers stand up to them."
    ),
    "flare-too-strong": Entry("a strong flare", "Stakes that spread too much let the weaving slip."),
    "french-rand-on-flare": Entry("French randing on a flare", "A French rand opens where the stakes spread under it."),
    "oval-will-twist": Entry("an oval paired one way only", "Pairing pulls one way round and twists an oval base."),
    "colours-too-alike": Entry(
        "colours alike in grey", "Colours side by side must differ in lightness to be told apart in grey."
    ),
    "marks-alike": Entry("colours with the same marks", "No strand is told by its colour alone."),
    "size-not-woven": Entry("a size nobody has woven", "Its numbers rest on arithmetic alone."),
    "pitch-estimated": Entry(
        "an estimated height of a round",
        "Until rounds are measured on a test piece, heights and lengths rest on an estimate.",
    ),
    "prediction-missed": Entry(
        "a size that came out otherwise",
        "A test weave found numbers further from the predicted ones than is allowed for.",
    ),
    "woven-figure-doubtful": Entry(
        "a figure of the test weave that cannot be",
        "It is so far from what was worked out that nothing is learned from it.",
    ),
    "gauge-not-used": Entry("a measurement that fits no band", "Often the name of the weave differs by a word."),
    "density-suspect": Entry(
        "a size and mass that do not go together", "Together they give a density no reed or cane has."
    ),
    "edition-not-raised": Entry(
        "changed numbers under one edition",
        "An edition of this name was kept with other numbers: buyers would hold two booklets that differ and are called alike.",
    ),
    "kept-edition-broken": Entry(
        "a kept edition that cannot be read", "The file kept for this edition is damaged or was changed by hand."
    ),
    "price-old": Entry("an old price", "A price much older than the edition, or without a date."),
    "acceptance-not-needed": Entry("an acceptance of nothing", "No warning here has this code, size and part."),
    "acceptance-of-error": Entry(
        "an acceptance of an error", "Errors cannot be accepted; the basket could not be woven."
    ),
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
    **_CONSTRUCTION,
    **_CANNOT_BE_WOVEN,
    **_TO_LOOK_AT,
    **_WORDS,
    **_CLASS,
}
