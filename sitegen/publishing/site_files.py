"""The files of a built site with their fingerprints, remembered between runs by time stamps."""

import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from sitegen.building.build_directory import BuildDirectory
from sitegen.building.manifest import Manifest
from sitegen.publishing.headers import form_for
from sitegen.publishing.publication_record import PublishedFile
from sitegen.publishing.store import CHUNK, digest_of
from sitegen.system.whole_files import write_whole


def site_files(out: Path, cache: Path) -> dict[str, PublishedFile]:
    """Every file that the builds of a site wrote; other files in its folder are left alone.

    ``cache`` is a file for what is remembered. Raises OSError where a file cannot be read.
    """
    known = _load(cache)
    fresh: dict[str, tuple[int, int, str]] = {}
    for address in sorted(Manifest.load(BuildDirectory(out).manifest).addresses):
        status = (out / address).stat()
        stamp = (status.st_size, status.st_mtime_ns)
        before = known.get(address)
        digest = before[2] if before and before[:2] == stamp else digest_of(pieces(out / address))
        fresh[address] = (*stamp, digest)
    if fresh != known:
        write_whole(cache, json.dumps(fresh, separators=(",", ":")).encode())
    return {address: PublishedFile(digest=digest, size=size) for address, (size, _, digest) in fresh.items()}


def stored_as(files: Mapping[str, PublishedFile], compress: str) -> dict[str, PublishedFile]:
    """The files in the form in which a target stores them."""
    return {
        address: PublishedFile(digest=entry.digest, size=entry.size, form=form_for(address, compress))
        for address, entry in files.items()
    }


def pieces(path: Path) -> Iterator[bytes]:
    """The bytes of a file in pieces."""
    with path.open("rb") as stream:
        while piece := stream.read(CHUNK):
            yield piece


def _load(cache: Path) -> dict[str, tuple[int, int, str]]:
    try:
        raw = json.loads(cache.read_bytes())
        return {address: (int(size), int(time), str(digest)) for address, (size, time, digest) in raw.items()}
    except (OSError, ValueError, TypeError, AttributeError):
        return {}
