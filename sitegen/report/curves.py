"""How an exercise grew over the whole series, and where a proposed session would take it."""

from collections.abc import Sequence

from sitegen.study.progression import ProgressPoint

MOST_SHOWN = 6
"""Points before the new one; earlier ones are left out."""


def curve_words(line: Sequence[ProgressPoint], new: ProgressPoint) -> str:
    """``24 (1), 30 (4) -> 33 reps``: the amount of all sets by episode, then that of the proposal.

    Only points of the new one's form and unit are compared; volume load stands where all have one.
    """
    shown = [p for p in line if (p.form, p.unit) == (new.form, new.unit)]
    weighed = all(p.volume_load for p in (*shown, new))
    before = ", ".join(f"{_amount(p, weighed)} ({p.number})" for p in shown[-MOST_SHOWN:])
    left_out = "…, " if len(shown) > MOST_SHOWN else ""
    now = (
        f"{_amount(new, weighed)} kg in all {new.unit}" if weighed else f"{_amount(new, weighed)} {new.unit}"
    )
    return f"{left_out}{before} -> {now}" if before else f"{now}, for the first time"


def _amount(point: ProgressPoint, weighed: bool) -> str:
    amount = point.volume_load if weighed and point.volume_load else point.amount
    words = f"{amount.mid:.0f}" if weighed else amount.in_halves
    return f"about {words}" if point.assumed else words
