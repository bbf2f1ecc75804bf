"""The body as strokes: far limbs, trunk, head, near limbs."""

import math

from sitegen.pages.drawings.shapes import FLOOR, RESTING, UNITS, Layers
from sitegen.study.body.figure import LEFT, RIGHT, Arm, Figure, Leg
from sitegen.study.body.vectors import Vec, add, along, between, distance, scale, sub

FAR_FOOT, FAR_HAND = 5.5, 3.5
"""How far, in centimetres, the far foot and hand are drawn aside where the near ones would hide them."""
HEAD_RADIUS = 10.5
"""In drawing units: about half the height of a head, 0.130 of 1.75 m (Drillis and Contini), which is 22.8
cm."""
_STRAIGHT = 8.0
"""Degrees of bend below which a knee counts as straight."""


def draw_far_limbs(layers: Layers, figure: Figure) -> None:
    """In a side view, the limbs of the left side."""
    if layers.front_view or _on_side(figure):
        return
    leg = _aside_leg(figure.legs[LEFT], figure.legs[RIGHT])
    layers.body("far", leg[0], leg[1], leg[2], leg[3])
    arm = _aside_arm(figure.arms[LEFT], figure.arms[RIGHT], figure.chest)
    layers.body("far", *arm)


def draw_trunk(layers: Layers, figure: Figure) -> None:
    """Trunk and head, and in a front view the hips and shoulders too."""
    a, b = layers.flat(figure.pelvis), layers.flat(figure.chest)
    if layers.front_view or _on_side(figure):
        bend = figure.pose.side * 0.12
        middle = between(figure.pelvis, figure.chest, 0.5)
        c = layers.flat(along(middle, (-bend, figure.frame.right)))
        layers.curve("limb", a, c, b)
        shoulders = [layers.flat(_drawn_shoulder(figure, side)) for side in (LEFT, RIGHT)]
        layers.path("limb", shoulders)
    else:
        middle = between(figure.pelvis, figure.chest, 0.5)
        c = layers.flat(along(middle, (-2 * figure.bulge, figure.frame.front)))
        layers.curve("limb", a, c, b)


def draw_head(layers: Layers, figure: Figure, *, clear: bool = False) -> None:
    """The head; ``clear`` with an edge, where it is drawn over arms that pass it."""
    at = drawn_head(layers, figure)
    if clear:
        edge = 2.5 if arms_pass_head(layers, figure) else 0.0  # units of the page's colour around it
        layers.disc("clear", at, HEAD_RADIUS + edge)
    layers.disc("head", at, HEAD_RADIUS)


def drawn_head(layers: Layers, figure: Figure) -> tuple[float, float]:
    """The middle of the head, on the ground where it lies there and never in it."""
    x, y = layers.flat(figure.head)
    lowest = FLOOR - (layers.lies_on or 0.0) * UNITS - HEAD_RADIUS
    if figure.pose.base == "side lying":
        # It lies on the lower arm, which would cover half of it.
        lowest -= 2 * RESTING * UNITS
    return x, min(y, lowest)


def arms_pass_head(layers: Layers, figure: Figure) -> bool:
    """Whether a near arm crosses the head, which it would cut in two."""
    hx, hy = drawn_head(layers, figure)
    for arm in figure.arms if layers.front_view else figure.arms[RIGHT:]:
        for share in (0.3, 0.6, 0.9):  # along upper arm and forearm: closer than a head is wide
            for a, b in ((arm.shoulder, arm.elbow), (arm.elbow, arm.hand)):
                x, y = layers.flat(between(a, b, share))
                if math.hypot(x - hx, y - hy) < HEAD_RADIUS + 1.0:
                    return True
    return False


def draw_near_legs(layers: Layers, figure: Figure) -> None:
    """The right leg in a side view, both in a front view."""
    both = layers.front_view or _on_side(figure)
    for side in (LEFT, RIGHT) if both else (RIGHT,):
        leg = figure.legs[side]
        hip = between(figure.pelvis, leg.hip, 0.6) if both else figure.pelvis
        kind = "far" if _on_side(figure) and side == LEFT else "limb"
        knee = _seen_knee(figure, leg, side) if layers.front_view else leg.knee
        if _on_side(figure) and leg.bend < _STRAIGHT:
            # Drawn lower on the ground, a straight leg would get a kink at the knee.
            hip_at, ankle_at, toe_at = map(layers.flat, (hip, leg.ankle, leg.toe))
            middle = ((hip_at[0] + ankle_at[0]) / 2, (hip_at[1] + ankle_at[1]) / 2)
            layers.path(kind, [hip_at, middle, ankle_at, toe_at])
            continue
        layers.body(kind, hip, knee, leg.ankle, _seen_toe(layers, leg, side))


def draw_near_arms(layers: Layers, figure: Figure) -> None:
    """The right arm, seen from the front both, with a clear edge where it crosses the body."""
    both = layers.front_view or _on_side(figure)
    for side in (LEFT, RIGHT) if both else (RIGHT,):
        arm = figure.arms[side]
        shoulder = _drawn_shoulder(figure, side) if both else figure.chest
        shift = sub(shoulder, arm.shoulder) if not both else (0.0, 0.0, 0.0)
        elbow = add(arm.elbow, scale(shift, 0.35))
        start = between(shoulder, elbow, 0.3)
        # Seen from the front, hands often meet before the chest: an edge around them would cut it in two.
        layers.body("gap", start, elbow, between(elbow, arm.hand, 0.7) if layers.front_view else arm.hand)
        layers.body("limb", shoulder, elbow, arm.hand)


def _on_side(figure: Figure) -> bool:
    return figure.pose.base in ("side plank", "side lying")


def _drawn_shoulder(figure: Figure, side: int) -> Vec:
    # A little nearer than it is, since a stroke reaches beyond its end (by eye).
    return between(figure.chest, figure.arms[side].shoulder, 0.85)


_THIGH_SHOWN = 0.32
"""How far a thigh that points at the eye is drawn downwards, as a share of its depth: as seen a little from
above, so that somebody seated does not look like somebody who stands before a chair."""

_POINTS_AT_THE_EYE = 20.0
"""Centimetres of a thigh (43 long) towards the eye from which on it is drawn so: our choice, by eye."""
_TURNED_OUT = 6.0
"""Centimetres that the toes of a foot are aside of its ankle where it is seen already that it is turned out;
else they are drawn 7 aside (our choice, by eye)."""


def _seen_knee(figure: Figure, leg: Leg, side: int) -> Vec:
    depth = max(0.0, leg.knee[0] - leg.hip[0])
    if figure.pose.base != "seated" or depth < _POINTS_AT_THE_EYE:
        return leg.knee
    out = 1.0 if side == RIGHT else -1.0
    return (leg.knee[0], leg.knee[1] - _THIGH_SHOWN * depth, leg.knee[2] + out * 0.14 * depth)


def _seen_toe(layers: Layers, leg: Leg, side: int) -> Vec:
    """Feet that point at the eye are drawn turned out a little, so that they are seen."""
    if not layers.front_view:
        return leg.toe
    out = 1.0 if side == RIGHT else -1.0
    if abs(leg.toe[2] - leg.ankle[2]) > _TURNED_OUT:
        return leg.toe
    return (leg.toe[0], leg.toe[1] - 1.0, leg.ankle[2] + out * 7.0)


_FEET_APART, _HANDS_APART = 14.0, 10.0
"""Centimetres from which on the far limb is seen beside the near one and drawn where it is (our choice, by
eye); it is moved aside the more the nearer they are, so that it never jumps."""


def _aside_leg(far: Leg, near: Leg) -> tuple[Vec, Vec, Vec, Vec]:
    close = max(0.0, 1.0 - distance(_flat(far.ankle), _flat(near.ankle)) / _FEET_APART)
    aside = FAR_FOOT * close / UNITS
    hip = (far.hip[0], far.hip[1], 0.0)
    return (
        hip,
        along(far.knee, (aside * 0.5, (1.0, 0.0, 0.0))),
        along(far.ankle, (aside, (1.0, 0.0, 0.0))),
        along(far.toe, (aside, (1.0, 0.0, 0.0))),
    )


def _aside_arm(far: Arm, near: Arm, chest: Vec) -> tuple[Vec, Vec, Vec]:
    close = max(0.0, 1.0 - distance(_flat(far.hand), _flat(near.hand)) / _HANDS_APART)
    aside = FAR_HAND * close / UNITS
    way = (1.0, 0.0, 0.0) if abs(far.hand[0] - chest[0]) < abs(far.hand[1] - chest[1]) else (0.0, 1.0, 0.0)
    shoulder = (far.shoulder[0], far.shoulder[1], 0.0)
    return shoulder, along(far.elbow, (aside * 0.6, way)), along(far.hand, (aside, way))


def _flat(at: Vec) -> Vec:
    return (at[0], at[1], 0.0)
