"""A folder of this computer as a target: file by file, or the whole site in one step."""

import json
import os
import shutil
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from sitegen.building.swap import recover, swap
from sitegen.pages.page import check_address
from sitegen.publishing.headers import Headers, headers_for
from sitegen.publishing.publication_record import BY_HAND, INCOMING, LEASE
from sitegen.publishing.site_files import pieces
from sitegen.publishing.store import Body, Store, StoredFile
from sitegen.publishing.target_errors import Missing, TargetError, explain
from sitegen.system.file_states import FileState
from sitegen.system.whole_files import write_whole


class FolderStore(Store):
    """Files are written beside their place and renamed into it, so each is old or new, never half."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.where = f"the folder {root}"
        self._parts = 0

    def open(self) -> None:
        if not self.root.exists() and not self.root.parent.is_dir():
            advice = "is the drive mounted, and the path right? The folder it lies in must exist"
            raise TargetError(f"{self.root.parent} does not exist", advice)
        if self.root.exists() and not self.root.is_dir():
            raise TargetError(f"{self.root} is not a folder", "write the path of a folder")

    def begin(self) -> None:
        for address in self.list(INCOMING):  # what a run that was cut off had begun to write
            self.remove(address)

    def list(self, below: str = "") -> dict[str, StoredFile]:
        found = {}
        with self._trouble():
            top = self._path(below.rstrip("/")) if below else self._tree
            folders = [(str(top), below)] if top.is_dir() else []
            while folders:
                folder, prefix = folders.pop()
                with os.scandir(folder) as entries:
                    for entry in entries:
                        if entry.is_dir(follow_symlinks=False):
                            folders.append((entry.path, f"{prefix}{entry.name}/"))
                        else:
                            found[prefix + entry.name] = _found(entry.stat(follow_symlinks=False))
        return found

    def look(self, address: str) -> StoredFile | None:
        with self._trouble():
            try:
                return _found(self._path(address).lstat())
            except (FileNotFoundError, NotADirectoryError):
                return None

    def chunks(self, address: str) -> Iterator[bytes]:
        with self._trouble():
            try:
                yield from pieces(self._path(address))
            except (FileNotFoundError, NotADirectoryError):
                raise Missing from None

    def write(self, address: str, body: Body, headers: Headers) -> None:
        with self._trouble():
            path = self._path(address)
            path.parent.mkdir(parents=True, exist_ok=True)
            part = self._part()
            try:
                if isinstance(body, Path):
                    shutil.copyfile(body, part)
                else:
                    part.write_bytes(body)
                os.replace(part, path)
            except BaseException:
                part.unlink(missing_ok=True)
                raise

    def copy(self, source: str, address: str) -> None:
        path = self._path(source)
        if not path.is_file():
            raise Missing
        self.write(address, path, headers_for(source))

    def create(self, address: str, data: bytes) -> bool:
        with self._trouble():
            path = self._path(address)
            path.parent.mkdir(parents=True, exist_ok=True)
            try:
                with path.open("xb") as stream:
                    stream.write(data)
            except FileExistsError:
                return False
            return True

    def remove(self, address: str) -> None:
        with self._trouble():
            try:
                self._path(address).unlink(missing_ok=True)
            except NotADirectoryError:
                pass

    def tidy(self, addresses: Iterable[str]) -> None:
        for folder in folders_above(addresses):
            try:
                self._path(folder).rmdir()
            except OSError:  # not empty, or gone already
                pass

    @property
    def _tree(self) -> Path:
        """The folder that is written to."""
        return self.root

    def _path(self, address: str) -> Path:
        """Where an address lies. Raises TargetError where a link would lead out of the target."""
        path = self._tree / check_address(address)
        folder = path.parent
        while folder != self._tree:
            if folder.is_symlink():
                advice = "put the folder itself in its place, or publish to another one"
                raise TargetError(f"{folder} is a link, and nothing is written through links", advice)
            folder = folder.parent
        return path

    def _part(self) -> Path:
        """A new name in the same file system for a file that is being written."""
        folder = self._tree / INCOMING
        folder.mkdir(parents=True, exist_ok=True)
        self._parts += 1
        return folder / f"{os.getpid()}-{self._parts}"

    @contextmanager
    def _trouble(self) -> Iterator[None]:
        try:
            yield
        except OSError as error:
            raise explain(error, self.where) from error


class SwappedFolderStore(FolderStore):
    """The new site is put together beside the old one and takes its place in one system call.

    Files that stay are links to the old ones, so that nothing is copied twice.
    """

    def __init__(self, root: Path) -> None:
        super().__init__(Path(os.path.realpath(root)))
        self._folder_beside = self.root.parent / f".{self.root.name}.publishing"
        self._next = self._folder_beside / "next"
        self._swapping = self._folder_beside / "swapping.json"
        """There from before the swap until all that came is taken over: a crash between loses nothing."""
        self._begun = False
        self._linked: dict[str, FileState] = {}
        """What each file and link was when it was taken over into the next site, by address."""

    def open(self) -> None:
        super().open()
        if os.path.ismount(self.root):
            advice = "leave at_once: out for this target, or name a folder inside it"
            raise TargetError(f"{self.root} is a drive of its own and cannot be put in place at once", advice)
        with self._trouble():
            recover(self._next, self.root)

    def begin(self) -> None:
        with self._trouble():
            self._end_what_was_cut_off()
            shutil.rmtree(self._folder_beside, ignore_errors=True)
            self._next.mkdir(parents=True)
            self._linked.clear()
            if self.root.exists():
                self._link_all()
            self._begun = True

    def _link_all(self) -> None:
        folders: list[tuple[Path, Path]] = []
        for folder, names, files in os.walk(self.root):
            inside = self._next / os.path.relpath(folder, self.root)
            folders.append((Path(folder), inside))
            for name in names:
                source = Path(folder, name)
                if source.is_symlink():
                    os.symlink(os.readlink(source), inside / name)
                    self._note(source)
                else:
                    (inside / name).mkdir()
            for name in files:
                self._link(Path(folder, name), inside / name)
                self._note(Path(folder, name))
        # Rights last, the innermost first: one may forbid what was still to be done.
        for outer, inside in reversed(folders):
            shutil.copystat(outer, inside)

    def _note(self, source: Path) -> None:
        self._linked[source.relative_to(self.root).as_posix()] = FileState.of(source.lstat())

    def _link(self, source: Path, place: Path) -> None:
        try:
            os.link(source, place, follow_symlinks=False)
        except OSError as error:
            advice = "leave at_once: out for this target"
            raise TargetError(f"{source} cannot be linked ({error.strerror})", advice) from error

    def finish(self, message: str) -> None:
        with self._trouble():
            swapping = {"next": self._next.stat().st_ino, "linked": self._linked}
            write_whole(self._swapping, json.dumps(swapping).encode())
            swap(self._next, self.root)
            self._begun = False
            self._keep_what_came()
            shutil.rmtree(self._folder_beside, ignore_errors=True)

    def _end_what_was_cut_off(self) -> None:
        """Take over what came before an earlier run swapped the folders and ended."""
        if self._swapping.exists() and self.root.exists():
            swapping = json.loads(self._swapping.read_bytes())
            if swapping["next"] == self.root.stat().st_ino:  # it came as far as the swap
                self._linked = {name: FileState(*state) for name, state in swapping["linked"].items()}
                self._keep_what_came()

    def _keep_what_came(self) -> None:
        """Take over what somebody put into the published folder while the next one was put together.

        What this publication changed at the same address stays as it published it; the other file is kept
        with those that came by hand.
        """
        for folder, names, files in os.walk(self._next):
            place = self.root / os.path.relpath(folder, self._next)
            if not names and not files and not place.exists():
                place.mkdir(parents=True)
            for name in (*files, *(name for name in names if Path(folder, name).is_symlink())):
                self._keep_if_it_came(Path(folder, name))

    def _keep_if_it_came(self, old: Path) -> None:
        address = old.relative_to(self._next).as_posix()
        before, found = self._linked.get(address), FileState.of(old.lstat())
        if found == before or address == LEASE or address.startswith(INCOMING):
            return
        new = self.root / address
        if os.path.lexists(new):
            now = new.lstat().st_ino
            if now == found.inode:  # written to in place: it is the same file in both
                return
            if before is None or now != before.inode:
                new = self.root / BY_HAND / "meanwhile" / address
        new.parent.mkdir(parents=True, exist_ok=True)
        os.replace(old, new)

    def close(self) -> None:
        if self._begun:
            self._begun = False
            shutil.rmtree(self._folder_beside, ignore_errors=True)

    @property
    def _tree(self) -> Path:
        return self._next if self._begun else self.root

    def _path(self, address: str) -> Path:
        if address == LEASE:  # everybody has to see it, whichever tree is being written
            return self.root / LEASE
        return super()._path(address)


def folders_above(addresses: Iterable[str]) -> list[str]:
    """The folders in which some files lie, innermost first."""
    folders = set()
    for address in addresses:
        parts = address.split("/")[:-1]
        folders |= {"/".join(parts[:length]) for length in range(1, len(parts) + 1)}
    return sorted(folders, key=lambda folder: (-folder.count("/"), folder))


def _found(status: os.stat_result) -> StoredFile:
    return StoredFile(status.st_size, f"{status.st_size}-{status.st_mtime_ns}")
