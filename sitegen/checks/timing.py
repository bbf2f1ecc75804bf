"""Warnings about the time a session takes."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Episode
from sitegen.problems import Problem, found
from sitegen.study.forms import forms_of
from sitegen.study.span import Span
from sitegen.study.timing import session_time


def check_announced_time(material: Material) -> Iterator[Problem]:
    """A session that takes longer than it announces, or clearly shorter."""
    series = material.series
    forms = forms_of(series.exercises)
    for episode in series.sessions:
        if episode.lasts is None:
            continue
        time = session_time(series.details, forms, episode)
        if episode.planned:
            yield from _check_plan(episode, time.your_turn)
            continue
        taken = time.seconds
        if taken is None:
            continue
        low, high = (round(end / 60) for end in (taken.low, taken.high))
        announced = f"{_minutes(episode.lasts.low / 60, episode.lasts.high / 60)} it announces"
        spot, advice = episode.spot.at("lasts"), f"write lasts: {_minutes(low, high)}"
        if high > episode.lasts.high / 60:
            message = f"the session takes {_minutes(low, high)}, longer than the {announced}"
            yield found("warning", "session-time", spot, message, f"{advice}, or take something out")
        elif high < episode.lasts.low / 60:
            message = f"the session takes {_minutes(low, high)}, less than the {announced}"
            yield found("warning", "session-time", spot, message, advice)


def _check_plan(episode: Episode, doing: Span) -> Iterator[Problem]:
    """A plan that takes longer than announced before a word of explanation is filmed."""
    low, high = (round(end / 60) for end in (doing.low, doing.high))
    if episode.lasts is not None and high > episode.lasts.high / 60:
        announced = _minutes(episode.lasts.low / 60, episode.lasts.high / 60)
        message = f"doing the session takes {_minutes(low, high)}, longer than the {announced} it announces"
        advice = "take something out, or announce more; what the film explains comes on top"
        yield found("warning", "session-time", episode.spot.at("lasts"), message, advice)


def _minutes(low: float, high: float) -> str:
    return f"{low:g} min" if low == high else f"{low:g}-{high:g} min"
