"""The choice of forms against trying every way through random libraries, and what must always hold.

The rule is written down a second time here, by enumerating every walk and every way to share forms out over
a block, without the study's own search, sorting or matching.
"""

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import groupby, pairwise, product
from typing import NamedTuple

import pytest

from sitegen.model import Item, Kit, Limits, Muscles, Poses
from sitegen.notation import Load, LoadPart, Quantity
from sitegen.study.body.moments import hardest
from sitegen.study.body.movement import movement_of
from sitegen.study.forms import FormKey, FormShelf
from sitegen.study.load import load_mass
from sitegen.study.nearness import LOSSES
from sitegen.study.reachable_forms import MOST_EXERCISES
from sitegen.study.suitability import Suitability, Versions
from sitegen.vocabulary import CIRCUIT, UNSHOWN, UNTOLD
from tests.study.series_parts import block, details, exercise, forms, item, need, variant

DEMANDS = ("jumping", "kneeling", "grip")
KIT = {
    "chair": Kit(id="chair", name="Chair"),
    "bag": Kit(id="bag", name="Bag", holds=Quantity(15, "kg")),
    "tin": Kit(id="tin", name="Tin", weighs=(Quantity(400, "g"), Quantity(800, "g"))),
    "bell": Kit(id="bell", name="Bell", load_untold=True),
}
WEIGHTS = ("bag", "tin")
NAMES = ("a", "b", "c")
NEEDS = {demand: need(demand, demand) for demand in DEMANDS} | {
    "rather": replace(need("rather", "jumping"), rather_without=("grip", "kneeling")),
    "light": replace(need("light"), limits=Limits(load=0.5, effort=6)),
    "bare": replace(need("bare", "kneeling"), limits=Limits(load=0.0)),
    "half": replace(need("half"), limits=Limits(load_share=0.5, hold=10)),
    "plain": need("plain"),
    "strain": need("strain", "kneeling", "straining"),
    "knees": need("knees", "deep knee bend"),
    "back": need("back", "kneeling", "rounding the spine"),
}
POSES = [
    Poses(start={"base": "standing"}, finish={"knees": knees, "lean": lean})
    for knees in (20.0, 55.0, 95.0)
    for lean in (0.0, 35.0, 70.0)
]

MUSCLES = ("lats", "chest", "calves")
DOSES = ("8", "6", "1", "30 s", "max", "")
CHANGES = ("regression", "progression", "substitution")
SERIES, SESSIONS = 200, 6
"""Random libraries, and blocks tried with each."""


class Session(NamedTuple):
    """Up to three items of a block in a library, somebody's needs, and the kit at hand."""

    library: FormShelf
    items: list[Item]
    needs: list[str]
    kit: frozenset[str]


def some(chance, words, most):
    return tuple(chance.sample(words, chance.randint(0, most)))


def random_variant(chance, owner, index):
    links = [None, None, None, *(name for name in NAMES if name != owner)]
    muscles = Muscles(prime=tuple(chance.sample(MUSCLES, chance.randint(1, 3))))
    return variant(
        f"v{index}",
        change=chance.choice(CHANGES),
        dose=chance.choice([None, None, "half", "+2", "6"]),
        of=chance.choice([None, None, "v0", "v1", "v2"]),
        exercise=chance.choice(links),
        demands=chance.choice([None, (), (), some(chance, DEMANDS, 2)]),
        kit=chance.choice([None, None, some(chance, list(KIT), 2)]),
        pattern=chance.choice([None, None, None, "squat", "hinge"]),
        muscles=chance.choice([None, None, None, muscles]),
        poses=chance.choice([None, chance.choice(POSES)]),
    )


def random_demands(chance):
    """Of a main form: not told at all, told as far as poses show, or written down."""
    kind = chance.random()
    if kind < 0.15:
        return (UNTOLD,)
    shown = tuple(chance.sample(DEMANDS, chance.randint(1, 2)))
    return (*shown[1:], UNSHOWN) if kind < 0.4 else shown


def avoided_by_hand(names):
    """What these needs avoid, known or not; of the words of these needs poses cannot show one."""
    words = {UNTOLD, *(demand for name in names for demand in NEEDS[name].avoids)}
    return words | {UNSHOWN} if "straining" in words else words


def random_library(chance):
    """Three exercises of three variants; ``of`` and links may lead anywhere, in circles too, but for a link
    to the variant's own exercise, which is reported while reading. Mostly all of them have poses."""
    posed = chance.random() < 0.7
    return forms(
        *(
            exercise(
                name,
                *(random_variant(chance, name, index) for index in range(3)),
                pattern=chance.choice(["squat", "hinge"]),
                prime=chance.sample(MUSCLES, chance.randint(1, 3)),
                demands=random_demands(chance),
                kit=some(chance, list(KIT), 2),
                poses=chance.choice(POSES) if posed or chance.random() < 0.8 else None,
            )
            for name in NAMES
        )
    )


def random_item(chance, library):
    """An item, often with a load where its form takes one."""
    name, shown = chance.choice(NAMES), chance.choice([None, None, "v0", "v1", "v2"])
    choices = {chance.choice(list(NEEDS)): chance.choice(["v0", "v1", "v2"])} if chance.random() < 0.2 else {}
    filmed = item(f"{name} {chance.choice(DOSES)}".strip(), variant=shown, versions=choices)
    masses = {"bag": Quantity(8, "kg"), "tin": Quantity(400, "g")}
    takers = [piece for piece in library[FormKey(name, shown)].kit if piece in WEIGHTS]
    if not takers or chance.random() < 0.3:
        return filmed
    return replace(filmed, load=Load((LoadPart(masses[takers[0]], None, takers[0]),)))


@cache
def sessions() -> tuple[Session, ...]:
    return tuple(_sessions())


def _sessions() -> Iterator[Session]:
    chance = random.Random(12)
    for _ in range(SERIES):
        library = random_library(chance)
        for _ in range(SESSIONS):
            items = [random_item(chance, library) for _ in range(chance.randint(1, 3))]
            needs = chance.sample(list(NEEDS), chance.randint(1, 2))
            yield Session(library, items, needs, frozenset(some(chance, list(KIT), 2)))


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
    return list(best.values())


def ups_and_downs(library, path):
    """Steps to progressions less steps to regressions; a step back undoes the one that it goes back on."""
    counts = {"progression": 0, "regression": 0, "substitution": 0, "": 0}
    for here, there in pairwise(path):
        back = library[here].made_from == there
        counts[library[here].change if back else library[there].change] += -1 if back else 1
    return counts["progression"] - counts["regression"]


def can_be_kept(filmed, form, limits):
    """Whether the limits leave a load worth holding in this form."""
    if "bell" in form.kit and (limits.load, limits.load_share) != (None, None):
        return False  # nobody knows what it weighs
    most = [] if limits.load is None else [limits.load]
    if limits.load_share is not None and filmed.load is not None:
        most.append(limits.load_share * load_mass(filmed.load).high)
    weighs = bool(set(form.kit) & set(WEIGHTS))
    if limits.load_share is not None and filmed.load is None and weighs:
        return False  # nobody knows what that share comes to
    if not most or not weighs:
        return True
    written = filmed.load.parts[0] if filmed.load and filmed.load.parts[0].piece in form.kit else None
    if written is not None and written.quantity.base <= min(most):
        return True
    if written is not None and written.piece == "tin":
        return min(most) >= 0.4
    return min(most) >= 0.2


def dose_rank(filmed, dose):
    """0 for the same, 1 for less or another kind, 2 for more."""
    if dose == filmed.dose:
        return 0
    if dose.kind != filmed.dose.kind or "max" in (dose.kind, filmed.dose.kind):
        return 1
    return 2 if dose.high > filmed.dose.high else 1


@cache
def knee_and_back(poses):
    """Knee moment and bend, back moment and lean, counted from 30 and 40 N·m in steps of 12 and 20, and of 10
    degrees; nothing where less is asked."""
    asks = hardest(movement_of(POSES_AS_WRITTEN[poses]))
    found = []
    for moment, angle, worth, step in (
        (asks.moments["knees"], asks.knee, 30, 12),
        (asks.moments["back"], asks.trunk, 40, 20),
    ):
        found.append((1 + round((moment - worth) / step), round(angle / 10)) if moment >= worth else (0, 0))
    return found


POSES_AS_WRITTEN = {}
"""Poses by how they read, for they cannot be keys themselves."""


def joint_order(library, keys, avoided):
    """What each form asks of the joints that are spared; the same for all where one says nothing of it."""
    poses = [library[key].poses for key in keys]
    if None in poses:
        return dict.fromkeys(keys, ())
    POSES_AS_WRITTEN.update({repr(one): one for one in poses})
    spared = [n for n, demand in enumerate(("deep knee bend", "rounding the spine")) if demand in avoided]
    return {
        key: tuple(knee_and_back(repr(one))[n] for n in spared) for key, one in zip(keys, poses, strict=True)
    }


def options(library, filmed, needs, kit):
    """All that fits one item, the best first: the path to a form, and whether the trainer chose it."""
    start = FormKey(filmed.exercise, filmed.variant)
    shown = library[start]
    wanted = [NEEDS[name] for name in needs]
    avoided = avoided_by_hand(needs)
    rather = {demand for one in wanted for demand in one.rather_without}
    loads = [one.limits.load for one in wanted if one.limits.load is not None]
    shares = [one.limits.load_share for one in wanted if one.limits.load_share is not None]
    limits = Limits(load=min(loads, default=None), load_share=min(shares, default=None))
    choices = {FormKey(filmed.exercise, filmed.versions[name]) for name in needs if name in filmed.versions}
    fitting, reached = [], best_walks(library, start)
    on_joints = joint_order(library, [path[-1] for _, path in reached], avoided)
    for length, path in reached:
        form = library[path[-1]]
        if set(form.demands) & avoided or not can_be_kept(filmed, form, limits):
            continue
        lost = set(shown.muscles.prime) - set(form.muscles.prime)
        off = 0 if not lost else 1 if lost < set(shown.muscles.prime) else 2
        up = ups_and_downs(library, path)
        was_loaded, is_loaded = (bool(set(one.kit) & set(WEIGHTS)) for one in (shown, form))
        order = (
            path[-1] not in choices,
            up > 0,
            off + (form.pattern != shown.pattern),
            off,
            len(lost),
            was_loaded and not is_loaded,
            is_loaded and not was_loaded,
            len(rather & set(form.demands)),
            path != (start,),  # what is filmed comes first among its equals
            max(0, -up - 1),
            on_joints[path[-1]],
            len(set(form.kit) - set(shown.kit) - kit),
            dose_rank(filmed, dose_at_the_end(library, path, filmed.dose)),
            length,
        )
        fitting.append((order, path))
    fitting.sort()
    any_choice = any(not order[0] for order, _ in fitting)
    any_gentle = any(order[0] and not order[1] for order, _ in fitting)
    return [
        (path, not order[0])
        for order, path in fitting
        if not order[0] or not order[1] or not (any_choice or any_gentle)
    ]


def identity(library, path):
    form = library[path[-1]]
    return FormKey(form.exercise) if form.link else form.key


def brute_force(library, items, needs, kit):
    """The path of each item, None for a gap: fewest repeats, then the earlier items' better choices."""
    lists = [options(library, one, needs, kit) for one in items]
    places = []
    for one in lists:
        settled = one and (len(one[0][0]) == 1 or one[0][1])
        places.append([None] if not one else [0] if settled else range(len(one)))

    def badness(choice):
        seen = [identity(library, lists[n][place][0]) for n, place in enumerate(choice) if place is not None]
        return len(seen) - len(set(seen)), [place or 0 for place in choice]

    best = min(product(*places), key=badness)
    return [None if place is None else lists[n][place][0] for n, place in enumerate(best)]


STUDIES = {}


def suitability(library):
    """One for each library, which is there as long as the sessions are."""
    if id(library) not in STUDIES:
        STUDIES[id(library)] = Suitability(details(needs=NEEDS, kit=KIT), library)
    return STUDIES[id(library)]


@cache
def answers() -> list[tuple[Session, Versions]]:
    return [(session, chosen(session)) for session in sessions()]


def chosen(session):
    return suitability(session.library).block(block(CIRCUIT, *session.items), session.needs, session.kit)


@pytest.mark.parametrize(
    "one_in",
    [
        pytest.param(2, id="one block in two"),
        pytest.param(1, id="every block", marks=pytest.mark.thorough),
    ],
)
def test_agrees_with_trying_every_walk_and_every_way_to_share_out(one_in):
    for session, found in answers()[::one_in]:
        paths = brute_force(*session)
        assert [one and one.steps for one in found] == [path and path[1:] for path in paths]


def test_the_random_sessions_are_of_every_kind():
    """A comparison is worth as much as the cases that it meets."""
    versions = [one for _, found in answers() for one in found]
    losses = {loss.what for one in versions if one for loss in one.lost}
    limited = {change for one in versions if one for change in one.limited}

    assert losses == set(LOSSES)
    assert limited >= {"effort", "shorter", "lighter", "light"}
    assert None in versions
    assert any(one.own_choice for one in versions if one)
    assert any(one.fetch for one in versions if one)
    assert any(decided_on_joints(session, found) for session, found in answers()[:300])


def decided_on_joints(session, versions):
    """Whether somebody who avoids the same without sparing a joint would get another form."""
    if not {"knees", "back"} & set(session.needs):
        return False
    same = {"knees": "plain", "back": "kneeling"}  # no form declares what these two avoid besides
    needs = [same.get(name, name) for name in session.needs]
    study = suitability(session.library)
    others = study.block(block(CIRCUIT, *session.items), needs, session.kit)
    return any(
        a and b and not a.own_choice and a.form.key != b.form.key
        for a, b in zip(versions, others, strict=True)
    )


def test_never_makes_an_avoided_demand_nor_breaks_a_limit():
    for session, versions in answers():
        for filmed, found in zip(session.items, versions, strict=True):
            if found is not None:
                avoided = avoided_by_hand(session.needs)
                assert not set(found.form.demands) & avoided
                for name in session.needs:
                    assert_within(NEEDS[name].limits, filmed, found)


def assert_within(limit, filmed, found):
    held = load_mass(found.load).high if found.load else 0.0
    if limit.load is not None:
        assert held <= limit.load + 1e-9
        assert found.load or not set(found.form.kit) & set(WEIGHTS) or found.most_kg is not None
        assert found.most_kg is None or found.most_kg <= limit.load
    if limit.load_share is not None and filmed.load:
        assert held <= limit.load_share * load_mass(filmed.load).high + 1e-9
    if limit.effort is not None:
        reserve = found.dose.reserve if found.dose else None
        assert reserve or found.effort is not None
        assert not reserve or reserve[0] >= 10 - limit.effort
    if limit.hold is not None and found.dose is not None and found.dose.kind == "time":
        assert found.dose.high <= limit.hold


def test_nothing_is_lost_unsaid():
    for session, versions in answers():
        for filmed, found in zip(session.items, versions, strict=True):
            if found is not None and not found.as_filmed:
                assert_said(session.library[FormKey(filmed.exercise, filmed.variant)], filmed, found)


def assert_said(shown, filmed, found):
    form, said = found.form, {one.what for one in found.lost} | set(found.limited)
    named = {muscle for one in found.lost for muscle in one.names}
    assert named == set(shown.muscles.prime) - set(form.muscles.prime)
    assert ("pattern" in said) == (shown.pattern != form.pattern)
    assert ("load" in said) == (set(shown.kit) & set(WEIGHTS) != set() == set(form.kit) & set(WEIGHTS))
    if found.load and filmed.load and load_mass(found.load).high < load_mass(filmed.load).high:
        assert "lighter" in said
    if found.dose != filmed.dose:
        assert said & {"more", "less", "other dose", "fewer", "shorter", "effort", "counted"}


def test_avoiding_more_never_makes_a_gap_disappear():
    for number, (session, before) in enumerate(answers()[::3]):
        more = list(NEEDS)[number % len(NEEDS)]
        after = chosen(session._replace(needs=[*session.needs, more]))
        assert all(one is not None or other is None for one, other in zip(before, after, strict=True))


def test_order_of_needs_does_not_matter():
    for session, found in answers()[::3]:
        assert chosen(session._replace(needs=session.needs[::-1])) == found


def test_kit_at_hand_opens_and_closes_no_gap():
    for session, found in answers()[::3]:
        with_all = chosen(session._replace(kit=frozenset(KIT)))
        assert [one is None for one in found] == [one is None for one in with_all]


def test_suggestions_fit_and_share_the_pattern():
    for library, items, needs, _ in sessions():
        shown = library[FormKey(items[0].exercise, items[0].variant)]
        avoided = avoided_by_hand(needs)
        for form in suitability(library).suggestions(items[0], needs):
            assert form.pattern == shown.pattern
            assert form.exercise not in (shown.exercise, items[0].exercise)
            assert not set(form.demands) & avoided
