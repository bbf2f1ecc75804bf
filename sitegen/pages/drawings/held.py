"""What the figure holds or wears."""

import math
from collections.abc import Callable, Mapping

from sitegen.pages.drawings.scene import draw_cushion
from sitegen.pages.drawings.shapes import FLOOR, Layers, number
from sitegen.study.body.figure import Figure
from sitegen.study.body.things import TOWEL_KNOT
from sitegen.study.body.vectors import Vec, along, between, scale, sub, unit

_HIDES = 12.0
"""Centimetres: two hands that are nearer than this hold carriers of which one hides the other but for a rim,
which only confuses; a carrier is 20 wide."""
_FROM_ITS_END = 0.3
"""Share of a stick's length up to which it is drawn as seen from its end: so little of it has no
direction."""
_LIFTED_ANKLE = 14.0
"""Height from which on no towel lies under a foot: twice that of an ankle that stands (6.8)."""
_TOWEL_END = 16.0
"""Length up to which a towel is seen from its end: hardly more than its ends, 7 beyond each hand."""


def draw_held(layers: Layers, figure: Figure, *, behind: bool) -> None:
    """What is held; ``behind`` draws what the body hides, otherwise what is before it."""
    for thing, where in figure.pose.holds.items():
        _DRAW_HELD[thing](layers, figure, where, behind)


def _hands_of(where: str) -> tuple[int, ...]:
    return {"left hand": (0,), "right hand": (1,), "right forearm": (1,)}.get(where, (0, 1))


def _each_hand(layers: Layers, figure: Figure, where: str, behind: bool) -> list[tuple[Vec, bool]]:
    """Points of the hands that hold something each, as far as they belong to this layer."""
    found = []
    for side in _hands_of(where):
        far = side == 0 and not layers.front_view and where != "left hand"
        if far == behind:
            found.append((figure.arms[side].hand, far))
    return found


def _carrier(level: float) -> Callable[[Layers, Figure, str, bool], None]:
    def draw(layers: Layers, figure: Figure, where: str, behind: bool) -> None:
        if where in ("both hands", "chest", "hips", "thighs"):
            if not behind:
                middle = between(figure.arms[0].hand, figure.arms[1].hand, 0.5)
                hug = where == "chest"
                _vessel(layers, along(middle, (17.0 if hug else 0.0, (0.0, 1.0, 0.0))), level)
            return
        for hand, far in _each_hand(layers, figure, where, behind):
            shift = 4.0 if far else 0.0
            if far and _same_place(figure):
                continue
            _vessel(layers, along(hand, (shift, (1.0, 0.0, 0.0))), level)

    return draw


def _same_place(figure: Figure) -> bool:
    a, b = figure.arms[0].hand, figure.arms[1].hand
    return math.hypot(a[0] - b[0], a[1] - b[1]) < _HIDES


def _vessel(layers: Layers, hand: Vec, level: float) -> None:
    """A water carrier that hangs from the hand by its handle."""
    x, y = layers.flat(hand)
    wide, tall, top = 20.0, 27.0, y + 6.5
    left = x - wide / 2
    full = (tall - 3.0) * level
    corners = [(left - 2, y - 1), (left + wide + 2, top + tall + 2)]
    layers.raw("clear", f"M{number(left)} {number(top)}h{wide:g}v{tall:g}h{-wide:g}z", corners)
    layers.raw(
        "load", f"M{number(left)} {number(top + tall - full)}h{wide:g}v{number(full)}h{-wide:g}z", corners
    )
    layers.raw("vessel", f"M{number(x - 5)} {number(top)}v-4q0-4 5-4q5 0 5 4v4", corners)
    layers.raw(
        "vessel",
        f"M{number(left + 4)} {number(top)}h{wide - 8:g}q4 0 4 4v{tall - 8:g}q0 4-4 4h{8 - wide:g}"
        f"q-4 0-4-4v{8 - tall:g}q0-4 4-4z",
        corners,
    )


def _tin(layers: Layers, figure: Figure, where: str, behind: bool) -> None:
    if where == "both hands":
        if not behind:
            _can(layers, between(figure.arms[0].hand, figure.arms[1].hand, 0.5))
        return
    for hand, far in _each_hand(layers, figure, where, behind):
        if far and _same_place(figure):
            continue
        if where == "palms":
            hand = along(hand, (8.0, (0.0, 1.0, 0.0)))
        _can(layers, hand)


def _can(layers: Layers, at: Vec) -> None:
    x, y = layers.flat(at)
    w, h = 5.0, 7.0
    corners = [(x - w - 2, y - h - 2), (x + w + 2, y + h + 2)]
    box = f"M{number(x - w)} {number(y - h)}h{2 * w:g}v{2 * h:g}h{-2 * w:g}z"
    layers.raw("load", box, corners)
    layers.raw("vessel", box, corners)


def _pack(layers: Layers, figure: Figure, where: str, behind: bool) -> None:
    hidden = where == "back" and layers.front_view
    if hidden != behind:
        return
    frame = figure.chest_frame
    if where in ("chest", "front", "back"):
        middle = between(figure.pelvis, figure.chest, 0.62)
        ahead = -13.0 if where == "back" else 14.5
        _bag(layers, along(middle, (ahead, frame.front)), frame.up)
    elif where in ("hips", "thighs"):
        leg = figure.legs[1]
        share = 0.0 if where == "hips" else 0.35
        along_leg = unit(sub(leg.knee, leg.hip))
        at = between(figure.pelvis, leg.knee, share)
        normal = unit((-along_leg[1], along_leg[0], 0.0))
        up = normal if normal[1] > 0 else scale(normal, -1.0)
        _bag(layers, along(at, (15.0, up)), along_leg, flat=True)
    else:
        hands = [figure.arms[side].hand for side in _hands_of(where)]
        at = between(hands[0], hands[-1], 0.5)
        if where == "palms":
            _bag(layers, along(at, (14.0, (0.0, 1.0, 0.0))), (1.0, 0.0, 0.0), flat=True)
        elif where == "forearms" and figure.pose.base in ("lying", "bridge"):
            _bag(layers, along(at, (10.0, (0.0, 1.0, 0.0))), (1.0, 0.0, 0.0), flat=True)
        else:
            _bag(layers, along(at, (-17.0, (0.0, 1.0, 0.0))), (0.0, 1.0, 0.0), strap=at)


def _bag(layers: Layers, at: Vec, up: Vec, *, flat: bool = False, strap: Vec | None = None) -> None:
    x, y = layers.flat(at)
    wide, tall = (24.0, 31.0) if layers.front_view or flat or strap else (18.0, 32.0)
    if flat:
        wide, tall = 17.0, 30.0
    ux, uy = (up[2] if layers.front_view else up[0]), -up[1]
    size = math.hypot(ux, uy) or 1.0
    turn = math.degrees(math.atan2(ux / size, -uy / size))
    if strap is not None:
        sx, sy = layers.flat(strap)
        layers.path("vessel", [(x - 6, y - tall / 2 + 2), (sx, sy), (x + 6, y - tall / 2 + 2)], 2.0)
    r = 6.0
    w, h = wide / 2, tall / 2
    outline = _rounded(x, y, w, h, r, turn)
    layers.raw("load", outline, [(x - h, y - h), (x + h, y + h)])
    layers.raw("vessel", outline, [(x - h, y - h), (x + h, y + h)])


def _rounded(x: float, y: float, w: float, h: float, r: float, turn: float) -> str:
    """A rounded box about a point, turned clockwise."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def at(px: float, py: float) -> str:
        return f"{number(x + px * c - py * s)} {number(y + px * s + py * c)}"

    return (
        f"M{at(-w + r, -h)}L{at(w - r, -h)}Q{at(w, -h)} {at(w, -h + r)}"
        f"L{at(w, h - r)}Q{at(w, h)} {at(w - r, h)}"
        f"L{at(-w + r, h)}Q{at(-w, h)} {at(-w, h - r)}L{at(-w, -h + r)}Q{at(-w, -h)} {at(-w + r, -h)}z"
    )


def _broom(layers: Layers, figure: Figure, where: str, behind: bool) -> None:
    if where == "along the back":
        if behind:
            up = figure.chest_frame.up
            at = along(between(figure.pelvis, figure.chest, 0.6), (-9.0, figure.chest_frame.front))
            layers.line("stick", along(at, (-52.0, up)), along(at, (62.0, up)), margin=2.0)
        return
    if behind:
        return
    hands = [figure.arms[0].hand, figure.arms[1].hand]
    middle = between(hands[0], hands[1], 0.5)
    if where == "chest":
        middle = along(between(figure.pelvis, figure.chest, 0.72), (9.0, figure.chest_frame.front))
        way = figure.chest_frame.right
    else:
        way = unit(sub(hands[1], hands[0]), (0.0, 0.0, 1.0))
    if layers.front_view:
        layers.line("stick", along(middle, (-62.0, way)), along(middle, (62.0, way)), margin=2.0)
    else:
        # Seen from its end: a short piece says enough.
        side = (way[0], way[1], 0.0)
        if math.hypot(side[0], side[1]) < _FROM_ITS_END:
            x, y = layers.flat(middle)
            layers.disc("end", (x, y), 3.2)
        else:
            layers.line("stick", along(middle, (-62.0, way)), along(middle, (62.0, way)), margin=2.0)


def _towel(layers: Layers, figure: Figure, where: str, behind: bool) -> None:
    hands = [figure.arms[0].hand, figure.arms[1].hand]
    if where == "round the foot":
        if not behind:
            leg = max(figure.legs, key=lambda leg: leg.ankle[0] + leg.ankle[1])
            foot = between(leg.ankle, leg.toe, 0.7)
            for hand in hands:
                layers.line("cloth", hand, foot, margin=2.0)
        return
    if where == "under the feet":
        if not behind:
            for leg in figure.legs:
                if leg.ankle[1] < _LIFTED_ANKLE:
                    x = layers.flat(leg.ankle)[0]
                    # On the page, because a towel stays on the ground where the body is drawn lower.
                    ends = [
                        (x - 19, FLOOR - 7),
                        (x - 13, FLOOR - 1),
                        (x + 21, FLOOR - 1),
                        (x + 28, FLOOR - 7),
                    ]
                    layers.path("cloth", ends, 1.0)
        return
    if where == "round the back":
        if not behind:
            spine = along(between(figure.pelvis, figure.chest, 0.6), (-6.0, figure.chest_frame.front))
            waist = between(figure.pelvis, figure.chest, 0.55)
            for hand in hands:
                layers.line("cloth", spine, along(waist, (5.0, figure.chest_frame.front)), hand, margin=2.0)
        return
    if where == "under the back":
        if not behind:
            # Between the back and the ground, longer than the trunk at both ends.
            start, end = layers.flat(figure.pelvis)[0] - 4.0, layers.flat(figure.head)[0] - 16.0
            layers.path("cloth", [(start, FLOOR - 2.6), (end, FLOOR - 2.6)], 2.0)
        return
    if behind:
        return
    if figure.pose.base == "hanging back":
        door = next(one for one in figure.placed if one.thing == "door")
        for side, hand in enumerate(hands):
            if figure.arms[side].on == "towel":
                layers.line("cloth", hand, (door.at[0] + 4.0, TOWEL_KNOT, 0.0), margin=2.0)
        return
    if "door" in figure.pose.props and figure.pose.distance is not None:
        # Knotted and shut in the door that stands ahead.
        layers.line("cloth", hands[1], (figure.pose.distance + 4.0, hands[1][1] + 8.0, 0.0), margin=2.0)
        return
    way = unit(sub(hands[1], hands[0]), (0.0, 0.0, 1.0))
    a, b = along(hands[0], (-7.0, way)), along(hands[1], (7.0, way))
    if not layers.front_view and math.hypot(b[0] - a[0], b[1] - a[1]) < _TOWEL_END:
        x, y = layers.flat(between(hands[0], hands[1], 0.5))
        # Seen from its end: it hangs down, or lies along the ground where there is no room to hang.
        hangs = y < FLOOR - 24.0  # more than the 17 that it hangs down
        ground = FLOOR - 2.6  # so that its stroke of 4.5 lies on the line of the ground
        falls, lies = [(x, y), (x + 3, ground), (x + 20, ground)], [(x - 9, y), (x, y), (x + 15, y)]
        # Three points in every case, so that one picture can turn into the next.
        hanging = [(x, y - 1), (x, y + 8), (x, y + 17)]
        layers.path("cloth", hanging if hangs else falls if y < ground - 4 else lies, 3.0)
        return
    layers.line("cloth", a, b, margin=3.0)


def _held_cushion(layers: Layers, figure: Figure, where: str, behind: bool) -> None:
    if behind:
        return
    if where == "forearms":
        elbows = between(figure.arms[0].elbow, figure.arms[1].elbow, 0.5)
        hands = between(figure.arms[0].hand, figure.arms[1].hand, 0.5)
        apart = abs(figure.arms[1].hand[2] - figure.arms[0].hand[2])
        wide = apart - 8.0 if layers.front_view else 12.0
        draw_cushion(layers, between(elbows, hands, 0.45), wide, 17.0)
        return
    middle = between(figure.legs[0].knee, figure.legs[1].knee, 0.5)
    at = along(middle, (-2.0, (1.0, 0.0, 0.0)), (5.0, (0.0, 1.0, 0.0)))
    draw_cushion(layers, at, 22.0, 16.0)


_DRAW_HELD: Mapping[str, Callable[[Layers, Figure, str, bool], None]] = {
    "carrier": _carrier(0.92),
    "half carrier": _carrier(0.5),
    "tin": _tin,
    "backpack": _pack,
    "light backpack": _pack,
    "broom": _broom,
    "towel": _towel,
    "cushion": _held_cushion,
}
