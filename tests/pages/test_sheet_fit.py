"""What fits on a sheet, worked out from the font's widths."""

import itertools
import re

import pytest
from hypothesis import given

from sitegen.pages.sheets.fit import HEIGHTS, RESERVE, WIDTH, Fitter
from sitegen.pages.sheets.measured import Measurer
from sitegen.pages.sheets.metrics import Ruler, WordWidths, count_lines
from sitegen.pages.sheets.steps import LENGTHS, MM_PER_POINT, millimetres, read_steps
from sitegen.pages.sheets.views import SheetView, boxes_across, light_columns
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.resources import themes_folder
from tests.draws import draws
from tests.pages.sheet_sessions import demo, sessions
from tests.sheet_views import view_of

THEME_FOLDER = themes_folder() / "tidewater"
THEME = Theme(THEME_FOLDER, "en")
TAG, CLASS = re.compile(r"\{[{%].*?[%}]\}"), re.compile(r'class="([^"]*)"')
SHARED_CLASSES = {"needs-lost", "crumb", "scripted", "act"}
"""Of what stands around a sheet, and of the message that needs could not be kept."""
STYLE = THEME.data("styles/sheet.css").decode()
RULER = Ruler(THEME.data("metrics/sheet-font.json"))
STEPS = read_steps(STYLE)
FITTER = Fitter(Measurer(RULER, THEME.strings), STEPS, RULER.space)


@pytest.mark.parametrize(
    ("words", "line", "lines"),
    [
        pytest.param((), 10, 0, id="nothing"),
        pytest.param((10,), 10, 1, id="just fits"),
        pytest.param(
            (
                4,
                5,
            ),
            10,
            1,
            id="two with a space between",
        ),
        pytest.param(
            (
                5,
                5,
            ),
            10,
            2,
            id="the space is too much",
        ),
        pytest.param(
            (
                3,
                3,
                3,
                3,
            ),
            10,
            2,
            id="two by two",
        ),
        pytest.param((25,), 10, 3, id="a word longer than two lines"),
        pytest.param(
            (
                3,
                25,
                3,
            ),
            10,
            4,
            id="a long word starts a line of its own",
        ),
        pytest.param(
            (
                25,
                4,
            ),
            10,
            3,
            id="the rest of a long word's line is used",
        ),
    ],
)
def test_lines_are_counted_as_a_browser_breaks_them(words: WordWidths, line: float, lines: int) -> None:
    assert count_lines(words, 1, line) == lines


def test_a_no_break_space_does_not_end_a_word() -> None:
    assert len(RULER.words("tempo\N{NO-BREAK SPACE}3-1-1-0 and rest")) == 3


def test_bold_is_wider_and_unknown_characters_are_as_wide_as_high() -> None:
    assert RULER.width("Kniebeuge", bold=True) > RULER.width("Kniebeuge")
    assert RULER.width("体") == 1.0


@pytest.mark.parametrize(
    ("length", "expected"), [("10pt", 10 * 25.4 / 72), ("4.2mm", 4.2)], ids=["points", "millimetres"]
)
def test_lengths_of_the_style_sheet(length: str, expected: float) -> None:
    assert millimetres(length) == pytest.approx(expected)


def test_another_unit_is_refused() -> None:
    with pytest.raises(ValueError, match=r"'1\.2em' is in neither pt nor mm"):
        millimetres("1.2em")


def test_no_step_has_type_under_9_points_and_each_is_tighter_than_the_one_before() -> None:
    assert min(step.type for step in STEPS) == pytest.approx(9 * MM_PER_POINT)
    for before, after in itertools.pairwise(STEPS):
        for name in (*LENGTHS, "name_size"):
            assert getattr(after, name) <= getattr(before, name), (after.name, name)


def test_no_rule_of_the_screen_reaches_into_a_sheet() -> None:
    """Classes on a sheet are its own: a rule for a page that is hidden in print once took the tempo away."""
    templates = [path.read_text() for path in (THEME_FOLDER / "templates").glob("sheet_*.html")]
    names = {name for text in templates for name in CLASS.findall(TAG.sub(" ", text))}
    names = {name for group in names for name in group.split()}
    for style in ("styles/site.css", "styles/episode.css", "styles/drawings.css"):
        selectors = " ".join(re.findall(r"([^{}]+)\{", THEME.data(style).decode()))
        ruled = set(re.findall(r"\.([a-z][a-z-]+)", selectors))
        assert names & ruled <= SHARED_CLASSES, style


def test_a4_has_the_same_steps_as_letter() -> None:
    """A step is written twice in the style sheet, for either paper."""
    letter = {number: body.split() for number, body in re.findall(r"^\.step-(\d+) \{([^}]*)\}", STYLE, re.M)}
    a4 = {number: body.split() for number, body in re.findall(r"^  \.a4-step-(\d+) \{([^}]*)\}", STYLE, re.M)}
    assert letter == a4
    assert len(letter) == len(STEPS)


def test_all_type_of_the_sheets_is_at_least_9_points() -> None:
    sizes = re.findall(r"font(?:-size)?: ([\d.]+)pt", STYLE)
    assert min(map(float, sizes)) == 9


@draws(10, thorough=30)
@given(sessions())
def test_a_session_of_up_to_10_items_fits_one_page(sheet: SheetView) -> None:
    layout = FITTER.layout(sheet)
    assert layout.one_page
    for paper, step in (("letter", layout.letter), ("a4", layout.a4)):
        assert FITTER.height(sheet, step) <= HEIGHTS[paper] - RESERVE


@draws(10, thorough=30)
@given(sessions())
def test_the_step_is_the_roomiest_that_fits(sheet: SheetView) -> None:
    """Each step takes less room than the one before it, so the search may halve."""
    heights = [FITTER.height(sheet, step) for step in STEPS]
    layout = FITTER.layout(sheet)
    for paper, step in (("letter", layout.letter), ("a4", layout.a4)):
        fitting = [s for s, height in zip(STEPS, heights, strict=True) if height <= HEIGHTS[paper] - RESERVE]
        assert step == fitting[0]


@draws(6, thorough=20)
@given(sessions(items_at_most=40, blocks_at_most=12))
def test_a_session_too_long_for_a_page_takes_a_comfortable_step(sheet: SheetView) -> None:
    layout = FITTER.layout(sheet)
    if not layout.one_page:
        assert FITTER.height(sheet, STEPS[-1]) > HEIGHTS["letter"] - RESERVE
        assert layout.letter == layout.a4
        assert layout.letter.type >= 10 * MM_PER_POINT


def test_the_sheet_is_no_wider_than_either_paper_between_its_margins() -> None:
    """ISO 216: A4 is 210 mm wide; US Letter is 8.5 in, 215.9 mm."""
    margin = float(re.search(r"@page \{ margin: (\d+)mm; \}", STYLE)[1])  # type: ignore[index]
    assert 210 - 2 * margin >= WIDTH
    assert {"a4": 297 - 2 * margin, "letter": pytest.approx(279.4 - 2 * margin)} == HEIGHTS


@pytest.mark.parametrize(
    ("sets", "across"),
    [(1, 1), (2, 2), (3, 3), (4, 4), (5, 3), (6, 3), (7, 4), (8, 4), (9, 3), (10, 4), (11, 1)],
)
def test_boxes_stand_in_rows_of_even_length(sets: int, across: int) -> None:
    assert boxes_across(sets) == across


@pytest.mark.parametrize(("items", "columns"), [(1, 1), (2, 2), (3, 3), (4, 2), (5, 3), (6, 3), (7, 2)])
def test_light_items_stand_side_by_side(items: int, columns: int) -> None:
    assert light_columns(items) == columns


def test_the_demo_keeps_its_drawings_on_either_paper() -> None:
    """What a movement looks like is what one cannot guess from its name."""
    site = demo()
    views = Views(site)
    for episode in site.series.episodes:
        layout = FITTER.layout(view_of(site, views, episode, "movement.example/galley/9"))
        assert layout.one_page, episode.slug
        assert min(layout.letter.pics, layout.a4.pics) > 0, episode.slug
