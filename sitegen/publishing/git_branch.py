"""A branch of a git repository as a target: one publication is one commit, so it is out at once.

The program ``git`` does the work, in a bare repository among this user's caches, with this user's
own configuration and credentials. What is on the branch is known by the names git gives to
contents, so next to nothing is fetched and only what is new is sent.
"""

import hashlib
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

from sitegen.destinations import BranchTarget
from sitegen.pages.page import check_address
from sitegen.publishing.headers import Headers
from sitegen.publishing.redaction import redact
from sitegen.publishing.site_files import pieces
from sitegen.publishing.store import Body, Store, StoredFile, home_path
from sitegen.publishing.target_errors import (
    AGAIN,
    AccessRefused,
    CutOff,
    Full,
    Missing,
    NotFound,
    TargetBusy,
    TargetError,
    full,
)

_OPTIONS: Sequence[str] = ("-c", "pack.useSparse=false", "-c", "core.autocrlf=false")
_NOBODY: Sequence[str] = ("-c", "user.name=sitegen", "-c", "user.email=sitegen@localhost")
"""Who commits where git does not know: on a machine that only builds, say."""
_ELSEWHERE = ("GIT_DIR", "GIT_INDEX", "GIT_WORK", "GIT_OBJECT")
_SHALLOW: Sequence[str] = ("--quiet", "--no-tags", "--depth=1", "target")
_SEEN = "refs/remotes/target/seen"
"""Where what was fetched is remembered, so that the next fetch brings only what is new."""
_FILE = "100644"
_OFFLINE = ("Could not resolve", "Connection", "unable to access", "timed out", "early EOF", "hung up")
_REFUSED = ("Permission denied", "Authentication failed", "could not read Username", "error: 403", "denied")


class BranchStore(Store):
    """The files of a branch: changes are collected, then committed and pushed in one step."""

    has_lease = False

    def __init__(self, target: BranchTarget, caches: Path, base: Path) -> None:
        self.target = target
        self.where = redact(f"the branch {target.branch} of {target.repository}")
        name = hashlib.blake2b(f"{target.repository}\0{target.branch}".encode(), digest_size=8).hexdigest()
        self._git = caches / f"git-{name}"
        self._base = base
        self._top = f"{target.folder}/" if target.folder else ""
        self._branch = f"refs/heads/{target.branch}"
        self._head: str | None = None
        self._tree: dict[str, tuple[str, str]] = {}
        """Mode and name of the content of every file of the branch, by path."""
        self._new: dict[str, Path] = {}
        """Files with contents that the repository may not have yet, by the name of the content."""
        self._staging: Path | None = None

    def open(self) -> None:
        if shutil.which("git") is None:
            advice = "install it with your system's package manager"
            raise TargetError("the program git is not installed", advice)
        self._staging = Path(tempfile.mkdtemp(prefix="sitegen-git-"))
        try:
            self._fetch()
        except (AccessRefused, CutOff, Full, NotFound):
            raise
        except TargetError:  # what is remembered here may be damaged, and is only remembered
            shutil.rmtree(self._git, ignore_errors=True)
            self._fetch()

    def _fetch(self) -> None:
        """Read the branch as it is now."""
        if not (self._git / "HEAD").exists():
            self._git.mkdir(parents=True, exist_ok=True)
            self._run("init", "--bare", "--quiet", "--initial-branch=none", ".")
        self._run("config", "remote.target.url", self._address())
        # Contents are fetched one by one when asked for, where the other side can do that.
        self._run("config", "remote.target.promisor", "true")
        self._run("config", "remote.target.partialclonefilter", "blob:none")
        if self._remote_head() is not None:
            self._run("fetch", *_SHALLOW, f"+{self._branch}:{_SEEN}")
            self._head = self._run("rev-parse", _SEEN).decode().strip()
            self._tree = self._read_tree(self._head)

    def close(self) -> None:
        if self._staging is not None:
            shutil.rmtree(self._staging, ignore_errors=True)

    def list(self, below: str = "") -> dict[str, StoredFile]:
        start = self._top + below
        return {
            path.removeprefix(self._top): StoredFile(0, content)
            for path, (_, content) in self._tree.items()
            if path.startswith(start)
        }

    def look(self, address: str) -> StoredFile | None:
        entry = self._tree.get(self._path(address))
        return StoredFile(0, entry[1]) if entry else None

    def chunks(self, address: str) -> Iterator[bytes]:
        entry = self._tree.get(self._path(address))
        if entry is None:
            raise Missing
        content = entry[1]
        if content in self._new:
            yield from pieces(self._new[content])
        else:
            yield self._run("cat-file", "blob", content)

    def write(self, address: str, body: Body, headers: Headers) -> None:
        if isinstance(body, bytes):
            content = _name_of(len(body), [body])
            path = self._staged / content
            path.write_bytes(body)
        else:
            content = _name_of(body.stat().st_size, pieces(body))
            path = body
        self._new[content] = path
        self._tree[self._path(address)] = (_FILE, content)

    def create(self, address: str, data: bytes) -> bool:
        raise TargetError(f"{self.where} needs no lease")

    def copy(self, source: str, address: str) -> None:
        entry = self._tree.get(self._path(source))
        if entry is None:
            raise Missing
        self._tree[self._path(address)] = entry

    def remove(self, address: str) -> None:
        self._tree.pop(self._path(address), None)

    def finish(self, message: str) -> None:
        """Commit and push. Raises TargetBusy where the branch has moved on since it was read."""
        commit = self._commit(message)
        if commit == self._head:
            return
        done = self._call("push", "--quiet", "--porcelain", "target", f"{commit}:{self._branch}")
        if done.returncode:
            raise self._push_failed(_words(done))
        if self._remote_head() != commit:
            advice = f"nothing was lost; look at the branch, then {AGAIN}"
            raise TargetError(f"{self.where} does not show what was pushed", advice)
        self._head = commit

    def _commit(self, message: str) -> str:
        self._store_contents()
        index = self._staged / "index"
        lines = [f"{mode} {content}\t{path}" for path, (mode, content) in sorted(self._tree.items())]
        self._run("update-index", "-z", "--index-info", data="".join(f"{x}\0" for x in lines), index=index)
        tree = self._run("write-tree", "--missing-ok", index=index).decode().strip()
        parents = ["-p", self._head] if self._head else []
        if self._head and tree == self._run("rev-parse", f"{self._head}^{{tree}}").decode().strip():
            return self._head
        author = () if self._call("var", "GIT_COMMITTER_IDENT").returncode == 0 else _NOBODY
        return self._run(*author, "commit-tree", tree, *parents, data=f"{message}\n").decode().strip()

    def _store_contents(self) -> None:
        """Put new contents into the repository; their names must come out as worked out before."""
        needed = {content for _, content in self._tree.values()} & self._new.keys()
        order = sorted(needed)
        paths = "".join(f"{os.path.abspath(self._new[content])}\n" for content in order)
        out = self._run("hash-object", "-w", "--no-filters", "--stdin-paths", data=paths)
        if out.decode().split() != order:
            raise TargetError("a file has changed while it was published", AGAIN)

    def _push_failed(self, words: str) -> TargetError:
        head = self._remote_head()
        if head != self._head:
            return TargetBusy(f"{self._who_moved_it()} to {self.where} meanwhile", AGAIN)
        return self._trouble("push", words)

    def _who_moved_it(self) -> str:
        """``Robin has published at 2026-09-14 18:02``, as far as the branch tells."""
        if self._call("fetch", *_SHALLOW, f"+{self._branch}:{_SEEN}").returncode:
            return "somebody has published"
        told = self._run("log", "-1", "--format=%an has published (%ci)", _SEEN)
        return told.decode(errors="replace").strip()

    def _remote_head(self) -> str | None:
        out = self._run("ls-remote", "target", self._branch).decode()
        return out.split()[0] if out.strip() else None

    def _read_tree(self, commit: str) -> dict[str, tuple[str, str]]:
        tree = {}
        for line in self._run("ls-tree", "-r", "-z", commit).decode(errors="surrogateescape").split("\0"):
            if line:
                facts, _, path = line.partition("\t")
                mode, _, content = facts.split(" ")
                tree[path] = (mode, content)
        return tree

    def _address(self) -> str:
        """The repository's address; a path is taken from the folder that holds the content."""
        repository = self.target.repository
        local = self._base / home_path(repository)
        return f"file://{local.resolve()}" if local.is_dir() else repository

    @property
    def _staged(self) -> Path:
        if self._staging is None:
            raise TargetError(f"{self.where} is not open")
        return self._staging

    def _path(self, address: str) -> str:
        return self._top + check_address(address)

    # --- running git -----------------------------------------------------------------------

    def _run(self, *words: str, data: str = "", index: Path | None = None) -> bytes:
        done = self._call(*words, data=data, index=index)
        if done.returncode:
            raise self._trouble(words[0], _words(done))
        return done.stdout

    def _call(
        self, *words: str, data: str = "", index: Path | None = None
    ) -> "subprocess.CompletedProcess[bytes]":
        # Names like GIT_DIR are set where this runs inside a hook, and mean another repository.
        environment = {name: value for name, value in os.environ.items() if not name.startswith(_ELSEWHERE)}
        environment |= {"LC_ALL": "C", "GIT_TERMINAL_PROMPT": "1" if os.isatty(0) else "0"}
        if index is not None:
            environment["GIT_INDEX_FILE"] = str(index)
        return subprocess.run(
            ["git", *_OPTIONS, *words],
            cwd=self._git,
            env=environment,
            input=data.encode(errors="surrogateescape"),
            capture_output=True,
            check=False,
        )

    def _trouble(self, verb: str, words: str) -> TargetError:
        if any(sign in words for sign in _REFUSED):
            advice = "check your rights there, and your own git configuration (credentials, SSH keys)"
            return AccessRefused(f"{self.where} does not let us in ({words})", advice)
        if any(sign in words for sign in _OFFLINE):
            return CutOff(f"the connection to {self.where} broke ({words})", AGAIN)
        if "No space left" in words or "disk full" in words:
            return full(self.where, words)
        if verb == "ls-remote":
            return NotFound(f"there is no repository for {self.where} ({words})", "correct repository:")
        return TargetError(f"git {verb} failed for {self.where} ({words})", f"put that right, then {AGAIN}")


def _name_of(size: int, chunks: Iterator[bytes] | list[bytes]) -> str:
    """The name that git gives to a content (SHA-1 of a short head and the bytes)."""
    digest = hashlib.sha1(b"blob %d\0" % size, usedforsecurity=False)
    for chunk in chunks:
        digest.update(chunk)
    return digest.hexdigest()


def _words(done: "subprocess.CompletedProcess[bytes]") -> str:
    """What git said, in one line without secrets."""
    text = (done.stderr + b"\n" + done.stdout).decode(errors="replace")
    lines = [line.removeprefix("remote:").strip() for line in text.splitlines()]
    telling = [line for line in lines if line and not line.startswith(("To ", "Done", "hint:"))]
    # The first lines say what is wrong; a message needs no more (our choice).
    return redact("; ".join(telling[:4]))[:400] or f"status {done.returncode}"
