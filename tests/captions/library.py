"""The exercise libraries of the measurement as a series without episodes."""

from functools import lru_cache
from typing import Any

import yaml

from sitegen.model import Details, Exercise, Kit, Muscles, Series, Trainer, Variant
from sitegen.problems import Location
from tests.captions.script import FOLDER


@lru_cache(maxsize=8)
def series_of(library: str) -> Series:
    """The series with the exercises of ``libraries/<library>.yaml``."""
    data = yaml.safe_load((FOLDER / "libraries" / f"{library}.yaml").read_text(encoding="utf-8"))
    kit = {
        key: Kit(id=key, name=k["name"], stand_ins=tuple(k.get("stand_ins", ())))
        for key, k in data["kit"].items()
    }
    exercises = {entry["id"]: exercise_of(entry) for entry in data["exercises"]}
    details = Details(
        title=library, summary="", address="https://movement.example/", trainer=Trainer(name="R"), kit=kit
    )
    return Series(details=details, episodes=(), exercises=exercises)


def exercise_of(entry: dict[str, Any]) -> Exercise:
    """An exercise from its plain data."""
    location = Location(f"exercises/{entry['id']}.yaml")
    muscles = entry.get("muscles", {})
    return Exercise(
        id=entry["id"],
        name=entry["name"],
        also=tuple(entry.get("also", ())),
        summary=entry.get("summary", ""),
        pattern=entry["pattern"],
        muscles=Muscles(prime=tuple(muscles.get("prime", ())), assist=tuple(muscles.get("assist", ()))),
        kit=tuple(entry.get("kit", ())),
        demands=tuple(entry.get("demands", ())),
        cues=tuple(entry.get("cues", ())),
        variants=tuple(
            Variant(id=v["id"], name=v["name"], change=v["change"], location=location.at("variants", index))
            for index, v in enumerate(entry.get("variants", ()))
        ),
        location=location,
    )
