"""The video for search engines: a schema.org VideoObject with its chapters as Clips, in JSON-LD.

schema.org: ``startOffset`` and ``endOffset`` are seconds from the start of the work, a Clip is a
part (``hasPart``) of its VideoObject; ``duration`` is an ISO 8601 duration, whose minutes need the
``T``: ten minutes are ``PT10M``.
"""

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from sitegen.model import Episode
from sitegen.pages.episode.address import episode_address
from sitegen.pages.episode.exports import link_to
from sitegen.pages.episode.titles import TitledChapter
from sitegen.pages.episode.video import VideoView
from sitegen.pages.plain_text import plain_text
from sitegen.pages.script_json import script_json
from sitegen.pages.site import Site


def iso_duration(seconds: int) -> str:
    """``PT8M26S``; ``PT0S`` for nothing."""
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    parts = [f"{amount}{unit}" for amount, unit in ((hours, "H"), (minutes, "M"), (rest, "S")) if amount]
    return f"PT{''.join(parts) or '0S'}"


def video_object(
    site: Site, episode: Episode, video: VideoView, found: Sequence[TitledChapter], picture: str
) -> Markup:
    """The JSON-LD of an episode's video."""
    details, length = site.details, episode.video.length if episode.video else None
    data: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "VideoObject",
        "name": episode.title,
        "description": plain_text(episode.summary) or episode.title,
        "url": site.public(episode_address(episode.slug)),
        "inLanguage": details.language,
        "author": {"@type": "Person", "name": details.trainer.name},
        "thumbnailUrl": details.address + picture if picture else None,
        "uploadDate": episode.released.isoformat() if episode.released else None,
        "duration": iso_duration(length) if length is not None else None,
        "contentUrl": details.address + video.file if video.file else None,
        "embedUrl": video.player_at(0) or None,
        "hasPart": [
            {
                "@type": "Clip",
                "name": chapter.title,
                "startOffset": chapter.start,
                "endOffset": chapter.end,
                "url": link_to(site, episode, chapter),
            }
            for chapter in found
        ],
    }
    return script_json({name: value for name, value in data.items() if value is not None})
