"""The version of an item for a need, in hand-worked tables: what is safe, what is nearest, what is lost."""

from dataclasses import replace

import pytest

from sitegen.model import Kit, Limits, Muscles, Poses
from sitegen.notation import Dose, Load, Quantity
from sitegen.study.forms import FormKey
from sitegen.study.joint_loads import spared_joints
from sitegen.study.suitability import Coverage, Suitability
from sitegen.vocabulary import CIRCUIT, STRAIGHT, UNSHOWN, UNTOLD, told_apart
from tests.study.series_parts import block, details, episode, exercise, forms, item, need, variant

NEEDS = {
    one.id: one
    for one in (
        need("no-floor", "getting to the floor", "lying flat"),
        need("no-kneeling", "kneeling"),
        need("wrists", "weight on the wrists"),
        need("seated", "standing"),
        need("no-jumping", "jumping"),
        need("shoulder", "shoulder load", "arms overhead"),
    )
}
LIBRARY = forms(
    exercise(
        "push-up",
        variant("knee-push-up", demands=("getting to the floor", "kneeling", "weight on the wrists")),
        variant("counter-push-up", demands=("standing", "weight on the wrists"), dose="double"),
        variant("wall-push-up", of="counter-push-up", demands=("standing",)),
        variant("towel-squeeze", demands=(), kit=("towel",), muscles=Muscles(prime=("chest",))),
        variant("to-band-press", exercise="band-press", dose="+2", change="substitution"),
        pattern="push horizontal",
        prime=["chest", "triceps"],
        demands=("getting to the floor", "weight on the wrists"),
    ),
    exercise(
        "band-press",
        variant("seated-band-press", demands=(), dose="half"),
        pattern="push horizontal",
        prime=["chest", "triceps"],
        kit=("band",),
        demands=("standing",),
    ),
    exercise(
        "floor-press", pattern="push horizontal", prime=["chest"], kit=("carrier",), demands=("lying flat",)
    ),
    exercise(
        "chair-press",
        variant("chair-press-light", demands=()),
        pattern="push horizontal",
        prime=["chest", "triceps"],
        kit=("chair",),
        demands=("grip",),
    ),
    exercise("tin-push", pattern="push horizontal", prime=["front shoulder"], demands=()),
    exercise("sit-press", pattern="push horizontal", prime=["triceps"], demands=()),
    exercise("march", pattern="locomotion", demands=("standing",)),
)
SUITABILITY = Suitability(details(needs=NEEDS), LIBRARY)


def first(study, done, needs, kit=(), **setting):
    """The version of the only item of a block; None for a gap."""
    [found] = study.block(block(STRAIGHT, done, **setting), needs, frozenset(kit))
    return found


def version(*needs, kit=(), done="push-up 10", **more):
    return first(SUITABILITY, item(done, **more), needs, kit)


def lost(found):
    return [one.what for one in found.lost]


# needs, kit at hand, steps walked (None for a gap), dose
NEAREST = {
    "no need": ([], [], [], "10"),
    "the main form does": (["no-kneeling"], [], [], "10"),
    "an easier form of the same muscles": (["no-floor"], [], ["counter-push-up"], "20"),
    "its own easier form before one with kit to fetch": (["no-floor"], [], ["counter-push-up"], "20"),
    # 10 + 2 on the way into the band press, then half of it
    "a smaller dose before a larger one": (
        ["no-floor"],
        ["band"],
        ["to-band-press", "seated-band-press"],
        "6",
    ),
    "one step easier rather than two, though kit has to be fetched": (
        ["wrists", "no-floor"],
        [],
        ["to-band-press", "seated-band-press"],
        "6",
    ),
    "through a link into another exercise's variants": (
        ["no-floor", "wrists", "seated"],
        ["towel"],
        ["to-band-press", "seated-band-press"],
        "6",
    ),
    "a gap where nothing fits": (["grip-free", "seated", "no-floor", "wrists"], [], None, None),
}


@pytest.mark.parametrize(("needs", "kit", "steps", "dose"), NEAREST.values(), ids=NEAREST)
def test_nearest_form_worked_by_hand(needs, kit, steps, dose):
    everything = need("grip-free", *(demand for form in LIBRARY.values() for demand in form.demands))
    study = Suitability(details(needs=NEEDS | {"grip-free": everything}), _without_harmless(needs))
    found = first(study, item("push-up 10"), needs, kit)

    if steps is None:
        assert found is None
    else:
        assert [key.variant for key in found.steps] == steps
        assert found.dose == Dose.parse(dose)


def _without_harmless(needs):
    """The library; for the gap, one whose push-up has no other forms."""
    if "grip-free" not in needs:
        return LIBRARY
    return forms(exercise("push-up", demands=("getting to the floor",)))


LADDER = forms(
    exercise(
        "row",
        variant("one-arm-row", change="progression", demands=("standing",)),
        variant("lap-row", demands=("kneeling",), kit=("bag",)),
        variant("seated-row", of="lap-row", change="progression", demands=("grip",)),
        demands=("standing", "grip"),
    )
)


@pytest.mark.parametrize(
    ("needs", "steps"),
    [
        (["grip"], ["lap-row"]),
        (["grip", "no-kneeling"], ["one-arm-row"]),
        (["seated", "no-kneeling"], ["lap-row", "seated-row"]),
    ],
    ids=[
        "an easier form before a harder one, though its kit has to be fetched",
        "a harder form before a gap, and it says so",
        "down and up again is not harder",
    ],
)
def test_a_harder_form_is_never_chosen_while_another_fits(needs, steps):
    study = Suitability(details(needs=NEEDS | {"grip": need("grip", "grip")}), LADDER)
    found = first(study, item("row 10"), needs)
    assert [key.variant for key in found.steps] == steps
    assert found.harder == ("harder" in lost(found)) == (steps == ["one-arm-row"])


def test_a_version_says_what_it_changes():
    found = version("no-floor", "wrists", "seated", kit=["band"])

    assert (found.kit_added, found.kit_left, found.fetch) == (("band",), (), ())
    assert lost(found) == ["less"]
    assert not found.as_filmed


def test_kit_that_is_not_at_hand_has_to_be_fetched():
    assert version("no-floor", "wrists", "seated").fetch == ("band",)


def test_reasons_are_the_avoided_demands_that_the_filmed_form_makes():
    filmed = item("push-up 10")

    assert SUITABILITY.reasons(filmed, ["seated", "no-floor"]) == ("getting to the floor",)
    assert SUITABILITY.reasons(filmed, ["no-jumping"]) == ()


def test_kit_at_hand_is_what_is_used_and_what_the_episode_lists():
    day = episode(1, block(STRAIGHT, "band-press 8"))
    assert SUITABILITY.kit_at_hand(day) == {"band"}
    assert SUITABILITY.kit_at_hand(replace(day, kit=("towel",))) == {"band", "towel"}


def test_from_a_filmed_variant_the_way_back_is_open():
    found = version("no-kneeling", variant="knee-push-up")

    # Back to the main form and down again: the main form itself would be harder than what is filmed.
    assert found.steps == (FormKey("push-up"), FormKey("push-up", "counter-push-up"))
    assert not found.harder


def test_the_dose_of_a_filmed_variant_is_not_changed_twice():
    found = version("wrists", variant="counter-push-up")

    assert found.form.key.variant == "wall-push-up"
    assert found.dose == Dose.parse("10")
    assert "more" not in lost(found)


def test_a_filmed_link_walks_on_in_the_linked_exercise():
    found = version("seated", "no-floor", "wrists", variant="to-band-press")

    assert found.steps == (FormKey("band-press", "seated-band-press"),)
    assert found.dose == Dose.parse("5")


def test_where_the_format_sets_the_dose_there_is_none_to_change():
    found = version("no-floor", done="push-up")

    assert (found.form.key.variant, found.dose) == ("counter-push-up", None)
    assert lost(found) == []


CHEST = Muscles(prime=("chest",))
BOTH = Muscles(prime=("glutes", "chest"))
# each: variants of a kneeling squat with a loaded bag and a towel (prime: glutes, calves) in the order
# written, the one chosen
RULE = {
    "the muscles before the pattern": (
        [
            variant("other-muscles", muscles=CHEST, demands=()),
            variant("other-pattern", pattern="hinge", demands=()),
        ],
        "other-pattern",
    ),
    "both kept before one of them": (
        [variant("other-pattern", pattern="hinge", demands=()), variant("no-load", kit=(), demands=())],
        "no-load",
    ),
    "some of the muscles before none": (
        [variant("none", muscles=CHEST, demands=()), variant("some", muscles=BOTH, demands=())],
        "some",
    ),
    "another pattern with all muscles before the same with some": (
        [variant("some", muscles=BOTH, demands=()), variant("other-pattern", pattern="hinge", demands=())],
        "other-pattern",
    ),
    "muscles that are added take nothing away": (
        [
            variant("new-dose", dose="half", demands=()),
            variant("more", muscles=Muscles(prime=("glutes", "calves", "chest")), demands=()),
        ],
        "more",
    ),
    "only prime muscles count": (
        [
            variant("new-dose", dose="half", demands=()),
            variant("new-assist", muscles=Muscles(prime=("glutes", "calves"), assist=("chest",)), demands=()),
        ],
        "new-assist",
    ),
    "the load is kept before the ladder": (
        [
            variant("no-load", change="substitution", kit=(), demands=()),
            variant("half-way"),
            variant("two-down", of="half-way", demands=()),
        ],
        "two-down",
    ),
    "another load is a load": (
        [variant("no-load", kit=("towel",), demands=()), variant("tins", kit=("tin",), demands=())],
        "tins",
    ),
    "not much easier before kit at hand": (
        [
            variant("half-way"),
            variant("two-down", of="half-way", demands=()),
            variant("one-down", kit=("bag", "step"), demands=()),
        ],
        "one-down",
    ),
    "kit at hand before what is to be fetched": (
        [
            variant("fetch", kit=("bag", "step"), demands=()),
            variant("at-hand", kit=("bag", "chair"), demands=()),
        ],
        "at-hand",
    ),
    "kit put away is no distance": (
        [variant("put-away", kit=("bag",), demands=()), variant("same-kit", demands=())],
        "put-away",
    ),
    "kit at hand before the same dose": (
        [variant("fetch", kit=("bag", "step"), demands=()), variant("new-dose", dose="half", demands=())],
        "new-dose",
    ),
    "the same dose before another": (
        [variant("new-dose", dose="half", demands=()), variant("same-dose", demands=())],
        "same-dose",
    ),
    "a smaller dose before a larger one": (
        [variant("larger", dose="double", demands=()), variant("smaller", dose="half", demands=())],
        "smaller",
    ),
    "a dose that comes out the same is no change": (
        [variant("same-dose", dose="8", demands=()), variant("second", demands=())],
        "same-dose",
    ),
    "the same dose before fewer steps": (
        [
            variant("near", dose="half", change="substitution", demands=()),
            variant("half-way", change="substitution"),
            variant("far", change="substitution", of="half-way", demands=()),
        ],
        "far",
    ),
    "fewer steps before what is written first": (
        [
            variant("far", of="near", change="substitution", demands=()),
            variant("near"),
            variant("close", demands=()),
        ],
        "close",
    ),
    "then what is written first": ([variant("b", demands=()), variant("a", demands=())], "b"),
}
KIT = {
    "bag": Kit(id="bag", name="Bag", holds=Quantity(15, "kg")),
    "tin": Kit(id="tin", name="Tin", weighs=(Quantity(400, "g"), Quantity(800, "g"))),
    "carrier": Kit(id="carrier", name="Carrier", holds=Quantity(5, "l")),
    **{name: Kit(id=name, name=name) for name in ("towel", "chair", "step", "band")},
}


@pytest.mark.parametrize(("variants", "chosen"), RULE.values(), ids=RULE)
def test_what_comes_before_what(variants, chosen):
    library = forms(
        exercise(
            "squat",
            *variants,
            pattern="squat",
            prime=["glutes", "calves"],
            kit=("bag", "towel"),
            demands=("kneeling",),
        )
    )
    study = Suitability(details(needs=NEEDS, kit=KIT), library)

    found = first(study, item("squat 8"), ["no-kneeling"], {"chair", "tin"})

    assert found.form.key.variant == chosen


def test_what_is_lost_is_all_listed():
    library = forms(
        exercise(
            "squat",
            variant(
                "other",
                change="progression",
                dose="double",
                kit=(),
                pattern="hinge",
                muscles=CHEST,
                demands=(),
            ),
            pattern="squat",
            prime=["glutes", "calves"],
            kit=("bag",),
            demands=("kneeling",),
        )
    )
    found = first(Suitability(details(needs=NEEDS, kit=KIT), library), item("squat 8"), ["no-kneeling"])

    assert [(one.what, one.names) for one in found.lost] == [
        ("harder", ()),
        ("muscles", ("glutes", "calves")),
        ("pattern", ()),
        ("load", ()),
        ("more", ()),
    ]


DEEP, HALF, NEARLY_HALF, SHALLOW = (
    Poses(finish={"knees": bend, "lean": 25.0}) for bend in (100.0, 68.0, 66.0, 45.0)
)


def bent(name, poses=None, demands=(), **more):
    return variant(name, poses=poses, demands=demands, **more)


FILMED = {"demands": ("deep knee bend",), "poses": DEEP}


@pytest.mark.parametrize(
    ("variants", "filmed", "chosen"),
    [
        ([bent("half", poses=HALF), bent("shallow", poses=SHALLOW)], FILMED, "shallow"),
        ([bent("half", poses=HALF), bent("nearly", poses=NEARLY_HALF)], FILMED, "half"),
        (
            [bent("half", poses=HALF, kit=()), bent("shallow", poses=SHALLOW, kit=("chair",))],
            FILMED,
            "shallow",
        ),
        (
            [bent("half", poses=HALF), bent("lower", of="half", poses=SHALLOW)],
            FILMED,
            "half",
        ),
        (
            [bent("half", poses=HALF), bent("shallow", poses=SHALLOW, muscles=CHEST)],
            FILMED,
            "half",
        ),
        (
            [bent("half", poses=HALF, meant_for=("knees",)), bent("shallow", poses=SHALLOW)],
            FILMED,
            "half",
        ),
        (
            [bent("half", poses=HALF), bent("low", poses=SHALLOW, demands=("jumping",))],
            FILMED,
            "half",
        ),
        (
            [bent("half"), bent("shallow", poses=SHALLOW)],
            {"demands": ("deep knee bend",)},
            "half",
        ),
        (
            [bent("half", poses=HALF), bent("shallow", poses=SHALLOW)],
            FILMED | {"pattern": "mobility"},
            "half",
        ),
        ([bent("shallow", poses=SHALLOW)], {"demands": (), "poses": HALF}, None),
    ],
    ids=[
        "the smaller moment and bend",
        "too little to tell: the order written",
        "rather than the kit at hand",
        "not two steps easier",
        "not at the price of the muscles",
        "what is written for the need stays first",
        "never an avoided demand",
        "one form says nothing of its poses: the order written",
        "what moves or stretches is not ranked",
        "what is filmed stays where it fits",
    ],
)
def test_who_spares_a_joint_gets_what_asks_less_of_it(variants, filmed, chosen):
    wish = need("knees", "deep knee bend", "jumping")
    library = forms(exercise("squat", *variants, **{"pattern": "squat", "prime": ["glutes"]} | filmed))
    study = Suitability(details(needs={"knees": wish}, kit=KIT), library)

    assert first(study, item("squat 8"), ["knees"]).form.key.variant == chosen


@pytest.mark.parametrize(
    ("demands", "joints"),
    [
        (("deep knee bend", "jumping"), ("knees",)),
        (("deep knee bend", "standing"), ()),  # seated for another reason
        (("shoulder load", "rounding the spine"), ("back", "shoulders")),
        (("grip", "kneeling"), ()),
    ],
)
def test_which_joints_a_need_spares(demands, joints):
    assert spared_joints(demands) == joints


SIT_OR_LIE = forms(
    exercise(
        "crunch",
        variant("bare", kit=(), demands=()),
        variant("floor", demands=("lying flat",)),
        variant("chair", demands=("grip",)),
        variant("hips", muscles=CHEST, demands=()),
        prime=["abdominals"],
        kit=("tin",),
        demands=("kneeling",),
    )
)


@pytest.mark.parametrize(
    ("rather", "avoids", "chosen"),
    [
        ((), (), "floor"),
        (("lying flat",), (), "chair"),
        (("lying flat", "grip"), (), "floor"),
        (("lying flat",), ("grip",), "floor"),
    ],
    ids=[
        "without a wish the order stands",
        "seated rather than lying",
        "as few as possible",
        "other muscles, or no load, are too high a price",
    ],
)
def test_what_a_need_would_rather_do_without(rather, avoids, chosen):
    wish = replace(need("wish", "kneeling", *avoids), rather_without=rather)
    study = Suitability(details(needs={"wish": wish}, kit=KIT), SIT_OR_LIE)

    assert first(study, item("crunch 8"), ["wish"]).form.key.variant == chosen


@pytest.mark.parametrize(
    ("fitting", "steps"),
    [
        ("a", ["to-b"]),
        ("b", ["to-b", "to-c"]),
        ("c", ["to-b", "to-c", "to-d"]),
        ("d", None),
    ],
)
def test_a_walk_goes_on_into_two_other_exercises_at_most(fitting, steps):
    """Only the variant that leads from the ``fitting`` exercise to the next makes no demand."""
    library = forms(
        *(
            exercise(
                name,
                variant(f"to-{further}", exercise=further, demands=() if name == fitting else ("kneeling",)),
                demands=("kneeling",),
            )
            for name, further in ("ab", "bc", "cd", "de")
        ),
        exercise("e", demands=("kneeling",)),
    )
    found = first(Suitability(details(needs=NEEDS), library), item("a 8"), ["no-kneeling"])

    assert (found and [key.variant for key in found.steps]) == steps


# --- the trainer's own choice ------------------------------------------------------------------


def test_the_trainers_own_choice_comes_first_where_it_fits():
    found = version("no-floor", versions={"no-floor": "wall-push-up"})

    assert (found.form.key.variant, found.own_choice) == ("wall-push-up", True)


def test_the_trainers_own_choice_stands_even_where_the_filmed_form_would_do():
    found = version("seated", versions={"seated": "towel-squeeze"})

    assert (found.form.key.variant, found.own_choice, found.fetch) == ("towel-squeeze", True, ("towel",))


def test_an_own_choice_that_makes_the_demand_is_not_given_and_is_reported():
    filmed = item("push-up 10", versions={"no-floor": "knee-push-up", "seated": "knee-push-up"})

    found = first(SUITABILITY, filmed, ["no-floor"])

    assert (found.form.key.variant, found.own_choice) == ("counter-push-up", False)
    assert SUITABILITY.unfit_choices(block(STRAIGHT, filmed), filmed) == ["no-floor"]


def test_of_two_own_choices_the_nearer_that_fits_both_needs_is_taken():
    versions = {"no-floor": "counter-push-up", "wrists": "wall-push-up"}

    for needs in (["no-floor", "wrists"], ["wrists", "no-floor"]):
        assert version(*needs, versions=versions).form.key.variant == "wall-push-up"
    assert version("no-floor", versions=versions).form.key.variant == "counter-push-up"


# --- limits ------------------------------------------------------------------------------------

LIGHT = {
    "gentle": replace(need("gentle", "kneeling"), limits=Limits(load=5.0, effort=6)),
    "unloaded": replace(need("unloaded"), limits=Limits(load=0.0)),
    "calm": replace(need("calm"), limits=Limits(speed=False)),
}
LOADED = forms(
    exercise(
        "squat",
        variant("bare", kit=(), demands=()),
        variant("tins", kit=("tin",), demands=()),
        pattern="squat",
        prime=["glutes"],
        kit=("carrier",),
        demands=("standing",),
    ),
    exercise("hop", demands=("speed",)),
)
GENTLE = Suitability(details(needs=LIGHT, kit=KIT), LOADED)


def held(text, piece):
    load = Load.parse(text)
    return replace(load, parts=tuple(replace(part, piece=piece) for part in load.parts))


def test_a_loaded_form_stays_and_becomes_lighter():
    filmed = replace(item("squat 8", effort="3 in reserve"), load=held("2 x 4 l water", "carrier"))
    found = first(GENTLE, filmed, ["gentle"], kind="strength")

    assert (found.steps, str(found.load), str(found.effort)) == ((), "2 x 2.5 l water", "4 in reserve")
    assert set(found.limited) == {"lighter", "effort", "fewer"}
    assert not found.as_filmed


def test_where_a_limit_cannot_be_kept_another_form_is_taken():
    filmed = replace(item("squat 8"), load=held("2 x 4 l water", "carrier"))
    found = first(GENTLE, filmed, ["unloaded"])

    assert found.form.key.variant == "bare"
    assert lost(found) == ["load"]


def test_another_piece_keeps_no_load_that_was_written_for_the_first():
    """Two tins never weigh as much as the limit, so that it need not be said of them."""
    library = forms(
        exercise(
            "squat",
            variant("tins", kit=("tin",), demands=()),
            kit=("carrier",),
            prime=["glutes"],
            demands=("kneeling",),
        )
    )
    filmed = replace(item("squat 8"), load=held("4 l water", "carrier"))
    found = first(Suitability(details(needs=LIGHT, kit=KIT), library), filmed, ["gentle"])

    assert (found.form.key.variant, found.load, found.own_load, found.most_kg) == ("tins", None, True, None)


def test_who_does_nothing_fast_avoids_speed():
    assert GENTLE.avoided(["calm"]) == {"speed", UNSHOWN, UNTOLD}
    assert first(GENTLE, item("hop 8"), ["calm"]) is None


# --- blocks ------------------------------------------------------------------------------------

TWINS = forms(
    exercise(
        "step",
        variant("low", demands=()),
        variant("march", demands=()),
        prime=["glutes"],
        demands=("jumping",),
    ),
    exercise("hop", variant("to-low", exercise="low-step"), prime=["glutes"], demands=("jumping",)),
    exercise("skip", variant("to-low-too", exercise="low-step"), prime=["glutes"], demands=("jumping",)),
    exercise("low-step", prime=["glutes"], demands=()),
)


def test_two_items_of_a_block_get_the_same_form_only_where_nothing_else_fits():
    study = Suitability(details(needs=NEEDS), TWINS)
    chosen = study.block(block(CIRCUIT, "step 8", "step 8"), ["no-jumping"], frozenset())
    assert [one.form.key.variant for one in chosen] == ["low", "march"]
    assert [lost(one) for one in chosen] == [[], []]

    chosen = study.block(block(CIRCUIT, "hop 8", "skip 8"), ["no-jumping"], frozenset())
    assert [one.identity for one in chosen] == [FormKey("low-step"), FormKey("low-step")]
    assert [lost(one) for one in chosen] == [["again"], ["again"]]


def test_what_is_filmed_is_not_done_a_second_time_instead_of_something_else():
    study = Suitability(details(needs=NEEDS), TWINS)
    shown = item("step 8", variant="low")
    chosen = study.block(block(CIRCUIT, "step 8", shown), ["no-jumping"], frozenset())
    assert [one.form.key.variant for one in chosen] == ["march", "low"]


def test_a_block_that_trains_none_of_its_muscles_has_lost_its_purpose():
    library = forms(
        exercise(
            "squat", variant("press", muscles=CHEST, demands=()), prime=["glutes"], demands=("standing",)
        ),
        exercise("lunge", variant("row", muscles=BOTH, demands=()), prime=["glutes"], demands=("standing",)),
    )
    study = Suitability(details(needs=NEEDS), library)
    both = episode(1, block(STRAIGHT, "squat 8", "lunge 8"), block(STRAIGHT, "squat 8"))
    assert study.coverage(both, ["seated"]) == Coverage(changes=3, gaps=0, off_purpose=1)
    stretch = episode(2, block(STRAIGHT, "squat 8", kind="mobility"))
    assert study.coverage(stretch, ["seated"]) == Coverage(changes=1, gaps=0)


def test_coverage_of_sessions_worked_by_hand():
    floor_day = episode(1, block(STRAIGHT, "push-up 10"), block(CIRCUIT, "march 30 s", "push-up 8"))
    band_day = episode(2, block(STRAIGHT, "push-up 10"), block(STRAIGHT, "band-press 8"))
    table = {
        (day.number, name): (lambda one: (one.changes, one.gaps, one.fully))(
            SUITABILITY.coverage(day, [name])
        )
        for day in (floor_day, band_day)
        for name in NEEDS
    }

    assert table == {
        (1, "no-floor"): (2, 0, False),
        (1, "no-kneeling"): (0, 0, True),
        (1, "wrists"): (2, 0, False),
        (1, "seated"): (0, 1, False),
        (1, "no-jumping"): (0, 0, True),
        (1, "shoulder"): (0, 0, True),
        (2, "no-floor"): (1, 0, False),
        (2, "no-kneeling"): (0, 0, True),
        (2, "wrists"): (1, 0, False),
        (2, "seated"): (1, 0, False),
        (2, "no-jumping"): (0, 0, True),
        (2, "shoulder"): (0, 0, True),
    }


def test_suggestions_for_a_gap_share_the_pattern_and_fit():
    needs = ["no-floor", "wrists", "seated"]

    names = [form.name for form in SUITABILITY.suggestions(item("push-up 10"), needs)]

    assert names == ["seated-band-press", "chair-press", "sit-press", "tin-push"]


def test_the_nearest_form_of_an_exercise_takes_whatever_kit_there_is():
    assert SUITABILITY.by_itself("push-up", ["no-floor", "wrists", "seated"]).form.name == "seated-band-press"
    assert SUITABILITY.by_itself("march", ["seated"]) is None


def test_an_unknown_need_is_an_error():
    with pytest.raises(KeyError):
        version("no-such-need")


UNTOLD_NEEDS = {
    "jumps": need("jumps", "jumping"),
    "effort": replace(need("effort"), limits=Limits(effort=6)),
    "session": replace(need("session"), limits=Limits(session=600)),
    "rather": replace(need("rather"), rather_without=("grip",)),
    "nothing": replace(need("nothing"), takes_untold=True),
}


@pytest.mark.parametrize(
    ("needs", "given"),
    [
        ([], "swing"),
        (["jumps"], "told"),
        (["effort"], "told"),
        (["session"], "told"),
        (["rather"], "told"),
        (["nothing"], "swing"),
        (["nothing", "jumps"], "told"),
    ],
    ids="-".join,
)
@pytest.mark.parametrize("own", [False, True], ids=["nearest", "the trainer's own choice"])
def test_what_is_not_told_is_for_nobody_with_a_need(needs, given, own):
    library = forms(
        exercise("swing", variant("copy"), variant("told", demands=()), demands=(UNTOLD,), pattern="hinge")
    )
    choice = {one: "copy" for one in needs if own and one != "nothing"}
    shown = block(STRAIGHT, item("swing 8", versions=choice))
    suitable = Suitability(details(needs=UNTOLD_NEEDS), library)

    [found] = suitable.block(shown, needs, frozenset())
    assert (found.form.key.variant or "swing") == given
    assert suitable.unfit_choices(shown, shown.items[0]) == list(choice)


UNSHOWN_NEEDS = {
    "jumps": need("jumps", "jumping"),
    "strain": need("strain", "straining"),
    "calm": replace(need("calm"), limits=Limits(speed=False)),
    "cold": need("cold", "cold water"),
    "effort": replace(need("effort"), limits=Limits(effort=6)),
}


@pytest.mark.parametrize(
    ("needs", "given"),
    [
        (["jumps"], "swing"),
        (["effort"], "swing"),
        (["strain"], "told"),
        (["calm"], "told"),
        (["cold"], "told"),
        (["jumps", "strain"], "told"),
    ],
    ids="-".join,
)
def test_what_poses_cannot_show_is_for_nobody_who_avoids_it(needs, given):
    library = forms(exercise("swing", variant("told", demands=()), demands=(UNSHOWN,), pattern="hinge"))
    words = {"cold water": "A hand or foot is in cold water."}
    suitable = Suitability(replace(details(needs=UNSHOWN_NEEDS), demands=words), library)

    [found] = suitable.block(block(STRAIGHT, item("swing 8")), needs, frozenset())
    assert (found.form.key.variant or "swing") == given


def test_where_nothing_is_told_of_any_form_there_is_a_gap():
    library = forms(exercise("swing", variant("copy"), demands=(UNTOLD,), pattern="hinge"))
    suitable = Suitability(details(needs=UNTOLD_NEEDS), library)

    assert suitable.block(block(STRAIGHT, item("swing 8")), ["jumps"], frozenset()) == (None,)
    assert suitable.reasons(item("swing 8"), ["jumps"]) == (UNTOLD,)


@pytest.mark.parametrize(
    ("main", "other", "spares", "adds"),
    [
        (("standing", "grip"), ("grip",), ("standing",), ()),
        (("grip",), ("grip", "standing"), (), ("standing",)),
        (("standing",), (UNTOLD,), (), (UNTOLD,)),
        ((UNTOLD,), ("standing",), (UNTOLD,), ()),
    ],
    ids=["less", "more", "the other is not told", "the main form is not told"],
)
def test_what_is_not_told_is_not_said_to_spare_anything(main, other, spares, adds):
    assert told_apart(main, other) == spares
    assert told_apart(other, main) == adds
