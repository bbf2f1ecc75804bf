"""Episode pages."""

from collections.abc import Iterator
from functools import partial

from sitegen.model import Episode
from sitegen.output.page import Page, fingerprint
from sitegen.pages.site import Site
from sitegen.pages.views import Views, kit_views


def episode_address(slug: str) -> str:
    """Where an episode's page is."""
    return f"episodes/{slug}/index.html"


def episode_pages(site: Site, views: Views) -> Iterator[Page]:
    """One page per episode."""
    episodes = site.series.episodes
    for index, episode in enumerate(episodes):
        before = episodes[index - 1] if index else None
        after = episodes[index + 1] if index + 1 < len(episodes) else None
        beside = [(e.slug, e.number, e.title) for e in (before, after) if e]
        key = fingerprint(site.key, "episode", site.episode_key(episode), beside)
        make = partial(_make, site, views, episode, before, after)
        yield Page(episode_address(episode.slug), key, make)


def _make(site: Site, views: Views, episode: Episode, before: Episode | None, after: Episode | None) -> bytes:
    video = episode.video
    return site.render(
        "episode.html",
        episode_address(episode.slug),
        episode=episode,
        card=views.card(episode),
        blocks=views.blocks(episode),
        kit=kit_views(views.kit(episode)),
        video=site.media(video.file) if video and video.file else None,
        cues=site.cues.get(episode.captions or "", ()),
        before=before,
        after=after,
    )
