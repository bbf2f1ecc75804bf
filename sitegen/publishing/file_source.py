"""Where the bytes of a publication come from: a built site, or what an earlier publication left."""

from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from pathlib import Path

from sitegen.publishing.headers import encoded, headers_for, is_named_by_bytes
from sitegen.publishing.publication_record import Publication, PublishedFile
from sitegen.publishing.store import Store, StoredFile, digest_of
from sitegen.publishing.target_errors import AGAIN, TargetError

_LARGE = 8 << 20
"""Bytes from which on a file is sent without being held in memory."""


class FileSource(ABC):
    """Gives the bytes of files to publish."""

    again: int | None = None
    """Number of the publication that is brought back, if one is."""

    @abstractmethod
    def send(self, store: Store, address: str, entry: PublishedFile) -> int:
        """Put a file at the target; gives the bytes sent."""


class BuiltSite(FileSource):
    """The folder of a built site."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def send(self, store: Store, address: str, entry: PublishedFile) -> int:
        path = self.folder / address
        headers = headers_for(address, entry.form)
        if entry.size > _LARGE:  # read back after it was sent, like all others
            store.write(address, path, headers)
            return entry.size
        data = path.read_bytes()
        if digest_of([data]) != entry.digest:
            message = f"{path} has changed since it was compared"
            raise TargetError(message, f"is a preview open? Then {AGAIN}")
        data = encoded(data, entry.form)
        store.write(address, data, headers)
        return len(data)


class KeptFiles(FileSource):
    """The files of an earlier publication, which are still at the target."""

    def __init__(self, publication: Publication) -> None:
        self.again = publication.number

    def send(self, store: Store, address: str, entry: PublishedFile) -> int:
        if is_named_by_bytes(address):
            raise TargetError(f"{store.where} has lost {address}", "publish from the content instead")
        store.copy(entry.kept_at, address)
        return 0


def lost_files(publication: Publication, sent: Iterable[str], kept: Mapping[str, StoredFile]) -> list[str]:
    """Addresses of a publication that would have to be sent and whose bytes the target no longer has."""
    files = publication.files
    return sorted(a for a in sent if is_named_by_bytes(a) or files[a].kept_at not in kept)
