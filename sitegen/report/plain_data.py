"""The report as plain data. Times are seconds, energy kilocalories; ranges are ``[low, high]``."""

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from sitegen.report.gather import EpisodeNumbers, Report
from sitegen.study.recovery import ShortRecovery
from sitegen.study.schedule import as_data
from sitegen.study.span import Span
from sitegen.study.training import Training, moderate_minutes
from sitegen.study.volume import Balance
from sitegen.study.week_room import WeekRoom
from sitegen.study.weeks import Week


def report_data(report: Report) -> dict[str, Any]:
    """Everything, for ``--json``."""
    return {
        "title": report.series.details.title,
        "episodes": [_episode(report, one) for one in report.episodes],
        "weeks": [_week(week, training) for week, training in report.seen.weeks],
        "room": _room(report.room),
        "calendar": as_data(report.plan) if report.plan else None,
        "better_order": as_data(report.order) if report.order else None,
        "release_conflicts": [_conflict(conflict) for conflict in report.seen.release_conflicts],
    }


def _episode(report: Report, one: EpisodeNumbers) -> dict[str, Any]:
    episode, seconds = one.episode, one.time.seconds
    return {
        "number": episode.number,
        "slug": episode.slug,
        "title": episode.title,
        "released": episode.released.isoformat() if episode.released else None,
        "seconds": _ends(seconds) if seconds else None,
        "your_turn_seconds": _ends(one.time.your_turn),
        "announced_seconds": [episode.lasts.low, episode.lasts.high] if episode.lasts else None,
        "hard": list(one.hard),
        **_training(report.seen.trainings[episode.number]),
    }


def _week(week: Week, training: Training) -> dict[str, Any]:
    return {
        "number": week.number,
        "monday": week.monday.isoformat(),
        "iso_week": list(week.iso),
        "sessions": list(week.sessions),
        **_training(training),
    }


def _training(training: Training) -> dict[str, Any]:
    return {
        "strength_sets": _sums(training.strength),
        "conditioning_rounds": _sums(training.conditioning),
        "balance": {side.name: _ends(getattr(training.balance, side.name)) for side in fields(Balance)},
        "one_sided_sets": _ends(training.one_sided),
        "two_sided_sets": _ends(training.two_sided),
        "unequal_loads": [
            {
                "episode": one.session,
                "exercise": one.exercise,
                "left_over": one.left_over,
                "measure": one.measure,
            }
            for one in training.uneven
        ],
        "minutes": _sums(training.minutes),
        "aerobic_minutes": _sums(training.aerobic),
        "guideline_minutes": _ends(moderate_minutes(training.aerobic)),
        "kcal": _ends(training.kcal),
        "strength_sessions": training.strength_sessions,
    }


def _conflict(conflict: ShortRecovery) -> dict[str, Any]:
    return {field.name: as_data(getattr(conflict, field.name)) for field in fields(ShortRecovery)}


def _room(room: WeekRoom) -> dict[str, Any]:
    return {
        "episode": room.number,
        "day": room.day.isoformat() if room.day else None,
        "week": room.week,
        "sessions": list(room.sessions),
        "sessions_to_come": room.left,
        "weeks_ahead": [
            {"week": one.number, "days": [day.isoformat() for day in one.days], "sessions": one.sessions}
            for one in room.ahead
        ],
        "after_week_off": room.after_week_off,
        "push_room": room.push_room,
        "muscles": {
            one.muscle: {
                "done": _ends(one.done),
                "lacks": one.lacks,
                "may": one.may,
                "usual": round(one.usual, 2),
                "recovering_from": list(one.tired_from),
            }
            for one in room.muscles
        },
        "kept_in": list(room.kept_in),
        "kept": {
            need: {
                muscle: {"filmed": _ends(one.filmed), "sets": _ends(one.sets), "loaded": one.loaded}
                for muscle, one in kept.items()
            }
            for need, kept in room.kept.items()
        },
    }


def _sums(sums: Mapping[str, Span]) -> dict[str, list[float]]:
    return {key: _ends(span) for key, span in sums.items()}


def _ends(span: Span) -> list[float]:
    return [round(span.low, 2), round(span.high, 2)]
