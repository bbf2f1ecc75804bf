"""What an exercise file may say."""

from typing import Any

from sitegen.model import Muscles, Stepping
from sitegen.notation import Quantity
from sitegen.reading.schemas import keys_elsewhere
from sitegen.reading.schemas.loads import WEIGHS
from sitegen.reading.schemas.poses import POSES
from sitegen.reading.schemas.report import FieldsDisagree, Path
from sitegen.reading.schemas.scalars import Decimal, OneOf, Whole
from sitegen.reading.schemas.shapes import Key, ListOf, MapOf, RecordShape
from sitegen.reading.schemas.shared_scalars import (
    CAUTIONS,
    CUES,
    DEMAND,
    DOSE_CHANGE,
    EFFORT,
    FAULTS,
    IDENT,
    LINE,
    NAME,
    PATTERN,
    PICTURE,
    QUANTITY,
    SILENCE,
    TEMPO,
    THE_EXERCISE,
    THE_KIT,
    THE_VARIANT,
)
from sitegen.reading.schemas.texts import Sentence, Text
from sitegen.vocabulary import CHANGES

DEMANDS_KEPT = MapOf(DEMAND, LINE)
MOVE = Sentence(120)
"""Two or three lines beside a drawing on a phone; our choice."""
_MOVES = "What moves, the main joint first, in one short sentence beside the drawing"

MUSCLES = RecordShape(
    "the muscles",
    {
        "prime": Key(ListOf(NAME, most=12), help="Muscles that do most of the work"),
        "assist": Key(ListOf(NAME, most=12), help="Muscles that help"),
    },
    Muscles,
)


def _stepping(height: Quantity, per_minute: int) -> Stepping:
    if height.kind != "length":
        raise FieldsDisagree(
            "height", "malformed", f"{str(height)!r} is not a height", "write for example 20 cm"
        )
    return Stepping(height=height, per_minute=per_minute)


def _variant(path: Path, **fields: Any) -> dict[str, Any]:
    if "name" not in fields and "exercise" not in fields:
        advice = "add name:, or exercise: with an id"
        raise FieldsDisagree(None, "missing-key", "'name' is missing in a variant", advice)
    if fields.get("of") == fields["id"]:
        message = f"{fields['id']!r} is made from itself"
        raise FieldsDisagree("of", "variant-cycle", message, "name another variant, or leave of: out")
    return fields | {"path": path, "meant_for": fields.pop("for", ())}


VARIANT = RecordShape(
    "a variant",
    {
        "id": Key(IDENT, required=True),
        "name": Key(NAME),
        "change": Key(OneOf("a kind of variant", CHANGES, "changes"), required=True),
        "of": Key(THE_VARIANT, help="The variant it is made from; omitted for the main form"),
        "exercise": Key(THE_EXERCISE, help="Id of the exercise of the library that it is"),
        "kit": Key(ListOf(THE_KIT), help="All the kit it needs; if omitted, as in the form it is made from"),
        "demands": Key(ListOf(DEMAND), help="All it demands; if omitted, as in the form it is made from"),
        "demands_kept": Key(
            DEMANDS_KEPT, help="Demands that are right whatever poses, words and pattern say, and why"
        ),
        "pattern": Key(PATTERN),
        "muscles": Key(MUSCLES),
        "dose": Key(DOSE_CHANGE, help="How the dose changes"),
        "tempo": Key(TEMPO, help="Its own tempo, whatever that of the exercise it stands in for"),
        "effort": Key(EFFORT, help="How hard it is done at most"),
        "most_load": Key(WEIGHS, help="Most that is held in it, in all hands together"),
        "note": Key(LINE, help="Whom or what it is for"),
        "for": Key(
            ListOf(IDENT, least=1), help="Ids of the needs for which it is chosen before nearer forms"
        ),
        "move": Key(MOVE, help=_MOVES),
        "cues": Key(CUES),
        "faults": Key(FAULTS),
        "cautions": Key(CAUTIONS, help="Beyond those of the form it is made from"),
        "pictures": Key(ListOf(PICTURE, most=8)),
        "poses": Key(POSES, help="What differs from the poses of the form it is made from"),
    },
    _variant,
    wants_path=True,
    elsewhere=keys_elsewhere.VARIANT,
)

EXERCISE = RecordShape(
    "an exercise",
    {
        "name": Key(NAME, required=True),
        "also": Key(ListOf(NAME, most=20), help="Other names people use"),
        "summary": Key(Text(400), help="One sentence that says what it is"),
        "pattern": Key(PATTERN, required=True),
        "muscles": Key(MUSCLES, required=True),
        "kit": Key(ListOf(THE_KIT, most=12), help="Ids from series.yaml"),
        "demands": Key(
            ListOf(DEMAND), help="What somebody may have to avoid; if omitted, what the poses ask for"
        ),
        "demands_kept": Key(
            DEMANDS_KEPT, help="Demands that are right whatever poses, words and pattern say, and why"
        ),
        "tempo": Key(TEMPO),
        "met": Key(Decimal(1, 20), help="Metabolic equivalent while doing it"),
        "stepping": Key(
            RecordShape(
                "stepping",
                {"height": Key(QUANTITY, required=True), "per_minute": Key(Whole(5, 60), required=True)},
                _stepping,
            )
        ),
        "move": Key(MOVE, help=_MOVES),
        "cues": Key(CUES, help="How to do it well; the first is printed on the sheet"),
        "faults": Key(FAULTS, help="What goes wrong and the fix"),
        "cautions": Key(CAUTIONS),
        "pictures": Key(ListOf(PICTURE, most=8)),
        "poses": Key(POSES, help="Where the body is at the start and the finish"),
        "variants": Key(ListOf(VARIANT, most=60)),
        "silence": Key(SILENCE, help="Checks switched off here, each with its reason"),
    },
    dict,
    elsewhere=keys_elsewhere.EXERCISE,
)
