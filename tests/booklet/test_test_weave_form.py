"""The test-weave form asks under the words the file reads, and tells how a woven size was predicted."""

from __future__ import annotations

import json
from pathlib import Path

from tests.quantities.test_learning import BASKET

from slath.booklet.blocks import Definitions, Document, Form, FormBox, Paragraph, Second, Strong, Table, every
from slath.booklet.content_forms import proof_document, test_weave_document
from slath.booklet.content_record import BookletContent
from slath.booklet.content_steps import SizeContent
from slath.language.schemas import schema
from slath.output.text import document_text
from slath.pipeline import compile_pattern
from slath.wording.speech import Voice

form_of = test_weave_document  # under a name that no test collector takes for a test
del test_weave_document


def content(folder: Path, woven: str) -> BookletContent:
    """The content of the tester's basket without its figures."""
    file = folder / "basket.yaml"
    file.write_text(BASKET.format(woven=woven, more=""), encoding="utf-8")
    compilation = compile_pattern(file)
    sizes = tuple(SizeContent(size.basket, size.quantities, (), {}, {}) for size in compilation.sizes)
    voice = Voice(compilation.pattern.sizes[0].materials)
    return BookletContent(compilation.pattern, sizes, voice, "", (), Definitions(()), {})


def boxes(document: Document) -> list[FormBox]:
    """Every box of a form."""
    return [box for block in every(document.blocks) if isinstance(block, Form) for box in block.boxes]


def name_of(box: FormBox) -> str:
    """The word after what is asked for, by which the file calls it."""
    assert isinstance(box.name, tuple)
    assert isinstance(box.name[0], Strong)
    assert isinstance(box.name[-1], Second)
    assert isinstance(box.name[-1].words, str)
    return box.name[-1].words


def test_form_names_every_box_as_the_file_does(tmp_path: Path) -> None:
    """Boxes are called by keys of `woven:` or by bands and materials of the pattern, so a tester copies them back as they are."""
    made = content(tmp_path, "")
    keys = set(schema("pattern")["$defs"]["test_weave"]["then"]["properties"])
    sized = made.pattern.sizes[0]
    bands = {"binding", "base", "upsett", "wall"}
    found = boxes(form_of(made))
    assert {name_of(box) for box in found} <= keys | bands | set(sized.materials)
    asked = {name_of(box) for box in found}
    assert asked >= {
        "on",
        "by",
        "time",
        "height",
        "base_diameter",
        "rim_diameter",
        "mass",
        "stake_cut",
        "stake_left",
        *bands,
    }
    assert asked >= {"plain", "rust", "fine", "sticks", "stakes"}


def test_what_is_filled_in_is_compared_and_not_asked_again(tmp_path: Path) -> None:
    """A size with three figures filled in shows them beside what was predicted; its other boxes stay to be filled."""
    woven = "woven: " + json.dumps({"medium": {"on": "2026-03-01", "mass": "300 g", "rounds": {"wall": 20}}})
    document = form_of(content(tmp_path, woven))
    (table,) = [block for block in document.blocks if isinstance(block, Table)]
    assert [row.cells[0] for row in table.rows] == ["weight, finished and dry", "rounds of wall"]
    asked = [name_of(box) for box in boxes(document)]
    assert asked.count("mass") == 2, "the sizes nobody has woven"
    assert asked.count("height") == 3
    summaries = [block.words for block in document.blocks if isinstance(block, Paragraph)]
    assert any("2 numbers compared, missed by" in str(words) for words in summaries)


def test_proof_on_pages_tells_the_misses(tmp_path: Path) -> None:
    """The proof as a document says of every size how it was predicted, and leaves that out where nobody wove any."""
    woven = "woven: " + json.dumps({"medium": {"on": "2026-03-01", "mass": "300 g"}})
    text = document_text(proof_document(content(tmp_path, woven), ()))
    assert "Prediction errors by size" in text
    assert "found" in text
    assert "300.00 g" in text
    assert "Prediction errors by size" not in document_text(proof_document(content(tmp_path, ""), ()))
