"""Proposals written into a client's file, above those that are there; nothing else of the file changes."""

import json
import os
import shutil
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from sitegen.clients.client import Client, ProposedStep
from sitegen.clients.reading import read_file
from sitegen.model import Series
from sitegen.notation import Load
from sitegen.reading.source import MappingNode, SequenceNode, compose

MOST_WHY = 200
"""Characters of the reason, as the file's shape has it."""


class CannotWrite(Exception):
    """Why the proposals have to be put in by hand, in one line."""


def new_proposals(client: Client, proposals: Sequence[ProposedStep]) -> list[ProposedStep]:
    """Those that are not in her file yet, accepted or not."""
    known = [(one.form, one.dose, str(one.load)) for one in client.proposals]
    return [one for one in proposals if (one.form, one.dose, str(one.load)) not in known]


def write_proposals(path: Path, client: Client, proposals: Sequence[ProposedStep], series: Series) -> None:
    """Put them into the file, each with ``accept: no``. Raises CannotWrite; the file is then as it was."""
    data = path.read_bytes()
    text = _with_lines(data, path.name, [proposal_line(one) for one in proposals])
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        part.write_bytes(text)
        shutil.copymode(path, part)
        again, _ = read_file(part, series)
        # Nothing but her proposals may have changed.
        as_before = again and replace(
            again, id=client.id, location=client.location, proposals=again.proposals[len(proposals) :]
        )
        if as_before != client:
            raise CannotWrite("the file is laid out in a way that the program does not dare to change")
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def proposal_line(one: ProposedStep) -> str:
    """A proposal as it stands in the file: ``{form: …, load: …, why: "…", accept: no}``."""
    fields = [f"form: {one.form}"]
    if one.dose is not None:
        fields.append(f"dose: {json.dumps(str(one.dose), ensure_ascii=False)}")
    if one.load is not None:
        fields.append(f"load: {_load(one.load)}")
    why = one.why if len(one.why) <= MOST_WHY else f"{one.why[: MOST_WHY - 1]}…"
    fields.append(f"why: {json.dumps(why, ensure_ascii=False)}")
    return f"{{{', '.join(fields)}, accept: no}}"


def _load(load: Load) -> str:
    """With its pieces of kit, so that nobody has to find out again which is meant."""
    pieces = dict.fromkeys(part.piece for part in load.parts)
    if None in pieces:
        return str(load)
    by_piece = (
        f"{piece}: {Load(tuple(part for part in load.parts if part.piece == piece))}" for piece in pieces
    )
    return f"{{{', '.join(by_piece)}}}"


def _with_lines(data: bytes, name: str, lines: Sequence[str]) -> bytes:
    root = compose(data, name)
    assert isinstance(root, MappingNode)
    end = b"\r\n" if b"\r\n" in data else b"\n"
    found = next((value for key, value in root.value if key.value == "proposals"), None)
    if found is None:
        if root.flow_style:
            raise CannotWrite("the file is written in one pair of braces")
        block = [b"proposals:", *(f"  - {line}".encode() for line in lines)]
        return data + (b"" if data.endswith(b"\n") else end) + end.join(block) + end
    if not isinstance(found, SequenceNode) or found.flow_style or not found.value:
        raise CannotWrite("the proposals are not one to a line, each after a dash")
    rows = data.split(b"\n")
    at, indent = found.start_mark.line, " " * found.start_mark.column
    return b"\n".join([*rows[:at], *(f"{indent}- {line}".encode() + end[:-1] for line in lines), *rows[at:]])
