"""The nearest form that fits a need, in hand-worked tables."""

import pytest

from sitegen.model import Muscles
from sitegen.notation import Dose
from sitegen.study.forms import FormKey
from sitegen.study.suitability import Coverage, Suitability
from sitegen.vocabulary import CIRCUIT, STRAIGHT
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


def version(*needs, kit=(), done="push-up 10", **more):
    return SUITABILITY.version(item(done, **more), needs, frozenset(kit))


# needs, kit at hand, steps walked (None for a gap), dose
NEAREST = {
    "no need": ([], [], [], "10"),
    "the main form does": (["no-kneeling"], [], [], "10"),
    "an easier form of the same muscles": (["no-floor"], [], ["counter-push-up"], "20"),
    "other kit does not come before the same kit": (["no-floor"], ["towel"], ["counter-push-up"], "20"),
    "two steps": (["no-floor", "wrists"], [], ["counter-push-up", "wall-push-up"], "20"),
    "the same muscles before fewer steps": (["wrists"], ["towel"], ["counter-push-up", "wall-push-up"], "20"),
    "gap without kit": (["no-floor", "seated"], [], None, None),
    "other muscles come last, but before a gap": (
        ["no-floor", "wrists", "seated"],
        ["towel"],
        ["towel-squeeze"],
        "10",
    ),
    # 10 + 2 on the way into the band press, then half of it
    "through a link into another exercise's variants": (
        ["no-floor", "wrists", "seated"],
        ["band"],
        ["to-band-press", "seated-band-press"],
        "6",
    ),
    "the same muscles with more changes come before other muscles": (
        ["no-floor", "wrists", "seated"],
        ["band", "towel"],
        ["to-band-press", "seated-band-press"],
        "6",
    ),
}


@pytest.mark.parametrize(("needs", "kit", "steps", "dose"), NEAREST.values(), ids=NEAREST)
def test_nearest_form_worked_by_hand(needs, kit, steps, dose):
    found = version(*needs, kit=kit)

    if steps is None:
        assert found is None
    else:
        assert [key.variant for key in found.steps] == steps
        assert found.dose == Dose.parse(dose)


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
    ("needs", "kit", "steps"),
    [
        (["grip"], ["bag"], ["lap-row"]),
        (["grip"], [], ["one-arm-row"]),
        (["seated", "no-kneeling"], ["bag"], ["lap-row", "seated-row"]),
    ],
    ids=[
        "an easier form before a harder one",
        "a harder form before a gap",
        "down and up again is not harder",
    ],
)
def test_a_harder_form_is_never_chosen_while_another_fits(needs, kit, steps):
    study = Suitability(details(needs=NEEDS | {"grip": need("grip", "grip")}), LADDER)
    found = study.version(item("row 10"), needs, frozenset(kit))
    assert [key.variant for key in found.steps] == steps
    assert found.harder == (steps == ["one-arm-row"])


def test_a_version_says_what_it_changes():
    found = version("no-floor", "wrists", "seated", kit=["towel"])

    assert found.spared == ("getting to the floor", "weight on the wrists")
    assert (found.kit_added, found.kit_left) == (("towel",), ())
    assert not found.dose_changed
    assert not found.as_filmed
    assert found.steps == (FormKey("push-up", "towel-squeeze"),)


def test_steps_name_every_form_on_the_way():
    found = version("no-floor", "wrists")

    assert found.steps == (FormKey("push-up", "counter-push-up"), FormKey("push-up", "wall-push-up"))
    assert found.dose_changed


def test_steps_through_a_link_go_on_into_the_other_exercise():
    found = version("no-floor", "wrists", "seated", kit=["band"])

    assert found.steps == (FormKey("push-up", "to-band-press"), FormKey("band-press", "seated-band-press"))
    assert (found.kit_added, found.form.exercise) == (("band",), "band-press")


def test_reasons_are_the_avoided_demands_that_the_filmed_form_makes():
    filmed = item("push-up 10")

    assert SUITABILITY.reasons(filmed, ["seated", "no-floor"]) == ("getting to the floor",)
    assert SUITABILITY.reasons(filmed, ["no-jumping"]) == ()


def test_kit_of_the_filmed_form_is_always_at_hand():
    assert version("no-jumping", done="band-press 8").as_filmed
    assert version("seated", done="band-press 8").form.key.variant == "seated-band-press"


def test_from_a_filmed_variant_the_way_back_is_open():
    found = version("no-floor", "wrists", variant="counter-push-up", kit=["towel"])
    assert [key.variant for key in found.steps] == ["wall-push-up"]

    found = version("no-kneeling", variant="knee-push-up")

    # Back to the main form and down again: the main form itself would be harder than what is filmed.
    assert found.steps == (FormKey("push-up"), FormKey("push-up", "counter-push-up"))
    assert not found.harder


def test_the_dose_of_a_filmed_variant_is_not_changed_twice():
    found = version("wrists", variant="counter-push-up")

    assert found.form.key.variant == "wall-push-up"
    assert found.dose == Dose.parse("10")
    assert not found.dose_changed


def test_a_filmed_link_walks_on_in_the_linked_exercise():
    found = version("seated", "no-floor", "wrists", variant="to-band-press")

    assert found.steps == (FormKey("band-press", "seated-band-press"),)
    assert found.dose == Dose.parse("5")


def test_where_the_format_sets_the_dose_there_is_none_to_change():
    found = version("no-floor", done="push-up")

    assert (found.form.key.variant, found.dose, found.dose_changed) == ("counter-push-up", None, False)


CHEST = Muscles(prime=("chest",))
# each: variants of a kneeling squat with a towel (prime: glutes) in the order written, the one chosen
RULE = {
    "the same pattern before the same muscles": (
        [
            variant("other-pattern", pattern="hinge", demands=()),
            variant("other-muscles", muscles=CHEST, demands=()),
        ],
        "other-muscles",
    ),
    "the same pattern before fewer changes": (
        [
            variant("other-pattern", pattern="hinge", demands=()),
            variant("more-changes", kit=(), dose="half", demands=()),
        ],
        "more-changes",
    ),
    "the same muscles before fewer changes": (
        [
            variant("other-muscles", muscles=CHEST, demands=()),
            variant("more-changes", kit=("chair",), dose="half", demands=()),
        ],
        "more-changes",
    ),
    "only prime muscles count": (
        [
            variant("new-dose", dose="half", demands=()),
            variant("new-assist", muscles=Muscles(prime=("glutes",), assist=("calves",)), demands=()),
        ],
        "new-assist",
    ),
    "a changed dose is a change": (
        [variant("new-dose", dose="half", demands=()), variant("same-dose", demands=())],
        "same-dose",
    ),
    "a dose that comes out the same is none": (
        [variant("same-dose", dose="8", demands=()), variant("second", demands=())],
        "same-dose",
    ),
    "kit put away is a change": (
        [variant("no-kit", kit=(), demands=()), variant("same-kit", demands=())],
        "same-kit",
    ),
    "kit added is a change": (
        [variant("more-kit", kit=("towel", "chair"), demands=()), variant("same-kit", demands=())],
        "same-kit",
    ),
    "kit exchanged is two changes": (
        [
            variant("other-kit", kit=("chair",), demands=()),
            variant("no-kit", kit=(), demands=()),
        ],
        "no-kit",
    ),
    "changes of kit and dose count alike": (
        [
            variant("both", kit=(), dose="half", demands=()),
            variant("more-kit", kit=("towel", "chair"), demands=()),
        ],
        "more-kit",
    ),
    "fewer changes before fewer steps": (
        [
            variant("near", kit=(), demands=()),
            variant("half-way"),
            variant("far", of="half-way", demands=()),
        ],
        "far",
    ),
    "fewer steps before what is written first": (
        [variant("far", of="near", demands=()), variant("near"), variant("close", demands=())],
        "close",
    ),
    "then what is written first": ([variant("b", demands=()), variant("a", demands=())], "b"),
}


@pytest.mark.parametrize(("variants", "chosen"), RULE.values(), ids=RULE)
def test_what_comes_before_what(variants, chosen):
    library = forms(
        exercise("squat", *variants, pattern="squat", prime=["glutes"], kit=("towel",), demands=("kneeling",))
    )
    study = Suitability(details(needs=NEEDS), library)

    found = study.version(item("squat 8"), ["no-kneeling"], frozenset({"chair"}))

    assert found.form.key.variant == chosen


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
    found = Suitability(details(needs=NEEDS), library).version(item("a 8"), ["no-kneeling"], frozenset())

    assert (found and [key.variant for key in found.steps]) == steps


def test_the_trainers_own_choice_comes_first_where_it_fits():
    found = version("no-floor", versions={"no-floor": "wall-push-up"})

    assert (found.form.key.variant, found.own_choice) == ("wall-push-up", True)


def test_the_trainers_own_choice_stands_even_where_the_filmed_form_would_do():
    found = version("seated", kit=["towel"], versions={"seated": "towel-squeeze"})

    assert (found.form.key.variant, found.own_choice) == ("towel-squeeze", True)


@pytest.mark.parametrize(
    ("choice", "kit"),
    [("knee-push-up", []), ("towel-squeeze", [])],
    ids=["it makes the demand", "its kit is not at hand"],
)
def test_an_own_choice_that_does_not_fit_gives_way_and_is_reported(choice, kit):
    filmed = item("push-up 10", versions={"no-floor": choice, "seated": "knee-push-up"})

    found = SUITABILITY.version(filmed, ["no-floor"], frozenset(kit))

    assert (found.form.key.variant, found.own_choice) == ("counter-push-up", False)
    assert SUITABILITY.unfit_choices(filmed, frozenset(kit)) == ["no-floor"]


def test_of_two_own_choices_the_nearer_that_fits_both_needs_is_taken():
    versions = {"no-floor": "counter-push-up", "wrists": "wall-push-up"}

    for needs in (["no-floor", "wrists"], ["wrists", "no-floor"]):
        assert version(*needs, versions=versions).form.key.variant == "wall-push-up"
    assert version("no-floor", versions=versions).form.key.variant == "counter-push-up"


def test_coverage_of_sessions_worked_by_hand():
    # the band of the second block is at hand for the first
    floor_day = episode(1, block(STRAIGHT, "push-up 10"), block(CIRCUIT, "march 30 s", "push-up 8"))
    band_day = episode(2, block(STRAIGHT, "push-up 10"), block(STRAIGHT, "band-press 8"))
    table = {
        (day.number, name): SUITABILITY.coverage(day, [name])
        for day in (floor_day, band_day)
        for name in NEEDS
    }

    assert table == {
        (1, "no-floor"): Coverage(changes=2, gaps=0),
        (1, "no-kneeling"): Coverage(changes=0, gaps=0),
        (1, "wrists"): Coverage(changes=2, gaps=0),
        (1, "seated"): Coverage(changes=0, gaps=1),
        (1, "no-jumping"): Coverage(changes=0, gaps=0),
        (1, "shoulder"): Coverage(changes=0, gaps=0),
        (2, "no-floor"): Coverage(changes=1, gaps=0),
        (2, "no-kneeling"): Coverage(changes=0, gaps=0),
        (2, "wrists"): Coverage(changes=1, gaps=0),
        (2, "seated"): Coverage(changes=1, gaps=0),
        (2, "no-jumping"): Coverage(changes=0, gaps=0),
        (2, "shoulder"): Coverage(changes=0, gaps=0),
    }
    assert table[1, "no-jumping"].fully
    assert not table[1, "seated"].fully
    assert not table[1, "wrists"].fully


def test_a_combination_of_needs_avoids_all_their_demands():
    day = episode(2, block(STRAIGHT, "push-up 10"), block(STRAIGHT, "band-press 8"))

    blocks = SUITABILITY.session(day, ["no-floor", "wrists", "seated"])

    assert [[one.form.key.variant for one in versions] for versions in blocks] == [
        ["seated-band-press"],
        ["seated-band-press"],
    ]
    assert SUITABILITY.coverage(day, ["no-floor", "wrists", "seated"]) == Coverage(changes=2, gaps=0)


def test_suggestions_for_a_gap_share_the_pattern_and_fit():
    needs = ["no-floor", "wrists", "seated"]

    def names(*kit):
        return [form.name for form in SUITABILITY.suggestions(item("push-up 10"), needs, frozenset(kit))]

    assert names() == ["sit-press", "tin-push"]
    assert names("chair") == ["chair-press", "sit-press", "tin-push"]
    assert names("carrier") == ["sit-press", "tin-push"]
    assert names("band", "chair") == ["seated-band-press", "chair-press", "sit-press", "tin-push"]


def test_suggestions_may_use_what_the_filmed_form_needs():
    library = forms(
        exercise("row", kit=("towel",), demands=("kneeling",)), exercise("pull", kit=("towel",), demands=())
    )
    study = Suitability(details(needs=NEEDS), library)

    assert [form.name for form in study.suggestions(item("row 8"), ["no-kneeling"], frozenset())] == ["pull"]


def test_an_unknown_need_is_an_error():
    with pytest.raises(KeyError):
        version("no-such-need")
