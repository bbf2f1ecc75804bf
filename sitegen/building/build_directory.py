"""The build directory beside the site, where the next site is put together, and its lock.

For a site in ``build`` it is ``.build.sitegen``: on the same disk, so that files can be linked
and the finished site swapped in by one system call.
"""

import os
import sys
from pathlib import Path
from types import TracebackType

if sys.platform != "win32":
    import fcntl
else:
    import msvcrt


_LOCKED_BYTE = 1 << 20
"""The byte that is locked on Windows, where nobody can read a locked one: the holder stands at the start."""


class OutputBusy(Exception):
    """Another build is writing to the same site."""


class BuildDirectory:
    """Entered by one build at a time; the lock goes with the process, however it ends."""

    def __init__(self, out: Path) -> None:
        self.out = Path(os.path.realpath(out))
        self.folder = self.out.parent / f".{self.out.name}.sitegen"
        self.staging = self.folder / "next"
        """Becomes the site. Between builds it holds the files of the previous site."""
        self.manifest = self.folder / "manifest"
        self.next_manifest = self.folder / "manifest.next"
        """The manifest of the site that is about to be swapped in."""
        self.foreign = self.folder / "foreign"
        """What has to move from the previous site into the site: files and folders that no build wrote."""
        self.kept = self.folder / "kept"
        """Foreign files for which, after a crash, there was no place in the site any more."""
        self._lock: int | None = None

    def __enter__(self) -> "BuildDirectory":
        self.folder.mkdir(parents=True, exist_ok=True)
        self._lock = os.open(self.folder / "lock", os.O_RDWR | os.O_CREAT, 0o600)
        try:
            self._take_lock(self._lock)
        except OSError:
            # Longer than any process's number, which is all that is written there.
            holder = os.read(self._lock, 40).decode(errors="replace").strip()
            os.close(self._lock)
            raise OutputBusy(
                f"another build (process {holder or 'unknown'}) is writing to {self.out}"
            ) from None
        os.ftruncate(self._lock, 0)
        os.write(self._lock, str(os.getpid()).encode())
        return self

    @staticmethod
    def _take_lock(descriptor: int) -> None:
        if sys.platform != "win32":
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        else:
            os.lseek(descriptor, _LOCKED_BYTE, os.SEEK_SET)
            try:
                msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
            finally:
                os.lseek(descriptor, 0, os.SEEK_SET)

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None
