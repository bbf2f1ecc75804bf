"""A pose with nothing left out, and how it is made from the few things that a file says.

What a file says is a mapping of keys to values (``model.Poses``): numbers, words, and for what has two
sides a :class:`Sides`. A later pose, or a variant, says only what changes.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from sitegen.model import Poses, Sides
from sitegen.study.body.bases import BASES, ON_HANDS
from sitegen.study.body.things import THINGS

PAIRED = ("hips", "hips_out", "hips_turn", "knees", "heels", "step", "out", "feet")
"""Keys with two sides that belong to the legs."""
ARMS = ("shoulders", "shoulders_out", "shoulders_turn", "elbows", "hands", "forearms")
"""Keys with two sides that belong to the arms."""
KEPT = (*ARMS, "holds", "turn", "side", "head", "view", "circles", "path", "presses", "heights")
"""Keys that a new base leaves as they are; all others start afresh with it."""


PRESSING = (
    *("hands", "right hand", "left hand", "elbows", "right elbow"),
    *("knees", "right knee", "feet", "right foot", "left foot"),
    *("shoulders", "right shoulder", "chest", "belly"),
)
PRESS_WAYS = ("up", "down", "ahead", "back", "out", "in")
MARKS = ("hold", "breath", "quick", "travel")
PATHS = ("hips", "chest", "right hand", "left hand", "right foot", "left foot", "none")


@dataclass(slots=True, kw_only=True)
class FullPose:
    """Everything that places the figure. Angles in degrees from the anatomical position (standing, arms
    down), lengths in centimetres; pairs are left and right."""

    base: str = "standing"
    lean: float = 0.0
    """Inclination of the trunk from upright, forwards positive."""
    round: float = 0.0
    """How far the spine curls forwards, from the tail to the neck; negative arches it."""
    side: float = 0.0
    """Side bend, to the right positive."""
    turn: float = 0.0
    """Turn of the chest over the hips, to the right positive."""
    head: float = 0.0
    """Chin towards the chest positive."""
    hips: tuple[float, float] = (0.0, 0.0)
    hips_out: tuple[float, float] = (0.0, 0.0)
    hips_turn: tuple[float, float] = (0.0, 0.0)
    """Outward rotation."""
    knees: tuple[float | None, float | None] = (None, None)
    heels: tuple[float | None, float | None] = (None, None)
    """How far the foot is tipped, heel up positive; None lets the leg decide."""
    shoulders: tuple[float, float] = (0.0, 0.0)
    """Arm raised forwards; 180 is overhead."""
    shoulders_out: tuple[float, float] = (0.0, 0.0)
    shoulders_turn: tuple[float, float] = (0.0, 0.0)
    """Inward rotation: with bent elbows the hands come in front of the belly."""
    elbows: tuple[float | None, float | None] = (None, None)
    feet: tuple[str, str] = ("floor", "floor")
    hands: tuple[str, str] = ("free", "free")
    forearms: tuple[bool, bool] = (False, False)
    """Whether the forearm, and not the hand, is what touches."""
    step: tuple[float, float] = (0.0, 0.0)
    """How far each foot stands before (positive) or behind its usual place."""
    out: tuple[float, float] = (0.0, 0.0)
    """How far each foot stands outside its usual place."""
    weight: float | None = None
    """Share of the weight on the right foot in per cent; None for an even share."""
    shift: float = 0.0
    """How far the hips are carried forward of where balance puts them."""
    lift: float = 0.0
    """How far the figure is off the floor in a jump."""
    distance: float | None = None
    """How far ahead of the feet the thing stands that the hands use."""
    reach: float | None = None
    """Height at which hands meet a wall or a door."""
    seat: str = "chair"
    holds: Mapping[str, str] = field(default_factory=dict)
    """What is held (a thing) and where."""
    props: tuple[str, ...] = ()
    """Further things to draw."""
    circles: str = ""
    """What goes round and round: ``hands``, ``shoulders``, ``hips``, ``knee`` or ``foot``."""
    path: str = ""
    """What the arrow follows: ``hips``, ``chest``, ``right hand`` …, or ``none``; empty where what moves most
    decides."""
    presses: Mapping[str, str] = field(default_factory=dict)
    """What presses although nothing moves, and which way: a part of the body (:data:`PRESSING`) and one of
    :data:`PRESS_WAYS`. It is drawn and said; forces are not reckoned from it."""
    marks: tuple[str, ...] = ()
    """What a pose alone cannot show, each one of :data:`MARKS`: that it is held for a time, that breathing
    is what happens, that the movement is quick, that the figure walks on."""
    heights: Mapping[str, float] = field(default_factory=dict)
    """Heights of things that the series sets, in centimetres; those left out are as usual. No pose writes it:
    it comes with the exercises (see :func:`at_heights`)."""
    view: str = ""
    """One of ``movement.VIEWS``; empty where the movement decides."""
    given: frozenset[str] = frozenset()
    """Keys that were written, with ``left`` or ``right`` behind a dot for one side."""

    def height_of(self, thing: str) -> float:
        """Height of the surface of a thing, in centimetres."""
        return self.heights.get(thing, THINGS[thing].height)


def at_heights(poses: Poses | None, heights: Mapping[str, float]) -> Poses | None:
    """Poses in a home whose things have these heights; every form that is made from them is there too."""
    if poses is None or not heights:
        return poses
    return replace(poses, start={**poses.start, "heights": heights})


def merged(earlier: Mapping[str, Any], later: Mapping[str, Any]) -> dict[str, Any]:
    """What is said when ``later`` changes ``earlier``.

    A new base forgets legs, trunk and contacts. Angles of an arm free a hand that rested on the body;
    ``hips`` lift a foot that stood; a new place for a hand forgets the angles of its arm.
    """
    known = dict(earlier)
    if later.get("base", earlier.get("base")) != earlier.get("base"):
        known = {key: value for key, value in earlier.items() if key in KEPT}
    for key in ("hands", "forearms"):
        if key in later:
            for angle in (*ARMS[:4], "forearms" if key == "hands" else "hands"):
                if angle not in later:
                    known[angle] = _without(known.get(angle), later[key])
    if "shoulders" in later or "elbows" in later:
        known["hands"] = _freed(known.get("hands"), _pair(later.get("shoulders", later.get("elbows"))))
    for key, value in later.items():
        known[key] = _both(known.get(key), value)
    return {key: value for key, value in known.items() if value is not None}


_RESTING = {
    *("hips", "thighs", "knees", "belly", "ribs", "chest", "opposite shoulders", "shoulders", "sides"),
    *("ears", "together", "behind the head", "free"),
}
"""Places on the body, which angles of the arm overrule; a hand on a thing stays there."""


def _pair(value: Any) -> Sides:
    return value if isinstance(value, Sides) else Sides(value, value)


def _freed(hands: Any, angles: Sides) -> Any:
    """Places of the hands, without those on the body for the sides that have angles now."""
    pair = zip(_pair(hands), angles, strict=True)
    free = [None if now in _RESTING and new is not None else now for now, new in pair]
    if free == list(_pair(hands)):
        return hands
    return None if free == [None, None] else Sides(*free)


def _without(value: Any, said: Any) -> Any:
    """``value`` for the sides about which ``said`` says nothing."""
    if value is None or not isinstance(said, Sides):
        return None
    kept = [old if new is None else None for old, new in zip(_pair(value), said, strict=True)]
    return None if kept == [None, None] else Sides(*kept)


def _both(earlier: Any, later: Any) -> Any:
    if not isinstance(later, Sides) or None not in later or earlier is None:
        return later
    return Sides(*(o if n is None else n for o, n in zip(_pair(earlier), later, strict=True)))


def complete(said: Mapping[str, Any]) -> FullPose:
    """The pose that is meant by what is said."""
    base = BASES[said.get("base", "standing")]
    pose = FullPose(given=frozenset(_given(said)))
    for key, value in (*base.defaults.items(), *said.items()):
        _set(pose, key, value)
    for side in (0, 1):
        _let_go(pose, side)
        _hang(pose, side)
    return pose


_HANGING = ("standing", "seated", "kneeling", "half kneeling")


def _hang(pose: FullPose, side: int) -> None:
    """Free arms about which nothing is said hang straight down, however far the trunk leans."""
    if pose.base in _HANGING and f"shoulders.{side}" not in pose.given:
        angles = list(pose.shoulders)
        angles[side] = pose.lean
        pose.shoulders = (angles[0], angles[1])


def inherited(parent: Poses | None, own: Poses | None) -> Poses | None:
    """The poses of a form that says only what differs from the one it is made from."""
    if own is None or parent is None:
        return own if own is not None else parent
    start = merged(parent.start, own.start)
    finish: Mapping[str, Any] | None = None
    if not own.held and not (parent.held and own.finish is None):
        before = dict(parent.finish or {})
        if start.get("base") != parent.start.get("base"):
            before = {key: value for key, value in before.items() if key in KEPT}
        finish = merged(before, own.finish or {})
    return Poses(
        start=start,
        through=own.through or (parent.through if own.finish is None and "base" not in own.start else ()),
        finish=finish,
        held=finish is None,
        says=own.says,
    )


def _given(said: Mapping[str, Any]) -> Iterable[str]:
    for key, value in said.items():
        yield key
        if isinstance(value, Sides):
            yield from (f"{key}.{side}" for side in (0, 1) if value[side] is not None)
        else:
            yield from (f"{key}.0", f"{key}.1")


def _set(pose: FullPose, key: str, value: Any) -> None:
    if key == "forearms":
        _set(pose, "hands", value)
        left, right = _pair(value)
        pose.forearms = (left is not None or pose.forearms[0], right is not None or pose.forearms[1])
    elif key in PAIRED or key in ARMS:
        old = getattr(pose, key)
        setattr(pose, key, tuple(o if n is None else n for o, n in zip(old, _pair(value), strict=True)))
    else:
        setattr(pose, key, value)


def _let_go(pose: FullPose, side: int) -> None:
    """Angles of the hip lift a foot whose place is not written.

    Not where both hips are written in a base that rests on both legs: there they bend the body.
    """
    if f"hips.{side}" not in pose.given or f"feet.{side}" in pose.given:
        return
    if f"hips.{1 - side}" in pose.given and pose.base in (*ON_HANDS, "bridge"):
        return
    pose.feet = ("lifted", pose.feet[1]) if side == 0 else (pose.feet[0], "lifted")
