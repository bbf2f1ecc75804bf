"""Sheets of made-up sessions: any number of blocks and items, long German and accented names and cues."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from hypothesis import strategies as st
from markupsafe import Markup

from sitegen.pages.drawings import DrawnForm
from sitegen.pages.sheets.views import (
    SetBox,
    SheetBlock,
    SheetItem,
    SheetKit,
    SheetView,
    boxes_across,
    light_columns,
    stop_lines,
)
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.vessels import CARRIER, WEIGHT, Vessel
from sitegen.pages.views import FaultView, Views
from sitegen.reading.reader import read_content
from sitegen.resources import themes_folder
from tests.four_weeks import four_weeks

NAME, CUE, NOTE, FAULT, CARE = 45, 70, 35, 50, 60
"""Characters up to which a session of 10 items in seven blocks is promised to fit one page."""

ROWS = 11
"""Rows of boxes, of three sets each, that such a session has at most; a row is the least that an item has.
Of boxes that are only ticked, up to eight count as a row."""

SPACE = "\N{NO-BREAK SPACE}"
SOME_WORDS = """
    Ausfallschritt rückwärts Kniebeuge Überkopfdrücken Wadenheben größtmöglich langsam Straße
    Hüftgelenk élévation latérale genoux fléchis à côté coude arrière słowo żółw křeslo příliš ñandú
    corazón piñón Schulterblätter zusammenziehen the hips stay level press the floor away and
    breathe out slowly keep a long neck row chair squat Rumpfbeugehalteübung half-kneeling
    single-leg sit-to-stand 8–12 counter push-up
"""
WORDS = tuple(SOME_WORDS.split())
STRAIGHT = "Straight sets · 3 sets · rest 60–90 s between sets, 2 min after the block"
SUPERSET = "Superset · 3 sets · rest 20 s between exercises, 60–90 s between sets, 2 min after the block"
DOSES = [
    ("8 reps", ("8", "reps")),
    ("8–12 reps each side", ("8–12", "each side")),
    ("30–40 s each side", ("30–40", "s each side")),
    ("30 s", ("30", "s")),
    ("8 + 7 reps", ("", "8 + 7 reps")),
    ("as many as you can do well, effort 8 of 10", ("", "as many as you can do well, effort 8 of 10")),
    ("", ("", "")),
]
"""In full, and as large figures with what follows them."""
WATER, TIN = Vessel(kind=CARRIER, level=0.6), Vessel(kind=WEIGHT, level=1.0)
LOADS = [
    ("", "", ()),
    ("hold 2 × 800 g", "2 × 800 g", (TIN, TIN)),
    (
        "hold 5 litres of water in one hand, 3 litres of water in the other",
        "5 + 3 litres of water",
        (WATER, WATER),
    ),
    ("hold 8 kg", "8 kg", (WATER,)),
]
"""What is held in full, beside its vessels, and the vessels."""
MOST_SETS = 10
KINDS = ("written", "light", "tallied")


@cache
def demo() -> Site:
    """The demo, as its sheets see it."""
    series = read_content(four_weeks()).series
    assert series is not None
    return Site(series, {}, Theme(themes_folder() / "tidewater", "en"), "code")


@cache
def drawn() -> tuple[DrawnForm, ...]:
    """Real drawings: standing, lying down and bent over, from the demo."""
    views = Views(demo())
    drawings = (views.form(name, None).drawing for name in ("chair-squat", "glute-bridge", "towel-row"))
    return tuple(filter(None, drawings))


def cut(words: str, most: int) -> str:
    """The first words that fit into so many characters."""
    return words if len(words) <= most else words[: most + 1].rpartition(" ")[0] or words[:most]


def text(most: int) -> st.SearchStrategy[str]:
    """One to many words, at most so many characters in all."""
    words = st.lists(st.sampled_from(WORDS), min_size=1, max_size=most // 4 + 1)
    return words.map(lambda some: cut(" ".join(some), most))


@st.composite
def items(draw: st.DrawFn, kind: str, most_sets: int) -> SheetItem:
    """One exercise: written down, ticked off, or done for as many rounds as possible."""
    written = kind == "written"
    sets = draw(st.integers(1, most_sets))
    low = draw(st.integers(1, sets))
    dose, amount = draw(st.sampled_from(DOSES))
    load, held, vessels = draw(st.sampled_from(LOADS))
    note = draw(st.sampled_from(["", "", "12 reps"]))
    maybe_fault = st.none() | st.builds(FaultView, see=text(FAULT).map(Markup), fix=text(FAULT).map(Markup))
    return SheetItem(
        name=draw(text(NAME)),
        drawing=draw(st.sampled_from([None, *drawn()])),
        dose=dose,
        amount=amount,
        load=load,
        held=held,
        vessels=vessels,
        facts=draw(st.sampled_from([(), (f"tempo{SPACE}3-1-1-0", f"2–3{SPACE}in{SPACE}reserve")])),
        cue=Markup(draw(text(CUE))),
        note=Markup(draw(st.just("") | text(NOTE))),
        fault=draw(maybe_fault),
        care=draw(st.just("") | text(CARE)),
        easier=draw(st.just("") | text(NAME)),
        harder=draw(st.just("") | text(NAME)),
        instead="",
        rotation=draw(st.sampled_from(["", "set 1 left · set 2 right · set 3 left 4, then right 4"])),
        boxes=tuple(SetBox(number=n, maybe=n > low, dose=note) for n in range(1, sets + 1) if written),
        ticks=sets if kind == "light" else 0,
        sides=draw(st.integers(1, 2)) if written else 1,
        across=0,
    )


def block(name: str, of: Sequence[SheetItem], kind: str) -> SheetBlock:
    """A block around items, with their boxes in rows."""
    across = boxes_across(max(len(item.boxes) for item in of)) if kind == "written" else 0
    columns = {"written": 1, "tallied": min(2, len(of)), "light": light_columns(len(of))}
    return SheetBlock(
        name=name,
        how=SUPERSET if len(of) > 1 else STRAIGHT,
        when="video 12:34, your turn 14:04",
        written=kind != "light",
        columns=columns[kind],
        loads=any(item.vessels for item in of),
        tally=10 if kind == "tallied" else 0,
        items=tuple(replace(item, across=across) for item in of),
    )


@st.composite
def sessions(draw: st.DrawFn, items_at_most: int = 10, blocks_at_most: int = 7) -> SheetView:
    """A session; with many items each has up to three sets to write down, with few some have up to ten."""
    left = draw(st.integers(1, items_at_most))
    rows_left = max(0, ROWS - left)
    blocks: list[SheetBlock] = []
    while left:
        count = left if len(blocks) == blocks_at_most - 1 else draw(st.integers(1, left))
        kind = draw(st.sampled_from(KINDS))
        of = []
        for _ in range(count):
            a_row = 3 if kind == "written" else 8
            of.append(draw(items(kind, min(MOST_SETS, a_row * (1 + rows_left)))))
            rows_left -= max(0, -(-max(len(of[-1].boxes), of[-1].ticks) // a_row) - 1)
        blocks.append(block(draw(text(30)), of, kind))
        left -= count
    cautions = draw(st.lists(text(150), max_size=1))
    return sheet(blocks, title=draw(text(50)), cautions=cautions, kit=draw(st.lists(text(25), max_size=6)))


def sheet(
    blocks: Sequence[SheetBlock],
    *,
    title: str = "Full cargo",
    cautions: Sequence[str] = (),
    kit: Sequence[str] = (),
) -> SheetView:
    """A sheet around blocks."""
    return SheetView(
        slug="made-up",
        number=14,
        title=title,
        time="42–46 min in all: video 9 min, your turns 33–37 min",
        kit=tuple(
            SheetKit(
                name=piece,
                stand_ins=(f"ein Ersatz für {piece}", "two of another"),
                vessels=(WATER,) * (index % 3),
            )
            for index, piece in enumerate(kit)
        ),
        blocks=tuple(blocks),
        cautions=tuple(map(Markup, cautions)),
        others="Do not use it with: Sore shoulder, Sore knees, Sore wrists, Osteoporosis, Back pain or disc, "
        "Weak grip, Unsure balance, Blood pressure or hernia. Print your own from the session's page.",
        others_label="As filmed",
        way_back="Watch at",
        advice=(),
        stop=tuple(stop_lines(demo())),
        spoken="movement.example/galley/14",
    )
