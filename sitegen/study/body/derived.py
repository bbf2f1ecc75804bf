"""Which demands follow from the poses of a form: the words of ``vocabulary.DEMANDS`` that geometry decides.

Each rule is the sentence of that word put into angles and contacts. Where a threshold is published the
rule names its source; the others are common practice, no source, as the vocabulary says. What geometry
cannot decide (straining, speed) is never derived and never called wrong. A form whose demands
are taken from its poses alone leaves that open (``vocabulary.UNSHOWN``).
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from sitegen.model import Exercise, Variant
from sitegen.study.body.figure import Arm, Figure
from sitegen.study.body.forces import contacts, weight_of
from sitegen.study.body.movement import Movement, movement_of
from sitegen.study.body.things import THINGS
from sitegen.study.body.vectors import angle, between, scale, sub
from sitegen.study.forms import Form, FormKey
from sitegen.vocabulary import DEMANDS, UNSHOWN, UNTOLD

Rule = Callable[[Movement], bool]

OVERHEAD = 100.0
"""Upper arm away from the trunk: work above shoulder height is elevation of more than 90 degrees (Fewster and
Dickerson, position paper, Centre of Research Expertise for the Prevention of Musculoskeletal Disorders)."""
LIFTED = 45.0
"""Degrees of the upper arm away from the trunk from which on a load in that hand is the shoulder's: half way
to level, our choice."""
LEVEL = 80.0
"""Degrees of the upper arm away from the trunk from which on it comes to shoulder height, or so near
that a swing or a pull to the end of its range may be meant (our choice)."""
HANGS = 20.0
"""An arm within so many degrees of straight down hangs."""
DEEP = 85.0
"""Knee flexion of a half squat is about 80 to 100 degrees in squat reviews (Hartmann and others)."""
ROUNDED = 20.0
BENT = 30.0
TURNED = 20.0
"""Degrees of the words for rounding, bending and twisting in ``vocabulary.DEMANDS`` (common practice, no
source; 20 is also where acceptable bending of the trunk ends in ISO 11226:2000, as restated elsewhere)."""
LEANING = 0.1
"""Share of the body's weight on hands or forearms from which on it is leant on them: hands that only steady,
on a chair or a wall, bear less (our choice)."""
ASIDE = 0.5
"""An arm that goes aside by so much of what it goes up and ahead is lifted to the side, 27 degrees and more;
one that is only drawn back beside the trunk is not (our choice)."""
HELD_BACK = -40.0
"""Degrees behind the trunk at which a shoulder is held near the end of its range, which is about 60 (American
Academy of Orthopaedic Surgeons, from memory): two thirds of it (our choice)."""
STRIDE = 36.0
"""Centimetres from foot to foot along the way from which on a stance is a long stride: well over the
length of a foot (26.6), our choice."""
ONE_SIDED = 0.8
"""Share of the weight on one foot from which on the other only steadies: four parts of five (our choice)."""
STEPPING_HIPS, STEPPING_KNEE = (30, 70), 90
"""Degrees by which hip and knee of a walking step bend: it lifts the foot low and soon sets it down. A foot
that is lifted otherwise is a balance (our choice)."""
KNEE_HIGH = 50.0
"""Height of the knee of the standard body, in centimetres: 0.285 of stature."""

LOW_SEAT = 46.0
"""Height in centimetres below which getting up bends the knees deeply: between the ordinary chair (43) and
the wheelchair, the bed and the raised chair (49 to 51). Our choice."""
LOADED_KG = 0.42
"""From here on a held thing is a load: a broom (0.4) is none, a full tin of 400 g (0.45) is one."""
STEP_BEFORE_STEP = 100.0
"""Square centimetres: the product of how far one foot is ahead before and behind after, so about 10 cm
each."""

_FLOOR = (
    *("half kneeling", "kneeling", "all fours", "knee plank", "side plank", "side lying"),
    *("lying", "lying face down", "bridge"),
)
_NEAR_FLOOR = {"floor", "step"}
"""Where the hands are as good as on the floor: the first stair is 18 cm high."""
_LYING = ("lying", "lying face down", "side lying", "bridge")
_HELD_BY_HAND = ("each hand", "right hand", "left hand", "both hands", "round the foot", "round the back")


def with_derived_demands(exercise: Exercise, forms: Mapping[FormKey, Form]) -> Exercise:
    """An exercise without declared demands, with those that follow from its poses; without poses untold.

    Variants that declare their own, and what is made from these, stay as they are.
    """

    def derives(variant: Variant) -> bool:
        return all(v.demands is None and v.exercise is None for v in exercise.ancestry(variant.id))

    def demands(form: Form) -> tuple[str, ...]:
        movement = movement_of(form.poses)
        return (*possible_demands(movement), UNSHOWN) if movement is not None else (UNTOLD,)

    return replace(
        exercise,
        demands=demands(forms[FormKey(exercise.id)]),
        variants=tuple(
            replace(v, demands=demands(forms[FormKey(exercise.id, v.id)])) if derives(v) else v
            for v in exercise.variants
        ),
    )


def derived_demands(movement: Movement) -> tuple[str, ...]:
    """The demands that follow from a movement, in the order of the vocabulary."""
    return tuple(word for word in DEMANDS if word in RULES and RULES[word](movement))


def possible_demands(movement: Movement) -> tuple[str, ...]:
    """The demands that follow from a movement or hang on its speed or its pull, which poses leave open."""
    follow = derived_demands(movement)
    return tuple(
        word for word in DEMANDS if word in follow or (word in LEFT_OPEN and LEFT_OPEN[word](movement))
    )


def _away(figure: Figure, arm: Arm) -> float:
    """Angle between an upper arm and the side of the trunk, in degrees."""
    return angle(sub(arm.elbow, arm.shoulder), scale(figure.chest_frame.up, -1.0))


def _shoulder_load(movement: Movement) -> bool:
    if movement.start.pose.base in ("side plank", "side lying"):
        return True
    if len(movement.figures) == 1 and min(movement.start.pose.shoulders) < HELD_BACK:
        return True  # held at the end of its range
    return any(_on_arms(f) >= LEANING or _lifts_load(f) for f in movement.figures)


def _lifts_load(figure: Figure) -> bool:
    """A weight in a hand whose arm is lifted; hanging arms, and elbows drawn back, do not count."""
    for side in _sides_with_load(figure):
        arm = figure.arms[side]
        upper = sub(arm.elbow, arm.shoulder)
        hangs = angle(upper, (0.0, -1.0, 0.0)) < HANGS
        drawn = upper[0] * figure.chest_frame.front[0] + upper[1] * figure.chest_frame.front[1] < 0
        aside = abs(upper[2]) > ASIDE * math.hypot(upper[0], upper[1])
        if _away(figure, arm) > LIFTED and not hangs and (not drawn or aside):
            return True
    return False


def _sides_with_load(figure: Figure) -> set[int]:
    sides: set[int] = set()
    for thing, where in figure.pose.holds.items():
        if THINGS[thing].mass < LOADED_KG:
            continue
        sides |= {
            "each hand": {0, 1},
            "both hands": {0, 1},
            "palms": {0, 1},
            "forearms": {0, 1},
            "right hand": {1},
            "left hand": {0},
        }.get(where, set())
    return sides


def _on_arms(figure: Figure) -> float:
    """Share of the body's weight on the hands; what a towel or a wall takes is a pull or a push."""
    if figure.pose.base == "hanging back":
        return 0.0
    forces = [c for c in contacts(figure) if c.part == "hand"]
    return sum(math.hypot(c.force[0], c.force[1]) for c in forces) / weight_of(figure)


def _on_floor(figure: Figure) -> bool:
    pose = figure.pose
    on_bed = pose.seat == "bed" and pose.base in ("lying", "bridge")
    return (pose.base in _FLOOR and not on_bed) or bool(set(pose.hands) & _NEAR_FLOOR)


def _deep(movement: Movement) -> bool:
    up, climbs = any(figure.pose.base == "standing" for figure in movement.figures), _steps(movement)
    for figure in movement.figures:
        base = figure.pose.base
        if base == "seated" and up and figure.pose.height_of(figure.pose.seat) < LOW_SEAT:
            return True
        if base in ("standing", "back to the wall") and any(
            leg.carries and not leg.on_knee and leg.bend >= DEEP and not (climbs and foot == "step")
            for leg, foot in zip(figure.legs, figure.pose.feet, strict=True)
        ):
            return True
    return False


def _one_leg(movement: Movement) -> bool:
    held = all(any(arm.on for arm in figure.arms) for figure in movement.figures)
    if not held and (_walks_with_load(movement) or _climbs(movement)):
        return True
    return any(_balances(figure) for figure in movement.figures)


def _climbs(movement: Movement) -> bool:
    """From one foot on a step to both, or down from it: one leg does it."""
    return _steps(movement) and any(
        "floor" in figure.pose.feet and ({"step", "second step"} & set(figure.pose.feet))
        for figure in movement.figures
    )


def _balances(figure: Figure) -> bool:
    pose = figure.pose
    if pose.base not in ("standing", "back to the wall"):
        return False
    held = any(arm.on for arm in figure.arms)
    lifted = [side for side in (0, 1) if pose.feet[side] == "lifted"]
    if len(lifted) == 1:
        leg = figure.legs[lifted[0]]
        hip = pose.hips[lifted[0]]
        return not STEPPING_HIPS[0] < hip < STEPPING_HIPS[1] or leg.bend > STEPPING_KNEE
    if pose.lift:
        return False
    apart = abs(figure.legs[0].ankle[0] - figure.legs[1].ankle[0])
    feet = [c for c in contacts(figure) if c.part == "foot"]
    pushes = [sum(c.force[1] for c in feet if c.side == side) for side in (0, 1)]
    share = max(pushes) / (sum(pushes) or 1.0)
    return not held and (apart >= STRIDE or (share >= ONE_SIDED and pose.feet.count("step") != 2))


def _walks_with_load(movement: Movement) -> bool:
    """Walking: the feet change places."""
    a, b = movement.start, movement.finish
    before = a.legs[1].ankle[0] - a.legs[0].ankle[0]
    after = b.legs[1].ankle[0] - b.legs[0].ankle[0]
    loaded = any(THINGS[thing].mass >= LOADED_KG for thing in a.pose.holds)
    return (
        before * after < -STEP_BEFORE_STEP
        and loaded
        and a.pose.base == "standing"
        and a.pose.feet == b.pose.feet
    )


def _is_bent(figure: Figure) -> bool:
    pose = figure.pose
    if pose.base == "plank":  # a straight body that leans on the arms does not count
        return min(pose.hips) > BENT
    return pose.base == "standing" and pose.lean > BENT


def _grips(figure: Figure) -> bool:
    return any(
        (thing != "broom" and where in _HELD_BY_HAND) or ("carrier" in thing and where == "chest")
        for thing, where in figure.pose.holds.items()
    )


def _on_wrists(movement: Movement) -> bool:
    held = len(movement.figures) == 1
    return any(_on_wrists_in(figure, held=held) for figure in movement.figures)


def _on_wrists_in(figure: Figure, *, held: bool) -> bool:
    pose, lying = figure.pose, figure.pose.base == "lying"
    if pose.hands == ("together", "together") and (held or lying):
        return True
    if lying and any(thing.endswith("backpack") and where == "palms" for thing, where in pose.holds.items()):
        return True
    sides = {c.side for c in contacts(figure) if c.part == "hand" and c.side is not None}
    arms = [figure.arms[side] for side in sides if not figure.arms[side].on_forearm]
    flat = any(arm.on not in ("", "towel", "rail", "chair back", "door") for arm in arms)
    return flat and pose.base != "hanging back"


def _stands(figure: Figure) -> bool:
    pose = figure.pose
    leans = pose.base == "plank" and not set(pose.hands) & _NEAR_FLOOR
    return leans or pose.base in ("standing", "back to the wall", "hanging back", "dip")


def _steps(movement: Movement) -> bool:
    """A foot goes up onto a stair or down from it, or the balls of both stand on its edge."""
    changes = len({figure.pose.feet for figure in movement.figures}) > 1
    for figure in movement.figures:
        on = [word in ("step", "second step") for word in figure.pose.feet]
        if figure.pose.base != "standing" or not any(on):
            continue
        # A sole within 5 degrees of level on the edge is not yet a heel let down or raised (our choice).
        heels = any(leg.on_edge and abs(leg.tipped) > 5 for leg in figure.legs)
        if heels or changes:
            return True
    return False


def _twists(movement: Movement) -> bool:
    turns = [figure.pose.turn for figure in movement.figures]
    loaded = any(
        thing != "broom" and (where in _HELD_BY_HAND or where in ("chest", "front"))
        for figure in movement.figures
        for thing, where in figure.pose.holds.items()
    )
    return loaded and max(map(abs, turns)) > TURNED


def _lifts_low(figure: Figure) -> bool:
    """A weight that hands hold below knee height while the trunk is bent forwards.

    A carrier that hangs beside a seat was taken from the floor, or from a seat beside: not decided here.
    """
    bent = figure.pose.base in ("standing", "seated") and figure.pose.lean > BENT
    return bent and any(figure.arms[side].hand[1] < KNEE_HIGH - 3.0 for side in _sides_with_load(figure))


def _head_low(figure: Figure) -> bool:
    # The heart lies about three quarters up from the hips to the shoulders; 4 cm below it a head is low.
    heart = between(figure.pelvis, figure.chest, 0.75)
    return figure.pose.base not in (*_LYING, "side plank") and figure.head[1] < heart[1] - 4.0


def _in_some_pose(holds: Callable[[Figure], bool]) -> Rule:
    return lambda movement: any(map(holds, movement.figures))


RULES: Mapping[str, Rule] = {
    "jumping": _in_some_pose(lambda figure: figure.pose.lift > 0 and figure.pose.base != "seated"),
    "arms overhead": _in_some_pose(lambda figure: any(_away(figure, arm) > OVERHEAD for arm in figure.arms)),
    "shoulder load": _shoulder_load,
    "kneeling": _in_some_pose(lambda figure: any(leg.on_knee and leg.carries for leg in figure.legs)),
    "getting to the floor": _in_some_pose(_on_floor),
    "deep knee bend": _deep,
    "balance on one leg": _one_leg,
    "rounding the spine": _in_some_pose(lambda figure: figure.pose.round > ROUNDED),
    "sustained bending": lambda movement: all(map(_is_bent, movement.figures)),
    "grip": _in_some_pose(_grips),
    "weight on the wrists": _on_wrists,
    "lying flat": _in_some_pose(lambda figure: figure.pose.base in _LYING),
    "standing": _in_some_pose(_stands),
    "stairs and steps": _steps,
    "twisting under load": _twists,
    "lifting from the floor": _in_some_pose(_lifts_low),
    "head low": _in_some_pose(_head_low),
    "leaning on the arms": _in_some_pose(lambda figure: _on_arms(figure) > LEANING),
}
"""The words that geometry decides. Straining and speed are not among them."""

LEFT_OPEN: Mapping[str, Rule] = {
    "shoulder load": _in_some_pose(lambda figure: any(_away(figure, arm) >= LEVEL for arm in figure.arms)),
    "twisting under load": _in_some_pose(lambda figure: abs(figure.pose.turn) > TURNED),
}
"""Where a word applies if the movement is quick, or if something is pulled: the poses do not tell."""
