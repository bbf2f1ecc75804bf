"""Hearing a recording: from captions to mentions, and from these to blocks."""

from dataclasses import replace

from sitegen.draft.blocks import blocks_of
from sitegen.draft.chapters import Walk, turns_of
from sitegen.draft.doses import amounts_of
from sitegen.draft.find import Naming, namings
from sitegen.draft.found import FoundBlock
from sitegen.draft.heard import Heard
from sitegen.draft.hits import Stems
from sitegen.draft.lexicon import lexicon_of
from sitegen.draft.mentions import mentions_of
from sitegen.draft.repair import repaired
from sitegen.draft.signals import first_opening, signals_of
from sitegen.draft.talk import Talk
from sitegen.draft.unknown import unknown_namings
from sitegen.draft.words import Stream, stream_of
from sitegen.model import Series
from sitegen.reading.captions.cues import Captions

_LOOSE = 0.45
"""Score of a name that is enough where the exercise is planned."""

_WHOLE = 0.88


def hear(captions: Captions, series: Series, planned: frozenset[str] = frozenset()) -> Heard:
    """What is said in captions. Names of the ``planned`` exercises are taken where they are said only in
    part.
    """
    lexicon = lexicon_of(series)
    stream = stream_of(captions.cues, lambda tokens: repaired(tokens, lexicon.written))
    stems, talk = Stems(stream, lexicon), Talk(stream)
    known = namings(stems, lexicon)
    if planned:
        known = _with_planned(stream, series, planned, known)
    named = sorted((*known, *unknown_namings(stems, lexicon, known)), key=lambda naming: naming.first)
    amounts, signals = amounts_of(stream), signals_of(talk)
    mentions = mentions_of(talk, named, amounts, first_opening(signals))
    return Heard(
        series=series, lexicon=lexicon, talk=talk, signals=signals, amounts=amounts, mentions=mentions
    )


def _with_planned(
    stream: Stream, series: Series, planned: frozenset[str], known: list[Naming]
) -> list[Naming]:
    """The namings together with looser ones of the planned exercises, where nothing else is clearly named."""
    library = {key: exercise for key, exercise in series.exercises.items() if key in planned}
    lexicon = lexicon_of(replace(series, exercises=library))
    owner = {i: naming for naming in known for i in range(naming.first, naming.last + 1)}
    added = []
    for naming in namings(Stems(stream, lexicon), lexicon, _LOOSE):
        taken = next((owner[i] for i in range(naming.first, naming.last + 1) if i in owner), None)
        if taken is None:
            added.append(naming)
        elif taken.exercise != naming.exercise and taken.score < _WHOLE:
            taken.others.setdefault(naming.exercise, naming.score)
    return sorted((*known, *added), key=lambda naming: naming.first)


def session_of(heard: Heard) -> list[FoundBlock]:
    """The blocks of a recording of which nothing is known beforehand."""
    stream = heard.talk.stream
    parts = Walk(stream, heard.signals, turns_of(stream, heard.signals)).go(heard.mentions)
    return blocks_of(heard, parts)
