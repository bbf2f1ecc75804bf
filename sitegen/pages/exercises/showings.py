"""Where an exercise is shown, with the doses, so that its progress over the series can be seen."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sitegen.model import Appearance, Block
from sitegen.notation import Duration, format_clock
from sitegen.pages.exercises.lists import Entries, FormLink
from sitegen.pages.phrases import Phrases
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.study.forms import shown_form
from sitegen.study.progression import Point, progression_of
from sitegen.vocabulary import AMRAP, EMOM


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """What an episode asks of the exercise in all, and how that compares with the time before."""

    amount: str
    """Of all sets and both sides together."""
    bar: int
    """Length of its bar from 1 to 100; the largest amount of the same kind has 100."""
    rise: str
    """``+25 %`` against the time before; empty for the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """One showing, as a line of the exercise's page."""

    slug: str
    number: int
    title: str
    at: int
    clock: str
    block: str
    form: FormLink | None
    """The form shown, where it is not the main form."""
    sets: str
    dose: str
    load: str
    progress: Progress | None
    """None for a second showing in the same episode, and where sets do not count (warm-up and the like)."""


def facts(shown: Iterable[Appearance]) -> Iterator[tuple[object, ...]]:
    """What the showings are made from besides the exercise, for keys."""
    for one in shown:
        episode, block, item = one.episode, one.block, one.item
        yield (episode.slug, episode.number, episode.title, block.name, block.kind, block.format, block.at,
               block.sets, block.work, block.time, item.exercise, item.variant, item.at, item.dose, item.load)


def showings(site: Site, entries: Entries, exercise_id: str) -> tuple[Showing, ...]:
    """Every showing in the order of the series."""
    shown = site.appearances[exercise_id]
    progress = _progress(site, exercise_id, shown)
    return tuple(_showing(site, entries, exercise_id, one, progress) for one in shown)


def _showing(
    site: Site, entries: Entries, exercise_id: str, shown: Appearance, progress: dict[tuple[object, ...], Progress]
) -> Showing:
    episode, block, item = shown.episode, shown.block, shown.item
    at = block.at if item.at is None else item.at
    form = shown_form(site.forms, item)
    return Showing(
        slug=episode.slug,
        number=episode.number,
        title=episode.title,
        at=at,
        clock=format_clock(at),
        block=block.name,
        form=entries.link(form) if form.key != (exercise_id, None) else None,
        sets=_sets(site.phrases, block),
        dose=site.phrases.dose(item.dose) or _duration(site.phrases, block.work),
        load=site.phrases.load(item.load),
        # Given once: what an episode asks for in all stands beside its first showing.
        progress=progress.pop((episode.slug, form.key), None),
    )


def _sets(phrases: Phrases, block: Block) -> str:
    if block.format in (AMRAP, EMOM) and block.time is not None:
        return phrases.words("formats", block.format)
    return phrases.count(block.sets)


def _duration(phrases: Phrases, length: Duration | None) -> str:
    return phrases.duration(length) if length else ""


def _progress(site: Site, exercise_id: str, shown: Sequence[Appearance]) -> dict[tuple[object, ...], Progress]:
    """By episode and form; only where there is something to compare."""
    points = progression_of(site.details, site.forms, exercise_id, shown)
    alike: dict[tuple[object, ...], list[Point]] = {}
    for point in points:
        alike.setdefault((point.form, point.unit), []).append(point)
    return {
        (point.episode, point.form): _compared(site, point, max(one.amount.mid for one in line))
        for line in alike.values()
        if len(line) > 1
        for point in line
    }


def _compared(site: Site, point: Point, most: float) -> Progress:
    words = site.theme.strings.exercise
    rise = "" if point.rise is None else _percent(words, point.rise)
    amount = _amount(site, point)
    return Progress(
        amount=words.about.format(amount=amount) if point.assumed else amount,
        bar=max(1, round(100 * point.amount.mid / most)),
        rise=rise,
    )


def _amount(site: Site, point: Point) -> str:
    low, high = round(point.amount.low), round(point.amount.high)
    if point.unit == "seconds":
        return site.phrases.duration(Duration(low, high))
    counted = site.theme.strings.notation.counted[point.unit]
    return plural(counted, high).replace("#", site.phrases.number(low, high))


def _percent(words: Any, rise: float) -> str:
    percent = round(100 * rise)
    if percent == 0:
        return str(words.same)
    return str((words.more if percent > 0 else words.less).format(percent=abs(percent)))
