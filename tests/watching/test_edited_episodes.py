"""Files changed from the pages beside a film, and what is refused."""

import http.client
import json
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from sitegen.preview.ahead import Ahead
from sitegen.preview.beside_film import MOST_BYTES, FilmPages
from sitegen.preview.handler import handler_for
from sitegen.preview.server import SiteServer
from sitegen.preview.state import PreviewState
from sitegen.watching.changes import ChangeRefused, RowChange
from sitegen.watching.edited_episodes import EditedEpisodes
from tests.conftest import PATIENCE_S
from tests.folders import SeriesFolder

NAME = "01-first-steps"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    root = SeriesFolder(tmp_path).root
    (root / "media").mkdir(exist_ok=True)
    (root / "media" / "lee shore.webm").write_bytes(b"film")
    return root


def file_of(content: Path, name: str = NAME) -> Path:
    return content / "episodes" / f"{name}.yaml"


def wish(content: Path, dose: str) -> tuple[EditedEpisodes, str, RowChange]:
    desk = EditedEpisodes(content)
    state = desk.state(NAME)
    row = next(row["id"] for row in state["rows"] if row["kind"] == "exercise")
    return desk, state["seen"], RowChange(row, dose)


@pytest.mark.parametrize("ends", [b"\n", b"\r\n"])
def test_a_change_is_written_whole_and_taken_back(content: Path, ends: bytes) -> None:
    """Ends of lines and a byte order mark stay as they were; the file as it was is kept once."""
    before = b"\xef\xbb\xbf" + file_of(content).read_bytes().replace(b"\n", ends)
    file_of(content).write_bytes(before)
    desk, seen, first = wish(content, "6 each side")
    state = desk.change(NAME, "dose", first, seen)
    after = file_of(content).read_bytes()
    assert after.replace(b'"6 each side"', b"30 s") == before
    state = desk.change(NAME, "dose", RowChange(first.row, "7"), state["seen"])
    assert [path.name for path in file_of(content).parent.glob("*.old*")] == [f"{NAME}.yaml.old"]
    assert file_of(content).with_name(f"{NAME}.yaml.old").read_bytes() == before
    assert [desk.undo(NAME)["undo"], desk.undo(NAME)["undo"]] == [1, 0]
    assert file_of(content).read_bytes() == before
    with pytest.raises(ChangeRefused, match="nothing to take back"):
        desk.undo(NAME)


def test_what_was_edited_meanwhile_is_not_overwritten(content: Path) -> None:
    desk, seen, first = wish(content, "6")
    by_hand = file_of(content).read_bytes() + b"# mine\n"
    file_of(content).write_bytes(by_hand)
    with pytest.raises(ChangeRefused, match="changed meanwhile"):
        desk.change(NAME, "dose", first, seen)
    desk.change(NAME, "dose", first, desk.state(NAME)["seen"])
    file_of(content).write_bytes(by_hand)
    with pytest.raises(ChangeRefused, match="changed by hand"):
        desk.undo(NAME)
    assert file_of(content).read_bytes() == by_hand


def test_nothing_outside_the_folder_is_read_or_written(content: Path, tmp_path: Path) -> None:
    outside = tmp_path / "outside.yaml"
    outside.write_text(
        file_of(content).read_text().replace("blocks:", "video: {file: ../secret.webm}\nblocks:")
    )
    (tmp_path / "secret.webm").write_bytes(b"secret")
    file_of(content, "02-link").symlink_to(outside)
    file_of(content, "03-film").write_bytes(outside.read_bytes())
    desk = EditedEpisodes(content)
    assert desk.episodes() == [NAME, "03-film"]
    assert desk.film("03-film") is None
    for name in ("02-link", "../outside", "../../outside", ""):
        with pytest.raises(KeyError):
            desk.state(name)


def test_an_episode_begins_with_its_film(content: Path) -> None:
    exercise = next(iter(EditedEpisodes(content).exercises()))
    desk = EditedEpisodes(content)
    assert desk.films_without_episode() == ["media/lee shore.webm"]
    with pytest.raises(ChangeRefused, match="not in the library"):
        desk.begin("media/lee shore.webm", "Lee shore", "planck", 20)
    name = desk.begin("media/lee shore.webm", "Lee shore", exercise, 20)
    assert name == "02-lee-shore"
    assert desk.films_without_episode() == []
    rows = desk.state(name)["rows"]
    assert [(row["kind"], row["at"]) for row in rows] == [("block", 20), ("exercise", 20), ("turn", None)]


@pytest.fixture
def pages(content: Path, tmp_path: Path) -> Iterator[tuple[FilmPages, int]]:
    films = FilmPages(content)
    (tmp_path / "site").mkdir()
    server = SiteServer(tmp_path / "site", 0, handler_for(PreviewState(), Ahead(), films))
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    yield films, server.server_address[1]
    server.shutdown()
    server.server_close()


REQUESTS = {
    "from another site": ({"Origin": "https://other.example"}, 403),
    "by another name for this computer": ({"Host": "other.example"}, 403),
    "without the token": ({"X-Page-Token": ""}, 403),
    "as a form, which any page can send": ({"Content-Type": "text/plain"}, 404),
    "of a length that is no number": ({"Content-Length": "2\N{SUPERSCRIPT TWO}".encode("latin-1")}, 413),
    "endless": ({"Content-Length": str(MOST_BYTES + 1)}, 413),
    "from the page itself": ({}, 200),
}


@pytest.mark.parametrize(("headers", "status"), REQUESTS.values(), ids=REQUESTS)
def test_only_its_own_pages_change_a_file(
    pages: tuple[FilmPages, int], content: Path, headers: dict[str, str | bytes], status: int
) -> None:
    films, port = pages
    before = file_of(content).read_bytes()
    _, seen, first = wish(content, "6")
    body = json.dumps({"action": "dose", "row": first.row, "value": "6", "seen": seen}).encode()
    usual = {
        "Host": f"127.0.0.1:{port}",
        "Origin": f"http://127.0.0.1:{port}",
        "Content-Type": "application/json",
        "Content-Length": str(len(body)),
        "X-Page-Token": films.token,
    }
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
    connection.request("POST", f"/-/film/{NAME}", body, usual | headers)
    assert connection.getresponse().status == status
    connection.close()
    assert (file_of(content).read_bytes() == before) is (status != 200)


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"[",
        b"[" * 19_000,
        b'{"action": "begin", "at": 1e999}',
        b'{"action": "begin", "at": "soon"}',
        b"7",
    ],
)
def test_a_request_that_cannot_be_read_is_answered(
    pages: tuple[FilmPages, int], content: Path, body: bytes
) -> None:
    films, _ = pages
    before = file_of(content).read_bytes()
    assert films.post(NAME, films.token, body).status == 400
    assert file_of(content).read_bytes() == before
