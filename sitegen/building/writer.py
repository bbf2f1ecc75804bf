"""Write the planned pages: the next site is made complete beside the old one, then swapped in.

The staging folder holds the files of the previous site. It is brought up to date by links to the
current site's unchanged files and by making the rest again, so the work is in proportion to the
change, and a build that is killed has not touched the site.
"""

import os
import shutil
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sitegen.building.build_directory import BuildDirectory
from sitegen.building.manifest import BuiltFile, KnownSite, Manifest, Stamp
from sitegen.building.output_folder import (
    OutputFolder,
    look_through,
    move_foreign,
    note_foreign,
    refuse_immovable,
    refuse_in_the_way,
    refuse_stranger,
)
from sitegen.building.swap import recover, swap
from sitegen.pages.inputs import Inputs
from sitegen.pages.page import CopyOf, Page, check_address
from sitegen.problems import ContentError, Problem
from sitegen.reading.files import digest_of_file
from sitegen.system.file_states import FileState, digest, scan, scan_inodes, state_of
from sitegen.system.os_errors import naming
from sitegen.system.parallel import map_in_chunks
from sitegen.system.reads import recording


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What a build did to the site."""

    made: tuple[str, ...]
    """Addresses whose bytes are new."""
    removed: tuple[str, ...]
    unchanged: int
    site: str
    """Fingerprint (``sitegen.system.file_states.digest``) of all that is there now."""


Files = Mapping[str, FileState]
Progress = Callable[[int, int], None]
"""Called with pages done and pages to do."""


def write_site(
    directory: BuildDirectory,
    known: KnownSite,
    pages: Sequence[Page],
    *,
    jobs: int = 1,
    progress: Progress | None = None,
    take_over: bool = False,
) -> Written:
    """Make the site consist of ``pages`` (and of what is there that no build wrote).

    The caller holds the build directory. Foreign files at addresses of the site, and an output folder
    that no build wrote to, are refused with a ContentError unless the build may ``take_over``. Raises
    OSError (a full disk, say) with the site untouched.
    """
    addresses = {check_address(page.address) for page in pages}
    if len(addresses) != len(pages):
        raise ValueError(f"two pages share an address: {_twice(pages)}")
    ours = known.addresses() | (addresses if known.damaged else set())
    site = look_through(directory.out, ours, addresses)
    replaced = _places_to_take(directory, site, bool(ours), addresses, take_over)
    current = site.files
    fresh = {
        p.address for p in pages if p.address in current and known.is_current(p, _stamp(current[p.address]))
    }
    stale = [page for page in pages if page.address not in fresh]
    removed = [address for address in current if address not in addresses]
    if not stale and not removed:
        return Written(made=(), removed=(), unchanged=len(fresh), site=digest(scan(directory.out)))
    foreign = [path for path in site.foreign if path not in replaced]
    refuse_immovable(directory.out, foreign)
    now = _bring_up_to_date(directory, fresh, addresses, current)
    made = _make(directory, stale, current, jobs, progress)
    now |= {address: one.state for address, one in made.items()}
    entries = {page.address: BuiltFile(page.recipe, _stamp(now[page.address])) for page in pages}
    groups = known.groups_with(addresses, {address: one.read for address, one in made.items()})
    # Written before the swap: whatever moment a crash picks, one of the two manifests is right.
    Manifest(known.site_key, entries, groups).save(directory.next_manifest)
    note_foreign(directory, foreign)
    _exchange(directory)
    for path in replaced:
        os.unlink(directory.staging / path)
    whole = digest(scan(directory.out)) if foreign else digest(now)
    written = sorted(address for address, one in made.items() if one.is_new)
    return Written(
        made=tuple(written),
        removed=tuple(sorted(removed)),
        unchanged=len(pages) - len(written),
        site=whole,
    )


def known_site(directory: BuildDirectory, site_key: str, inputs: Inputs) -> KnownSite:
    """What is known of the site in place; what a crash left undone is done first."""
    recover(directory.staging, directory.out)
    move_foreign(directory)
    manifests = map(Manifest.load, (directory.manifest, directory.next_manifest))
    return KnownSite(manifests, site_key, inputs)


def _places_to_take(
    directory: BuildDirectory, site: OutputFolder, built_before: bool, planned: set[str], take_over: bool
) -> list[str]:
    """Foreign files that pages are to replace. Raises ContentError where that is not wanted."""
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


def _stamp(file: FileState) -> Stamp:
    return file.size, file.time_ns


def _twice(pages: Iterable[Page]) -> str:
    seen: set[str] = set()
    return next(p.address for p in pages if p.address in seen or seen.add(p.address))  # type: ignore[func-returns-value]


def _bring_up_to_date(
    directory: BuildDirectory, fresh: set[str], planned: set[str], current: Files
) -> dict[str, FileState]:
    """Make the staging folder hold exactly the fresh files of the site, by links; gives their states."""
    root = directory.staging
    previous = scan_inodes(root)
    root.mkdir(exist_ok=True)
    for address, inode in previous.items():
        if address not in fresh or current[address].inode != inode:
            os.unlink(root / address)
            if address not in planned:
                _drop_empty_folders(root, address)
    folders: set[str] = set()
    states: dict[str, FileState] = {}
    for address in fresh:
        if previous.get(address) == current[address].inode:
            states[address] = current[address]
        else:
            _make_folder(root, address, folders)
            states[address] = _link(directory.out / address, root / address, current[address])
    return states


def _link(source: Path, place: Path, state: FileState) -> FileState:
    """Put a file of the site into the staging folder too; the state of what is there."""
    try:
        os.link(source, place, follow_symlinks=False)
        return state
    except (OSError, NotImplementedError):
        # No links on this file system or by this system, not to files of somebody else, or too many already.
        with naming(place):
            shutil.copy2(source, place, follow_symlinks=False)
        return FileState.of(os.lstat(place))


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


@dataclass(frozen=True, slots=True)
class _Made:
    """A file in the staging folder."""

    state: FileState
    is_new: bool
    """False where it has the bytes that the site has at that address: it is that very file."""
    read: frozenset[str]
    """Names of what it was made from."""


def _make(
    directory: BuildDirectory, pages: list[Page], current: Files, jobs: int, progress: Progress | None
) -> dict[str, _Made]:
    """Make pages into the staging folder."""
    folders: set[str] = set()
    for page in pages:
        _make_folder(directory.staging, page.address, folders)

    def make(page: Page) -> tuple[str, _Made]:
        with naming(directory.staging / page.address):
            return page.address, _make_one(directory, page, current.get(page.address))

    made: dict[str, _Made] = {}
    for address, one in map_in_chunks(make, pages, jobs):
        made[address] = one
        if progress is not None:
            progress(len(made), len(pages))
    return made


def _make_one(directory: BuildDirectory, page: Page, old: FileState | None) -> _Made:
    path = f"{directory.staging}/{page.address}"
    if isinstance(page.make, CopyOf):
        return _Made(_copy(page.make, path), True, frozenset())
    with recording() as read:
        data = page.make()
    if old is not None and old.size == len(data):
        place = directory.out / page.address
        if not place.is_symlink() and place.read_bytes() == data:
            return _Made(_link(place, Path(path), old), False, frozenset(read))
    return _Made(_write(path, data), True, frozenset(read))


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
        problem = Problem(severity="problem", check="replaced", file=str(source.path), message=message)
        raise ContentError([replace(problem, advice="build again")])
    return FileState.of(os.lstat(path))
