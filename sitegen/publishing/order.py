"""In what order files are sent, so that visitors never see a page whose parts are not there yet."""

from dataclasses import dataclass

from sitegen.publishing.difference import Difference
from sitegen.publishing.headers import is_named_by_bytes

ENTRY_PAGES = ("index.html", "404.html", "feed.xml", "sitemap.xml", "schedule.ics", "schedule/")
"""Where visitors and programs learn of new pages: these change when all the rest is there."""


@dataclass(frozen=True, slots=True)
class Phase:
    """Files that may be sent in any order among themselves."""

    name: str
    addresses: tuple[str, ...]


def phases(difference: Difference) -> list[Phase]:
    """The files to send, first things first; phases without files are left out."""
    sent = difference.sent
    new = set(difference.added)
    media = [a for a in sent if is_named_by_bytes(a)]
    doors = [a for a in sent if is_entry_page(a)]
    pages = [a for a in sent if not (is_named_by_bytes(a) or is_entry_page(a))]
    ordered = {
        "media": media,
        # A page that was there may lead to a new one, a new one only to what is there or new.
        "new pages": [a for a in pages if a in new],
        "changed pages": [a for a in pages if a not in new],
        "entry pages": doors,
    }
    return [Phase(name, tuple(addresses)) for name, addresses in ordered.items() if addresses]


def is_entry_page(address: str) -> bool:
    """Whether an address is one through which visitors come in."""
    return address in ENTRY_PAGES or address.startswith("schedule/")
