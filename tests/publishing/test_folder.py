"""A folder as a target: what lies in it, or comes into it, beside what is published."""

import os
from pathlib import Path

import pytest

from sitegen.publishing.folder import FolderStore, SwappedFolderStore
from sitegen.publishing.headers import headers_for
from sitegen.publishing.target_errors import TargetError


def publish(store: FolderStore, address: str, text: str) -> None:
    store.write(address, text.encode(), headers_for(address))


def texts(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text() for path in folder.rglob("*") if path.is_file()
    }


def replaced(path: Path, text: str) -> None:
    """Save as editors do: the new file takes the place of the old one."""
    beside = path.with_name("saving")
    beside.write_text(text)
    beside.replace(path)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    home = tmp_path / "home"
    home.mkdir()
    for name in ("index.html", "note.txt", "gone.html"):
        (home / name).write_text("old")
    return home


def test_what_comes_while_the_next_site_is_put_together_is_kept(home: Path) -> None:
    store = SwappedFolderStore(home)
    store.open()
    store.begin()
    publish(store, "index.html", "new")
    store.remove("gone.html")
    (home / "letters").mkdir()
    (home / "letters" / "new.txt").write_text("came meanwhile")
    replaced(home / "note.txt", "edited meanwhile")
    replaced(home / "index.html", "by hand")
    store.finish("")

    assert texts(home) == {
        "index.html": "new",
        "note.txt": "edited meanwhile",
        "letters/new.txt": "came meanwhile",
        ".published/by-hand/meanwhile/index.html": "by hand",
    }


@pytest.mark.parametrize("cut", ["before the swap", "after it", "while that is taken over"])
def test_what_came_is_kept_by_the_next_run_where_this_one_is_cut_off(
    home: Path, cut: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = SwappedFolderStore(home)
    store.open()
    store.begin()
    publish(store, "index.html", "new")
    (home / "came.txt").write_text("came meanwhile")
    replaced(home / "note.txt", "edited meanwhile")
    with monkeypatch.context() as patch:
        place = {
            "before the swap": "sitegen.publishing.folder.swap",
            "after it": "sitegen.publishing.folder.SwappedFolderStore._keep_what_came",
            "while that is taken over": "sitegen.publishing.folder.os.replace",
        }[cut]
        original = os.replace

        def end(*paths: object) -> None:
            if "swapping.json" in str(paths[-1]):  # what is noted before the swap
                original(*paths)  # type: ignore[arg-type]
            else:
                raise KeyboardInterrupt

        patch.setattr(place, end)
        with pytest.raises(KeyboardInterrupt):
            store.finish("")

    again = SwappedFolderStore(home)
    again.open()
    again.begin()
    again.finish("")

    kept = {"came.txt": "came meanwhile", "note.txt": "edited meanwhile", "gone.html": "old"}
    assert texts(home) == {**kept, "index.html": "old" if cut == "before the swap" else "new"}
    assert [path.name for path in home.parent.iterdir()] == ["home"]


def test_an_edit_in_place_is_kept_whether_the_file_is_published_again_or_not(home: Path) -> None:
    store = SwappedFolderStore(home)
    store.open()
    store.begin()
    publish(store, "index.html", "new")
    for name in ("index.html", "note.txt"):
        with (home / name).open("a") as file:
            file.write(", edited in place")
    store.finish("")

    assert texts(home) == {
        "index.html": "new",
        "note.txt": "old, edited in place",
        "gone.html": "old",
        ".published/by-hand/meanwhile/index.html": "old, edited in place",
    }


def test_links_and_empty_folders_that_come_meanwhile_are_kept(home: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (home / "before").symlink_to(tmp_path)
    store = SwappedFolderStore(home)
    store.open()
    store.begin()
    (home / "link").symlink_to(tmp_path / "elsewhere")
    (home / "room").mkdir()
    store.finish("")

    assert sorted(path.name for path in home.iterdir()) == [
        "before",
        "gone.html",
        "index.html",
        "link",
        "note.txt",
        "room",
    ]
    assert (home / "link").readlink() == tmp_path / "elsewhere"
    assert (home / "before").readlink() == tmp_path


@pytest.mark.parametrize("kind", [FolderStore, SwappedFolderStore])
def test_nothing_is_written_through_a_link(home: Path, tmp_path: Path, kind: type[FolderStore]) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (home / "episodes").symlink_to(elsewhere)
    store = kind(home)
    store.open()
    store.begin()

    with pytest.raises(TargetError, match="is a link, and nothing is written through links"):
        publish(store, "episodes/1/index.html", "new")
    store.close()
    assert texts(elsewhere) == {}
