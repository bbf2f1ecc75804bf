"""Arms: hanging at their angles, resting on the body, or reaching for a thing by inverse kinematics."""

import math
from collections.abc import Callable, Mapping
from operator import mul

from sitegen.study.body.figure import (
    CM,
    GRIP,
    PALM,
    Arm,
    Figure,
    PoseTrouble,
    TrunkFrame,
    arm_by_angles,
    reach_of,
    two_segments,
)
from sitegen.study.body.things import UPRIGHTS
from sitegen.study.body.vectors import Vec, add, along, between, scale, sub, unit

Place = Callable[[Figure, int], tuple[Vec, Vec]]
"""Gives the point for the hand and the direction into which the elbow bends."""


_WAIST = 0.4
"""Of the way from the hips to the shoulders: below it a point goes with the pelvis, above it with the chest,
which may be turned. The spine turns mostly above the lumbar part, its lower two fifths (our choice)."""


def _trunk(up: float, front: float, out: float, pole: tuple[float, float, float]) -> Place:
    """A point ``up`` the trunk (0 hip, 1 shoulder), so far in front and to the side, in centimetres."""

    def place(figure: Figure, side: int) -> tuple[Vec, Vec]:
        frame = figure.chest_frame if up > _WAIST else figure.frame
        base = between(figure.pelvis, figure.chest, up)
        at = along(base, (front, frame.front), (out, frame.out(side)))
        return at, _pole(frame, side, pole)

    return place


def _pole(frame: TrunkFrame, side: int, pole: tuple[float, float, float]) -> Vec:
    front, up, out = pole
    return along((0.0, 0.0, 0.0), (front, frame.front), (up, frame.up), (out, frame.out(side)))


def _thigh(share: float, above: float, pole: tuple[float, float, float]) -> Place:
    """A point on top of the thigh, ``share`` of the way from hip to knee."""

    def place(figure: Figure, side: int) -> tuple[Vec, Vec]:
        leg = figure.legs[side]
        along_thigh = unit(sub(leg.knee, leg.hip))
        front = sub(figure.frame.front, scale(along_thigh, sum(map(mul, figure.frame.front, along_thigh))))
        # A hand lies on the upper side of a thigh, turned a little towards the trunk.
        top = unit(add(front, scale(figure.frame.up, 0.3)))
        at = along(between(leg.hip, leg.knee, share), (above, top), (2.0, figure.frame.out(side)))
        return at, _pole(figure.chest_frame, side, pole)

    return place


def _shin(share: float, above: float) -> Place:
    def place(figure: Figure, side: int) -> tuple[Vec, Vec]:
        leg = figure.legs[side]
        at = along(between(leg.knee, leg.ankle, share), (above, figure.frame.front))
        return at, _pole(figure.chest_frame, side, (-1.0, -0.2, 0.6))

    return place


ON_THE_BODY: Mapping[str, Place] = {
    "hips": _trunk(0.12, 6.0, 15.0, (-0.8, 0.0, 1.0)),
    "sides": _trunk(-0.15, 2.0, 20.0, (-1.0, 0.0, 0.5)),
    "belly": _trunk(0.3, 12.0, 3.0, (-0.6, -0.4, 0.9)),
    "ribs": _trunk(0.55, 13.0, 6.0, (-0.6, -0.6, 0.8)),
    "chest": _trunk(0.8, 14.0, -7.0, (0.5, -1.0, 0.3)),
    "together": _trunk(0.75, 24.0, 1.5, (-0.3, -0.9, 0.9)),
    "opposite shoulders": _trunk(0.92, 9.0, -12.0, (0.6, -1.0, 0.2)),
    "shoulders": _trunk(0.97, 13.0, 19.0, (0.4, -1.0, 0.3)),
    "ears": _trunk(1.4, 3.0, 14.0, (0.2, 0.2, 1.0)),
    "behind the head": _trunk(1.42, -11.0, 4.0, (0.9, 0.9, 0.5)),
    "small of the back": _trunk(0.22, -14.0, 2.0, (-1.0, -0.2, 1.0)),
    "neck": _trunk(1.18, -13.0, 3.0, (0.4, 0.8, 1.0)),
    "thighs": _thigh(0.55, 8.0, (-1.0, -0.2, 0.5)),
    "knees": _thigh(0.95, 8.0, (-1.0, -0.3, 0.5)),
    "inside the knees": _thigh(1.0, 3.0, (-0.3, -0.5, 0.9)),
    "shins": _shin(0.45, 9.0),
    "feet": _shin(1.0, 12.0),
    "knee hug": _shin(0.12, 9.0),
}
"""Where a hand can rest on the body. Distances are the look's, not anatomy's."""

FROM_ABOVE = ("counter", "chair", "raised chair", "chair back", "step", "second step", "floor", "bed")
TOUCHED = (*FROM_ABOVE, "arm rests", "wall", "door", "rail")
"""Things that hands can be put on."""
_EASY = 32.0
"""Bend of the elbow with which a thing is used that stands where it is handy."""


MISSES = 2.5
"""How far a hand may end from where it should be, in centimetres, before it is told."""


def place_arms(figure: Figure, things: dict[str, float]) -> None:
    """Put both arms where the pose wants them.

    ``things`` holds how far ahead each thing stands; one used for the first time is put where it is handy.
    """
    for side in (0, 1):
        figure.arms[side] = _arm(figure, side, things)


def _arm(figure: Figure, side: int, things: dict[str, float]) -> Arm:
    pose, shoulder = figure.pose, figure.arms[side].shoulder
    word = pose.hands[side]
    if word == "free":
        return arm_by_angles(shoulder, figure.chest_frame, side, pose)
    if word in ON_THE_BODY:
        at, pole = ON_THE_BODY[word](figure, side)
        elbow, hand, _ = two_segments(shoulder, at, CM.upper_arm, CM.forearm + GRIP, pole)
        return Arm(shoulder, elbow, hand)
    return reach_for(figure, side, word, _thing_point(figure, side, word, things))


def _thing_point(figure: Figure, side: int, word: str, things: dict[str, float]) -> Vec:
    """Where the hand meets a thing that stands ahead of the feet, or beside a seated figure."""
    pose, shoulder = figure.pose, figure.arms[side].shoulder
    # Beside a seated body: hands on the seat stand as far out as its edge, on arm rests on top of them.
    if pose.base == "seated" and word in ("chair", "raised chair", "bed"):
        at = along(figure.pelvis, (2.0, (1.0, 0.0, 0.0)), (24.0, figure.frame.out(side)))
        return (at[0], pose.height_of(pose.seat) + PALM, at[2])
    if word == "arm rests":
        at = along(figure.pelvis, (6.0, (1.0, 0.0, 0.0)), (25.0, figure.frame.out(side)))
        return (at[0], pose.height_of(word) + PALM - 2.0, at[2])
    if word == "rail":  # a rail goes along: the hand slides with the body
        return (shoulder[0] + 30.0, shoulder[1] - 44.0, shoulder[2])
    high = _height(figure, side, word)
    if word not in things:
        ahead = pose.distance
        things[word] = ahead if ahead is not None else _handy(shoulder, high, word, pose.forearms[side])
    return (things[word] + _INSIDE.get(word, 0.0), high, shoulder[2])


_INSIDE: Mapping[str, float] = {"counter": 3.0, "step": 3.0, "second step": 3.0, "chair": 6.0, "wall": -PALM}
"""How far beyond a thing's front edge the hand rests."""


def _height(figure: Figure, side: int, word: str) -> float:
    if word not in UPRIGHTS:
        return figure.pose.height_of(word) + PALM
    reach = figure.pose.reach
    return (
        reach if reach is not None else min(figure.arms[side].shoulder[1] - 6.0, figure.pose.height_of(word))
    )


def _handy(shoulder: Vec, high: float, word: str, on_forearm: bool) -> float:
    """How far ahead of the feet the thing is handy for that shoulder."""
    far = CM.upper_arm if on_forearm else reach_of(CM.upper_arm, CM.forearm + PALM, _EASY)
    across = max(4.0, math.sqrt(max(0.0, far * far - (shoulder[1] - high) ** 2)))
    return shoulder[0] + across - _INSIDE.get(word, 0.0)


def reach_for(figure: Figure, side: int, word: str, target: Vec) -> Arm:
    """An arm whose hand, or forearm, is on a thing."""
    pose, arm = figure.pose, figure.arms[side]
    frame = figure.chest_frame
    # Elbows bend back, down and out, as they do for things ahead; under a plank they go down and out only.
    pole = _pole(frame, side, (-0.7, -0.7, 0.5))
    if pose.forearms[side]:
        return _forearm_on(figure, side, word, target)
    if word == "floor" and pose.base in ("plank", "knee plank", "all fours"):
        pole = _pole(frame, side, (0.0, -1.0, 0.35))
    elbow, hand, gap = two_segments(arm.shoulder, target, CM.upper_arm, CM.forearm + PALM, pole)
    if gap > MISSES:
        figure.trouble.append(PoseTrouble("reach", "hands", gap, side, word))
    return Arm(arm.shoulder, elbow, hand, on=word)


def _forearm_on(figure: Figure, side: int, word: str, target: Vec) -> Arm:
    """The elbow below (or before) the shoulder, the forearm flat on the thing."""
    shoulder = figure.arms[side].shoulder
    flat: Vec = (0.0, 1.0, 0.0) if word in UPRIGHTS else (1.0, 0.0, 0.0)
    if word in UPRIGHTS:
        # Elbows against a wall are a little below the shoulders: 6 cm, whose square is taken off below.
        high = shoulder[1] - 6.0
        across = math.sqrt(CM.upper_arm**2 - 36.0)
        elbow = (min(target[0], shoulder[0] + across), high, shoulder[2])
        gap = target[0] - elbow[0]
    else:
        drop = shoulder[1] - target[1]
        along_it = math.sqrt(max(0.0, CM.upper_arm**2 - drop**2))
        gap = max(0.0, drop - CM.upper_arm)
        elbow = (shoulder[0] + along_it, shoulder[1] - min(drop, CM.upper_arm), shoulder[2])
    if gap > MISSES:
        figure.trouble.append(PoseTrouble("reach", "forearms", gap, side, word))
    return Arm(shoulder, elbow, along(elbow, (CM.forearm + GRIP * 0.6, flat)), on=word, on_forearm=True)
