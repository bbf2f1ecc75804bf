"""Warnings about the calendar: too little time to recover, and wishes that cannot be met."""

from collections.abc import Iterator
from datetime import date, timedelta

from sitegen.checks.material import Material
from sitegen.model import Series
from sitegen.notation.english import day, listed
from sitegen.problems import Location, Problem, found
from sitegen.reading.folder import CALENDAR_FILE
from sitegen.study.calendar_entries import is_changed
from sitegen.study.forms import Forms, forms_of
from sitegen.study.overview import Overview, calendar_request, overview, series_entries
from sitegen.study.recovery import hard_muscles
from sitegen.study.schedule import RecoveryConflict, Schedule, place
from sitegen.study.schedule.conflict_sentences import conflict_sentence, ways_out


def check_calendar(material: Material) -> Iterator[Problem]:
    """Conflicts of the calendar with their ways out, and sessions planned before they are out."""
    series = material.series
    plan = _plan_of(series, material.forms)
    if plan is None:
        return
    files = {episode.number: episode.location for episode in series.sessions}
    for conflict in plan.conflicts:
        if isinstance(conflict, RecoveryConflict):
            location, check = files[conflict.second].at("blocks"), "recovery"
        else:
            location, check = series.details.location.at("schedule"), "calendar"
        yield found("warning", check, location, conflict_sentence(conflict), ways_out(conflict))
    yield from _too_early(series, plan)


def released_late(series: Series) -> list[Problem]:
    """Sessions that the calendar has on a day before they are out."""
    plan = _plan_of(series, forms_of(series.exercises))
    return list(_too_early(series, plan)) if plan is not None else []


def _plan_of(series: Series, forms: Forms) -> Schedule | None:
    """The calendar of the series; None where it has no schedule."""
    hard = {e.number: hard_muscles(series.details, forms, e) for e in series.sessions}
    request = calendar_request(series.details, hard)
    return place(request) if request is not None else None


def _too_early(series: Series, plan: Schedule) -> Iterator[Problem]:
    # From the last on, so that the first day of a session that is repeated stays.
    days = {placed.session: placed.date for placed in reversed(plan.placements)}
    first, advice = next((placed.session for placed in plan.placements), None), ""
    for episode in series.sessions:
        planned = days.get(episode.number)
        if episode.released and planned and planned < episode.released:
            message = f"it comes out on {day(episode.released)}, but the calendar has it on {day(planned)}"
            # Those behind the first one move with it.
            advice = advice or _let_it_wait(planned, episode.released, starts=episode.number == first)
            yield found("warning", "released-late", episode.location.at("released"), message, advice)


def _let_it_wait(planned: date, released: date, *, starts: bool) -> str:
    """How the calendar waits for a session: it begins later, or has a pause before it."""
    if starts:
        return f"write start: {released} under schedule: in series.yaml, or release it earlier"
    last = released - timedelta(days=1)
    pause = f"{planned} to {last}" if last > planned else f"{planned}"
    return (
        f"add {pause} to holidays: under schedule: in series.yaml, so that the calendar waits for it, "
        "or release it earlier"
    )


def check_recorded(material: Material) -> Iterator[Problem]:
    """A calendar that says something else than when it was last noted as published."""
    series = material.series
    if not series.calendar:
        return
    changed = [entry for entry in series_entries(series) if is_changed(series.calendar, entry)]
    if changed:
        several = f"{len(changed)} calendar entries are not as they were"
        message = f"{'one calendar entry is not as it was' if len(changed) == 1 else several} last published"
        advice = "run sitegen calendar when the site goes out; until then this is only for you to know"
        yield found("warning", "calendar-changed", Location(CALENDAR_FILE), message, advice)


def check_release_days(material: Material) -> Iterator[Problem]:
    """Without a calendar: episodes that come out too soon after one another for what both train hard."""
    if material.series.details.schedule is None:
        yield from _release_conflicts(material.series, overview(material.series))


def _release_conflicts(series: Series, seen: Overview) -> Iterator[Problem]:
    episodes = {episode.slug: episode for episode in series.sessions}
    for conflict in seen.release_conflicts:
        earlier, later = episodes[conflict.earlier], episodes[conflict.later]
        message = (
            f"episode {earlier.number} comes out {conflict.hours:g} h before this one, and both train "
            f"{listed(conflict.muscles)} hard, which wants {conflict.needed:g} h to recover"
        )
        location, advice = later.location.at("released"), "release it later, or give series.yaml a schedule"
        yield found("warning", "recovery", location, message, advice)
