"""What series.yaml and the front matter of a page may say."""

import re
from typing import Any

from sitegen.model import Bounds, DateRange, Details, Host, Kit, LibraryLink, Need, ScheduleWishes, Trainer
from sitegen.notation import Count, NotationError, Quantity, parse_clock
from sitegen.reading.schemas.heights import HEIGHTS_OF_THINGS
from sitegen.reading.schemas.loads import HOLDS, WEIGHS
from sitegen.reading.schemas.look import LOOK
from sitegen.reading.schemas.needs import NEED
from sitegen.reading.schemas.publish import TARGET
from sitegen.reading.schemas.report import FieldsDisagree
from sitegen.reading.schemas.scalars import Decimal, Flag, OneOf, Short, Whole
from sitegen.reading.schemas.shapes import Either, Key, ListOf, MapOf, RecordShape
from sitegen.reading.schemas.shared_scalars import (
    CAUTIONS,
    LINE,
    LONG_TEXT,
    NAME,
    PICTURE,
    QUANTITY,
    REST_TIME,
    SILENCE,
    TEMPO,
)
from sitegen.reading.schemas.texts import (
    DIALLED_NUMBER,
    EMAIL,
    LANGUAGE,
    LIBRARY_VERSION,
    TIME_ZONE,
    Day,
    FolderBeside,
    Ident,
    Text,
    WebAddress,
)
from sitegen.reading.source import MappingNode, Node, ScalarNode, child_at
from sitegen.vocabulary import DEMANDS, REGIONS, UNIT_SYSTEMS, WEEKDAYS


class _NewDemand(Text):
    """A demand of the series' own."""

    def __init__(self) -> None:
        super().__init__(60, lines=False)
        self.says = "a demand of your own"

    def parse(self, text: str) -> str:
        if text in DEMANDS:
            advice = f"remove it, or choose another word; it already means: {DEMANDS[text]}"
            raise NotationError(f"{text!r} is a demand of every series", advice)
        return super().parse(text)


class _Sentence(Text):
    """When a demand applies; without it nobody could tell which forms have the demand."""

    def __init__(self) -> None:
        super().__init__(300, lines=False)
        self.says = "a sentence that says when it applies"

    def parse(self, text: str) -> str:
        if not text.strip():
            advice = "say when it applies, for example: A hand is in cold water"
            raise NotationError("it has no sentence", advice)
        return super().parse(text)


def _holiday(text: str) -> DateRange:
    first, to, last = text.partition(" to ")
    days = [Day().parse(day.strip()) for day in ([first, last] if to else [first])]
    if days[0] > days[-1]:
        raise NotationError(f"{text!r} runs backwards", "write the earlier date first")
    return DateRange(first=days[0], last=days[-1])


HOLIDAY = Short("a date, or two joined by to", _holiday, "2026-10-03 to 2026-10-10")


def _hours(text: str) -> int:
    match = re.fullmatch(r"(\d{1,3}) ?h", text.strip())
    if not match:
        raise NotationError(f"{text!r} is not a number of hours", "write for example 48 h")
    return int(match[1])


def _fraction(text: str) -> float:
    match = re.fullmatch(r"(\d{1,4}(?:\.\d+)?) ?%", text.strip())
    if not match:
        raise NotationError(f"{text!r} is not a percentage", "write for example 50 %")
    return float(match[1]) / 100


def _weekly_sets(text: str) -> Count:
    """A count, or a range from 0 for muscles that need no sets of their own."""
    if match := re.fullmatch(r"0 ?[-–] ?(\d{1,3})", text.strip()):
        return Count(0, int(match[1]))
    return Count.parse(text)


WEEKLY_SETS = Short("a number of sets such as 4-12 or 0-12", _weekly_sets, "4-12", number=True)


def _ages(text: str) -> Count:
    try:
        ages = Count.parse(text)
    except NotationError:
        raise NotationError(f"{text!r} are no ages", "write for example 17-79") from None
    if ages.high > 120:  # hardly anybody has lived longer
        raise NotationError(f"{text!r} are no ages", "write for example 17-79")
    return ages


AGES = Short("ages such as 17-79", _ages, "17-79")


def time_of_day(text: str) -> int:
    """Minutes after midnight. Raises NotationError."""
    if re.fullmatch(r"\d{1,2}:\d\d", text.strip()) and (minutes := parse_clock(text)) < 24 * 60:
        return minutes  # hours and minutes are counted as minutes and seconds are
    raise NotationError(f"{text!r} is not a time of day", _time_advice(text))


def _time_advice(text: str) -> str:
    """What to write for a time of day in another form."""
    plain = text.strip().lower().replace(" ", "")
    match = re.fullmatch(r"(\d{1,2})(?:[:.,h]?(\d\d))?h?([ap])?\.?m?\.?", plain)
    if match and (match[2] or match[3] or plain.endswith("h")):
        hour, minute = int(match[1]), int(match[2] or 0)
        if match[3]:
            hour = hour % 12 + (12 if match[3] == "p" else 0)
        if hour < 24 and minute < 60:
            return f'write "{hour}:{minute:02d}"'
    return 'write hours and minutes from 0:00 to 23:59, such as "18:30"'


def _schedule(**fields: Any) -> ScheduleWishes:
    if len(set(fields["days"])) != len(fields["days"]):
        raise FieldsDisagree("days", "duplicate", "a training day is named twice", "name each day once")
    fields["days"] = tuple(sorted(fields["days"], key=WEEKDAYS.index))
    return ScheduleWishes(**fields)


SCHEDULE = RecordShape(
    "the schedule",
    {
        "start": Key(Day(), required=True),
        "days": Key(ListOf(OneOf("a weekday", WEEKDAYS, "weekdays"), least=1, most=7), required=True),
        "time": Key(
            Short('a time of day such as "18:30"', time_of_day, "18:30"),
            help="If omitted, entries last all day",
        ),
        "time_zone": Key(TIME_ZONE),
        "repeats": Key(Whole(1, 20), help="How often each session is done"),
        "recovery": Key(Short("hours such as 48 h", _hours, "48 h"), into="recovery_hours"),
        "deload_every": Key(Whole(2, 52), help="Every how many weeks one is kept free"),
        "holidays": Key(ListOf(HOLIDAY, most=400)),
        "per_week": Key(Whole(1, 7), help="Sessions wanted in a week, and the most there may be"),
        "keep_pace": Key(Flag(), help="Whether recovery may not make a week fall short of that"),
        "finish_by": Key(Day(), help="Last day wanted for the last session"),
    },
    _schedule,
)


def _body_mass(**ends: Quantity) -> tuple[Quantity, Quantity]:
    for key, value in ends.items():
        if value.kind != "mass":
            raise FieldsDisagree(key, "malformed", f"{str(value)!r} is not a mass", "write for example 60 kg")
    low, high = ends["from"], ends["to"]
    if low.base > high.base:
        raise FieldsDisagree(
            "from", "malformed", "the range runs backwards", "write the lighter mass under from:"
        )
    return low, high


PERCENTAGE = Short("a percentage such as 50 %", _fraction, "50 %")

_BOUNDS = RecordShape(
    "the bounds",
    {
        "sets_per_week": Key(WEEKLY_SETS, help="Strength sets of each muscle in a week"),
        "muscles": Key(MapOf(NAME, WEEKLY_SETS)),
        "push_per_pull": Key(Decimal(0.1, 10)),
        "rise": Key(PERCENTAGE, help="Largest rise in volume of an exercise between episodes"),
        "load_rise": Key(PERCENTAGE, help="Largest rise in load between episodes; if omitted, 10 %"),
    },
    Bounds,
)


def _kit(**fields: Any) -> dict[str, Any]:
    load = fields.pop("load", None)
    weight = next((key for key in ("holds", "weighs") if fields.get(key)), None)
    if weight and load is False:
        advice = f"leave load: no out, or {weight}:"
        raise FieldsDisagree("load", "load-kit", f"it has {weight}: and is said to be no load", advice)
    return {**fields, "load_untold": weight is None and load is not False}


_KIT = RecordShape(
    "a piece of kit",
    {
        "name": Key(NAME, required=True),
        "holds": Key(HOLDS, help="Volume of a container, or the most that a bag carries"),
        "weighs": Key(ListOf(WEIGHS, least=1, most=20), help="For a weight: the masses there are of it"),
        "load": Key(Flag(), help="no: nothing that is lifted or held against its weight, such as a chair"),
        "stand_ins": Key(ListOf(LINE, most=20), help="What a home has instead"),
    },
    _kit,
)


def _details(**fields: Any) -> Details:
    kit, needs = fields.get("kit", {}), fields.get("needs", {})
    fields["kit"] = {key: Kit(id=key, **value) for key, value in kit.items()}
    fields["needs"] = {key: Need(id=key, **value) for key, value in needs.items()}
    fields["address"] = fields["address"].rstrip("/") + "/"
    return Details(**fields)


SERIES = RecordShape(
    "the series",
    {
        "title": Key(NAME, required=True),
        "summary": Key(Text(1000), required=True),
        "language": Key(LANGUAGE),
        "units": Key(OneOf("a system of units", UNIT_SYSTEMS)),
        "address": Key(WebAddress(), required=True, help="Where the site is published"),
        "theme": Key(Ident()),
        "look": Key(LOOK, help="Colours and a logo of your own"),
        "trainer": Key(
            RecordShape(
                "the trainer",
                {
                    "name": Key(NAME, required=True),
                    "studio": Key(NAME),
                    "about": Key(Text(1000)),
                    "email": Key(EMAIL),
                    "photo": Key(PICTURE, help="A photograph of you, for the home page"),
                },
                Trainer,
            ),
            required=True,
        ),
        "how_to_start": Key(LONG_TEXT),
        "cautions": Key(CAUTIONS),
        "call_if": Key(
            ListOf(LINE, most=30), help="Signs with which your clients stop and call the emergency number"
        ),
        "stop_if": Key(
            ListOf(LINE, most=30), help="Signs with which they stop, rest, and ask before they go on"
        ),
        "emergency_number": Key(
            DIALLED_NUMBER, help="What they dial for an ambulance where they live: a phone offers to call it"
        ),
        "tempo": Key(TEMPO),
        "changeover": Key(REST_TIME),
        "body_mass": Key(
            RecordShape(
                "a range of body mass",
                {"from": Key(QUANTITY, required=True), "to": Key(QUANTITY, required=True)},
                _body_mass,
            )
        ),
        "ages": Key(AGES, help="Youngest and oldest viewer: energy is told for them"),
        "kit": Key(MapOf(Ident(), _KIT)),
        "heights": Key(
            HEIGHTS_OF_THINGS,
            help="How high the things are that poses use: drawn, and used for what forms ask",
        ),
        "muscles": Key(MapOf(NAME, OneOf("a region", REGIONS))),
        "demands": Key(
            MapOf(_NewDemand(), _Sentence()),
            help="Demands beyond the known ones, each with the sentence that says when it applies",
        ),
        "needs": Key(MapOf(Ident(), NEED)),
        "schedule": Key(SCHEDULE),
        "bounds": Key(_BOUNDS),
        "hosts": Key(
            MapOf(
                Ident(),
                RecordShape(
                    "a host",
                    {
                        "name": Key(NAME, required=True),
                        "page": Key(WebAddress(("id", "seconds")), required=True),
                        "player": Key(WebAddress(("id", "seconds")), required=True),
                    },
                    Host,
                ),
            )
        ),
        "moved": Key(
            MapOf(Text(300, lines=False), Text(300, lines=False)), help="Old addresses and the new ones"
        ),
        "publish": Key(MapOf(Ident(), TARGET), help="Where the site is sent"),
        "library": Key(
            Either(
                FolderBeside(),
                RecordShape(
                    "a shared library",
                    {
                        "folder": Key(FolderBeside(), required=True),
                        "version": Key(
                            LIBRARY_VERSION, help="Told by sitegen check when another one is there"
                        ),
                    },
                    LibraryLink,
                ),
                lambda folder: LibraryLink(folder=folder),
            ),
            help="The content folder of another series whose exercises and shared blocks are read in place",
        ),
        "silence": Key(SILENCE),
    },
    _details,
)

PAGE_HEAD = RecordShape(
    "a page's head",
    {"title": Key(NAME, required=True), "summary": Key(LINE), "menu": Key(Flag())},
    dict,
)


def library_named(root: Node) -> str:
    """The folder of the shared library that a series.yaml names; empty for none, or for none that can be."""
    named = child_at(root, "library")
    if isinstance(named, MappingNode):
        named = child_at(named, "folder")
    try:
        return FolderBeside().parse(named.value) if isinstance(named, ScalarNode) else ""
    except NotationError:
        return ""
