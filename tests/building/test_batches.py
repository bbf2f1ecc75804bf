"""Sessions are decided many at a time: those that nothing has happened to are not even planned."""

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.building.build_directory import BuildDirectory
from sitegen.building.manifest import Manifest
from sitegen.commands.build import state_of_site
from sitegen.pages.needs import parts
from tests.building.scratch import made_from_scratch
from tests.demo_copy import replace
from tests.folders import SeriesFolder
from tests.trees import differences, tree

SESSIONS = ("first", "second", "third", "fourth")
_PAGE = "episodes/first-steps/index.html"


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Four sessions, each a batch of its own."""
    monkeypatch.setattr(parts, "SESSIONS", 1)
    folder = SeriesFolder(tmp_path)
    text = (folder.root / "episodes/01-first-steps.yaml").read_text()
    for number, name in enumerate(SESSIONS[1:], start=2):
        folder.write(
            f"episodes/{number:02}-{name}-steps.yaml", text.replace("number: 1", f"number: {number}")
        )
    build(folder.root, tmp_path / "build")
    return folder.root


def build(content: Path, out: Path) -> list[str]:
    """Build; gives the addresses of the pages that were planned."""
    planned: list[str] = []
    builder = Builder(content, out, jobs=1)

    def note(pages, _):  # type: ignore[no-untyped-def]
        found = list(pages)
        planned.extend(page.address for page in found)
        return found

    builder.build(before_writing=note)
    builder.remember()
    return planned


def edit(content: Path, name: str, title: str = "Steps") -> None:
    """Change the summary of a session, or its title, which its neighbours show too."""
    path = next(content.glob(f"episodes/*-{name}-steps.yaml"))
    path.write_text(path.read_text().replace("summary: ", "summary: Now ", 1))
    if title != "Steps":
        replace(content, f"episodes/{path.name}", "title: ", f"title: {title} ")


def sessions_among(addresses: list[str]) -> set[str]:
    """Names of the sessions that some addresses belong to."""
    return {a.split("/")[1].removesuffix("-steps") for a in addresses if a.startswith("episodes/")}


@pytest.mark.parametrize(
    ("title", "wanted"),
    [
        pytest.param("Steps", {"third"}, id="a summary"),
        pytest.param("Other", {"second", "third", "fourth"}, id="a title, which the neighbours name"),
    ],
)
def test_only_sessions_that_are_made_from_what_changed_are_planned(
    content: Path, tmp_path: Path, title: str, wanted: set[str]
) -> None:
    edit(content, "third", title)
    assert sessions_among(build(content, tmp_path / "build")) == wanted
    assert differences(tree(tmp_path / "build"), made_from_scratch(content)) == []


def _scribble(out: Path) -> None:
    (out / _PAGE).write_text("scribbled over")


def _replace_by_a_copy(out: Path) -> None:
    (out / "copy").write_bytes((out / _PAGE).read_bytes())
    (out / "copy").replace(out / _PAGE)


def _note(out: Path) -> None:
    (out / "episodes/first-steps/notes.txt").write_text("mine")


def _no_links(out: Path) -> None:
    def refused(*_: object, **__: object) -> None:
        raise OSError("no links here")

    os.link = refused


MEDDLED: dict[str, Callable[[Path], object]] = {
    "nothing": lambda out: None,
    "a page is scribbled over": _scribble,
    "a page is replaced by its copy": _replace_by_a_copy,
    "a page is removed": lambda out: (out / _PAGE).unlink(),
    "the folder of a session is removed": lambda out: shutil.rmtree(out / "episodes/first-steps"),
    "a page of the needs is removed": lambda out: (out / "needs/index.html").unlink(),
    "a page of the previous site is removed": lambda out: (BuildDirectory(out).staging / _PAGE).unlink(),
    "a page of the previous site is replaced": lambda out: _replace_by_a_copy(BuildDirectory(out).staging),
    "the previous site is removed": lambda out: shutil.rmtree(BuildDirectory(out).staging),
    "a line of the manifest is damaged": lambda out: _damage(BuildDirectory(out).manifest),
    "a file of somebody else lies in the folder of a session": _note,
    "there are no links": _no_links,
}


def _damage(manifest: Path) -> None:
    data = manifest.read_bytes()
    manifest.write_bytes(data[:-20] + b"x" + data[-19:])


@pytest.mark.parametrize("meddle", MEDDLED)
def test_what_was_done_to_the_files_of_sessions_that_did_not_change_is_undone(
    content: Path, tmp_path: Path, meddle: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In the build with the next edit of another session, and in the one after it."""
    out = tmp_path / "build"
    monkeypatch.setattr(os, "link", os.link)
    edit(content, "third")
    build(content, out)
    MEDDLED[meddle](out)
    for _ in range(3):
        edit(content, "third")
        build(content, out)
        left = set(differences(tree(out), made_from_scratch(content)))
        assert left <= {"episodes/first-steps/notes.txt"}


def test_pages_at_old_addresses_lie_in_folders_of_sessions_too(content: Path, tmp_path: Path) -> None:
    out, old, new = tmp_path / "build", "episodes/first-steps/old", "episodes/second-steps"
    with (content / "series.yaml").open("a") as series:
        series.write(f"moved:\n  {old}: {new}\n  before: {new}/chapters.vtt\n")
    for name in ("first", "third", "second"):
        build(content, out)
        assert differences(tree(out), made_from_scratch(content)) == []
        assert (out / old / "index.html").exists()
        edit(content, name)
    next(content.glob("episodes/*-second-*")).unlink()
    build(content, out)
    assert differences(tree(out), made_from_scratch(content)) == []
    assert not (out / old).exists()


@pytest.mark.parametrize("name", ["", "third"])
def test_the_next_build_finds_the_site_as_it_was_left(content: Path, tmp_path: Path, name: str) -> None:
    """By the state that the command keeps, whether all was looked at or most was left as it was."""
    out = tmp_path / "build"
    edit(content, name or "first", "Other")
    builder = Builder(content, out, jobs=1)
    assert builder.build().written.site == state_of_site(out)
    assert builder.build().written.site == state_of_site(out)


def test_the_manifest_holds_every_file_of_the_site(content: Path, tmp_path: Path) -> None:
    edit(content, "third")
    build(content, tmp_path / "build")
    known = Manifest.load(BuildDirectory(tmp_path / "build").manifest)
    assert sorted(known.addresses) == sorted(tree(tmp_path / "build"))
