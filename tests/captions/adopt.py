"""Taking over the recordings of another hand.

``python -m tests.captions.adopt [--unseen] HAND FOLDER [NAME ...]``

``FOLDER`` holds one folder for each recording with ``captions.*``, ``truth.json``, ``series.yaml`` and
``library/``; only the named recordings are taken (all where none is named). ``--unseen`` puts them
where they are only scored.
"""

import shutil
import sys
from pathlib import Path
from typing import Any

import yaml

from tests.captions.corpus import HANDS, UNSEEN


def adopt(target: Path, folder: Path, names: list[str]) -> None:
    """Copy recordings into the folder ``target`` of a hand, each library as one file."""
    target.mkdir(parents=True, exist_ok=True)
    for recording in sorted(path.parent for path in folder.glob("*/truth.json")):
        if names and recording.name not in names:
            continue
        captions = next(path for path in sorted(recording.iterdir()) if path.stem == "captions")
        shutil.copy(captions, target / f"{recording.name}{captions.suffix}")
        shutil.copy(recording / "truth.json", target / f"{recording.name}.truth.json")
        text = yaml.safe_dump(_library(recording), sort_keys=False, allow_unicode=True, width=110)
        (target / f"{recording.name}.library.yaml").write_text(text, encoding="utf-8")


def _library(recording: Path) -> dict[str, Any]:
    series = yaml.safe_load((recording / "series.yaml").read_text(encoding="utf-8"))
    exercises = [
        {"id": path.stem} | yaml.safe_load(path.read_text(encoding="utf-8"))
        for path in sorted((recording / "library").glob("*.yaml"))
    ]
    return {"kit": series.get("kit") or {}, "exercises": exercises}


if __name__ == "__main__":
    unseen = "--unseen" in sys.argv
    hand, source, *names = [word for word in sys.argv[1:] if word != "--unseen"]
    adopt((UNSEEN if unseen else HANDS) / hand, Path(source), names)
