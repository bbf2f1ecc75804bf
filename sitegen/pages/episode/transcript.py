"""The transcript: captions joined to paragraphs, under the headings of the chapters."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from sitegen.pages.episode.titles import TitledChapter
from sitegen.reading.captions.cues import Cue

PAUSE_MS = 1500
"""A silence from which on a new paragraph begins."""
LONGEST_MS = 20_000
"""A paragraph takes no further caption once it has lasted so long: its time should lead to what is read."""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Some captions in a row; times in whole seconds, cut."""

    start: int
    text: str


@dataclass(frozen=True, slots=True)
class ChapterTranscript:
    """What is said during one chapter."""

    title: str
    paragraphs: tuple[Paragraph, ...]


def transcript(cues: Iterable[Cue], found: Sequence[TitledChapter]) -> tuple[ChapterTranscript, ...]:
    """Every caption once, in order; a caption belongs to the chapter in which it starts."""
    passages = groupby(cues, key=lambda cue: _chapter_index(cue, found))
    return tuple(ChapterTranscript(found[index].title, _paragraphs(said)) for index, said in passages)


def _chapter_index(cue: Cue, found: Sequence[TitledChapter]) -> int:
    begun = (index for index, chapter in enumerate(found) if chapter.start * 1000 <= cue.start_ms)
    return max(begun, default=0)


def _paragraphs(cues: Iterable[Cue]) -> tuple[Paragraph, ...]:
    groups: list[list[Cue]] = []
    for cue in cues:
        if groups and _goes_on(groups[-1], cue):
            groups[-1].append(cue)
        else:
            groups.append([cue])
    return tuple(_paragraph(group) for group in groups)


def _goes_on(group: list[Cue], cue: Cue) -> bool:
    silence, lasted = cue.start_ms - group[-1].end_ms, group[-1].end_ms - group[0].start_ms
    return silence < PAUSE_MS and lasted < LONGEST_MS


def _paragraph(cues: Sequence[Cue]) -> Paragraph:
    text = " ".join(cue.text.replace("\n", " ") for cue in cues)
    return Paragraph(cues[0].start_ms // 1000, text)
