"""The trainer's own pages, the not-found page, the sitemap, and the files copied into the site."""

from collections.abc import Iterable, Iterator
from functools import partial
from pathlib import Path

from markupsafe import escape

from sitegen.model import Episode, FreePage, Series
from sitegen.pages.page import Addresses, CopyOf, Page
from sitegen.pages.site import Site

MAX_SITEMAP_ADDRESSES = 50_000
"""Most addresses in one sitemap file (sitemaps.org protocol)."""


def free_pages(site: Site) -> Iterator[Page]:
    """Pages in the trainer's own words, and 404.html."""
    for page in site.series.pages:
        address = f"{page.slug}/index.html"
        yield Page(address, partial(_make, site, page, address))
    yield Page("404.html", partial(site.render, "404.html", "404.html"))


def _make(site: Site, page: FreePage, address: str) -> bytes:
    return site.render("page.html", address, page=page)


def copied_files(site: Site, content: Path) -> Iterator[Page]:
    """The theme's assets and the content's media, at addresses that change with their bytes."""
    for asset in site.theme.assets.values():
        yield Page(asset.address, partial(_data, asset.data))
    if place := site.posters.get(site.details.trainer.photo.file if site.details.trainer.photo else ""):
        yield Page(f"media/{place.name}", CopyOf(place, f"{place.parent.name}/{place.name}", check=False))
    # Two files with the same name and bytes share one address.
    held_back = _media_of_upcoming(site.series) | _original_photo(site)
    files = {address: file for file, address in site.media_files.items() if file not in held_back}
    for address, file in files.items():
        yield Page(address, CopyOf(content / file, site.series.digests[file]))


def _media_of_upcoming(series: Series) -> set[str]:
    """Files that only episodes use that are not out yet."""
    shown = {file for exercise in series.exercises.values() for file in exercise.media}
    return set(_recordings(series.upcoming)) - set(_recordings(series.episodes)) - shown


def _original_photo(site: Site) -> set[str]:
    """The photograph as the camera made it, where a small one stands in the pages."""
    photo = site.details.trainer.photo
    if photo is None or not site.poster_of(photo.file):
        return set()
    return {photo.file} - {file for one in site.series.exercises.values() for file in one.media}


def _recordings(episodes: Iterable[Episode]) -> Iterator[str]:
    for episode in episodes:
        if episode.video:
            yield from (one.file for one in episode.video.files)
        if episode.poster:
            yield episode.poster.file


def _data(data: bytes) -> bytes:
    return data


def sitemap(site: Site, addresses: Addresses) -> Page:
    """The sitemap of the pages that search engines should know (sitemaps.org protocol 0.9)."""
    return Page("sitemap.xml", partial(_make_sitemap, site, addresses))


def _to_be_found(address: str) -> bool:
    """Sheets are for those who are on a session's page; a number alone only leads on to one; the list of what
    is kept on a device is nobody else's."""
    first, _, rest = address.partition("/")
    if first == "kept" or first.isdigit():
        return False
    return address.endswith("index.html") and "/sheet/" not in rest


def _make_sitemap(site: Site, addresses: Addresses) -> bytes:
    found = sorted(filter(_to_be_found, addresses))[:MAX_SITEMAP_ADDRESSES]
    lines = [f"  <url><loc>{escape(site.public(address))}</loc></url>" for address in found]
    head = (
        '<?xml version="1.0" encoding="UTF-8"?>\n<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">'
    )
    return "\n".join([head, *lines, "</urlset>\n"]).encode()
