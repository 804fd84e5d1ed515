"""The codes of notes on the basket: what cannot be constructed or woven, and what is worth a look."""

from __future__ import annotations

from slath.notes.entry import Entry

# Construction: counts and sizes that allow no basket at all.
CONSTRUCTION = {
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
CANNOT_BE_WOVEN = {
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
TO_LOOK_AT = {
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
    "language-lacking": Entry(
        "words that lack a language",
        "Words given as {en: …, de: …} are told in the booklet's language; where they lack it, in the first they have.",
    ),
    "price-old": Entry("an old price", "A price much older than the edition, or without a date."),
    "acceptance-not-needed": Entry("an acceptance of nothing", "No warning here has this code, size and part."),
    "acceptance-of-error": Entry(
        "an acceptance of an error", "Errors cannot be accepted; the basket could not be woven."
    ),
}
