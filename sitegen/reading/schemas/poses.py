"""What a file may say about poses. The words come from ``study.body``, which knows what they mean."""

from collections.abc import Mapping
from typing import Any

from sitegen.model import Poses, Sides
from sitegen.notation import NotationError
from sitegen.reading.schemas import keys_elsewhere
from sitegen.reading.schemas.report import FieldsDisagree
from sitegen.reading.schemas.scalars import OneOf, Scalar
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.schemas.shapes import Either, Key, ListOf, MapOf, RecordShape
from sitegen.reading.schemas.texts import Matching, Text
from sitegen.study.body.bases import BASES
from sitegen.study.body.limits import LIMITS, AngleRange
from sitegen.study.body.movement import VIEWS
from sitegen.study.body.pose import MARKS, PATHS, PRESS_WAYS, PRESSING
from sitegen.study.body.reaching import ON_THE_BODY, TOUCHED
from sitegen.study.body.things import HELD, HOLDS, PROPS


class Angle(Scalar):
    """Degrees (or centimetres) within what a body can do; the message says what that is."""

    def __init__(self, limit: AngleRange) -> None:
        self.limit = limit
        self.says = f"a number from {limit.least:g} to {limit.most:g} ({limit.unit})"

    def parse(self, text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            raise NotationError(f"{text!r} is not a number", f"write {self.says}") from None
        if not self.limit.least <= value <= self.limit.most:
            what = f"{value:g} {self.limit.unit} is more than {self.limit.what} can do"
            raise NotationError(what, f"write {self.says}; 0 is {self.limit.zero}")
        return value

    def schema(self) -> dict[str, Any]:
        return {"type": "number", "minimum": self.limit.least, "maximum": self.limit.most}


def _one_or_both(inner: Scalar) -> Either:
    """One value for both sides, or a record with ``left`` and ``right``."""
    keys = {"left": Key(inner), "right": Key(inner)}
    record = RecordShape("left: and right:", keys, lambda left=None, right=None: Sides(left, right))
    return Either(inner, record, lambda value: value)


_HANDS = OneOf("a place for a hand", ("free", *ON_THE_BODY, *TOUCHED, "towel"))
_FOREARMS = OneOf("a thing for a forearm", ("floor", "counter", "wall", "chair", "chair back"))
_FEET = OneOf("a place for a foot", ("floor", "lifted", "step", "second step", "chair", "wall", "bed"))

_HELP: Mapping[str, str] = {
    "lean": "Trunk from upright, degrees; forwards is positive",
    "round": "How far the spine curls, degrees",
    "side": "Bend to the side, degrees; right is positive",
    "turn": "Chest turned over the hips, degrees; right is positive",
    "head": "Chin towards the chest, degrees",
    "hips": "Thigh lifted forwards, degrees; lifts the foot",
    "knees": "Bend of the knee, degrees; 0 is straight",
    "shoulders": "Arm raised forwards, degrees; 180 is overhead",
    "shoulders_out": "Arm raised sideways, degrees",
    "elbows": "Bend of the elbow, degrees; 0 is straight",
    "heels": "Heel raised by tipping the foot, degrees; negative lifts the toes",
    "step": "Foot ahead (or, negative, behind) of its usual place, cm",
    "out": "Foot outside its usual place, cm",
    "weight": "Share of the weight on the right foot, per cent",
    "shift": "Hips carried forwards, cm",
    "lift": "Off the floor in a jump, cm",
    "distance": "How far ahead of the feet the thing for the hands stands, cm",
    "reach": "Height at which hands meet a wall, cm",
}


def _angle(name: str) -> Shape:
    shape = Angle(LIMITS[name])
    return _one_or_both(shape) if LIMITS[name].paired else shape


POSE = RecordShape(
    "a pose",
    {
        "base": Key(OneOf("a base", tuple(BASES)), help="What the body rests on"),
        **{name: Key(_angle(name), help=_HELP.get(name, "")) for name in LIMITS},
        "feet": Key(_one_or_both(_FEET), help="What each foot is on"),
        "hands": Key(_one_or_both(_HANDS), help="What each hand is on"),
        "forearms": Key(_one_or_both(_FOREARMS), help="The same for the forearms"),
        "seat": Key(
            OneOf("a seat", ("chair", "wheelchair", "raised chair", "bed", "step")),
            help="What is sat or lain on",
        ),
        "holds": Key(
            MapOf(OneOf("a thing to hold", HELD), OneOf("a way to hold", HOLDS)),
            help="What is held, and where",
        ),
        "props": Key(ListOf(OneOf("a thing to draw", PROPS), most=4), help="Further things to draw"),
        "circles": Key(
            OneOf("a joint that circles", ("hands", "shoulders", "hips", "knee", "foot")),
            help="What goes round and round: drawn as a round arrow",
        ),
        "path": Key(
            OneOf("what moves", PATHS),
            help="What the arrow follows, where it should not be what moves most; none for no arrow",
        ),
        "presses": Key(
            MapOf(OneOf("a part of the body", PRESSING), OneOf("a direction", PRESS_WAYS)),
            help="What presses although nothing moves, and which way: drawn as an arrow",
        ),
        "marks": Key(
            ListOf(OneOf("a mark", MARKS), most=3),
            help="What a pose alone cannot show: hold, breath, quick, travel",
        ),
        "view": Key(OneOf("a view", VIEWS), help="Where it is seen from"),
    },
    dict,
)

_SENTENCE = Text(200)
"""As long as a line elsewhere (``shared_scalars.LINE``)."""


def _poses(
    start: Mapping[str, Any] | None = None,
    through: tuple[Mapping[str, Any], ...] = (),
    finish: Mapping[str, Any] | None = None,
    hold: Mapping[str, Any] | None = None,
    like: str = "",
    says: Mapping[str, str] | None = None,
) -> Poses:
    if hold is not None and (start is not None or finish is not None):
        raise FieldsDisagree(
            "hold", "malformed", "a pose that is held has no start or finish", "write hold: alone"
        )
    if hold is not None:
        return Poses(start=hold, held=True, like=like, says=says or {})
    return Poses(start=start or {}, through=through, finish=finish, like=like, says=says or {})


_FORM = Matching(
    "an exercise, or exercise/variant",
    r"[\w-]+(?:/[\w-]+)?",
    "write for example counter-push-up/palm-press",
    examples=["counter-push-up/palm-press"],
)
POSES = RecordShape(
    "poses",
    {
        "start": Key(POSE, help="Where the body is before"),
        "through": Key(ListOf(POSE, most=3), help="Poses on the way"),
        "finish": Key(POSE, help="What is different at the end"),
        "hold": Key(POSE, help="The one pose, where it is held"),
        "like": Key(_FORM, help="The form whose poses these start from"),
        "says": Key(
            RecordShape(
                "sentences",
                {name: Key(_SENTENCE) for name in ("start", "finish", "picture")},
                lambda **fields: fields,
                elsewhere=keys_elsewhere.SAYS,
            ),
            help="Own sentences in place of those made from the poses",
        ),
    },
    _poses,
)
