"""The scalar shapes that several kinds of content file share."""

from sitegen.model import Caution, Fault, Picture
from sitegen.notation import Count, Dose, DoseChange, Duration, Effort, Load, Quantity, Tempo, parse_clock
from sitegen.reading.schemas.shapes import Choice, Either, Key, ListOf, MapOf, Record, Short, Whole
from sitegen.reading.schemas.texts import DemandWord, FilePath, Ident, Text
from sitegen.vocabulary import BLOCK_KINDS, FORMATS, PATTERNS

LINE = Text(200, lines=False)
NAME = Text(100, lines=False)
TEXT = Text()
LONG_TEXT = Text(50_000)
IDENT = Ident()
FILE = FilePath()

CLOCK = Short("a clock time such as 2:05", parse_clock, "2:05", number=True)
DURATION = Short("a length of time such as 60-90 s", Duration.parse, "60-90 s")
DOSE = Short("a dose such as 8-12", Dose.parse, "8 each side", number=True)
DOSE_CHANGE = Short("a change of dose such as half", DoseChange.parse, "half", number=True)
COUNT = Short("a number of sets such as 3 or 2-3", Count.parse, "3", number=True)
TEMPO = Short("a tempo such as 3-1-1-0", Tempo.parse, "3-1-1-0")
EFFORT = Short("an effort such as RPE 7 or 2 in reserve", Effort.parse, "2 in reserve")
LOAD = Short("a load such as 5 l water", Load.parse, "2 x 5 l water")
QUANTITY = Short("an amount such as 20 cm", Quantity.parse, "20 cm")

DEMAND = DemandWord()
PATTERN = Choice("a movement pattern", PATTERNS)
FORMAT = Choice("a format", FORMATS)
BLOCK_KIND = Choice("a kind of block", BLOCK_KINDS)
NUMBER = Whole(1, 99_999)

CAUTION = Either(
    Text(600),
    Record(
        "a caution",
        {
            "text": Key(Text(600), required=True, help="What to take care of"),
            "short": Key(Text(90, lines=False), help="The same in a few words, for small places"),
            "about": Key(ListOf(DEMAND), help="The demands it is about"),
            "source": Key(Text(400), help="The published source of a fact in it"),
        },
        Caution,
    ),
    lambda text: Caution(text=text),
)
CAUTIONS = ListOf(CAUTION, most=50)

FAULTS = ListOf(
    Record(
        "a fault",
        {
            "see": Key(LINE, required=True, help="What it looks like"),
            "fix": Key(LINE, required=True, help="What to do instead"),
        },
        Fault,
    ),
    most=20,
)

PICTURE = Record(
    "a picture",
    {
        "file": Key(FILE, required=True),
        "alt": Key(LINE, required=True, help="What it shows, for those who cannot see it"),
    },
    Picture,
)

CUES = ListOf(LINE, most=30)
SILENCE = MapOf(IDENT, LINE)
