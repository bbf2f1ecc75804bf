"""Comparing folders byte for byte."""

import hashlib
from pathlib import Path


def tree(folder: Path) -> dict[str, str]:
    """Digest of every file below a folder, by its path."""
    return {
        str(path.relative_to(folder)): hashlib.blake2b(path.read_bytes(), digest_size=12).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def differences(one: dict[str, str], other: dict[str, str]) -> list[str]:
    """Paths whose bytes differ or that only one of two trees has."""
    return sorted(path for path in one.keys() | other.keys() if one.get(path) != other.get(path))
