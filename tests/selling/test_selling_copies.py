"""Copies for buyers: the plain file and one line more, nobody else's name, in every list that can be read."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner
from pypdf import PdfReader
from tests.booklet.sample import booklet
from tests.conformance.engine import missing, validate

from slath.booklet.styles import shipped
from slath.cli.commands import slath
from slath.output.pdf import set_document
from slath.output.stamping import Stampable, stampable
from slath.selling.buyers import BuyersError, read_buyers

PATTERNS = Path(__file__).parents[2] / "patterns"


@pytest.fixture(scope="module", params=["home", "booklet", "large-print"])
def stamp(request: pytest.FixtureRequest) -> Stampable:
    """The sample booklet in a style, ready to be stamped."""
    style = shipped(request.param)
    return stampable(set_document(booklet(), style), style)


def _words(data: bytes) -> list[str]:
    return [page.get_textpage().get_text_bounded() for page in pdfium.PdfDocument(data)]


def test_a_copy_is_the_plain_file_and_one_line_more(stamp: Stampable) -> None:
    """The plain file stands in it byte for byte; every page with words on it says whose it is, once; none else changes."""
    made = stamp.copy_for("Copy for Ada Öberg")
    assert made.startswith(stamp.plain)
    assert len(made) - len(stamp.plain) < 40_000
    plain, copied = _words(stamp.plain), _words(made)
    assert len(plain) == len(copied)
    for before, after in zip(plain, copied, strict=True):
        assert after.count("Copy for Ada Öberg") == bool(before.strip())
        assert sorted(after.replace("Copy for Ada Öberg", "").split()) == sorted(before.split())


def test_what_the_file_says_of_itself_names_the_buyer(stamp: Stampable) -> None:
    """The information dictionary and the metadata stream agree, read by another library than wrote them."""
    reader = PdfReader(BytesIO(stamp.copy_for("Copy for Ada & <Bea>")))
    assert reader.metadata is not None
    assert str(reader.metadata.subject).endswith(". Copy for Ada & <Bea>")
    assert reader.xmp_metadata is not None
    described = reader.xmp_metadata.dc_description
    assert described is not None
    assert described["x-default"] == reader.metadata.subject


def test_nothing_of_one_buyer_is_in_the_copy_of_another(stamp: Stampable) -> None:
    """What is added for one is made without the other; the same name gives the same bytes, another its own identifier."""
    ada, bea = (stamp.copy_for(f"Copy for {name}") for name in ("Ada Öberg", "Bea Xylander"))
    assert ada == stamp.copy_for("Copy for Ada Öberg")
    alone = stampable(stamp.plain, stamp.style).copy_for("Copy for Bea Xylander")
    assert bea == alone
    identities = [PdfReader(BytesIO(data)).trailer["/ID"] for data in (ada, bea)]
    assert identities[0] != identities[1]


@pytest.mark.skipif(bool(missing()), reason=missing())
def test_a_copy_conforms(stamp: Stampable) -> None:
    """PDF/UA-1 and PDF/A-2a hold for a copy as for the plain file, by veraPDF."""
    made = stamp.copy_for("Copy for Wilhelmina Wetherby-Marchbanks")
    assert [verdict.failures for verdict in validate(made, "ua1", "2a", numbers=False)] == [(), ()]


def _listed(tmp_path: Path, data: bytes) -> Path:
    path = tmp_path / "buyers.csv"
    path.write_bytes(data)
    return path


@pytest.mark.parametrize(
    "data",
    [
        "name,order\nAda Öberg,7\nBea Marsh,8\n".encode(),
        "\ufeffOrder;Name\r\n7;Ada Öberg\r\n8;Bea Marsh\r\n".encode(),
        'name\n"Ada Öberg"\n\n  Bea   Marsh \n'.encode(),
    ],
)
def test_lists_as_spreadsheets_write_them(data: bytes, tmp_path: Path) -> None:
    """Commas or semicolons, a mark at the beginning, columns in any order, empty rows."""
    assert [buyer.name for buyer in read_buyers(_listed(tmp_path, data))] == ["Ada Öberg", "Bea Marsh"]


def test_two_buyers_of_one_name_have_two_files(tmp_path: Path) -> None:
    """Also where somebody else is really called as the second would be numbered, and whatever their capitals."""
    data = b"name\nAda\nAda 2\nAda\nada\n"
    files = [buyer.file for buyer in read_buyers(_listed(tmp_path, data))]
    assert len({name.casefold() for name in files}) == 4


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "headed name"),
        (b"name\n", "no buyers"),
        (b"who,when\nAda,now\n", "who and when"),
        (b"name,order\n,7\n", ":2: this buyer has no name"),
        ("name\nΩmega\n".encode(), "U\\+03A9"),
        (b"name\n" + b"x" * 81 + b"\n", "81"),
        (b"name\n\xff\n", "UTF-8"),
        (b'name\n"Ada\n' + b"x" * 200_000, "CSV|no name|letters"),
        (b"name\n" + b"Ada\n" * 20_001, "20000"),
    ],
)
def test_a_list_that_cannot_be_used_is_refused(data: bytes, said: str, tmp_path: Path) -> None:
    """With its line and the reason, before anything is made."""
    with pytest.raises(BuyersError, match=said):
        read_buyers(_listed(tmp_path, data))


def test_the_command_writes_a_file_for_each(tmp_path: Path) -> None:
    """Every copy under its buyer's name, none twice, and the exit code of a list at fault."""
    listed = _listed(tmp_path, b"name\nAda Oberg\nBea Marsh\n")
    command = ["copies", str(PATTERNS / "eel-mat.yaml"), str(listed), "--out", str(tmp_path / "out")]
    done = CliRunner().invoke(slath, command)
    assert done.exit_code == 0, done.output
    made = sorted(path.name for path in (tmp_path / "out" / "eel-mat" / "copies").glob("*.pdf"))
    assert made == ["eel-mat-booklet-for-Ada-Oberg.pdf", "eel-mat-booklet-for-Bea-Marsh.pdf"]
    listed.write_bytes(b"who\nAda\n")
    assert CliRunner().invoke(slath, command).exit_code == 1
