"""Small sites to publish, and one call that publishes them as the command does."""

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path

from sitegen.publishing.file_source import BuiltSite
from sitegen.publishing.lease import Holder, Lease, this_holder
from sitegen.publishing.messages import title_of
from sitegen.publishing.publication_record import PublishedFile
from sitegen.publishing.publisher import Comparison, Publisher, SentReport
from sitegen.publishing.restore import compare_for_restore, find_publication
from sitegen.publishing.site_files import stored_as
from sitegen.publishing.store import Store, digest_of
from tests.publishing.places import Place

NOON = datetime(2026, 9, 14, 12, 0, tzinfo=UTC)

FIRST: Mapping[str, bytes] = {
    "index.html": b"Home: episodes/one/index.html media/one.0123456789.webm assets/site.aaaaaaaaaa.css",
    "404.html": b"not here",
    "feed.xml": b"<feed>one</feed>",
    "episodes/one/index.html": b"<h1>One</h1> assets/site.aaaaaaaaaa.css media/one.0123456789.webm",
    "episodes/one/description.txt": b"One: the first",
    "exercises/towel-row/index.html": b"<h1>Towel row</h1> assets/site.aaaaaaaaaa.css",
    "exercises/goes/index.html": b"<h1>Goes</h1>",
    "assets/site.aaaaaaaaaa.css": b"h1 { color: teal }",
    "media/one.0123456789.webm": bytes(range(256)) * 40,
}
"""A site of nine files."""

SECOND: Mapping[str, bytes] = {
    **{
        a: data
        for a, data in FIRST.items()
        if a not in ("exercises/goes/index.html", "assets/site.aaaaaaaaaa.css")
    },
    "index.html": b"Home: episodes/two/index.html media/one.0123456789.webm assets/site.bbbbbbbbbb.css",
    "feed.xml": b"<feed>one two</feed>",
    "episodes/one/index.html": b"<h1>One</h1> assets/site.bbbbbbbbbb.css media/one.0123456789.webm",
    "exercises/towel-row/index.html": b"<h1>Towel row</h1> assets/site.bbbbbbbbbb.css",
    "episodes/two/index.html": b"<h1>Two</h1> assets/site.bbbbbbbbbb.css media/two.abcdefabcd.webm",
    "assets/site.bbbbbbbbbb.css": b"h1 { color: navy }",
    "media/two.abcdefabcd.webm": bytes(range(255, -1, -1)) * 60,
}
"""The same with an episode more, another style, changed pages and one page less."""


def write_site(folder: Path, files: Mapping[str, bytes]) -> dict[str, PublishedFile]:
    """Write a site as a build would; gives what is to be published."""
    for address, data in files.items():
        path = folder / address
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists() or path.read_bytes() != data:
            path.write_bytes(data)
    return {
        address: PublishedFile(digest=digest_of([data]), size=len(data)) for address, data in files.items()
    }


class Person:
    """Somebody who publishes from a computer of their own."""

    def __init__(self, base: Path, name: str = "robin", clock: Callable[[], datetime] = lambda: NOON) -> None:
        self.folder = base / f"built-by-{name}"
        self.caches = base / f"caches-of-{name}"
        self.clock = clock

    def holder(self) -> Holder:
        """This person's entry in the lease."""
        return this_holder(self.caches, self.clock())

    def compare(self, store: Store, files: Mapping[str, bytes], *, thorough: bool = False) -> Comparison:
        """What publishing would change."""
        wanted = stored_as(write_site(self.folder, files), store.compress if store.keeps_headers else "none")
        return Publisher(store, self.clock).compare(wanted, thorough=thorough)

    def publish(
        self, place: Place, files: Mapping[str, bytes], *, thorough: bool = False, take_over: bool = False
    ) -> SentReport:
        """Publish a site."""
        store = place.store()
        store.open()
        try:
            comparison = self.compare(store, files, thorough=thorough)
            return self.send(store, comparison, take_over=take_over)
        finally:
            store.close()

    def send(self, store: Store, comparison: Comparison, *, take_over: bool = False) -> SentReport:
        """Send what was compared."""
        title = title_of(comparison.difference)
        with Lease(store, self.holder(), take_over=take_over) as lease:
            return Publisher(store, self.clock).send(comparison, BuiltSite(self.folder), lease, title)

    def look(self, place: Place, files: Mapping[str, bytes]) -> Comparison:
        """Only look what would change."""
        store = place.store()
        store.open()
        try:
            return self.compare(store, files)
        finally:
            store.close()

    def restore(self, place: Place, number: int | None = None) -> SentReport:
        """Bring an earlier publication back."""
        store = place.store()
        store.open()
        try:
            publisher = Publisher(store, self.clock)
            from sitegen.publishing.publications import read_history

            publication = find_publication(read_history(store), number)
            comparison, source = compare_for_restore(publisher, publication)
            with Lease(store, self.holder()) as lease:
                return publisher.send(comparison, source, lease, title_of(comparison.difference))
        finally:
            store.close()
