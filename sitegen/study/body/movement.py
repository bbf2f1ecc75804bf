"""A movement: the poses of one form, placed one after the other in one scene."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sitegen.model import Poses
from sitegen.study.body.figure import PALM, Figure, PlacedThing
from sitegen.study.body.placing import SEAT_BACK, SharedByPoses, place, span_of
from sitegen.study.body.pose import complete, merged
from sitegen.study.body.reaching import ON_THE_BODY, TOUCHED
from sitegen.study.body.vectors import Vec, distance

VIEWS = ("side", "front", "three-quarter")


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """The figures of a form from start to finish; one where it is held."""

    figures: tuple[Figure, ...]
    front_view: bool
    aslant: bool = False
    """Seen from before and from the side at once: what is bent forwards and opens its arms needs both."""
    things: Mapping[str, float]
    """How far ahead of the feet the things stand that hands use."""

    @property
    def start(self) -> Figure:
        """The first figure."""
        return self.figures[0]

    @property
    def finish(self) -> Figure:
        """The last figure, the same as the first where a pose is held."""
        return self.figures[-1]


def move_through(poses: Sequence[Mapping[str, Any]]) -> Movement:
    """Place poses one after the other; each is said in full (see :func:`spelled_out`)."""
    figures: list[Figure] = []
    shared = SharedByPoses()
    for said in poses:
        figure = place(complete(said), shared)
        if not figures:
            shared = SharedByPoses(span=span_of(figure), things=shared.things)
        figures.append(figure)
    view = next((f.pose.view for f in figures if f.pose.view), "")
    aslant = view == "three-quarter"
    front = aslant or view == "front" or (view == "" and _moves_sideways(figures))
    return Movement(figures=tuple(figures), front_view=front, aslant=aslant, things=shared.things)


def spelled_out(
    start: Mapping[str, Any], through: Sequence[Mapping[str, Any]], finish: Mapping[str, Any] | None
) -> list[dict[str, Any]]:
    """Every pose in full: what is left out is as at the start."""
    whole = [dict(start)]
    whole += [merged(start, pose) for pose in through]
    if finish is not None:
        whole.append(merged(start, finish))
    return whole


def movement_of(poses: Poses | None) -> Movement | None:
    """The movement that a form's poses describe; None where nothing is said."""
    if poses is None:
        return None
    return move_through(spelled_out(poses.start, poses.through, poses.finish))


_TELLING_MORE, _TELLING_BESIDES = 1.2, 10.0
"""A pose before the finish has to be a fifth more telling, and by what a bend of ten degrees tells besides,
so that of poses that are about alike the finish is shown (our choice, by eye)."""


_BACK_AGAIN = 1.0
"""Centimetres between start and finish, all in all, that are the same to the eye."""


def key_pose(movement: Movement) -> int:
    """The number of the pose that shows best what a form is: the one further from plain standing.

    What circles is known by its round arrow, which the start has.
    """
    if movement.start.pose.circles:
        return 0
    if ends_where_it_began(movement):
        ways = [_travel(movement.start, figure) for figure in movement.figures]
        return ways.index(max(ways))
    telling = [_unlike_standing(figure) for figure in movement.figures]
    best = len(telling) - 1
    # The finish unless another is much more telling: a deadlift starts where a squat ends, and what
    # begins and ends standing shows what it is on the way.
    for index, how_telling in enumerate(telling):
        if how_telling > _TELLING_MORE * telling[best] + _TELLING_BESIDES:
            best = index
    return best


def ends_where_it_began(movement: Movement) -> bool:
    """Whether it goes somewhere and comes back, so that its ends alone show nothing."""
    return len(movement.figures) > 2 and _travel(movement.start, movement.finish) < _BACK_AGAIN


def _travel(start: Figure, figure: Figure) -> float:
    """How far head, hips, hands and feet are, all in all, from where they began."""
    return sum(distance(a, b) for a, b in zip(_ends(start), _ends(figure), strict=True))


def _ends(figure: Figure) -> tuple[Vec, ...]:
    hands, feet = (arm.hand for arm in figure.arms), (leg.ankle for leg in figure.legs)
    return (figure.head, figure.pelvis, *hands, *feet)


def _unlike_standing(figure: Figure) -> float:
    """How far a pose is from plain standing: degrees of bent joints, centimetres of limbs, weighed by eye.

    A hand that hangs is about 60 cm below its shoulder; 120 above that, higher tells nothing more.
    """
    pose = figure.pose
    low = 0.0 if pose.base == "standing" else 30.0
    legs = sum(leg.bend for leg in figure.legs) / 2
    arms = sum(
        min(120.0, max(abs(arm.hand[1] - arm.shoulder[1] + 60.0), arm.bend * 0.4)) for arm in figure.arms
    )
    spread = abs(figure.legs[0].ankle[0] - figure.legs[1].ankle[0]) + abs(
        figure.legs[0].ankle[2] - figure.legs[1].ankle[2]
    )
    return low + legs + 0.4 * arms + abs(pose.lean) * 0.8 + abs(pose.round) + 2 * abs(pose.side) + spread


_BASES_FROM_THE_FRONT = ("standing", "seated", "half kneeling", "kneeling")

_BENT_OVER = 50.0
"""Degrees of lean beyond which a trunk, seen from the front, would be a foreshortened knot (our choice)."""
_ASIDE, _LIMB_ASIDE, _STEP_ASIDE = 10, 40, 25
"""Degrees of a side bend and of a limb, and centimetres of a step to the side, that are seen better from the
front (our choice, by eye)."""


def _moves_sideways(figures: Sequence[Figure]) -> bool:
    """Whether what happens is seen better from the front: a bend, a step or a limb to the side."""
    if figures[0].pose.base not in _BASES_FROM_THE_FRONT or any(
        abs(f.pose.lean) > _BENT_OVER for f in figures
    ):
        return False
    for figure in figures:
        pose = figure.pose
        limbs = max(*pose.hips_out, *pose.shoulders_out)
        if abs(pose.side) >= _ASIDE or limbs >= _LIMB_ASIDE or max(pose.out) >= _STEP_ASIDE:
            return True
    return False


def travelled(movement: Movement) -> tuple[Vec, Vec, Vec] | None:
    """Start and end of the point that goes furthest, and the middle of the trunk; None where nothing moves.

    To the finish, or to the first pose on the way, which is what the next picture shows.
    A ``path:`` decides; otherwise hips count more than hands, and hands more than feet, because they say
    more about a movement; of two sides that go equally far the right one, which is nearer (our choice).
    """
    start, after = movement.figures[0], movement.figures[min(1, len(movement.figures) - 1)]
    points = {
        "hips": (start.pelvis, after.pelvis, 1.6),
        "chest": (start.chest, after.chest, 0.8),
        "right foot": (start.legs[1].ankle, after.legs[1].ankle, 0.9),
        "left foot": (start.legs[0].ankle, after.legs[0].ankle, 0.88),
    }
    for side, name in enumerate(("left hand", "right hand")):
        rests = {start.pose.hands[side], after.pose.hands[side]} <= ON_THE_BODY.keys()
        if not rests or start.pose.path == name:
            points[name] = (start.arms[side].hand, after.arms[side].hand, 0.98 + 0.02 * side)
    if not start.pose.path and legs_change_about(movement):
        # They go as far back as ahead, and the arms with them: an arrow would say the half.
        return None
    best = start.pose.path or max(points, key=lambda name: _seen(points[name], movement.front_view))
    if best not in points:
        return None
    a, b, _ = points[best]
    return None if distance(a, b) < _SEEN_TO_MOVE else (a, b, start.chest)


_SEEN_TO_MOVE = 2.5
"""Centimetres: what moves less gets no arrow."""
_SAME_PLACE = 8.0
"""Centimetres within which one foot counts as standing where the other stood."""


def legs_change_about(movement: Movement) -> bool:
    """Whether each leg does at the finish what the other did at the start, as in a march.

    Not in a hop, which goes somewhere.
    """
    hops = any(figure.pose.lift > 0 for figure in movement.figures)
    return legs_swapped(movement.start, movement.finish) and not hops


def legs_swapped(before: Figure, after: Figure) -> bool:
    """Whether each foot is, seen from the side, where the other was."""
    (left, right), (left_after, right_after) = before.legs, after.legs
    moved = max(_apart(left.ankle, left_after.ankle), _apart(right.ankle, right_after.ankle))
    swapped = max(_apart(left.ankle, right_after.ankle), _apart(right.ankle, left_after.ankle))
    return moved > _SAME_PLACE > swapped


def walks(movement: Movement) -> bool:
    """Whether the feet change about on the floor, which is a stride."""
    poses = (movement.start.pose, movement.finish.pose)
    on_floor = all(pose.base == "standing" and pose.feet == ("floor", "floor") for pose in poses)
    return on_floor and legs_change_about(movement)


_STAYS = 4.0
"""Centimetres: a foot that moves less stays where it is, hips and a hand that move less are still
(our choice)."""


def working_side(movement: Movement) -> str:
    """The side that does the work as drawn, ``left`` or ``right``; empty where the poses leave it open.

    Told only where it is sure: the forearm of a side plank, the one hand that holds something or moves, the
    leg that bends while the other foot goes, the leg that swings while the hips are still. Seen from the
    front, lying, on all fours, on one leg, and where a pose is held, words may mean either side.
    """
    start, finish = movement.start, movement.finish
    if start.pose.base == "side plank":
        return "left"
    one_leg = any(figure.legs[0].carries != figure.legs[1].carries for figure in movement.figures)
    if start.pose.base == "standing" and one_leg:
        return ""
    hands = {where for where in start.pose.holds.values() if where in ("left hand", "right hand")}
    if len(hands) == 1 and len(start.pose.holds) == 1:
        return hands.pop().split()[0]
    if start.pose.base not in ("standing", "seated") or movement.front_view or legs_change_about(movement):
        return ""
    feet = [distance(start.legs[side].ankle, finish.legs[side].ankle) >= _STAYS for side in (0, 1)]
    if feet[0] != feet[1]:
        goes, stays = ("left", "right") if feet[0] else ("right", "left")
        body = max(distance(start.pelvis, finish.pelvis), distance(start.chest, finish.chest))
        return stays if body >= _STAYS else goes
    moved = [distance(start.arms[side].hand, finish.arms[side].hand) >= _STAYS for side in (0, 1)]
    if any(feet) or moved[0] == moved[1]:
        return ""
    return "left" if moved[0] else "right"


def _apart(one: Vec, other: Vec) -> float:
    """How far two points are from each other as seen from the side."""
    return math.hypot(one[0] - other[0], one[1] - other[1])


def _seen(point: tuple[Vec, Vec, float], front: bool) -> float:
    a, b, weight = point
    across = b[2] - a[2] if front else b[0] - a[0]
    return math.hypot(across, b[1] - a[1]) * weight


# --- the scene -----------------------------------------------------------------------------------


def scene_of(movement: Movement, figure: Figure) -> list[PlacedThing]:
    """What stands around: everything that any pose of the movement uses, where its first user put it."""
    found: dict[str, PlacedThing] = {}
    for one in (movement.start, figure, movement.finish):
        for placed in (*one.placed, *_used(one, movement.things)):
            found.setdefault(placed.thing, placed)
    if "raised chair" in found:
        found.pop("chair", None)
    return list(found.values())


# Centimetres, so that feet, knees and hands of the drawings lie on the things and not beside them (by eye).
_SEAT_EDGE = -SEAT_BACK + 17.0
"""The front edge of a seat, so far ahead of the hips that half the thigh lies on it."""
# From joints of the figure to the edge of what it stands or lies on.
_BEHIND_ANKLE, _UNDER_SHINS, _UNDER_TOES, _BEHIND_KNEE = 12.0, 22.0, 16.0, 4.0
_BACK_TO_EDGE = 38.0
"""From the back of a chair that hands hold to the front edge of its seat."""
_STEP_AHEAD, _THING_AHEAD, _WALL_BEHIND, _WALL_ASIDE = 24.0, 40.0, 32.0, 4.0
"""Where things stand that are only drawn and whose place the pose leaves open."""


def _used(figure: Figure, things: Mapping[str, float]) -> list[PlacedThing]:
    pose = figure.pose
    found: list[PlacedThing] = []
    if pose.base == "seated":
        found.append(PlacedThing(pose.seat, (_SEAT_EDGE, pose.height_of(pose.seat), 0.0)))
    for prop in pose.props:
        found.append(_prop(figure, prop))
    for side in (0, 1):
        foot = pose.feet[side]
        if foot in ("step", "second step", "chair", "bed") and pose.base in (
            "standing",
            "seated",
            "back to the wall",
        ):
            ankle = figure.legs[side].ankle
            found.append(PlacedThing(foot, (ankle[0] - _BEHIND_ANKLE, pose.height_of(foot), 0.0), -1))
        if foot in ("step", "chair") and pose.base in ("lying", "plank", "bridge"):
            ankle = figure.legs[side].ankle
            turn = -1 if pose.base != "plank" else 1
            at = ankle[0] - _UNDER_SHINS if turn == -1 else ankle[0] + _UNDER_TOES
            found.append(PlacedThing(foot, (at, pose.height_of(foot), 0.0), turn))
        hand = pose.hands[side]
        if hand in TOUCHED and hand not in ("floor", "arm rests") and (hand in things or hand == "rail"):
            found.append(_under_hand(figure, hand, figure.arms[side].hand, things))
    if pose.seat == "bed":
        found.append(PlacedThing("bed", (0.0, pose.height_of("bed"), 0.0)))
    return found


def _under_hand(figure: Figure, word: str, hand: Vec, things: Mapping[str, float]) -> PlacedThing:
    if word == "rail":
        climbs = len(set(figure.pose.feet) - {"lifted"}) == 2
        return PlacedThing("rail", (hand[0], hand[1] - PALM, hand[2]), 1 if climbs else 0)
    ahead = things[word]
    if word == "chair back":
        return PlacedThing("chair", (ahead + _BACK_TO_EDGE, figure.pose.height_of("chair"), 0.0), 1)
    upright = word in ("wall", "door")
    return PlacedThing(
        word, (ahead, figure.pose.height_of(word), hand[2] if upright else 0.0), 1 if upright else -1
    )


CHAIR_BEFORE_WALL = 42.0
"""From the edge of a seat to the wall against which its back stands: a seat is drawn 38 deep."""


def _prop(figure: Figure, prop: str) -> PlacedThing:
    """A thing only drawn: a cushion under the knee; chair and wall behind, or ahead where that is written."""
    if prop == "cushion":
        on_knees = [leg for leg in figure.legs if leg.on_knee]
        at = on_knees[0].knee if on_knees else figure.pelvis
        return PlacedThing("cushion", (at[0] - _BEHIND_KNEE, 0.0, 0.0))
    if prop in ("chair", "raised chair") and figure.pose.distance is None:
        return PlacedThing(prop, (_SEAT_EDGE, figure.pose.height_of(prop), 0.0))
    if prop in ("wall", "door") and figure.pose.distance is None:
        # Behind the figure, or the chair that it leans on; from the front, beside its right hand.
        chair = next((one for one in figure.placed if one.thing == "chair"), None)
        behind = -_WALL_BEHIND if chair is None else chair.at[0] - CHAIR_BEFORE_WALL
        return PlacedThing(prop, (behind, 0.0, figure.arms[1].hand[2] + _WALL_ASIDE), -1)
    if prop == "step":
        edge = figure.pose.distance if figure.pose.distance is not None else _STEP_AHEAD
        return PlacedThing("step", (edge, figure.pose.height_of("step"), 0.0), -1)
    ahead = figure.pose.distance if figure.pose.distance is not None else _THING_AHEAD
    return PlacedThing(prop, (ahead, figure.pose.height_of(prop), 0.0), 1 if prop in ("wall", "door") else -1)
