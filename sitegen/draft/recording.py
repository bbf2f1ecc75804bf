"""Everything a recording says, found in one go."""

from dataclasses import dataclass

from sitegen.content.captions import Captions
from sitegen.draft.blocks import Builder
from sitegen.draft.chapters import Part, Turn, Walk, turns_of
from sitegen.draft.amounts import Amounts
from sitegen.draft.doses import amounts_of
from sitegen.draft.find import Stems, namings
from sitegen.draft.found import FoundBlock
from sitegen.draft.lexicon import Lexicon, lexicon_of
from sitegen.draft.mentions import Mention, mentions_of
from sitegen.draft.repair import repaired
from sitegen.draft.signals import Signal, first_opening, signals_of
from sitegen.draft.talk import Talk
from sitegen.draft.unknown import unknown_namings
from sitegen.draft.words import Stream, stream_of
from sitegen.model import Series


@dataclass(frozen=True, slots=True)
class Recording:
    """The talk of a recording with all that was found in it."""

    stream: Stream
    lexicon: Lexicon
    signals: list[Signal]
    amounts: Amounts
    mentions: list[Mention]
    turns: list[Turn]
    parts: list[Part]
    blocks: list[FoundBlock]


def hear(captions: Captions, series: Series) -> Recording:
    """Find exercises, doses and blocks in captions."""
    lexicon = lexicon_of(series)
    stream = stream_of(captions.cues, lambda tokens: repaired(tokens, lexicon.words))
    stems = Stems(stream, lexicon)
    known = namings(stems, lexicon)
    named = sorted((*known, *unknown_namings(stems, lexicon, known)), key=lambda naming: naming.first)
    talk = Talk(stream)
    amounts, signals = amounts_of(stream), signals_of(talk)
    mentions = mentions_of(talk, named, amounts, first_opening(signals))
    turns = turns_of(stream, signals)
    parts = Walk(stream, signals, turns).go(mentions)
    blocks = Builder(talk, signals, amounts, series).blocks(parts)
    return Recording(stream, lexicon, signals, amounts, mentions, turns, parts, blocks)
