"""What series.yaml says: trainer, kit, needs, look, calendar and limits of a series."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from sitegen.destinations import Target
from sitegen.model.exercise import Caution, Picture
from sitegen.notation import Count, Duration, Quantity, Tempo
from sitegen.problems import Location
from sitegen.stored_records import Record
from sitegen.vocabulary import DEMANDS


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
    load_untold: bool = False
    """True where nobody wrote whether it is a load: no limit in kilograms can be kept with it."""

    @property
    def may_weigh(self) -> bool:
        """Whether it is, holds or may be a weight."""
        return bool(self.weighs) or self.holds is not None or self.load_untold

    @property
    def is_gripped(self) -> bool:
        """Whether it is held by the fingers: a tin, a carrier of water; a bag may be worn or hugged."""
        return bool(self.weighs) or (self.holds is not None and self.holds.kind == "volume")


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
    takes_untold: bool = False
    """True for somebody with nothing to avoid, who may be given forms of whose demands nothing is told."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class LibraryLink:
    """Where the library shared with other series lies."""

    folder: str
    """From the content folder, such as ``../../harbour/content``."""
    version: str = ""
    """The version that the series was last looked over with; empty where the trainer notes none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Details:
    """What ``series.yaml`` says of a series: title, kit, needs, bounds, schedule and the like."""

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
