"""Stated lengths of videos against the files themselves, where ffprobe is installed.

Asking takes a moment for each video, so answers are remembered beside the other caches.
"""

from collections.abc import Iterator

from sitegen.model import Series
from sitegen.notation import format_clock
from sitegen.problems import Problem, found
from sitegen.reading.folder import Inventory
from sitegen.reading.lengths import length_of
from sitegen.reading.media import MediaFault, can_probe
from sitegen.reading.read_cache import ReadCache
from sitegen.system.cache_folders import cache_folder

_SLACK_S = 2
"""Seconds that a stated length may be off: programs round and cut the end differently."""
_FORM = "lengths 1"
"""Of what is remembered; it does not depend on the program."""


def stated_lengths(series: Series, inventory: Inventory) -> Iterator[Problem]:
    """A length that the video's file contradicts."""
    videos = [(e, e.video) for e in series.sessions if e.video is not None]
    stated = [(e, v.file, v.length) for e, v in videos if v.file is not None and v.length is not None]
    if not stated or not can_probe():
        return
    folder = inventory.root
    memory = ReadCache.load(cache_folder(folder) / "lengths", _FORM)
    for episode, file, told in stated:
        if file not in inventory.stamps:
            continue
        try:
            length = length_of(file, inventory, memory)
        except MediaFault:  # nothing is known of it: that is told where the length is needed
            continue
        if length is not None and abs(length - told) > _SLACK_S:
            said, real = format_clock(told), format_clock(length)
            message = f"length: says {said}, but the video lasts {real}"
            advice = f'write length: "{real}", or leave it out; times of blocks may be off too'
            yield found("warning", "length-differs", episode.location.at("video", "length"), message, advice)
    try:
        memory.save(cache_folder(folder) / "lengths", _FORM)
    except OSError:
        pass  # asking again costs time, nothing else
