"""The page served on this machine: only to who has the address, only to itself, only what there is to read."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from slath.bench.followed import Followed
from slath.bench.server import ASSETS, HEADERS, application

PATTERNS = Path(__file__).parents[2] / "patterns"
PORT, TOKEN = 8123, "a-token-for-the-tests"


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """The page of a small pattern, as a browser on this machine asks for it."""
    folder = tmp_path_factory.mktemp("bench")
    for name in ("wren-pot.yaml", "otter-weir.workshop.yaml"):
        shutil.copy(PATTERNS / name, folder)
    followed = Followed(folder / "wren-pot.yaml")
    followed.look()
    with TestClient(application(followed, TOKEN, PORT), base_url=f"http://127.0.0.1:{PORT}") as made:
        yield made


def test_the_page_and_all_it_asks_for_are_there(client: TestClient) -> None:
    """Page, style, script, state, figures, pages, counts; each with the headers that keep a browser safe."""
    state = client.get(f"/{TOKEN}/state").json()
    size = state["sizes"][0]
    paths = [
        *ASSETS,
        "state",
        f"figure?size={size}&name=view",
        "pages",
        "page?number=1",
        f"counts?size={size}",
        f"what-if?size={size}&stakes={client.get(f'/{TOKEN}/counts?size={size}').json()[0]['stakes']}&name=side",
    ]
    for path in paths:
        answer = client.get(f"/{TOKEN}/{path}")
        assert answer.status_code in {200, 404 if path.startswith("what-if") else 200}, path
        for name, value in HEADERS.items():
            assert answer.headers[name] == value


@pytest.mark.parametrize(
    "headers",
    [
        {"host": "slath.example"},
        {"host": f"slath.example:{PORT}"},
        {"host": "127.0.0.1"},
        {"host": f"127.0.0.1:{PORT + 1}"},
        {"origin": "http://slath.example"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_other_hosts_and_other_pages_are_refused(client: TestClient, headers: dict[str, str]) -> None:
    """A page elsewhere that knows the address, or a name that leads here, gets nothing."""
    for path in (f"/{TOKEN}/", f"/{TOKEN}/state", "/"):
        assert client.get(path, headers=headers).status_code == 403


@pytest.mark.parametrize(
    "path",
    [
        "/", "/state", "/wrong/state", f"/{TOKEN}/../state", f"/{TOKEN}/..%2f..%2fetc/passwd", f"/{TOKEN}/wren-pot.yaml",
        f"/{TOKEN}/figure/../../wren-pot.yaml", f"/{TOKEN[:-1]}/state", "//etc/passwd",
    ],
)  # fmt: skip
def test_without_the_token_or_by_another_way_there_is_nothing(client: TestClient, path: str) -> None:
    """No path leads to a file."""
    assert client.get(path).status_code in {400, 404}


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH"])
def test_nothing_can_be_written(client: TestClient, method: str) -> None:
    """Every address only reads."""
    for path in ("", "state", "figure", "changes"):
        assert client.request(method, f"/{TOKEN}/{path}").status_code == 405


@pytest.mark.parametrize(
    "asked",
    [
        "state?units=ells", "state?language=xx", "state?style=../x", "figure?size=wren", "page?number=-1",
        "page?number=1e3", "page?number=99999", "figure?size=%00&name=view", "what-if?size=wren&stakes=x&name=side",
        "counts?size=none",
    ],
)  # fmt: skip
def test_a_question_that_means_nothing_is_answered_so(client: TestClient, asked: str) -> None:
    """With a word on why, and never a failure of the server."""
    answer = client.get(f"/{TOKEN}/{asked}")
    assert answer.status_code in {400, 404}
    assert answer.text
