"""Why the calendar is as it is, in a trainer's words: for the terminal and for warnings."""

from sitegen.notation.english import day, listed, weekday
from sitegen.study.schedule import (
    Conflict,
    FinishByConflict,
    HorizonConflict,
    OrderProposal,
    RecoveryConflict,
)

_WAYS = {"recovery": "a shorter recovery", "deload": "no free weeks", "holiday": "no holidays"}


def conflict_sentence(conflict: Conflict) -> str:
    """What stands in the way, in one sentence without a full stop."""
    if isinstance(conflict, RecoveryConflict):
        return _recovery(conflict)
    if isinstance(conflict, HorizonConflict):
        return (
            f"{conflict.placed} of {conflict.total} sessions have a day before {day(conflict.last_day)}; "
            f"{_occurrence(conflict.session, conflict.repeat)} is the first without one"
        )
    if isinstance(conflict, FinishByConflict):
        earliest = f"the earliest end is {day(conflict.earliest)}" if conflict.earliest else "there is no end"
        return (
            f"{conflict.fitting} of {conflict.total} sessions fit before {day(conflict.wanted)}; {earliest}"
        )
    closed = {"holiday": "holidays", "deload": "free weeks"}
    taken = listed([closed[kind] for kind in conflict.closed_by])
    return f"no training day is left: {taken} take them all" if taken else "there is no day to train on"


def _recovery(conflict: RecoveryConflict) -> str:
    second, later = _occurrence(conflict.second, conflict.second_repeat), conflict.wanted
    return (
        f"{_occurrence(conflict.first, conflict.first_repeat)} and {second} both train "
        f"{listed(conflict.muscles)} hard, and {weekday(conflict.first_date)} to {weekday(later)} leaves "
        f"{conflict.gap_hours} h of the {conflict.needed_hours} h to recover, so {second} moves to "
        f"{day(conflict.planned)}"
    )


def ways_out(conflict: Conflict) -> str:
    """What would help, each way enough alone; empty where nothing was found."""
    if isinstance(conflict, RecoveryConflict):
        days = listed(map(str.capitalize, conflict.allow_days), "or")
        ways = [f"allow {days}"] if days else []
        ways += [f"swap {one} and {other}" for one, other in conflict.swaps]
        return ", or ".join(ways)
    if isinstance(conflict, FinishByConflict):
        ways = [f"start on {day(conflict.start)}"] if conflict.start else []
        days = listed(map(str.capitalize, conflict.train_days), "or")
        ways += [f"train on {days} too"] if days else []
        ways += [f"repeats: {conflict.repeats}"] if conflict.repeats else []
        ways += [_WAYS[rule] for rule in conflict.without]
        return ", or ".join(ways)
    return ""


def order_words(proposal: OrderProposal) -> str:
    """A better order of the sessions in one sentence."""
    order = ", ".join(map(str, proposal.order))
    saved = proposal.lost_days_before - proposal.lost_days
    return f"the order {order} would lose {saved} training day{'s' * (saved != 1)} less to recovery"


def _occurrence(session: int, repeat: int) -> str:
    return f"episode {session}" if repeat == 1 else f"episode {session} (time {repeat})"
