"""Sessions: their blocks, items, doses and recordings."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from operator import attrgetter
from typing import ClassVar

from sitegen.model.exercise import Caution, Picture
from sitegen.model.outlines import outline_of
from sitegen.notation import Count, Dose, Duration, Effort, Load, Tempo
from sitegen.problems import Location
from sitegen.stored_records import FoldingRecord, Record
from sitegen.system.noted_reads import recorded


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
        object.__setattr__(self, "outline", outline_of(self, _SESSION))
        object.__setattr__(self, "planned", not self.blocks or any(block.at is None for block in self.blocks))
