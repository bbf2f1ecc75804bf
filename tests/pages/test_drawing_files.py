"""The drawings of each exercise as a file of views: all that pages and sheets name is there, no view shows a
neighbour, and the colours are those of the site or of paper."""

import gzip
import json
import re
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
import yaml
from bs4 import BeautifulSoup

from sitegen.reading.reader import read_series
from sitegen.study.forms import forms_of
from tests.conftest import DEMO, ROOT

SVG = "{http://www.w3.org/2000/svg}"
MOST_PACKED = 4600
"""Bytes of a file with all forms of an exercise: a list of sixty forms asks for some forty of them. The
largest has two vessels seen from before, the next a chair within reach in most of its forms."""


@pytest.fixture(scope="module")
def views(demo_site: Path) -> dict[str, dict[str, tuple[float, ...]]]:
    """By file the box of each view."""
    found = {}
    for file in sorted(demo_site.glob("exercises/*/drawings.svg")):
        root = ElementTree.fromstring(file.read_bytes())
        boxes = {
            v.get("id", ""): tuple(map(float, v.get("viewBox", "").split())) for v in root.iter(f"{SVG}view")
        }
        found[str(file.relative_to(demo_site))] = boxes
    return found


def test_every_form_with_poses_has_a_view(views: dict[str, dict[str, tuple[float, ...]]]) -> None:
    forms = [form for form in forms_of(read_series(DEMO).exercises).values() if form.poses is not None]

    drawn = {(file.split("/")[1], name.partition(".")[0]) for file, boxes in views.items() for name in boxes}
    assert drawn == {(form.key.exercise, form.key.variant or "_main") for form in forms}


def test_views_are_three_to_two_and_stand_apart(views: dict[str, dict[str, tuple[float, ...]]]) -> None:
    for file, boxes in views.items():
        rows = (box for name, box in boxes.items() if "." not in name)
        assert all(wide * 2 == tall * 3 for _, _, wide, tall in rows), file
        # A place on a sheet may be several times as tall as its view, never as tall as this.
        assert all(a[1] + a[3] + 600 <= b[1] for a, b in pairwise(sorted(boxes.values(), key=top))), file


def top(box: tuple[float, ...]) -> float:
    return box[1]


def test_what_a_sheet_may_show_for_a_need_is_there_and_named_for_keeping(
    demo_site: Path, views: dict[str, dict[str, tuple[float, ...]]]
) -> None:
    data = BeautifulSoup((demo_site / "episodes/ballast/sheet/index.html").read_bytes(), "lxml").select_one(
        "#sheet-data"
    )
    assert data is not None
    items = [item for block in json.loads(data.text)["blocks"] for item in block]
    forms = [form for item in items for form in item["forms"] if form.get("poses")]
    assert len(forms) > 50

    asked = {tuple(form["page"].replace("index.html", "drawings.svg").split("#")) for form in forms}
    named = {(file, f"{(form or ['_main'])[0]}.key") for file, *form in asked}
    assert all(view in views[file] for file, view in named)
    assert set(str(data["data-loads"]).split()) == {file for file, _ in named}


def test_pictures_on_pages_for_needs_are_there_and_wait_until_they_are_seen(
    demo_site: Path, views: dict[str, dict[str, tuple[float, ...]]]
) -> None:
    for page in sorted(demo_site.glob("needs/*/index.html")):
        pictures = BeautifulSoup(page.read_bytes(), "lxml").select(".changes img")
        assert pictures, page
        for picture in pictures:
            file, _, view = str(picture["src"]).removeprefix("../../").partition("#")
            assert view in views[file], picture
            assert picture["loading"] == "lazy"
            assert int(picture["width"]) * 2 == int(picture["height"]) * 3
            assert str(picture["alt"])


def test_files_are_light(demo_site: Path) -> None:
    sizes = {f: len(gzip.compress(f.read_bytes())) for f in demo_site.glob("exercises/*/drawings.svg")}

    assert sizes
    assert max(sizes.values()) <= MOST_PACKED, max(sizes, key=lambda file: sizes[file])


def test_the_colours_are_those_of_the_site(demo_site: Path) -> None:
    """A picture that is a file of its own cannot ask the page for its colours."""
    colours = yaml.safe_load((ROOT / "themes/tidewater/colours.yaml").read_text())
    drawn = next(demo_site.glob("exercises/*/drawings.svg")).read_text()
    schemes = [dict(re.findall(r"--(\w+):(#\w+)", rules)) for rules in re.findall(r":root ?{([^}]*)}", drawn)]

    names = ("ink", "far", "soft", "sheet", "load")
    assert (
        f".paper{{--ink:#000;--far:#777;--soft:{colours['light']['soft']};" in drawn
    )  # as on screens, by day
    assert schemes == [{name: colours[screen][name] for name in names} for screen in ("light", "dark")]
