"""The staging folder, where the next site is put together: what stays as it is is linked from the site."""

import os
import shutil
from collections.abc import Collection, Mapping
from pathlib import Path

from sitegen.building.build_directory import BuildDirectory
from sitegen.building.output_folder import OutputFolder
from sitegen.building.site_state import look_into
from sitegen.system.file_states import FileState, scan_inodes
from sitegen.system.os_errors import naming


def bring_up_to_date(
    directory: BuildDirectory, site: OutputFolder, fresh: Collection[str], planned: Collection[str]
) -> tuple[dict[str, FileState], dict[str, str]]:
    """Make the staging folder hold exactly the fresh files of the site and the folders looked at as a whole.

    Gives the states of these files and the fingerprints of these folders.
    """
    root = directory.staging
    previous = scan_inodes(root, site.folders)
    root.mkdir(exist_ok=True)
    wanted = {address: site.files[address].inode for address in fresh}
    _unlink_others(root, previous, wanted, planned)
    made: set[str] = set()
    states: dict[str, FileState] = {}
    for address in fresh:
        states[address] = site.files[address]
        if previous.get(address) != states[address].inode:
            make_folder(root, address, made)
            states[address] = link_to(directory.out / address, root / address, states[address])
    return states, {path: _whole(directory, site, path) for path in site.folders}


def _whole(directory: BuildDirectory, site: OutputFolder, path: str) -> str:
    """Make a folder of the staging folder hold what the site's does; its fingerprint."""
    root, wanted = directory.staging / path, site.folders[path].inodes
    previous = scan_inodes(root)
    if previous == wanted:
        return site.folders[path].fingerprint
    root.mkdir(parents=True, exist_ok=True)
    _unlink_others(root, previous, wanted, wanted)
    made: set[str] = set()
    for file in wanted:
        if previous.get(file) != wanted[file]:
            make_folder(root, file, made)
            place = directory.out / path / file
            link_to(place, root / file, FileState.of(os.lstat(place)))
    return look_into(root).fingerprint  # another, where links are refused


def _unlink_others(
    root: Path, previous: Mapping[str, int], wanted: Mapping[str, int], planned: Collection[str]
) -> None:
    """Remove files that are others than those wanted, by their inodes."""
    for address, inode in previous.items():
        if wanted.get(address) != inode:
            os.unlink(root / address)
            if address not in planned:
                _drop_empty_folders(root, address)


def link_to(source: Path, place: Path, state: FileState) -> FileState:
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


def make_folder(root: Path, address: str, made: set[str]) -> None:
    """The folder of a file, and those above it below ``root``; once each."""
    folder = address.rpartition("/")[0]
    if not folder or folder in made:
        return
    make_folder(root, folder, made)
    made.add(folder)
    try:
        os.mkdir(f"{root}/{folder}")
    except FileExistsError:
        pass
