"""What a proposal cannot keep, each with what could be relaxed."""

from dataclasses import dataclass


class ProposalError(ValueError):
    """No session can be proposed; the message says what to ask for instead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """One bound or wish that a session breaks, or a lower limit that its week misses."""

    rule: str
    """Of ``search.RULES``, or ``lower limit``, ``rise`` or ``needs``."""
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


def let_go(rule: str) -> Conflict:
    """The conflict of a rule that had to be let go."""
    what, relax = _LET_GO[rule]
    return Conflict(rule=rule, what=what, relax=relax)


def too_few(block: str, places: int, there: int) -> str:
    """What to say of a block for which the library has too little."""
    exercises = "one exercise" if there == 1 else f"{there or 'no'} exercises"
    return (
        f"{block} has {places} places and {exercises} to choose from; allow more kit, leave out less, "
        "allow exercises that are new with --new, or ask for fewer"
    )
