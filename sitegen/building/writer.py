"""Write the planned pages: the next site is made complete beside the old one, then swapped in.

The tree in the workshop is the site before last. It is brought up to date by links to the
current site's unchanged files and by making the rest anew, so the work is in proportion to the
change, and a build that is killed has not touched the site.
"""

import os
import shutil
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from sitegen.building.manifest import Entry, Manifest, Spare, Stamp
from sitegen.building.swap import recover, swap
from sitegen.building.workshop import Workshop
from sitegen.pages.page import Page, check_address
from sitegen.system.parallel import map_in_chunks
from sitegen.system.scan import FileState, digest, scan, state_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What a build did to the site."""

    made: tuple[str, ...]
    """Addresses written anew."""
    removed: tuple[str, ...]
    unchanged: int
    site: str
    """Fingerprint (``sitegen.system.scan.digest``) of all that is there now."""


Files = dict[str, FileState]
Progress = Callable[[int, int], None]
"""Called with pages done and pages to do."""


def write_site(
    workshop: Workshop, pages: Sequence[Page], *, jobs: int = 1, progress: Progress | None = None
) -> Written:
    """Make the site consist of ``pages`` (and of files there that no build wrote).

    The caller holds the workshop. Raises OSError (a full disk, say) with the site untouched.
    """
    recover(workshop.next, workshop.out)
    known = _known_entries(workshop)
    current = scan(workshop.out)
    addresses = {check_address(page.address) for page in pages}
    if len(addresses) != len(pages):
        raise ValueError(f"two pages share an address: {_twice(pages)}")
    fresh = {p.address for p in pages if _is_fresh(p, known, current)}
    stale = [page for page in pages if page.address not in fresh]
    removed = [a for a in current if a in known and a not in addresses]
    if not stale and not removed:
        return Written(made=(), removed=(), unchanged=len(fresh), site=digest(current))
    foreign = {address for address in current if address not in known and address not in addresses}
    _bring_up_to_date(workshop, fresh | foreign, addresses, current)
    made = _make(workshop.next, stale, jobs, progress)
    now = {address: current[address] for address in fresh | foreign} | made
    entries = {page.address: Entry(page.key, _stamp(now[page.address])) for page in pages}
    # Written before the swap: whatever moment a crash picks, one of the two manifests is right.
    Manifest(entries).save(_pending(workshop))
    swap(workshop.next, workshop.out)
    os.replace(_pending(workshop), workshop.manifest)
    site = digest(now)
    different = frozenset(a for a in current.keys() | now.keys() if current.get(a) != now.get(a))
    _note_spare(workshop, site, different)
    return Written(made=tuple(sorted(made)), removed=tuple(sorted(removed)), unchanged=len(fresh), site=site)


def _stamp(file: FileState) -> Stamp:
    return file.size, file.time_ns


def _pending(workshop: Workshop) -> Path:
    return workshop.manifest.with_suffix(".next")


def _known_entries(workshop: Workshop) -> dict[str, tuple[Entry, ...]]:
    """What is known of each address; two entries where a crash left it open which one holds."""
    known: dict[str, tuple[Entry, ...]] = {}
    for path in (workshop.manifest, _pending(workshop)):
        for address, entry in Manifest.load(path).entries.items():
            known[address] = (*known.get(address, ()), entry)
    return known


def _is_fresh(page: Page, known: dict[str, tuple[Entry, ...]], current: Files) -> bool:
    file = current.get(page.address)
    if file is None:
        return False
    return any(entry.key == page.key and entry.stamp == _stamp(file) for entry in known.get(page.address, ()))


def _twice(pages: Iterable[Page]) -> str:
    seen: set[str] = set()
    return next(p.address for p in pages if p.address in seen or seen.add(p.address))  # type: ignore[func-returns-value]


def _bring_up_to_date(workshop: Workshop, kept: set[str], planned: set[str], current: Files) -> None:
    """Make the next tree hold exactly the kept files of the current site, by links to them."""
    root = workshop.next
    spare = _files_of_spare(workshop, current)
    root.mkdir(exist_ok=True)
    for address, file in spare.items():
        if address not in kept or current[address] != file:
            os.unlink(root / address)
            if address not in planned and address not in kept:
                _drop_empty_folders(root, address)
    folders: set[str] = set()
    for address in kept:
        if spare.get(address) != current[address]:
            _make_folder(root, address, folders)
            os.link(workshop.out / address, root / address)


def _files_of_spare(workshop: Workshop, current: Files) -> Files:
    """The files of the next tree; from what is known of it where the site is as it was left."""
    known = Spare.take(workshop.spare)
    if known is None or known.folder != state_of(workshop.next) or known.site != digest(current):
        return scan(workshop.next)
    other = {a: state for a in known.different if (state := state_of(workshop.next / a)) is not None}
    return {a: state for a, state in current.items() if a not in known.different} | other


def _note_spare(workshop: Workshop, site: str, different: frozenset[str]) -> None:
    """Note what became of the old site, which is the next tree now."""
    folder = state_of(workshop.next)
    if folder is not None:
        Spare(site, folder, different).save(workshop.spare)


def _drop_empty_folders(root: Path, address: str) -> None:
    folder = (root / address).parent
    while folder != root:
        try:
            folder.rmdir()
        except OSError:  # not empty
            return
        folder = folder.parent


def _make_folder(root: Path, address: str, made: set[str]) -> None:
    """The folder of a file, and those above it below ``root``; once each."""
    folder = address.rpartition("/")[0]
    if not folder or folder in made:
        return
    _make_folder(root, folder, made)
    made.add(folder)
    try:
        os.mkdir(f"{root}/{folder}")
    except FileExistsError:
        pass


def _make(root: Path, pages: list[Page], jobs: int, progress: Progress | None) -> Files:
    """Make pages into the next tree."""
    folders: set[str] = set()
    for page in pages:
        _make_folder(root, page.address, folders)

    def make(page: Page) -> tuple[str, FileState]:
        return page.address, _make_one(root, page)

    made: Files = {}
    for address, state in map_in_chunks(make, pages, jobs):
        made[address] = state
        if progress is not None:
            progress(len(made), len(pages))
    return made


def _make_one(root: Path, page: Page) -> FileState:
    path = f"{root}/{page.address}"
    if isinstance(page.make, Path):
        shutil.copyfile(page.make, path)
        return FileState.of(os.lstat(path))
    data = memoryview(page.make())
    # Without Python's buffers: a site is many small files, and each call of the system counts.
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        while data:
            data = data[os.write(descriptor, data) :]
        return FileState.of(os.fstat(descriptor))
    finally:
        os.close(descriptor)
