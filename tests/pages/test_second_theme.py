"""A theme of somebody else's: what it leaves out comes from tidewater; slips are told with file and line."""

import pickle
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.building.build import Builder
from sitegen.problems import ContentError
from tests.conftest import ROOT
from tests.folders import SeriesFolder

HARBOUR = {
    "colours.yaml": 'light: {ink: "#1b2a4a"}\ndark: {load: "#ffb07c"}\n',
    "bundles.yaml": "styles/site.css: [styles/site.css, styles/harbour.css]\n",
    "styles/harbour.css": ".title { font-variant-caps: small-caps; }\n",
    "strings/en/site.yaml": "home: {all: Every session there is}\n",
    "templates/home.html": (
        '{% extends "tidewater/home.html" %}\n'
        "{% block title %}Welcome to {{ site.title }}{% endblock %}\n"
        '{% block content %}<p class="ahoy">{{ site.trainer.name }} says ahoy</p>'
        "{{ super() }}{% endblock %}"
    ),
}


def folder_with(tmp_path: Path, files: dict[str, str]) -> SeriesFolder:
    """The starter series with a theme beside it."""
    folder = SeriesFolder(tmp_path)
    folder.write("series.yaml", (folder.root / "series.yaml").read_text() + "theme: harbour\n")
    for name, text in files.items():
        folder.write(f"../themes/harbour/{name}", text)
    return folder


def test_a_theme_of_five_small_files_makes_a_whole_site(tmp_path: Path) -> None:
    folder, out = folder_with(tmp_path, HARBOUR), tmp_path / "build"
    Builder(folder.root, out, jobs=1).build()

    home = BeautifulSoup((out / "index.html").read_bytes(), "html.parser")
    assert home.title is not None
    assert home.title.get_text() == "Welcome to My series"
    assert [one.get_text() for one in home.select(".ahoy, #all")] == [
        "Your name says ahoy",
        "Every session there is",
    ]
    style = (out / str(home.select("link[rel=stylesheet]")[0]["href"])).read_text()
    assert "--light-ink:#1b2a4a;" in style
    assert "--light-paper:#f5f6f4;" in style  # as below
    assert "--dark-load:#ffb07c;" in style
    assert style.rstrip().endswith(".title{font-variant-caps:small-caps;}")
    # Pages that it says nothing of are tidewater's.
    episode = next(out.glob("episodes/*/index.html"))
    assert b"/assets/episode-page." in episode.read_bytes()


@pytest.mark.parametrize(
    ("language", "has_strings", "shown"),
    [("he", True, "rtl"), ("he", False, None), ("az-Arab", True, "rtl"), ("az", True, None)],
)
def test_a_page_runs_from_right_to_left_where_its_words_do(
    tmp_path: Path, language: str, has_strings: bool, shown: str | None
) -> None:
    strings = {f"strings/{language}/site.yaml": "home: {all: כל המפגשים}\n"} if has_strings else {}
    folder = folder_with(tmp_path, {"styles/harbour.css": "", **strings})
    folder.edit("series.yaml", "language: en", f"language: {language}")
    page = BeautifulSoup(_make_home(Builder(folder.root, tmp_path / "build", jobs=1)), "html.parser")

    assert page.html is not None
    assert (page.html["lang"], page.html.get("dir")) == (language, shown)


def test_the_manual_names_the_macros_that_there_are() -> None:
    manual = (ROOT / "themes/README.md").read_text("utf-8")
    for file in ("drawings.html", "vessels.html", "macros.html"):
        [row] = [line for line in manual.splitlines() if line.startswith(f"| `{file}` |")]
        template = (ROOT / "themes/tidewater/templates" / file).read_text("utf-8")
        assert set(re.findall(r"`(\w+)\(", row)) == set(re.findall(r"{% macro (\w+)\(", template))


NOT_A_COLOUR = (
    "the colours are not understood ('navy' is not a colour; write six digits or letters from a to f, such "
    'as "#14323c")'
)
SLIPS = {
    "strings that are no YAML": (
        {"strings/en/site.yaml": "home:\n  all: 'Every\n"},
        [("strings/en/site.yaml", "this is no YAML: found unexpected end of stream")],
    ),
    "a record that is a list": (
        {"bundles.yaml": "- styles/site.css\n"},
        [("bundles.yaml:1", "this is no record")],
    ),
    "a joined file that is not there": (
        {"bundles.yaml": "scripts/clip.js:\n  - scripts/clip.js\n  - scripts/no-such.js\n"},
        [("bundles.yaml:3", "there is no file 'scripts/no-such.js' in the theme, nor in the one below it")],
    ),
    "a colour that is none": (
        {"colours.yaml": "light: {ink: navy}\n"},
        [("colours.yaml", NOT_A_COLOUR)],
    ),
    "a colour that cannot be read": (
        {"colours.yaml": 'dark: {load: "#a34700"}\n'},
        [
            (
                "colours.yaml",
                f"on a dark screen the contrast of loads is {ratio} (load on {ground}), and 4.5 "
                "is needed (WCAG 2.2)",
            )
            for ground, ratio in (("tint", "2.30"), ("sheet", "2.58"), ("paper", "2.94"))
        ],
    ),
    "slips in two templates": (
        {
            "templates/about.html": "<p>\n{% if site %}\n",
            "templates/home.html": "<p>\n\n{{ site.title | loud }}\n",
        },
        [
            (
                "templates/about.html:2",
                "this is no template: Unexpected end of template. Jinja was looking for the following tags: "
                "'elif' or 'else' or 'endif'. The innermost block that needs to be closed is 'if'.",
            ),
            ("templates/home.html:3", "this is no template: No filter named 'loud'."),
        ],
    ),
    "a string that is not there": (
        {"templates/home.html": "<p>\n{{ t.home.ahoy }}\n"},
        [("templates/home.html:2", "there is nothing called 'ahoy' here")],
    ),
    "a name that is not there": (
        {"templates/home.html": "<p>\n\n\n{{ captain }}\n"},
        [("templates/home.html:4", "there is nothing called 'captain' here")],
    ),
    "a part that is not there": (
        {"templates/home.html": '<p>\n{% include "bow.html" %}\n'},
        [("templates/home.html:2", "there is no template 'bow.html'")],
    ),
    "an asset that is not there": (
        {"templates/home.html": "<p>{{ assets['styles/harbour.css'] }}\n"},
        [("templates/home.html:1", "there is nothing called 'styles/harbour.css' here")],
    ),
    "a sentence with another gap": (
        {
            "strings/en/site.yaml": 'home: {week: "Week {no}"}\n',
            "templates/home.html": "{{ t.home.week.format(number=1) }}",
        },
        [("templates/home.html:1", "the template asks for what cannot be had: 'no'")],
    ),
}


@pytest.mark.parametrize(("files", "told"), SLIPS.values(), ids=SLIPS)
def test_slips_are_told_with_file_and_line(
    tmp_path: Path, files: dict[str, str], told: list[tuple[str, str]]
) -> None:
    folder = folder_with(tmp_path, files)
    builder = Builder(folder.root, tmp_path / "build", jobs=1)

    with pytest.raises(ContentError) as caught:
        _make_home(builder)

    problems = pickle.loads(pickle.dumps(caught.value)).problems  # as another process would hand it over
    assert [message for _, message in told] == [problem.message for problem in problems]
    for (file, _), problem in zip(told, problems, strict=True):
        assert problem.place.startswith(f"themes/harbour/{file}")


def _make_home(builder: Builder) -> bytes:
    page = next(page for page in builder.plan(builder.read()) if page.address == "index.html")
    return bytes(page.make())  # type: ignore[operator]


def test_a_theme_that_is_not_there(tmp_path: Path) -> None:
    folder = SeriesFolder(tmp_path)
    text = (folder.root / "series.yaml").read_text()
    folder.write("series.yaml", text + "theme: harbor\n")
    builder = Builder(folder.root, tmp_path / "build", jobs=1)

    with pytest.raises(ContentError) as caught:
        builder.plan(builder.read())

    [problem] = caught.value.problems
    assert problem.message == "there is no theme 'harbor'"
    assert problem.place == f"series.yaml:{text.count(chr(10)) + 1}:8"
