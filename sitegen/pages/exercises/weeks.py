"""The weeks of a series, counted from the Monday before its first release."""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta

from sitegen.model import Episode


def weeks_of(episodes: Iterable[Episode]) -> Mapping[str, int]:
    """Number of the week by slug, from 1; episodes without a release date are left out."""
    released = {e.slug: _monday(e.released) for e in episodes if e.released is not None}
    first = min(released.values(), default=date.min)
    return {slug: (monday - first).days // 7 + 1 for slug, monday in released.items()}


def _monday(day: date) -> date:
    """The first day of its week (ISO 8601)."""
    return day - timedelta(days=day.weekday())
