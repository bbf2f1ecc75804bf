"""Warnings about an episode's video, its chapters, captions and pictures."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.checks.placeholders import is_example
from sitegen.model import Episode, Exercise, Logo, Picture, Series, Variant
from sitegen.notation import format_clock
from sitegen.problems import Location, Problem, found
from sitegen.study.chapters import FEWEST, SHORTEST, Chapter, TimesList, chapters, entry_list

_SLACK_MS = 1000
"""A last caption may stay on so much longer than the video without anybody noticing."""
_PLAYS_EVERYWHERE = (".mp4", ".m4v", ".mov")  # MP4 under the names it goes by
_SHORTEST_ALT = 4
"""Characters of the shortest text that can say what a picture shows."""


def check_length(material: Material) -> Iterator[Problem]:
    """A video whose length nobody knows: its times cannot be checked nor the session's time be told."""
    for episode in material.series.episodes:
        video = episode.video
        if video is None or video.length is not None:
            continue
        advice = 'add its length, such as length: "9:40"'
        if video.file:
            advice += "; with ffprobe installed (it comes with ffmpeg) the file itself is asked"
        message = "the length of the video is not known"
        yield found("warning", "video-length", episode.location.at("video"), message, advice)


def check_missing(material: Material) -> Iterator[Problem]:
    """A session that has the times of a film, but no film."""
    for episode in material.series.sessions:
        if episode.video is None and not episode.planned and not is_example(material.series, episode):
            message = "the session has times, as if it were filmed, but no video"
            file = f"media/{episode.number:02d}.mp4"
            advice = f"add video: {{file: {file}}}; a plan not filmed yet has no at: and no your_turn:"
            yield found("warning", "no-video", episode.location.at("blocks", 0, "at"), message, advice)


def check_forms(material: Material) -> Iterator[Problem]:
    """A video in no form that older iPhones and iPads play.

    WebM plays there from iOS 17.4 on (WebKit's release notes for Safari 17.4, from memory); H.264 in MP4
    plays everywhere.
    """
    for episode in material.series.episodes:
        files = [one.file for one in episode.video.files] if episode.video else []
        if not files or any(file.lower().endswith(_PLAYS_EVERYWHERE) for file in files):
            continue
        message = f"iPhones and iPads before iOS 17.4 cannot play {files[0]!r}"
        stem = files[0].rpartition(".")[0]
        advice = f"add the same film as MP4 (H.264), and write file: [{stem}.mp4, {files[0]}]"
        yield found("warning", "video-form", episode.location.at("video", "file"), message, advice)


def check_chapter_list(material: Material) -> Iterator[Problem]:
    """A list of times that had to be repaired before a video host accepts it, or that cannot be."""
    for episode in material.series.episodes:
        if episode.video is None:
            continue
        listed = entry_list(chapters(episode))
        yield from _shared(episode, listed)
        yield from _few(episode, listed)


def _shared(episode: Episode, listed: TimesList) -> Iterator[Problem]:
    for entry in listed.shared:
        later = entry.chapters[-1]
        names = " and ".join(repr(_name(episode, chapter)) for chapter in entry.chapters)
        message = f"in the list of times for video hosts {names} share one entry, {format_clock(entry.start)}"
        advice = f"there each part lasts {SHORTEST} s or more; move the times apart, or join the parts"
        location = episode.location.at("blocks", later.block or 0, "at")
        yield found("warning", "chapter-list", location, message, advice)


def _few(episode: Episode, listed: TimesList) -> Iterator[Problem]:
    location = episode.location.at("blocks")
    blocks = len(listed.entries) - len(listed.added)
    if not listed.enough:
        message = f"the list of times for video hosts has {len(listed.entries)} of {FEWEST} entries it needs"
        yield found("warning", "chapter-list", location, message, "give the items times with at:")
    elif listed.added:
        message = f"the list of times for video hosts names exercises too, for {blocks} parts are too few"
        yield found("warning", "chapter-list", location, message, f"hosts want {FEWEST} entries or more")


def _name(episode: Episode, chapter: Chapter) -> str:
    return "the opening" if chapter.block is None else episode.blocks[chapter.block].name


def check_captions(material: Material) -> Iterator[Problem]:
    """Captions that run past the end of the video; a video without any."""
    for episode in material.series.episodes:
        if episode.video is None:
            continue
        if episode.captions is None:
            message = "the video has no captions"
            file = f"captions/{episode.number:02d}.vtt"
            advice = f"add captions: {file}, for those who cannot hear it (WCAG 2.2, 1.2.2)"
            yield found("warning", "no-captions", episode.location.at("video"), message, advice)
        elif episode.video.length is not None:
            yield from _past_end(material, episode, episode.captions, episode.video.length)


def _past_end(material: Material, episode: Episode, file: str, length: int) -> Iterator[Problem]:
    late = [cue for cue in material.cues.get(file, ()) if cue.end_ms > length * 1000 + _SLACK_MS]
    if late:
        ends, number = format_clock(late[-1].end_ms / 1000), len(late)
        counted = "one caption runs" if number == 1 else f"{number} captions run"
        message = f"{counted} past the end of the video ({format_clock(length)}), to {ends}"
        advice = "are these captions of another cut? export them again, or correct length:"
        yield found("warning", "captions-past-end", episode.location.at("captions"), message, advice)


def check_alternatives(material: Material) -> Iterator[Problem]:
    """Pictures whose text alternative says nothing."""
    for picture, location in _pictures(material.series):
        name = picture.file.rpartition("/")[2]
        alt = picture.alt.strip()
        if len(alt) < _SHORTEST_ALT or alt.lower() in (name.lower(), name.rpartition(".")[0].lower()):
            message = f"the text alternative {alt!r} does not say what the picture shows"
            advice = "write what somebody who cannot see it should know"
            yield found("warning", "picture-alt", location.at("alt"), message, advice)


def _pictures(series: Series) -> Iterator[tuple[Picture | Logo, Location]]:
    details = series.details
    if details.trainer.photo:
        yield details.trainer.photo, details.location.at("trainer", "photo")
    if details.look.logo:
        yield details.look.logo, details.location.at("look", "logo")
    for episode in series.episodes:
        if episode.poster:
            yield episode.poster, episode.location.at("poster")
    for exercise in series.exercises.values():
        owners: tuple[Exercise | Variant, ...] = (exercise, *exercise.variants)
        for owner in owners:
            for index, picture in enumerate(owner.pictures):
                yield picture, owner.location.at("pictures", index)
