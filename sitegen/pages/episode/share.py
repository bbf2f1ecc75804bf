"""Texts to paste: the description where the video is hosted, the announcement for an e-mail to clients."""

from collections.abc import Iterator, Sequence
from typing import Any

from sitegen.model import Episode
from sitegen.notation import format_clock
from sitegen.pages.episode.address import beside_page, episode_address
from sitegen.pages.episode.kit import FetchView, fetch_list
from sitegen.pages.episode.titles import entry_title
from sitegen.pages.plain_text import plain_text
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.chapters import chapters, entry_list

_SHOWN_BY_MESSENGERS = (".jpg", ".jpeg", ".png", ".gif", ".webp")
"""Pictures of pixels; an SVG file is shown by hardly any (common practice, no source)."""

DESCRIPTION = "description.txt"
ANNOUNCEMENT = "announcement.txt"


def link_picture_of(site: Site, episode: Episode) -> str:
    """Address of the picture that messengers show for a session: the trainer's poster, else the one that
    the program draws; empty where it draws none."""
    if episode.poster and episode.poster.file.lower().endswith(_SHOWN_BY_MESSENGERS):
        return site.media(episode.poster.file)
    return drawn_link_picture(episode.slug) if site.pictures else ""


def drawn_link_picture(slug: str) -> str:
    """Address of the picture that is drawn for links to a session."""
    return beside_page(slug, "picture.png")


def description(site: Site, views: Views, episode: Episode) -> bytes:
    """Summary, kit, link, and the list of times that video hosts make chapters of."""
    entries = entry_list(chapters(episode)).entries
    times = [(format_clock(entry.start), entry_title(site, episode, entry)) for entry in entries]
    return site.render(
        DESCRIPTION, beside_page(episode.slug, DESCRIPTION), **_facts(site, views, episode), times=times
    )


def announcement(site: Site, views: Views, episode: Episode) -> bytes:
    """What is in it, what to fetch, how long it takes, the link."""
    return site.render(ANNOUNCEMENT, beside_page(episode.slug, ANNOUNCEMENT), **_facts(site, views, episode))


def _facts(site: Site, views: Views, episode: Episode) -> dict[str, Any]:
    card = views.card(episode)
    return {
        "episode": episode,
        "summary": plain_text(episode.summary),
        "total": card.total,
        "inside": [
            (block.name, ", ".join(site.form(item.exercise, item.variant).name for item in block.items))
            for block in episode.blocks
        ],
        "kit": list(_kit_lines(site, fetch_list(site, views, episode))),
        "link": site.public(episode_address(episode.slug)),
    }


def _kit_lines(site: Site, kit: Sequence[FetchView]) -> Iterator[str]:
    words = site.theme.strings.share
    for piece in kit:
        loads = words.loads.format(loads="; ".join(piece.loads)) if piece.loads else ""
        instead = words.instead.format(things=", ".join(piece.stand_ins)) if piece.stand_ins else ""
        yield f"{piece.name}{instead}{loads}"
