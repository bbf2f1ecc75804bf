"""Every file of every episode."""

from collections.abc import Iterator, Sequence
from functools import partial

from sitegen.model import Episode
from sitegen.pages.episode.address import beside_page, episode_address
from sitegen.pages.episode.episode_page import Neighbours, make_page
from sitegen.pages.episode.exports import (
    captions_script,
    captions_vtt,
    chapters_ffmeta,
    chapters_json,
    chapters_vtt,
)
from sitegen.pages.episode.share import ANNOUNCEMENT, DESCRIPTION, announcement, description
from sitegen.pages.page import CopyOf, Page
from sitegen.pages.site import Site
from sitegen.pages.views import Views

CHAPTER_FILES = {
    "chapters.vtt": chapters_vtt,
    "chapters.json": chapters_json,
    "chapters.ffmeta": chapters_ffmeta,
}


def episode_pages(
    site: Site, views: Views, episodes: Sequence[Episode], around: Neighbours
) -> Iterator[Page]:
    """The page of each of some episodes in a row and what lies beside it; ``around`` are those before the
    first and after the last."""
    befores, afters = (around.before, *episodes[:-1]), (*episodes[1:], around.after)
    for episode, before, after in zip(episodes, befores, afters, strict=False):  # of none there are none
        make = partial(make_page, site, views, episode, Neighbours(before, after))
        yield Page(episode_address(episode.slug), make)
        yield from _files(site, views, episode)


def made_posters(site: Site) -> Iterator[Page]:
    """The pictures that ffmpeg made; two episodes with one video share theirs, wherever they stand."""
    places = {
        site.made_poster(episode): site.posters[episode.video.file or ""]
        for episode in site.series.episodes
        if episode.video and site.made_poster(episode)
    }
    for address, place in places.items():
        yield Page(address, CopyOf(place, f"{place.parent.name}/{place.name}", check=False))


def _files(site: Site, views: Views, episode: Episode) -> Iterator[Page]:
    slug = episode.slug
    if episode.video is not None:
        for name, make in CHAPTER_FILES.items():
            yield Page(beside_page(slug, name), partial(make, site, episode))
        yield Page(beside_page(slug, DESCRIPTION), partial(description, site, views, episode))
    if episode.captions:
        yield Page(beside_page(slug, "captions.vtt"), partial(captions_vtt, site, episode))
        yield Page(beside_page(slug, "captions.js"), partial(captions_script, site, episode))
    yield Page(beside_page(slug, ANNOUNCEMENT), partial(announcement, site, views, episode))
