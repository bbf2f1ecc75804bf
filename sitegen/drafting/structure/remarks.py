"""What is said of an exercise besides its dose: load, tempo, effort.

A load is never more than a question: talk tells as often what a cat weighs, or what she herself lifts
today, as what the viewer should take, and a wrong load can hurt somebody. An effort is a finding where it
is said as one and nothing near makes it a bound, a case or a pain; a tempo where it is called so.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.findings import FoundBlock, Remark, Unplaced
from sitegen.drafting.heard import Heard, sentence_around
from sitegen.drafting.learned_tables import word_list
from sitegen.drafting.structure.outline import OutlineBlock
from sitegen.notation import Effort

_KINDS = (spoken.LOAD, spoken.EFFORT)
_BEFORE, _BEHIND = 8, 5
"""Words of the same sentence that may tell what a number is about."""

_SAME_S = 60.0
"""What is said again so soon is the same."""

_QUOTED = 4  # enough to tell what a number is about (our choice)


def quoted(heard: Heard, amount: SpokenAmount) -> str:
    """An amount with some words around it, so that it can be judged without the recording."""
    return heard.words(amount.first - _QUOTED, amount.last + _QUOTED)


def give_remarks(heard: Heard, block: OutlineBlock, found: FoundBlock) -> None:
    """Give the items of a block what is said while they are shown; the same again counts once."""
    remarkable = [*_remarkable(heard), *_reserves(heard)]
    for item, seen in zip(block.items, found.items, strict=True):
        for amount in remarkable:
            if not item.first <= amount.first < item.end or heard.time(amount.first) == seen.dose_at:
                continue
            if all((one.kind, one.text) != (amount.kind, amount.text) for one in seen.said):
                remark = Remark(
                    kind=amount.kind,
                    text=amount.text,
                    heard=quoted(heard, amount),
                    at=heard.time(amount.first),
                    plain=amount.first < item.told and _is_plain(heard, amount),
                )
                seen.said.append(remark)


def unplaced_remarks(heard: Heard, blocks: Sequence[FoundBlock]) -> Iterator[Unplaced]:
    """Loads, tempos and efforts that are said while no exercise of the draft is shown."""
    placed = [(one.kind, one.text, one.at) for block in blocks for item in block.items for one in item.said]
    for amount in _remarkable(heard):
        at = heard.time(amount.first)
        same = (when for kind, text, when in placed if (kind, text) == (amount.kind, amount.text))
        if all(abs(when - at) > _SAME_S for when in same):
            words = heard.words(amount.first, amount.last)
            yield Unplaced(text=f"{amount.kind} “{words}”", at=at)


def _remarkable(heard: Heard) -> Iterator[SpokenAmount]:
    yield from (amount for amount in heard.amounts if amount.kind in _KINDS)
    yield from heard.tempos


def _reserves(heard: Heard) -> Iterator[SpokenAmount]:
    """Repetitions to be left in reserve, said by themselves: an effort, unless they are the dose."""
    for amount in heard.amounts:
        dose = amount.dose
        if dose is not None and dose.kind == "max" and dose.reserve is not None:
            text = str(Effort("reserve", *dose.reserve))
            yield replace(amount, kind=spoken.EFFORT, text=text, form="reserve")


def _is_plain(heard: Heard, amount: SpokenAmount) -> bool:
    """Whether it can only be meant for the viewer's set."""
    if amount.kind == spoken.TEMPO:
        return amount.form == "named"
    first, last = sentence_around(heard.tokens, amount.first, amount.last, _BEFORE, _BEHIND)
    near = {token.text for token in heard.tokens[first : last + 1]}
    told = amount.form == "reserve" or bool(near & word_list("effort_words"))
    return amount.kind == spoken.EFFORT and told and not near & word_list("no_effort")
