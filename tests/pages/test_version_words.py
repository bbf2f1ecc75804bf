"""What a version says of how hard it is: only what the exercise's own steps tell, and who chose it."""

import re
from pathlib import Path

import pytest

from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.version_words import VersionWords
from sitegen.reading.reader import read_content
from tests.checks.library_folder import LibraryFolder
from tests.conftest import ROOT

NEEDS = """needs:
  chair: {name: From a chair, avoids: [standing]}
  grip: {name: Weak grip, avoids: [grip]}
"""
HARD = "variants:\n  - {id: hard, name: Hard reach, change: progression, demands: []}\n"
EASY = "  - {id: easy, name: Easy reach, change: regression, demands: [standing]}\n"
OTHER = "  - {id: other, name: Other reach, change: substitution, demands: []}\n"
OTHER_EASIER = (
    "  - {id: other, name: Other reach, change: substitution, demands: [standing]}\n"
    "  - {id: low, name: Low reach, change: regression, of: other, demands: []}\n"
)
STANDING = "demands: [standing]\n"

CASES = {
    "a step up, for nothing else fits": (
        STANDING + HARD,
        "exercise: reach",
        ("Hard reach", "Harder", "It is harder than the usual form, nothing easier fits."),
    ),
    "beside what is filmed: no step says anything": (
        f"{STANDING}variants:\n{OTHER}",
        "exercise: reach",
        ("Other reach", "Instead", ""),
    ),
    "up to what another exercise stands beside": (
        f"{STANDING}variants:\n{EASY}{OTHER}",
        "exercise: reach, variant: easy",
        (
            "Other reach",
            "Instead",
            "It is another exercise; how hard it is beside the usual one is not known.",
        ),
    ),
    "down from another exercise": (
        f"{STANDING}variants:\n{OTHER_EASIER}",
        "exercise: reach",
        ("Low reach", "Instead", ""),
    ),
    "the trainer's choice, with which nothing easier was sought": (
        f"{STANDING}{HARD}{OTHER}",
        "exercise: reach, versions: {chair: hard}",
        ("Hard reach", "Harder", "Your name chose it; it may be harder than the usual form."),
    ),
}


@pytest.mark.parametrize(("exercise", "item", "said"), CASES.values(), ids=CASES)
def test_how_hard(tmp_path: Path, exercise: str, item: str, said: tuple[str, str, str]) -> None:
    library = LibraryFolder(tmp_path)
    library.exercise("reach", exercise)
    library.use("reach")
    library.edit("episodes/02-more.yaml", "{exercise: reach,", f"{{{item},")
    text = (library.root / "series.yaml").read_text()
    library.write("series.yaml", re.sub(r"needs:\n(?:  .*\n)+", NEEDS, text))
    series = read_content(library.root).series
    assert series is not None
    site = Site(series, {}, Theme(ROOT / "themes/tidewater", "en"), "")
    [block] = next(one for one in series.episodes if one.number == 2).blocks

    [version] = site.suitability.block(block, ["chair"], frozenset())

    assert version is not None
    words = VersionWords(site)
    assert (version.form.name, words.change(version), words.all_said(block, version)) == said
