"""Compose plans again: what the trainer changed in their files stays, the program's own is renewed."""

import sys
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from sitegen.composing.again_text import own_places, renewed
from sitegen.composing.composer import propose_again
from sitegen.composing.marks import MarkedLines, own_notes
from sitegen.composing.proposal import Proposal
from sitegen.composing.session_shape import is_composed
from sitegen.composing.wishes import SessionWishes
from sitegen.composing.written_plan import WrittenPlan
from sitegen.model import Episode, Series
from sitegen.problems import Location
from sitegen.reading.files import read_file
from sitegen.reading.source import locate
from sitegen.system.whole_files import free_name, write_whole


class NothingToRenew(ValueError):
    """A plan that cannot be composed again; the text says why and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Again:
    """A plan composed again and not yet written."""

    path: Path
    before: bytes
    after: bytes
    proposal: Proposal
    own: int
    """How many of its exercises are the program's own."""
    others: int
    """How many of these are others now, or have another dose."""
    stays: tuple[tuple[int, str], ...]
    """The trainer's exercises: line in the new text, and id."""


def own_plans(content: Path, series: Series) -> list[int]:
    """Numbers of the plans with exercises that are still the program's own."""
    return [
        episode.number for episode in series.sessions if episode.planned and _opened(content, episode)[1].own
    ]


def again(content: Path, series: Series, number: int, wishes: SessionWishes) -> Again:
    """The plan with that number composed again. Raises NothingToRenew, ProposalError or OSError."""
    episode = _plan(series, number)
    before, written, own = _opened(content, episode)
    path = content / episode.location.file
    if not own:
        raise NothingToRenew(
            f"{path}: no exercise stands there as it was proposed, so all of it stays as it is; "
            "delete the file and use --write to have another plan"
        )
    proposal = propose_again(series, written, wishes)
    after = renewed(before.decode(), written, own, proposal, series.details.kit).encode()
    _check_read(path, episode.location.file, after)
    stays = tuple(
        (line, episode.blocks[at].items[place].exercise)
        for (at, place), line in _lines(episode, after).items()
        if (at, place) not in own
    )
    return Again(
        path=path,
        before=before,
        after=after,
        proposal=proposal,
        own=len(own),
        others=_others(episode, proposal, own),
        stays=stays,
    )


def _others(episode: Episode, proposal: Proposal, own: Collection[tuple[int, int]]) -> int:
    """How many of the program's own exercises are not as they were."""
    before, now = episode.blocks, proposal.episode.blocks
    return sum(
        replace(before[at].items[place], note="") != replace(now[at].items[place], note="")
        for at, place in own
    )


def _plan(series: Series, number: int) -> Episode:
    episode = next((one for one in series.sessions if one.number == number), None)
    if episode is None:
        raise NothingToRenew(
            f"there is no episode {number} to compose again; leave --again out for a new one"
        )
    if not episode.planned:
        raise NothingToRenew(
            f"{episode.location.file}: episode {number} is filmed; only plans are composed again"
        )
    return episode


def _opened(content: Path, episode: Episode) -> tuple[bytes, WrittenPlan, dict[tuple[int, int], MarkedLines]]:
    """The file's bytes, its plan, and which of its exercises are the program's own."""
    data = (content / episode.location.file).read_bytes()
    own = own_places(data.decode(), _lines(episode, data))
    return data, WrittenPlan(episode=episode, own=own.keys()), own


def _lines(episode: Episode, data: bytes) -> dict[tuple[int, int], int]:
    """The line, from 1, of each exercise of the blocks that are composed, by block and place."""
    lines = {}
    for at, block in enumerate(episode.blocks):
        for place in range(len(block.items) if is_composed(block) else 0):
            location = Location(episode.location.file, ("blocks", at, "items", place))
            if found := locate(data, location):
                lines[at, place] = found[0]
    return lines


def _check_read(path: Path, file: str, data: bytes) -> None:
    """Refuse a text that could not be read again. Raises NothingToRenew."""
    problems = [one for one in read_file("episodes", file, data).problems if one.severity == "problem"]
    if problems:
        raise NothingToRenew(
            f"{path}: composed again it could not be read ({problems[0]}); nothing is written"
        )


def write_again(result: Again) -> None:
    """Put the new text in the file's place, the old one beside it. Raises NothingToRenew or OSError."""
    if result.path.read_bytes() != result.before:
        raise NothingToRenew(f"{result.path}: it was changed meanwhile; nothing is written, do it once more")
    if result.after == result.before:
        print(f"{result.path}: composed again, and nothing changes")
        return
    kept = free_name(result.path)
    write_whole(kept, result.before)
    write_whole(result.path, result.after)
    print(f"{kept}: the file as it was", file=sys.stderr)
    print(f"{result.path}: composed again; of {result.own} proposed exercises {result.others} changed")


def what_stays(result: Again) -> Iterator[str]:
    """Each exercise of the trainer's and each bound that is not kept, with file and line."""
    for line, exercise in result.stays:
        yield f"{result.path}:{line}: {exercise} stays as you wrote it"
    lines = result.after.decode().split("\n")
    notes = iter([f":{piece.start + 1}" for piece in own_notes(lines)])
    for conflict in result.proposal.conflicts:
        # A file whose blocks begin in no line of their own has no notes.
        yield f"{result.path}{next(notes, '')}: not kept: {conflict.what}; {conflict.relax}"
