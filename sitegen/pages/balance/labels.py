"""How weeks and amounts are written."""

from dataclasses import dataclass

from sitegen.pages.balance.weeks_together import TrainedWeek
from sitegen.pages.phrases import Phrases
from sitegen.pages.schedule.sentences import ScheduleSentences
from sitegen.pages.site import Site
from sitegen.study.span import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekLabel:
    """A week as a reader sees it."""

    name: str
    """``Week 3``."""
    short: str
    """``3``."""
    days: str
    """``21–27 September``."""


def week_label(site: Site, one: TrainedWeek) -> WeekLabel:
    """The names of a week; of all sessions together where there are no weeks."""
    words = site.theme.strings.balance
    if one.week is None:
        return WeekLabel(name=words.all_sessions, short="", days="")
    return WeekLabel(
        name=words.week.format(number=one.week.number),
        short=str(one.week.number),
        days=ScheduleSentences(site, {}).week(one.week.monday),
    )


def amount(phrases: Phrases, span: Span) -> str:
    """``12`` or ``9–12``, in halves; empty for nothing."""
    low, high = (round(end * 2) / 2 for end in (span.low, span.high))
    return phrases.number(low, high) if high else ""


def whole(phrases: Phrases, span: Span) -> str:
    """A range in whole numbers; ``0`` for nothing."""
    return phrases.number(round(span.low), round(span.high))
