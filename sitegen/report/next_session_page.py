"""The trainer's page about the next session: its room, proposals, what each need would keep of them.

It is for whoever makes the series and is shown by the preview only; no build writes it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from importlib.resources import files

from jinja2 import Environment, StrictUndefined

from sitegen.composing.composer import Composer
from sitegen.composing.conflicts import ProposalError
from sitegen.composing.next_items import NextItems
from sitegen.composing.proposal import Proposal
from sitegen.composing.so_far import SoFar, so_far
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Series
from sitegen.notation.english import day, listed
from sitegen.report.after import ProposalAnswers
from sitegen.report.week_room import ahead_head, ahead_rows, pattern_rows, push_words, room_rows, when_words
from sitegen.study.volume import STRENGTH

PROPOSALS = 3
"""Enough to choose from, few enough to read (our choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownProposal:
    """A proposal as the page shows it."""

    minutes: str
    proposal: Proposal
    lost: tuple[tuple[str, str], ...]
    """Need and what it would lose, for those that lose much."""
    curves: tuple[tuple[str, str], ...]
    """Name of an exercise, and its curve before and with the proposal."""


def room_page(series: Series, today: date) -> str:
    """The whole page as HTML, as it is on a day."""
    now, after = so_far(series), ProposalAnswers(series)
    try:
        found = Composer(now).propose(SessionWishes(), None, PROPOSALS).sessions
        shown, not_filled = [_shown(after, one) for one in found], ""
    except ProposalError as error:
        shown, not_filled = [], str(error)
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    template = environment.from_string(
        (files("sitegen.report") / "next_session.html").read_text(encoding="utf-8")
    )
    room = now.room
    return template.render(
        title=series.details.title,
        language=series.details.language,
        room=room,
        when=when_words(room),
        past=day(room.day) if room.day is not None and room.day < today else "",
        muscles=room_rows(room),
        patterns=list(pattern_rows(room)),
        weeks=ahead_head(room)[1:],
        ahead=list(ahead_rows(room)),
        push=push_words(room),
        kept_in=listed(f"episode {number}" for number in room.kept_in),
        lost=list(after.lost_rows(room.kept)),
        proposals=shown,
        doses=list(next_doses(now)),
        not_filled=not_filled,
    )


def next_doses(now: SoFar) -> Iterator[tuple[str, str, str]]:
    """Of every exercise of strength blocks, in the form last shown: its name, its next dose, and why.

    The sets are those of the block it was last in.
    """
    items = NextItems(now)
    for (_, kind), key in sorted(now.history.last_form.items()):
        if kind in STRENGTH:
            last = now.history.showings[key, kind][-1]
            item, dose, _ = items.known(key, last.block)
            load = f" with {item.load}" if item.load else ""
            yield now.forms[key].name, f"{item.dose or 'as the format says'}{load}", dose.reason


def _shown(after: ProposalAnswers, one: Proposal) -> ShownProposal:
    low, high = one.seconds.minutes
    return ShownProposal(
        minutes=str(low) if low == high else f"{low}-{high}",
        proposal=one,
        lost=tuple(after.lost(one.episode)),
        curves=tuple(after.curves(one.episode)),
    )
