"""Doses that are said together with the name of an exercise."""

from dataclasses import replace

from sitegen.draft import phrases
from sitegen.draft.amounts import Amount, Amounts
from sitegen.draft.doses import sides_after
from sitegen.draft.find import Naming
from sitegen.draft.talk import Talk

_SOON = 8
"""Words after a name within which a dose is said together with it."""


def dose_with(talk: Talk, amounts: Amounts, namings: list[Naming], index: int) -> Amount | None:
    """The dose said soon after a name, or right before it ("twelve squats each side")."""
    naming = namings[index]
    following = next((other for other in namings[index + 1 :] if not other.thin), None)
    last = min(naming.last + _SOON, following.first - 1 if following else len(talk.tokens))
    beside = next((a for a in amounts.doses if a.first == naming.last + 1 <= last and not a.aside), None)
    before = next((a for a in amounts.doses if _leads_to(talk, a, naming)), None)
    if before and beside and index and _of_the_one_before(talk, namings[index - 1], before, beside):
        before = None
    if before:
        end = sides_after(talk, naming.last)
        if end is None or before.dose.per_side:
            return replace(before, plain=max(before.plain, 2))
        return replace(before, last=end, plain=3, dose=replace(before.dose, per_side=True))
    soon = beside or amounts.first_dose(naming.last + 1, last)
    if soon and soon is not beside and following and _leads_to(talk, soon, following):
        return None
    return soon


def _of_the_one_before(talk: Talk, other: Naming, before: Amount, beside: Amount) -> bool:
    """Whether every number follows its name, as in "squats ten, rows twelve", with no sentence between."""
    if before.first != other.last + 1:
        return False
    return talk.tokens[before.first].break_before < 2 and talk.tokens[beside.first].break_before < 2


def _leads_to(talk: Talk, amount: Amount, naming: Naming) -> bool:
    """Whether a dose is said right before a name, or with it ("five slow breaths")."""
    if amount.aside or not naming.first - 4 <= amount.last <= naming.last:
        return False
    if amount.last >= naming.first:
        return amount.first <= naming.first
    if any(t.break_before for t in talk.tokens[amount.last + 1 : naming.first + 1]):
        return False
    between = talk.words(amount.last + 1, naming.first - 1)
    return (not between and amount.dose.kind == "count") or bool(phrases.OF.match(between))
