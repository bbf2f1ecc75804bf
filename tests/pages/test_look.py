"""A trainer's own colours, logo and photograph.

Contrasts: W3C, *WCAG 2.2*, contrast ratio: black on white is 21 by its definition. The greys on white are
common examples (4.54 just enough, 4.48 just too little), reckoned anew with awk from the formula.
"""

import io
import json
import re
from pathlib import Path
from urllib.parse import unquote

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from sitegen.building.build import Builder
from sitegen.building.theme_choice import chosen_theme
from sitegen.model import Details, Look
from sitegen.notation.colour import contrast
from sitegen.pages.colours import SCREENS, Palette
from sitegen.pages.icon import icon_pages
from sitegen.pages.theme_files import ThemeFiles
from sitegen.problems import ContentError, Problem
from sitegen.reading.picture_size import picture_size
from sitegen.reading.reader import read_content, read_series
from tests.conftest import DEMO, ROOT
from tests.draws import draws
from tests.folders import SeriesFolder

DECLARED = ThemeFiles([ROOT / "themes/tidewater"]).merged("colours.yaml")
LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 60"><path d="M0 0h300v60H0z"/></svg>'


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#ffffff", "#ffffff", 1.0),
        ("#949494", "#ffffff", 3.03),
    ],
)
def test_contrast_is_that_of_wcag(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == contrast(other, one) == pytest.approx(ratio, abs=0.005)


def test_the_themes_own_colours_can_be_read_in_every_use() -> None:
    palette = Palette(DECLARED, Look())
    assert len(palette.uses) >= 7
    low = [
        (screen, use.colour, ground)
        for screen in SCREENS
        for use in palette.uses
        for ground in use.grounds
        if contrast(palette.colours[screen][use.colour], palette.colours[screen][ground]) < use.least
    ]
    assert low == []


def with_look(tmp_path: Path, *lines: str) -> SeriesFolder:
    """The starter series with some lines more in series.yaml."""
    folder = SeriesFolder(tmp_path)
    text = (folder.root / "series.yaml").read_text()
    folder.write("series.yaml", text + "\n".join(lines) + "\n")
    return folder


def told(folder: SeriesFolder) -> list[Problem]:
    """The problems of a build, found while reading or against the theme."""
    content = read_content(folder.root)
    bad = [problem for problem in content.problems if problem.severity == "problem"]
    if bad or content.series is None:
        return bad
    try:
        chosen_theme(folder.root, content.series.details)
    except ContentError as error:
        return error.problems
    return []


LOW = "with {} on a {} screen the contrast of {} is {} ({}), and {} is needed (WCAG 2.2)"
SLIPS = {
    "pale ink": (
        'look: {light: {ink: "#8a8f94"}}',
        LOW.format("#8a8f94", "light", "text", "2.80", "ink on tint", "4.5"),
        'write "#666a6e", the nearest shade of it that can be read',
    ),
    "a load like the paper": (
        'look: {light: {load: "#e0a060"}}',
        LOW.format("#e0a060", "light", "loads", "1.81", "load on tint", "4.5"),
        'write "#86603a", the nearest shade of it that can be read',
    ),
    "a load too dark for dark screens": (
        'look: {dark: {load: "#a34700"}}',
        LOW.format("#a34700", "dark", "loads", "2.30", "load on tint", "4.5"),
        'write "#c28555", the nearest shade of it that can be read',
    ),
    "grey paper": (
        'look: {light: {paper: "#999999"}}',
        LOW.format("#999999", "light", "the reasons to stop", "2.47", "danger on paper", "4.5"),
        'write "#efefef", the nearest shade of it that can be read',
    ),
    "paper darker than ink": (
        'look: {light: {paper: "#101418", ink: "#f0f0f0"}}',
        "on a light screen paper #101418 is to be lighter than ink #f0f0f0",
        "swap the two, or write them under dark:",
    ),
    "without quotes": (
        "look: {light: {ink: '' }}\n#",
        "'ink': '' is not a colour",
        'write six digits or letters from a to f, such as "#14323c"',
    ),
    "a word": (
        "look: {light: {ink: teal}}",
        "'ink': 'teal' is not a colour",
        'write six digits or letters from a to f, such as "#14323c"',
    ),
    "another name": (
        'look: {light: {accent: "#14323c"}}',
        "'accent' is not a key of the colours",
        "known keys: paper, ink, load",
    ),
    "no such logo": (
        "look: {logo: {file: media/zzz.png, alt: Steps}}",
        "there is no file 'media/zzz.png' in the content folder",
        "put the file there, or leave the key out",
    ),
    "a logo without words": (
        "look: {logo: {file: media/logo.svg}}",
        "'alt' is missing in a logo",
        "add alt: with",
    ),
}


@pytest.mark.parametrize(("line", "message", "advice"), SLIPS.values(), ids=SLIPS)
def test_what_will_not_do_is_told(tmp_path: Path, line: str, message: str, advice: str) -> None:
    folder = with_look(tmp_path, line)
    folder.write("media/logo.svg", LOGO)

    [problem] = told(folder)

    assert (problem.message, problem.file) == (message, "series.yaml")
    assert problem.advice.startswith(advice)
    assert (
        problem.line == (folder.root / "series.yaml").read_text().splitlines().index(line.split("\n")[0]) + 1
    )


def test_a_colour_without_quotes_is_not_lost_in_silence(tmp_path: Path) -> None:
    [problem] = told(with_look(tmp_path, "look:", "  light:", "    ink: #14323c"))

    assert problem.message == "'ink' is empty: YAML drops what follows a #"
    assert problem.advice == 'put it in quotes: "#14323c"'


def test_a_photograph_that_browsers_do_not_show(tmp_path: Path) -> None:
    folder = SeriesFolder(tmp_path)
    folder.edit("series.yaml", "trainer:\n", "trainer:\n  photo: {file: media/me.heic, alt: Robin}\n")
    folder.write("media/me.heic", b"\x00\x00\x00\x18ftypheic and so on")

    [problem] = told(folder)

    assert problem.message == "'media/me.heic' is no picture that every browser shows"
    assert problem.advice.startswith("export it as SVG, PNG, JPEG or WebP")


COLOUR = st.tuples(*[st.integers(0, 255)] * 3).map(lambda rgb: "#" + bytes(rgb).hex())


@draws(2, thorough=8)  # one takes up to a second
@given(st.dictionaries(st.sampled_from(["paper", "ink", "load"]), COLOUR, min_size=1))
def test_what_is_advised_will_do(demo_details: Details, chosen: dict[str, str]) -> None:
    """Whoever writes what the messages say ends with colours that pass, or is told that none will."""
    for _ in range(6):
        palette = Palette(DECLARED, Look(light=chosen))
        problems = list(palette.problems(demo_details))
        advised = {
            str(problem.location.path[-1]): found[1]
            for problem in problems
            if problem.location and (found := re.match('write "(.+?)"', problem.advice))
        }
        if not advised:
            break
        assert chosen.items() != (chosen | advised).items()
        chosen = chosen | advised
    assert all("swap the two" in one.advice or "no shade" in one.advice for one in problems)


@pytest.fixture(scope="module")
def demo_details() -> Details:
    """The demo's series.yaml."""
    return read_series(DEMO).details


def test_a_site_in_a_trainers_colours(tmp_path: Path) -> None:
    folder = with_look(
        tmp_path,
        "look:",
        '  light: {paper: "#fffaf0", ink: "#10333f", load: "#7a2e8e"}',
        "  logo: {file: media/logo.svg, alt: Steps at home}",
    )
    folder.edit(
        "series.yaml", "trainer:\n", "trainer:\n  photo: {file: media/me.png, alt: Robin on a step}\n"
    )
    folder.write("media/logo.svg", LOGO)
    photo = io.BytesIO()
    Image.new("RGB", (2600, 1300), "#808080").save(photo, "PNG")
    folder.write("media/me.png", photo.getvalue())
    out = tmp_path / "build"
    Builder(folder.root, out, jobs=1, pdf=True).build()

    home = BeautifulSoup((out / "index.html").read_bytes(), "html.parser")
    [logo] = home.select(".masthead-title img")
    assert (logo["alt"], logo["width"], logo["height"]) == ("Steps at home", "220", "44")
    # So small a logo is no request of its own (RFC 2397).
    kind, _, data = str(logo["src"]).partition(",")
    assert (kind, unquote(data)) == ("data:image/svg+xml", LOGO)
    [shown] = home.select("img.photo")
    # Made small (ffmpeg), and the large one does not come along.
    assert (shown["alt"], shown["width"], shown["height"]) == ("Robin on a step", "1280", "640")
    assert (out / str(shown["src"])).is_file()
    assert not list(out.glob("media/me.*"))

    [style] = out.glob("assets/site.*.css")
    assert "--light-ink:#10333f;" in style.read_text()
    assert "--dark-ink:#eef0ec;" in style.read_text()
    manifest = json.loads((out / "site.webmanifest").read_bytes())
    assert manifest["theme_color"] == manifest["background_color"] == "#fffaf0"
    for address in (one["src"] for one in manifest["icons"]):
        assert (out / address).is_file()
    icon = Image.open(out / str(home.select_one("link[rel=apple-touch-icon]")["href"]))  # type: ignore[index]
    assert (icon.size, icon.getpixel((2, 2))[:3]) == ((180, 180), (0xFF, 0xFA, 0xF0))  # type: ignore[index]
    picture = Image.open(out / "picture.png").convert("RGB")
    assert picture.getpixel((2, 2)) == (0xFF, 0xFA, 0xF0)
    # The logo, black in its file, stands where the studio's name would.
    assert picture.getpixel((100, 90)) == (0, 0, 0)


@pytest.mark.parametrize(("box", "shown"), [("0 0 100 90", True), ("0 0 300 40", False)])
def test_a_logo_that_is_about_square_is_the_icon(tmp_path: Path, box: str, shown: bool) -> None:
    folder = with_look(tmp_path, "look: {logo: {file: media/logo.svg, alt: Steps at home}}")
    folder.write("media/logo.svg", LOGO.replace("0 0 300 60", box))
    builder = Builder(folder.root, tmp_path / "build", jobs=1)
    icon, _ = icon_pages(builder.site(builder.read()), folder.root)

    assert (b"<image" in icon.make()) == shown  # type: ignore[operator]


def test_a_larger_logo_is_a_file(tmp_path: Path) -> None:
    folder = with_look(tmp_path, "look: {logo: {file: media/logo.svg, alt: Steps at home}}")
    folder.write("media/logo.svg", LOGO + "<!-- drawn -->" * 150)
    builder = Builder(folder.root, tmp_path / "build", jobs=1)
    logo = builder.site(builder.read()).logo()

    assert logo is not None
    assert (logo.held, logo.address.rpartition(".")[2]) == ("", "svg")


PICTURES = {
    "png": ("PNG", (7, 5)),
    "jpeg": ("JPEG", (640, 360)),
    "webp": ("WEBP", (33, 44)),
}


@pytest.mark.parametrize(("kind", "size"), PICTURES.values(), ids=PICTURES)
@pytest.mark.parametrize("lossless", [True, False])
def test_sizes_are_those_that_another_reader_finds(kind: str, size: tuple[int, int], lossless: bool) -> None:
    """Held against Pillow, which writes them."""
    data = io.BytesIO()
    Image.new("RGB", size).save(data, kind, **({"lossless": lossless} if kind == "WEBP" else {}))

    assert picture_size(data.getvalue()) == size


@pytest.mark.parametrize(
    ("svg", "size"),
    [
        ('<svg viewBox="0 0 300 60">', (300, 60)),
        ("<?xml version='1.0'?><!-- by hand --><svg width='12px' height='8'>", (12, 8)),
        ('<svg width="100%" height="8">', None),
        ('<svg viewBox="0 0 0 60">', None),
        ("no picture", None),
        ("", None),
    ],
)
def test_the_size_of_an_svg(svg: str, size: tuple[int, int] | None) -> None:
    assert picture_size(svg.encode()) == size
