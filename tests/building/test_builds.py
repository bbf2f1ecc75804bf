"""What a build writes: the same bytes every time, no more than what changed, all of it or nothing."""

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.building.build_directory import BuildDirectory, OutputBusy
from sitegen.problems import ContentError
from sitegen.system.file_states import InputState
from tests.building.kills import TITLES, entitle
from tests.building.scratch import made_from_scratch
from tests.conftest import ROOT
from tests.demo_copy import copy_demo, leave_out_unused, replace, shorten
from tests.folders import SeriesFolder
from tests.trees import differences, tree

EPISODE = "episodes/01-first-steps.yaml"
EXERCISE = "exercises/backpack-row.yaml"


def build(content: Path, out: Path, jobs: int = 1) -> tuple[str, ...]:
    """Build; gives the addresses that were written."""
    builder = Builder(content, out, jobs=jobs)
    made = builder.build().written.made
    builder.remember()
    return made


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A series of one session and three exercises: enough where it does not matter what is built."""
    return SeriesFolder(tmp_path).root


@pytest.fixture
def sessions(tmp_path: Path) -> Path:
    """Two sessions of the demo, with every kind of page, and an exercise that none of them shows."""
    content = copy_demo(tmp_path, episodes=3)
    next(content.glob("episodes/01-*")).unlink()
    shorten(content)
    leave_out_unused(content, but=["wall-sit"])
    return content


def stale(content: Path, out: Path) -> list[str]:
    """Addresses that are not what a build would make that remembers nothing."""
    return differences(tree(out), made_from_scratch(content))


def test_two_builds_are_byte_for_byte_the_same(sessions: Path, tmp_path: Path) -> None:
    build(sessions, tmp_path / "one", jobs=1)
    build(sessions, tmp_path / "two", jobs=2)
    assert differences(tree(tmp_path / "one"), tree(tmp_path / "two")) == []


def test_a_second_build_writes_nothing(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    before = {path: path.stat().st_mtime_ns for path in out.rglob("*")}
    assert build(content, out) == ()
    assert {path: path.stat().st_mtime_ns for path in out.rglob("*")} == before


def test_what_finds_that_nothing_has_changed_loads_no_page() -> None:
    """A build that has nothing to do takes about as long as starting Python."""
    heavy = "[name for name in sys.modules if name in ('jinja2', 'yaml', 'sitegen.model', 'sitegen.pages')]"
    program = f"import sys, sitegen.commands.build; print({heavy})"
    assert subprocess.check_output([sys.executable, "-c", program], text=True, cwd=ROOT) == "[]\n"


def test_a_changed_cue_rewrites_only_pages_that_show_it(sessions: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(sessions, out)
    replace(sessions, EXERCISE, "cues:\n", "cues:\n  - Think of a rope going taut\n")
    made = build(sessions, out)
    assert f"exercises/{EXERCISE.split('/')[1].removesuffix('.yaml')}/index.html" in made
    assert "episodes/steady-pull/index.html" in made
    needless = [a for a in made if "Think of a rope going taut" not in (out / a).read_text("utf-8", "ignore")]
    # Four weeks side by side show no cues, but are made from a session as a whole, as its other sheets are.
    assert [address for address in needless if "/sheet/weeks/" not in address] == []


def rename_exercise(content: Path, old: str, new: str) -> None:
    """Call an exercise by another id, in its own file and wherever it is mentioned."""
    (content / f"exercises/{old}.yaml").rename(content / f"exercises/{new}.yaml")
    for path in (*content.rglob("*.yaml"), *content.rglob("*.md")):
        text = path.read_text()
        renamed = re.sub(rf"(?<![\w-]){old}(?![\w-])", new, text)
        if renamed != text:
            path.write_text(renamed)


RENAMED = {
    "the files keep their order": ("backpack-row", "backpack-rows"),
    "no session shows it": ("wall-sit", "wall-sitz"),
    "the order changes": ("backpack-rows", "a-row"),
}


def test_exercises_may_be_renamed_and_change_places(sessions: Path, tmp_path: Path) -> None:
    """One after the other in the same series, as a trainer goes on with it."""
    out = tmp_path / "build"
    build(sessions, out)
    for name, (old, new) in RENAMED.items():
        rename_exercise(sessions, old, new)
        build(sessions, out)
        assert not (out / f"exercises/{old}").exists()
        assert stale(sessions, out) == [], name
    one, other = sessions / "exercises/calf-raise.yaml", sessions / "exercises/arm-circles.yaml"
    one_text, other_text = one.read_text(), other.read_text()
    one.write_text(other_text)
    other.write_text(one_text)
    build(sessions, out)
    assert stale(sessions, out) == []


def test_an_edit_of_equal_size_and_time_is_noticed(content: Path, tmp_path: Path) -> None:
    out, file = tmp_path / "build", content / EXERCISE
    build(content, out)
    before = file.stat()
    text = file.read_text()
    file.write_text(text.replace("name: Backpack", "name: Rucksack"))
    os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))
    after = file.stat()
    assert (after.st_size, after.st_mtime_ns) == (before.st_size, before.st_mtime_ns)
    build(content, out)
    assert stale(content, out) == []


def test_an_edit_just_after_it_was_read_is_noticed(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a file system that counts in steps of two seconds (FAT) the edited file may look the same."""

    def coarse(status: os.stat_result) -> InputState:
        seconds = int(status.st_mtime) // 2 * 2
        return InputState(status.st_size, seconds * 10**9, seconds * 10**9, 0)

    out, file = tmp_path / "build", content / EXERCISE
    monkeypatch.setattr(InputState, "of", coarse)
    build(content, out)
    os.utime(file)
    build(content, out)
    file.write_text(file.read_text().replace("name: Backpack", "name: Rucksack"))
    build(content, out)
    monkeypatch.undo()
    assert stale(content, out) == []


def test_another_series_in_the_same_output_folder_is_shown(tmp_path: Path) -> None:
    """Two copies of equal size and time that say different things."""
    out = tmp_path / "build"
    contents = [SeriesFolder(tmp_path / name).root for name in ("one", "two")]
    for content, title in zip(contents, TITLES, strict=True):
        entitle(content, title)
        for path in content.rglob("*.yaml"):
            os.utime(path, ns=(0, 0))
    for content in (*contents, *contents):
        build(content, out)
        assert stale(content, out) == []


def test_problems_leave_the_site_as_it_was(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    before = tree(out)
    replace(content, "series.yaml", "title: ", "title: New ")
    replace(content, EPISODE, "dose: 8 each side", "dose: lots")
    with pytest.raises(ContentError):
        build(content, out)
    assert tree(out) == before


def test_a_page_changed_by_hand_is_made_again_and_foreign_files_stay(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    before = tree(out)
    (out / "index.html").write_text("scribbled over")
    (out / ".gitkeep").write_text("")
    (out / "notes.txt").write_text("mine")
    assert build(content, out) == ("index.html",)
    assert differences(tree(out), before) == [".gitkeep", "notes.txt"]


def test_pages_of_a_removed_episode_go_with_their_folders(content: Path, tmp_path: Path) -> None:
    out, second = tmp_path / "build", content / "episodes/02-second-steps.yaml"
    second.write_text((content / EPISODE).read_text().replace("number: 1", "number: 2"))
    build(content, out)
    second.unlink()
    written = Builder(content, out, jobs=1).build().written
    assert "episodes/second-steps/index.html" in written.removed
    assert not (out / "episodes/second-steps").exists()


def _edit_by_hand(out: Path) -> None:
    (out / "index.html").write_text("scribbled over")


def _replace_by_hand(out: Path) -> None:
    (out / "page.part").write_text("scribbled over")
    (out / "page.part").replace(out / "index.html")


@pytest.mark.parametrize(
    "meddle",
    [
        pytest.param(lambda out: None, id="nothing"),
        pytest.param(_edit_by_hand, id="a page is edited in its place"),
        pytest.param(_replace_by_hand, id="a page is replaced", marks=pytest.mark.thorough),
        pytest.param(
            lambda out: (out / "exercises/chair-squat/index.html").unlink(),
            id="a page is removed",
            marks=pytest.mark.thorough,
        ),
        pytest.param(lambda out: shutil.rmtree(out / "exercises"), id="a folder is removed"),
        pytest.param(shutil.rmtree, id="the site is removed"),
        pytest.param(
            lambda out: shutil.rmtree(BuildDirectory(out).staging), id="the previous site is removed"
        ),
    ],
)
def test_whatever_is_done_between_two_builds_the_next_is_right(
    content: Path, tmp_path: Path, meddle: Callable[[Path], None]
) -> None:
    """The previous site is not looked through where it is known how it differs from the site."""
    second = content / "episodes/02-second-steps.yaml"
    second.write_text((content / EPISODE).read_text().replace("number: 1", "number: 2"))
    out = tmp_path / "build"
    build(content, out)
    replace(content, "series.yaml", "title: ", "title: New ")
    build(content, out)
    meddle(out)
    second.unlink()
    build(content, out)
    replace(content, EXERCISE, "name: ", "name: Very ")
    build(content, out)
    assert stale(content, out) == []


def test_a_file_of_somebody_else_comes_and_goes_as_they_like(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    seen = []
    for number, text in enumerate(["one", "two", "", "three"]):
        if text:
            (out / "notes.txt").write_text(text)
        else:
            (out / "notes.txt").unlink()
        replace(content, "series.yaml", "title: ", f"title: {number} ")
        build(content, out)
        seen.append((out / "notes.txt").read_text() if (out / "notes.txt").exists() else "")
    assert seen == ["one", "two", "", "three"]


def test_a_lost_manifest_or_cache_costs_time_only(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    build(content, out)
    before = tree(out)
    BuildDirectory(out).manifest.write_text("{damaged")
    for kind in ("files", "episodes"):
        for cache in Path(os.environ["XDG_CACHE_HOME"]).rglob(f"{kind}/*"):
            cache.write_bytes(b"damaged")
    build(content, out)
    assert tree(out) == before


def test_a_second_build_at_once_is_told_to_wait(content: Path, tmp_path: Path) -> None:
    with BuildDirectory(tmp_path / "build"), pytest.raises(OutputBusy, match=f"process {os.getpid()}"):
        build(content, tmp_path / "build")


def command(content: Path, out: Path) -> list[str]:
    program = [sys.executable, "-m", "sitegen", "build", "--pages-only"]
    return [*program, "--content", str(content), "--out", str(out)]


def test_a_full_disk_is_a_message_and_the_site_stays(content: Path, tmp_path: Path) -> None:
    """The size of files is limited for the build's process: writing fails as on a full disk."""
    out = tmp_path / "build"
    build(content, out)
    before = tree(out)
    replace(content, "series.yaml", "title: ", "title: New ")
    limited = ["bash", "-c", f"trap '' XFSZ; ulimit -f 8; exec {' '.join(command(content, out))}"]
    # Python would cut compiled modules off at the limit, and every later test would stumble over them.
    environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}
    result = subprocess.run(limited, capture_output=True, text=True, check=False, env=environment)
    assert result.returncode == 1
    assert "Traceback" not in result.stderr
    assert "File too large" in result.stderr
    assert tree(out) == before
    build(content, out)
    assert stale(content, out) == []


def test_killed_before_any_step_the_site_is_the_old_or_the_new(content: Path, tmp_path: Path) -> None:
    """A sample of the steps; `python -m tests.bench kills` takes all of them, and moments by the clock."""
    words = [sys.executable, "-m", "tests.building.kills", str(content), str(tmp_path / "build"), "4"]
    told = json.loads(subprocess.run(words, cwd=ROOT, check=True, capture_output=True, text=True).stdout)
    renewed = [is_new for _, is_new in told["found"]]
    assert renewed == sorted(renewed), "old before the swap, new after it, and never anything else"
    assert {*renewed} == {True, False}
    assert told["in the end"]
