"""Real targets on this computer, and a look at what visitors of each see."""

import gzip
import json
import os
import re
import subprocess
import urllib.error
import urllib.request
from abc import ABC, abstractmethod
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import brotli

from sitegen.destinations import BranchTarget, BucketTarget, FolderTarget, SftpTarget, Target
from sitegen.publishing.publication_record import OWN
from sitegen.publishing.store import Store
from sitegen.publishing.targets import store_for

if TYPE_CHECKING:
    from tests.publishing.sftp_server import SftpServer

USER = "robin"
"""Whom the SFTP server lets in."""

Files = dict[str, bytes]


class Place(ABC):
    """A target; its stores are made again for every run, as by different people."""

    target: Target

    def __init__(self, base: Path) -> None:
        self.base = base

    def store(self) -> Store:
        """A new store for the target, not yet open."""
        return store_for(self.target, base=self.base, caches=self.base / "caches", taken=())

    def visible(self) -> Files:
        """What visitors can get: everything but what publishing remembers."""
        return {a: data for a, data in self.everything().items() if not a.startswith(OWN)}

    def remembered(self) -> Files:
        """What publishing remembers there."""
        return {a: data for a, data in self.everything().items() if a.startswith(OWN)}

    @abstractmethod
    def everything(self) -> Files:
        """All files."""

    @abstractmethod
    def put(self, address: str, data: bytes) -> None:
        """Put a file there by hand, past publishing."""

    @abstractmethod
    def delete(self, address: str) -> None:
        """Remove a file by hand."""


class FolderPlace(Place):
    """A folder."""

    def __init__(self, base: Path, *, at_once: bool = False) -> None:
        super().__init__(base)
        self.root = base / "web"
        self.target = FolderTarget(path="web", at_once=at_once)

    def everything(self) -> Files:
        return files_below(self.root)

    def put(self, address: str, data: bytes) -> None:
        (self.root / address).parent.mkdir(parents=True, exist_ok=True)
        # A new file in the place of the old, as editors write: links to the old one are not touched.
        (self.root / "by-hand.part").write_bytes(data)
        os.replace(self.root / "by-hand.part", self.root / address)

    def delete(self, address: str) -> None:
        (self.root / address).unlink()


class SftpPlace(FolderPlace):
    """A folder behind an SFTP server."""

    def __init__(self, base: Path, server: "SftpServer", port: int | None = None) -> None:
        super().__init__(base)
        self.server = server
        server.root = base
        self.target = SftpTarget(host="127.0.0.1", port=port or server.port, user=USER, path="/web")


class BucketPlace(Place):
    """A bucket of an S3 server, read over plain HTTP as by visitors."""

    def __init__(self, base: Path, endpoint: str, name: str, **settings: Any) -> None:
        super().__init__(base)
        self.address = f"{endpoint}/{name}"
        self.target = BucketTarget(bucket=name, prefix="galley", endpoint=endpoint, **settings)
        self._put("", b"")
        policy = {
            "Effect": "Allow",
            "Principal": "*",
            "Action": ["s3:GetObject", "s3:PutObject", "s3:DeleteObject"],
            "Resource": f"arn:aws:s3:::{name}/*",
        }
        self._put("?policy", json.dumps({"Version": "2012-10-17", "Statement": [policy]}).encode())

    def request(self, address: str, **headers: str) -> Any:
        """The answer of the server, as a browser gets it."""
        wanted = urllib.request.Request(f"{self.address}/galley/{address}", headers=headers)
        return urllib.request.urlopen(wanted)

    def everything(self) -> Files:
        return {address: self.get(address) for address in self._addresses()}

    def _addresses(self) -> list[str]:
        listing = urllib.request.urlopen(f"{self.address}?list-type=2&max-keys=1000").read().decode()
        return re.findall(r"<Key>galley/([^<]*)</Key>", listing)

    def get(self, address: str) -> bytes:
        """A file with its content coding undone."""
        answer = self.request(address)
        undo = {"gzip": gzip.decompress, "br": brotli.decompress}.get(
            answer.headers["Content-Encoding"], bytes
        )
        return bytes(undo(answer.read()))

    def put(self, address: str, data: bytes) -> None:
        self._put(f"/galley/{address}", data)

    def _put(self, address: str, data: bytes, headers: Mapping[str, str] | None = None) -> None:
        told = headers or {"Content-Type": "application/octet-stream"}
        wanted = urllib.request.Request(self.address + address, data=data, headers=dict(told), method="PUT")
        urllib.request.urlopen(wanted)

    def snapshot(self) -> dict[str, tuple[bytes, dict[str, str]]]:
        """Every object as it is stored, with its headers."""
        wanted = ("Content-Type", "Cache-Control", "Content-Encoding")
        answers = {address: self.request(address) for address in self._addresses()}
        return {
            address: (answer.read(), {name: answer.headers[name] for name in wanted if answer.headers[name]})
            for address, answer in answers.items()
        }

    def bring_to(self, snapshot: dict[str, tuple[bytes, dict[str, str]]]) -> None:
        """Make the bucket hold exactly what it held then."""
        for address in set(self._addresses()) - set(snapshot):
            self.delete(address)
        for address, (data, headers) in snapshot.items():
            self._put(f"/galley/{address}", data, headers)

    def delete(self, address: str) -> None:
        urllib.request.urlopen(urllib.request.Request(f"{self.address}/galley/{address}", method="DELETE"))


class BranchPlace(Place):
    """A branch of a bare repository."""

    def __init__(self, base: Path) -> None:
        super().__init__(base)
        self.repository = base / "site.git"
        git("init", "--quiet", "--bare", str(self.repository))
        self.target = BranchTarget(repository="site.git", branch="pages", folder="docs")

    def everything(self) -> Files:
        if not git("-C", str(self.repository), "branch", "--list", "pages"):
            return {}
        names = (
            git("-C", str(self.repository), "ls-tree", "-r", "-z", "--name-only", "pages")
            .decode()
            .split("\0")
        )
        return {
            name.removeprefix("docs/"): git("-C", str(self.repository), "cat-file", "blob", f"pages:{name}")
            for name in names
            if name.startswith("docs/")
        }

    def put(self, address: str, data: bytes) -> None:
        clone = self._clone()
        (clone / "docs" / address).parent.mkdir(parents=True, exist_ok=True)
        (clone / "docs" / address).write_bytes(data)
        self._push(clone)

    def delete(self, address: str) -> None:
        clone = self._clone()
        (clone / "docs" / address).unlink()
        self._push(clone)

    def _clone(self) -> Path:
        clone = self.base / f"clone-{len(list(self.base.glob('clone-*')))}"
        git("clone", "--quiet", "--branch", "pages", f"file://{self.repository}", str(clone))
        return clone

    def _push(self, clone: Path) -> None:
        git("-C", str(clone), "add", "--all")
        git(
            "-C",
            str(clone),
            "-c",
            "user.name=Maria",
            "-c",
            "user.email=m@x.example",
            "commit",
            "-qm",
            "By hand",
        )
        git("-C", str(clone), "push", "--quiet", "origin", "pages")


def git(*words: str) -> bytes:
    """Run git; gives what it printed."""
    return subprocess.run(["git", *words], check=True, capture_output=True).stdout


def files_below(root: Path) -> Files:
    """Every file of a folder by address."""
    return {str(p.relative_to(root)): p.read_bytes() for p in sorted(root.rglob("*")) if p.is_file()}


def is_there(place: BucketPlace, address: str) -> bool:
    """Whether visitors get something at an address."""
    try:
        place.request(address)
    except urllib.error.HTTPError:
        return False
    return True
