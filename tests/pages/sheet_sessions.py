"""Sheets of made-up sessions: any number of blocks and items, long German and accented names and cues."""

from collections.abc import Sequence
from dataclasses import replace

from hypothesis import strategies as st
from markupsafe import Markup

from sitegen.pages.sheets.views import SetBox, SheetBlock, SheetItem, SheetView, boxes_across, light_columns
from sitegen.pages.views import FaultView, KitView

NAME, CUE, FAULT, CARE = 45, 70, 50, 60
"""Characters up to which a session of 14 items in seven blocks is promised to fit one page."""

ROWS = 14
"""Rows of boxes, of three sets each, that such a session has at most; a row is the least that an item has."""

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


def cut(words: str, most: int) -> str:
    """The first words that fit into so many characters."""
    return words if len(words) <= most else words[: most + 1].rpartition(" ")[0] or words[:most]


def text(most: int) -> st.SearchStrategy[str]:
    """One to many words, at most so many characters in all."""
    words = st.lists(st.sampled_from(WORDS), min_size=1, max_size=most // 4 + 1)
    return words.map(lambda some: cut(" ".join(some), most))


@st.composite
def items(draw: st.DrawFn, written: bool, most_sets: int) -> SheetItem:
    """One exercise."""
    sets = draw(st.integers(1, most_sets if written else 2))
    low = draw(st.integers(1, sets))
    maybe_fault = st.none() | st.builds(FaultView, see=text(FAULT).map(Markup), fix=text(FAULT).map(Markup))
    return SheetItem(
        name=draw(text(NAME)),
        dose=draw(st.sampled_from(["8 reps", "8–12 reps each side", "30 s", "8 + 7 reps", ""])),
        load=draw(st.sampled_from(["", "hold 8 kg", "hold 5 l of water and 3 l of water"])),
        facts=draw(st.sampled_from([(), (f"tempo{SPACE}3-1-1-0", f"2–3{SPACE}in{SPACE}reserve")])),
        cue=Markup(draw(text(CUE))),
        fault=draw(maybe_fault),
        care=draw(st.just("") | text(CARE)),
        easier=draw(st.just("") | text(NAME)),
        harder=draw(st.just("") | text(NAME)),
        rotation=draw(st.sampled_from(["", "set 1 left · set 2 right · set 3 left 4, then right 4"])),
        boxes=tuple(SetBox(number=n, maybe=n > low) for n in range(1, sets + 1)) if written else (),
        ticks=0 if written else sets,
        sides=draw(st.integers(1, 2)) if written else 1,
        across=0,
    )


def block(name: str, of: Sequence[SheetItem], *, written: bool, tally: int = 0) -> SheetBlock:
    """A block around items, with their boxes in rows."""
    across = boxes_across(max(len(item.boxes) for item in of)) if written else 0
    return SheetBlock(
        name=name,
        how=SUPERSET if len(of) > 1 else STRAIGHT,
        when="video 12:34, your turn 14:04",
        written=written,
        columns=1 if written else light_columns(len(of)),
        tally=tally,
        items=tuple(replace(item, across=across) for item in of),
    )


@st.composite
def sessions(draw: st.DrawFn, items_at_most: int = 14, blocks_at_most: int = 7) -> SheetView:
    """A session; with many items each has up to three sets to write down, with few some have up to ten."""
    left = draw(st.integers(1, items_at_most))
    rows_left = max(0, ROWS - left)
    blocks: list[SheetBlock] = []
    while left:
        count = left if len(blocks) == blocks_at_most - 1 else draw(st.integers(1, left))
        written = draw(st.booleans())
        of = []
        for _ in range(count):
            of.append(draw(items(written, min(10, 3 * (1 + rows_left)))))
            rows_left -= max(0, -(-len(of[-1].boxes) // 3) - 1)
        blocks.append(
            block(draw(text(30)), of, written=written, tally=10 if written and draw(st.booleans()) else 0)
        )
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
            KitView(name=piece, stand_ins=(f"ein Ersatz für {piece}", "two of another")) for piece in kit
        ),
        blocks=tuple(blocks),
        cautions=tuple(map(Markup, cautions)),
        spoken="movement.example/galley/14",
    )
