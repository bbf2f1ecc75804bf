"""Comparing folders byte for byte."""

import hashlib
import time
from pathlib import Path

from sitegen.system.file_states import scan_inputs


def tree(folder: Path) -> dict[str, str]:
    """Digest of every file below a folder, by its path."""
    return {
        str(path.relative_to(folder)): hashlib.blake2b(path.read_bytes(), digest_size=12).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def let_settle(folder: Path) -> None:
    """Wait until the clock has ticked: files just written are looked at again by the next build."""
    while not all(state.is_settled(time.time_ns()) for state in scan_inputs(folder).values()):
        time.sleep(0.005)


def differences(one: dict[str, str], other: dict[str, str]) -> list[str]:
    """Paths whose bytes differ or that only one of two trees has."""
    return sorted(path for path in one.keys() | other.keys() if one.get(path) != other.get(path))
