"""What stands on a sheet, in a reader's words: made once for all sheets of a session."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup

from sitegen.model import Block, Episode, Item, Kit
from sitegen.notation import Dose, Load, format_clock
from sitegen.pages.drawings import DrawnForm
from sitegen.pages.episode.kit import loads_in, rotation_plans
from sitegen.pages.other_forms import beside
from sitegen.pages.phrases import Phrases
from sitegen.pages.site import Site
from sitegen.pages.theme import leading_figure
from sitegen.pages.vessels import Vessel, load_in_short, vessels_of
from sitegen.pages.views import FaultView, Views, markup
from sitegen.study.fetching import in_number
from sitegen.study.span import Span
from sitegen.study.timing import item_sets, session_time
from sitegen.vocabulary import AMRAP

WRITTEN_KINDS = ("strength", "conditioning")
"""Kinds of block where loads and repetitions are written down; the others are only ticked off."""

MOST_BOXES = 10
"""Sets with a box to write in; an item with more is ticked off set by set and has one box."""

TALLY = 10
"""Boxes for counting rounds where their number is open."""

_MOST_FIGURES = 5
"""Characters of a dose that is set in large figures: ``10–12`` still goes into its column."""

_VESSELS = 4
"""Most vessels beside a piece of kit in the list to fetch; more loads of one piece are told by the rows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBox:
    """A place to record one set."""

    number: int
    """From 1."""
    maybe: bool
    """True where the block leaves it open whether this set is done."""
    dose: str = ""
    """The dose of this very set, where sets differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetItem:
    """One exercise of a sheet."""

    name: str
    drawing: DrawnForm | None = field(default=None, repr=False)
    dose: str
    amount: tuple[str, str]
    """The same as large figures and the words after them; no figures where it does not begin with any."""
    load: str = ""
    """What is held; empty for nothing."""
    held: str = ""
    """The same in few words, to stand below the vessels."""
    vessels: tuple[Vessel, ...] = ()
    facts: tuple[str, ...] = ()
    """Tempo and effort; each stays on one line, for a tempo must not be broken at its hyphens."""
    cue: Markup
    note: Markup = field(default_factory=Markup)
    """Whom or what the form is for, and how it is set up; never left out, as it may say what to fetch."""
    fault: FaultView | None = None
    care: str = ""
    """Its cautions, short; never left out, however tight the sheet is."""
    easier: str = ""
    """Name of the nearest regression; empty where there is none."""
    harder: str = ""
    instead: str = ""
    """Name of the form filmed, on a client's own sheet where she does another; empty elsewhere."""
    rotation: str = ""
    """Plan for two unequal loads; empty where there is none."""
    boxes: tuple[SetBox, ...] = ()
    """One for each set to be written down."""
    ticks: int = 0
    """Boxes that are only ticked off."""
    sides: int = 1
    """1, or 2 where each side is written down apart."""
    across: int = 0
    """Boxes in a row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetBlock:
    """One block of a sheet."""

    name: str
    how: str
    when: str
    """When it starts in the video, and whose turn it is there; empty in a plan."""
    written: bool
    """True where loads and repetitions are written down."""
    columns: int
    """Items side by side: 1 where sets are written down."""
    loads: bool
    """True where some exercise has vessels, so that there is a column for them."""
    tally: int
    """Boxes to count rounds in; 0 where their number is known."""
    items: tuple[SheetItem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetKit:
    """A piece of kit to fetch, and how full it has to be."""

    name: str
    """With how many of it, and what the session asks it to hold: ``2 × Food tin: 2 × 400 g``."""
    stand_ins: tuple[str, ...]
    vessels: tuple[Vessel, ...] = ()
    """One for each different filling that the session asks of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetView:
    """A session as its sheets show it."""

    slug: str
    number: int
    title: str
    time: str
    kit: tuple[SheetKit, ...]
    blocks: tuple[SheetBlock, ...]
    cautions: tuple[Markup, ...]
    """The session's own."""
    others: str
    """For whom it is not as filmed: one line, for there is no room for one beside each exercise; empty for
    nobody."""
    others_label: str
    """The words before that."""
    way_back: str
    """What the words before its address call it: to watch it only where there is a video."""
    advice: tuple[str, ...]
    """Of the needs that a client's own sheet is fitted to."""
    stop: tuple[tuple[str, str], ...]
    """When to stop, in one or two lines: what to do, and the signs."""
    spoken: str
    """Short address to read aloud or type."""

    @property
    def leaves_open(self) -> bool:
        """Whether some box is for a set that may be left out."""
        return any(box.maybe for block in self.blocks for item in block.items for box in item.boxes)


def sheet_view(site: Site, views: Views, episode: Episode, spoken: str, *, others: str) -> SheetView:
    """Everything on the sheets of one session; ``others`` says for whom it is not as filmed."""
    words, has_video = site.theme.strings.sheet, episode.video is not None
    return SheetView(
        slug=episode.slug,
        number=episode.number,
        title=episode.title,
        time=_time(site, episode),
        kit=tuple(_kit(site, episode, piece, number) for piece, number in views.fetched(episode)),
        blocks=tuple(_block(site, views, episode, index) for index in range(len(episode.blocks))),
        cautions=tuple(markup(caution.text) for caution in episode.cautions),
        others=others,
        others_label=words.filmed if has_video else words.as_it_stands,
        way_back=words.watch if has_video else words.page_at,
        advice=(),
        stop=tuple(stop_lines(site)),
        spoken=spoken,
    )


def stop_lines(site: Site) -> Iterator[tuple[str, str]]:
    """What a sheet says of each kind of signs to stop, first those with which one calls for help."""
    words, details = site.theme.strings.sheet, site.details
    number = details.emergency_number
    if details.call_if:
        call = words.call_number.format(number=number) if number else words.call
        yield call, f"{words.separator.join(details.call_if)}."
    if details.stop_if:
        yield words.rest if details.call_if else "", f"{words.separator.join(details.stop_if)}."


def _kit(site: Site, episode: Episode, piece: Kit, number: int) -> SheetKit:
    loads = [item.load for block in episode.blocks for item in block.items if item.load is not None]
    mine = list(loads_in(piece, loads))
    vessels = (vessel for load in mine for vessel in vessels_of(site, load))
    told = dict.fromkeys(load_in_short(site, load) for load in mine)
    name = in_number(number, piece.name)
    return SheetKit(
        name=site.theme.strings.sheet.holds.format(name=name, loads="; ".join(told)) if told else name,
        stand_ins=piece.stand_ins,
        vessels=tuple(dict.fromkeys(vessels))[:_VESSELS],
    )


def _time(site: Site, episode: Episode) -> str:
    words, phrases = site.theme.strings.sheet, site.phrases
    time = session_time(site.details, site.forms, episode)
    turns = phrases.about(time.your_turn)
    if time.whole is None or time.video is None:
        return str(words.time_turns.format(turns=turns)) if time.your_turn.high else ""
    video = phrases.minutes(Span(time.video, time.video))
    return str(words.time.format(total=phrases.about(time.whole), video=video, turns=turns))


def _block(site: Site, views: Views, episode: Episode, index: int) -> SheetBlock:
    words, block, plans = site.theme.strings.sheet, episode.blocks[index], rotation_plans(site, episode)
    written = block.kind in WRITTEN_KINDS
    tally = TALLY if block.format == AMRAP and written else 0
    sets = (Span(1, 1),) * len(block.items) if tally else item_sets(site.details, site.forms, block)
    across = boxes_across(max(int(span.high) for span in sets)) if written and not tally else 0
    items = tuple(
        _item(site, views, block, item, (span, across, plans.get((index, place), "")))
        for place, (item, span) in enumerate(zip(block.items, sets, strict=True))
    )
    return SheetBlock(
        name=block.name,
        when=_when(words, block),
        how=views.how(block),
        written=written,
        columns=min(2, len(items)) if tally else 1 if written else light_columns(len(items)),
        loads=any(item.vessels for item in items),
        tally=tally,
        items=items,
    )


def _when(words: Any, block: Block) -> str:
    """Where the block is in the video, and whose turn it is; nothing in a plan."""
    if block.at is None:
        return ""
    turn = words.along if block.your_turn is None else words.turn.format(clock=format_clock(block.your_turn))
    return f"{words.starts.format(clock=format_clock(block.at))}, {turn}"


def boxes_across(sets: int) -> int:
    """Boxes in each row of a block: up to four, in rows of even length; one for uncounted sets."""
    if sets > MOST_BOXES:
        return 1
    rows = max(1, -(-sets // 4))
    return max(1, -(-sets // rows))


def light_columns(items: int) -> int:
    """Columns for items that are only ticked off: three where that leaves no gap, else two."""
    return 3 if items in (3, 5, 6, 9) else min(items, 2)


def _item(site: Site, views: Views, block: Block, item: Item, own: tuple[Span, int, str]) -> SheetItem:
    """``own``: the item's sets, the boxes in a row, and the plan for an uneven load."""
    sets, across, plan = own
    form = views.form(item.exercise, item.variant)
    easier, harder = _beside(views, item)
    phrases, low, high = site.phrases, int(sets.low), int(sets.high)
    written, tallied = across > 0, block.format == AMRAP and block.kind in WRITTEN_KINDS
    counted = written and high <= MOST_BOXES
    numbers = range(1, high + 1) if counted else range(1, 2) if written else ()
    dose = phrases.dose(item.dose) or (phrases.duration(block.work) if block.work else "")
    by_set = item.dose.sets if item.dose is not None and counted else ()
    return SheetItem(
        name=form.name,
        drawing=form.drawing,
        dose=dose,
        amount=in_figures(phrases, dose, item.dose),
        load=_load(site, item),
        held=load_in_short(site, item.load),
        vessels=vessels_of(site, item.load),
        facts=tuple(_facts(site, item)),
        cue=form.how[0] if form.how else Markup(),
        note=form.note,
        fault=form.faults[0] if form.faults else None,
        care=" ".join(caution.short for caution in form.cautions),
        easier=easier,
        harder=harder,
        rotation=plan,
        boxes=tuple(
            SetBox(number=n, maybe=counted and n > low, dose=_dose_of_set(site, by_set, item.load, n))
            for n in numbers
        ),
        ticks=0 if counted or tallied else high,
        sides=2 if written and item.dose is not None and item.dose.per_side else 1,
        across=across,
    )


def in_figures(phrases: Phrases, words: str, dose: Dose | None) -> tuple[str, str]:
    """A dose, ``words`` in full, as large figures and the words after them: ``("8–12", "each side")``.

    Doses that differ by set, or are made of parts, have no one figure.
    """
    figures, rest = leading_figure(words if dose is None else phrases.bare_dose(dose))
    whole = dose is None or not (dose.sets or dose.parts)
    if whole and figures and len(figures) <= _MOST_FIGURES:
        return figures, phrases.below_figures(rest)
    return "", words


def _dose_of_set(site: Site, doses: tuple[Dose, ...], load: Load | None, number: int) -> str:
    """What the box of a set says of it: its own dose and load, where sets differ."""
    said = [site.phrases.dose(doses[number - 1])] if len(doses) >= number else []
    loads = load.sets if load is not None else ()
    if len(loads) >= number:
        said.append(site.phrases.load(loads[number - 1]))
    return ", ".join(said)


def _load(site: Site, item: Item) -> str:
    words = site.theme.strings.sheet
    return str(words.holding.format(load=site.phrases.load(item.load))) if item.load else ""


def _facts(site: Site, item: Item) -> Iterator[str]:
    if item.tempo:
        yield _unbroken(site.theme.strings.sheet.tempo.format(tempo=site.phrases.tempo(item.tempo)))
    if item.effort:
        yield _unbroken(site.phrases.effort(item.effort))


def _unbroken(words: str) -> str:
    return words.replace(" ", "\N{NO-BREAK SPACE}")


def _beside(views: Views, item: Item) -> tuple[str, str]:
    """Names of the next easier and the next harder form than the one shown; empty where there is none."""
    own = views.form(item.exercise, item.variant).name
    easier, harder = views.neighbours(item.exercise, item.variant)
    return beside(easier.name, own) if easier else "", beside(harder.name, own) if harder else ""
