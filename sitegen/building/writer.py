"""Write the planned pages: the next site is made complete beside the old one, then swapped in.

The staging folder holds the files of the previous site. It is brought up to date by links to the
current site's unchanged files and by making the rest again, so the work is in proportion to the
change, and a build that is killed has not touched the site.
"""

import os
import shutil
import sys
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sitegen.building.build_directory import BuildDirectory
from sitegen.building.known_site import KnownSite, stamp_of
from sitegen.building.manifest import Manifest
from sitegen.building.output_folder import (
    OutputFolder,
    look_through,
    move_foreign,
    note_foreign,
    refuse_immovable,
    refuse_in_the_way,
    refuse_stranger,
)
from sitegen.building.site_state import by_folder, fingerprint_of_site, state_of_site
from sitegen.building.staging import bring_up_to_date, link_to, make_folder
from sitegen.building.swap import recover, swap
from sitegen.pages.inputs import Inputs
from sitegen.pages.page import CopyOf, Page, check_address
from sitegen.problems import ContentError, in_file
from sitegen.reading.files import digest_of_file
from sitegen.system.file_states import FileState, state_of
from sitegen.system.noted_reads import recording
from sitegen.system.os_errors import naming
from sitegen.system.parallel import map_in_chunks


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteChanges:
    """What a build did to the site."""

    made: tuple[str, ...]
    """Addresses whose bytes are new."""
    removed: tuple[str, ...]
    unchanged: int
    site: str
    """Fingerprint (``sitegen.building.site_state``) of all that is there now."""


Files = Mapping[str, FileState]
Progress = Callable[[int, int], None]
"""Called with pages done and pages to do."""


def write_site(
    directory: BuildDirectory,
    known: KnownSite,
    planned: Sequence[Page],
    *,
    jobs: int = 1,
    progress: Progress | None = None,
    take_over: bool = False,
) -> SiteChanges:
    """Make the site consist of the pages that are ``planned``, of the batches that are settled, and of what
    is there that no build wrote.

    The caller holds the build directory. Foreign files at addresses of the site, and an output folder
    that no build wrote to, are refused with a ContentError unless the build may ``take_over``. Raises
    OSError (a full disk, say) with the site untouched.
    """
    pages, site = _look(directory, known, planned)
    loose = {address for one in known.settled.values() for address in one.built.head.loose}
    addresses = {*loose, *(page.address for page in pages)}
    count = len(pages) + sum(one.built.head.count for one in known.settled.values())
    replaced = _places_to_take(directory, site, known, addresses, take_over)
    current = site.files
    fresh = loose.union(
        p.address for p in pages if p.address in current and known.is_current(p, stamp_of(current[p.address]))
    )
    stale = [page for page in pages if page.address not in fresh]
    removed = [address for address in current if address not in addresses]
    if not stale and not removed:
        return SiteChanges(made=(), removed=(), unchanged=count, site=state_of_site(directory.out))
    foreign = [path for path in site.foreign if path not in replaced]
    refuse_immovable(directory.out, foreign)
    now, folders = bring_up_to_date(directory, site, fresh, addresses)
    made = _make(directory, stale, current, jobs, progress)
    now |= {address: one.state for address, one in made.items()}
    others, loose_files = by_folder(now)
    folders |= others
    read = {address: one.read for address, one in made.items()}
    # Written before the swap: whatever moment a crash picks, one of the two manifests is right.
    known.manifest(pages, read, now, folders).save(directory.next_manifest)
    note_foreign(directory, foreign)
    _exchange(directory)
    for path in replaced:
        os.unlink(directory.staging / path)
    written = sorted(address for address, one in made.items() if one.is_new)
    return SiteChanges(
        made=tuple(written),
        removed=tuple(sorted(removed)),
        unchanged=count - len(written),
        site=state_of_site(directory.out) if foreign else fingerprint_of_site(folders, loose_files),
    )


def _look(
    directory: BuildDirectory, known: KnownSite, planned: Sequence[Page]
) -> tuple[list[Page], OutputFolder]:
    """The pages to look at one by one, and what is in the output folder.

    These are those planned; and all of a settled batch, where another page is in one of its folders or
    somebody has changed a file there.
    """
    pages = list(planned)
    opened: Collection[str] = known.shared(page.address for page in pages)
    while True:
        pages += known.open(opened)
        addresses = {check_address(page.address) for page in pages}
        if len(addresses) != len(pages):
            raise ValueError(f"two pages share an address: {_twice(pages)}")
        ours = known.addresses() | (addresses if known.damaged else set())
        whole = {folder for one in known.settled.values() for folder in one.built.head.folders}
        site = look_through(directory.out, ours, addresses, whole)
        opened = known.touched({path: one.fingerprint for path, one in site.folders.items()}, site.files)
        if not opened:
            return pages, site


def known_site(directory: BuildDirectory, site_key: str, inputs: Inputs) -> KnownSite:
    """What is known of the site in place; what a crash left undone is done first."""
    recover(directory.staging, directory.out)
    move_foreign(directory)
    manifests = map(Manifest.load, (directory.manifest, directory.next_manifest))
    return KnownSite(manifests, site_key, inputs)


def _places_to_take(
    directory: BuildDirectory, site: OutputFolder, known: KnownSite, planned: set[str], take_over: bool
) -> list[str]:
    """Foreign files that pages are to replace. Raises ContentError where that is not wanted."""
    built_before = known.damaged or bool(known.settled) or bool(known.addresses())
    if not built_before and not take_over:
        refuse_stranger(directory.out, site.foreign)
    taken = site.in_the_way(planned)
    folders = [path for path in taken if state_of(directory.out / path) and _is_folder(directory.out / path)]
    refuse_in_the_way(directory.out, folders if take_over else taken)
    return taken


def _is_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink()


def _exchange(directory: BuildDirectory) -> None:
    """Put the staging folder in the site's place, with the site's rights, and what is foreign into it."""
    if directory.out.exists():
        shutil.copymode(directory.out, directory.staging)
    swap(directory.staging, directory.out)
    move_foreign(directory)
    os.replace(directory.next_manifest, directory.manifest)


def _twice(pages: Iterable[Page]) -> str:
    seen: set[str] = set()
    return next(p.address for p in pages if p.address in seen or seen.add(p.address))  # type: ignore[func-returns-value]


@dataclass(frozen=True, slots=True)
class _Made:
    """A file in the staging folder."""

    state: FileState
    is_new: bool
    """False where it has the bytes that the site has at that address: it is that very file."""
    read: tuple[str, ...]
    """Names of what it was made from, interned: most files of a site read the same few thousand."""


def _make(
    directory: BuildDirectory, pages: list[Page], current: Files, jobs: int, progress: Progress | None
) -> dict[str, _Made]:
    """Make pages into the staging folder."""
    folders: set[str] = set()
    for page in pages:
        make_folder(directory.staging, page.address, folders)

    def make(page: Page) -> tuple[str, _Made]:
        with naming(directory.staging / page.address):
            return page.address, _make_one(directory, page, current.get(page.address))

    made: dict[str, _Made] = {}
    for address, one in map_in_chunks(make, pages, jobs):
        # What another process sends comes with names of its own: a gigabyte at ten thousand sessions.
        made[address] = replace(one, read=_interned(one.read))
        if progress is not None:
            progress(len(made), len(pages))
    return made


def _make_one(directory: BuildDirectory, page: Page, old: FileState | None) -> _Made:
    path = f"{directory.staging}/{page.address}"
    if isinstance(page.make, CopyOf):
        return _Made(_copy(page.make, path), True, ())
    with recording() as read:
        data = page.make()
    if old is not None and old.size == len(data):
        place = directory.out / page.address
        if not place.is_symlink() and place.read_bytes() == data:
            return _Made(link_to(place, Path(path), old), False, _interned(read))
    return _Made(_write(path, data), True, _interned(read))


def _interned(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(map(sys.intern, names))


def _write(path: str, data: bytes) -> FileState:
    # Without Python's buffers: a site is many small files, and each call of the system counts.
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    rest = memoryview(data)
    try:
        while rest:
            rest = rest[os.write(descriptor, rest) :]
        return FileState.of(os.fstat(descriptor))
    finally:
        os.close(descriptor)


def _copy(source: CopyOf, path: str) -> FileState:
    shutil.copyfile(source.path, path)
    if source.check and digest_of_file(Path(path)) != source.digest:
        message = "the file was replaced while the site was being built"
        raise ContentError([in_file("replaced", str(source.path), message, "build again")])
    return FileState.of(os.lstat(path))
