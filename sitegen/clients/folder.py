"""Where the clients' files lie: in ``clients`` beside the content folder, out of version control."""

import hmac
import os
import re
import secrets
from collections.abc import Iterator
from pathlib import Path

from sitegen.problems import ContentError, in_file
from sitegen.reading.folder import CLIENTS_FOLDER
from sitegen.system.whole_files import write_once

_IGNORE = "# Health data: nothing of this folder goes into version control.\n*\n"
_PRIVATE = 0o700
"""Rights of the folder: nobody but its owner may look into it (health data)."""
_KEY = ".plan-key"
_A_KEY = re.compile("[0-9a-f]{64}")


def clients_folder(content: Path) -> Path:
    """The folder of the clients of a series."""
    return Path(os.path.abspath(content)).parent / CLIENTS_FOLDER


def keep_private(folder: Path) -> None:
    """Make the folder where it is missing; other users of the computer and version control keep out.

    The rule lies in the folder itself, so that it goes along wherever the folder goes.
    """
    if not folder.exists():
        folder.mkdir(mode=_PRIVATE)
    rule = folder / ".gitignore"
    if not rule.exists():
        rule.write_text(_IGNORE, encoding="utf-8")


def client_files(folder: Path) -> Iterator[Path]:
    """Every client's file, by name. Links are not followed."""
    if folder.is_dir():
        files = (path for path in folder.iterdir() if path.is_file() and not path.is_symlink())
        yield from sorted(path for path in files if path.suffix == ".yaml" and path.name[:1] not in ".~")


def plan_key(folder: Path) -> str:
    """A secret of this folder, made when it is first asked for.

    Codes of plans are made with it, so that nobody can try names until one gives the code of a calendar file.
    Where it is lost, logs of plans that were sent before are not known any more.
    """
    path = folder / _KEY
    if not path.exists():
        write_once(path, secrets.token_hex(32).encode())
    key = path.read_text(encoding="ascii", errors="replace").strip()
    if not _A_KEY.fullmatch(key):
        # With an empty key anybody could work out the code of a name.
        message = "the secret that codes of plans are made with is damaged"
        advice = (
            "put it back from a copy; or delete it, make every plan again and send it: logs of plans that "
            "were sent before are then not known any more"
        )
        raise ContentError([in_file("plan-key", f"{folder.name}/{_KEY}", message, advice)])
    return key


def plan_code(key: str, client_id: str) -> str:
    """Tells the plan of one client, and her logs, from those of others without saying who she is."""
    # 64 bits: nobody finds two clients of a trainer with one code, and it fits a line of a file name.
    return hmac.new(key.encode(), client_id.encode(), "sha256").hexdigest()[:16]
