"""The nearest form against trying every way through random libraries, and what must always hold.

The rule is written down a second time here, by enumerating every walk, without the study's search.
"""

from itertools import groupby, pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.model import Muscles
from sitegen.study.forms import FormKey
from sitegen.study.suitability import Suitability
from sitegen.study.walk import MOST_EXERCISES
from tests.study.series_parts import details, exercise, forms, item, need, variant

DEMANDS = ("jumping", "kneeling", "grip")
KIT = ("chair", "towel")
NAMES = ("a", "b", "c")
NEEDS = {demand: need(demand, demand) for demand in DEMANDS}

some_demands = st.lists(st.sampled_from(DEMANDS), unique=True, max_size=2).map(tuple)
some_kit = st.lists(st.sampled_from(KIT), unique=True, max_size=2).map(tuple)
some_muscles = st.sampled_from([Muscles(prime=("lats",)), Muscles(prime=("chest",))])
patterns = st.sampled_from(["squat", "hinge"])
some_kits = some_kit.map(frozenset)
some_needs = st.lists(st.sampled_from(DEMANDS), unique=True, min_size=1, max_size=2)


@st.composite
def variants(draw, owner, index):
    return variant(
        f"v{index}",
        change=draw(st.sampled_from(["regression", "progression", "substitution"])),
        dose=draw(st.sampled_from([None, "half", "-2", "6"])),
        of=draw(st.none() | st.sampled_from(["v0", "v1", "v2"])),
        exercise=draw(st.none() | st.none() | st.sampled_from([name for name in NAMES if name != owner])),
        demands=draw(st.none() | some_demands),
        kit=draw(st.none() | some_kit),
        pattern=draw(st.none() | patterns),
        muscles=draw(st.none() | some_muscles),
    )


@st.composite
def libraries(draw):
    """Three exercises of three variants each; ``of`` and links may lead anywhere, in circles too,
    but for a link to the variant's own exercise, which is reported while reading."""
    return forms(
        *(
            exercise(
                name,
                *(draw(variants(name, index)) for index in range(3)),
                pattern=draw(patterns),
                prime=draw(some_muscles).prime,
                demands=draw(some_demands),
                kit=draw(some_kit),
            )
            for name in NAMES
        )
    )


filmed_items = st.builds(
    lambda dose, shown, choices: item(f"a {dose}".strip(), variant=shown, versions=choices),
    st.sampled_from(["8", "6", "1", "30 s", "max", ""]),
    st.none() | st.sampled_from(["v0", "v1", "v2"]),
    st.dictionaries(st.sampled_from(DEMANDS), st.sampled_from(["v0", "v1", "v2"]), max_size=2),
)


def turnings(library, key):
    """Forms one step away, in the order written."""
    made_from = [other for other, form in library.items() if form.made_from == key]
    linked = []
    if library[key].link:
        main = FormKey(library[key].exercise)
        linked = [other for other, form in library.items() if form.made_from == main]
    back = [library[key].made_from] if library[key].made_from else []
    return made_from + linked + back


def walks(library, path, turns=()):
    """Every walk without a repetition that goes on into at most so many other exercises."""
    yield path, turns
    for turn, key in enumerate(turnings(library, path[-1])):
        if key not in path and len(files(path)) + (key.exercise != path[-1].exercise) <= MOST_EXERCISES + 1:
            yield from walks(library, (*path, key), (*turns, turn))


def files(path):
    return [list(keys) for _, keys in groupby(path, key=lambda key: key.exercise)]


def dose_at_the_end(library, path, dose):
    """Changes of the link out of every exercise and of the last form; none that the filmed form has too."""
    if dose is None:
        return None
    for number, keys in enumerate(files(path)):
        change = library[keys[-1]].dose
        already = library[path[0]].dose if number == 0 else None
        if change is not None and change != already:
            dose = change.apply(dose)
    return dose


def best_walks(library, start):
    """The first of the shortest walks to each form within reach."""
    best = {}
    for path, turns in walks(library, (start,)):
        length = (len(files(path)), len(path), turns)
        if path[-1] not in best or length < best[path[-1]][0]:
            best[path[-1]] = (length, path)
    return best.values()


def is_harder(library, path):
    """More steps to progressions than to regressions; a step back undoes the one that it goes back on."""
    counts = {"progression": 0, "regression": 0, "substitution": 0, "": 0}
    for here, there in pairwise(path):
        back = library[here].made_from == there
        counts[library[here].change if back else library[there].change] += -1 if back else 1
    return counts["progression"] > counts["regression"]


def brute_force(library, filmed, needs, kit):
    """The path to the nearest form that fits, or None."""
    start = FormKey(filmed.exercise, filmed.variant)
    shown = library[start]
    choices = {FormKey(filmed.exercise, filmed.versions[name]) for name in needs if name in filmed.versions}
    fitting = []
    for length, path in best_walks(library, start):
        form = library[path[-1]]
        if set(form.demands) & set(needs) or not set(form.kit) <= kit | set(shown.kit):
            continue
        changes = len(set(form.kit) ^ set(shown.kit))
        changes += dose_at_the_end(library, path, filmed.dose) != filmed.dose
        differs = (form.pattern != shown.pattern, set(form.muscles.prime) != set(shown.muscles.prime))
        fitting.append((path[-1] not in choices, is_harder(library, path), differs, changes, length, path))
    return min(fitting)[-1] if fitting else None


few = settings(max_examples=40, deadline=None)


def suitability(library):
    return Suitability(details(needs=NEEDS), library)


@settings(max_examples=150, deadline=None)
@given(libraries(), filmed_items, some_needs, some_kits)
def test_agrees_with_trying_every_walk(library, filmed, needs, kit):
    found = suitability(library).version(filmed, needs, kit)

    path = brute_force(library, filmed, needs, kit)
    assert (None if found is None else found.steps) == (None if path is None else path[1:])
    if found is not None:
        assert found.dose == dose_at_the_end(library, path, filmed.dose)


@few
@given(libraries(), filmed_items, some_needs, some_kits)
def test_never_makes_an_avoided_demand_nor_needs_other_kit(library, filmed, needs, kit):
    found = suitability(library).version(filmed, needs, kit)

    if found is not None:
        shown = library[FormKey(filmed.exercise, filmed.variant)]
        assert not set(found.form.demands) & set(needs)
        assert set(found.form.kit) <= kit | set(shown.kit)


@few
@given(libraries(), filmed_items, some_needs, st.sampled_from(DEMANDS), some_kits)
def test_avoiding_more_never_makes_a_gap_disappear(library, filmed, needs, more, kit):
    study = suitability(library)

    if study.version(filmed, needs, kit) is None:
        assert study.version(filmed, [*needs, more], kit) is None


@few
@given(libraries(), filmed_items, some_needs, some_kits, st.data())
def test_order_of_needs_does_not_matter(library, filmed, needs, kit, data):
    study = suitability(library)

    assert study.version(filmed, data.draw(st.permutations(needs)), kit) == study.version(filmed, needs, kit)


@few
@given(libraries(), filmed_items, some_needs)
def test_more_kit_at_hand_never_opens_a_gap(library, filmed, needs):
    study = suitability(library)

    if study.version(filmed, needs, frozenset()) is not None:
        assert study.version(filmed, needs, frozenset(KIT)) is not None


@few
@given(libraries(), filmed_items, some_needs, some_kits)
def test_suggestions_fit_and_share_the_pattern(library, filmed, needs, kit):
    shown = library[FormKey(filmed.exercise, filmed.variant)]

    for form in suitability(library).suggestions(filmed, needs, kit):
        assert form.pattern == shown.pattern
        assert form.exercise not in (shown.exercise, filmed.exercise)
        assert not set(form.demands) & set(needs)
        assert set(form.kit) <= kit | set(shown.kit)
