"""What episode and routine files may say."""

from dataclasses import replace
from typing import Any

from sitegen.model import Item, Rest, Video, VideoFile
from sitegen.notation import Count
from sitegen.reading.schemas import keys_elsewhere
from sitegen.reading.schemas.loads import HELD
from sitegen.reading.schemas.report import FieldsDisagree
from sitegen.reading.schemas.scalars import Whole
from sitegen.reading.schemas.shapes import Either, Key, ListOf, MapOf, RecordShape
from sitegen.reading.schemas.shared_scalars import (
    BLOCK_KIND,
    CAUTIONS,
    CLOCK,
    COUNT,
    DOSES,
    DURATION,
    EFFORT,
    FILE,
    FORMAT,
    IDENT,
    LINE,
    LONG_TEXT,
    NAME,
    NUMBER,
    PICTURE,
    REST_TIME,
    SILENCE,
    TEMPO,
    THE_EXERCISE,
    THE_VARIANT,
)
from sitegen.reading.schemas.texts import Day, Reference, Text
from sitegen.vocabulary import AMRAP, EMOM, INTERVALS, ITEMS_OF_FORMAT

REST = RecordShape(
    "the rests",
    {
        "between_exercises": Key(REST_TIME),
        "between_sets": Key(REST_TIME),
        "between_rounds": Key(REST_TIME, into="between_sets"),
        "after": Key(REST_TIME, help="After the block"),
    },
    Rest,
    elsewhere=keys_elsewhere.REST,
    short="rest: {between_sets: {}}; where it follows each exercise, as in intervals, "
    "rest: {between_exercises: {}}",
)

ITEM = RecordShape(
    "an item",
    {
        "exercise": Key(THE_EXERCISE, required=True, help="Id of an exercise"),
        "variant": Key(THE_VARIANT, help="The variant shown as the main form"),
        "at": Key(CLOCK, help="When it is shown in the video"),
        "dose": Key(DOSES, help="What one set asks for, or a list with the dose of each set"),
        "tempo": Key(TEMPO),
        "effort": Key(EFFORT),
        "load": Key(HELD, help="What is held, and in which piece of kit"),
        "note": Key(LINE),
        "versions": Key(MapOf(Reference("need"), THE_VARIANT), help="Your own choice of variant by need"),
    },
    Item,
    elsewhere=keys_elsewhere.ITEM,
)


def _block(**fields: Any) -> dict[str, Any]:
    """Checks that hold for a block wherever it stands."""
    form, items = fields["format"], fields["items"]
    least, most = ITEMS_OF_FORMAT.get(form, (1, 99))
    if not least <= len(items) <= most:
        wanted = str(least) if least == most else f"{least} or more"
        message = f"a {form} has {wanted} items, this one {len(items)}"
        raise FieldsDisagree("items", "wrong-number", message, "change the format or the items")
    if form == INTERVALS and "work" not in fields:
        raise FieldsDisagree("format", "missing-key", "intervals need a work time", "add work: 40 s")
    if form in (AMRAP, EMOM) and "time" not in fields:
        raise FieldsDisagree("format", "missing-key", f"{form} needs a time", "add time: 8 min")
    if form != INTERVALS:
        for index, item in enumerate(items):
            if item.dose is None:
                message = f"item {index + 1} ({item.exercise}) has no dose"
                raise FieldsDisagree("items", "missing-key", message, "add dose: 8-12")
    return _settle_sets(fields)


def _settle_sets(fields: dict[str, Any]) -> dict[str, Any]:
    """Doses and loads given set by set say how many sets there are; where all are the same, one says it."""
    listed = [
        (index, item, what, len(given.sets))
        for index, item in enumerate(fields["items"])
        for what, given in (("doses", item.dose), ("loads", item.load))
        if given is not None and given.sets
    ]
    if not listed:
        return fields
    if fields["format"] in (AMRAP, EMOM, INTERVALS):
        message = f"{listed[0][2]} set by set need counted sets, and a block of {fields['format']} has none"
        raise FieldsDisagree("items", "clash", message, "write one for each item")
    sets = fields.get("sets") or Count(listed[0][3], listed[0][3])
    for index, item, what, given in listed:
        if (sets.low, sets.high) != (given, given):
            told = f"has the {what} of {given} sets, the block has {sets}"
            message = f"item {index + 1} ({item.exercise}) {told}"
            raise FieldsDisagree("items", "wrong-number", message, f"write {sets} {what}, or sets: {given}")
    return fields | {"sets": sets, "items": tuple(map(_with_one_dose, fields["items"]))}


def _with_one_dose(item: Item) -> Item:
    """The item with one dose for all sets where they are the same."""
    same = item.dose is not None and len(set(item.dose.sets)) == 1
    return replace(item, dose=item.dose.sets[0]) if same and item.dose else item


_BLOCK_KEYS = {
    "name": Key(NAME, required=True),
    "kind": Key(BLOCK_KIND, required=True),
    "format": Key(FORMAT, required=True),
    "sets": Key(COUNT),
    "rounds": Key(COUNT, into="sets"),
    "rest": Key(REST),
    "work": Key(REST_TIME, help="Work time of one interval"),
    "time": Key(DURATION, help="Time cap, or length of every-minute work"),
    "note": Key(Text(600)),
    "items": Key(ListOf(ITEM, least=1, most=40), required=True),
}

ROUTINE = RecordShape("a routine", _BLOCK_KEYS, _block, elsewhere=keys_elsewhere.ROUTINE)


def _episode_block(**fields: Any) -> dict[str, Any]:
    if "routine" in fields:
        for key in ("kind", "format", "items", "work", "time"):
            if key in fields:
                advice = "leave it out, or write the block without routine:"
                raise FieldsDisagree(key, "clash", f"{key!r} comes from the routine", advice)
        return fields
    for key in ("name", "kind", "format", "items"):
        if key not in fields:
            advice = f"add {key}:, or routine: with the id of a shared block"
            raise FieldsDisagree(None, "missing-key", f"{key!r} is missing in a block", advice)
    return _block(**fields)


EPISODE_BLOCK = RecordShape(
    "a block",
    {name: Key(key.shape, into=key.into, help=key.help) for name, key in _BLOCK_KEYS.items()}
    | {
        "routine": Key(Reference("routine"), help="Id of a shared block"),
        "at": Key(CLOCK, help="Start in the video; omitted until the session is filmed"),
        "your_turn": Key(CLOCK, help="When the viewer pauses and does it"),
    },
    _episode_block,
    elsewhere=keys_elsewhere.BLOCK,
)


VIDEO_FILE = Either(
    FILE,
    RecordShape(
        "a video file",
        {
            "file": Key(FILE, required=True),
            "height": Key(Whole(90, 4320), help="Of the picture in pixels, where one form is smaller"),
        },
        VideoFile,
    ),
    lambda file: VideoFile(file=file),
)


def _video(**fields: Any) -> Video:
    if ("file" in fields) == ("host" in fields):
        advice = "write file: media/03.webm, or host: and id:"
        raise FieldsDisagree(None, "clash", "a video is a file or is at a host", advice)
    if "host" in fields and "id" not in fields:
        raise FieldsDisagree("host", "missing-key", "a hosted video has an id", "add id:")
    return Video(files=fields.pop("file", ()), **fields)


EPISODE = RecordShape(
    "an episode",
    {
        "title": Key(NAME, required=True),
        "number": Key(NUMBER, required=True),
        "slug": Key(IDENT, help="Its address; if omitted, the file's name without the number"),
        "released": Key(Day()),
        "summary": Key(Text(600)),
        "lasts": Key(DURATION, help="The time you announce: video and turns together"),
        "video": Key(
            RecordShape(
                "a video",
                {
                    "file": Key(
                        ListOf(VIDEO_FILE, least=1, most=8),
                        help="The file, or the same film in several forms, the best to try first",
                    ),
                    "host": Key(Reference("host")),
                    "id": Key(Text(100, lines=False)),
                    "length": Key(CLOCK),
                },
                _video,
                short="video: {file: {}}",
                elsewhere=keys_elsewhere.VIDEO,
            )
        ),
        "captions": Key(FILE),
        "poster": Key(PICTURE),
        "notes": Key(LONG_TEXT),
        "kit": Key(ListOf(IDENT, most=30), help="At hand beyond what the session uses as filmed"),
        "cautions": Key(CAUTIONS),
        "blocks": Key(ListOf(EPISODE_BLOCK, most=60), required=True),
        "silence": Key(SILENCE),
    },
    dict,
    elsewhere=keys_elsewhere.EPISODE,
)
