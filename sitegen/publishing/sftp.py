"""A folder of another computer as a target, over SFTP, through sshfs (asyncssh below it).

Who we are and whom we trust comes from the SSH configuration, the agent, the key files and the
known hosts of this user; a host that is not known is refused.
"""

import os
import secrets
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sitegen.destinations import SftpTarget
from sitegen.pages.page import check_address
from sitegen.publishing.folder import folders_above
from sitegen.publishing.headers import Headers
from sitegen.publishing.publication_record import INCOMING
from sitegen.publishing.store import CHUNK, Body, Store, StoredFile
from sitegen.publishing.target_errors import (
    AGAIN,
    AccessRefused,
    CutOff,
    Missing,
    MissingExtra,
    TargetError,
    explain,
    full,
)

PASSWORD = "SITEGEN_SFTP_PASSWORD"
"""Variable of the environment for hosts that know passwords only."""


class SftpStore(Store):
    """Files are written beside their place and renamed into it (posix-rename), so each is old or new."""

    concurrency = 8  # enough to hide the delay of the line (our choice)
    lists_cheaply = False

    def __init__(self, target: SftpTarget) -> None:
        self.target = target
        user = f"{target.user}@" if target.user else ""
        self.where = f"{user}{target.host}:{target.path}"
        self._root = target.path.removeprefix("~/").rstrip("/") or "/"
        self._files: Any = None
        self._channel: Any = None
        """Beside those of the library: for what it does not do, or not in one step."""
        self._known_folders: set[str] = set()
        self._lock = threading.Lock()

    def open(self) -> None:
        try:
            from sshfs import SSHFileSystem
        except ImportError:
            raise MissingExtra("sshfs", "publish-sftp") from None
        wishes = {
            "username": self.target.user,
            "port": self.target.port,
            "password": os.environ.get(PASSWORD),
        }
        with self._trouble():
            self._files = SSHFileSystem(
                self.target.host,
                known_hosts=(),  # the library's own choice would be to trust anybody
                # Seconds: a home line answers in a tenth; a connection is asked for a sign of life before
                # routers, which forget silent ones after a minute or so, drop it.
                connect_timeout=20,
                keepalive_interval=15,
                skip_instance_cache=True,
                **{name: wish for name, wish in wishes.items() if wish},
            )
            self._channel = self._wait(self._files.client.start_sftp_client)

    def close(self) -> None:
        if self._files is not None:
            try:
                self._wait(self._hang_up, timeout=5)  # all is sent by now: not worth a longer wait
            except Exception:
                pass
        self._files = self._channel = None

    async def _hang_up(self) -> None:
        self._files.client.close()
        await self._files.client.wait_closed()

    def begin(self) -> None:
        for address in self.list(INCOMING):  # what a run that was cut off had begun to write
            self.remove(address)

    def list(self, below: str = "") -> dict[str, StoredFile]:
        top = f"{self._root}/{below}".rstrip("/")
        with self._trouble():
            try:
                infos = self._files.find(top, detail=True)
            except FileNotFoundError:
                return {}
            start = len(self._root.rstrip("/")) + 1
            return {path[start:]: _found(info) for path, info in infos.items() if info["type"] != "directory"}

    def look(self, address: str) -> StoredFile | None:
        with self._trouble():
            try:
                info = self._files.info(self._path(address))
            except FileNotFoundError:
                return None
            return None if info["type"] == "directory" else _found(info)

    def chunks(self, address: str) -> Iterator[bytes]:
        with self._trouble():
            try:
                left = int(self._files.info(self._path(address))["size"])
                stream = self._files.open(self._path(address), "rb")
            except FileNotFoundError:
                raise Missing from None
            with stream:
                # Asking for no more than there is spares the server dozens of requests.
                while left > 0 and (piece := stream.read(min(CHUNK, left))):
                    left -= len(piece)
                    yield piece

    def write(self, address: str, body: Body, headers: Headers) -> None:
        path = self._path(address)
        part = self._path(f"{INCOMING}{secrets.token_hex(8)}")
        with self._trouble():
            self._make_folder(part.rpartition("/")[0])
            self._make_folder(path.rpartition("/")[0])
            if isinstance(body, Path):
                self._files.put_file(str(body), part)
            else:
                self._files.pipe_file(part, body)
            self._wait(self._rename, part, path)

    async def _rename(self, part: str, path: str) -> None:
        """Put a written file in its place; in one step where the server can, as OpenSSH's does."""
        import asyncssh

        try:
            await self._channel.posix_rename(part, path)
        except asyncssh.SFTPOpUnsupported:
            try:
                await self._channel.remove(path)
            except asyncssh.SFTPNoSuchFile:
                pass
            await self._channel.rename(part, path)

    def create(self, address: str, data: bytes) -> bool:
        path = self._path(address)
        with self._trouble():
            self._make_folder(path.rpartition("/")[0])
            try:
                with self._files.open(path, "xb") as stream:
                    stream.write(data)
            except FileExistsError:
                return False
            except Exception:
                # The third version of the protocol has no word for "there is one already".
                if self._files.exists(path):
                    return False
                raise
            return True

    def remove(self, address: str) -> None:
        with self._trouble():
            try:
                self._files.rm_file(self._path(address))
            except FileNotFoundError:
                pass

    def tidy(self, addresses: Iterable[str]) -> None:
        for folder in folders_above(addresses):
            try:
                self._wait(self._channel.rmdir, self._path(folder))
            except Exception:
                continue  # not empty, or somebody else's: an empty folder does no harm
            self._known_folders.discard(self._path(folder))

    def _make_folder(self, path: str) -> None:
        with self._lock:
            if path not in self._known_folders:
                self._files.makedirs(path, exist_ok=True)
                self._known_folders.add(path)

    def _path(self, address: str) -> str:
        return f"{self._root.rstrip('/')}/{check_address(address)}"

    def _wait(self, call: Callable[..., Any], *arguments: Any, timeout: float | None = None) -> Any:
        """The result of one of the library's coroutines."""
        from fsspec.asyn import sync

        return sync(self._files.loop, call, *arguments, timeout=timeout)

    @contextmanager
    def _trouble(self) -> Iterator[None]:
        """Errors of the library and of the server in a trainer's words."""
        import asyncssh

        try:
            yield
        except asyncssh.HostKeyNotVerifiable as error:
            host = self.target.host
            message = f"{host} is not among the hosts that this computer knows"
            advice = f"connect once by hand (ssh {host}), compare its fingerprint, then run this again"
            raise AccessRefused(message, advice) from error
        except (asyncssh.PermissionDenied, asyncssh.SFTPPermissionDenied, PermissionError) as error:
            advice = (
                f"check user: in series.yaml, your SSH keys and the rights of the folder there; "
                f"where only a password will do, set {PASSWORD} in the environment"
            )
            raise AccessRefused(f"{self.where} does not let us in ({error})", advice) from error
        except (asyncssh.SFTPNoSpaceOnFilesystem, asyncssh.SFTPQuotaExceeded) as error:
            raise full(self.where, error.reason) from error
        except (asyncssh.DisconnectError, asyncssh.SFTPConnectionLost, asyncssh.SFTPNoConnection) as error:
            raise self._cut_off(str(error)) from error
        except asyncssh.ChannelOpenError as error:
            raise self._cut_off(error.reason) from error
        except asyncssh.SFTPError as error:
            raise self._failed(error.reason) from error
        except OSError as error:
            raise explain(error, self.where) from error

    def _cut_off(self, reason: str) -> TargetError:
        advice = f"check the network, then {AGAIN} to go on"
        return CutOff(f"the connection to {self.where} broke ({reason or 'no reason given'})", advice)

    def _failed(self, reason: str) -> TargetError:
        if "space" in reason.lower() or "quota" in reason.lower():
            return full(self.where, reason)
        # Version 3 of the protocol, which nearly all servers speak, says no more than this.
        advice = f"is there room left, and may we write there? Then {AGAIN}"
        return TargetError(f"{self.where} could not do it ({reason})", advice)


def _found(info: dict[str, Any]) -> StoredFile:
    changed = info["mtime"]
    return StoredFile(int(info["size"]), f"{info['size']}-{int(changed.timestamp()) if changed else 0}")
