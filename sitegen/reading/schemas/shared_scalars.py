"""The scalar shapes that several kinds of content file share."""

from sitegen.model import Caution, Fault, Picture
from sitegen.notation import (
    Count,
    Dose,
    DoseChange,
    Duration,
    Effort,
    Load,
    Quantity,
    Tempo,
    habits,
    parse_clock,
)
from sitegen.reading.schemas.scalars import Flag, OneOf, Short, Whole
from sitegen.reading.schemas.set_by_set import SetBySet
from sitegen.reading.schemas.shapes import Either, Key, ListOf, MapOf, RecordShape
from sitegen.reading.schemas.texts import DemandWord, FilePath, Ident, Reference, Text
from sitegen.vocabulary import BLOCK_KINDS, FORMATS, PATTERNS

# Most characters, our choice: a sentence or two, a name that fits on a sheet, a long article of about 8,000
# words. They only stop what went into the wrong key, such as a whole text.
LINE = Text(200, lines=False)
NAME = Text(100, lines=False)
LONG_TEXT = Text(50_000)
"""See above."""
IDENT = Ident()
THE_EXERCISE = Reference("exercise", "an exercise")
THE_VARIANT = Reference("variant")
THE_KIT = Reference("kit", "a piece of kit")
FILE = FilePath()

CLOCK = Short("a clock time such as 2:05", parse_clock, "2:05", number=True)
DURATION = Short("a length of time such as 60-90 s", Duration.parse, "60-90 s", habit=habits.duration)
REST_TIME = Short("a length of time such as 60-90 s", Duration.parse, "60-90 s", habit=habits.rest)
DOSE = Short("a dose such as 8-12", Dose.parse, "8 each side", number=True, habit=habits.dose)
DOSE_CHANGE = Short(
    "a change of dose such as half", DoseChange.parse, "half", number=True, habit=habits.dose_change
)
COUNT = Short("a number of sets such as 3 or 2-3", Count.parse, "3", number=True, habit=habits.count)
TEMPO = Short("a tempo such as 3-1-1-0", Tempo.parse, "3-1-1-0", habit=habits.tempo)
EFFORT = Short("an effort such as RPE 7 or 2 in reserve", Effort.parse, "2 in reserve", habit=habits.effort)
DOSES = SetBySet(DOSE, Dose.of_sets, "such as dose: [12, 10, 8]")
LOAD = Short("a load such as 5 l water", Load.parse, "2 x 5 l water", habit=habits.load)
QUANTITY = Short("an amount such as 20 cm", Quantity.parse, "20 cm", habit=habits.quantity)

DEMAND = DemandWord()
PATTERN = OneOf("a movement pattern", PATTERNS, "patterns")
_SET_BY_SET = "write format: straight sets and the dose of each set, such as dose: [12, 10, 8]"
FORMAT = OneOf(
    "a format",
    FORMATS,
    "formats",
    {
        # Eight rounds of 20 s work and 10 s rest (Tabata and others 1996, from memory).
        "tabata": "write format: intervals, work: 20 s, rounds: 8 and rest: {between_exercises: 10 s, "
        "between_rounds: 10 s}",
        "ladder": _SET_BY_SET,
        "pyramid": _SET_BY_SET,
        "drop set": _SET_BY_SET + " with rest: {between_sets: none}",
        "drop sets": _SET_BY_SET + " with rest: {between_sets: none}",
        "follow along": "leave your_turn: out and write how it is done, such as format: circuit",
    },
)
BLOCK_KIND = OneOf("a kind of block", BLOCK_KINDS, "block kinds")
NUMBER = Whole(1, 99_999)
"""Of an episode: ten a day for twenty-five years."""

CAUTION = Either(
    Text(600),
    RecordShape(
        "a caution",
        {
            "text": Key(Text(600), required=True, help="What to take care of"),
            "title": Key(Text(60, lines=False), help="A word or two over it, where all cautions stand"),
            "short": Key(Text(90, lines=False), help="The same in a few words, for small places"),
            "about": Key(ListOf(DEMAND), help="The demands, or ids of kit, that it is about"),
            "source": Key(Text(400), help="The published source of a fact in it"),
            "asked": Key(
                Flag(),
                help="It lists who has to ask first: one of the questions before the first session",
            ),
        },
        Caution,
    ),
    lambda text: Caution(text=text),
)
CAUTIONS = ListOf(CAUTION, most=50)

FAULTS = ListOf(
    RecordShape(
        "a fault",
        {
            "see": Key(LINE, required=True, help="What it looks like"),
            "fix": Key(LINE, required=True, help="What to do instead"),
        },
        Fault,
    ),
    most=20,
)

PICTURE = RecordShape(
    "a picture",
    {
        "file": Key(FILE, required=True),
        "alt": Key(LINE, required=True, help="What it shows, for those who cannot see it"),
    },
    Picture,
)

CUES = ListOf(LINE, most=30, sentences=True)
SILENCE = MapOf(IDENT, LINE)
