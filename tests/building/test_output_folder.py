"""Output folders are ordinary folders: what no build wrote stays as it is, whatever it is."""

import os
import shutil
import stat
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from sitegen.building import output_folder, writer
from sitegen.building.build import Builder
from sitegen.building.build_directory import BuildDirectory
from sitegen.problems import ContentError
from tests.demo_copy import replace
from tests.folders import SeriesFolder
from tests.trees import differences, tree

EXERCISE = "exercises/chair-squat.yaml"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return SeriesFolder(tmp_path).root


def build(content: Path, out: Path, *, take_over: bool = False) -> tuple[str, ...]:
    """Build; gives the addresses that were written."""
    builder = Builder(content, out, jobs=1, take_over=take_over)
    made = builder.build().written.made
    builder.remember()
    return made


def build_changed(content: Path, out: Path, times: int = 2) -> None:
    """Build as often as it takes for the site and the previous one to have changed places twice."""
    for _ in range(times):
        replace(content, "series.yaml", "title: ", "title: New ")
        build(content, out)


def refusal(content: Path, out: Path, *, take_over: bool = False) -> str:
    """What a build says that is refused; nothing in the output folder may have changed."""
    before = tree(out)
    with pytest.raises(ContentError) as refused:
        build(content, out, take_over=take_over)
    assert tree(out) == before
    (problem,) = refused.value.problems
    assert problem.check == "output-folder"
    return str(problem)


# --- what no build wrote stays ---------------------------------------------------------------


def git(folder: Path, *words: str) -> str:
    who = ("-c", "user.name=Tester", "-c", "user.email=tester@example.org")
    done = subprocess.run(
        ["git", "-C", str(folder), *who, *words], check=True, capture_output=True, text=True
    )
    return done.stdout


def test_a_repository_in_the_output_folder_works_after_builds(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    git(out, "init", "--quiet")
    git(out, "add", "--all")
    git(out, "commit", "--quiet", "--message", "The site")
    build_changed(content, out)
    assert (out / ".git/refs/tags").is_dir()  # an empty folder, without which it is no repository
    git(out, "fsck", "--strict")
    assert " M index.html" in git(out, "status", "--porcelain")


@pytest.mark.parametrize("place", ["mine", ".hidden", "episodes/mine", "assets/mine/deeper"])
def test_foreign_folders_stay_whole(content: Path, tmp_path: Path, place: str) -> None:
    out = tmp_path / "build"
    build(content, out)
    folder = out / place
    (folder / "empty").mkdir(parents=True)
    (folder / "notes.txt").write_text("mine")
    (folder / "way-out").symlink_to(content)
    folder.chmod(0o700)
    before = os.lstat(folder)
    build_changed(content, out)
    assert (folder / "empty").is_dir()
    assert (folder / "notes.txt").read_text() == "mine"
    assert (folder / "way-out").readlink() == content
    after = os.lstat(folder)
    assert (after.st_ino, stat.S_IMODE(after.st_mode)) == (before.st_ino, 0o700)


def test_the_output_folder_keeps_its_rights(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    out.chmod(0o2750)
    build_changed(content, out)
    assert stat.S_IMODE(out.stat().st_mode) == 0o2750


def test_foreign_files_stay_when_the_folder_around_them_goes(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    first = content / "episodes/01-first-steps.yaml"
    (content / "episodes/02-second-steps.yaml").write_text(
        first.read_text().replace("number: 1", "number: 2")
    )
    build(content, out)
    (out / "episodes/second-steps/notes.txt").write_text("mine")
    (content / "episodes/02-second-steps.yaml").unlink()
    build(content, out)
    assert [path.name for path in (out / "episodes/second-steps").iterdir()] == ["notes.txt"]


def test_what_a_crash_left_in_the_previous_site_comes_back(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The swap is done and the program ends before the foreign files are moved."""
    out = tmp_path / "build"
    build(content, out)
    (out / ".git").mkdir()
    (out / "notes.txt").write_text("mine")
    calls = iter([output_folder.move_foreign])  # the one before the swap
    with monkeypatch.context() as patch:
        patch.setattr(writer, "move_foreign", lambda directory: next(calls, _interrupt)(directory))
        with pytest.raises(KeyboardInterrupt):
            build_changed(content, out, times=1)
    assert not (out / "notes.txt").exists()
    build(content, out)
    assert (out / ".git").is_dir()
    assert (out / "notes.txt").read_text() == "mine"


def _interrupt(directory: BuildDirectory) -> None:
    raise KeyboardInterrupt


# --- what is refused ---------------------------------------------------------------------------


def test_a_folder_with_files_that_no_build_wrote_is_refused(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    out.mkdir()
    (out / "thesis.odt").write_text("years of work")
    said = refusal(content, out)
    assert "sitegen did not write (thesis.odt)" in said
    assert "--take-over" in said
    build(content, out, take_over=True)
    assert (out / "index.html").exists()
    assert (out / "thesis.odt").read_text() == "years of work"
    build_changed(content, out)
    assert (out / "thesis.odt").read_text() == "years of work"


def test_an_empty_folder_or_one_with_hidden_files_is_used(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    (out / ".git").mkdir(parents=True)
    (out / ".gitkeep").write_text("")
    build(content, out)
    assert {".git", ".gitkeep", "index.html"} <= {path.name for path in out.iterdir()}


def test_foreign_files_at_addresses_of_the_site_are_replaced_only_when_told(
    content: Path, tmp_path: Path
) -> None:
    out = tmp_path / "build"
    out.mkdir()
    (out / "index.html").write_text("mine")
    assert "index.html" in refusal(content, out)
    build(content, out, take_over=True)
    assert (out / "index.html").read_text() != "mine"


def test_a_new_page_does_not_replace_a_foreign_file(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    (out / "exercises/wall-sit").mkdir()
    (out / "exercises/wall-sit/index.html").write_text("mine")
    shutil.copy(content / EXERCISE, content / "exercises/wall-sit.yaml")
    assert "exercises/wall-sit/index.html" in refusal(content, out)
    build(content, out, take_over=True)
    assert (out / "exercises/wall-sit/index.html").read_text() != "mine"


def test_a_foreign_folder_at_the_address_of_a_page_is_never_removed(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    (out / "feed.xml").mkdir(parents=True)
    (out / "feed.xml/notes.txt").write_text("mine")
    assert "move feed.xml elsewhere" in refusal(content, out, take_over=True)


def test_links_in_the_output_folder_are_not_followed(content: Path, tmp_path: Path) -> None:
    out, elsewhere = tmp_path / "build", tmp_path / "elsewhere"
    elsewhere.mkdir()
    out.mkdir()
    (out / "assets").symlink_to(elsewhere)
    assert "assets" in refusal(content, out)
    build(content, out, take_over=True)
    assert list(elsewhere.iterdir()) == []
    assert (out / "assets").is_dir()
    assert not (out / "assets").is_symlink()


def test_a_link_in_the_place_of_a_page_is_not_written_through(content: Path, tmp_path: Path) -> None:
    out, victim = tmp_path / "build", tmp_path / "victim.txt"
    victim.write_text("mine")
    build(content, out)
    (out / "index.html").unlink()
    (out / "index.html").symlink_to(victim)
    assert build(content, out) == ("index.html",)
    assert victim.read_text() == "mine"
    assert not (out / "index.html").is_symlink()


@pytest.mark.parametrize(
    ("content_is", "out_is"),
    [
        pytest.param("here", "here", id="the same"),
        pytest.param("here", "here/build", id="the site in the content"),
        pytest.param("here/content", "here", id="the content in the site"),
        pytest.param("here", "link-to-here", id="the same by a link"),
    ],
)
def test_content_and_site_do_not_mix(tmp_path: Path, content_is: str, out_is: str) -> None:
    root = SeriesFolder(tmp_path).root
    content = tmp_path / content_is
    content.parent.mkdir(exist_ok=True)
    root.rename(content)
    (tmp_path / "link-to-here").symlink_to(tmp_path / "here")
    with pytest.raises(ContentError) as refused:
        build(content, tmp_path / out_is, take_over=True)
    assert "mix with the content" in str(refused.value.problems[0])
    assert not (content / "index.html").exists()


def test_a_folder_that_cannot_be_moved_is_refused_before_anything_is_done(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "build"
    build(content, out)
    (out / "mine").mkdir()
    replace(content, "series.yaml", "title: ", "title: New ")
    monkeypatch.setattr(os.path, "ismount", lambda path: str(path).endswith("mine"))
    assert "the folder mine" in refusal(content, out)


# --- file systems and rights ---------------------------------------------------------------------


def no_links(*args: object, **options: object) -> None:
    raise PermissionError(1, "Operation not permitted")


def test_files_are_copied_where_they_cannot_be_linked(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "build"
    monkeypatch.setattr(os, "link", no_links)
    build(content, out)
    build_changed(content, out)
    replace(content, EXERCISE, "name: ", "name: Very ")
    made = build(content, out)
    assert 0 < len(made) < len(tree(out))
    assert build(content, out) == ()
    build(content, tmp_path / "scratch")
    assert differences(tree(out), tree(tmp_path / "scratch")) == []


def test_a_full_disk_names_the_file(content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*args: object) -> int:
        raise OSError(28, "No space left on device")

    out = tmp_path / "build"
    (tmp_path / ".build.sitegen").mkdir()
    monkeypatch.setattr(BuildDirectory, "__enter__", lambda self: self)  # it writes its lock
    monkeypatch.setattr(os, "write", full)
    with pytest.raises(OSError, match="No space left") as error:
        build(content, out)
    assert str(error.value.filename).startswith(str(BuildDirectory(out).staging))


def _spoil(folder: Path) -> None:
    """Put files where folders are expected: nothing can be written there, not even by root."""
    shutil.rmtree(folder / "sitegen", ignore_errors=True)
    (folder / "sitegen").write_text("not a folder")


def _spoil_inside(folder: Path) -> None:
    for place in (folder / "sitegen").iterdir():
        shutil.rmtree(place)
        place.write_text("not a folder")


def _open_to_all(folder: Path) -> None:
    for place in (folder / "sitegen", *(folder / "sitegen").iterdir()):
        place.chmod(0o777)


@pytest.mark.parametrize("spoil", [_spoil, _spoil_inside, _open_to_all])
def test_a_cache_that_cannot_be_used_stops_no_build(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, spoil: Callable[[Path], None]
) -> None:
    caches = tmp_path / "caches"
    caches.mkdir()
    monkeypatch.setenv("XDG_CACHE_HOME", str(caches))
    build(content, tmp_path / "build")
    spoil(caches)
    replace(content, "series.yaml", "title: ", "title: New ")
    build(content, tmp_path / "build")
    build(content, tmp_path / "scratch")
    assert differences(tree(tmp_path / "build"), tree(tmp_path / "scratch")) == []


def test_a_cache_that_others_can_write_to_is_not_loaded(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A pickle runs code when it is loaded."""
    caches, sign = tmp_path / "caches", tmp_path / "sign"
    caches.mkdir()
    monkeypatch.setenv("XDG_CACHE_HOME", str(caches))
    build(content, tmp_path / "build")
    planted = [path for path in caches.rglob("*") if path.is_file()]
    assert planted
    for path in planted:
        path.write_bytes(f"cos\nsystem\n(S'touch {sign}'\ntR.".encode())
    (caches / "sitegen").chmod(0o777)
    build(content, tmp_path / "build")
    assert not sign.exists()


def test_a_relative_folder_for_caches_is_ignored(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setenv("XDG_CACHE_HOME", "caches")
    build(content, tmp_path / "build")
    assert not (tmp_path / "caches").exists()
