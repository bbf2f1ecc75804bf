"""The text of the next episode's file: number, date, shared blocks and a shape to fill in."""

import json
import re
from datetime import date, timedelta

from sitegen.model import Block, Series
from sitegen.notation import format_clock
from sitegen.vocabulary import WEEKDAYS


def next_episode(series: Series, title: str) -> tuple[str, str]:
    """File name and text of the episode after the last one.

    Shared blocks that the last episode opened and closed with are taken over at their usual
    times; between them stands one block to copy, with exercises the series has.

    Raises ValueError where the title gives no address or one that is taken.
    """
    number = max((e.number for e in series.episodes), default=0) + 1
    slug = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")
    if not slug:
        raise ValueError(f"the title {title!r} has no letter a-z for the address; set one with letters")
    if any(e.slug == slug for e in series.episodes):
        raise ValueError(f"an episode with the address {slug!r} is there already; choose another title")
    lines = [
        f"title: {json.dumps(title, ensure_ascii=False)}",
        f"number: {number}",
        f"released: {_next_release(series)}",
        "summary: One sentence that says what this session is about.",
        *_files(number),
        "blocks:",
        *_blocks(series),
    ]
    return f"{number:02d}-{slug}.yaml", "\n".join(lines) + "\n"


def _files(number: int) -> list[str]:
    return [
        f'# video: {{file: media/{number:02d}.webm, length: "9:40"}}     # once it is filmed',
        f"# captions: captions/{number:02d}.vtt",
        "# lasts: 35-40 min          # what you announce; sitegen check compares it",
    ]


def _next_release(series: Series) -> date:
    """The training day after the last release; the series' start where nothing is out."""
    schedule = series.details.schedule
    last = max((e.released for e in series.episodes if e.released), default=None)
    if last is None:
        return schedule.start if schedule else date(2027, 1, 4)
    day = last + timedelta(days=1)
    while schedule and WEEKDAYS[day.weekday()] not in schedule.days:
        day += timedelta(days=1)
    return day


def _blocks(series: Series) -> list[str]:
    last = series.episodes[-1].blocks if series.episodes else ()
    opening = [block for block in last[:1] if block.routine]
    closing = [block for block in last[-1:] if block.routine and len(last) > 1]
    at = opening[0].at if opening else 20
    lines = [line for block in opening for line in _shared(block, at)]
    start = at + _length_of(opening, last)
    lines += _sketch(series, start)
    return lines + [line for block in closing for line in _shared(block, start + 180)]


def _length_of(opening: list[Block], last: tuple[Block, ...]) -> int:
    return last[1].at - last[0].at if opening and len(last) > 1 else 60


def _shared(block: Block, at: int) -> list[str]:
    return [f"  - routine: {block.routine}", f'    at: "{format_clock(at)}"']


def _sketch(series: Series, start: int) -> list[str]:
    exercises = list(series.exercises)
    # An id that is nowhere makes the check ask for it by name.
    pair = (exercises * 2)[:2] or ["an-exercise", "another-exercise"]
    return [
        "  - name: First pair",
        "    kind: strength",
        "    format: superset         # content/README.md lists the formats and short forms",
        f'    at: "{format_clock(start)}"',
        f'    your_turn: "{format_clock(start + 120)}"',
        "    sets: 3",
        "    rest: {between_exercises: 15 s, between_sets: 60-90 s, after: 2 min}",
        "    items:",
        f'      - {{exercise: {pair[0]}, at: "{format_clock(start + 5)}", dose: 8-12, effort: 2 in reserve}}',
        f'      - {{exercise: {pair[1]}, at: "{format_clock(start + 60)}", dose: 8 each side}}',
    ]
