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

from sitegen.output.manifest import Entry, Manifest, Stamp
from sitegen.output.page import Page, check_address
from sitegen.output.swap import recover, swap
from sitegen.output.workshop import Workshop
from sitegen.parallel import map_in_chunks


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What a build did to the site."""

    made: tuple[str, ...]
    """Addresses written anew."""
    removed: tuple[str, ...]
    unchanged: int


@dataclass(frozen=True, slots=True)
class _File:
    stamp: Stamp
    inode: int


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
    current = _scan(workshop.out)
    addresses = {check_address(page.address) for page in pages}
    if len(addresses) != len(pages):
        raise ValueError(f"two pages share an address: {_twice(pages)}")
    fresh = {p.address for p in pages if _is_fresh(p, known, current)}
    stale = [page for page in pages if page.address not in fresh]
    removed = [a for a in current if a in known and a not in addresses]
    if not stale and not removed:
        return Written(made=(), removed=(), unchanged=len(fresh))
    foreign = {address for address in current if address not in known and address not in addresses}
    _bring_up_to_date(workshop, fresh | foreign, addresses, current)
    stamps = _make(workshop.next, stale, jobs, progress)
    entries = {p.address: Entry(p.key, stamps.get(p.address) or current[p.address].stamp) for p in pages}
    # Written before the swap: whatever moment a crash picks, one of the two manifests is right.
    Manifest(entries).save(_pending(workshop))
    swap(workshop.next, workshop.out)
    os.replace(_pending(workshop), workshop.manifest)
    return Written(made=tuple(sorted(stamps)), removed=tuple(sorted(removed)), unchanged=len(fresh))


def _pending(workshop: Workshop) -> Path:
    return workshop.manifest.with_suffix(".next")


def _known_entries(workshop: Workshop) -> dict[str, tuple[Entry, ...]]:
    """What is known of each address; two entries where a crash left it open which one holds."""
    known: dict[str, tuple[Entry, ...]] = {}
    for path in (workshop.manifest, _pending(workshop)):
        for address, entry in Manifest.load(path).entries.items():
            known[address] = (*known.get(address, ()), entry)
    return known


def _is_fresh(page: Page, known: dict[str, tuple[Entry, ...]], current: dict[str, _File]) -> bool:
    file = current.get(page.address)
    if file is None:
        return False
    return any(entry.key == page.key and entry.stamp == file.stamp for entry in known.get(page.address, ()))


def _twice(pages: Iterable[Page]) -> str:
    seen: set[str] = set()
    return next(p.address for p in pages if p.address in seen or seen.add(p.address))  # type: ignore[func-returns-value]


def _scan(root: Path) -> dict[str, _File]:
    """Every file below a folder; empty where there is none."""
    found: dict[str, _File] = {}
    folders = [(str(root), "")]
    while folders:
        folder, prefix = folders.pop()
        try:
            entries = os.scandir(folder)
        except FileNotFoundError:
            continue
        with entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    folders.append((entry.path, f"{prefix}{entry.name}/"))
                else:
                    status = entry.stat(follow_symlinks=False)
                    found[prefix + entry.name] = _File((status.st_size, status.st_mtime_ns), status.st_ino)
    return found


def _bring_up_to_date(
    workshop: Workshop, kept: set[str], planned: set[str], current: dict[str, _File]
) -> None:
    """Make the next tree hold exactly the kept files of the current site, by links to them."""
    root = workshop.next
    root.mkdir(exist_ok=True)
    spare = _scan(root)
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


def _drop_empty_folders(root: Path, address: str) -> None:
    folder = (root / address).parent
    while folder != root:
        try:
            folder.rmdir()
        except OSError:  # not empty
            return
        folder = folder.parent


def _make_folder(root: Path, address: str, made: set[str]) -> None:
    folder = address.rpartition("/")[0]
    if folder not in made:
        os.makedirs(root / folder, exist_ok=True)
        made.add(folder)


def _make(root: Path, pages: list[Page], jobs: int, progress: Progress | None) -> dict[str, Stamp]:
    """Make pages into the next tree; their stamps by address."""
    folders: set[str] = set()
    for page in pages:
        _make_folder(root, page.address, folders)

    def make(page: Page) -> tuple[str, Stamp]:
        return page.address, _make_one(root, page)

    stamps: dict[str, Stamp] = {}
    for address, stamp in map_in_chunks(make, pages, jobs):
        stamps[address] = stamp
        if progress is not None:
            progress(len(stamps), len(pages))
    return stamps


def _make_one(root: Path, page: Page) -> Stamp:
    path = f"{root}/{page.address}"
    if isinstance(page.make, Path):
        shutil.copyfile(page.make, path)
    else:
        data = page.make()
        with open(path, "xb") as stream:
            stream.write(data)
    status = os.stat(path)
    return status.st_size, status.st_mtime_ns
