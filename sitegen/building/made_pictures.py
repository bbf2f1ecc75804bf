"""Pictures that ffmpeg makes, each once: posters for sessions that have no picture, and a small photograph.

What a phone takes has several megabytes and often says where it was taken: what is made here has neither.
"""

import os
from collections.abc import Iterable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from sitegen.model import Episode, Series
from sitegen.reading.media import MediaFault, can_draw, draw_poster

_OPENING = 5
"""Seconds after which something can be seen, where the length is not known."""
_PHOTOGRAPHS = (".jpg", ".jpeg", ".png", ".webp")


def made_pictures(
    series: Series,
    content: Path,
    cache: Path,
    jobs: int,
    *,
    bare: Sequence[Episode],
    instead: Path | None = None,
) -> dict[str, Path]:
    """By video or photograph, the made picture's file in the cache; nothing for what ffmpeg cannot read.

    Of videos only those of ``bare`` episodes are wanted: no poster of their own, no figures to draw.
    Without ffmpeg the ones made earlier are still used. Where the cache cannot be written to, or is
    full, pictures are made in the folder ``instead``: what a site shows does not hang on a cache.
    """
    seconds = dict(_sources(series, bare))
    made = _made_in(cache, seconds, series, content, jobs)
    if instead is None:
        return made
    left = {file: second for file, second in seconds.items() if file not in made}
    return _made_in(instead, left, series, content, jobs) | made


def _made_in(
    cache: Path, seconds: Mapping[str, int], series: Series, content: Path, jobs: int
) -> dict[str, Path]:
    wanted = {file: cache / f"{series.digests[file]}-{second}.jpg" for file, second in seconds.items()}
    missing = [file for file in seconds if not wanted[file].is_file()]
    if missing and can_draw() and _is_usable(cache):
        with ThreadPoolExecutor(max(1, jobs)) as pool:
            list(pool.map(lambda file: _draw(content / file, seconds[file], wanted[file]), missing))
    return {file: place for file, place in wanted.items() if place.is_file()}


def _is_usable(cache: Path) -> bool:
    try:
        cache.mkdir(parents=True, exist_ok=True)
    except OSError:
        return False
    return os.access(cache, os.W_OK)


def _sources(series: Series, bare: Iterable[Episode]) -> Iterable[tuple[str, int]]:
    """What a picture is made from: the file, and the second of it."""
    for episode in bare:
        if _video(episode) in series.digests:
            yield _video(episode), poster_second(episode)
    photo = series.details.trainer.photo
    if photo and photo.file in series.digests and photo.file.lower().endswith(_PHOTOGRAPHS):
        yield photo.file, 0


def _video(episode: Episode) -> str:
    return (episode.video.file if episode.video else None) or ""


def poster_second(episode: Episode) -> int:
    """A quarter into the video: past the greeting, in the middle of the work."""
    length = episode.video.length if episode.video else None
    return _OPENING if length is None else length // 4


def _draw(source: Path, second: int, place: Path) -> None:
    try:
        draw_poster(source, second, place)
    except MediaFault:
        pass  # the page does without; a video that cannot be read is reported where its length is asked for
