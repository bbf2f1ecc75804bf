"""What arms do, in one word of a list."""

from collections.abc import Iterator
from typing import NamedTuple

from sitegen.study.body.changes import (
    HELD_STILL,
    STAYS,
    STEPS,
    STRAIGHTENS,
    TURNS,
    arm_turns,
    count_of,
    elbow_bend,
    moving_arms,
    upper_arm,
)
from sitegen.study.body.figure import LEFT, RIGHT, Arm, Figure
from sitegen.study.body.vectors import Vec, distance, sub


class Subject(NamedTuple):
    """What moves, as a word of the theme, and on which sides."""

    word: str
    sides: str = "both"
    """``one``, ``both`` or ``turn``: one side and then the other."""


_ANSWERS = {
    "elbow bends": "elbow straightens",
    "arm lifts ahead": "arm sinks",
    "arm lifts aside": "arm sinks",
    "arm swings": "arm goes back",
}
"""What the other arm does meanwhile where both do it in turn."""

# Against the chest and in lengths of an upper arm: where an elbow is, and how far it goes. 0.7 is half a
# right angle from level. All are our choice, by what an eye tells from the drawings.
_BEHIND, _AHEAD, _WELL_AHEAD = -0.2, 0.3, 0.5
_RAISED, _HIGH, _ABOUT_LEVEL, _HANGING = 0.7, 0.6, 0.2, -0.7
_GOES, _GOES_FAR, _DRAWN_BACK, _MOSTLY_DOWN, _NOT_LEVEL = 0.3, 0.5, 0.35, 0.6, 0.1
_PRESSED_UP, _PRESSED_AHEAD, _OVER_THE_SHOULDER = 20, 15, 30
"""Centimetres that a hand goes, and that it ends above the shoulder, to be said to press (our choice)."""


def arms_subject(start: Figure, finish: Figure) -> Subject | None:
    """What the arms do from start to finish; None where they press, or where no one word says it."""
    if any("hand" in part for part in finish.pose.presses):
        return None  # it presses against something, and how a hand came there is not the exercise
    if _forearms_open(start, finish):
        return Subject("forearm opens")
    ways = {side: next(_arm_ways(start, finish, side), "") for side in moving_arms(start, finish)}
    words = set(ways.values())
    if len(words) == 1:
        word = words.pop()
        return Subject(word, count_of(list(ways))) if word else None
    leading = [word for word in words if _ANSWERS.get(word) in words]
    return Subject(leading[0], "turn") if leading else None


def _arm_ways(start: Figure, finish: Figure, side: int) -> Iterator[str]:
    """Words for what one arm does, the first the fittest; none where no word says it."""
    before, after = upper_arm(start, side), upper_arm(finish, side)
    elbow, turns = elbow_bend(finish, side) - elbow_bend(start, side), arm_turns(start, finish, side)
    hand = sub(_from_shoulder(finish.arms[side]), _from_shoulder(start.arms[side]))
    if abs(elbow) >= STRAIGHTENS and turns < HELD_STILL:
        yield "elbow bends" if elbow > 0 else "elbow straightens"
    # Drawn back is an elbow that ends behind, low and not straightened; one that was there already is not.
    if after[0] <= _BEHIND and before[0] - after[0] >= _DRAWN_BACK and after[1] < 0 and elbow > -TURNS:
        yield "elbow draws back" if elbow_bend(finish, side) >= STRAIGHTENS else "arm goes back"
    if elbow <= -STRAIGHTENS:
        high = finish.arms[side].hand[1] - finish.arms[side].shoulder[1]
        if hand[1] >= _PRESSED_UP and hand[1] > abs(hand[0]) and high >= _OVER_THE_SHOULDER:
            yield "hand presses up"
        elif hand[0] >= _PRESSED_AHEAD and hand[0] > abs(hand[1]):
            yield "hand presses ahead"
    if elbow >= STRAIGHTENS and before[1] >= _HIGH and after[1] <= _ABOUT_LEVEL:
        yield "elbow pulls down"
    if start.pose.base == "lying face down":
        if hand[1] >= STAYS:
            yield "arm lifts off"
    elif abs(elbow) < STRAIGHTENS and turns >= TURNS:
        yield from _lifting(before, after)


def _forearms_open(start: Figure, finish: Figure) -> bool:
    """Whether hands go apart while both elbows stay at the ribs."""
    still = all(
        arm_turns(start, finish, side) < HELD_STILL
        and min(elbow_bend(start, side), elbow_bend(finish, side)) > 2 * STRAIGHTENS
        for side in (LEFT, RIGHT)
    )
    wider = _hands_apart(finish) - _hands_apart(start)
    return still and wider >= 2 * STEPS


def _hands_apart(figure: Figure) -> float:
    return distance(figure.arms[LEFT].hand, figure.arms[RIGHT].hand)


def _from_shoulder(arm: Arm) -> Vec:
    return sub(arm.hand, arm.shoulder)


def _lifting(before: Vec, after: Vec) -> Iterator[str]:
    ahead, up, out = (b - a for a, b in zip(before, after, strict=True))
    if before[0] <= _BEHIND and after[0] >= _AHEAD:
        yield "arm swings"
    if after[1] >= _RAISED and up >= _GOES_FAR:
        yield "arm lifts overhead"
    elif up <= -_GOES and abs(ahead) < _MOSTLY_DOWN and after[1] < _HANGING:
        yield "arm sinks"
    elif out >= _GOES and out > abs(ahead):
        yield "arm lifts aside" if before[0] < _WELL_AHEAD else "arm opens"
    elif ahead >= _GOES and up >= _NOT_LEVEL:
        yield "arm lifts ahead"
