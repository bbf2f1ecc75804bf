"""What becomes of an exercise for each need, as the sessions decide it.

A page about an exercise and the plan for a need must never say two things: so nothing is chosen here for an
exercise that a session shows. What the sessions choose is a fact about each of them (see ``pages.facts``).
Only an exercise that no session shows is asked about by itself.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from sitegen.model import Episode
from sitegen.pages.exercises.links import FormLink, form_link
from sitegen.pages.facts import FactOfExercise
from sitegen.pages.site import Site
from sitegen.study.forms import FormKey, shown_form
from sitegen.study.suitability import ByNeed
from sitegen.study.version import Version

DECISIONS, DECIDED = "decisions", "decided"
"""Names of the fact, and of the one that tells what is new in it."""


class ItemDecision(NamedTuple):
    """What becomes of an item for a need."""

    number: int
    """Of the session."""
    filmed: FormKey
    form: FormKey | None
    """None for a gap."""
    limited: tuple[str, ...]
    """What the limits of the need change, each once."""

    @property
    def as_filmed(self) -> bool:
        """True where nothing changes."""
        return self.form == self.filmed and not self.limited


ItemDecisions = tuple[ItemDecision, ...]
"""What becomes of an item, for each need of the series in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedWay:
    """One way in which an exercise is done for a need."""

    form: FormLink | None
    """None where nothing fits."""
    changes: str
    """What the limits of the need change, in a few words; empty for nothing."""
    sessions: str
    """In which sessions; empty where it is the same in all, or in none yet."""
    filmed: FormLink | None
    """What those sessions film, where they do not film the main form."""
    as_is: bool
    """True where it is done as filmed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedRow:
    """A need, and every way in which the sessions do the exercise for it."""

    id: str
    name: str
    ways: tuple[NeedWay, ...]

    @property
    def as_is(self) -> bool:
        """True where every session leaves it as filmed."""
        return all(way.as_is for way in self.ways)


# --- the fact ----------------------------------------------------------------------------------


def episode_decisions(site: Site, episode: Episode, chosen: ByNeed) -> tuple[tuple[str, ItemDecisions], ...]:
    """For every exercise that an item shows, its id and what becomes of the item."""
    found: list[tuple[str, ItemDecisions]] = []
    for block, *by_need in zip(episode.blocks, *chosen.values(), strict=True):
        for place, item in enumerate(block.items):
            filmed = shown_form(site.forms, item)
            decided = tuple(_decision(episode.number, filmed.key, versions[place]) for versions in by_need)
            # A variant that is another exercise of the library shows both.
            found += ((exercise, decided) for exercise in dict.fromkeys((item.exercise, filmed.exercise)))
    return tuple(found)


def _decision(number: int, filmed: FormKey, version: Version | None) -> ItemDecision:
    form, limited = (version.form.key, version.limited) if version else (None, ())
    return ItemDecision(number, filmed, form, tuple(dict.fromkeys(limited)))


# --- pages -------------------------------------------------------------------------------------


def need_rows(site: Site, exercise: str, shown: FactOfExercise) -> Iterator[NeedRow]:
    """A row for each need of the series, from the items that show an exercise."""
    for place, need in enumerate(site.details.needs.values()):
        decided = decided_for(site, exercise, shown, place)
        yield NeedRow(id=need.id, name=need.name, ways=tuple(_ways(site, exercise, decided)))


def decided_for(site: Site, exercise: str, shown: FactOfExercise, place: int) -> list[ItemDecision]:
    """What the sessions decide for the need at that place; what nobody shows is decided by itself."""
    if decided := [by_need[place] for by_need in shown.values]:
        return decided
    need = list(site.details.needs)[place]
    return [_decision(0, FormKey(exercise), site.suitability.by_itself(exercise, [need]))]


def _ways(site: Site, exercise: str, decided: Iterable[ItemDecision]) -> Iterator[NeedWay]:
    """In the order of the sessions; the sessions are named where there is more than one way."""
    sessions: dict[tuple[object, ...], list[ItemDecision]] = {}
    for one in decided:
        sessions.setdefault((one.form, one.limited, one.as_filmed), []).append(one)
    for ones in sessions.values():
        numbers = dict.fromkeys(one.number for one in ones)
        first = ones[0]
        elsewhere = first.filmed not in (first.form, FormKey(exercise))
        yield NeedWay(
            form=_link(site, first.form) if first.form else None,
            changes=_changes(site, first.limited),
            sessions=_numbers(site, numbers) if len(sessions) > 1 else "",
            filmed=_link(site, first.filmed) if elsewhere and len(sessions) > 1 else None,
            as_is=first.as_filmed,
        )


def _link(site: Site, key: FormKey) -> FormLink:
    return form_link(site, site.forms[key])


def _changes(site: Site, limited: Iterable[str]) -> str:
    words = site.theme.strings.version
    return str(words.muscles_between.join(str(words.limited[one]) for one in limited))


def _numbers(site: Site, numbers: Iterable[int]) -> str:
    return str(site.theme.strings.exercise.in_sessions.format(numbers=", ".join(map(str, numbers))))
