"""What needs a look first in a client's logs: pain, dizziness, and remarks that speak of danger."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from sitegen.clients.danger_words import SignReader
from sitegen.clients.log import Log, Sitting


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportedTrouble:
    """Pain, dizziness and its like, or words of danger in a remark."""

    sitting: Sitting
    title: str
    signs: tuple[str, ...] = ()
    """Words of danger in what she wrote freely."""
    in_fields: tuple[str, ...] = ()
    """Such words in the fields of single exercises."""
    taken_back: bool = False
    """True where a later log of hers does not say it any more."""
    reworded: bool = False
    """True where a later log of hers tells of it in other words: which of them is right, nobody knows."""


def signs_in(sitting: Sitting, reader: SignReader) -> tuple[str, ...]:
    """Words of danger in all that she wrote freely of a sitting."""
    return tuple(dict.fromkeys(sign for text in sitting.own_words for sign in reader.signs(text)))


def troubles_of(
    logs: Sequence[Log], merged: Mapping[str, Sitting], titles: Mapping[str, str], reader: SignReader
) -> Iterator[ReportedTrouble]:
    """What was wrong in any version of any sitting, in each of its wordings.

    Pain that a later file leaves out was pain all the same, and "a little" does not say what "sharp in the
    left knee" said.
    """
    found: dict[tuple[str, _Said], ReportedTrouble] = {}
    for log in logs:
        for one in log.sittings:
            said, now = _said(one, reader), merged[one.key]
            if not one.troubled and not said.signs:
                continue
            said_now = _said(now, reader)
            taken_back = (
                (one.pain is not None and now.pain is None)
                or (one.dizzy and not now.dizzy)
                or not set(said.signs) <= set(said_now.signs)
            )
            found[one.key, said] = ReportedTrouble(
                sitting=now if said == said_now else one,
                title=titles.get(one.slug, one.slug),
                signs=said.signs,
                in_fields=said.in_fields,
                taken_back=taken_back,
                reworded=said != said_now and not taken_back,
            )
    yield from sorted(
        found.values(), key=lambda one: (one.sitting.done or date.max, one.sitting.key), reverse=True
    )


class _Said(NamedTuple):
    pain: str | None
    dizzy: bool
    text: str
    in_fields: tuple[str, ...]
    signs: tuple[str, ...]


def _said(sitting: Sitting, reader: SignReader) -> _Said:
    return _Said(
        pain=sitting.pain,
        dizzy=sitting.dizzy,
        text=sitting.text,
        # Numbers that a later log adds are no other words.
        in_fields=tuple(text for text in sitting.in_fields if reader.signs(text)),
        signs=signs_in(sitting, reader),
    )
