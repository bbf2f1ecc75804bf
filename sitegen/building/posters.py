"""Posters for episodes that give none: a picture from their own video, made once for each video."""

import os
from collections.abc import Collection, Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from sitegen.model import Episode, Series
from sitegen.reading.media import MediaFault, can_draw, draw_poster

_OPENING = 5
"""Seconds after which something can be seen, where the length is not known."""


def posters(
    series: Series, content: Path, cache: Path, jobs: int, *, instead: Path | None = None
) -> dict[str, Path]:
    """By video file, the poster's file in the cache; nothing for videos that ffmpeg cannot read.

    Without ffmpeg the ones made earlier are still used. Where the cache cannot be written to, or is
    full, posters are made in the folder ``instead``: what a site shows does not hang on a cache.
    """
    made = _made_in(cache, series, content, jobs)
    if instead is None:
        return made
    return _made_in(instead, series, content, jobs, but=made.keys()) | made


def _made_in(
    cache: Path, series: Series, content: Path, jobs: int, but: Collection[str] = ()
) -> dict[str, Path]:
    episodes = [episode for episode in _without_poster(series) if _video(episode) not in but]
    wanted = {_video(episode): _place(series, episode, cache) for episode in episodes}
    missing = [episode for episode in episodes if not wanted[_video(episode)].is_file()]
    if missing and can_draw() and _is_usable(cache):
        with ThreadPoolExecutor(max(1, jobs)) as pool:
            list(pool.map(lambda episode: _draw(episode, content, wanted[_video(episode)]), missing))
    return {file: place for file, place in wanted.items() if place.is_file()}


def _is_usable(cache: Path) -> bool:
    try:
        cache.mkdir(parents=True, exist_ok=True)
    except OSError:
        return False
    return os.access(cache, os.W_OK)


def _without_poster(series: Series) -> Iterable[Episode]:
    return (e for e in series.sessions if e.poster is None and _video(e) in series.digests)


def _video(episode: Episode) -> str:
    return (episode.video.file if episode.video else None) or ""


def poster_second(episode: Episode) -> int:
    """A quarter into the video: past the greeting, in the middle of the work."""
    length = episode.video.length if episode.video else None
    return _OPENING if length is None else length // 4


def _place(series: Series, episode: Episode, cache: Path) -> Path:
    return cache / f"{series.digests[_video(episode)]}-{poster_second(episode)}.jpg"


def _draw(episode: Episode, content: Path, place: Path) -> None:
    try:
        draw_poster(content / _video(episode), poster_second(episode), place)
    except MediaFault:
        pass  # the page does without; a video that cannot be read is reported where its length is asked for
