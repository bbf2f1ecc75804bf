"""A new episode drafted from captions."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.drafting.findings import ExerciseStub, FoundBlock, OpenQuestion, Unplaced
from sitegen.drafting.heard import Heard, hear
from sitegen.drafting.learned_tables import LearnedModel
from sitegen.drafting.structure.session import session_of
from sitegen.drafting.structure.unplaced import unplaced_in
from sitegen.drafting.transcript.stems import stem
from sitegen.drafting.writing.draft_text import DraftWriter, stubs_of
from sitegen.model import Block, Series
from sitegen.notation import format_clock
from sitegen.reading.captions.cues import Captions


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """What was found in a recording, and the episode file made from it."""

    yaml_text: str
    """A valid episode file; empty where nothing of the library was found."""
    findings: tuple[FoundBlock, ...]
    """Blocks and items with their confidence."""
    questions: tuple[OpenQuestion, ...]
    """What could not be decided."""
    unknown: tuple[ExerciseStub, ...]
    """Exercises shown that the library lacks."""
    unplaced: tuple[Unplaced, ...]
    """What was heard and has no place in the file."""


def draft(
    captions: Captions,
    series: Series,
    *,
    number: int,
    slug: str,
    video_length: int | None = None,
    video_file: str | None = None,
    captions_file: str | None = None,
    model: LearnedModel | None = None,
) -> Draft:
    """The draft of an episode.

    ``video_length`` is in seconds; the files are paths below the content folder, left as comments where
    they are not known. ``model`` holds the learned weights (the package's own where none is given). The same
    captions and library give the same draft.
    """
    heard = hear(captions, series, model)
    blocks = session_of(heard)
    _recognise_routines(blocks, series)
    unplaced = unplaced_in(heard, blocks)
    writer = DraftWriter(series, blocks, unplaced)
    text = ""
    if any(item.exercise for block in blocks for item in block.items):
        clock = f', length: "{format_clock(video_length)}"' if video_length is not None else ""
        head = [
            f"video: {{file: {video_file}{clock}}}"
            if video_file
            else f"# video: {{file: media/….webm{clock}}}",
            f"captions: {captions_file}" if captions_file else "# captions: captions/….vtt",
        ]
        if kit := _kit_heard(heard):
            pieces = [f"{piece} ({format_clock(at)})" for piece, at in kit]
            head.append(f"# kit spoken of: {', '.join(pieces)}")
        text = writer.text(title=slug.replace("-", " ").capitalize(), number=number, head=head)
    return Draft(
        yaml_text=text,
        findings=tuple(blocks),
        questions=tuple(writer.questions),
        unknown=stubs_of(blocks),
        unplaced=tuple(unplaced),
    )


def _recognise_routines(blocks: Sequence[FoundBlock], series: Series) -> None:
    """Blocks that are a routine of the series are written as such."""
    routines: dict[str, Block] = {b.routine: b for e in series.episodes for b in e.blocks if b.routine}
    for found in blocks:
        found.routine = next((key for key, routine in routines.items() if _is(found, routine)), None)


_ROUTINE_SHARE = 0.75
"""Share of a routine's exercises that must be found, in its order; nothing else may be shown between."""


def _is(block: FoundBlock, routine: Block) -> bool:
    shown = [item.exercise for item in block.items if item.exercise]
    planned = [item.exercise for item in routine.items]
    common = [exercise for exercise in planned if exercise in shown]
    return shown == common and len(common) > 1 and len(common) >= _ROUTINE_SHARE * len(planned)


def _kit_heard(heard: Heard) -> list[tuple[str, float]]:
    """Pieces of the series' kit that are named, with the time of the first naming."""
    owners: dict[str, str] = {}
    for piece, stems in heard.library.kit.items():
        for word in sorted(stems):
            owners.setdefault(word, piece)
    first: dict[str, float] = {}
    for token in heard.tokens:
        named = owners.get(stem(token.text))
        if named:
            first.setdefault(named, token.start)
    return sorted(first.items(), key=lambda pair: pair[1])
