"""Addresses that changed: a small page at the old one leads to the new one.

Between neighbours in a folder (``episodes/old`` and ``episodes/new``) all that lies below moves
along: pages lead on, files such as the sheet as PDF are at both addresses. What is there now
always comes before what was; moves that lead nowhere make no page (the check ``moved`` tells).
"""

from bisect import bisect_left
from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import partial

from sitegen.pages.page import Page, PlannedBatch
from sitegen.pages.site import Site
from sitegen.study.moved_addresses import MovedAddresses, fragment_of, place_of

INDEX = "index.html"


def moved_pages(site: Site, pages: Iterable[Page], batches: Iterable[PlannedBatch]) -> Iterator[Page]:
    """The pages and files at old addresses; all the others of the site are given."""
    if not site.details.moved:
        return
    live: dict[str, Page | PlannedBatch] = {page.address: page for page in pages}
    live |= {address: taken for taken in batches for address in taken.addresses()}
    order = sorted(live)
    moves = MovedAddresses(site.details.moved, lambda place: place in live or _index(place) in live)
    taken = set(live)
    for old, new in site.details.moved.items():
        end = moves.end_of(place_of(new))
        if end is None:
            continue
        for old_address, new_address in _pairs(place_of(old), end, live, order):
            if old_address not in taken:
                taken.add(old_address)
                fragment = fragment_of(new) if new_address == _index(end) else ""
                yield _page(site, old_address, new_address, live[new_address], fragment)


def _pairs(old: str, new: str, live: Collection[str], order: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Old and new addresses of everything that moved from one place to another."""
    if _index(new) not in live:  # a file
        yield old, new
        return
    parent = new.rpartition("/")[0]
    if not parent or old.rpartition("/")[0] != parent:
        yield _index(old), _index(new)
        return
    start = bisect_left(order, f"{new}/")
    for address in order[start:]:
        if not address.startswith(f"{new}/"):
            return
        yield f"{old}/{address.removeprefix(f'{new}/')}", address


def _page(site: Site, address: str, new: str, there: Page | PlannedBatch, fragment: str) -> Page:
    if new.endswith(INDEX):
        return Page(address, partial(_make, site, address, new, fragment))
    return Page(address, (there if isinstance(there, Page) else there.page(new)).make)


def _make(site: Site, address: str, new: str, fragment: str) -> bytes:
    ending = f"#{fragment}" if fragment else ""
    return site.render("moved.html", address, new=new + ending, published=site.public(new) + ending)


def _index(place: str) -> str:
    return f"{place}/{INDEX}" if place else INDEX
