"""A new episode drafted from captions."""

from dataclasses import dataclass

from sitegen.draft.found import FoundBlock, Question, Stub
from sitegen.draft.recording import hear, session_of
from sitegen.draft.remarks import kit_heard
from sitegen.draft.write import Writer, stubs_of
from sitegen.model import Series
from sitegen.notation import format_clock
from sitegen.reading.captions.cues import Captions


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """What was found in a recording, and the episode file made from it."""

    yaml_text: str
    """A valid episode file; empty where nothing of the library was found."""
    findings: tuple[FoundBlock, ...]
    """Blocks and items with their confidence."""
    questions: tuple[Question, ...]
    """What could not be decided."""
    unknown: tuple[Stub, ...]
    """Exercises shown that the library lacks."""
    kit: tuple[tuple[str, float], ...]
    """Kit spoken of, with the time of its first naming."""


def draft(
    captions: Captions,
    series: Series,
    *,
    number: int,
    slug: str,
    video_length: int | None = None,
    video_file: str | None = None,
    captions_file: str | None = None,
) -> Draft:
    """The draft of an episode.

    ``video_length`` is in seconds; the files are paths below the content folder, left as comments where
    they are not known. The same captions and library give the same draft.
    """
    heard = hear(captions, series)
    blocks = session_of(heard)
    kit = kit_heard(heard)
    writer = Writer(series, blocks)
    text = ""
    if any(item.exercise for block in blocks for item in block.items):
        head = [*_files(video_file, video_length, captions_file), *_kit_line(kit)]
        text = writer.text(title=slug.replace("-", " ").capitalize(), number=number, head=head)
    return Draft(
        yaml_text=text,
        findings=tuple(blocks),
        questions=tuple(writer.questions),
        unknown=stubs_of(blocks),
        kit=tuple(kit),
    )


def _files(video: str | None, length: int | None, captions: str | None) -> list[str]:
    clock = f', length: "{format_clock(length)}"' if length is not None else ""
    return [
        f"video: {{file: {video}{clock}}}" if video else f"# video: {{file: media/….webm{clock}}}",
        f"captions: {captions}" if captions else "# captions: captions/….vtt",
    ]


def _kit_line(kit: list[tuple[str, float]]) -> list[str]:
    pieces = [f"{piece} ({format_clock(at)})" for piece, at in kit]
    return [f"# kit spoken of: {', '.join(pieces)}"] if pieces else []
