"""What ``publish:`` in series.yaml may say: one record for each kind of target, and never a secret."""

import re
from collections.abc import Callable
from typing import Any

from sitegen.destinations import COMPRESSIONS, BranchTarget, BucketTarget, FolderTarget, SftpTarget
from sitegen.notation import NotationError
from sitegen.reading.schemas.report import BAD, Path, Reading
from sitegen.reading.schemas.scalars import Flag, OneOf, Scalar, Whole
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.schemas.shapes import Key, RecordShape
from sitegen.reading.schemas.texts import WebAddress
from sitegen.reading.source import MappingNode, Node, ScalarNode, child_at
from sitegen.reading.suggestions import nearest

# A "passive" mode is a setting of servers and no secret.
_SECRET = re.compile(r"pass(?!ive)|secret|token|credential|private|(^|_)(key|pwd|pin)(_|$)")
_PASSWORD = re.compile(r"[^/:@\s]+:[^/@\s]+@")  # robin:secret@host
_TOKEN_AS_USER = re.compile(r"^https?://(?![a-z][a-z0-9._-]{0,15}@)[^/@\s]+@")
"""What stands before @ in a web address and is no plain user's name: services take tokens there."""
_QUERY = re.compile(r"^[a-z+]+://[^?#]*[?#].")
"""No repository is found by a query or a fragment; tokens are put there."""
_NO_SECRETS = (
    "content may be shared and copied, so it holds no secrets: remove it, and set the credentials in the "
    "environment or in the system's own configuration (content/README.md says how)"
)


class _PlainName(Scalar):
    """A name or path in one line, which no program can take for one of its options."""

    def __init__(self, says: str, pattern: str, example: str, most: int = 300) -> None:
        self.says, self.example, self.most = says, example, most
        self._pattern = re.compile(pattern)

    def parse(self, text: str) -> str:
        if _PASSWORD.search(text):  # first of all, for the other messages quote the text
            raise NotationError("the address has a password in it", _NO_SECRETS)
        if _TOKEN_AS_USER.match(text) or _QUERY.match(text):
            raise NotationError("the address has something in it that may be a token", _NO_SECRETS)
        fits = len(text) <= self.most and not text.startswith("-") and self._pattern.fullmatch(text)
        if not fits or re.search(r"[\x00-\x1f\x7f]", text):
            raise NotationError(f"{text!r} is not {self.says}", f"write for example {self.example}")
        return text

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "examples": [self.example], "maxLength": self.most}


class _Folder(_PlainName):
    """A folder below a top: no dots, no slashes at the ends."""

    def parse(self, text: str) -> str:
        text = super().parse(text.strip("/"))
        if any(part in ("", ".", "..") for part in text.split("/")):
            raise NotationError(f"{text!r} is not {self.says}", f"write for example {self.example}")
        return text


class _TargetFolder(_PlainName):
    """The path of a folder to publish to. One that climbs out of where it begins is easily another folder
    than was meant, and what lies there would be replaced."""

    def parse(self, text: str) -> str:
        path = super().parse(text)
        if ".." in re.split(r"[/\\]", path):
            raise NotationError(
                f"{path!r} climbs out of the folder it counts from",
                f"write the whole path, such as {self.example}",
            )
        return path


class _Endpoint(WebAddress):
    """A web address without a name and password in it."""

    def parse(self, text: str) -> str:
        if _PASSWORD.search(text):
            raise NotationError("the address has a password in it", _NO_SECRETS)
        return super().parse(text)


_PATH = _TargetFolder("a folder's path", r".*\S.*", "/srv/www/galley")
_HOST = _PlainName("the name of a computer", r"[A-Za-z0-9._:%\[\]-]+", "web.movement.example")
# Most characters of the next two: far more than any that exist, our choice.
_USER = _PlainName("a user's name", r"[A-Za-z0-9._@+-]+", "robin", 80)
_BUCKET = _PlainName("the name of a bucket", r"[A-Za-z0-9][A-Za-z0-9._-]{1,254}", "galley-strength")
_NAME = _PlainName("a name", r"[A-Za-z0-9._-]+", "movement", 100)
_BRANCH = _PlainName(
    "the name of a branch", r"(?!.*(\.\.|//|@\{|\.lock$|[/.]$))[A-Za-z0-9][A-Za-z0-9._/-]*", "site"
)
_REPOSITORY = _PlainName(
    "a repository's address", r"(?!ext::|fd::).*\S.*", "git@code.example:robin/galley.git"
)
_SUBFOLDER = _Folder("a folder such as galley/site", r"[A-Za-z0-9._/-]+", "galley/site")


class _Target(Shape):
    """A record whose ``to`` says which kind it is."""

    says = "a target (to: folder, sftp, s3 or git)"

    def __init__(self, kinds: dict[str, RecordShape]) -> None:
        self.kinds = kinds

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, MappingNode):
            message = f"{path[-1]!r} is not {self.says}"
            reading.report(node, "wrong-kind", message, "write to: and what goes with it")
            return BAD
        if self._has_secrets(node, reading):
            return BAD
        kind = self._kind(node, reading)
        return BAD if kind is None else self.kinds[kind].read(node, reading, path)

    @staticmethod
    def _has_secrets(node: Node, reading: Reading) -> bool:
        found = False
        for key_node, _ in node.value:
            name = key_node.value if isinstance(key_node, ScalarNode) else ""
            if _SECRET.search(name.lower().replace("-", "_")):
                reading.report(key_node, "secret", f"{name!r} looks like a password or a key", _NO_SECRETS)
                found = True
        return found

    def _kind(self, node: Node, reading: Reading) -> str | None:
        words = ", ".join(self.kinds)
        to = child_at(node, "to")
        if to is None:
            message = f"'to' is missing in {self.says}"
            reading.report(node, "missing-key", message, f"add to: with one of {words}")
        elif not isinstance(to, ScalarNode) or to.value not in self.kinds:
            near = nearest(str(to.value), self.kinds) if isinstance(to, ScalarNode) else None
            advice = f"did you mean {near!r}?" if near else f"write one of {words}"
            reading.report(to, "malformed", f"'to': {to.value!r} is not a kind of target", advice)
        else:
            return str(to.value)
        return None

    def schema(self) -> dict[str, Any]:
        return {"oneOf": [record.schema() for record in self.kinds.values()]}


def _record(kind: str, says: str, make: Callable[..., Any], keys: dict[str, Key]) -> RecordShape:
    def without_kind(to: str, **fields: Any) -> Any:
        return make(**fields)

    return RecordShape(
        says, {"to": Key(OneOf("a kind of target", (kind,)), required=True), **keys}, without_kind
    )


TARGET = _Target(
    {
        "folder": _record(
            "folder",
            "a folder to publish to",
            FolderTarget,
            {
                "path": Key(_PATH, required=True, help="Below the folder that holds content/, or absolute"),
                "at_once": Key(Flag(), help="The whole site is put in place in one step"),
            },
        ),
        "sftp": _record(
            "sftp",
            "a computer to publish to over SFTP",
            SftpTarget,
            {
                "host": Key(_HOST, required=True, help="Its name, or an alias of your SSH configuration"),
                "path": Key(_PATH, required=True, help="The folder there"),
                "user": Key(_USER),
                "port": Key(Whole(1, 65_535)),
            },
        ),
        "s3": _record(
            "s3",
            "a bucket to publish to",
            BucketTarget,
            {
                "bucket": Key(_BUCKET, required=True),
                "prefix": Key(_SUBFOLDER, help="Folder inside the bucket"),
                "endpoint": Key(_Endpoint(), help="Where the object store answers"),
                "region": Key(_NAME),
                "profile": Key(_NAME, help="A profile of your own configuration"),
                "compress": Key(OneOf("a compression", COMPRESSIONS), help="How text is stored"),
            },
        ),
        "git": _record(
            "git",
            "a branch to publish to",
            BranchTarget,
            {
                "repository": Key(_REPOSITORY, required=True),
                "branch": Key(_BRANCH),
                "folder": Key(_SUBFOLDER, help="Folder inside the branch"),
            },
        ),
    }
)
