"""A composed session worked out again as ``check`` does it: every bound that it breaks is said.

The search works with whole quarters of sets and with one exercise at a time. Here the finished episode is
looked at with the studies that ``check`` uses, so that no difference between the two hides a broken bound.
"""

from collections.abc import Iterator
from dataclasses import replace

from sitegen.composing.conflicts import BrokenRule
from sitegen.composing.rises import too_fast
from sitegen.composing.so_far import SoFar
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Episode
from sitegen.notation.english import listed
from sitegen.study.recovery import hard_muscles
from sitegen.study.schedule import SessionToPlace
from sitegen.study.span import NOTHING, ROUNDING, Span
from sitegen.study.training import together
from sitegen.study.volume import STRENGTH, balance, muscle_sets
from sitegen.study.week_room import MuscleRoom, WeekRoom
from sitegen.study.weeks import planned_days, weeks_of


def broken_bounds(
    so_far: SoFar, episode: Episode, wishes: SessionWishes, seconds: Span
) -> Iterator[BrokenRule]:
    """All bounds that the session breaks or leaves its week short of."""
    room = _room_of_its_week(so_far, episode)
    yield from _sets(so_far, episode, room)
    yield from _push(so_far, episode, room)
    yield from _recovery(so_far, episode)
    yield from _rises(so_far, episode)
    if wishes.minutes is not None and seconds.high > wishes.minutes * 60 + ROUNDING:
        what = f"it takes up to {seconds.high / 60:.0f} minutes, more than {wishes.minutes}"
        yield BrokenRule(rule="length", what=what, relax="take a set or an exercise out, or allow more time")


def _times(so_far: SoFar) -> int:
    schedule = so_far.details.schedule
    return schedule.repeats if schedule else 1


def _room_of_its_week(so_far: SoFar, episode: Episode) -> WeekRoom:
    """The room of the week that the session falls into.

    One that trains hard what has not recovered is put on a later day by the calendar, perhaps in another
    week, which is then held to its limits.
    """
    room, request = so_far.room, so_far.seen.request
    hard = hard_muscles(so_far.details, so_far.forms, episode)
    if request is None or not any(one.tired_from and one.muscle in hard for one in room.muscles):
        return room
    sessions = (*request.sessions, SessionToPlace(number=episode.number, muscles=tuple(sorted(hard))))
    placed = planned_days(replace(request, sessions=sessions))
    weeks = weeks_of((day, session) for session, _, day in placed)
    week = next((one.sessions for one in weeks if episode.number in one.sessions), ())
    others = tuple(number for number in week if number != episode.number)
    if others == room.sessions:
        return room
    training = together(so_far.seen.trainings[number] for number in others)
    muscles = (replace(one, done=training.strength.get(one.muscle, NOTHING)) for one in room.muscles)
    return replace(room, sessions=others, left=1, training=training, muscles=tuple(muscles))


def _sets(so_far: SoFar, episode: Episode, room: WeekRoom) -> Iterator[BrokenRule]:
    given = muscle_sets(so_far.details, so_far.forms, [episode], STRENGTH)
    # A week of as many sessions as usual is held to the lower limits, whether more are to come or not.
    full = len(room.sessions) + _times(so_far) >= so_far.per_week
    held_to = full or room.left == 1
    for one in room.muscles:
        week = one.done + given.get(one.muscle, NOTHING) * _times(so_far)
        if one.limits is None:
            continue
        if given.get(one.muscle, NOTHING).high and week.low > one.limits.high + ROUNDING:
            most = one.limits.high
            what = f"{one.muscle} comes to {week.low:g} strength sets in the week, the limit is {most}"
            relax = f"take a set out, or raise the bounds of {one.muscle}"
            yield BrokenRule(rule="sets", what=what, relax=relax)
        if held_to and one.required and week.high < one.limits.low - ROUNDING:
            yield _short(room, one, week)


def _short(room: WeekRoom, one: MuscleRoom, week: Span) -> BrokenRule:
    limits = one.limits
    assert limits is not None
    what = (
        f"{one.muscle} has {week.high:g} strength sets in the week, fewer than the {limits.low} of its bounds"
    )
    relax = f"ask for more with --more {one.muscle!r}, add a block, or lower the bounds of {one.muscle}"
    if room.left > 1:
        relax = f"leave it to the {room.left - 1} still to come in the week"
    elif one.tired_from:
        relax = f"it has not recovered; give the session a later day, or lower the bounds of {one.muscle}"
    return BrokenRule(rule="lower limit", what=what, relax=relax)


def _push(so_far: SoFar, episode: Episode, room: WeekRoom) -> Iterator[BrokenRule]:
    most = room.push_per_pull
    if most is None:
        return
    before = room.training.balance
    own = balance(so_far.details, so_far.forms, [episode], STRENGTH)
    push, pull = before.push + own.push * _times(so_far), before.pull + own.pull * _times(so_far)
    if push.mid > most * pull.mid + ROUNDING:
        what = f"the week has {push.mid:g} push sets to {pull.mid:g} pull sets, above {most:g} to 1"
        yield BrokenRule(
            rule="push and pull", what=what, relax="put a pull for a push, or raise push_per_pull:"
        )


def _recovery(so_far: SoFar, episode: Episode) -> Iterator[BrokenRule]:
    hard = hard_muscles(so_far.details, so_far.forms, episode)
    for one in so_far.room.muscles:
        if one.muscle in hard and one.tired_from:
            numbers = listed(f"episode {number}" for number in one.tired_from)
            what = f"{one.muscle} is trained hard and has not recovered from {numbers}"
            yield BrokenRule(rule="recovery", what=what, relax="give it a later day, or ask for less effort")


def _rises(so_far: SoFar, episode: Episode) -> Iterator[BrokenRule]:
    details, last = so_far.details, so_far.history.points
    for before, after, kind in too_fast(details, so_far.forms, last, episode):
        name = so_far.forms[after.form].name
        if kind == "volume":
            limit = f"the limit is {details.bounds.rise:.0%}"
            what = f"{name} rises by {after.rise:.0%} from episode {before.number}, {limit}"
            yield BrokenRule(
                rule="rise", what=what, relax="lower its dose or its sets, or raise bounds: rise:"
            )
        else:
            what = f"the load of {name} rises by {after.load_rise:.0%} from episode {before.number}"
            yield BrokenRule(rule="rise", what=what, relax="take a smaller step, or raise load_rise:")
