"""What publishing asks of a target: files by address, each written whole or not at all."""

import hashlib
import tempfile
from abc import ABC, abstractmethod
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from sitegen.publishing.headers import Headers, decoded, headers_for
from sitegen.publishing.target_errors import Missing, TargetError

CHUNK = 1 << 20
"""Bytes read or sent at a time."""

Body = Path | bytes
"""What to write: a file of this computer, or the bytes themselves."""


@dataclass(frozen=True, slots=True)
class StoredFile:
    """A file at the target, as far as a listing tells."""

    size: int
    """Bytes as stored."""
    tag: str
    """Changes whenever the file is written; it is compared for equality only."""


class Store(ABC):
    """A target. Addresses are paths below its top with ``/``.

    Every method raises :class:`~sitegen.publishing.target_errors.TargetError` in words for a trainer;
    ``read`` and ``copy`` raise :class:`~sitegen.publishing.target_errors.Missing` where there is no file.

    An empty method is one that most kinds of target have nothing to do in.
    """

    where: str
    """Names the target in messages."""
    concurrency: int = 1
    """How many files may be under way at the same time."""
    lists_cheaply: bool = True
    """Whether listing everything takes few requests."""
    keeps_headers: bool = False
    """Whether files have headers of their own, so that text can be stored compressed."""
    has_lease: bool = True
    """Whether a lease file keeps two people apart; False where the switch itself does."""
    compress: str = "none"
    """How text is stored where headers are kept."""

    @abstractmethod
    def open(self) -> None:
        """Connect. Raises TargetError where the target cannot be reached or does not let us in."""

    def close(self) -> None:  # noqa: B027
        """Let go of the connection."""

    def begin(self) -> None:  # noqa: B027
        """Called once, by who holds the lease, before the first write."""

    def finish(self, message: str) -> None:  # noqa: B027
        """Called after the last write: what was written becomes the site, where that is one step."""

    @abstractmethod
    def list(self, below: str = "") -> dict[str, StoredFile]:
        """Every file whose address starts with ``below``."""

    @abstractmethod
    def look(self, address: str) -> StoredFile | None:
        """One file; None where there is none."""

    @abstractmethod
    def chunks(self, address: str) -> Iterator[bytes]:
        """The bytes of a file as stored, piece by piece. Raises Missing."""

    @abstractmethod
    def write(self, address: str, body: Body, headers: Headers) -> None:
        """Put a file there, in the place of any that is there."""

    @abstractmethod
    def create(self, address: str, data: bytes) -> bool:
        """Put a small file there only if there is none; False where there is one."""

    @abstractmethod
    def remove(self, address: str) -> None:
        """Remove a file; it is no error if there is none."""

    def tidy(self, addresses: Iterable[str]) -> None:  # noqa: B027
        """Remove folders that the removal of files may have left empty."""

    def read(self, address: str) -> bytes:
        """The bytes of a file as stored. Raises Missing."""
        return b"".join(self.chunks(address))

    def copy(self, source: str, address: str) -> None:
        """Put the bytes of another file of the target there, with its headers. Raises Missing."""
        with tempfile.TemporaryDirectory(prefix="sitegen-") as folder:
            path = Path(folder) / "copy"
            with path.open("wb") as stream:
                stream.writelines(self.chunks(source))
            self.write(address, path, headers_for(source))

    def digest(self, address: str, form: str) -> str | None:
        """Fingerprint of what a file holds once its compression is undone; None where there is none."""
        try:
            if form:
                return digest_of([decoded(self.read(address), form)])
            return digest_of(self.chunks(address))
        except Missing:
            return None


def digest_of(chunks: Iterable[bytes]) -> str:
    """Fingerprint of bytes that come in pieces (BLAKE2b, 16 bytes)."""
    digest = hashlib.blake2b(digest_size=16)
    for chunk in chunks:
        digest.update(chunk)
    return digest.hexdigest()


def home_path(path: str) -> Path:
    """A path in which ``~`` and ``~robin`` stand for home folders. Raises TargetError where there is none."""
    try:
        return Path(path).expanduser()
    except RuntimeError:
        who = path.partition("/")[0]
        raise TargetError(f"there is no home folder {who} on this computer", "write the whole path") from None
