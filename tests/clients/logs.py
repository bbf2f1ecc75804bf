"""Invented logs of several weeks, as her page would save them, and what can be wrong with a file."""

import copy
import json
import random
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

Data = dict[str, Any]


def code_of(made: Path, name: str) -> str:
    """The code of a plan, from the page that was made."""
    page = (made / "clients" / name / "galley-strength-plan.html").read_text(encoding="utf-8")
    found = re.search(r'"code": ?"(\w+)"', page)
    assert found
    return found[1]


def log_of(code: str, saved: str, sittings: Data, version: int = 2, **more: Any) -> Data:
    """A log with these sittings."""
    return {
        "what": "log of a client",
        "v": version,
        "for": code,
        "series": "https://galley-strength.example/",
        "saved": saved,
        "sittings": sittings,
        **more,
    }


def sitting(done: str, effort: int | None = None, /, **rest: Any) -> Data:
    """One sitting; ``row=("4 kg", "8, 8", 6)`` is an item with its load, counts and effort."""
    items = rest.pop("items", {})
    effort_of = {} if effort is None else {"effort": effort}
    written = {
        name: {
            key: value
            for key, value in zip(("load", "reps", "effort"), one, strict=False)
            if value not in ("", None)
        }
        for name, one in items.items()
    }
    return {"v": 1, "done": done, **effort_of, "changed": f"{done}T18:00:00.000Z", **rest, "items": written}


ROW, SQUAT, PUSH = "backpack-row", "chair-squat", "counter-push-up"


def tobias() -> Data:
    """Four weeks: a row that becomes too light, a squat that gets easier, one session left out."""
    return {
        "cast-off-1": sitting("2026-12-07", 7, items={SQUAT: ("", "8, 8, 8", 7), PUSH: ("", "8, 7, 6", 8)}),
        "fair-lead-1": sitting("2026-12-09", 6, text="Neighbours complained about the hops."),
        "steady-pull-1": sitting("2026-12-14", 7, items={ROW: ("8 kg", "10, 10, 10", 7)}),
        "trim-and-balance-1": sitting(
            "2026-12-18", 6, items={ROW: ("8 kg", "12, 12, 11", 6), SQUAT: ("", "10, 10, 10", 6)}
        ),
        "ballast-1": sitting("2026-12-21", 6, items={SQUAT: ("", "10 10 10", 5)}),
        "full-cargo-1": sitting(
            "2027-01-04", 6, items={ROW: ("8kg", "12/12/12", 5), PUSH: ("", "9, 9, 9", 7)}
        ),
    }


TESTS = {"tobias-wren": [{"test": "one-leg stance", "day": "2027-01-05", "result": 43}]}
"""Results in the logs, by name of the file."""


def nora() -> Data:
    """Two weeks with a knee that hurts and a dizzy moment."""
    half = "chair-squat/counter-half-squat"
    return {
        "cast-off-1": sitting(
            "2026-12-01", 4, items={half: ("", "7, 7", 4), "glute-bridge": ("", "9, 9", 3)}
        ),
        "cast-off-2": sitting(
            "2026-12-04", 6, pain="left knee, half squat at the counter", items={half: ("", "7, 5", 7)}
        ),
        "fair-lead-1": sitting("2026-12-08", 5, dizzy=True, text="Had not slept <b>well</b>."),
    }


def imke() -> Data:
    """One week, with amounts that no program can read."""
    return {
        "cast-off-1": sitting(
            "2026-12-02",
            5,
            items={"high-knee-march/seated-arm-drive": ("", "about half a minute", 5)},
        ),
        "fair-lead-1": sitting("2026-12-05", 5),
    }


INVENTED = {"nora-quayle": nora, "imke-solheim": imke, "tobias-wren": tobias}


def write_log(path: Path, data: Any) -> Path:
    """As a file."""
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


# --- files that must not be read -----------------------------------------------------------------


def broken(code: str, count: int, seed: int = 0) -> Iterator[tuple[str, bytes]]:
    """``count`` files with one thing wrong in each: by name what, and the bytes."""
    good = log_of(code, "2026-12-31T10:00:00.000Z", nora() | tobias())
    chance = random.Random(seed)
    makers = [_cut, _flipped, _wrong_type, _unknown_name, _steering, _out_of_range, _whole_other]
    for number in range(count):
        maker = makers[number % len(makers)]
        yield f"{maker.__name__.strip('_')} {number}", maker(good, chance)


def _bytes(data: Any) -> bytes:
    return json.dumps(data).encode()


def _places(data: Any) -> Iterator[tuple[Any, Any]]:
    """Every record or list with every name in it."""
    if isinstance(data, dict | list):
        for name, inner in list(data.items() if isinstance(data, dict) else enumerate(data)):
            yield data, name
            yield from _places(inner)


def _cut(good: Data, chance: random.Random) -> bytes:
    data = _bytes(good)
    return data[: chance.randrange(len(data) - 1)]


def _flipped(good: Data, chance: random.Random) -> bytes:
    """A byte that no UTF-8 text has."""
    data = bytearray(_bytes(good))
    data[chance.randrange(len(data))] = chance.choice((0xFF, 0xC0, 0xFE, 0x80))
    return bytes(data)


WRONG = ([], {}, None, 1e9, -1, False, "\N{GRINNING FACE}" * 3000, 10**30, [[[]]], {"__proto__": {}}, 0.5)


def _wrong_type(good: Data, chance: random.Random) -> bytes:
    data = copy.deepcopy(good)
    inside = [(where, name) for where, name in _places(data) if name not in ("series", "items", "sittings")]
    where, name = chance.choice(inside)
    where[name] = chance.choice([wrong for wrong in WRONG if wrong != {}])
    return _bytes(data)


def _unknown_name(good: Data, chance: random.Random) -> bytes:
    data = copy.deepcopy(good)
    records = [data, *(where[name] for where, name in _places(data) if isinstance(where[name], dict))]
    chance.choice(records)[
        chance.choice(("__proto__", "constructor", "<script>", "../../etc", "x\n", ""))
    ] = 1
    return _bytes(data)


def _steering(good: Data, chance: random.Random) -> bytes:
    """Orders to a terminal, turned writing, half characters."""
    data = copy.deepcopy(good)
    orders = (
        "\x1b[2J\x1b[1;1Hall is well",
        "\x00",
        "\u202egnp.exe",
        "\x9b31m",
        "\ud83d",
        "\x08" * 20,
        "\u2066",
    )
    one = chance.choice(list(data["sittings"].values()))
    one[chance.choice(("text", "pain"))] = f"knee {chance.choice(orders)}"
    return _bytes(data)


def _out_of_range(good: Data, chance: random.Random) -> bytes:
    data = copy.deepcopy(good)
    one = chance.choice(list(data["sittings"].values()))
    name, value = chance.choice(
        (
            ("effort", 11),
            ("effort", -1),
            ("effort", True),
            ("done", "2026-02-30"),
            ("done", "1026-12-01"),
            ("done", "yesterday"),
            ("text", "a" * 2001),
            ("pain", "a" * 201),
            ("dizzy", "no"),
            ("changed", "'; drop table"),
            ("items", {f"a{n}": {} for n in range(101)}),
            ("items", {"../x": {"reps": "8"}}),
        )
    )
    one[name] = value
    return _bytes(data)


def _whole_other(good: Data, chance: random.Random) -> bytes:
    """Something else altogether."""
    deep = b"[" * 100_000
    twice = _bytes(good).replace(b'"v": 2', b'"v": 2, "v": 1', 1)
    return chance.choice(
        (
            b"",
            b"   \n",
            deep,
            b'{"a":' * 5_000,
            twice,
            b"\x89PNG\r\n\x1a\n",
            b"PK\x03\x04",
            b"<!doctype html><script>alert(1)</script>",
            b"NaN",
            b'{"what": "log of a client", "v": NaN}',
            b"what: log of a client",
            _bytes(good | {"v": 3}),
            _bytes(good | {"v": "2"}),
            _bytes(good | {"what": "log"}),
            _bytes(good | {"for": "../../x"}),
            _bytes({**good, "sittings": {f"a-{n}": {} for n in range(1, 1002)}}),
            b" " * 2_000_001,
            _bytes(good).replace(b'"v": 2', b'"v": 1' + b"0" * 5000, 1),
        )
    )
