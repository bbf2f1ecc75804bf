"""How joints and limbs change from one pose to another."""

import math
from collections.abc import Callable

from sitegen.study.body.figure import LEFT, RIGHT, Figure
from sitegen.study.body.vectors import Vec, angle, distance, dot, sub, unit

# Degrees, and centimetres where it is said. All are our choice, by what an eye tells from the drawings.
TURNS = 15.0
"""A joint that turns by less only comes along."""
SWINGS = 40.0
"""A free arm that turns by more has to be spoken of, so that a sentence about the legs alone is not
the whole."""
STAYS, STEPS = 8.0, 15.0
"""Centimetres: a foot that goes no further stays where it is; from the second on it has stepped."""
STRAIGHTENS = 30.0
"""A knee or an elbow that bends or straightens by so much does so, and does not only give."""
HELD_STILL = 25.0
"""An upper arm or thigh that turns by less is still while the joint below it works."""


def growth(measure: Callable[[Figure, int], float], start: Figure, finish: Figure) -> tuple[float, float]:
    """How much a measure of each side grows."""
    left, right = (measure(finish, side) - measure(start, side) for side in (LEFT, RIGHT))
    return left, right


def knee_bend(figure: Figure, side: int) -> float:
    """Degrees that a knee is bent."""
    return figure.legs[side].bend


def elbow_bend(figure: Figure, side: int) -> float:
    """Degrees that an elbow is bent."""
    return figure.arms[side].bend


def thigh_lift(figure: Figure, side: int) -> float:
    """Degrees that a thigh is lifted forwards from the line of the pelvis."""
    leg, frame = figure.legs[side], figure.frame
    way = sub(leg.knee, leg.hip)
    return math.degrees(math.atan2(dot(way, frame.front), -dot(way, frame.up)))


def thigh_out(figure: Figure, side: int) -> float:
    """Degrees that a thigh is lifted out to its side."""
    leg = figure.legs[side]
    return math.degrees(
        math.asin(max(-1.0, min(1.0, dot(unit(sub(leg.knee, leg.hip)), figure.frame.out(side)))))
    )


def foot_way(start: Figure, finish: Figure, side: int) -> Vec:
    """How far an ankle goes: ahead, up and to the right, in centimetres."""
    return sub(finish.legs[side].ankle, start.legs[side].ankle)


def upper_arm(figure: Figure, side: int) -> Vec:
    """Its direction against the chest: ahead, up and out."""
    arm, frame = figure.arms[side], figure.chest_frame
    way = unit(sub(arm.elbow, arm.shoulder))
    return dot(way, frame.front), dot(way, frame.up), dot(way, frame.out(side))


def arm_turns(start: Figure, finish: Figure, side: int) -> float:
    """How far an upper arm turns both against the chest and in the room.

    One that hangs while the trunk tips does the first alone, one that is carried along the second.
    """
    in_room = [unit(sub(arm.elbow, arm.shoulder)) for arm in (start.arms[side], finish.arms[side])]
    return min(angle(upper_arm(start, side), upper_arm(finish, side)), angle(*in_room))


def is_free(figure: Figure, side: int) -> bool:
    """Whether a hand neither holds on nor rests on the body."""
    return figure.pose.hands[side] == "free"


def moving_arms(start: Figure, finish: Figure) -> list[int]:
    """Arms that move against the chest; one that holds on moves because the body does."""
    return [
        side
        for side in (LEFT, RIGHT)
        if (is_free(start, side) or is_free(finish, side))
        and max(arm_turns(start, finish, side), abs(elbow_bend(finish, side) - elbow_bend(start, side)))
        >= TURNS
    ]


def swinging(start: Figure, finish: Figure) -> bool:
    """Whether a free arm turns so far that it has to be spoken of."""
    return any(arm_turns(start, finish, side) >= SWINGS for side in moving_arms(start, finish))


def count_of(sides: list[int]) -> str:
    """The sides that something happens on, as a :class:`Subject` has them."""
    return "both" if len(sides) == 2 else "one"


def moved_feet(start: Figure, finish: Figure, far: float) -> list[int]:
    """Feet that go ``far`` centimetres or more, told by their toes, which stay where a heel lifts."""
    return [s for s in (LEFT, RIGHT) if distance(start.legs[s].toe, finish.legs[s].toe) >= far]
