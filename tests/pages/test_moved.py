"""Old addresses: small pages that lead on, with all that lies below; real pages always come first."""

import re
from pathlib import Path

import pytest

from sitegen.building.build import Builder
from tests.folders import SeriesFolder


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


def build(series: SeriesFolder, moved: dict[str, str]) -> Path:
    lines = "".join(f"  {old}: {new}\n" for old, new in moved.items())
    text = (series.root / "series.yaml").read_text()
    series.write("series.yaml", f"{text}\nmoved:\n{lines}")
    out = series.root.parent / "build"
    Builder(series.root, out, jobs=1).build()
    return out


def leads_to(page: Path) -> str:
    """The address below the site's root to which a page leads at once."""
    text = page.read_text()
    match = re.search(r'<meta http-equiv="refresh" content="0; url=([^"]+)">', text)
    assert match, f"{page} leads nowhere"
    assert f'href="{match[1]}"' in text  # for those whose browser does not go by itself
    return match[1]


def test_an_old_address_leads_to_the_new_one(series: SeriesFolder) -> None:
    out = build(series, {"episodes/begin": "episodes/first-steps"})
    page = out / "episodes/begin/index.html"
    assert leads_to(page) == "../../episodes/first-steps/index.html"
    canonical = '<link rel="canonical" href="https://series.example/episodes/first-steps/">'
    assert canonical in page.read_text()
    assert page.stat().st_size < 1500


def test_all_that_lies_below_moves_along(series: SeriesFolder) -> None:
    out = build(series, {"episodes/begin": "episodes/first-steps"})
    new = {p.relative_to(out / "episodes/first-steps") for p in (out / "episodes/first-steps").rglob("*.*")}
    old = {p.relative_to(out / "episodes/begin") for p in (out / "episodes/begin").rglob("*.*")}
    assert old == new
    for name in old:
        was, is_now = out / "episodes/begin" / name, out / "episodes/first-steps" / name
        if name.name == "index.html":
            assert leads_to(was).endswith(f"episodes/first-steps/{name}")
        else:
            assert was.read_bytes() == is_now.read_bytes()


MOVES = {
    # id: (moved, old page, where it leads)
    "an exercise": (
        {"exercises/x": "exercises/chair-squat"},
        "exercises/x",
        "exercises/chair-squat/index.html",
    ),
    "to a part of a page": (
        {"exercises/x": "exercises/chair-squat#hands-on-seat"},
        "exercises/x",
        "exercises/chair-squat/index.html#hands-on-seat",
    ),
    "to a list": ({"exercises/x": "exercises"}, "exercises/x", "exercises/index.html"),
    "to the home page": ({"old-page": "/"}, "old-page", "index.html"),
    "over two moves": (
        {"exercises/a": "exercises/b", "exercises/b": "exercises/chair-squat"},
        "exercises/a",
        "exercises/chair-squat/index.html",
    ),
    "a page of one's own": ({"stop": "safety"}, "stop", "safety/index.html"),
}  # fmt: skip


@pytest.mark.parametrize(("moved", "old", "new"), MOVES.values(), ids=MOVES.keys())
def test_moves(moved: dict[str, str], old: str, new: str, series: SeriesFolder) -> None:
    out = build(series, moved)
    assert leads_to(out / old / "index.html") == "../" * (old.count("/") + 1) + new


def test_only_neighbours_take_along_what_lies_below(series: SeriesFolder) -> None:
    out = build(series, {"exercises/x": "exercises", "old": ""})
    assert [p.name for p in (out / "exercises/x").rglob("*")] == ["index.html"]
    assert [p.name for p in (out / "old").rglob("*")] == ["index.html"]


def test_what_is_there_comes_before_what_was(series: SeriesFolder) -> None:
    out = build(series, {"episodes/first-steps": "exercises", "safety": "exercises"})
    assert 'http-equiv="refresh"' not in (out / "episodes/first-steps/index.html").read_text()
    assert 'http-equiv="refresh"' not in (out / "safety/index.html").read_text()


def test_moves_to_nowhere_make_no_page(series: SeriesFolder) -> None:
    out = build(series, {"episodes/a": "episodes/nothing", "episodes/b": "episodes/b"})
    assert not (out / "episodes/a").exists()
    assert not (out / "episodes/b").exists()


def test_search_engines_are_told_of_new_addresses_only(series: SeriesFolder) -> None:
    out = build(series, {"episodes/begin": "episodes/first-steps"})
    assert "episodes/begin" not in (out / "sitemap.xml").read_text()
