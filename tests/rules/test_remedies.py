"""Every remedy that is offered is applied: it clears its note and makes no new error.

A remedy that is an edit of the file is carried out on the bad file of its code, word for word as it is told; one that is
something to do at the bench, to choose or to find out is listed with the reason why no edit can stand for it.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from slath.notes import Note, PatternFaultError
from slath.pipeline import compile_pattern

ROOT = Path(__file__).resolve().parents[2]
BAD = sorted((ROOT / "tests" / "corpus" / "bad" / "rules").glob("*.yaml"))
WORDS = {
    word: number
    for number, word in enumerate(
        ["nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
    )
}

LENGTH = r"(?P<length>[^,:()]+? (?:in|mm|ft|m))(?: \([^)]*\))?"
NUMBER = r"(?P<number>\d+|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"

# (code or "", remedy, (what stands in the file, what is to stand there)...); {length}, {number} are the remedy's own.
Edit = tuple[str, str]
EDITS: list[tuple[str, str, tuple[Edit, ...]]] = [
    # Counts.
    ("half-stick-changes-nothing", rf"give the half stick {NUMBER} stake fewer \(\d+\)", (("per_end: 2", "per_end: 2, except: {{half stick: 1}}"),)),
    ("looks-not-kept|rows-pair-up|colours-do-not-close|weave-does-not-hold|arrow-does-not-meet", rf"leave {NUMBER} out \(\d+\)", (("(stakes: {{material: stakes, [^}}\\n]*?)(?:, leave_out: \\d+)?}}", "\\1, leave_out: LEAVE}}"),)),
    ("", rf"set in {NUMBER} more \(\d+\)", (("(stakes: {{material: stakes, [^}}\\n]*?)(, leave_out: 1)?}}", "\\1, add: {number}}}"),)),
    ("rows-pair-up", r"two at each end \(\d+\)", ((", leave_out: 1", ""),)),
    ("stakes-do-not-fill-groups", rf"leave out {NUMBER} \(\d+\)", ((", leave_out: 1", ", leave_out: 2"),)),
    ("stakes-do-not-fill-groups", rf"add {NUMBER} \(\d+\)", ((", leave_out: 1", ""),)),
    ("", r"add a half stick \(\d+\)", (("threaded: 5", "threaded: 5\n  half_stick: yes"),)),
    ("", r"leave out the half stick \(\d+ ends\)", (("  half_stick: yes[^\\n]*\\n", ""),)),
    ("border-does-not-fill-groups", rf"{NUMBER} sticks? fewer \(\d+\)", (("threaded: 5", "threaded: 4"),)),
    ("border-meets-itself", r"two sticks more \(\d+\)", (("threaded: 4", "threaded: 6"),)),
    ("border-meets-itself", r"three sticks more \(\d+\)", (("threaded: 4", "threaded: 7"),)),
    ("band-does-not-fill-groups", r"use 38 or 40 stakes", ((", leave_out: 1", ""),)),
    ("", r"use (?P<number>\d+) uprights in place of \d+: .*", (("per_end: 2", "count: {number}"),)),
    ("stakes-crack-in-border|stakes-too-close", r"use at most (?P<number>\d+) uprights (?:at the rim|there)", (("per_end: 2", "count: {number}"), ("weave: (chasing|randing)", "weave: pairing"))),
    ("too-few-for-rods", r"use at least 5 stakes", (("pierced: 1", "pierced: 3"), ("diameter: 3/4 in", "diameter: 2 in"))),
    ("too-few-for-rods", r"work it with fewer rods", (("four-rod wale", "three-rod wale"),)),
    ("too-few-for-rods", r"rand or chase", (("four-rod wale", "chasing"),)),
    ("holes-and-stakes-differ", r"drill (?P<number>\d+) holes", (("count: 38", "count: {number}"),)),
    ("holes-and-stakes-differ", r"set (?P<number>\d+) stakes", (("count: 40", "count: {number}"),)),
    ("holes-not-as-spaced", r"drill (?P<number>\d+) holes", (("count: 38", "count: {number}"),)),
    ("holes-not-as-spaced", rf"write a spacing of {LENGTH}", (("spacing: 1 in", "spacing: {length}"),)),
    ("holes-not-as-spaced", r"leave one of the two out", (("    count: 38\\n", ""),)),
    ("holes-too-close", r"cut at most (?P<number>\d+) holes", (("count: 105", "count: {number}"),)),
    ("change-without-stake", r"name uprights from 1 to (?P<number>\d+)", (("38, 39, 41", "38, 39, {number}"),)),
    ("stakes-do-not-double", r"set (?P<number>\d+) stakes", (("count: 25", "count: {number}"),)),
    ("fitting-no-stake", r"choose from 1 to (?P<number>\d+)", (("at: \\[1, 41\\]", "at: [1, {number}]"),)),
    ("fitting-no-stake", r"leave the places out and share them out by eye", ((", at: \\[1, 41\\]", ""),)),
    ("part-no-stake", r"choose from 1 to (?P<number>\d+)", (("at: \\[1, 41\\]", "at: [1, {number}]"),)),
    ("part-no-stake", r"leave the places out and share them out by eye", ((", at: \\[1, 41\\]", ""),)),
    ("part-without-ends", r"leave out its border", (("    border: [^\\n]*\\n    join", "    join"),)),
    ("part-without-ends", r"tie it: way: tied", (("way: pushed in", "way: tied, material: weaver"),)),
    ("part-does-not-meet", rf"make the part {LENGTH} there", (("diameter: 10 in", "diameter: {length}"),)),
    ("part-does-not-meet", r"tie it at places: way: tied", (("way: laced", "way: tied"),)),
    ("lid-no-stake", r"choose from 1 to (?P<number>\d+)", (("at: \\[1, 32\\]", "at: [1, {number}]"),)),
    ("lid-no-stake", r"leave the places out and share them out by eye", ((", at: \\[1, 32\\]", ""),)),
    ("handle-no-stake", r"choose stakes from 1 to 40", (("at: \\[1, 41\\]", "at: [1, 21]"),)),
    ("handle-foot-cut-away", r"name stakes that reach the rim \(at\)", (("at: \\[1, 21\\]", "at: [2, 22]"),)),
    ("handle-foot-cut-away", r"leave these standing, and drop others \(drop_stakes\)", (("stakes: \\[1, 11\\]", "stakes: [2, 12]"),)),
    ("handle-no-span", r"choose two stakes", (("at: \\[1, 1\\]", "at: [1, 21]"),)),
    ("end-not-there", r"name ends from 1 to 15", (("as_one: 20", "as_one: 15"),)),
    # Weaves, strokes and colours.
    ("weave-does-not-hold", r"chase with two strands", (("weave: randing", "weave: chasing"),)),
    ("rows-pair-up", r"rand with one strand", (("weave: chasing", "weave: randing"),)),
    ("weave-does-not-hold|rows-pair-up", r"pair", (("weave: (randing|chasing)", "weave: pairing"),)),
    ("looks-not-kept", r"work the other way round, right to left \(working_direction\)", (("slath: 1", "slath: 1\nworking_direction: right to left"),)),
    ("looks-not-kept", r"say “looks: (?P<number>[^”]+)”", (("looks: [a-z ]+", "looks: {number}"),)),
    ("looks-unclear", r"say upright stripes, steps left.*", (("looks: [^}},#\\n]+", "looks: upright stripes"),)),
    ("arrow-does-not-meet", r"list strands: (?P<number>\[.*\])", (("(falling[^\\n]*strands: )\\[[^]]*\\]", "\\1{number}"),)),
    ("colours-do-not-close", r"list the colours in a turn that 32 can be shared by.*", (("weaver, buff, buff", "weaver, buff"),)),
    ("colours-not-strands", r"list 3 strands", (("\\[weaver, weaver\\]", "[weaver, weaver, weaver]"),)),
    ("colours-not-strands", r"list one material for all of them", (("\\[weaver, weaver\\]", "weaver"),)),
    ("marks-alike", r"give one of them rings.*", (("marks: none", "marks: rings"),)),
    ("oval-will-twist", r"chase the base", (("weave: pairing", "weave: chasing"),)),
    ("oval-will-twist", r"reverse (?P<number>\d+) of the (?P<length>\d+) rounds \(a band with reversed: yes\)", (("(name: base, weave: pairing, strands: weaver, )to: edge, pitch: 5 mm}}", "\\1to: edge, pitch: 5 mm}}\n    - {{name: back, weave: pairing, strands: weaver, rounds: {number}, pitch: 5 mm, reversed: yes}}"),)),
    ("french-rand-on-flare", r"rand or slew the flare|wale it", (("French randing", "three-rod wale"),)),
    ("band-does-not-fill-groups", r"work the band singly", ((", worked: in twos", ""),)),
    ("", r"work them singly", (("(, |  )worked: in (twos|threes)", ""),)),
    ("sticks-regrouped", r"work it on (?P<number>\d+) as well", (("rounds: 2, worked: grouped", "rounds: 2, worked: in twos"),)),
    ("strands-do-not-run-on", r"take goes_on out: new strands are begun", ((", goes_on: yes", ""),)),
    ("rope-does-not-cover", r"name one material, and they are counted", (("\\[lap, lap\\]", "lap"),)),
    ("rope-does-not-cover", r"let it show: cover: spaced", (("lay: 4 in", "lay: 4 in, cover: spaced"),)),
    ("rope-does-not-cover", r"list (?P<number>\d+) strands", (("\\[lap, lap\\]", "LISTED"),)),
    # Heights, sizes and rounds.
    ("band-misses-height", rf"ask for {LENGTH}", (("(, height: )[^,}}]+", "\\g<1>{length}"),)),
    ("band-misses-height", rf"give it {NUMBER} rounds?: .*", (("(, )height: [^,}}]+", "\\1rounds: {number}"),)),
    ("band-misses-height", r"keep the height and pack the rounds to it.*", (("(, height: [^,}}]+)", "\\1, keep: height"),)),
    ("side-misses-height", rf"say height: {LENGTH}", (("  height: 5 in", "  height: {length}"),)),
    ("side-misses-height", rf"give wall {NUMBER} rounds in place of 18", (("rounds: 18", "rounds: {number}"),)),
    ("side-misses-height", r"let one band go to the top.*", (("rounds: 18", "to: top"),)),
    ("rim-misses-size", r"let the last band end at the rim's outline \(ends_at\)", (("ends_at: {{diameter: 8 in}}", "ends_at: {{diameter: 9 in}}"),)),
    ("rim-misses-size", r"leave the rim out; the bands make it", (("  rim: {{diameter: 9 in}}[^\\n]*\\n", ""),)),
    ("rim-out-of-reach", r"make the side higher", (("(side:\\n  height: )[^\\n]+", "\\g<1>9 in"),)),
    ("base-misses-size", rf"give base {NUMBER} rounds in place of \w+", (("rounds: 10", "rounds: {number}"),)),
    ("base-misses-size", rf"say diameter: {LENGTH}", (("(base:\\n  kind: round slath\\n  diameter: )[^\\n#]+", "\\g<1>{length} "),)),
    ("base-misses-size", r"let the last band go to the edge \(to: edge\)", (("rounds: 10", "to: edge"),)),
    ("height-not-given", r"give the side a height", (("side:\\n", "side:\n  height: 5 in\n"),)),
    ("height-not-given", r"give the band its rounds", (("to: top", "rounds: 20"),)),
    ("flare-too-strong", rf"bring the rim in to {LENGTH}", (("rim: {{diameter: 12 1/2 in}}", "rim: {{diameter: {length}}}"),)),
    ("flare-too-strong", rf"add {NUMBER} stakes part-way up \(\d+ at the rim\)", (("    - {{name: wall, weave: chasing, strands: weaver, to: top, pitch: 5 mm}}", "    - {{name: low, weave: chasing, strands: weaver, rounds: 4, pitch: 5 mm}}\n    - add_stakes: {{count: {number}, material: stakes}}\n    - {{name: wall, weave: chasing, strands: weaver, to: top, pitch: 5 mm}}"),)),
    ("lid-does-not-fit", rf"make it {LENGTH}", (("(lid:\\n  base:\\n    kind: round slath\\n    diameter: )[^\\n]+", "\\g<1>{length}"),)),
    ("french-rand-on-flare", r"use it only for the first (?P<number>\d+) rounds", (("    - {{name: wall, weave: French randing, strands: weaver, to: top, pitch: 4 mm}}", "    - {{name: wall, weave: French randing, strands: weaver, rounds: {number}, pitch: 4 mm}}\n    - {{name: rest, weave: pairing, strands: weaver, to: top, pitch: 4 mm}}"),)),
    ("figure-outside-band", r"end it at row (?P<number>\d+), stake (?P<length>\d+)", (("rows: 1 to 25, stakes: 11 to 17", "rows: 1 to {number}, stakes: 11 to {length}"),)),
    ("figure-outside-band", r"give the band 25 rounds", (("rounds: 22", "rounds: 25"), ("  height: 5 in\\n", ""))),
    ("oval-not-longer", r"make it a round slath", (("kind: oval slath\\n  length: 7 in", "kind: round slath\n  diameter: 7 in\n  pierced: 5\n  material: sticks"), ("  width: 7 in\\n", ""), ("  lengthwise:[^\\n]*\\n", ""), ("  crosswise:[^\\n]*\\n", ""))),
    # Lengths and depths.
    ("piece-too-short|piece-may-not-reach|piece-leaves-no-hold|piece-far-too-long", rf"cut them {LENGTH}", (("length: [^,}}#]+", "length: {length}"),)),
    ("piece-too-short|piece-may-not-reach|piece-leaves-no-hold", r"leave the length out: it is worked out for every size", ((", length: [^,}}#]+", ""),)),
    ("border-allowance-too-small", rf"allow {LENGTH}", (("allowance: [^,}}\\n#]+", "allowance: {length} "),)),
    ("border-allowance-too-small", r"leave the allowance out: it is worked out for every size", (("  allowance: [^\\n]*\\n", ""),)),
    ("stake-too-deep", rf"set them {LENGTH} deep or less \(depth\)", (("depth: 3 1/2 in", "depth: {length}"),)),
    ("foot-too-short", rf"leave {LENGTH} below", (("below: 1/2 in", "below: {length}"),)),
    ("bye-stakes-too-deep", rf"put them {LENGTH} deep at most", (("depth: 2 in", "depth: {length}"),)),
    ("bye-stakes-too-deep", r"put them in after wall", (("after: upsett", "after: wall"),)),
    ("bye-stakes-without-band", r"name upsett or wall", (("after: wale", "after: upsett"),)),
    ("bye-stakes-without-band", r"leave it out: they go in with the stakes", ((", after: wale", ""),)),
    ("liner-without-band", r"name upsett or wall", (("after: wale", "after: upsett"),)),
    ("liner-without-band", r"leave it out: they go in after the first band", ((", after: wale", ""),)),
    ("handle-foot-too-deep", rf"let the feet go {LENGTH} down at most", (("feet: 6 in", "feet: {length}"),)),
    ("handle-span-off", rf"leave the span out: {LENGTH}", ((", span: 5 in", ""),)),
    ("handle-span-off", r"write kind: side for handles that stand at one place of the rim", (("kind: roped", "kind: side"),)),
    ("handle-too-low", rf"let it rise {LENGTH}", (("rise: 3 in", "rise: {length}"),)),
    ("handle-too-low", r"make it a half ellipse", (("shape: half circle", "shape: half ellipse"),)),
    ("handle-wider-than-lid", rf"make it {LENGTH} at most", (("span: 11 in", "span: {length}"),)),
    ("handle-no-span", r"give the span between its feet", (("at: \\[1, 1\\]", "span: 9 in"),)),
    ("ring-size", r"give the diameter across the ring", (("kind: ring, material: bow", "kind: ring, material: bow, diameter: 2 in"),)),
    ("scarfs-meet", rf"make the scarfs {LENGTH} at most", (("scarf: 9 in", "scarf: {length}"),)),
    ("ear-height", r"give the rise", (("kind: ears, material: bow", "kind: ears, material: bow, rise: 2 in"),)),
    ("ear-hole-too-small", rf"bore them {LENGTH} wide", (("hole: 1/4 in", "hole: {length}"),)),
    ("ear-too-small", rf"make the ears {LENGTH} wide", (("width: 3/4 in", "width: {length}"),)),
    ("ear-wood-thin", rf"make the ears {LENGTH} wide", (("(ears:(?:.|\\n)*?width: )[^,}}\\n#]+", "\\g<1>{length} "),)),
    ("hole-too-small", rf"drill {LENGTH}", (("diameter: 3 mm", "diameter: {length}"),)),
    ("hole-too-small|stakes-crack-in-border|sticks-thinner-than-stakes", r"use stakes of at most .*, such as (?P<number>.+)", (("(  stakes: {{stock: )[^}}]+", "\\g<1>{number}"),)),
    ("stakes-not-coarser", r"use stakes of (?P<number>us .+) with this weaver", (("(  stakes: {{stock: )[^}}]+", "\\g<1>{number}"),)),
    ("weaver-thicker-than-stake", r"weave with at most .*, such as (?P<number>.+)", (("(  thick: {{stock: )[^}}]+", "\\g<1>{number}"),)),
    ("weaver-thicker-than-stake", rf"use stakes of {LENGTH} or more", (("(  stakes: {{stock: )[^}}]+", "\\g<1>round reed 3.5 mm"),)),
    ("sticks-thinner-than-stakes", rf"use sticks of {LENGTH} or more", (("(  sticks: {{stock: )[^}}]+", "\\g<1>round reed 3.3 mm"),)),
    ("holes-off-board", rf"set the holes {LENGTH} in from the edge", (("inset: 5 in", "inset: {length}"),)),
    ("material-runs-out", rf"have {LENGTH} of it", (("have: 30 ft", "have: {length}"),)),
    ("working-length-too-short", rf"work in lengths of more than {LENGTH} \(working_length\)", ((", working_length: 3 in", ", working_length: 7 in"), ("working_length: 0", "working_length: 7 in"))),
    ("working-length-too-short", r"make the lap shorter \(settings, join_lap\)", (("settings: {{working_length: 0}}", "settings: {{join_lap: 1 in}}"),)),
    ("flat-stakes-in-holes", r"cut slots in place of holes \(slots: yes\)", (("count: 38", "count: 38, slots: yes"),)),
    ("board-beyond-sheet", r"make the board smaller", (("diameter: 10 in", "diameter: 8 in"),)),
    ("board-beyond-sheet", r"describe a wider stock", (("width: 9 in", "width: 12 in"),)),
    ("gathered-do-not-meet", rf"bind them {LENGTH} above the weaving or more", (("above: 1 1/2 in", "above: {length}"),)),
    ("laid-in-without-roll", r"end the border with a roll: (?P<number>\[.*\])", (("(over 2, in\\]\\n)", "\\g<1>    - {number}\n"),)),
    ("laid-in-without-roll", r"take laid_in out", (("  laid_in:[^\\n]*\\n", ""),)),
    ("side-without-border", r"add border: and its passes, or its name", (("(to: top, pitch: 2 mm}}\\n)", "\\g<1>border: {{passes: [[behind 1, out], [before 2, in]]}}\n"),)),
    ("side-without-border", r"draw the stakes together over the weaving and bind them.*", (("(to: top, pitch: 2 mm}}\\n)", "\\g<1>  gathered: {{tied: weaver, above: 4 in}}\n"),)),
    ("profile-not-followed", r"take the profile out", (("  profile: belly[^\\n]*\\n  swell:[^\\n]*\\n", ""),)),
    ("profile-not-followed", r"take ends_at out of the bands", ((", ends_at: {{diameter: 8 in}}", ""),)),
    ("foot-ends-too-short", rf"let the ends go {LENGTH} down \(depth\)", (("depth: 2 in", "depth: {length}"),)),
    ("foot-ends-too-short", r"give the foot short stakes of its own \(stakes\)", (("foot:\\n", "foot:\n  stakes: {{material: stakes}}\n"),)),
    ("tail-not-used", r"take the tail out", (("  tail:[^\\n]*\\n", ""),)),
    # Names and other words.
    ("band-named-twice", r"call this one “(?P<number>[^”]+)”", (("(name: )wall(,[^\\n]*# expect)", "\\g<1>{number}\\2"),)),
    ("border-under-later-pass", r"name pass (?P<number>\d)", (("under: \\d", "under: {number}"),)),
    ("border-through-no-band", r"write one of wall", (("through: rim", "through: wall"),)),

    ("border-without-ends", r"leave it out: every stake goes into the border", (("  of: right half of each group[^\\n]*\\n", ""), ("foot:(.|\\n)*", ""))),
    ("border-without-ends", r"take the stakes in twos \(worked\)", (("per_end: 2, leave_out: 1", "per_end: 4, leave_out: 2, worked: in twos"),)),
    ("gauge-not-used", r"take it out", (("gauge:\\n[^\\n]*\\n", ""),)),
    ("gauge-not-used", r"name a weave of this pattern: .*", (("{{weave: randing,", "{{weave: chasing,"),)),
    ("acceptance-not-needed", r"take the entry out", (("accept:(.|\\n)*", ""),)),
    ("typed-count-disagrees", r"write (?P<number>\d+)", (("39 stakes", "{number} stakes"),)),
    ("typed-count-disagrees", r"write {stakes} and let the tool put the number in", (("39 stakes", "{{stakes}} stakes"),)),
    ("prediction-missed", r"allow more \(settings, prediction_miss: (?P<number>[\d.]+)\)", (("slath: 1", "slath: 1\nsettings: {{prediction_miss: {number}}}"),)),
]  # fmt: skip

# Remedies no edit can stand for: what is done at the bench, chosen by the maker, or looked up.
AT_THE_BENCH = {
    "done, weighed or asked at the bench": (
        "weave it and say when", "print the test-weave form", "weave 10 rounds on a test piece", "let it stand",
        "measure its thickness", "weigh a measured length", "ask for the price again", "weave the basket first",
        "check the figure", "use it in fewer rounds",
    ),
    "a choice among many, with no number of its own": (
        "use finer stakes", "use finer sticks", "use thicker stakes", "use finer weavers", "use round stakes", "widen the rim",
        "use a larger board", "make the base larger", "shorten its passes", "choose a foot border", "choose ears nearer",
        "stay within", "widen the basket", "double the stakes", "make the scarfs shorter", "cut it longer",
        "cut the bow longer", "make the part", "use a longer class", "take stakes of a longer class", "cut the stakes longer",
        "wrap with fewer strands", "let it begin nearer", "draw one of them", "weave a lighter", "bring the rim nearer",
        "leave fewer out", "leave less", "give more stakes to an end", "leave offcuts out", "weave it with strands under",
        "work the stakes in twos", "weave with rods a class shorter", "check the height and the thickness",
        "weave and border the side so", "name the stakes its feet", "put right what it says", "swap length and width",
        "make the change after the band", "give it the same strands", "work the sticks in groups", "put this band before",
        "add a band worked singly", "give the stakes their length", "give stakes, or let", "give the foot",
        "name the band", "give the band its rounds", "write binding", "take it out if it was not measured",
        "leave the price out", "end the row with", "roll the ends over", "leave the row out", "say how far the ends go down", "tell in the steps what the rest is for", "draw the rim in", "glue the board up", "leave one of the two out",
    ),
}  # fmt: skip


@cache
def notes_of(file: Path) -> tuple[Note, ...]:
    """The notes of a bad file that it is named for."""
    return tuple(note for note in compile_pattern(file).notes if note.code == file.stem)


def offered() -> list[tuple[Path, str, str]]:
    """Every remedy of every bad file: the file, the remedy, the part it is for."""
    return [(file, remedy, note.part) for file in BAD for note in notes_of(file) for remedy in note.remedies]


def edits_for(code: str, remedy: str) -> tuple[tuple[Edit, ...], dict[str, str]] | None:
    """The edits that carry a remedy out, with what it says of lengths and numbers."""
    for codes, words, edits in EDITS:
        found = re.fullmatch(words, remedy)
        if found and (not codes or code in codes.split("|")):
            said = {name: text for name, text in found.groupdict().items() if text is not None}
            if "number" in said:
                said["number"] = str(WORDS.get(said["number"], said["number"]))
            return edits, said
    return None


def carried_out(text: str, edits: tuple[Edit, ...], said: dict[str, str]) -> str:
    """The file with the edits made; each must find its place."""
    filled = {"length": "", "number": "", **said}
    for old, new in edits:
        before, wanted = old.format(**filled), new.format(**filled)
        if "LEAVE" in wanted:
            left = re.search(r"leave_out: (\d+)", text)
            wanted = wanted.replace("LEAVE", str(int(filled["number"]) + (int(left[1]) if left else 0)))
        if wanted == "LISTED":
            wanted = "[" + ", ".join(["lap"] * int(filled["number"])) + "]"
        text, times = re.subn(before, wanted, text, count=0 if "weave: " in before else 1)
        assert times or before.startswith("weave: ("), before
    return text


@pytest.mark.parametrize(
    ("file", "remedy", "part"), offered(), ids=[f"{file.stem}: {remedy[:60]}" for file, remedy, _ in offered()]
)
def test_a_remedy_clears_its_note_and_makes_no_error(tmp_path: Path, file: Path, remedy: str, part: str) -> None:
    """Done as it says, the note is gone from that part and nothing new stops the booklet."""
    found = edits_for(file.stem, remedy)
    if found is None or not found[0]:
        named = [begin for begins in AT_THE_BENCH.values() for begin in begins if remedy.startswith(begin)]
        assert named, f"a remedy nobody carries out: {remedy}"
        return
    text = re.sub(r"^#.*\n", "", file.read_text(encoding="utf-8"), flags=re.MULTILINE)
    mended = tmp_path / file.name
    mended.write_text(carried_out(text, *found), encoding="utf-8")
    try:
        notes = compile_pattern(mended).notes
    except PatternFaultError as fault:
        notes = fault.notes
    assert not [note for note in notes if note.code == file.stem and note.part == part], remedy
    before = {note.code for note in compile_pattern(file).notes if note.stops}
    assert {note.code for note in notes if note.stops} <= before, remedy
