"""What the schedule needs of each episode."""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.model import Block, Episode, Item
from sitegen.pages.site import Site
from sitegen.study.calendar_entries import SessionSummary, brief_of
from sitegen.study.volume import COUNTED_KINDS
from sitegen.vocabulary import AMRAP, EMOM

SESSION = "session"
"""Name of the fact."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionFact:
    """A session as the schedule shows it."""

    brief: SessionSummary
    items: tuple[tuple[str, str, str], ...]
    """Anchor, name and dose of each exercise that loads and repetitions are noted for."""


def session_fact(site: Site, episode: Episode) -> SessionFact:
    """The fact of an episode."""
    brief = brief_of(site.details, site.forms, episode, site.time_of(episode))
    return SessionFact(brief=brief, items=tuple(dict.fromkeys(_items(site, episode))))


def _items(site: Site, episode: Episode) -> Iterator[tuple[str, str, str]]:
    for block in episode.blocks:
        if block.kind in COUNTED_KINDS:
            for item in block.items:
                name = site.form(item.exercise, item.variant).name
                yield item.variant or item.exercise, name, _dose(site, block, item)


def _dose(site: Site, block: Block, item: Item) -> str:
    """``3 × 8 reps``; the dose alone where the format decides how often."""
    phrases = site.phrases
    dose = phrases.dose_or_work(item.dose, block)
    if not dose or block.format in (AMRAP, EMOM) or (item.dose is not None and item.dose.sets):
        return dose
    return f"{phrases.count(block.sets)} × {dose}"
