"""The report as lines of text, in tables that fit the width they are given."""

from collections.abc import Callable, Iterator, Sequence

from sitegen.model import Episode
from sitegen.notation.english import day, listed
from sitegen.report.gather import EpisodeNumbers, Report
from sitegen.report.table import table
from sitegen.report.week_room import room_lines
from sitegen.study.bounds import limits_of
from sitegen.study.energy import LIGHT, MODERATE, VIGOROUS
from sitegen.study.load import shown_mass
from sitegen.study.schedule.conflict_sentences import conflict_sentence, order_words, ways_out
from sitegen.study.span import NOTHING, Span
from sitegen.study.training import Training, moderate_minutes
from sitegen.study.weeks import Week
from sitegen.vocabulary import MUSCLE_REGIONS

Weeks = Sequence[tuple[Week, Training]]


def report_lines(report: Report, width: int) -> Iterator[str]:
    """The lines of the whole report, tables broken to the width of the terminal."""
    yield from _times(report, width)
    if report.seen.weeks:
        yield from _sets(report, width)
        yield from _balance(report.seen.weeks, width)
        yield from _minutes(report, width)
        names = {need.id: need.name for need in report.series.details.needs.values()}
        yield from room_lines(report.room, names, width)
    else:
        yield "No weeks: the series has no schedule and the episodes no release dates."
    yield ""
    yield from _calendar(report)


def _times(report: Report, width: int) -> Iterator[str]:
    yield "Time in minutes, video and your turns"
    head = ("", "takes", "announced", "your turns", "trains hard")
    yield from table(head, [_time_row(one) for one in report.episodes], width)


def _time_row(one: EpisodeNumbers) -> tuple[str, ...]:
    episode, seconds = one.episode, one.time.seconds
    announced = Span(episode.lasts.low, episode.lasts.high) if episode.lasts else None
    return (
        f"{episode.number} {episode.title}",
        _whole(seconds, 60) if seconds else "?",
        _whole(announced, 60) if announced else "",
        _whole(one.time.your_turn, 60),
        ", ".join(one.hard),
    )


def _sets(report: Report, width: int) -> Iterator[str]:
    weeks, details = report.seen.weeks, report.series.details
    trained = {m for _, one in weeks for m in (*one.strength, *one.conditioning)}
    muscles = [m for m in {**MUSCLE_REGIONS, **details.muscles} if m in trained]
    yield "\nStrength sets of each muscle by week (+ rounds of conditioning)"
    rows = [
        (muscle, *(_both(one, muscle) for _, one in weeks), str(limits_of(details.bounds, muscle) or ""))
        for muscle in muscles
    ]
    yield from table(("", *_week_names(weeks), "bounds"), rows, width, keep=1)


def _both(one: Training, muscle: str) -> str:
    strength, rounds = one.strength.get(muscle, NOTHING), one.conditioning.get(muscle, NOTHING)
    more = f" + {rounds.in_halves}" if rounds.high else ""
    return f"{strength.in_halves}{more}" if strength.high or more else "-"


def _balance(weeks: Weeks, width: int) -> Iterator[str]:
    yield "\nStrength sets against each other by week"
    pairs = (("push", "pull"), ("knee", "hinge"), ("upper", "lower"))
    rows = [
        (
            f"{one} : {other}",
            *(
                f"{getattr(training.balance, one).in_halves} : {getattr(training.balance, other).in_halves}"
                for _, training in weeks
            ),
        )
        for one, other in pairs
    ]
    yield from table(("", *_week_names(weeks)), rows, width)


def _minutes(report: Report, width: int) -> Iterator[str]:
    weeks = report.seen.weeks
    details = report.series.details
    low, high = (_mass(mass.base, details.units) for mass in details.body_mass)
    yield "\nMinutes of work by week (WHO 2020: 150-300 aerobic and moderate, or half as many vigorous)"

    def row(name: str, value: Callable[[Training], str]) -> tuple[str, ...]:
        return (name, *(value(training) for _, training in weeks))

    rows = [
        row(LIGHT, lambda one: _whole(one.minutes.get(LIGHT, NOTHING))),
        row(MODERATE, lambda one: _whole(one.minutes.get(MODERATE, NOTHING))),
        row(VIGOROUS, lambda one: _whole(one.minutes.get(VIGOROUS, NOTHING))),
        row("aerobic, as moderate", lambda one: _whole(moderate_minutes(one.aerobic))),
        row("sessions with strength", lambda one: str(one.strength_sessions)),
        row(f"kcal, {low} to {high}", lambda one: _tens(one.kcal)),
    ]
    yield from table(("", *_week_names(weeks)), rows, width)


def _calendar(report: Report) -> Iterator[str]:
    episodes = {episode.slug: episode for episode in report.series.sessions}
    for clash in report.seen.release_conflicts:
        both = listed(clash.muscles)
        yield (
            f"{_name(episodes[clash.earlier])} and {_name(episodes[clash.later])} come out {clash.hours:g} h "
            f"apart, and both train {both} hard"
        )
    if report.plan is None:
        yield "Calendar: none (give series.yaml a schedule)"
        return
    placed, last = report.plan.placements, report.plan.finish
    if placed:
        until = f" to {day(last)}" if last else ""
        yield f"Calendar: {len(placed)} sessions, {day(placed[0].date)}{until}"
    for conflict in report.plan.conflicts:
        yield f"- {conflict_sentence(conflict)}"
        if ways_out(conflict):
            yield f"  {ways_out(conflict)}"
    if not report.plan.conflicts:
        yield "No conflicts: every muscle trained hard has its time to recover."
    if report.order:
        yield f"Another order: {order_words(report.order)}"


def _name(episode: Episode) -> str:
    return f"episode {episode.number}"


def _week_names(weeks: Weeks) -> list[str]:
    return [f"week {week.number}" for week, _ in weeks]


def _whole(amount: Span, unit: float = 1) -> str:
    low, high = (round(end / unit) for end in (amount.low, amount.high))
    return f"{low}" if low == high else f"{low}-{high}"


def _mass(kilograms: float, units: str) -> str:
    mass = shown_mass(Span(kilograms, kilograms), units)
    return f"{round(mass.low)} {mass.unit}"


def _tens(amount: Span) -> str:
    return f"{round(amount.low, -1):.0f}-{round(amount.high, -1):.0f}"
