"""The length of videos whose episode does not give it, taken from the file where ffprobe is installed."""

from dataclasses import replace

from sitegen.model import Episode, Series
from sitegen.problems import Problem, found
from sitegen.reading.folder import Inventory
from sitegen.reading.media import MediaFault, can_probe, probe_length
from sitegen.reading.read_cache import ReadCache
from sitegen.reading.timeline import check_length


def fill_in_lengths(
    series: Series, inventory: Inventory, memory: ReadCache, problems: list[Problem]
) -> Series:
    """The series with every length that can be found; what is wrong with a video joins ``problems``."""
    missing = [one for one in series.episodes if one.video and one.video.file and one.video.length is None]
    filled = {episode.slug: _with_length(episode, inventory, memory, problems) for episode in missing}
    if not filled:
        return series
    return replace(series, episodes=tuple(filled.get(one.slug, one) for one in series.episodes))


def _with_length(
    episode: Episode, inventory: Inventory, memory: ReadCache, problems: list[Problem]
) -> Episode:
    video = episode.video
    if video is None or video.file not in inventory.stamps:
        return episode
    try:
        length = length_of(video.file, inventory, memory)
    except MediaFault as fault:
        location, message = episode.location.at("video", "file"), f"the video cannot be read: {fault}"
        problems.append(found("warning", "video-unreadable", location, message, "export the video again"))
        return episode
    timed = replace(episode, video=replace(video, length=length))
    problems.extend(check_length(timed))
    return timed


def length_of(file: str, inventory: Inventory, memory: ReadCache) -> int | None:
    """Seconds, remembered while the file stays the same; None without ffprobe."""
    stamp = inventory.stamps[file]
    known: int | None = memory.recall("length", file, stamp)
    if known is None and can_probe():
        known = probe_length(inventory.root / file)
        memory.keep("length", file, stamp, known, read_ns=inventory.taken_ns)
    return known
