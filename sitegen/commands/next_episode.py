"""The text of the next episode's file: a plan with number, date and shared blocks. Nothing is invented: what
the trainer has to decide stands there as a comment."""

import json
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from slugify import slugify

from sitegen.model import Block, Episode, Series
from sitegen.study.overview import series_entries
from sitegen.study.schedule.days import training_days
from sitegen.study.schedule.scheduler import request_from_series
from sitegen.vocabulary import COOL_DOWN, MOBILITY, WARM_UP

_OPENING, _CLOSING = (WARM_UP,), (COOL_DOWN, MOBILITY)
"""Kinds of shared blocks that begin and end a session (common practice, no source)."""

_SKETCH = """\
  # A block for each part of the session. content/README.md lists formats and short forms.
  # - name: First pair
  #   kind: strength          # warm-up, conditioning, strength, mobility or cool-down
  #   format: superset
  #   sets: 3
  #   rest: {between_exercises: 15 s, between_sets: 60-90 s, after: 2 min}
  #   items:
  #     - {exercise: id-of-an-exercise, dose: 8-12, effort: 2 in reserve}
  #     - {exercise: id-of-another, dose: 8 each side}
"""


def next_episode(series: Series, routines: Mapping[str, str], title: str, today: date) -> tuple[str, str]:
    """File name and text of the episode after the last one.

    ``routines`` are the shared blocks of the series and their kinds. Those that the last episode with such
    blocks opened and closed with are taken over; a series without one gets its warm-up and cool-down.

    Raises ValueError where the title gives no address or one that is taken.
    """
    opening, closing = shared_around(series.sessions, routines)
    shared = [[f"  - routine: {routine}" for routine in some] for some in (opening, closing)]
    return plan_file(series, title, today, [*shared[0], _SKETCH.rstrip(), *shared[1]])


def plan_file(series: Series, title: str, today: date, blocks: Sequence[str]) -> tuple[str, str]:
    """File name and text of a plan with these lines for its blocks.

    Raises ValueError where the title gives no address or one that is taken.
    """
    sessions = series.sessions
    number = max((episode.number for episode in sessions), default=0) + 1
    slug = slugify(title)
    if not slug:
        raise ValueError(f"the title {title!r} has no letter for the address; set one with letters")
    if any(episode.slug == slug for episode in sessions):
        raise ValueError(f"an episode with the address {slug!r} is there already; choose another title")
    released = next_release(series, today)
    lines = [
        "# A plan: it is checked and counted, has its sheet and is shown in the preview; the published site",
        "# only announces it. Once it is filmed, add the video and the times: at: and your_turn:.",
        f"title: {json.dumps(title, ensure_ascii=False)}",
        f"number: {number}",
        f"released: {released}" if released else "# released: the day it comes out, such as 2026-09-14",
        "# summary: one sentence that says what the session is about",
        f'# video: {{file: media/{number:02d}.webm, length: "9:40"}}',
        f"# captions: captions/{number:02d}.vtt",
        "# lasts: 35-40 min          # what you announce; sitegen check compares it",
        "blocks:",
    ]
    return f"{number:02d}-{slug}.yaml", "\n".join([*lines, *blocks]) + "\n"


def next_release(series: Series, today: date) -> date | None:
    """The first training day after the last release and not before ``today`` that is no holiday and in no
    week kept free; None for a series without training days."""
    wishes = series.details.schedule
    if wishes is None:
        return None
    taken = [episode.released for episode in series.sessions if episode.released]
    # What has no day of release is done on its day of the calendar.
    undated = {episode.number for episode in series.sessions if not episode.released}
    taken += [entry.date for entry in series_entries(series) if entry.brief.number in undated]
    earliest = max([today, *(day + timedelta(days=1) for day in taken)]).toordinal()
    days = training_days(request_from_series(wishes, ()))
    return next(
        (date.fromordinal(day) for day in map(days.day, range(len(days.open))) if day >= earliest), None
    )


def shared_around(sessions: Sequence[Episode], routines: Mapping[str, str]) -> tuple[list[str], list[str]]:
    """Ids of the shared blocks to open and to close with."""
    for episode in reversed(sessions):
        opening = list(_leading(episode.blocks))
        # From the end back to where the opening ended: where all blocks are shared, each counts once.
        closing = list(_leading(episode.blocks[: len(opening) - 1 : -1] if opening else episode.blocks[::-1]))
        if opening or closing:
            return opening, closing[::-1]
    by_kind = [[one for one, kind in routines.items() if kind in kinds][:1] for kinds in (_OPENING, _CLOSING)]
    return by_kind[0], by_kind[1]


def _leading(blocks: Sequence[Block]) -> Iterator[str]:
    """The shared blocks before the first block of an episode's own."""
    for block in blocks:
        if block.routine is None:
            return
        yield block.routine
