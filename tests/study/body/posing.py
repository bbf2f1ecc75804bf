"""Poses for tests: written as in a file, read as a file is read, placed."""

import random
from typing import Any

from sitegen.model import Poses
from sitegen.problems import Problem
from sitegen.reading.schemas.poses import POSES
from sitegen.reading.schemas.report import BAD, Reading
from sitegen.reading.source import compose
from sitegen.reading.textfile import BadFile
from sitegen.study.body.bases import BASES
from sitegen.study.body.limits import LIMITS
from sitegen.study.body.movement import Movement, movement_of
from sitegen.study.body.reaching import ON_THE_BODY, TOUCHED
from sitegen.study.body.things import HELD, HOLDS, THINGS


def read_poses(text: str) -> tuple[Poses | None, list[Problem]]:
    """The poses of a file that holds nothing else, and what is wrong with them."""
    reading = Reading("poses.yaml")
    try:
        value: Any = POSES.read(compose(text.encode(), "poses.yaml"), reading, ())
    except BadFile as bad:
        return None, [bad.problem]
    return (None if value is BAD else value), reading.problems


def moved(text: str) -> Movement:
    """The movement of poses that are written without a mistake."""
    poses, problems = read_poses(text)
    assert problems == [], problems
    movement = movement_of(poses)
    assert movement is not None
    return movement


def random_file(dice: random.Random) -> str:
    """A file of poses as somebody may write them who knows the keys and is careless with the values."""
    names = ("start", "finish") if dice.random() < 0.7 else ("hold",)
    return "\n".join(f"{name}: {_pose(dice)}" for name in names)


def _pose(dice: random.Random) -> str:
    pairs = [("base", dice.choice(list(BASES)))] if dice.random() < 0.8 else []
    for key in dice.sample(sorted(LIMITS), dice.randint(0, 6)):
        pairs.append((key, _number(dice, key)))
    if dice.random() < 0.5:
        pairs.append(("hands", _both(dice, lambda: dice.choice([*ON_THE_BODY, *TOUCHED, "towel", "free"]))))
    if dice.random() < 0.4:
        pairs.append(
            ("feet", _both(dice, lambda: dice.choice(["floor", "lifted", "step", "second step", "chair"])))
        )
    if dice.random() < 0.3:
        pairs.append(("holds", f"{{{dice.choice(HELD)}: {dice.choice(HOLDS)}}}"))
    if dice.random() < 0.2:
        pairs.append(("props", f"[{dice.choice(list(THINGS))}]"))
    if dice.random() < 0.2:
        pairs.append(("view", dice.choice(["side", "front"])))
    if dice.random() < 0.1:
        pairs.append((dice.choice(["elbow", "kness", "hand", "load"]), "90"))
    return "{" + ", ".join(f"{key}: {value}" for key, value in pairs) + "}"


def _number(dice: random.Random, key: str) -> str:
    limit = LIMITS[key]
    wide = (limit.most - limit.least) * 0.05

    def value() -> str:
        if dice.random() < 0.02:
            return dice.choice(["a lot", "", "nan", "1e9"])
        return str(round(dice.uniform(limit.least - wide, limit.most + wide), 1))

    return _both(dice, value) if limit.paired or dice.random() < 0.03 else value()


def _both(dice: random.Random, value: Any) -> str:
    if dice.random() < 0.5:
        return str(value())
    return f"{{left: {value()}, right: {value()}}}" if dice.random() < 0.6 else f"{{right: {value()}}}"
