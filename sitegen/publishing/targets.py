"""From a target of series.yaml to a store; the library of its kind is loaded when it is opened."""

from collections.abc import Mapping
from pathlib import Path

from sitegen.destinations import BucketTarget, FolderTarget, SftpTarget, Target
from sitegen.publishing.bucket import BucketStore
from sitegen.publishing.folder import FolderStore, SwappedFolderStore
from sitegen.publishing.git_branch import BranchStore
from sitegen.publishing.sftp import SftpStore
from sitegen.publishing.store import Store, home_path
from sitegen.publishing.target_errors import TargetError

EXAMPLE = "publish: {home: {to: folder, path: published}}"


def choose(targets: Mapping[str, Target], name: str | None) -> str:
    """The name of the target that is meant. Raises TargetError where that is not clear."""
    names = ", ".join(targets)
    if not targets:
        raise TargetError("series.yaml names no place to publish to", f"add one, such as {EXAMPLE}")
    if name is None and len(targets) > 1:
        raise TargetError(f"there are several targets: {names}", "say which: sitegen publish NAME")
    if name is not None and name not in targets:
        raise TargetError(f"there is no target {name!r} in series.yaml", f"known targets: {names}")
    return name if name is not None else next(iter(targets))


def store_for(target: Target, *, base: Path, caches: Path, taken: tuple[Path, ...]) -> Store:
    """A store, not yet open.

    ``base`` is the folder from which relative paths count, ``taken`` are folders that a folder
    to publish to must not touch. Raises TargetError.
    """
    if isinstance(target, FolderTarget):
        return _folder_store(target, base, taken)
    if isinstance(target, SftpTarget):
        return SftpStore(target)
    if isinstance(target, BucketTarget):
        return BucketStore(target)
    return BranchStore(target, caches, base)


def _folder_store(target: FolderTarget, base: Path, taken: tuple[Path, ...]) -> Store:
    root = (base / home_path(target.path)).absolute()
    for other in taken:
        one, two = root.resolve(), other.resolve()
        if one == two or one in two.parents or two in one.parents:
            message = f"{root} cannot be published to: {other} is in use there"
            raise TargetError(message, "choose another path:")
    return SwappedFolderStore(root) if target.at_once else FolderStore(root)
