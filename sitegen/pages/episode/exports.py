"""Chapters and captions as files for players: WebVTT, JSON chapters 1.2, FFMETADATA1.

- WebVTT: W3C, *WebVTT: The Web Video Text Tracks Format*. A chapter file has only nested cues:
  a block's cue contains those of its items.
- JSON chapters 1.2: Podcasting 2.0 namespace, 15 April 2021. ``startTime`` in seconds, ascending.
- FFMETADATA1: FFmpeg documentation, "Metadata". Always with a time base, for the default has
  changed between versions; ``=``, ``;``, ``#``, backslash and newline are escaped by a backslash.
"""

import json
import re
from collections.abc import Iterator

from sitegen.model import Episode
from sitegen.pages.episode.address import episode_address
from sitegen.pages.episode.titles import TitledChapter, nested, titled_chapters
from sitegen.pages.script_json import to_json
from sitegen.pages.site import Site
from sitegen.reading.captions.cues import Cue, cue_text, write_vtt

# Characters that the metadata format of ffmpeg wants a backslash before.
_FFMETA_SPECIAL = re.compile(r"([=;#\\\n])")


def chapters_vtt(site: Site, episode: Episode) -> bytes:
    """The chapters as a WebVTT chapter file; cue ids are the anchors of the page."""
    return write_vtt(map(_cue, nested(titled_chapters(site, episode)))).encode()


def _cue(chapter: TitledChapter) -> Cue:
    return Cue(
        start_ms=chapter.start * 1000,
        end_ms=chapter.end * 1000,
        text=chapter.title,
        identifier=chapter.anchor,
    )


def chapters_json(site: Site, episode: Episode) -> bytes:
    """The blocks as JSON chapters; each links to its place on the page."""
    details = site.details
    data = {
        "version": "1.2.0",
        "title": episode.title,
        "author": details.trainer.name,
        "podcastName": details.title,
        "chapters": [
            {
                "startTime": chapter.start,
                "endTime": chapter.end,
                "title": chapter.title,
                "url": link_to(site, episode, chapter),
            }
            for chapter in titled_chapters(site, episode)
        ],
    }
    return (json.dumps(data, ensure_ascii=False, indent=1) + "\n").encode()


def link_to(site: Site, episode: Episode, chapter: TitledChapter) -> str:
    """The published address that opens the page with the video at this chapter: a media fragment."""
    return f"{site.public(episode_address(episode.slug))}#t={chapter.start}"


def chapters_ffmeta(site: Site, episode: Episode) -> bytes:
    """The blocks as chapters that ffmpeg puts into a video file."""
    return "\n".join(_ffmeta_lines(site, episode)).encode()


def _ffmeta_lines(site: Site, episode: Episode) -> Iterator[str]:
    yield ";FFMETADATA1"
    yield f"title={_escaped(episode.title)}"
    yield f"artist={_escaped(site.details.trainer.name)}"
    yield f"album={_escaped(site.details.title)}"
    yield f"track={episode.number}"
    for chapter in titled_chapters(site, episode):
        yield "[CHAPTER]"
        yield "TIMEBASE=1/1000"
        yield f"START={chapter.start * 1000}"
        yield f"END={chapter.end * 1000}"
        yield f"title={_escaped(chapter.title)}"
    yield ""


def _escaped(text: str) -> str:
    escaped = _FFMETA_SPECIAL.sub(r"\\\1", text)
    # ffmpeg's reader takes a backslash at the end of a line, though escaped itself, for an escaped
    # line break and swallows the line that follows; a space after it keeps them apart.
    return f"{escaped} " if escaped.endswith("\\") else escaped


def captions_vtt(site: Site, episode: Episode) -> bytes:
    """What is said, as valid WebVTT whatever the trainer's own file was."""
    return write_vtt(site.cues[episode.captions or ""]).encode()


def captions_script(site: Site, episode: Episode) -> bytes:
    """The captions as a script, for a site opened from a folder: there browsers load scripts, no tracks."""
    cues = [
        [cue.start_ms / 1000, cue.end_ms / 1000, cue_text(cue)] for cue in site.cues[episode.captions or ""]
    ]
    return f"captionsFromFolder({to_json(cues)});\n".encode()
