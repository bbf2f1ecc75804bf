"""An SFTP server on loopback for one folder, made with paramiko: another implementation than the client's.

Loaded by the tests that use it: its libraries take half a second.
"""

import os
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import paramiko

from tests.publishing.places import USER


class SftpServer:
    """Serves ``root``; ``room`` bytes may still be written, ``read_only`` refuses every change."""

    def __init__(self, root: Path) -> None:
        import asyncssh  # here, since it takes long to load

        self.root = root
        self.room: int | None = None
        self.read_only = False
        self.password: str | None = None
        self.renames_over = True
        self.host_key = paramiko.ECDSAKey.generate()
        self.client_key = asyncssh.generate_private_key("ssh-ed25519")
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listener.getsockname()[1]
        self._transports: list[paramiko.Transport] = []

    def start(self) -> None:
        threading.Thread(target=self._accept, daemon=True).start()

    def stop(self) -> None:
        self._listener.shutdown(socket.SHUT_RDWR)  # wakes the thread that waits there
        self._listener.close()
        for transport in self._transports:
            transport.close()

    def configure(self, home: Path, port: int | None = None) -> None:
        """Write key and known hosts into a home folder, as a user would have them."""
        folder = home / ".ssh"
        folder.mkdir(parents=True, exist_ok=True)
        key = folder / "id_ed25519"
        key.write_bytes(self.client_key.export_private_key())
        key.chmod(0o600)
        known = f"[127.0.0.1]:{port or self.port} {self.host_key.get_name()} {self.host_key.get_base64()}\n"
        (folder / "known_hosts").write_text(known)

    def _accept(self) -> None:
        while True:
            try:
                connection, _ = self._listener.accept()
            except OSError:
                return
            connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            transport = paramiko.Transport(connection)
            transport.add_server_key(self.host_key)
            transport.set_subsystem_handler("sftp", _Subsystem, _Files, self)
            self._transports.append(transport)
            try:
                transport.start_server(server=_Login(self))
            except (EOFError, OSError, paramiko.SSHException):
                transport.close()


class _Subsystem(paramiko.SFTPServer):
    """paramiko can rename over a file, but does not tell clients so."""

    def _send_server_version(self) -> int:
        _, data = self._read_packet()
        answer = paramiko.Message()
        answer.add_int(3)
        if self.server.own.renames_over:
            answer.add_string("posix-rename@openssh.com")
            answer.add_string("1")
        self._send_packet(2, answer)  # SSH_FXP_VERSION
        return int.from_bytes(data[:4], "big")


class _Login(paramiko.ServerInterface):
    def __init__(self, server: SftpServer) -> None:
        self._server = server

    def get_allowed_auths(self, username: str) -> str:
        return "publickey,password"

    def check_auth_publickey(self, username: str, key: paramiko.PKey) -> int:
        ours = self._server.client_key.export_public_key().decode().split()[1]
        good = self._server.password is None and username == USER and key.get_base64() == ours
        return paramiko.AUTH_SUCCESSFUL if good else paramiko.AUTH_FAILED

    def check_auth_password(self, username: str, password: str) -> int:
        good = username == USER and password == self._server.password
        return paramiko.AUTH_SUCCESSFUL if good else paramiko.AUTH_FAILED

    def check_channel_request(self, kind: str, chanid: int) -> int:
        return paramiko.OPEN_SUCCEEDED


class _OpenFile(paramiko.SFTPHandle):
    def __init__(self, server: SftpServer, descriptor: int, flags: int) -> None:
        super().__init__(flags)
        self._server, self._descriptor = server, descriptor

    def close(self) -> None:
        os.close(self._descriptor)

    def read(self, offset: int, length: int) -> bytes | int:
        return os.pread(self._descriptor, length, offset)

    def write(self, offset: int, data: bytes) -> int:
        if self._server.room is not None:
            self._server.room -= len(data)
            if self._server.room < 0:
                return paramiko.SFTP_FAILURE
        os.pwrite(self._descriptor, data, offset)
        return paramiko.SFTP_OK

    def stat(self) -> paramiko.SFTPAttributes:
        return paramiko.SFTPAttributes.from_stat(os.fstat(self._descriptor))


class _Files(paramiko.SFTPServerInterface):
    def __init__(self, server: Any, own: SftpServer) -> None:
        super().__init__(server)
        self.own = own

    def _path(self, path: str) -> str:
        return f"{self.own.root}{self.canonicalize(path)}"

    @contextmanager
    def _changing(self) -> Iterator[None]:
        if self.own.read_only:
            raise PermissionError(13, "Permission denied")
        yield

    def list_folder(self, path: str) -> Any:
        try:
            with os.scandir(self._path(path)) as entries:
                return [paramiko.SFTPAttributes.from_stat(e.stat(), e.name) for e in entries]
        except OSError as error:
            return paramiko.SFTPServer.convert_errno(error.errno or 0)

    def stat(self, path: str) -> Any:
        return self._answer(lambda: paramiko.SFTPAttributes.from_stat(os.stat(self._path(path))))

    lstat = stat

    def open(self, path: str, flags: int, attr: Any) -> Any:
        def opened() -> _OpenFile:
            if flags & (os.O_WRONLY | os.O_RDWR):
                with self._changing():
                    return _OpenFile(self.own, os.open(self._path(path), flags, 0o644), flags)
            return _OpenFile(self.own, os.open(self._path(path), flags), flags)

        return self._answer(opened)

    def remove(self, path: str) -> Any:
        return self._change(lambda: os.remove(self._path(path)))

    def posix_rename(self, oldpath: str, newpath: str) -> Any:
        return self._change(lambda: os.replace(self._path(oldpath), self._path(newpath)))

    def rename(self, oldpath: str, newpath: str) -> Any:
        if os.path.exists(self._path(newpath)):
            return paramiko.SFTP_FAILURE
        return self.posix_rename(oldpath, newpath)

    def mkdir(self, path: str, attr: Any) -> Any:
        return self._change(lambda: os.mkdir(self._path(path)))

    def rmdir(self, path: str) -> Any:
        return self._change(lambda: os.rmdir(self._path(path)))

    def chattr(self, path: str, attr: Any) -> int:
        return paramiko.SFTP_OK

    def _change(self, do: Any) -> Any:
        def done() -> int:
            with self._changing():
                do()
            return int(paramiko.SFTP_OK)

        return self._answer(done)

    @staticmethod
    def _answer(do: Any) -> Any:
        try:
            return do()
        except OSError as error:
            return paramiko.SFTPServer.convert_errno(error.errno or 0)
