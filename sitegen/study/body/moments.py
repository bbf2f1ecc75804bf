"""What a pose asks of the joints: shares of the weight and static moments, for the standard body.

A moment is that of gravity and contact forces on the part of the body beyond the joint, in newton metres;
of knees, hips and shoulders that of one side, the larger one. Muscles that work against each other, speed
and momentum are not in it: it is an estimate for comparing forms, and no medical measure.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import acos, cos, degrees, radians

from sitegen.study.body.balance import loads, segments
from sitegen.study.body.figure import Figure
from sitegen.study.body.forces import Contact, contacts
from sitegen.study.body.movement import Movement
from sitegen.study.body.placing import place
from sitegen.study.body.pose import complete
from sitegen.study.body.segment_tables import GRAVITY, STANDARD
from sitegen.study.body.vectors import Vec, add, angle, between, cross, length, scale, sub

JOINTS = ("knees", "hips", "back", "shoulders")
"""In the order in which they are shown."""

LOW_BACK = 0.2
"""Where on the line from hip to shoulder the joint between the fourth and fifth lumbar vertebra is taken to
be. Common practice, no source."""
UPPER_TRUNK_MASS, UPPER_TRUNK_CENTRE = 0.355, 0.37
"""Thorax and abdomen in Winter's table 4.1: 0.355 of body mass, centre of mass 0.63 from the top."""


STRAIGHT = 15.0
"""Bend, in degrees, below which a knee that carries counts as straight."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseBurden:
    """What one pose asks."""

    hands: float
    """Share of the body's weight that hands or forearms carry, 0 to 1."""
    moments: dict[str, float]
    """Newton metres by joint."""
    knee: float
    """Largest bend of a knee that carries, in degrees."""
    trunk: float
    """Inclination of the trunk from upright, in degrees."""


Force = tuple[Vec, Vec]
"""Where (cm) and how much (N)."""


def asks_of(figure: Figure) -> PoseBurden:
    """The shares and moments of one pose."""
    forces = contacts(figure)
    pieces = list(segments(figure))
    held = list(loads(figure))
    knees, hips, shoulders = [], [], []
    for side, (leg, arm) in enumerate(zip(figure.legs, figure.arms, strict=True)):
        below = _weights(pieces, side, ("shank", "foot"))
        sole = _of(forces, side, ("foot",))
        kneels = _of(forces, side, ("knee",))
        # A straight knee that carries rests in itself; kneeling or sitting, floor or seat take it.
        rests = leg.carries and (leg.bend < STRAIGHT or leg.on_knee or figure.seat_carries)
        knees.append(0.0 if rests else moment(leg.knee, [*below, *sole, *kneels]))
        thigh = _weights(pieces, side, ("thigh", "shank", "foot"))
        hips.append(moment(leg.hip, [*thigh, *sole, *kneels]))
        holding = "right hand" if side else "left hand"
        hand: list[Force] = [(at, (0.0, -mass * GRAVITY, 0.0)) for on, mass, at in held if on == holding]
        whole = _weights(pieces, side, ("upper_arm", "forearm", "hand"))
        shoulders.append(moment(arm.shoulder, [*whole, *hand, *_of(forces, side, ("hand",))]))
    body = STANDARD.weight
    hands = [c.force for c in forces if c.part == "hand"]
    up, level = sum(force[1] for force in hands) / body, sum(map(length, hands)) / body
    carrying = [leg.bend for side, leg in enumerate(figure.legs) if leg.carries and not leg.on_knee]
    lean = sub(figure.chest, figure.pelvis)
    return PoseBurden(
        hands=max(up, level),
        moments={
            "knees": max(knees),
            "hips": max(hips),
            "back": _back(figure, forces, pieces, held),
            "shoulders": max(shoulders),
        },
        knee=max(carrying, default=0.0),
        trunk=_inclination(lean),
    )


def hardest(movement: Movement) -> PoseBurden:
    """The largest of each figure over the poses of a movement."""
    figures = [f for f in movement.figures if not f.pose.lift or f.pose.base == "seated"]
    all_ = [asks_of(figure) for figure in (*figures, *_just_above_seat(movement))]
    all_ = all_ or [asks_of(movement.start)]
    moments = {joint: max(a.moments[joint] for a in all_) for joint in JOINTS}
    moments["shoulders"] = max(moments["shoulders"], _through_level(movement))
    return PoseBurden(
        hands=max(a.hands for a in all_),
        moments=moments,
        knee=max(a.knee for a in all_),
        trunk=max(a.trunk for a in all_),
    )


_ABOUT_LEVEL = (80, 100)
"""Degrees between which an arm counts as level already: one that only comes there does not pass it (our
choice)."""


def _through_level(movement: Movement) -> float:
    """The shoulder's moment where an arm passes level on its way up or down: more than at either end.

    The elbow is taken to be half way between its bends at the ends.
    """
    found = 0.0
    start, finish = movement.start, movement.finish
    for side, hand in ((0, "left hand"), (1, "right hand")):
        arms = (start.arms[side], finish.arms[side])
        ends = [angle(sub(arm.elbow, arm.shoulder), (0.0, -1.0, 0.0)) for arm in arms]  # from straight down
        passes = min(ends) < _ABOUT_LEVEL[0] and max(ends) > _ABOUT_LEVEL[1]
        if not passes or any(arm.carries for arm in arms):
            continue
        bend = radians((arms[0].bend + arms[1].bend) / 2)
        held = sum(mass for on, mass, _ in loads(start) if on == hand)
        masses, cm, body = STANDARD.masses, STANDARD.cm, STANDARD.mass
        beyond = cos(bend)  # of the forearm's length, how much lies further out than the elbow
        parts = (
            (masses.upper_arm.mass * body, masses.upper_arm.centre * cm.upper_arm),
            (masses.forearm.mass * body, cm.upper_arm + beyond * masses.forearm.centre * cm.forearm),
            (masses.hand.mass * body + held, cm.upper_arm + beyond * (cm.forearm + 0.5 * cm.hand)),
        )
        found = max(found, sum(mass * GRAVITY * lever / 100 for mass, lever in parts))
    return found


SIT_DOWN = 37.5
"""Trunk inclination in rising from a chair, older adults: Turcot et al. 2012, Gait Posture 36:68-72."""


def _just_above_seat(movement: Movement) -> list[Figure]:
    """Sitting down is hardest just before the seat is touched: a pose that nobody writes."""
    seated = next((f for f in movement.figures if f.pose.base == "seated"), None)
    if seated is None or not any(f.pose.base == "standing" for f in movement.figures):
        return []
    # Knees between a high stool and a very low seat, halved eight times: a third of a degree.
    low, high, figure = 40.0, 130.0, seated
    for _ in range(8):
        knees = (low + high) / 2
        lean = max(SIT_DOWN, seated.pose.lean)
        said = {"base": "standing", "knees": knees, "lean": lean, "holds": seated.pose.holds, "hands": "hips"}
        said["heights"] = seated.pose.heights
        figure = place(complete(said))
        low, high = (knees, high) if figure.pelvis[1] > seated.pelvis[1] else (low, knees)
    return [figure]


def moment(joint: Vec, forces: Iterable[Force]) -> float:
    """The size of the moment of forces (N, at points in cm) about a joint, in newton metres."""
    total: Vec = (0.0, 0.0, 0.0)
    for at, force in forces:
        total = add(total, cross(scale(sub(at, joint), 0.01), force))  # centimetres to metres
    return length(total)


def _weights(
    pieces: list[tuple[str, int | None, float, Vec]], side: int | None, names: tuple[str, ...]
) -> list[Force]:
    return [
        (at, (0.0, -mass * GRAVITY, 0.0)) for name, of, mass, at in pieces if of == side and name in names
    ]


def _of(forces: list[Contact], side: int, parts: tuple[str, ...]) -> list[Force]:
    return [(c.at, c.force) for c in forces if c.side == side and c.part in parts]


def _back(
    figure: Figure,
    forces: list[Contact],
    pieces: list[tuple[str, int | None, float, Vec]],
    held: list[tuple[str, float, Vec]],
) -> float:
    """About the low back: everything above it. Where the back itself rests, there is nothing to say: 0."""
    if figure.back_carries:
        return 0.0
    joint = between(figure.pelvis, figure.chest, LOW_BACK)
    trunk = between(joint, figure.chest, UPPER_TRUNK_CENTRE)
    above: list[Force] = [(trunk, (0.0, -UPPER_TRUNK_MASS * STANDARD.weight, 0.0))]
    above += _weights(pieces, None, ("head",))
    for side in (0, 1):
        above += _weights(pieces, side, ("upper_arm", "forearm", "hand"))
        above += _of(forces, side, ("hand",))
    above += [(at, (0.0, -mass * GRAVITY, 0.0)) for _, mass, at in held]
    return moment(joint, above)


def _inclination(up: Vec) -> float:
    size = length(up) or 1.0
    return degrees(acos(max(-1.0, min(1.0, up[1] / size))))
