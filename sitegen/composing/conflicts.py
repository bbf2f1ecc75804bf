"""What a proposal cannot keep, each with what could be relaxed."""

from dataclasses import dataclass

from sitegen.composing.session_shape import SessionShape


class ProposalError(ValueError):
    """No session can be proposed; the message says what to ask for instead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BrokenRule:
    """One bound or wish that a session breaks, or a lower limit that its week misses."""

    rule: str
    """Of ``task.RULES``, or ``lower limit``, ``rise`` or ``shape``."""
    what: str
    relax: str


_LET_GO = {
    "sets": ("no session keeps the upper limits of the week", "raise bounds:, or ask for fewer sets"),
    "recovery": (
        "every session of this shape trains a muscle that has not recovered",
        "give it a later day, ask for other blocks, or leave the day out",
    ),
    "push and pull": (
        "no session keeps push to pull below the limit",
        "ask for more pulling with --more, or raise push_per_pull:",
    ),
    "length": (
        "no session of this shape is short enough",
        "ask for more minutes, fewer sets or a block less",
    ),
    "new exercises": ("it takes exercises that the series has not shown", "allow them with --new"),
    "grip": (
        "two exercises that tire the grip stand side by side",
        "ask for smaller blocks, or allow more kit",
    ),
    "floor": (
        "one gets down to the floor and up again from one exercise to the next",
        "ask for smaller blocks, or for more exercises with --new",
    ),
}


def let_go(rule: str) -> BrokenRule:
    """The conflict of a rule that had to be let go."""
    what, relax = _LET_GO[rule]
    return BrokenRule(rule=rule, what=what, relax=relax)


def shortened(asked: SessionShape, tried: SessionShape, minutes: int | None) -> BrokenRule | None:
    """What is less or more than asked for; None where the shape is as asked."""
    if tried == asked:
        return None
    why = f"to keep {minutes} minutes and all bounds" if minutes else "to keep all bounds"
    if len(tried.blocks) < len(asked.blocks):
        what = f"it has a block less than asked for, {why}"
    else:
        before, now = (sum(one.block.sets.high for one in shape.blocks) for shape in (asked, tried))
        what = f"its strength blocks have {'fewer' if now < before else 'more'} sets than asked for, {why}"
    return BrokenRule(rule="shape", what=what, relax="allow more minutes, or ask for other blocks")


def too_few(block: str, places: int, there: int) -> str:
    """What to say of a block for which the library has too little."""
    exercises = "one exercise" if there == 1 else f"{there or 'no'} exercises"
    return (
        f"{block} has {places} places and {exercises} to choose from; allow more kit, leave out less, "
        "allow exercises that are new with --new, or ask for fewer"
    )
