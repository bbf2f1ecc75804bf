"""Variants made whole: what they take over, and chains that lead nowhere."""

import pytest

from sitegen.model import Caution, Fault, Muscles, Poses, Stepping
from sitegen.notation import DoseChange, Quantity
from sitegen.study.forms import FormKey, find_cycles, forms_of, shown_form
from sitegen.vocabulary import UNTOLD
from tests.study.series_parts import exercise, forms, item, variant

FAULT = Fault(see="shoulders creep up", fix="breathe out first")
ROW = exercise(
    "row",
    variant("seated", dose="-2", kit=("chair",), demands=("grip",)),
    variant("slow-seated", of="seated", cues=("count to four",)),
    variant(
        "heavy-seated", of="slow-seated", dose="half", change="progression", muscles=Muscles(prime=("lats",))
    ),
    variant("lunge-row", pattern="lunge", kit=()),
    variant("to-pull", exercise="pull", dose="+2", change="substitution"),
    variant("easy-pull", of="to-pull"),
    prime=["upper back"],
    tempo="3-1-1-0",
    kit=("towel",),
    demands=("grip", "standing"),
    cues=("elbows past the ribs",),
    faults=(FAULT,),
    met=3.3,
)
PULL = exercise(
    "pull",
    variant("low-pull"),
    pattern="pull vertical",
    prime=["lats"],
    tempo="2-0-2-0",
    kit=("band",),
    demands=("arms overhead",),
)
LIBRARY = forms(ROW, PULL)


def form(name, of="row"):
    return LIBRARY[FormKey(of, name)]


def test_forms_stand_in_the_order_written_main_form_first():
    assert [key.variant for key in LIBRARY if key.exercise == "row"] == [
        None,
        "seated",
        "slow-seated",
        "heavy-seated",
        "lunge-row",
        "to-pull",
        "easy-pull",
    ]


def test_what_a_variant_leaves_unsaid_is_as_in_the_main_form():
    seated = form("seated")

    assert (seated.kit, seated.demands) == (("chair",), ("grip",))
    assert (seated.pattern, seated.muscles.prime) == ("pull horizontal", ("upper back",))
    assert str(seated.tempo) == "3-1-1-0"
    assert seated.made_from == FormKey("row")


SIT = forms(
    exercise(
        "wall-sit",
        variant("longer"),
        variant("with-a-tin", demands=("deep knee bend", "standing", "grip")),
        variant("half", demands=("standing",)),
        variant("half-longer", of="half"),
        variant("half-said", of="half", cues=("a hand above the seat",)),
        variant("half-said-longer", of="half-said"),
        demands=("standing", "deep knee bend"),
        cues=("thighs level",),
        faults=(FAULT,),
        move="slide down until the thighs are level",
    ),
    exercise("untold", variant("told", demands=()), demands=(UNTOLD,), cues=("thighs level",)),
)


@pytest.mark.parametrize("name", ["longer", "with-a-tin"])
def test_words_of_a_form_are_taken_over_where_no_demand_is_dropped(name: str):
    form = SIT[FormKey("wall-sit", name)]

    assert (form.cues, form.faults) == (("thighs level",), (FAULT,))
    assert form.move == "slide down until the thighs are level"


@pytest.mark.parametrize(
    ("exercise_id", "name", "cues"),
    [
        ("wall-sit", "half", ()),
        ("wall-sit", "half-longer", ()),
        ("wall-sit", "half-said", ("a hand above the seat",)),
        ("wall-sit", "half-said-longer", ("a hand above the seat",)),
        ("untold", "told", ()),
    ],
)
def test_words_of_a_form_that_asks_for_more_are_left_out(exercise_id: str, name: str, cues: tuple[str, ...]):
    form = SIT[FormKey(exercise_id, name)]

    assert form.cues == cues
    assert cues or (form.faults, form.move) == ((), "")


BARE = forms(
    exercise(
        "raise",
        variant("slow"),
        variant("seated", demands=()),
        variant("seated-said", demands=(), cues=("heels up",)),
        demands=("standing",),
        summary="Up on your toes behind a chair.",
    )
)


@pytest.mark.parametrize(
    ("name", "how"),
    [
        (None, ("Up on your toes behind a chair.",)),
        ("slow", ("Up on your toes behind a chair.",)),
        ("seated", ()),
        ("seated-said", ("heels up",)),
    ],
)
def test_the_summary_says_how_where_no_cue_does_and_no_demand_is_dropped(
    name: str | None, how: tuple[str, ...]
):
    assert BARE[FormKey("raise", name)].how == how


def test_a_chain_takes_over_from_the_form_before():
    slow, heavy = form("slow-seated"), form("heavy-seated")

    assert (slow.kit, slow.demands, slow.dose) == (("chair",), ("grip",), DoseChange.parse("-2"))
    assert slow.cues == ("count to four",)
    assert (heavy.cues, heavy.dose) == (("count to four",), DoseChange.parse("half"))
    assert heavy.muscles.prime == ("lats",)
    assert heavy.made_from == FormKey("row", "slow-seated")


def test_no_kit_written_as_an_empty_list_means_none():
    assert form("lunge-row").kit == ()


def test_what_moves_is_taken_over_only_where_the_poses_are():
    """Another pose may be another movement, of which the sentence would be wrong."""
    own = Poses(start={"base": "seated"})
    row = exercise(
        "row",
        variant("slow"),
        variant("seated", poses=own),
        variant("one-arm", poses=own, move="Draw one elbow back."),
        variant("slow-one-arm", of="one-arm"),
        move="Draw both elbows back.",
    )

    assert {key.variant: form.move for key, form in forms(row).items()} == {
        None: "Draw both elbows back.",
        "slow": "Draw both elbows back.",
        "seated": "",
        "one-arm": "Draw one elbow back.",
        "slow-one-arm": "Draw one elbow back.",
    }


def test_met_holds_for_its_own_pattern_only():
    assert form("seated").met == 3.3
    assert form("lunge-row").met is None


def test_stepping_holds_for_its_own_pattern_only():
    steps = Stepping(height=Quantity(20, "cm"), per_minute=20)
    library = forms(
        exercise("up", variant("lower"), variant("lunge", pattern="lunge"), pattern="step", stepping=steps)
    )

    assert library[FormKey("up", "lower")].stepping == steps
    assert library[FormKey("up", "lunge")].stepping is None


def test_a_link_takes_over_from_the_other_exercise():
    link = form("to-pull")

    assert link.link
    assert link.exercise == "pull"
    assert (link.pattern, link.kit, link.demands) == ("pull vertical", ("band",), ("arms overhead",))
    assert str(link.tempo) == "2-0-2-0"
    assert link.dose == DoseChange.parse("+2")
    assert link.met is None


def test_a_variant_of_a_link_is_a_form_of_the_other_exercise():
    easy = form("easy-pull")

    assert (easy.exercise, easy.link, easy.made_from) == ("pull", False, FormKey("row", "to-pull"))
    assert easy.demands == ("arms overhead",)


def test_the_form_an_item_shows():
    assert shown_form(LIBRARY, item("row 8")).key == FormKey("row")
    assert shown_form(LIBRARY, item("row 8", variant="seated")).name == "seated"


def test_an_unknown_variant_is_an_error():
    with pytest.raises(KeyError):
        shown_form(LIBRARY, item("row 8", variant="standing"))


@pytest.mark.parametrize(
    ("variants", "cycles"),
    [
        ([variant("a"), variant("b", of="a"), variant("c", of="b")], []),
        ([variant("a", of="a")], [("a", "a")]),
        ([variant("a", of="b"), variant("b", of="a")], [("a", "b", "a")]),
        ([variant("d", of="a"), variant("a", of="b"), variant("b", of="a")], [("a", "b", "a")]),
        (
            [variant("a", of="b"), variant("b", of="a"), variant("c", of="c"), variant("d", of="c")],
            [("a", "b", "a"), ("c", "c")],
        ),
        ([variant("a", exercise="row")], [(None, "a", None)]),
        ([variant("a", exercise="pull")], []),
    ],
    ids=[
        "a ladder",
        "itself",
        "each other",
        "a way into a cycle",
        "two cycles",
        "its own exercise",
        "a link",
    ],
)
def test_cycles_are_found_and_do_not_hang(variants, cycles):
    library = {"row": exercise("row", *variants), "pull": PULL}

    assert [tuple(key.variant for key in cycle) for cycle in find_cycles(library)] == cycles
    assert len(forms_of(library)) == 1 + len(variants) + 2


def test_exercises_that_stand_in_for_each_other_are_no_cycle():
    library = {
        "row": exercise("row", variant("to-pull", exercise="pull")),
        "pull": exercise("pull", variant("to-row", exercise="row")),
    }

    assert find_cycles(library) == []
    assert forms_of(library)[FormKey("row", "to-pull")].exercise == "pull"


def test_a_cycle_counts_as_made_from_the_main_form():
    library = forms(exercise("row", variant("a", of="b"), variant("b", of="a"), demands=("grip",)))

    assert library[FormKey("row", "b")].made_from == FormKey("row")
    assert library[FormKey("row", "a")].made_from == FormKey("row", "b")
    assert library[FormKey("row", "a")].demands == ("grip",)


ANYONE = Caution(text="Sound handles only")
OVERHEAD = Caution(text="Never above the face", about=("arms overhead",))
GRIPPED = Caution(text="Let go before it slips", about=("grip",))
CAREFUL = forms(
    exercise(
        "press",
        variant("low", demands=("grip",), cautions=(GRIPPED,)),
        variant("low-slow", of="low"),
        variant("empty", of="low", demands=()),
        variant("high-again", of="low", demands=("arms overhead", "grip")),
        variant("to-pull", exercise="pull", cautions=(GRIPPED,)),
        demands=("arms overhead",),
        cautions=(ANYONE, OVERHEAD),
    ),
    exercise("pull", demands=("arms overhead",), cautions=(OVERHEAD,)),
)


@pytest.mark.parametrize(
    ("name", "cautions"),
    [
        (None, (ANYONE, OVERHEAD)),
        ("low", (ANYONE, GRIPPED)),
        ("low-slow", (ANYONE, GRIPPED)),
        ("empty", (ANYONE,)),
        ("high-again", (ANYONE, OVERHEAD, GRIPPED)),
        ("to-pull", (OVERHEAD,)),
    ],
)
def test_the_cautions_of_a_form_are_all_that_concern_it(name: str | None, cautions: tuple[Caution, ...]):
    assert CAREFUL[FormKey("press", name)].cautions == cautions


STRAINED = Caution(text="High blood pressure? Come up earlier", about=("straining",))
DOORS = Caution(text="Pull the door shut", about=("door",))
DOUBTFUL = forms(
    exercise(
        "wall-sit",
        variant("half", demands=("standing",)),
        variant("door-sit", demands=("standing",), cautions=(DOORS,)),
        variant("low-door-sit", of="door-sit", demands=()),
        variant("to-pull", exercise="pull"),
        demands=("standing", "deep knee bend"),
        cautions=(STRAINED, Caution(text="Hands off", about=("deep knee bend",))),
    ),
    exercise("pull", variant("gripped", demands=("grip",)), cautions=(GRIPPED, OVERHEAD)),
)


@pytest.mark.parametrize(
    ("exercise_id", "name", "doubted"),
    [
        ("wall-sit", None, (STRAINED,)),
        ("wall-sit", "half", (STRAINED,)),
        ("wall-sit", "low-door-sit", (STRAINED, DOORS)),
        ("wall-sit", "to-pull", (OVERHEAD,)),
        ("pull", None, (OVERHEAD,)),
        ("pull", "gripped", (OVERHEAD,)),
    ],
)
def test_a_caution_about_what_no_form_declares_stands_with_all_forms_it_belongs_to(
    exercise_id: str, name: str | None, doubted: tuple[Caution, ...]
):
    form = DOUBTFUL[FormKey(exercise_id, name)]

    assert form.cautions_in_doubt == doubted
    assert set(doubted) <= set(form.cautions)
    assert (GRIPPED in form.cautions) == (name == "gripped")
