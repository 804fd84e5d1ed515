"""One attempt after another on what slath reads: what is tried, what may come of it, and what is kept of it."""

from __future__ import annotations

import contextlib
import io
import resource
import shutil
import signal
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from types import FrameType
from typing import Any

import yaml
from PIL import Image
from tests.campaign.growing import changed, schemas
from tests.cli.mutations import PATTERNS, mutated, slipped

from slath.booklet.blocks import ContentError
from slath.booklet.styles import StyleError, read
from slath.cli.commands import looked_over
from slath.editions import EDITIONS, editions_of
from slath.notes import Note, PatternFaultError
from slath.notes.text import notes_as_text
from slath.pipeline import CommandFaultError, compile_pattern, counts_of, listing_text, proof_of
from slath.work import BuildOptions, damaged_pictures

ROOT = Path(__file__).parents[2]
FINDS = Path(__file__).parent / "finds"
HANDBOOK = ROOT / "tests" / "handbook" / "baskets"
SECONDS, SECONDS_TO_BUILD = 2.0, 60.0  # of processor time, for a check and for making everything
MEGABYTES = 300


class TooSlowError(Exception):
    """An attempt took longer than anything may."""


@dataclass
class Tally:
    """What a campaign reached, and what it found."""

    tried: Counter[str] = field(default_factory=Counter)
    ended: Counter[str] = field(default_factory=Counter)
    codes: set[str] = field(default_factory=set)
    slowest: tuple[float, str] = (0.0, "")
    finds: dict[str, tuple[str, bytes]] = field(default_factory=dict)

    def told(self) -> str:
        """The figures reached, in a few lines."""
        lines = [
            f"{sum(self.tried.values())} tried: {', '.join(f'{count} {kind}' for kind, count in sorted(self.tried.items()))}"
        ]
        lines.append(f"ended: {', '.join(f'{count} {end}' for end, count in self.ended.most_common())}")
        lines.append(f"{len(self.codes)} codes of notes met; slowest {self.slowest[0]:.2f} s ({self.slowest[1]})")
        lines.append(
            f"{len(self.finds)} finds" + "".join(f"\n  {name}\n{what}" for name, (what, _) in self.finds.items())
        )
        return "\n".join(lines)


@dataclass(frozen=True)
class Attempt:
    """A file to be read, and how far to go with it."""

    kind: str  # pattern, workshop, class, style or picture
    content: bytes
    build: tuple[str, ...] = ()


class Campaign:
    """Attempts made from a seed. What reaches a set of notes that no attempt before it reached is changed further."""

    def __init__(self, seed: int, folder: Path, builds: float = 0.02, kinds: tuple[str, ...] = ()) -> None:
        self.random = Random(seed)  # noqa: S311 - chance, not secrets
        self.folder = folder
        self.builds = builds
        self.tally = Tally()
        self.schemas = schemas()
        self.grown: dict[str, list[Any]] = {kind: list(_seeds(kind)) for kind in self.schemas}
        self.met: set[frozenset[str]] = set()
        self.kinds = kinds or (
            "pattern",
            "pattern",
            "pattern",
            "slip",
            "mutation",
            "bytes",
            "workshop",
            "class",
            "style",
            "picture",
        )
        for file in (ROOT / "patterns").glob("*.yaml"):
            shutil.copy(file, folder)

    def run(self, enough: Callable[[int], bool]) -> Tally:
        """Try until there have been enough attempts."""
        number = 0
        while not enough(number):
            number += 1
            kind = self.random.choice(self.kinds)
            self.try_one(kind, *self.made(kind))
        return self.tally

    def made(self, kind: str) -> tuple[Attempt, Any]:
        """An attempt of a kind, and the data it was written from where it may be changed further."""
        random = self.random
        build = tuple(random.sample(list(EDITIONS), 2)) if random.random() < self.builds else ()
        if kind == "slip":
            return Attempt(
                "pattern",
                slipped(random.choice(PATTERNS), random, random.randint(1, 4)).encode("utf-8", "surrogatepass"),
                build,
            ), None
        if kind == "mutation":
            return Attempt(
                "pattern",
                mutated(random.choice(PATTERNS), random, random.randint(1, 4)).encode("utf-8", "surrogatepass"),
                build,
            ), None
        if kind == "bytes":
            file = random.choice(sorted((ROOT / "patterns").glob("*.yaml")))
            what = "class" if ".class." in file.name else "workshop" if ".workshop." in file.name else "pattern"
            return Attempt(what, garbled(file.read_bytes(), random), build), None
        if kind == "picture":
            return Attempt("picture", picture(random), ("booklet",) if random.random() < 0.3 else ()), None
        data = changed(random.choice(self.grown[kind]), self.schemas[kind], random, random.choice((1, 1, 2, 3, 5)))
        return Attempt(kind, written(data), build), data

    def try_one(self, name: str, attempt: Attempt, data: Any = None) -> str | None:
        """Make one attempt; what was found, or None."""
        self.tally.tried[name] += 1
        started = time.process_time()
        try:
            with within(SECONDS_TO_BUILD if attempt.build else 4 * SECONDS):
                end, notes = ended(attempt, self.folder)
        except Exception as problem:  # noqa: BLE001 - whatever it is, it is what the campaign looks for
            where = traceback.extract_tb(problem.__traceback__)[-1]
            key = f"{type(problem).__name__} in {Path(where.filename).name}:{where.lineno}"
            self.found(key, traceback.format_exc(limit=-6), attempt)
            return key
        took = time.process_time() - started
        self.tally.ended[end] += 1
        codes = frozenset(note.code for note in notes)
        self.tally.codes |= codes
        if not attempt.build:
            self.tally.slowest = max(self.tally.slowest, (took, name))
            if took > SECONDS:
                self.found(f"slow {name}", f"{took:.1f} s", attempt)
        if data is not None and codes not in self.met and len(attempt.content) < 30_000:
            self.met.add(codes)
            self.grown[attempt.kind].append(data)
        return None

    def found(self, key: str, what: str, attempt: Attempt) -> None:
        """Keep the shortest input for each thing found."""
        self.tally.ended["found"] += 1
        if key not in self.tally.finds or len(attempt.content) < len(self.tally.finds[key][1]):
            self.tally.finds[key] = (f"{what}\n  kind {attempt.kind}, build {attempt.build}", attempt.content)


def ended(attempt: Attempt, folder: Path) -> tuple[str, tuple[Note, ...]]:
    """How an attempt ends: good, in notes that stop it, or refused; anything else is an exception."""
    if attempt.kind == "style":
        file = folder / "own.yaml"
        file.write_bytes(attempt.content)
        try:
            read(file)
        except StyleError as problem:
            return ("refused" if str(problem).startswith("own.yaml") else "refused without a place"), ()
        return made(PATTERNS[0], BuildOptions(attempt.build, style=str(file))) if attempt.build else ("good", ())
    if attempt.kind == "picture":
        (folder / "own.png").write_bytes(attempt.content)
        file = folder / "shown.yaml"
        text = PATTERNS[0].read_text("utf-8") + "\nsteps: [{stage: base, pictures: [{file: own.png, shows: a base}]}]\n"
        file.write_text(text.replace("\nsteps:", "\nmore:", text.count("\nsteps:") - 1), "utf-8")
        return made(file, BuildOptions(attempt.build)) if attempt.build else checked(file)
    file = folder / "own.yaml"
    file.write_bytes(attempt.content)
    end, notes = checked(file)
    if end == "good" and attempt.kind == "pattern":
        compilation = compile_pattern(file)
        assert counts_of(compilation, None, None, "mm")
        for form in ("table", "csv", "json"):
            assert listing_text(compilation, form, "mm")
        assert proof_of(compilation)
        if attempt.build:
            return made(file, BuildOptions(attempt.build, copy_for="A <b> [c]"))
    return end, notes


def checked(file: Path) -> tuple[str, tuple[Note, ...]]:
    """What `slath check` finds, held to what every note must have."""
    try:
        notes, _ = looked_over(file, None, (), ())
    except PatternFaultError as fault:
        notes = fault.notes
        assert any(note.stops for note in notes)
    assert all(note.place.line and note.sentence.strip() for note in notes)
    assert len(notes_as_text(notes)) < 2_000_000
    return ("stopped" if any(note.stops for note in notes) else "good"), notes


def made(file: Path, options: BuildOptions) -> tuple[str, tuple[Note, ...]]:
    """Everything made that was asked for, unless content or command is refused in words."""
    try:
        compilation = compile_pattern(file)
    except PatternFaultError as fault:
        return "stopped", fault.notes
    if compilation.at_fault or damaged_pictures(compilation):
        return "stopped", (*compilation.notes, *damaged_pictures(compilation))
    try:
        files = dict(editions_of(compilation, options, lambda _text: None))
    except (CommandFaultError, ContentError):
        return "refused", ()
    assert all(files.values())
    return "made", compilation.notes


def garbled(raw: bytes, random: Random) -> bytes:
    """Bytes with a few of them changed, cut out, doubled or put in."""
    data = bytearray(raw)
    for _ in range(random.choice((1, 1, 2, 3, 8, 40))):
        at = random.randrange(len(data) + 1)
        chance = random.random()
        if chance < 0.4 and at < len(data):
            data[at] = random.choice((random.randrange(256), data[at] ^ 1 << random.randrange(8)))
        elif chance < 0.6:
            data[at:at] = random.choice(_TOKENS)
        elif chance < 0.8:
            del data[at : at + random.choice((1, 1, 2, 5, 20, 200))]
        else:
            start = random.randrange(len(data) + 1)
            data[at:at] = data[start : start + random.choice((1, 5, 40, 400))]
    return bytes(data)


_TOKENS = (
    b"\x00", b"\xff", b"\xc0\x80", b"\xed\xa0\x80", b"\xef\xbb\xbf", b"\r", b"\r\n", b"\xc2\x85", b"\xe2\x80\xa8", b"\t", b"&a ", b"*a ",
    b"!!python/object:os.system ", b"!x ", b"<<: ", b"? ", b"- ", b": ", b"{", b"}", b"[", b"]", b"|\n", b">-\n", b"'", b'"', b"#", b"---\n",
    b"...\n", b"%YAML 1.1\n", b"1e999", b"0x1F", b"~", b"-", b"9" * 30, b"[" * 50, b"\\u0000", b"\xf0\x9f\xa7\xba", b"e\xcc\x81",
)  # fmt: skip


def picture(random: Random) -> bytes:
    """A picture: any mode, any shape, whole or cut off, garbled, or larger than it says."""
    mode = random.choice(("RGB", "L", "CMYK", "1", "P", "RGBA", "LA", "I", "I;16", "F", "YCbCr"))
    kind = random.choice(("PNG", "JPEG", "PNG", "JPEG", "GIF", "TIFF", "BMP", "WEBP"))
    size = random.choice(((1, 1), (1, 6000), (6000, 1), (3, 2), (40, 30), (800, 600), (2, 60000), (3000, 2000)))
    out = io.BytesIO()
    with contextlib.suppress(Exception):
        extra: dict[str, Any] = {"exif": _turned(random.randrange(10))} if kind == "JPEG" else {}
        if mode == "P" and random.random() < 0.5:
            extra["transparency"] = 0
        Image.new(mode, size).save(out, kind, **extra)
    data = out.getvalue() or b"\x89PNG\r\n\x1a\n"
    chance = random.random()
    if chance < 0.25:
        return data[: random.randrange(len(data))]
    if chance < 0.6:
        return garbled(data, random)
    if chance < 0.7 and kind == "PNG":  # a header that promises another size than the data have
        wide = random.choice((0, 1, 100_000, 2**31 - 1)).to_bytes(4, "big")
        return data[:16] + wide + wide + data[24:]
    return data


def _turned(way: int) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = way
    return exif.tobytes()


def written(data: Any) -> bytes:
    """The tree as YAML."""
    text = yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=10**9)
    return text.encode("utf-8", "surrogatepass")


def _seeds(kind: str) -> Iterator[Any]:
    """What attempts of a kind begin with."""
    if kind == "style":
        files = sorted((ROOT / "styles").glob("*.yaml"))
    elif kind == "pattern":
        files = [*PATTERNS, *sorted(HANDBOOK.glob("*.yaml"))]
    else:
        files = sorted((ROOT / "patterns").glob(f"*.{kind}.yaml"))
    for file in files:
        yield yaml.safe_load(file.read_text("utf-8"))


@contextlib.contextmanager
def within(seconds: float) -> Iterator[None]:
    """TooSlowError if what is done takes longer than so many seconds of processor time."""

    def over(_number: int, _frame: FrameType | None) -> None:
        raise TooSlowError

    before = signal.signal(signal.SIGVTALRM, over)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def most_memory() -> float:
    """Megabytes this process has held at most."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
