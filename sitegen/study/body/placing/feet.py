"""Standing: the hips are put where the whole figure balances over its feet."""

import math

from sitegen.study.body.balance import centre_of_mass
from sitegen.study.body.figure import (
    BALL,
    CM,
    FORWARD,
    HIP_HALF,
    NEARLY_STRAIGHT,
    STEP_MISSES,
    UP,
    Arm,
    Figure,
    Leg,
    TrunkFrame,
    reach_of,
    standing_leg,
)
from sitegen.study.body.placing.trunk import SharedByPoses, leaning, trunk_of
from sitegen.study.body.pose import FullPose
from sitegen.study.body.reaching import place_arms
from sitegen.study.body.vectors import Vec, add, along, sub, turned

_BALANCED = 0.15
"""How near its aim, in centimetres, the centre of mass must be for the search to end."""
STANCE = 9.0
"""Half the usual distance between the feet."""
_MID_FOOT, _ON_BALL = 0.45, 0.95
"""Of the way from the ankle to the ball of the foot, where a foot carries: a whole sole near its
middle, one with its heel up just behind the ball (our choice)."""
_HEEL_UP = 15.0
"""Degrees of a raised heel from which on the ball alone carries, as in ``figure.ON_BALL``."""


def ground_of(pose: FullPose, side: int) -> Vec:
    """The point under the ankle of a foot that stands."""
    word = pose.feet[side]
    z = (STANCE + pose.out[side]) * (1 if side else -1)
    return (pose.step[side], pose.height_of(word) if word != "lifted" else 0.0, z)


def on_edge(pose: FullPose) -> bool:
    """Whether the balls of the feet stand on the edge of a step, so that heels can sink."""
    return all(word in ("step", "lifted") for word in pose.feet) and "step" in pose.feet


def heading_of(pose: FullPose, side: int) -> Vec:
    """Where the toes of a standing foot point."""
    return turned(FORWARD, UP, -pose.hips_turn[side] if side else pose.hips_turn[side])


def _carrying(pose: FullPose, side: int) -> float:
    """How far ahead of its ankle a foot carries: a sunk heel does on a floor, and hangs from the edge of a
    step."""
    heel = pose.heels[side] or 0.0
    on_ball = on_edge(pose) if heel < 0 else heel >= _HEEL_UP
    return BALL * (_ON_BALL if on_ball else _MID_FOOT)


def stand(pose: FullPose, shared: SharedByPoses) -> Figure:
    """On one foot or both, the hips where the whole figure is in balance over them."""
    frame = leaning(pose)
    standing = [side for side in (0, 1) if pose.feet[side] != "lifted"]
    if not standing:
        standing = [0, 1]
    share = _shares(pose, standing)
    grounds = {side: ground_of(pose, side) for side in standing}
    aim = [0.0, 0.0]
    for side in standing:
        at = along(grounds[side], (_carrying(pose, side), heading_of(pose, side)))
        aim[0] += share[side] * at[0]
        aim[1] += share[side] * at[2]
    rough = trunk_of(pose, frame, (0.0, 0.0, 0.0))
    place_arms_roughly(rough)
    x, z = aim[0], aim[1]
    pelvis, legs, gaps = (x, 0.0, z), dict[int, Leg](), dict[int, float]()
    # Each round moves the hips by what the whole figure is out of balance, a tenth more since arms and trunk
    # follow only in part; after five the last is taken.
    for _ in range(5):
        pelvis = (x, _hip_height(pose, frame, grounds, x, z), z)
        legs, gaps = _legs_to(pose, frame, pelvis, grounds)
        trial = _assembled(rough, pelvis, legs)
        now = centre_of_mass(trial)
        if abs(aim[0] - now[0]) + abs(aim[1] - now[2]) < _BALANCED:
            break
        x, z = x + (aim[0] - now[0]) * 1.1, z + (aim[1] - now[2]) * 1.1
    pelvis = (pelvis[0] + pose.shift, pelvis[1], pelvis[2])
    if pose.shift:
        pelvis = (pelvis[0], _hip_height(pose, frame, grounds, pelvis[0], pelvis[2]), pelvis[2])
        legs, gaps = _legs_to(pose, frame, pelvis, grounds)
    figure = trunk_of(pose, frame, pelvis)
    for side, leg in legs.items():
        figure.stand(side, leg, gaps[side], STEP_MISSES, pose.feet[side])
    place_arms(figure, shared.things)
    return figure


def place_arms_roughly(figure: Figure) -> None:
    """Arms as they will nearly be, for finding the balance before the legs are there."""
    for side in (0, 1):
        if figure.pose.hands[side] != "free":
            # An upper arm that hangs a little ahead, a forearm half way to level: about where most hands are
            # put.
            forward: Vec = (0.5, -0.6, 0.0)
            elbow = along(figure.arms[side].shoulder, (CM.upper_arm, (0.2, -0.98, 0.0)))
            figure.arms[side] = Arm(figure.arms[side].shoulder, elbow, along(elbow, (CM.forearm, forward)))


def _shares(pose: FullPose, standing: list[int]) -> dict[int, float]:
    if len(standing) == 1:
        return {standing[0]: 1.0}
    right = pose.weight / 100 if pose.weight is not None else 0.5
    return {0: 1 - right, 1: right}


def _hip_height(pose: FullPose, frame: TrunkFrame, grounds: dict[int, Vec], x: float, z: float) -> float:
    """As high as the wanted bend of the knee lets the hips be, and low enough for every foot."""
    heights = {}
    for side, ground in grounds.items():
        bend = pose.knees[side]
        bend = NEARLY_STRAIGHT if bend is None else bend
        heights[side] = _height_over(frame, side, ground, x, z, bend, pose)
    asked = [s for s in (1, 0) if s in grounds and pose.knees[s] is not None]
    if asked:
        lead = asked[0]  # the other leg follows, and may be all but straight
        others = [_height_over(frame, s, g, x, z, 1.0, pose) for s, g in grounds.items() if s != lead]
        return min([heights[lead], *others])
    return min(heights.values())


_FAR_BEHIND = 22.0
"""Centimetres behind the hips from which on a foot is taken to stand on its ball (our choice)."""
_HEEL_THEN = 40.0
"""Degrees its heel is up then, for a first height of the hips; the leg decides in the end (our choice)."""


def _height_over(
    frame: TrunkFrame, side: int, ground: Vec, x: float, z: float, bend: float, pose: FullPose
) -> float:
    tip = pose.heels[side] or 0.0
    behind = x - ground[0] > _FAR_BEHIND and pose.heels[side] is None
    if tip < 0 and on_edge(pose):
        return _over(frame, side, ground, x, z, bend, BALL * math.sin(math.radians(tip)), 0.0)
    up = math.radians(max(tip, _HEEL_THEN if behind else 0.0))
    rise = BALL * math.sin(up)
    nearer = BALL * (1 - math.cos(up))
    return _over(frame, side, ground, x, z, bend, rise, nearer)


def _over(
    frame: TrunkFrame, side: int, ground: Vec, x: float, z: float, bend: float, rise: float, nearer: float
) -> float:
    hip = along((x, 0.0, z), (HIP_HALF, frame.out(side)))
    far = reach_of(CM.thigh, CM.shank, bend)
    flat = math.hypot(hip[0] - ground[0] - nearer, hip[2] - ground[2])
    # Out of reach the hips come no lower than 5 cm over the ankle, and the gap of the foot is told.
    return ground[1] + CM.ankle + rise + math.sqrt(max(25.0, far * far - flat * flat))


def _legs_to(
    pose: FullPose, frame: TrunkFrame, pelvis: Vec, grounds: dict[int, Vec]
) -> tuple[dict[int, Leg], dict[int, float]]:
    legs, gaps = {}, {}
    for side, ground in grounds.items():
        hip = along(pelvis, (HIP_HALF, frame.out(side)))
        heading = heading_of(pose, side)
        pole = along(heading, (0.001, UP))
        legs[side], gaps[side] = standing_leg(
            hip, ground, heading, pose.heels[side], pole, edge=on_edge(pose)
        )
    return legs, gaps


def _assembled(rough: Figure, pelvis: Vec, legs: dict[int, Leg]) -> Figure:
    """The rough figure moved to a pelvis, with its standing legs."""
    by = sub(pelvis, rough.pelvis)
    return Figure(
        rough.pose,
        pelvis,
        add(rough.chest, by),
        add(rough.head, by),
        rough.frame,
        rough.chest_frame,
        [legs.get(side) or _leg_moved(rough.legs[side], by) for side in (0, 1)],
        [Arm(add(a.shoulder, by), add(a.elbow, by), add(a.hand, by)) for a in rough.arms],
    )


def _leg_moved(leg: Leg, by: Vec) -> Leg:
    return Leg(add(leg.hip, by), add(leg.knee, by), add(leg.ankle, by), add(leg.toe, by), add(leg.heel, by))
