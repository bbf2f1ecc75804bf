"""Where an exercise is shown, with the doses, so that its progress over the series can be seen."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.pages.exercises.links import FormLink
from sitegen.pages.exercises.showing_facts import ShowingFact
from sitegen.pages.phrases import rise_words
from sitegen.pages.site import Site
from sitegen.study.progression import rise


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """What an episode asks of a form in all, and how that compares with the time before."""

    amount: str
    """Of all sets and both sides together."""
    bar: int
    """Length of its bar from 1 to 100; the largest amount of the same kind has 100."""
    rise: str
    """``25 % more`` against the time before; empty for the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedShowing:
    """One showing, as a line of the exercise's page."""

    line: ShowingFact
    form: FormLink | None
    """The form shown, where it is not the main form."""
    progress: Progress | None
    """None for a further showing in the same episode, where nothing can be compared, and where sets
    do not count (warm-up and the like)."""


def showings(site: Site, exercise_id: str, lines: Sequence[ShowingFact]) -> tuple[ListedShowing, ...]:
    """The showings of an exercise for its page."""
    return tuple(
        _showing(site, exercise_id, line, progress)
        for line, progress in zip(lines, _progress(site, lines), strict=True)
    )


def _showing(site: Site, exercise_id: str, line: ShowingFact, progress: Progress | None) -> ListedShowing:
    link = FormLink(
        exercise=line.exercise,
        id=line.variant,
        name=line.name,
        change=line.change,
        change_word=site.phrases.words("changes", line.change) if line.change else "",
    )
    return ListedShowing(line=line, form=link if line.form != (exercise_id, "") else None, progress=progress)


def _progress(site: Site, lines: Sequence[ShowingFact]) -> list[Progress | None]:
    """For each line; only where there are two to compare."""
    alike: dict[tuple[object, ...], list[int]] = {}
    for place, line in enumerate(lines):
        if line.unit:
            alike.setdefault((line.form, line.unit), []).append(place)
    found: list[Progress | None] = [None] * len(lines)
    for places in alike.values():
        most = max(lines[place].amount.mid for place in places)
        # Rounds that never fit into their time come to nothing: there is nothing to compare.
        compared = places if len(places) > 1 and most > 0 else ()
        for before, place in zip([None, *places], compared, strict=False):
            found[place] = _compared(site, lines[place], None if before is None else lines[before], most)
    return found


def _compared(site: Site, line: ShowingFact, before: ShowingFact | None, most: float) -> Progress:
    words = site.theme.strings.exercise
    change = None
    if before and not (line.assumed or before.assumed):
        held = before.held and line.held
        change = rise(before.held, line.held) if held else rise(before.amount, line.amount)
    text = site.phrases.amount(line.unit, line.amount.low, line.amount.high)
    return Progress(
        amount=words.about.format(amount=text) if line.assumed else text,
        bar=max(1, round(100 * line.amount.mid / most)),
        rise=rise_words(words, change),
    )
