"""Naming the film of a planned episode: its video and captions, where the plan names none."""

from collections.abc import Sequence

from sitegen.drafting.writing.edit import TextEdits
from sitegen.notation import format_clock
from sitegen.reading.source import child_at, compose

_BEHIND = ("lasts", "released", "summary", "number", "title")
"""The keys of an episode behind which its film is usually written, the last first."""


def name_film(
    text: str, *, video_file: str | None, video_length: int | None, captions_file: str | None
) -> str:
    """The text of an episode with ``video:`` and ``captions:``; what it names already stays as it is.

    The files are paths below the content folder, None where there is none to name; the length is in seconds.
    """
    root, edits = compose(text.encode(), "the plan"), TextEdits(text)
    lines = []
    if video_file and child_at(root, "video") is None:
        length = f', length: "{format_clock(video_length)}"' if video_length else ""
        lines.append(("video", f"{{file: {video_file}{length}}}"))
    if captions_file and child_at(root, "captions") is None:
        lines.append(("captions", captions_file))
    # Each goes to the same place, so the one that is to stand first is set last.
    for key, value in reversed(lines):
        edits.set(root, key, value, _BEHIND)
    return _without_hints(edits.done(), [key for key, _ in lines])


def _without_hints(text: str, keys: Sequence[str]) -> str:
    """The text without the lines of a new plan that say how these keys are written (``# captions: …``)."""
    hints = tuple(f"# {key}: " for key in keys)
    return "".join(line for line in text.splitlines(keepends=True) if not line.startswith(hints))
