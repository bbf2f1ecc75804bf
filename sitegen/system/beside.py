"""Files that are kept beside the ones that replace them, and files that are replaced whole."""

import os
from pathlib import Path


def free_name(path: Path) -> Path:
    """``name.yaml.old``, or ``.old-2`` and so on where that is taken."""
    kept = path.with_name(f"{path.name}.old")
    count = 2
    while kept.exists():
        kept = path.with_name(f"{path.name}.old-{count}")
        count += 1
    return kept


def put_whole(path: Path, data: bytes) -> None:
    """Write a file so that whoever reads it finds the old or the new bytes, never a part."""
    part = path.with_name(f".{path.name}.part")
    with part.open("wb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    part.replace(path)
