"""What the poses of a form contradict: the body, its declared demands, its place on the ladder."""

from collections.abc import Iterator
from dataclasses import replace

from sitegen.checks.material import Material
from sitegen.model import Exercise, Variant
from sitegen.problems import Location, Problem, found
from sitegen.study.body.compare import ARMS, FLOORS, compared
from sitegen.study.body.derived import RULES, derived_demands, possible_demands
from sitegen.study.body.figure import PoseTrouble
from sitegen.study.body.moments import JOINTS, PoseBurden, hardest
from sitegen.study.body.movement import Movement, movement_of
from sitegen.study.body.soundness import troubles
from sitegen.study.forms import Form, FormKey
from sitegen.vocabulary import DEMANDS, UNSHOWN

_SIDES = ("left ", "right ")
_HARDER = 1.5
"""How much more a regression must ask of a joint before it is told: an easier form may well move work from
one joint to another. Where the parent's back rests (lying), its moment is 0 and nothing is compared."""
_FLOORS_APART = 3
"""So many of the smallest differences that the figure can tell (``compare.FLOORS``) a regression must ask
more by, so that a light movement is no finding for being a little less light (our choice)."""
_CLEARLY_LESS = 0.8
"""A progression is told that asks for less than four fifths in every joint: smaller differences may come from
the one standard body that all forms are worked out with (our choice)."""


def _written(material: Material) -> Iterator[tuple[Form, Exercise | Variant, Movement]]:
    """Every form with its movement and the record in which it is written."""
    for exercise in material.series.exercises.values():
        for form, owner in material.own_forms(exercise):
            movement = movement_of(form.poses)
            if movement is not None:
                yield form, owner, movement


def check_sound(material: Material) -> Iterator[Problem]:
    """A hand that cannot reach, a limb through the floor, a figure that would fall over."""
    for form, owner, movement in _written(material):
        if owner.poses is None:
            continue  # told where the poses are written
        last = len(movement.figures) - 1
        for index, figure in enumerate(movement.figures):
            for trouble in _both_sides_once(troubles(figure)):
                yield _unsound(form, owner, trouble, 0 if last == 0 else index, last)


def _both_sides_once(found: list[PoseTrouble]) -> list[PoseTrouble]:
    """What is wrong on the left and on the right is told once, the worse of the two, without a side."""
    told: dict[tuple[str, str, str], PoseTrouble] = {}
    for trouble in found:
        # A contact that fails on both sides is one mistake of the pose.
        key = (trouble.kind, trouble.key, trouble.what)
        if key in told:
            trouble = replace(trouble, side=None, amount=max(trouble.amount, told[key].amount))
        told[key] = trouble
    return list(told.values())


def _unsound(form: Form, owner: Exercise | Variant, trouble: PoseTrouble, index: int, last: int) -> Problem:
    location = _location(owner, index, last, trouble.key)
    side = _SIDES[trouble.side] if trouble.side is not None else ""
    far = f"{trouble.amount:.0f} cm"
    which = "the pose" if last == 0 else "the start" if index == 0 else "the finish"
    if trouble.kind == "reach":
        limb = "foot" if trouble.key == "step" else trouble.key.removesuffix("s")
        message = f"in {which} of {form.name!r} the {side}{limb} misses the {trouble.what} by {far}"
        advice = "change distance:, step:, lean: or knees:, or let it touch something nearer"
        return found("problem", "out-of-reach", location, message, advice)
    if trouble.kind == "ground":
        message = f"in {which} of {form.name!r} the {side}{trouble.what} is {far} below the floor"
        return found(
            "problem", "below-floor", location, message, f"change {trouble.key}: so that it stays above"
        )
    message = (
        f"in {which} of {form.name!r} the figure would fall {trouble.what}: "
        f"its weight is {far} outside its support"
    )
    advice = "change shift:, weight: or step:, or let a hand hold on to something"
    return found("warning", "would-fall", location, message, advice)


def _location(owner: Exercise | Variant, index: int, last: int, key: str) -> Location:
    location = owner.location.at("poses")
    if owner.poses is not None and owner.poses.held:
        return location.at("hold", key)
    if index == 0:
        return location.at("start", key)
    return location.at("finish", key) if index == last else location.at("through", index - 1, key)


def check_demands(material: Material) -> Iterator[Problem]:
    """Declared demands that the poses do not make, and demands of the poses that are not declared."""
    for form, owner, movement in _written(material):
        if owner.poses is None and not (isinstance(owner, Variant) and owner.demands is not None):
            continue
        derived = set(possible_demands(movement) if UNSHOWN in form.demands else derived_demands(movement))
        for word in sorted(derived - set(form.demands) - form.demands_kept.keys()):
            message = f"the poses of {form.name!r} ask for {word}, which it does not declare"
            advice = (
                f"add {word} to its demands ({DEMANDS[word]}), correct its poses, "
                f"or write demands_kept: {{{word}: why}}"
            )
            yield found("warning", "undeclared-demand", owner.location.at("demands"), message, advice)
        for word in sorted(
            ((set(form.demands) - set(owner.said)) & RULES.keys()) - derived - form.demands_kept.keys()
        ):
            message = f"{form.name!r} declares {word}, but its poses do not ask for it"
            advice = f"remove it, correct its poses, or write demands_kept: {{{word}: why}}"
            yield found("warning", "needless-demand", owner.location.at("demands"), message, advice)
        for word in owner.demands_kept:
            if (word in derived) == (word in form.demands):
                message = f"{word} is kept in {form.name!r} although demands and poses agree about it"
                advice = "remove it from demands_kept: the reason speaks of what was there before"
                yield found(
                    "warning", "needless-reason", owner.location.at("demands_kept", word), message, advice
                )


def check_ladder(material: Material) -> Iterator[Problem]:
    """A regression that asks clearly more of a joint than its parent; a progression that asks less of all."""
    forms = material.forms
    # Variants that may ask something else than what they are made from, other exercises too.
    variants = [
        (e, v) for e in material.series.exercises.values() for v in e.variants if v.poses or v.exercise
    ]
    for exercise, owner in variants:
        form = forms[FormKey(exercise.id, owner.id)]
        movement = movement_of(form.poses)
        parent = movement_of(forms[form.made_from].poses) if form.made_from is not None else None
        # What moves or stretches is not ranked by the load on joints.
        if parent is None or movement is None or form.pattern == "mobility":
            continue
        mine, theirs = hardest(movement), hardest(parent)
        if form.change == "regression":
            yield from _asks_more(form, owner, mine, theirs)
        elif form.change == "progression" and _less_everywhere(mine, theirs):
            message = f"the progression {form.name!r} asks less of every joint than the form it is made from"
            advice = "call it a regression or a substitution, or correct its poses (a static estimate)"
            yield found("warning", "easier-progression", owner.location.at("change"), message, advice)


def _asks_more(form: Form, owner: Variant, mine: PoseBurden, theirs: PoseBurden) -> Iterator[Problem]:
    levels = compared(mine, theirs)
    if levels.get(ARMS) == "much more":
        message = (
            f"the regression {form.name!r} puts more weight on the arms than the form it is made from: about "
            f"{mine.hands:.0%} of the body's against {theirs.hands:.0%} (a static estimate)"
        )
        advice = "call it a substitution, or correct its poses"
        yield found("warning", "harder-regression", owner.location.at("change"), message, advice)
    for joint in JOINTS:
        if joint not in levels:
            continue
        a, b = mine.moments[joint], theirs.moments[joint]
        if a > _HARDER * b and b > 0 and a - b > _FLOORS_APART * FLOORS[joint]:
            message = (
                f"the regression {form.name!r} asks more of the {joint} than the form it is made from: "
                f"about {a:.0f} against {b:.0f} N·m (a static estimate)"
            )
            advice = "call it a substitution, or correct its poses"
            yield found("warning", "harder-regression", owner.location.at("change"), message, advice)


def _less_everywhere(mine: PoseBurden, theirs: PoseBurden) -> bool:
    less = all(mine.moments[joint] < _CLEARLY_LESS * theirs.moments[joint] for joint in JOINTS)
    clearly = any(theirs.moments[joint] - mine.moments[joint] > FLOORS[joint] for joint in JOINTS)
    return less and clearly and mine.knee <= theirs.knee and mine.hands <= theirs.hands
