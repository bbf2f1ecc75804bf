"""The series as the trade sees it: checked, immutable, free of files and pages.

Records refer to exercises, needs and kit by id; :class:`Series` looks ids up. Times are whole
seconds from the start of the video. ``location`` says where a record was written.
"""

import hashlib
import itertools
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, fields, replace
from datetime import date
from operator import attrgetter
from typing import Any, ClassVar, NamedTuple

from sitegen.destinations import Target
from sitegen.notation import Count, Dose, DoseChange, Duration, Effort, Load, Quantity, Tempo
from sitegen.problems import Location
from sitegen.records import FoldingRecord, Record
from sitegen.system.reads import note, recorded, recorded_lists, unrecorded
from sitegen.vocabulary import DEMANDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Muscles(Record):
    """Muscles an exercise trains; sets count 1 for prime and 1/2 for assisting ones."""

    prime: tuple[str, ...] = ()
    assist: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault(Record):
    """What it looks like when it goes wrong, and the fix."""

    see: str
    fix: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution(Record):
    """A warning, the demands or kit it is about, and the published source of any fact in it."""

    text: str
    title: str = ""
    """What it is about in a word or two, for a heading: ``Bones``; empty where it needs none."""
    short: str = ""
    """The same in a few words, where space is small; empty where ``text`` is short enough."""
    about: tuple[str, ...] = ()
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture(Record):
    """An image file below the content folder with its text alternative."""

    file: str
    alt: str


class Sides(NamedTuple):
    """A value for each side of the body; None where nothing is said about that side."""

    left: Any
    right: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Poses(Record):
    """Where the body is, as written: each pose says only what differs from the one it is made from.

    ``study.body`` fills in the rest. Keys and values are those of the schema; a value with two sides is a
    number or word for both, or a :class:`Sides`.
    """

    start: Mapping[str, Any] = field(default_factory=dict)
    through: tuple[Mapping[str, Any], ...] = ()
    """Poses on the way, each said against the start."""
    finish: Mapping[str, Any] | None = None
    """Said against the start; None where the start is held."""
    held: bool = False
    """True where the one pose is held."""
    like: str = ""
    """The exercise, or ``exercise/variant``, whose poses these start from."""
    says: Mapping[str, str] = field(default_factory=dict)
    """The trainer's own sentences for ``start``, ``move``, ``finish`` and ``picture``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant(Record):
    """Another form of an exercise. Fields that are None are as in the form it is made from."""

    id: str
    name: str
    change: str
    """``regression``, ``progression`` or ``substitution``."""
    of: str | None = None
    """The variant it is made from; None for the main form."""
    exercise: str | None = None
    """Id of the library exercise that this variant is, where it is one."""
    kit: tuple[str, ...] | None = None
    demands: tuple[str, ...] | None = None
    demands_kept: Mapping[str, str] = field(default_factory=dict)
    """Demands that differ from what its poses say, each with the reason why it is right as declared."""
    pattern: str | None = None
    muscles: Muscles | None = None
    dose: DoseChange | None = None
    tempo: Tempo | None = None
    """In which it is done, whatever the tempo of the item that it stands in for."""
    effort: Effort | None = None
    """How hard it may be at most, where that is less than the item asks for."""
    most_load: Quantity | None = None
    """Most that is held in it, in all hands together."""
    note: str = ""
    """Whom or what it is for."""
    meant_for: tuple[str, ...] = ()
    """Needs for which it is chosen before nearer forms, wherever it fits."""
    cues: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    cautions: tuple[Caution, ...] = ()
    """Beyond those of the form it is made from."""
    pictures: tuple[Picture, ...] = ()
    poses: Poses | None = None
    location: Location


@dataclass(frozen=True, slots=True, kw_only=True)
class Stepping(Record):
    """Height of the step and rate of full up-and-down cycles, for the stepping equation."""

    height: Quantity
    per_minute: float


WORDS = frozenset(
    {"cues", "faults", "cautions", "all_cautions", "note", "pictures", "media", "silence", "location"}
)
"""Fields of exercises and their forms that are words to read on their own page (and where those are written).
Lists and titles show none of them, so that a reworded cue is no change to a list."""


def _fingerprint(value: object) -> str:
    return hashlib.blake2b(repr(value).encode(), digest_size=12).hexdigest()


def _outline(record: "Exercise | Variant | Episode", inner: Collection[str]) -> list[object]:
    """The fields of a record but for inner ones, variants among them as outlines."""
    found: list[object] = []
    for one in fields(record):
        if one.init and one.name not in inner:
            value = getattr(record, one.name)
            found.append([_outline(v, inner) for v in value] if one.name == "variants" else value)
    return found


@recorded(id_of=attrgetter("id"), otherwise="exercise", words=WORDS | {"variants"}, silent={"id", "outline"})
@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise(FoldingRecord):
    """One exercise of the library in its main form, with its variants."""

    folded: ClassVar[tuple[str, ...]] = ("cues", "faults", "cautions", "variants", "poses")

    id: str
    name: str
    also: tuple[str, ...] = ()
    """Other names people use for it."""
    summary: str = ""
    pattern: str
    muscles: Muscles
    kit: tuple[str, ...] = ()
    demands: tuple[str, ...] = ()
    demands_kept: Mapping[str, str] = field(default_factory=dict)
    """Demands that differ from what the poses say, each with the reason; its variants' too."""
    cues: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    cautions: tuple[Caution, ...] = ()
    variants: tuple[Variant, ...] = ()
    pictures: tuple[Picture, ...] = ()
    poses: Poses | None = None
    tempo: Tempo | None = None
    """Usual tempo, where the series' default does not fit."""
    met: float | None = None
    """Metabolic equivalent while doing it, where the pattern's value does not fit."""
    stepping: Stepping | None = None
    silence: Mapping[str, str] = field(default_factory=dict)
    """Checks switched off here, each with its reason."""
    location: Location
    links: tuple[str, ...] = field(init=False, compare=False)
    """Exercises of the library that its variants are."""
    media: tuple[str, ...] = field(init=False, compare=False)
    """Files of its pictures and of its variants'."""
    outline: str = field(init=False, compare=False)
    """Fingerprint of all but its :data:`WORDS` and those of its variants."""

    def __post_init__(self) -> None:
        links = tuple(v.exercise for v in self.variants if v.exercise is not None)
        pictures = (*self.pictures, *(picture for v in self.variants for picture in v.pictures))
        object.__setattr__(self, "links", links)
        object.__setattr__(self, "media", tuple(picture.file for picture in pictures))
        object.__setattr__(self, "outline", _fingerprint(_outline(self, WORDS)))

    def variant(self, variant_id: str) -> Variant | None:
        """The variant with that id, or None."""
        return next((v for v in self.variants if v.id == variant_id), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Item(Record):
    """One exercise inside a block, with its dose."""

    exercise: str
    variant: str | None = None
    """The variant shown as the session's main form; None for the exercise's own."""
    at: int | None = None
    """When it is shown in the video, in seconds; None where it is not marked."""
    dose: Dose | None = None
    """None where the format sets it (intervals: the work time)."""
    tempo: Tempo | None = None
    effort: Effort | None = None
    load: Load | None = None
    note: str = ""
    versions: Mapping[str, str] = field(default_factory=dict)
    """The trainer's own choice of variant by need id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest(Record):
    """Pauses inside and after a block; None where nothing is said."""

    between_exercises: Duration | None = None
    between_sets: Duration | None = None
    after: Duration | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Block(Record):
    """One part of an episode."""

    name: str
    kind: str
    format: str
    at: int | None = None
    """Start in the video, in seconds; None while the episode is a plan."""
    your_turn: int | None = None
    """When the viewer pauses and does the block; None where it is done along with the video."""
    sets: Count = Count(1, 1)
    """Sets of each item or rounds of the block."""
    rest: Rest = Rest()
    work: Duration | None = None
    """Work time of one interval."""
    time: Duration | None = None
    """Time cap of as-many-rounds-as-possible, length of every-minute."""
    note: str = ""
    items: tuple[Item, ...]
    routine: str | None = None
    """Id of the shared routine it comes from."""
    location: Location
    """Where its items are written: in the episode or in the routine's file."""

    def item_location(self, index: int, *steps: str | int) -> Location:
        """Where the item with that index is written."""
        return self.location.at("items", index, *steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class VideoFile(Record):
    """One form of a recording."""

    file: str
    """Below the content folder."""
    height: int | None = None
    """Of the picture, in pixels; None where nobody says."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Video(Record):
    """The recording: files below the content folder, or an id at a host of the series."""

    files: tuple[VideoFile, ...] = ()
    """The same film in several forms, the one to try first at the front."""
    host: str | None = None
    id: str | None = None
    length: int | None = None
    """Seconds; None until known."""

    @property
    def file(self) -> str | None:
        """The form that stands for all of them: its length is theirs, its picture the poster."""
        return self.files[0].file if self.files else None


_SESSION = frozenset(
    {"notes", "cautions", "blocks", "silence", "location", "exercises", "routines", "planned"}
)
"""What an episode says inside, besides what lists show of it."""


@recorded(
    id_of=attrgetter("slug"),
    otherwise="episode",
    title={"number", "title", "released"},
    session=_SESSION,
    silent={"slug", "outline"},
)
@dataclass(frozen=True, slots=True, kw_only=True)
class Episode(FoldingRecord):
    """One session: filmed, or planned."""

    folded: ClassVar[tuple[str, ...]] = ("notes", "cautions", "blocks")

    slug: str
    """Its address below episodes/."""
    number: int
    title: str
    summary: str = ""
    released: date | None = None
    lasts: Duration | None = None
    """The time it announces: video and your turns together, in seconds."""
    video: Video | None = None
    captions: str | None = None
    """Caption file below the content folder."""
    poster: Picture | None = None
    notes: str = ""
    """Free Markdown below the video."""
    kit: tuple[str, ...] = ()
    """At hand beyond what the session uses as filmed."""
    cautions: tuple[Caution, ...] = ()
    blocks: tuple[Block, ...]
    silence: Mapping[str, str] = field(default_factory=dict)
    location: Location
    exercises: tuple[str, ...] = field(init=False, compare=False)
    """Ids of the exercises it uses, each once, in order."""
    routines: tuple[str, ...] = field(init=False, compare=False)
    """Ids of the routines it uses."""
    outline: str = field(init=False, compare=False)
    """Fingerprint of what lists show of it: number, title, summary, video and so on."""
    planned: bool = field(init=False, compare=False)
    """True for a session that is not filmed yet: its blocks have no times, or are still to be written."""

    def __post_init__(self) -> None:
        exercises = dict.fromkeys(item.exercise for block in self.blocks for item in block.items)
        routines = dict.fromkeys(block.routine for block in self.blocks if block.routine)
        object.__setattr__(self, "exercises", tuple(exercises))
        object.__setattr__(self, "routines", tuple(routines))
        object.__setattr__(self, "outline", _fingerprint(_outline(self, _SESSION)))
        object.__setattr__(self, "planned", not self.blocks or any(block.at is None for block in self.blocks))


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """A piece of kit with what a home has instead."""

    id: str
    name: str
    stand_ins: tuple[str, ...] = ()
    holds: Quantity | None = None
    """Volume of a container, or the most that a bag carries as a mass; None where it carries nothing."""
    weighs: tuple[Quantity, ...] = ()
    """For a piece that is itself a weight, such as a food tin: the masses there are of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits(Record):
    """How much a need allows at most; None, or True for what is allowed or not, sets no limit."""

    effort: int | None = None
    """Most perceived exertion, 0-10; repetitions to leave in reserve are 10 less this."""
    max_sets: bool = True
    """False where no set may be taken to as many repetitions as can be done."""
    load: float | None = None
    """Most kilograms lifted or held, in all hands together; 0 for no load at all."""
    load_share: float | None = None
    """Most of the filmed load, as a fraction (0.5 = half of it)."""
    speed: bool = True
    """False where nothing may be done explosively or against the clock."""
    hold: int | None = None
    """Most seconds that a position may be held."""
    session: int | None = None
    """Most seconds that a session may last, video and turns together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What a client says, the demands to avoid for it, and how much it allows."""

    id: str
    name: str
    says: str = ""
    also: tuple[str, ...] = ()
    """Other words by which texts name it, such as ``osteoporosis`` for thin bones."""
    avoids: tuple[str, ...] = ()
    rather_without: tuple[str, ...] = ()
    """Demands to do without where another form trains the same."""
    limits: Limits = Limits()
    has: tuple[str, ...] = ()
    """Kit that whoever has the need brings along, such as the seat of a wheelchair: it is never fetched."""
    advice: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trainer:
    """Who the series is from."""

    name: str
    about: str = ""
    email: str = ""
    studio: str = ""
    photo: Picture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Logo:
    """A sign of the trainer's at the top of every page: an image file with its text alternative."""

    file: str
    alt: str
    dark: str = ""
    """The file for dark screens; empty for the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What a series has of its own in the theme's look."""

    light: Mapping[str, str] = field(default_factory=dict)
    """Colours (``#14323c``) by the theme's names, on light screens and on paper."""
    dark: Mapping[str, str] = field(default_factory=dict)
    logo: Logo | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Host:
    """Address patterns of a video host, with ``{id}`` and ``{seconds}`` to fill in."""

    name: str
    page: str
    player: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DateRange:
    """A day, or several in a row, ends included."""

    first: date
    last: date


@dataclass(frozen=True, slots=True, kw_only=True)
class ScheduleWishes:
    """The trainer's wishes for the calendar."""

    start: date
    days: tuple[str, ...]
    """Training days: names of weekdays."""
    time: int | None = None
    """Minutes after midnight, for timed entries; None for all-day ones."""
    time_zone: str = "UTC"
    repeats: int = 1
    """How often each session is done, one after the other."""
    recovery_hours: int = 48
    """Between two sessions that train the same muscle hard."""
    deload_every: int | None = None
    """Every how many weeks one is kept free of new sessions; None for never."""
    holidays: tuple[DateRange, ...] = ()
    per_week: int | None = None
    """Occurrences wanted in each week and the most there may be; None for one on every training day."""
    keep_pace: bool = True
    """Whether it is a conflict if recovery makes a week fall short of that."""
    finish_by: date | None = None
    """Last day wanted for the last session."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """Limits the trainer sets for warnings; None where no limit is set."""

    sets_per_week: Count | None = None
    """Fractional sets of each muscle in a week."""
    muscles: Mapping[str, Count] = field(default_factory=dict)
    """The same for single muscles."""
    push_per_pull: float | None = None
    """Most push sets per pull set over a week."""
    rise: float | None = None
    """Largest rise in volume of one exercise between episodes, as a fraction (0.5 = half as much again)."""
    load_rise: float | None = None
    """Largest rise in load of one exercise between episodes; None for the published one."""


@recorded(id_of=attrgetter("slug"), otherwise="page", silent={"slug"})
@dataclass(frozen=True, slots=True, kw_only=True)
class FreePage:
    """A page of the trainer's own words."""

    slug: str
    title: str
    summary: str = ""
    text: str
    """Markdown."""
    first_line: int = 1
    """Line of the file on which the text starts."""
    menu: bool = True
    location: Location


@dataclass(frozen=True, slots=True, kw_only=True)
class LibraryLink:
    """Where the library shared with other series lies."""

    folder: str
    """From the content folder, such as ``../../harbour/content``."""
    version: str = ""
    """The version that the series was last looked over with; empty where the trainer notes none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedLibrary:
    """A library read in place."""

    folder: str
    version: str
    """Fingerprint of its exercises, shared blocks and series.yaml, the same for whoever reads it."""
    files: Mapping[str, str]
    """Fingerprint of each file by its path below the library's folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Details:
    """What series.yaml says."""

    title: str
    summary: str
    language: str = "en"
    units: str = "metric"
    address: str
    """Where the site is published, ending in ``/``."""
    theme: str = "tidewater"
    look: Look = Look()
    trainer: Trainer
    cautions: tuple[Caution, ...] = ()
    call_if: tuple[str, ...] = ()
    """Signs with which one stops and calls the emergency number."""
    stop_if: tuple[str, ...] = ()
    """Signs with which one stops, rests, and asks before going on."""
    emergency_number: str = ""
    """What her clients dial for an ambulance; empty where it is not said, for it differs by country."""
    how_to_start: str = ""
    """Markdown for the home page."""
    tempo: Tempo = Tempo(2, 0, 1, 0)
    """Tempo where an item and its exercise give none."""
    changeover: Duration = Duration(10, 10)
    """From one exercise or side to the next, where no rest is given."""
    body_mass: tuple[Quantity, Quantity] = (Quantity(50, "kg"), Quantity(100, "kg"))
    """Lightest and heaviest viewer, for the range of the energy estimate."""
    ages: Count | None = None
    """Youngest and oldest viewer, in years; None where the series does not say."""
    kit: Mapping[str, Kit] = field(default_factory=dict)
    heights: Mapping[str, float] = field(default_factory=dict)
    """Heights in centimetres of the things that poses use, by the word that poses have for them."""
    needs: Mapping[str, Need] = field(default_factory=dict)
    muscles: Mapping[str, str] = field(default_factory=dict)
    """Further muscles and their region."""
    demands: Mapping[str, str] = field(default_factory=dict)
    """Further demands and the sentence that says when each applies."""
    schedule: ScheduleWishes | None = None
    bounds: Bounds = Bounds()
    hosts: Mapping[str, Host] = field(default_factory=dict)
    moved: Mapping[str, str] = field(default_factory=dict)
    """Old addresses and where they lead now."""
    publish: Mapping[str, Target] = field(default_factory=dict)
    """Where the site is sent, by name."""
    silence: Mapping[str, str] = field(default_factory=dict)
    library: LibraryLink | None = None
    """The folder that holds the library shared with other series; None for a series with its own only."""
    taken_over: Mapping[tuple[str, str | int], Location] = field(default_factory=dict)
    """Where needs, kit and so on are written that come from that library, by key and id."""
    location: Location = Location("series.yaml")

    def location_at(self, *steps: str | int) -> Location:
        """Where something is written that series.yaml says, or that of the shared library for it."""
        place = self.taken_over.get((str(steps[0]), steps[1])) if len(steps) > 1 else None
        return place.at(*steps[2:]) if place else self.location.at(*steps)

    @property
    def demand_sentences(self) -> Mapping[str, str]:
        """Every demand that this series may use, with the sentence that says when it applies."""
        return {**DEMANDS, **self.demands}


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded(Record):
    """What was last published of a session's calendar entry."""

    sequence: int
    """How often it had changed by then."""
    mark: str
    """Fingerprint of what it said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Appearance:
    """One showing of an exercise."""

    episode: Episode
    block: Block
    item: Item


@recorded_lists("episodes", "upcoming", "exercises", "pages", "calendar")
@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """Everything, cross references checked."""

    details: Details
    episodes: tuple[Episode, ...]
    """By number."""
    upcoming: tuple[Episode, ...] = ()
    """By number, those that are not out yet, plans among them; they are not in ``episodes``."""
    exercises: Mapping[str, Exercise]
    """By id, in order of name."""
    pages: tuple[FreePage, ...] = ()
    calendar: Mapping[str, Recorded] = field(default_factory=dict)
    """Published calendar entries by key, such as ``steady-pull-1``: the episode's slug and which time."""
    digests: Mapping[str, str] = field(default_factory=dict)
    """Fingerprint of each content file's bytes, by path below the content folder."""
    sizes: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    """Width and height of the logo and the photograph, by file."""
    held_in_pages: Mapping[str, str] = field(default_factory=dict)
    """Small logos as addresses that hold them whole (``data:``, RFC 2397), by file."""
    library: SharedLibrary | None = None
    """The library shared with other series, whose exercises and blocks are among these; None without one."""

    def file_of_routine(self, routine_id: str) -> str:
        """The file of a shared block: the series' own, else that of the library."""
        own = f"routines/{routine_id}.yaml"
        return own if self.library is None or own in self.digests else f"{self.library.folder}/{own}"

    def in_its_folder(self, file: str) -> str:
        """The path of a file below the folder it belongs to: the series' own or that of the library."""
        return file if self.library is None else file.removeprefix(f"{self.library.folder}/")

    def exercise(self, exercise_id: str) -> Exercise:
        """The exercise with that id; KeyError where there is none."""
        return self.exercises[exercise_id]

    @property
    def sessions(self) -> tuple[Episode, ...]:
        """All episodes by number, those that are not out yet among them."""
        note("list sessions")
        with unrecorded():
            return tuple(sorted((*self.episodes, *self.upcoming), key=lambda episode: episode.number))

    def as_of(self, day: date | None, *, plans: bool = False) -> "Series":
        """The series on a day: episodes released later are upcoming. With None all are out.

        Plans are upcoming until they are filmed, unless ``plans`` are to be among the episodes.
        """

        def is_out(episode: Episode) -> bool:
            if episode.planned and not plans:
                return False
            return day is None or episode.released is None or episode.released <= day

        sessions = self.sessions
        return replace(
            self,
            episodes=tuple(filter(is_out, sessions)),
            upcoming=tuple(itertools.filterfalse(is_out, sessions)),
        )
