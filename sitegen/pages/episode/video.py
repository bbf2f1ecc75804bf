"""Where an episode's video is: a file of the site, or at a host that is asked only on the viewer's word."""

import re
from dataclasses import dataclass
from urllib.parse import quote, urlsplit

from sitegen.model import Episode, Host, Video
from sitegen.pages.site import Site
from sitegen.system.media_types import ending_of, media_type

# Scheme, host and port, and nothing that could end the text that they stand in.
_ORIGIN = re.compile(r"https?://[A-Za-z0-9.\-]+(?::\d+)?")


_TOLD = ("mp4", "m4v", "webm", "ogv")
"""Endings whose media type is told; a browser tries a file of another ending without being told."""
_WIDE, _TALL = 16, 9
"""The usual shape of a video: a file of this height need not be loaded by a window wider than it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VideoSource:
    """One form of the video, as the page offers it to browsers, which take the first that suits them."""

    file: str
    """Address below the site's root."""
    type: str
    """Media type; empty where the ending does not tell it."""
    media: str
    """For which windows it is (a media query); empty for all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VideoView:
    """One of the two: ``sources``, or the addresses at a host."""

    sources: tuple[VideoSource, ...] = ()
    file: str = ""
    """Address below the site's root of the form that links lead to."""
    host: str = ""
    """Name of the host."""
    page: str = ""
    """The video's page at the host, with ``{seconds}`` still to fill in."""
    player: str = ""
    """The player to put into a frame, with ``{seconds}`` still to fill in."""
    origin: str = ""
    """What the page's policy must allow in a frame: scheme and host of the player; empty where it is odd."""

    def link(self, root: str, seconds: int) -> str:
        """A link that opens the video at a time without any script.

        For a file: a media fragment (W3C, *Media Fragments URI 1.0*).
        """
        if self.file:
            return f"{root}{self.file}#t={seconds}"
        return self.page.replace("{seconds}", str(seconds))

    def player_at(self, seconds: int) -> str:
        """The hosted player's address at a time."""
        return self.player.replace("{seconds}", str(seconds))


def video_view(site: Site, episode: Episode) -> VideoView | None:
    """The episode's video; None where there is none yet."""
    video = episode.video
    if video is None:
        return None
    if video.file:
        return VideoView(sources=_sources(site, video), file=site.media(video.file))
    return _hosted(site.details.hosts[video.host or ""], video.id or "")


def _sources(site: Site, video: Video) -> tuple[VideoSource, ...]:
    """Smaller pictures first, each for windows that show no more of it; the others in the trainer's order."""
    tallest = max((one.height or 0 for one in video.files), default=0)
    smaller = sorted(
        (one for one in video.files if one.height and one.height < tallest), key=lambda one: one.height or 0
    )
    full = [one for one in video.files if one not in smaller]
    return tuple(
        VideoSource(
            file=site.media(one.file),
            type=media_type(one.file) if ending_of(one.file) in _TOLD else "",
            media=f"(max-width: {(one.height or 0) * _WIDE // _TALL}px)" if one in smaller else "",
        )
        for one in (*smaller, *full)
    )


def _hosted(host: Host, video_id: str) -> VideoView:
    # An id is one part of an address, whatever characters it has.
    page, player = (address.replace("{id}", quote(video_id, safe="")) for address in (host.page, host.player))
    parts = urlsplit(player)
    origin = f"{parts.scheme}://{parts.netloc}"
    return VideoView(
        host=host.name,
        page=page,
        player=player,
        origin=origin if _ORIGIN.fullmatch(origin) else "",
    )
