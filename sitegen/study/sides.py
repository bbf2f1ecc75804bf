"""Whether a form is done with one side at a time or with both at once, as far as that is known."""

import re
from dataclasses import fields

from sitegen.model import Exercise
from sitegen.notation import Dose
from sitegen.study.body.figure import Figure
from sitegen.study.body.movement import movement_of
from sitegen.study.forms import Form

_STEPPED = ("locomotion", "step", "carry", "lunge")
"""Patterns in which one foot goes before the other, whatever the drawing shows of it."""
_LED_BY_ONE_LEG = ("step", "lunge")
"""Patterns in which a set is led by one leg, and then by the other."""
_ONE_SIDED = re.compile(
    r"\b(?:one|single)[- ](?:arm|leg|hand|foot|side)(?:ed)?\b(?! on\b)|\b(?:each|per|other|either) side\b"
    r"|\bside plank\b",
    re.I,
)
"""Words of names and summaries by which a trainer says so; one hand on a chair is only held on to."""


def works_both_sides(form: Form) -> bool:
    """Whether its poses move, and left and right alike all the time; False where nothing is drawn.

    What is only held still may be drawn alike and done side by side all the same, and so may walking.
    """
    movement = movement_of(form.poses)
    if movement is None or len(movement.figures) < 2 or form.pattern in _STEPPED:
        return False
    return all(_is_even(figure) for figure in movement.figures)


def works_one_side(form: Form, exercise: Exercise) -> bool:
    """Whether a form is known to be done with one side after the other: by its own change of dose, by a form
    of its exercise that does both sides at once, by its pattern, poses, demands or words."""
    changes = {variant.dose.kind for variant in exercise.variants if variant.dose is not None}
    if form.dose is not None and form.dose.kind in ("both", "each"):
        return form.dose.kind == "each"
    if "both" in changes or form.pattern in _LED_BY_ONE_LEG or "balance on one leg" in form.demands:
        return True
    movement = movement_of(form.poses)
    if movement is not None:
        return not all(_is_even(figure) for figure in movement.figures)
    said = (form.name, *((exercise.summary, *exercise.also) if form.key.variant is None else ()))
    return any(_ONE_SIDED.search(words) for words in said)


def each_of_what(dose: Dose | None, form: Form, exercise: Exercise) -> tuple[str, str] | None:
    """What to ask about a dose with a bare ``each``, and what to write: each side, or each exercise?

    None where the form is known to be done one side at a time, and where there is no such word.
    """
    if dose is None or not dose.bare_each or works_one_side(form, exercise):
        return None
    sides = str(dose)
    once = sides.replace(" each side", "")
    return (
        f"'dose': each of what? Nothing says that {form.name!r} is done one side at a time",
        f"write {once} for {once} in a set, or {sides} for as many with the left and with the right",
    )


def _is_even(figure: Figure) -> bool:
    """Whether every joint has one angle on the left and on the right, with no turn or tilt to a side."""
    pose = figure.pose
    pairs = (getattr(pose, field.name) for field in fields(pose))
    even = all(one[0] == one[1] for one in pairs if isinstance(one, tuple) and len(one) == 2)
    one_handed = any(where in ("left hand", "right hand") for where in pose.holds.values())
    return even and not one_handed and pose.turn == 0 and pose.side == 0
