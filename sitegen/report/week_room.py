"""What the next session has room for, as lines of text."""

import textwrap
from collections.abc import Iterator, Mapping

from sitegen.notation.english import day, listed
from sitegen.report.table import table
from sitegen.study.week_room import KeptSets, MuscleRoom, WeekAhead, WeekRoom

LITTLE = 0.5
"""A need that keeps less than this share of a muscle's sets is told of it (our choice)."""


def room_lines(room: WeekRoom, need_names: Mapping[str, str], width: int) -> Iterator[str]:
    """The room of each muscle, then what each need has kept."""
    yield f"\nRoom of the next session, episode {room.number}{when_words(room)}, in strength sets"
    head = ("", "week so far", "still needs", "may have", "usual week", "recovering from")
    yield from table(head, room_rows(room), width)
    yield ""
    yield from table(("", "week so far", "usual week"), list(pattern_rows(room)), width)
    if push := push_words(room):
        yield f"push to pull: {push}"
    if room.ahead:
        yield "\nRoom of the next weeks, in strength sets: at least and at most"
        yield from table(ahead_head(room), list(ahead_rows(room)), width)
    if room.kept_in and room.kept:
        yield from _needs(room, need_names, width)


def room_rows(room: WeekRoom) -> list[tuple[str, ...]]:
    """A row for each muscle: name, week so far, still needs, may have, usual week, recovering from."""
    return [_row(one) for one in room.muscles]


def pattern_rows(room: WeekRoom) -> Iterator[tuple[str, ...]]:
    """A row for each side of a pair: name, week so far, usual week."""
    for name in ("push", "pull", "knee", "hinge"):
        done, usual = getattr(room.training.balance, name), getattr(room.usual_balance, name)
        yield name, done.in_halves, usual.in_halves


def ahead_head(room: WeekRoom) -> tuple[str, ...]:
    """The heading of each week ahead: its number, its sessions and the first day."""
    return ("", *(_week_words(one) for one in room.ahead))


def _week_words(one: WeekAhead) -> str:
    if not one.days:
        return f"week {one.number}: kept free"
    sessions = "1 session" if one.sessions == 1 else f"{one.sessions} sessions"
    return f"week {one.number}: {sessions} from {day(one.days[0])}"


def ahead_rows(room: WeekRoom) -> Iterator[tuple[str, ...]]:
    """A row for each muscle with limits: its name, then for each week ahead the sets it needs and may have.

    In a later week nothing is done yet, so that it has all of its limits.
    """
    for one in room.muscles:
        if one.limits is not None:
            whole = f"{one.limits.low if one.required else 0}-{one.limits.high}"
            still = f"{one.lacks:g}-{max(0, one.may or 0):g}"
            cells = (still if week.number == room.week else whole for week in room.ahead)
            yield one.muscle, *(c if w.days else "" for c, w in zip(cells, room.ahead, strict=True))


def _needs(room: WeekRoom, names: Mapping[str, str], width: int) -> Iterator[str]:
    yield f"\nWhat the needs lose of {_sessions(room.kept_in)}"
    lost = {need: words for need, kept in room.kept.items() if (words := lost_words(kept))}
    if lost:
        yield from table(("", "loses"), [(names[need], words) for need, words in lost.items()], width)
    if rest := [names[need] for need in room.kept if need not in lost]:
        words = f"At least half of every muscle's sets, loaded where they were loaded: {listed(rest)}"
        yield from textwrap.wrap(words, width)


def when_words(room: WeekRoom) -> str:
    """Day and week of the session in brackets."""
    parts = [day(room.day)] if room.day else []
    parts.append(f"week {room.week}")
    parts.append(f"{room.left} {'session' if room.left == 1 else 'sessions'} to come in it")
    if room.after_week_off:
        parts.append("after a week off")
    return f" ({', '.join(parts)})"


def _row(one: MuscleRoom) -> tuple[str, ...]:
    return (
        one.muscle,
        one.done.in_halves,
        f"{one.lacks:g}" if one.lacks else "",
        "" if one.may is None else f"{one.may:g}",
        f"{one.usual:.1f}".removesuffix(".0"),
        listed(f"episode {number}" for number in one.tired_from) if one.tired_from else "",
    )


def push_words(room: WeekRoom) -> str:
    """What push to pull allows; empty without a limit."""
    push_room = room.push_room
    if push_room is None:
        return ""
    allowed = f"{room.push_per_pull:g} to 1 at most"
    if push_room > 0:
        return f"{allowed}, so {push_room:g} more push sets before the next pull"
    return f"{allowed}, so a pull has to come before or with the next push"


def _sessions(numbers: tuple[int, ...]) -> str:
    return listed(f"episode {number}" for number in numbers)


def lost_words(kept: Mapping[str, KeptSets]) -> str:
    """``all of calves; the load for chest``; empty where a need keeps at least half of everything."""
    nothing = [m for m, one in kept.items() if one.filmed.high and not one.sets.high]
    little = [
        f"{m} ({one.sets.in_halves} of {one.filmed.in_halves} sets left)"
        for m, one in kept.items()
        if one.sets.high and one.sets.mid < LITTLE * one.filmed.mid
    ]
    bare = [m for m, one in kept.items() if one.sets.high and one.filmed_loaded and not one.loaded]
    parts = [f"all of {listed(nothing)}"] if nothing else []
    parts += [f"most of {listed(little)}"] if little else []
    parts += [f"the load for {listed(bare)}"] if bare else []
    return "; ".join(parts)
