"""``library:`` in series.yaml: one library read in place by several series, never written to."""

import shutil
from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.cli import main
from sitegen.problems import ContentError, Problem
from sitegen.reading.reader import read_series
from tests.building.scratch import made_from_scratch
from tests.folders import SeriesFolder, check_content
from tests.trees import differences, tree

EPISODE = "episodes/01-first-steps.yaml"
SQUAT = "exercises/chair-squat.yaml"
WAY = "../../harbour/content"
PICTURE = b'<svg xmlns="http://www.w3.org/2000/svg"/>'


@pytest.fixture
def harbour(tmp_path: Path) -> SeriesFolder:
    """A series whose library others read; an exercise of it has a picture."""
    series = SeriesFolder(tmp_path / "harbour")
    series.make_own()
    series.write("media/squat.svg", PICTURE)
    series.edit(SQUAT, "kit:", "pictures: [{file: media/squat.svg, alt: A squat}]\nkit:")
    return series


@pytest.fixture
def season(harbour: SeriesFolder, tmp_path: Path) -> SeriesFolder:
    """A season that has nothing but an episode and reads the rest where it is."""
    folder = SeriesFolder.__new__(SeriesFolder)
    folder.root = tmp_path / "next" / "content"
    assert main(["begin", str(tmp_path / "next"), "--season-of", str(harbour.root), "--in-place"]) == 0
    folder.write(EPISODE, (harbour.root / EPISODE).read_bytes())
    return folder


def told(content: Path, check: str) -> list[Problem]:
    try:
        return [one for one in check_content(content) if one.check == check]
    except ContentError as error:
        return [one for one in error.problems if one.check == check]


def test_a_season_has_all_of_the_library_and_a_site_like_that_of_its_own(
    season: SeriesFolder, harbour: SeriesFolder, tmp_path: Path
) -> None:
    assert sorted(path.name for path in season.root.iterdir()) == [
        "README.md",
        "episodes",
        "pages",
        "series.yaml",
    ]
    before = tree(harbour.root)
    own, new = read_series(harbour.root), read_series(season.root)
    for name in ("kit", "needs", "muscles", "demands", "cautions", "call_if", "stop_if", "emergency_number"):
        assert getattr(new.details, name) == getattr(own.details, name)
    assert new.exercises.keys() == own.exercises.keys()
    assert new.library is not None
    assert new.sessions[0].blocks[0].location.file == f"{WAY}/routines/short-warm-up.yaml"
    out = tmp_path / "site"
    Builder(season.root, out, plans=True).build()
    assert [path.read_bytes() for path in out.glob("media/squat.*.svg")] == [PICTURE]
    assert not [path for path in tree(out) if ".." in path]
    assert main(["check", "--tidy", "--content", str(season.root)]) == 0
    assert tree(harbour.root) == before


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        (SQUAT, "Chair squat\n", "Chair squatting\n"),
        ("routines/short-warm-up.yaml", "name: ", "name: Our "),
        ("series.yaml", "says: I cannot jump", "says: Jumping is not for me"),
        ("media/squat.svg", "<svg", "<!-- new --><svg"),
    ],
)
def test_what_changes_in_the_library_is_built_anew(
    season: SeriesFolder, harbour: SeriesFolder, tmp_path: Path, file: str, old: str, new: str
) -> None:
    """The site has what a build would make that remembers nothing; pages that show none of it stay."""
    out = tmp_path / "site"
    Builder(season.root, out).build()
    harbour.edit(file, old, new)
    builder = Builder(season.root, out)
    made = builder.build().written.made
    assert made
    assert differences(tree(out), made_from_scratch(season.root)) == []
    if file == SQUAT:
        assert "exercises/backpack-row/index.html" not in made


def test_the_version_is_told_and_what_changed_since_the_site_was_built(
    season: SeriesFolder, harbour: SeriesFolder, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["build", "--pages-only", "--content", str(season.root), "--out", str(tmp_path / "site")]
    noted = read_series(season.root).library
    assert noted is not None
    assert (
        f"library: {{folder: {WAY}, version: {noted.version}}}" in (season.root / "series.yaml").read_text()
    )
    assert told(season.root, "library-changed") == []
    main(words)
    assert f"library {WAY}: version {noted.version}\n" in capsys.readouterr().out

    harbour.edit(SQUAT, "Chair squat\n", "Chair squatting\n")
    harbour.write("exercises/wall-sit.yaml", (harbour.root / SQUAT).read_text().replace("squatting", "sit"))
    main(words)
    said = capsys.readouterr().out
    assert f"the site had {noted.version} of " in said
    assert "until now: changed chair-squat; new wall-sit" in said
    [warning] = told(season.root, "library-changed")
    assert f"{noted.version} is noted here" in warning.message
    assert (warning.file, warning.line) == (
        "series.yaml",
        len((season.root / "series.yaml").read_text().split("\n")) - 1,
    )
    assert "then write version: " in warning.advice


def test_one_of_its_own_is_taken_instead(season: SeriesFolder, harbour: SeriesFolder) -> None:
    mine = (harbour.root / SQUAT).read_text().replace("name: Chair squat", "name: Deck squat", 1)
    season.write(SQUAT, mine.replace("pictures: [{file: media/squat.svg, alt: A squat}]\n", ""))
    assert read_series(season.root).exercises["chair-squat"].name == "Deck squat"
    [warning] = told(season.root, "own-instead")
    assert (warning.file, warning.message) == (
        SQUAT,
        f"the shared library has {SQUAT} too; the one of this series is used",
    )
    season.edit(SQUAT, "silence: {", 'silence: {own-instead: "On a deck", ')
    assert told(season.root, "own-instead") == []

    season.write(
        "series.yaml",
        (season.root / "series.yaml").read_text() + "kit: {backpack: {name: Sea bag, holds: 9 kg}}\n",
    )
    details = read_series(season.root).details
    assert (details.kit["backpack"].name, details.kit["sturdy-chair"].name) == ("Sea bag", "Sturdy chair")


@pytest.mark.parametrize(
    ("file", "old", "new", "message"),
    [
        (SQUAT, "kit: [sturdy-chair]", "kit: [¦bench]", "there is no kit 'bench'"),
        (SQUAT, "name: Chair squat\n", "¦title: Chair squat\n", "'title' is not a key of an exercise"),
        ("series.yaml", "avoids: [jumping]", "avoids: [¦hopping]", "there is no demand 'hopping'"),
        (
            "series.yaml",
            "title: Steps at home",
            "title: Steps\nlibrary: ¦../../other",
            "this library reads another library itself",
        ),
    ],
)
def test_an_error_in_the_library_names_its_file(
    season: SeriesFolder, harbour: SeriesFolder, file: str, old: str, new: str, message: str
) -> None:
    place = harbour.spoil(file, old, new)
    found = season.problems()
    assert [(one.file, (one.line, one.column), one.message) for one in found if one.message == message] == [
        (f"{WAY}/{file}", place, message)
    ]


@pytest.mark.parametrize(
    ("folder", "message"),
    [
        ("../../nowhere/content", "there is no folder ../../nowhere/content"),
        ("../../harbour", "there is no series.yaml in ../../harbour"),
        ("../content", "../content and the content folder lie in one another"),
        ("../../link", "../../link and the content folder lie in one another"),
        ("../../inside/content", "../../inside/content and the content folder lie in one another"),
        ("exercises", "'folder': 'exercises' is no folder outside of the content folder"),
        ("/etc", "'folder': '/etc' is no folder outside of the content folder"),
        ("../../a/../b", "'folder': '../../a/../b' is no folder outside of the content folder"),
    ],
)
def test_a_folder_that_can_be_no_library_is_refused(
    season: SeriesFolder, tmp_path: Path, folder: str, message: str
) -> None:
    (tmp_path / "link").symlink_to(season.root)
    (season.root / "pages/content").mkdir()
    shutil.copy(season.root / "series.yaml", season.root / "pages/content")
    (tmp_path / "inside").symlink_to(season.root / "pages")
    season.edit("series.yaml", f"folder: {WAY}", f"folder: {folder}")
    assert ("series.yaml", message) in [(one.file, one.message) for one in season.problems()]


def test_links_in_a_library_are_not_followed(
    season: SeriesFolder, harbour: SeriesFolder, tmp_path: Path
) -> None:
    (tmp_path / "secret.yaml").write_text((harbour.root / SQUAT).read_text())
    (harbour.root / "exercises/step-up.yaml").symlink_to(tmp_path / "secret.yaml")
    [problem] = season.problems()
    assert (problem.file, problem.check) == (f"{WAY}/exercises/step-up.yaml", "not-a-file")


def test_no_site_goes_into_the_library(season: SeriesFolder, harbour: SeriesFolder) -> None:
    with pytest.raises(ContentError) as caught:
        Builder(season.root, harbour.root / "build").build()
    assert "mix with the content" in caught.value.problems[0].message


def test_a_season_of_a_season_reads_the_same_library(
    season: SeriesFolder, harbour: SeriesFolder, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = (harbour.root / SQUAT).read_text().replace("name: Chair squat", "name: Deck squat", 1)
    season.write(
        "exercises/deck-squat.yaml", own.replace("pictures: [{file: media/squat.svg, alt: A squat}]\n", "")
    )
    assert main(["begin", str(tmp_path / "third"), "--season-of", str(season.root)]) == 0
    third = read_series(tmp_path / "third/content")
    assert third.library == read_series(season.root).library
    assert (tmp_path / "third/content/exercises/deck-squat.yaml").is_file()
    assert third.exercises.keys() == read_series(season.root).exercises.keys()
    assert main(["begin", str(tmp_path / "fourth"), "--in-place"]) == 2
    assert "--in-place goes with --season-of" in capsys.readouterr().err
