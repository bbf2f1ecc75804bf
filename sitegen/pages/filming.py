"""The shot list of a session: a page to print for the filming day, and the same as a PDF file."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from sitegen.model import Block, Episode, Kit
from sitegen.notation import Tempo
from sitegen.pages.cautions import short_caution
from sitegen.pages.drawings import DrawnForm
from sitegen.pages.load_words import load_words
from sitegen.pages.one_file import inlined_style
from sitegen.pages.site import Site
from sitegen.pages.views import FaultView, Views, fault_view, markup
from sitegen.study.filming import GivenVersion, SetUp, Shot, effort_of, filming_order, shots_of
from sitegen.study.forms import own_faults
from sitegen.vocabulary import AMRAP, AROUND_THE_WORK, EMOM, INTERVALS

ADDRESS = "shots.html"
"""Of the document that is printed; it exists while it is printed only."""
STYLES = ("styles/site.css", "styles/drawings.css", "filming/filming.css")
_VERSIONS = 3
"""Versions shown after the main form: more would make a film of every exercise (our choice)."""
_CUES = 2
"""Cues of a form, the first of its list: who films cannot say more while it is shown (our choice)."""
_LETTERS = 26
"""Set-ups that are called by a letter; further ones have their number."""
_BY_THE_CLOCK = (AMRAP, EMOM, INTERVALS)
"""Formats that the trainer counts down in the film, so that nobody has to pause it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionShot:
    """A version to show after the main form."""

    name: str
    needs: str
    """Names of the needs that are given it."""
    fetch: tuple[str, ...]
    """Names of the kit it needs besides."""
    drawing: DrawnForm | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotView:
    """One shot."""

    number: int
    """Its place in the session, from 1."""
    part: str
    name: str
    drawing: DrawnForm | None
    cues: tuple[Markup, ...]
    say: str
    """Name, dose, load, effort and tempo, as they are to be said."""
    versions: tuple[VersionShot, ...]
    more: str
    """Names of the versions beyond those shown; empty where there are none."""
    without: str
    """Names of the needs that nothing fits; empty where there are none."""
    fault: FaultView | None
    cautions: tuple[Markup, ...]
    again: tuple[str, ...]
    """Where the session shows the same form once more, and what to say there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpView:
    """Shots filmed one after the other without changing anything."""

    letter: str
    place: str
    kit: tuple[str, ...]
    bring: tuple[str, ...]
    """Kit that the set-up before did not have."""
    away: tuple[str, ...]
    shots: tuple[ShotView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartView:
    """A block: what is said when it is handed over."""

    name: str
    numbers: str
    """The numbers of its shots, such as ``4–5``."""
    say: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotList:
    """Everything on the page."""

    slug: str
    number: int
    title: str
    file: str
    """The episode's file, below the content folder."""
    kit: tuple[Kit, ...]
    kit_of_versions: tuple[str, ...]
    cautions: tuple[Markup, ...]
    set_ups: tuple[SetUpView, ...]
    parts: tuple[PartView, ...]
    changes: int
    """Effort of the changes between set-ups in the order of the list."""
    changes_in_session: int
    """The same in the order of the session."""


def shot_list(site: Site, views: Views, episode: Episode) -> ShotList:
    """The shot list of a session, planned or filmed."""
    shots = shots_of(site.details, site.forms, site.suitability, episode)
    set_ups = [shot.set_up for shot in shots]
    # A form that was shown is not set up for again.
    filmed = [place for place, shot in enumerate(shots) if shot.same_as is None]
    order = [filmed[at] for at in filming_order([set_ups[place] for place in filmed])]
    writer = _Writer(site, views, episode, shots)
    return ShotList(
        slug=episode.slug,
        number=episode.number,
        title=episode.title,
        file=episode.location.file,
        kit=views.kit(episode),
        kit_of_versions=writer.kit_of_versions(),
        cautions=tuple(markup(short_caution(one)) for one in (*site.details.cautions, *episode.cautions)),
        set_ups=writer.set_ups(order),
        parts=tuple(map(writer.part, range(len(episode.blocks)))),
        changes=effort_of(set_ups[place] for place in order),
        changes_in_session=effort_of(set_ups[place] for place in filmed),
    )


class _Writer:
    """Puts the shots of one session into words."""

    def __init__(self, site: Site, views: Views, episode: Episode, shots: Sequence[Shot]) -> None:
        self._site, self._views, self._episode, self._shots = site, views, episode, shots
        self._words = site.theme.strings.filming

    def set_ups(self, order: Sequence[int]) -> tuple[SetUpView, ...]:
        """The shots in that order, together where nothing changes."""
        found: list[SetUpView] = []
        before: frozenset[str] = frozenset()
        for count, (set_up, places) in enumerate(groupby(order, key=lambda at: self._shots[at].set_up)):
            found.append(self._set_up(count, set_up, before, tuple(places)))
            before = set_up.kit
        return tuple(found)

    def _set_up(self, count: int, set_up: SetUp, before: frozenset[str], places: Sequence[int]) -> SetUpView:
        names = self._views.kit_names
        return SetUpView(
            letter=chr(ord("A") + count) if count < _LETTERS else str(count + 1),
            place=getattr(self._words.places, set_up.place),
            kit=names(tuple(sorted(set_up.kit))),
            bring=names(tuple(sorted(set_up.kit - before))),
            away=names(tuple(sorted(before - set_up.kit))),
            shots=tuple(map(self._shot, places)),
        )

    def _shot(self, place: int) -> ShotView:
        shot = self._shots[place]
        block = self._episode.blocks[shot.block]
        form = shot.form
        faults = own_faults(self._site.forms, form) or form.faults
        return ShotView(
            number=place + 1,
            part=block.name,
            name=form.name,
            drawing=self._views.drawings.of(form),
            cues=tuple(map(markup, form.cues[:_CUES])),
            say=self._said(block, shot),
            versions=tuple(map(self._version, shot.given[:_VERSIONS])),
            more=", ".join(given.version.form.name for given in shot.given[_VERSIONS:]),
            without=self._needs(shot.without),
            fault=fault_view(faults[0]) if faults else None,
            cautions=tuple(markup(short_caution(one)) for one in form.cautions),
            again=tuple(self._again(other) for other, one in enumerate(self._shots) if one.same_as == place),
        )

    def _again(self, place: int) -> str:
        shot = self._shots[place]
        block = self._episode.blocks[shot.block]
        return str(self._words.again.format(number=place + 1, part=block.name, say=self._said(block, shot)))

    def _version(self, given: GivenVersion) -> VersionShot:
        form = given.version.form
        return VersionShot(
            name=form.name,
            needs=self._needs(given.needs),
            fetch=self._views.kit_names(given.version.fetch),
            drawing=self._views.drawings.of(form),
        )

    def _said(self, block: Block, shot: Shot) -> str:
        """Name, dose, load, effort and tempo of an item, with commas."""
        item, phrases = block.items[shot.item], self._site.phrases
        dose = phrases.dose_or_work(item.dose, block)
        load = load_words(self._site, item.load) if item.load else ""
        tempo = self._tempo(item.tempo) if item.tempo else ""
        said = (shot.form.name, dose, load, phrases.effort(item.effort), tempo)
        return ", ".join(one for one in said if one)

    def _tempo(self, tempo: Tempo) -> str:
        """``3 seconds down, hold 1, 1 up``: pauses of nothing are not said."""
        words = self._words.tempo
        up = words.fast if tempo.lifting is None else words.up.format(tempo.lifting)
        down, top = (words.hold.format(pause) if pause else "" for pause in (tempo.bottom, tempo.top))
        return ", ".join(part for part in (words.down.format(tempo.lowering), down, up, top) if part)

    def part(self, at: int) -> PartView:
        """A block as it is opened and handed over."""
        block = self._episode.blocks[at]
        numbers = [place + 1 for place, shot in enumerate(self._shots) if shot.block == at]
        said = self._views.how(block).replace(" · ", ", ")
        hand_over = self._words.along if _is_along(block) else self._words.hand_over
        return PartView(
            name=block.name,
            numbers=self._site.phrases.number(numbers[0], numbers[-1]) if numbers else "",
            say=f"{block.name}: {said}. {hand_over}",
        )

    def kit_of_versions(self) -> tuple[str, ...]:
        """Kit that only the versions to be shown need."""
        main = {piece for shot in self._shots for piece in shot.form.kit}
        shown = (given.version.form for shot in self._shots for given in shot.given[:_VERSIONS])
        pieces = dict.fromkeys(piece for form in shown for piece in form.kit if piece not in main)
        return self._views.kit_names(tuple(pieces))

    def _needs(self, needs: Iterable[str]) -> str:
        return ", ".join(self._site.details.needs[need].name for need in needs)


def _is_along(block: Block) -> bool:
    """Whether the viewer does the block while the film runs; in a plan its kind and format tell."""
    if block.at is not None:
        return block.your_turn is None
    return block.format in _BY_THE_CLOCK or block.kind in AROUND_THE_WORK


def shot_page(site: Site, shots: ShotList) -> bytes:
    """The page: one file that needs nothing else."""
    template = site.theme.environment.get_template("shots.html")
    style = inlined_style(site.theme, STYLES)
    return template.render(site.context(ADDRESS, shots=shots, style=style)).encode()
