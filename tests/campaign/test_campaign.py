"""A few seconds of the campaign, and everything it ever found; `python -m tests.campaign.run` goes on for hours."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.campaign import trying
from tests.campaign.trying import FINDS, Attempt, Campaign

KINDS = ("pattern", "slip", "mutation", "bytes", "workshop", "class", "style", "picture")


@pytest.mark.parametrize("kind", KINDS)
def test_some_attempts_of_every_kind(kind: str, tmp_path: Path) -> None:
    """Attempts from a fixed seed: notes, numbers or files, never an error of ours, nor more time than anything may take."""
    tally = Campaign(2026, tmp_path, builds=0.0, kinds=(kind,)).run(lambda number: number >= 30)
    assert not tally.finds, tally.told()
    assert tally.tried == {kind: 30}
    assert len(tally.ended) + len(tally.codes) > 1  # not all refused for one reason, nor all good


@pytest.mark.parametrize("find", sorted(FINDS.iterdir()), ids=lambda file: file.stem)
def test_what_was_found_stays_mended(find: Path, tmp_path: Path) -> None:
    """Every input that a campaign once found, or somebody else: its name says what it is and how far it goes."""
    what, _, _ = find.stem.partition("-")
    builds = ("booklet", "handout", "text", "list") if find.suffix == ".built" else ()
    campaign = Campaign(0, tmp_path)
    assert campaign.try_one(what, Attempt(what, find.read_bytes(), builds)) is None, campaign.tally.told()


def test_a_campaign_finds_what_is_wrong(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error of ours, and one that takes for ever, are found and kept with the shortest input."""

    def wrong(attempt: Attempt, _folder: Path) -> tuple[str, tuple[()]]:
        if len(attempt.content) % 2:
            raise KeyError(attempt.kind)
        while attempt.kind == "style":
            pass
        return "good", ()

    monkeypatch.setattr(trying, "ended", wrong)
    monkeypatch.setattr(trying, "SECONDS", 0.05)
    campaign = Campaign(1, tmp_path)
    for content in (b"123", b"1"):
        campaign.try_one("pattern", Attempt("pattern", content))
    campaign.try_one("style", Attempt("style", b"12"))
    kept = {key.partition(" ")[0]: content for key, (_, content) in campaign.tally.finds.items()}
    assert kept == {"KeyError": b"1", "TooSlowError": b"12"}
    assert "2 finds" in campaign.tally.told()
