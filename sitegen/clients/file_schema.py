"""What a client's file may say. The shapes are those of the content files, and so are the messages."""

from typing import Any

from sitegen.clients.client import Amounts, ExerciseExchange, ProposedStep, TestResult
from sitegen.notation import Load, NotationError
from sitegen.reading.schemas.loads import HELD
from sitegen.reading.schemas.needs import LIMITS
from sitegen.reading.schemas.report import FieldsDisagree
from sitegen.reading.schemas.scalars import Flag, OneOf, Short, Whole
from sitegen.reading.schemas.series import time_of_day
from sitegen.reading.schemas.shapes import Key, ListOf, MapOf, RecordShape
from sitegen.reading.schemas.shared_scalars import (
    DEMAND,
    DOSES,
    LINE,
    NAME,
    THE_EXERCISE,
    THE_KIT,
    THE_VARIANT,
)
from sitegen.reading.schemas.texts import Day, Reference, Text
from sitegen.study.field_tests import FIELD_TESTS
from sitegen.vocabulary import WEEKDAYS

THE_FORM = Reference("an exercise, or of one of its variants as exercise/variant")
THE_SESSION = Reference("a session (its file's name without the number)")
THE_NEED = Reference("a need")


def _in_one_piece(text: str) -> Load:
    load = Load.parse(text)
    if len(load.parts) != 1 or load.sets:
        raise NotationError(
            f"{text!r} is more than one load", "write what one of them holds, such as 3 l water"
        )
    return load


def _amounts(**fields: Any) -> Amounts:
    if not fields:
        raise FieldsDisagree(
            None, "empty-amounts", "neither a dose nor a load is given", "add dose: or load:"
        )
    return Amounts(**fields)


def _exchange(**fields: Any) -> ExerciseExchange:
    if "exercise" not in fields and "variant" not in fields:
        advice = "write variant: for another form of it, or exercise: with a dose:"
        raise FieldsDisagree(None, "empty-exchange", "it does not say what is done instead", advice)
    if "exercise" in fields and "dose" not in fields:
        message = "the dose of one exercise may be wrong for another"
        raise FieldsDisagree("exercise", "missing-key", message, "add dose: with how much of it she does")
    return ExerciseExchange(**fields)


def _client(**fields: Any) -> dict[str, Any]:
    if len(set(fields.get("days", ()))) != len(fields.get("days", ())):
        raise FieldsDisagree("days", "duplicate", "a training day is named twice", "name each day once")
    return fields


CLIENT = RecordShape(
    "a client",
    {
        "name": Key(NAME, required=True, help="How she is addressed on her own page"),
        "age": Key(Whole(5, 120), help="In years; for the norms of field tests"),
        "sex": Key(OneOf("a sex of the published norms", ("woman", "man"))),
        "needs": Key(ListOf(THE_NEED), help="Needs of the series"),
        "avoids": Key(ListOf(DEMAND), help="Demands beyond those of her needs"),
        "limits": Key(LIMITS, help="How much is allowed at most; of her needs and these the strictest holds"),
        "leave_out": Key(ListOf(THE_FORM), help="Exercises, or forms of them, that she is never given"),
        "exchanges": Key(
            MapOf(
                THE_FORM,
                RecordShape(
                    "an exchange",
                    {
                        "exercise": Key(THE_EXERCISE, help="Another exercise; it needs a dose"),
                        "variant": Key(THE_VARIANT),
                        "dose": Key(DOSES),
                        "load": Key(HELD),
                    },
                    _exchange,
                ),
            ),
            help="By what a session asks for: what she does instead",
        ),
        "loads": Key(
            MapOf(THE_KIT, Short("what one of it holds, such as 3 l water", _in_one_piece, "3 l water")),
            help="By piece of kit: what it holds for her, wherever a session uses it",
        ),
        "exercises": Key(
            MapOf(THE_FORM, RecordShape("her amounts", {"dose": Key(DOSES), "load": Key(HELD)}, _amounts)),
            help="By form: her own dose and load",
        ),
        "kit": Key(ListOf(THE_KIT), help="What she has at home; nothing else is asked for"),
        "start": Key(Day()),
        "days": Key(ListOf(OneOf("a weekday", WEEKDAYS, "weekdays"), least=1, most=7)),
        "time": Key(Short('a time of day such as "18:30"', time_of_day, "18:30")),
        "per_week": Key(Whole(1, 7)),
        "skip": Key(ListOf(THE_SESSION), help="Sessions that she does not do"),
        "repeat": Key(MapOf(THE_SESSION, Whole(1, 20)), help="By session: how often she does it"),
        "note": Key(Text(2000), help="A word to her, at the top of her page"),
        "notes": Key(MapOf(THE_SESSION, Text(1000)), help="By session: a word to her"),
        "tests": Key(
            ListOf(OneOf("a field test", tuple(FIELD_TESTS)), most=len(FIELD_TESTS)),
            help="Field tests that she does at home; her page tells how, and her log brings the results",
        ),
        "baseline": Key(
            ListOf(
                RecordShape(
                    "a result",
                    {
                        "test": Key(OneOf("a field test", tuple(FIELD_TESTS)), required=True),
                        "day": Key(Day(), required=True),
                        "result": Key(Whole(0, 999), required=True),
                    },
                    TestResult,
                ),
                most=200,
            ),
            help="Results of field tests, the first and later ones",
        ),
        "proposals": Key(
            ListOf(
                RecordShape(
                    "a proposal",
                    {
                        "form": Key(THE_FORM, required=True),
                        "dose": Key(DOSES),
                        "load": Key(HELD),
                        "why": Key(LINE),
                        "accept": Key(Flag(), help="yes: from now on it is her dose or load"),
                    },
                    ProposedStep,
                ),
                most=200,
            ),
            help="Next steps for her, each with accept: yes once it holds",
        ),
    },
    _client,
)
