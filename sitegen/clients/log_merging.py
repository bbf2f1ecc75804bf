"""Of several logs of one client the latest word on each sitting, where her clocks can tell which it is."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta

from sitegen.clients.log import Log, Sitting

_AHEAD = timedelta(days=1)
"""How far a moment may lie beyond today: her day may have begun where her trainer's has not."""

_Age = tuple[bool, datetime]
"""Whether the clock can be believed, and what it showed: what cannot be believed is older than all else."""


def oldest_first(logs: Iterable[Log], today: date) -> list[Log]:
    """The logs, the one that was saved last at the end.

    One that was saved on a day to come stands first: a clock that was ahead once would win for ever.
    """
    return sorted(logs, key=lambda log: _age_of_file(log, today))


def merged_sittings(logs: Sequence[Log], today: date) -> dict[str, Sitting]:
    """Each sitting once, by its key: the latest word of the logs, which come oldest first."""
    latest: dict[str, tuple[_Age, Sitting]] = {}
    for log in logs:
        for sitting in log.sittings:
            age = _age(sitting, log, today)
            if sitting.key not in latest or age >= latest[sitting.key][0]:
                latest[sitting.key] = (age, sitting)
    return {key: sitting for key, (_, sitting) in latest.items()}


def wrong_clocks(logs: Iterable[Log], titles: Mapping[str, str], today: date) -> Iterator[str]:
    """A line for each moment that cannot be."""
    told = set()
    for log in logs:
        if _is_ahead(log.saved, today):
            told.add(
                f"{log.file!a} was saved on {log.saved:%d %b %Y} by its clock, which is still to come: "
                "where another log tells of the same session, that one holds"
            )
        for one in log.sittings:
            if one.changed is not None and one.changed > log.saved and not _is_ahead(log.saved, today):
                told.add(
                    f"{titles.get(one.slug, one.slug)} in {log.file!a} was changed on {one.changed:%d %b %Y} "
                    "by its clock, after the file was saved: it counts as old as the file"
                )
    yield from sorted(told)


def _age_of_file(log: Log, today: date) -> _Age:
    return not _is_ahead(log.saved, today), log.saved


def _age(sitting: Sitting, log: Log, today: date) -> _Age:
    """What has no moment of its own, or one after the file was saved, is as old as its file."""
    file_age = _age_of_file(log, today)
    return file_age if sitting.changed is None else min(file_age, (file_age[0], sitting.changed))


def _is_ahead(moment: datetime, today: date) -> bool:
    return moment.date() > today + _AHEAD
