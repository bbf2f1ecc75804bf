"""What a need of the series may say: what it avoids, what it rather does without, and its limits."""

import re
from typing import Any

from sitegen.model import Limits
from sitegen.notation import Duration, Effort, NotationError, Quantity
from sitegen.reading.schemas.report import FieldsDisagree
from sitegen.reading.schemas.scalars import Flag, Short
from sitegen.reading.schemas.shapes import Key, ListOf, RecordShape
from sitegen.reading.schemas.shared_scalars import DEMAND, LINE, NAME, THE_KIT
from sitegen.reading.schemas.texts import Text

MOST_RPE = 10
"""Top of the scale of perceived exertion. On it a repetition in reserve is one point less (Zourdos et al.
2016, Journal of Strength and Conditioning Research, from memory): 4 in reserve is RPE 6."""

_EFFORT_EXAMPLE = "write for example at least 4 in reserve, or at most RPE 6"
_WRONG_SCALE = {"at least ": "rpe", "at most ": "reserve"}
"""The scale on which each bound would ask for more effort instead of limiting it."""
_LOAD_EXAMPLE = "write for example 5 kg, or 50 % of the load in the video, or both: [5 kg, 50 %]"


def _effort(text: str) -> int:
    """The most perceived exertion that is allowed. Raises NotationError where the text is no limit."""
    words = text.strip().lower()
    bound = next((bound for bound in _WRONG_SCALE if words.startswith(bound)), "")
    effort = Effort.parse(words.removeprefix(bound))
    if effort.low != effort.high:
        raise NotationError(f"{text!r} is a range, not a limit", _EFFORT_EXAMPLE)
    if bound and effort.scale == _WRONG_SCALE[bound]:
        raise NotationError(f"{text!r} asks for more effort, not for less", _EFFORT_EXAMPLE)
    if effort.high > MOST_RPE:
        raise NotationError(f"{text!r} leaves no repetition to do", _EFFORT_EXAMPLE)
    return effort.high if effort.scale == "rpe" else MOST_RPE - effort.high


def _load(text: str) -> tuple[str, float]:
    """Which limit of a load it is, and how much. Raises NotationError where the text is none."""
    words = text.strip().lower().removeprefix("at most ")
    if words == "none":
        return "load", 0.0
    if match := re.fullmatch(r"(\d{1,3}(?:\.\d+)?) ?%(?: of .*)?", words):
        if not 0 < float(match[1]) < 100:
            raise NotationError(f"{text!r} is no limit", "write a share between 1 % and 99 %")
        return "load_share", float(match[1]) / 100
    quantity = Quantity.parse(words)
    if quantity.kind != "mass":
        raise NotationError(f"{text!r} is not a mass", _LOAD_EXAMPLE)
    return "load", quantity.base


def _seconds(text: str) -> int:
    length = Duration.parse(text.strip().lower().removeprefix("at most "))
    if length.low != length.high:
        raise NotationError(f"{text!r} is a range, not a limit", "write the longest time, such as 10 s")
    if length.high == 0:
        raise NotationError(f"{text!r} leaves nothing to do", "write the longest time, such as 10 s")
    return length.high


def _limits(**fields: Any) -> Limits:
    for key in ("max_sets", "speed"):
        if fields.get(key):
            advice = f"write {key}: no, or leave it out"
            raise FieldsDisagree(key, "empty-limit", f"'{key}: yes' limits nothing", advice)
    loads = fields.pop("load", ())
    if len({kind for kind, _ in loads}) < len(loads):
        raise FieldsDisagree(
            "load", "duplicate", "the load has two limits of the same kind", "keep the lower one"
        )
    return Limits(**fields, **dict(loads))


LIMITS = RecordShape(
    "the limits of a need",
    {
        "effort": Key(
            Short("a limit of effort such as at least 4 in reserve", _effort, "at least 4 in reserve"),
            help="Repetitions to leave in reserve at least, or perceived exertion at most",
        ),
        "max_sets": Key(Flag(), help="no: no set is taken to as many repetitions as can be done"),
        "load": Key(
            ListOf(Short("a limit of load such as 5 kg or 50 %", _load, "5 kg"), least=1, most=2),
            help="Most that is lifted or held, in all hands together; or a share of the load in the video",
        ),
        "speed": Key(Flag(), help="no: nothing explosive, nothing against the clock"),
        "hold": Key(Short("a length of time such as 10 s", _seconds, "10 s"), help="Longest hold"),
        "session": Key(
            Short("a length of time such as 30 min", _seconds, "30 min"),
            help="Longest session, video and turns together",
        ),
    },
    _limits,
)


def _need(**fields: Any) -> dict[str, Any]:
    avoids, rather = fields.get("avoids", ()), fields.get("rather_without", ())
    if not avoids and fields.get("limits", Limits()) == Limits():
        advice = "add avoids: with demands, or limits: with what is allowed at most"
        raise FieldsDisagree(None, "empty-need", "the need neither avoids nor limits anything", advice)
    for key, words in (("avoids", avoids), ("rather_without", rather)):
        twice = next((word for index, word in enumerate(words) if word in words[:index]), None)
        if twice is not None:
            raise FieldsDisagree(key, "duplicate", f"{twice!r} is there twice", "keep one of the two")
    both = next((word for word in rather if word in avoids), None)
    if both is not None:
        message = f"{both!r} is both avoided and only rather done without"
        raise FieldsDisagree("rather_without", "clash", message, "keep it in one of the two lists")
    return fields


NEED = RecordShape(
    "a need",
    {
        "name": Key(NAME, required=True),
        "says": Key(LINE, help="What a client says"),
        "also": Key(ListOf(NAME, most=20), help="Other words that people and texts use for it"),
        "avoids": Key(ListOf(DEMAND), help="Demands that no version for this need makes"),
        "rather_without": Key(
            ListOf(DEMAND), help="Demands to do without where another form trains the same"
        ),
        "limits": Key(LIMITS, help="How much is allowed at most"),
        "has": Key(ListOf(THE_KIT), help="Kit that this client has with her, so that none is fetched"),
        "advice": Key(Text(600)),
    },
    _need,
)
