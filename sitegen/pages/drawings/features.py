"""What of a pose is worth a word."""

from collections.abc import Iterator

from sitegen.study.body.figure import ON_BALL, ON_HEEL, Figure
from sitegen.study.body.pose import FullPose
from sitegen.study.body.reaching import ON_THE_BODY

# When a pose is worth a word. Angles are degrees and lengths centimetres; where nothing else is said they are
# our choice: what the eye tells apart in a drawing of this size.
_STEP = 25.0
"""A foot so far ahead of the other, or of where it was, has stepped: about a foot's length (26.6)."""
_WIDE = 45.0
"""From ankle to ankle: feet wider apart than the shoulders, whose breadth is 0.259 of 1.75 m."""
STAYED = 8.0
"""What has moved less has stayed where it was."""
_APART = 15.0
"""How much higher or further ahead one hand or foot is than the other to be the leading one."""
_STRAIGHT = 35.0
"""A lifted leg bent by less looks long."""
_SOFT, _HALF, _RIGHT, _VERY_DEEP = 18.0, 45.0, 78.0, 110.0
"""Bends of knees: from the first on it is seen at all; then half way; about a right angle; and deeper."""
_FRONT_HALF, _FRONT_RIGHT = 40.0, 80.0
"""The same of the front knee in a split stance, where the back one bends too."""
_LEANS, _FAR_OVER, _LOW = 12.0, 30.0, 60.0
"""Leans of the trunk: a little, clearly, and so that it is nearer to level than to upright."""
_LEANS_BACK = -10.0
"""Leaning back is seen a little sooner than leaning forwards."""
_TO_THE_SIDE = 10.0
"""Side bends; half of what puts the hip of a side plank on the ground (``placing/on_side.py``)."""
_CURLS, _ARCHES = 25.0, -10.0
"""Rounding of the back; an arched one is seen sooner."""
_TURNS = 20.0
"""As for the demand of twisting (``study/body/derived.py``)."""
_BENDS = 40.0
"""Bends of elbows that are leant on, from which on the arms are not long."""
_CHEST_CLOSE = 120.0
"""From here on the shoulders are little more than a forearm from the hands, and the chest is there."""
_ELBOWS_BENT = 60.0
"""Bends of free elbows: free arms are seldom quite straight, so it takes more."""
_SIDE_AT_ALL = 8.0
"""Side bends that tell one side from the other, a little less than what is worth a word."""
_LEVEL_THIGH = 12.0
"""A thigh whose ends differ by no more than this looks level over its 43."""
_LIFTED_ASIDE, _STRAIGHT_ASIDE = 20.0, 30.0
"""From here on a leg is out to the side; there it has to be straighter to be seen as one that is lifted
aside."""
_HIPS_HIGH = 40.0
"""Hips bent by more are no straight body any more."""
# Of a free arm, from the side of the trunk. Bounds lie about half way between what they part: an arm that
# hangs (0), points ahead or aside (90) or up (180). Out of the way of the trunk it is seen sooner: those
# aside are lower.
_BACK_ARM, _AHEAD_ARM, _LEVEL_ARM, _OVER_AHEAD = -24.0, 26.0, 66.0, 140.0
_LOW_WIDE_ARM, _WIDE_ARM, _OVER_ASIDE = 22.0, 58.0, 130.0


def features(figure: Figure, before: Figure | None = None, *, alone: bool = False) -> list[tuple[str, str]]:
    """What is worth saying of a pose, each a word of the theme and what it is about.

    With ``before`` also what is ordinary now and was not then: a trunk that is upright again. ``alone`` where
    the pose is held, so that a round back is meant.
    """
    found: list[tuple[str, str]] = [*_feet(figure, before), *_knees(figure, before), *_trunk(figure, before)]
    curl = [("round", "")] if alone and figure.pose.round >= _CURLS else []
    return [*found, *_arms(figure, before), *curl]


_UPRIGHT = ("standing", "seated", "half kneeling", "kneeling", "back to the wall")


def _feet(figure: Figure, before: Figure | None) -> Iterator[tuple[str, str]]:
    pose = figure.pose
    on = [word for word in pose.feet if word not in ("floor", "lifted")]
    if len(on) == 2:
        yield "feet_on", on[0]
    elif on:
        yield "foot_on", on[0]
    lifted = [side for side in (0, 1) if pose.feet[side] == "lifted"]
    if pose.base == "side lying":
        yield from _upper_leg(figure, before)
    elif len(lifted) == 2:
        yield ("legs_up", "") if pose.base != "standing" else ("feet_up", "")
        if pose.base == "lying" and min(leg.bend for leg in figure.legs) < _STRAIGHT < _BENDS:
            yield from [("leg_long", "")] if max(leg.bend for leg in figure.legs) > _BENDS else []
    elif lifted:
        yield _lifted(figure, lifted[0]), ""
    elif pose.base in ("standing", "half kneeling") and not on:
        yield from _stance(figure, before)
    heels = [leg.tipped for leg in figure.legs if leg.carries and not leg.on_knee]
    if pose.base in ("standing", "seated") and heels and min(heels) > ON_BALL:
        yield ("heels_up" if len(heels) == 2 else "heel_up"), ""
    elif heels and min(heels) < ON_HEEL and pose.base in ("standing", "seated") and pose.feet[1] == "floor":
        yield "toes_up", ""


def _upper_leg(figure: Figure, before: Figure | None) -> Iterator[tuple[str, str]]:
    rise = [
        leg.ankle[1] - was.ankle[1] for leg, was in zip(figure.legs, (before or figure).legs, strict=True)
    ]
    high = [side for side in (0, 1) if rise[side] > _APART]
    if high:
        yield ("legs_up" if len(high) == 2 else "upper_leg_up"), ""


def _lifted(figure: Figure, side: int) -> str:
    pose, leg = figure.pose, figure.legs[side]
    level = abs(leg.knee[1] - leg.hip[1]) < _LEVEL_THIGH or leg.knee[1] > leg.hip[1]
    if pose.base == "seated" and leg.bend < _STRAIGHT:
        return "leg_long"
    if pose.hips_out[side] >= _LIFTED_ASIDE and leg.bend < _STRAIGHT_ASIDE:
        return "leg_out"
    back = leg.ankle[0] < leg.hip[0] - _STEP
    if leg.bend < _STRAIGHT and back and pose.base in ("standing", "all fours", "plank"):
        return "leg_back"
    return "knee_up" if level and pose.base in ("standing", "seated", "back to the wall") else "foot_up"


def _stance(figure: Figure, before: Figure | None) -> Iterator[tuple[str, str]]:
    left, right = figure.legs
    along = right.ankle[0] - left.ankle[0]
    wide = right.ankle[2] - left.ankle[2]
    was = before.legs if before is not None else None
    if abs(along) > _STEP and figure.pose.base == "standing":
        if was is not None and abs(was[0].ankle[0] - left.ankle[0]) > _STEP > abs(
            was[1].ankle[0] - right.ankle[0]
        ):
            yield ("foot_back" if left.ankle[0] < was[0].ankle[0] else "foot_ahead"), ""
        else:
            yield "split", ""
    elif wide > _WIDE:
        yield ("foot_out" if was is not None and _one_moved(figure, before) else "feet_wide"), ""
    elif (
        figure.pose.base == "standing"
        and was is not None
        and (abs(was[1].ankle[0] - was[0].ankle[0]) > _STEP or was[1].ankle[2] - was[0].ankle[2] > _WIDE)
    ):
        yield "together", ""


def _one_moved(figure: Figure, before: Figure | None) -> bool:
    assert before is not None
    less, more = sorted(abs(a.ankle[2] - b.ankle[2]) for a, b in zip(figure.legs, before.legs, strict=True))
    return less < STAYED <= more


def _bend_of_standing(figure: Figure) -> float:
    """Of the knees whose foot is not lifted."""
    legs = (leg for side, leg in enumerate(figure.legs) if figure.pose.feet[side] != "lifted")
    return max((leg.bend for leg in legs), default=0.0)


def _knees(figure: Figure, before: Figure | None) -> Iterator[tuple[str, str]]:
    if figure.pose.base not in ("standing", "back to the wall", "lying", "dip"):
        return
    legs = [leg for side, leg in enumerate(figure.legs) if figure.pose.feet[side] != "lifted"]
    if not legs:
        return
    bend = max(leg.bend for leg in legs)
    uneven = len(legs) == 2 and abs(legs[0].ankle[0] - legs[1].ankle[0]) > _STEP
    if uneven:
        front = max(legs, key=lambda leg: leg.ankle[0]).bend
        if front >= _FRONT_HALF:
            yield ("front_knee_right" if front >= _FRONT_RIGHT else "front_knee_half"), ""
        return
    if bend >= _SOFT:
        bounds = (
            ("knees_deep", _VERY_DEEP),
            ("knees_right", _RIGHT),
            ("knees_half", _HALF),
            ("knees_soft", 0),
        )
        yield next(word for word, least in bounds if bend >= least), ""
    elif before is not None and _bend_of_standing(before) >= _SOFT:
        yield "knees_long", ""


def _trunk(figure: Figure, before: Figure | None) -> Iterator[tuple[str, str]]:
    pose = figure.pose
    if pose.base in _UPRIGHT:
        bounds = (("lean_low", _LOW), ("lean", _FAR_OVER), ("lean_little", _LEANS))
        word = next((word for word, least in bounds if pose.lean >= least), None)
        if word is not None:
            yield word, ""
        elif pose.lean <= _LEANS_BACK:
            yield "lean_back", ""
        elif before is not None and abs(before.pose.lean) >= _LEANS:
            yield "upright", ""
    if pose.base == "side plank" and pose.side > _TO_THE_SIDE:
        yield "hips_low", ""
    elif pose.base == "side plank" and before is not None and before.pose.side > _TO_THE_SIDE:
        yield "in_line", ""
    elif abs(pose.side) >= _TO_THE_SIDE:
        yield "side", ""
    if pose.base == "plank" and min(pose.hips) > _HIPS_HIGH:
        yield "hips_high", ""
    if before is not None and _curls_alone(pose, before.pose):
        yield "round", ""
    elif pose.round <= _ARCHES:
        yield "arch", ""
    if abs(pose.turn) >= _TURNS:
        yield "turn", ""


def _curls_alone(pose: FullPose, before: FullPose) -> bool:
    """Whether the back rounds and nothing else of the trunk moves.

    Elsewhere a drawing may show a back that gives, in a deep squat or a chop, and no word makes it a goal.
    """
    still = abs(pose.lean - before.lean) < _LEANS and abs(pose.turn - before.turn) < _TURNS
    return (
        still
        and pose.base == before.base
        and pose.round >= _CURLS
        and pose.base not in ("plank", "knee plank")
    )


_SAID_BY_BASE = {
    "plank": "floor",
    "knee plank": "floor",
    "all fours": "floor",
    "hanging back": "towel",
    "dip": "chair",
}
"""Where the name of a base says already where the hands are."""


def _arms(figure: Figure, before: Figure | None) -> Iterator[tuple[str, str]]:
    pose = figure.pose
    own_seat = pose.base == "seated" and pose.seat == "chair"
    words = ["own seat" if own_seat and word == "chair" else word for word in pose.hands]
    for kind, forearm in (("hand", False), ("forearm", True)):
        placed = [
            word
            for word, on in zip(words, pose.forearms, strict=True)
            if on == forearm and word not in ("free", _SAID_BY_BASE.get(pose.base))
        ]
        if len(placed) == 2 and (placed[0] == placed[1] or "neck" in placed):
            yield f"{kind}s", placed[0]
        else:
            yield from ((kind, word) for word in placed)
    free = [side for side in (0, 1) if words[side] == "free"]
    if not free:
        if pose.base in ("plank", "knee plank", "dip", "hanging back") and not any(pose.forearms):
            bend = max(figure.arms[side].bend for side in (0, 1))
            if bend >= _BENDS:
                deep = bend >= _CHEST_CLOSE and pose.base != "dip"
                yield ("chest_close" if deep else "elbows_right" if bend >= _RIGHT else "arms_bent"), ""
            else:
                yield "arms_long", ""
        return
    yield from _free_arms(figure, free, before)


def _free_arms(figure: Figure, free: list[int], before: Figure | None) -> Iterator[tuple[str, str]]:
    raised = [_raised(figure, side) for side in free]
    if len(free) == 2 and raised[0] == raised[1]:
        word = {"over": "arms_over", "level": "arms_level", "wide": "arms_wide", "back": "arms_back"}.get(
            raised[0]
        )
        word = word or {"low wide": "arms_low_wide", "ahead": "arms_ahead"}.get(raised[0])
        bent = min(figure.arms[side].bend for side in free) >= _ELBOWS_BENT
        was_bent = before is not None and min(arm.bend for arm in before.arms) >= _ELBOWS_BENT
        if word is not None:
            yield word, ""
        elif before is not None and not bent and _raised(before, 0) not in ("down", "on"):
            yield "arms_down", ""
        if bent and word != "arms_back":
            yield "arms_bent", ""
        elif was_bent and not bent:
            yield "arms_long", ""
        elif word is None and not bent and max(arm.bend for arm in figure.arms) >= _ELBOWS_BENT:
            yield "arm_bent", ""
        return
    if {"ahead", "level"} & set(raised) and "back" in raised:
        yield "arms_swing", ""
        return
    over = "arm_reaches" if figure.pose.base == "all fours" else "arm_over"
    one = {"over": over, "level": "arm_level", "wide": "arm_wide", "back": "arm_back"}
    if "both hands" not in figure.pose.holds.values() and (set(raised) & {"down", "on"} or len(free) == 1):
        one |= {"ahead": "arm_ahead", "low wide": "arm_low_wide"}
    yield from ((one[how], "") for how in dict.fromkeys(raised) if how in one)


def _raised(figure: Figure, side: int) -> str:
    """How a free arm is held against the trunk."""
    pose = figure.pose
    if pose.hands[side] != "free":
        return "on" if pose.hands[side] in ON_THE_BODY else "thing"
    ahead, out = pose.shoulders[side], pose.shoulders_out[side]
    hanging = pose.lean if pose.base in _UPRIGHT else 0.0
    if ahead >= _OVER_AHEAD or out >= _OVER_ASIDE:
        return "over"
    if out >= _WIDE_ARM:
        return "wide"
    if out >= _LOW_WIDE_ARM:
        return "low wide"
    if ahead - hanging <= _BACK_ARM:
        return "back"
    if ahead - hanging >= _LEVEL_ARM:
        return "level"
    return "ahead" if ahead - hanging >= _AHEAD_ARM else "down"
