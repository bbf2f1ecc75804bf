"""Exercises of the library: their forms, poses, cautions, and what their own pages say."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from operator import attrgetter
from typing import Any, ClassVar, NamedTuple

from sitegen.model.outlines import outline_of
from sitegen.notation import DoseChange, Effort, Quantity, Tempo
from sitegen.problems import Location
from sitegen.stored_records import FoldingRecord, Record
from sitegen.system.noted_reads import recorded


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
    asked: bool = False
    """Whether it lists who has to ask a doctor first: the questions before the first session ask for it."""


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
    """The trainer's own sentences for ``start``, ``finish`` and ``picture``."""


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
    said: tuple[str, ...] = ()
    """Of its demands those that only its name and cues tell, beyond those of the main form."""
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
    move: str = ""
    """What moves, as one short sentence; empty where the poses may say it."""
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
    {"move", "cues", "faults", "cautions", "all_cautions", "note", "pictures", "media", "silence", "location"}
)
"""Fields of exercises and their forms that are words to read on their own page (and where those are written).
Lists and titles show none of them, so that a reworded cue is no change to a list."""


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
    """Empty for what truly asks nothing; ``vocabulary.UNTOLD`` where its file says nothing of them."""
    said: tuple[str, ...] = ()
    """Of its demands those that only its name, summary or cues tell: its file does not list them."""
    demands_kept: Mapping[str, str] = field(default_factory=dict)
    """Demands that differ from what the poses say, each with the reason; its variants' too."""
    move: str = ""
    """What moves, as one short sentence; empty where the poses may say it."""
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
        object.__setattr__(self, "outline", outline_of(self, WORDS))

    def variant(self, variant_id: str) -> Variant | None:
        """The variant with that id, or None."""
        return next((v for v in self.variants if v.id == variant_id), None)

    def ancestry(self, variant_id: str | None) -> list[Variant]:
        """The variant with that id, the one that it is made from and so on; a circle ends where it closes."""
        found: list[Variant] = []
        while variant_id and (variant := self.variant(variant_id)) is not None and variant not in found:
            found.append(variant)
            variant_id = variant.of
        return found
