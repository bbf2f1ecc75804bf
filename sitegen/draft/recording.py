"""Hearing a recording: from captions to mentions, and from these to blocks."""

from sitegen.content.captions import Captions
from sitegen.draft.blocks import blocks_of
from sitegen.draft.chapters import Walk, turns_of
from sitegen.draft.doses import amounts_of
from sitegen.draft.find import Stems, namings
from sitegen.draft.found import FoundBlock
from sitegen.draft.heard import Heard
from sitegen.draft.lexicon import lexicon_of
from sitegen.draft.mentions import mentions_of
from sitegen.draft.repair import repaired
from sitegen.draft.signals import first_opening, signals_of
from sitegen.draft.talk import Talk
from sitegen.draft.unknown import unknown_namings
from sitegen.draft.words import stream_of
from sitegen.model import Series


def hear(captions: Captions, series: Series) -> Heard:
    """What is said in captions."""
    lexicon = lexicon_of(series)
    stream = stream_of(captions.cues, lambda tokens: repaired(tokens, lexicon.words))
    stems, talk = Stems(stream, lexicon), Talk(stream)
    known = namings(stems, lexicon)
    named = sorted((*known, *unknown_namings(stems, lexicon, known)), key=lambda naming: naming.first)
    amounts, signals = amounts_of(stream), signals_of(talk)
    mentions = mentions_of(talk, named, amounts, first_opening(signals))
    return Heard(series=series, lexicon=lexicon, talk=talk, signals=signals, amounts=amounts, mentions=mentions)


def session_of(heard: Heard) -> list[FoundBlock]:
    """The blocks of a recording of which nothing is known beforehand."""
    stream = heard.talk.stream
    parts = Walk(stream, heard.signals, turns_of(stream, heard.signals)).go(heard.mentions)
    return blocks_of(heard, parts)
