"""The figure: where every joint is, and the forward and inverse kinematics that put it there."""

import math
from dataclasses import dataclass, field

from sitegen.study.body.pose import FullPose
from sitegen.study.body.segment_tables import STANDARD
from sitegen.study.body.vectors import Vec, add, along, cross, distance, dot, scale, sub, turned, unit

LEFT, RIGHT = 0, 1  # places in every pair
# A figure faces along x, stands up along y, and its right is at positive z; centimetres.
FORWARD: Vec = (1.0, 0.0, 0.0)
UP: Vec = (0.0, 1.0, 0.0)
OUT: tuple[Vec, Vec] = ((0.0, 0.0, -1.0), (0.0, 0.0, 1.0))
"""Directions ahead, up, and away from the middle on the left and right side."""

CM = STANDARD.cm
HIP_HALF = 0.05 * STANDARD.stature
"""Half the distance between the hip joints, which lie well inside the breadth of the hips (0.191 of
stature in the table). Common practice, no source."""
SHOULDER_HALF = 0.11 * STANDARD.stature
"""Half the distance between the shoulder joints, inside the breadth of 0.259. Common practice, no source."""
GRIP = 0.05 * STANDARD.stature
"""From the wrist to the middle of a closed hand: about half of the hand's 0.108."""
BALL = 0.075 * STANDARD.stature
"""From the ankle forward to the ball of the foot; the foot is 0.152 and its heel lies behind the ankle."""
TOE = 0.1 * STANDARD.stature
HEEL = 0.035 * STANDARD.stature
"""From the ankle forward to the toes and back to the heel: together 0.135, a little less than the foot's
0.152 (our choice)."""
BALL_HEIGHT = 4.0
"""Centimetres from the sole to the joint at the ball of the foot, about half the ankle's 6.8 (our choice)."""
LYING = 0.066 * STANDARD.stature
"""Height of the spine above the ground in lying: half a trunk's depth, which is about 23 cm of 1.75 m (our
choice)."""
PAD = 0.055 * STANDARD.stature
"""From the hip joint down to the seat, and from the spine back to a wall: less than in lying, since the whole
weight of the trunk presses the seat flat, and a back that leans has its shoulder blades at the wall (our
choice)."""
KNEE_PAD = 5.0
"""Centimetres from the floor to the middle of a knee that rests on it (our choice)."""
PALM = 3.0
"""Centimetres from what a flat hand rests on to the wrist (our choice)."""
ON_BALL, ON_HEEL = 15.0, -10.0
"""Degrees of tip beyond which a foot rests on its ball, or on its heel, alone; between them the whole sole
carries (our choice)."""
ANKLE_MOST = 39.0
"""Weight-bearing ankles bend 39 degrees with a bent knee (Baumbach et al. 2014, BMC Musculoskeletal Disorders
15:246); beyond that the heel comes off the ground."""
STEP_MISSES, LOOSE_STEP_MISSES = 1.0, 1.5
"""How far a foot may end from its ground, in centimetres, before it is told: where the hips were put over the
feet, and where something else decides their place (a seat, the hands, a bridge). Our choice."""
_MET = 0.05
"""Centimetres within which a foot has come to its place: far finer than a drawing shows."""


@dataclass(frozen=True, slots=True)
class TrunkFrame:
    """A trunk's directions: its front, up along the spine, its right."""

    front: Vec
    up: Vec
    right: Vec

    def out(self, side: int) -> Vec:
        """The direction away from the middle on that side."""
        return self.right if side == RIGHT else scale(self.right, -1.0)

    def pitched(self, degrees: float) -> "TrunkFrame":
        """Leaning forwards by so many degrees more."""
        return TrunkFrame(
            turned(self.front, self.right, -degrees), turned(self.up, self.right, -degrees), self.right
        )


UPRIGHT = TrunkFrame(FORWARD, UP, (0.0, 0.0, 1.0))


@dataclass(slots=True)
class Leg:
    """Joints of one leg, and how it stands."""

    hip: Vec
    knee: Vec
    ankle: Vec
    toe: Vec
    heel: Vec
    carries: bool = False
    """Whether it bears weight on the foot (or the knee)."""
    tipped: float = 0.0
    """Heel up by so many degrees against the ground."""
    on_edge: bool = False
    """Whether the ball of the foot is on the edge of a step, the heel free."""
    on_knee: bool = False

    @property
    def bend(self) -> float:
        """Flexion of the knee in degrees, 0 for straight."""
        return _bend(self.hip, self.knee, self.ankle)


@dataclass(slots=True)
class Arm:
    """Joints of one arm; the hand is the middle of the palm."""

    shoulder: Vec
    elbow: Vec
    hand: Vec
    on: str = ""
    """The thing it touches."""
    carries: bool = False
    on_forearm: bool = False

    @property
    def bend(self) -> float:
        """Flexion of the elbow in degrees, 0 for straight."""
        return _bend(self.shoulder, self.elbow, self.hand)

    @property
    def leans_at(self) -> Vec:
        """The point on which it leans, where it leans on anything."""
        return self.elbow if self.on_forearm else self.hand


@dataclass(frozen=True, slots=True)
class PlacedThing:
    """A thing of the scene: what it is, and the point that places it (its top front edge, the face of a
    wall at the floor, the middle of what is held)."""

    thing: str
    at: Vec
    turn: int = 1
    """1 where it faces as the figure does, -1 where it faces the figure."""


@dataclass(frozen=True, slots=True)
class PoseTrouble:
    """Something that a body cannot do, or a contact that is not met."""

    kind: str
    key: str
    """The key of the pose to look at."""
    amount: float = 0.0
    """Centimetres or degrees."""
    side: int | None = None
    what: str = ""


@dataclass(slots=True)
class Figure:
    """A posed body in the scene."""

    pose: FullPose
    pelvis: Vec
    chest: Vec
    """The middle between the shoulders."""
    head: Vec
    frame: TrunkFrame
    """Of the pelvis."""
    chest_frame: TrunkFrame
    legs: list[Leg]
    arms: list[Arm]
    placed: list[PlacedThing] = field(default_factory=list)
    trouble: list[PoseTrouble] = field(default_factory=list)
    seat_carries: bool = False
    back_carries: bool = False
    bulge: float = 0.0
    """How far the spine's curve leaves the straight line, backwards positive."""

    def stand(self, side: int, leg: Leg, gap: float, misses: float, what: str = "floor") -> None:
        """Put a leg on its ground; a foot that misses it by more than ``misses`` is told."""
        self.legs[side] = leg
        if gap > misses:
            self.trouble.append(PoseTrouble("reach", "step", gap, side, what))


def _bend(a: Vec, b: Vec, c: Vec) -> float:
    first, second = unit(sub(b, a)), unit(sub(c, b))
    return math.degrees(math.acos(max(-1.0, min(1.0, dot(first, second)))))


def reach_of(upper: float, lower: float, bend: float) -> float:
    """Distance from root to end of two segments with that flexion between them (law of cosines)."""
    return math.sqrt(upper * upper + lower * lower + 2 * upper * lower * math.cos(math.radians(bend)))


def two_segments(root: Vec, target: Vec, upper: float, lower: float, pole: Vec) -> tuple[Vec, Vec, float]:
    """The joint between two segments whose end shall be at ``target``, bent towards ``pole``.

    Gives the joint, the end that was reached, and how far that is from the target.
    """
    way = sub(target, root)
    wanted = math.sqrt(dot(way, way))
    # Within what two segments reach, and not exactly at its ends, where the triangle has no height.
    far = max(abs(upper - lower) + 1e-6, min(upper + lower - 1e-6, wanted))
    axis = unit(way, (0.0, -1.0, 0.0))
    share = (upper * upper - lower * lower + far * far) / (2 * far)
    height = math.sqrt(max(0.0, upper * upper - share * share))
    bent = sub(pole, scale(axis, dot(pole, axis)))
    if dot(bent, bent) < 1e-9:  # the pole lies along the limb: any way across will do
        bent = cross(axis, (0.0, 0.0, 1.0))
    joint = along(root, (share, axis), (height, unit(bent)))
    end = along(root, (far, axis))
    return joint, end, distance(end, target)


SOFT, NEARLY_STRAIGHT = 8.0, 4.0
"""Degrees that a free elbow or knee, and a knee that carries, are bent where nothing is said: nobody locks
them unasked (our choice)."""


def _swung(
    frame: TrunkFrame, side: int, swing: float, aside: float, turn: float, *, ahead: int
) -> tuple[Vec, Vec]:
    """Which way an upper arm or a thigh points that hangs from a trunk, and which way the limb folds there:
    ``ahead`` 1 or, as a knee does, -1. Angles are in degrees."""
    a, b, t = map(math.radians, (swing, aside, turn))
    out = frame.out(side)
    sagittal = along((0.0, 0.0, 0.0), (-math.cos(a), frame.up), (math.sin(a), frame.front))
    upper = along(scale(sagittal, math.cos(b)), (math.sin(b), out))
    level = along((0.0, 0.0, 0.0), (ahead * math.sin(a), frame.up), (ahead * math.cos(a), frame.front))
    outward = along(scale(sagittal, -math.sin(b)), (math.cos(b), out))
    return upper, along(scale(level, math.cos(t)), (-math.sin(t), outward))


def arm_by_angles(shoulder: Vec, frame: TrunkFrame, side: int, pose: FullPose) -> Arm:
    """An arm hanging free at the angles of the pose."""
    swing, aside, turn = pose.shoulders[side], pose.shoulders_out[side], pose.shoulders_turn[side]
    upper, fold = _swung(frame, side, swing, aside, turn, ahead=1)
    bend = pose.elbows[side]
    e = math.radians(bend if bend is not None else SOFT)
    forearm = along(scale(upper, math.cos(e)), (math.sin(e), fold))
    elbow = along(shoulder, (CM.upper_arm, upper))
    return Arm(shoulder, elbow, along(elbow, (CM.forearm + GRIP, forearm)))


def leg_by_angles(hip: Vec, frame: TrunkFrame, side: int, pose: FullPose) -> Leg:
    """A leg that stands on nothing, at the angles of the pose."""
    swing, aside, turn = pose.hips[side], pose.hips_out[side], pose.hips_turn[side]
    thigh, fold = _swung(frame, side, swing, aside, turn, ahead=-1)
    bend = pose.knees[side]
    k = math.radians(bend if bend is not None else SOFT)
    shank = along(scale(thigh, math.cos(k)), (math.sin(k), fold))
    knee = along(hip, (CM.thigh, thigh))
    ankle = along(knee, (CM.shank, shank))
    # The toes point across the shank, away from the side to which the knee folds.
    forward = along(scale(fold, -math.cos(k)), (math.sin(k), thigh))
    tip = pose.heels[side]
    # A foot that hangs points its toes by itself (our choice, by eye).
    drop = math.radians(tip if tip is not None else 20.0)
    toes = along(scale(forward, math.cos(drop)), (math.sin(drop), shank))
    return Leg(hip, knee, ankle, along(ankle, (TOE, toes)), along(ankle, (-HEEL, toes)))


def foot_on(ankle_floor: Vec, heading: Vec, tipped: float, *, edge: bool = False) -> tuple[Vec, Vec, Vec]:
    """Ankle, toe and heel of a foot tipped about its ball (heel up) or, negative, about its heel.

    ``ankle_floor`` is the point of the ground below the ankle of the flat foot. With the ball on the
    ``edge`` of a step the heel may sink: there negative tips it about the ball too.
    """
    t = math.radians(tipped)
    if tipped >= 0 or edge:
        ball = along(ankle_floor, (BALL, heading), (BALL_HEIGHT, UP))
        back = along((0.0, 0.0, 0.0), (-math.cos(t), heading), (math.sin(t), UP))
        rise = along((0.0, 0.0, 0.0), (math.sin(t), heading), (math.cos(t), UP))
        ankle = along(ball, (BALL, back), (CM.ankle - BALL_HEIGHT, rise))
        tip = along(ball, (TOE - BALL, heading))
        return ankle, tip, along(ankle, (HEEL, back))
    heel = along(ankle_floor, (-HEEL, heading), (BALL_HEIGHT, UP))
    ahead = along((0.0, 0.0, 0.0), (math.cos(t), heading), (-math.sin(t), UP))
    rise = along((0.0, 0.0, 0.0), (math.sin(t), heading), (math.cos(t), UP))
    ankle = along(heel, (HEEL, ahead), (CM.ankle - BALL_HEIGHT, rise))
    return ankle, along(ankle, (TOE, ahead)), heel


def standing_leg(
    hip: Vec, ground: Vec, heading: Vec, tip: float | None, pole: Vec, *, edge: bool = False
) -> tuple[Leg, float]:
    """A leg whose foot is on the ground at ``ground``; the heel rises as far as the ankle needs.

    Gives the leg and how far the foot is out of reach.
    """
    most = CM.thigh + CM.shank
    # As flat as the ankle allows, in steps finer than a reader sees in a drawing of a foot.
    tries = (tip,) if tip is not None else (0.0, 12.0, 24.0, 36.0, 48.0, 60.0, 72.0)
    best: tuple[Leg, float] | None = None
    for angle in tries:
        ankle, toe, heel = foot_on(ground, heading, angle, edge=edge)
        knee, reached, gap = two_segments(hip, ankle, CM.thigh, CM.shank, pole)
        shift = sub(reached, ankle)
        leg = Leg(
            hip, knee, reached, add(toe, shift), add(heel, shift), carries=True, tipped=angle, on_edge=edge
        )
        if best is None or gap < best[1] - _MET:
            best = (leg, gap)
        shank = unit(sub(knee, reached))
        forward = math.degrees(math.asin(max(-1.0, min(1.0, dot(shank, heading)))))
        if gap < _MET and forward - angle <= ANKLE_MOST and distance(hip, ankle) <= most:
            return leg, gap
        if gap < _MET:
            best = (leg, gap)
    assert best is not None
    return best
