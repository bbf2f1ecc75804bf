"""Propose the next session: ranked sessions that keep all bounds, with the reason of every choice."""

import argparse
import difflib
import textwrap
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path

from sitegen.cli import OK, PROBLEMS, USAGE
from sitegen.commands.again import NothingToRenew, again, what_stays, write_again
from sitegen.commands.common import (
    add_folders,
    content_folder,
    refuse,
    series_to_build_on,
    write_episode,
)
from sitegen.commands.episode import tell_if_late
from sitegen.commands.next_episode import plan_file
from sitegen.composing.composer import propose, up_to
from sitegen.composing.conflicts import ProposalError
from sitegen.composing.plan_text import block_lines
from sitegen.composing.proposal import ChosenExercise, Proposal, Proposals, lacking
from sitegen.composing.session_shape import SessionShape, parse_blocks, with_shared_blocks
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Series
from sitegen.notation import NotationError
from sitegen.report.after import ProposalAnswers
from sitegen.report.session_words import minutes_words, no_such_block
from sitegen.system.terminal import columns
from sitegen.vocabulary import MUSCLE_REGIONS, PATTERNS

_SHAPE = "conditioning circuit 2, 3 rounds; strength superset, 3 sets"


def add_wishes(parser: argparse.ArgumentParser) -> None:
    """Add what a session, or each of many, is wanted to be."""
    add_folders(parser)
    parser.add_argument(
        "--blocks",
        metavar="BLOCKS",
        help=f'the parts of the session, such as "{_SHAPE}" (default: what was used longest ago)',
    )
    parser.add_argument("--minutes", type=int, metavar="N", help="most minutes, film and turns together")
    parser.add_argument("--kit", nargs="*", metavar="KIT", help="use only this kit; none after it: no kit")
    parser.add_argument(
        "--without", nargs="+", default=[], metavar="EXERCISE", help="exercises that are left out"
    )
    parser.add_argument(
        "--more", nargs="+", default=[], metavar="MUSCLE", help="muscles or patterns to be given more"
    )
    parser.add_argument(
        "--for",
        dest="serve",
        nargs="+",
        default=[],
        metavar="NEED",
        help="only exercises of which everybody with these needs has some form",
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_wishes(parser)
    parser.add_argument(
        "--new",
        type=int,
        default=0,
        metavar="N",
        help="most exercises that the series has not shown yet (default: none)",
    )
    parser.add_argument("--count", type=int, default=3, metavar="N", help="how many proposals (default: 3)")
    parser.add_argument(
        "--write",
        type=int,
        nargs="?",
        const=1,
        metavar="N",
        help="write the first proposal, or that with this number, as the plan of the next episode",
    )
    parser.add_argument("--title", default="", help='title of the plan, such as "Steady pull"')
    parser.add_argument(
        "--again",
        type=int,
        metavar="NUMBER",
        help="the plan of that episode composed again: exercises that stand there as they were proposed are "
        "chosen again, what you changed stays",
    )


def run(arguments: argparse.Namespace) -> int:
    content = content_folder(arguments)
    series = series_to_build_on(content, "a proposal builds on what is there")
    if series is None:
        return PROBLEMS
    wrong = [*wrong_wishes(series, arguments), *_wrong_counts(arguments)]
    for line in wrong:
        refuse(line)
    if wrong:
        return USAGE
    try:
        if arguments.again is not None:
            return _again(content, series, arguments)
        found = propose(series, wishes(arguments), shape(series, arguments), arguments.count)
        for line in proposal_lines(series, found, columns()):
            print(line)
        return _written(content, series, found, arguments) if arguments.write is not None else OK
    except (ProposalError, NothingToRenew) as error:
        return refuse(error, PROBLEMS)
    except ValueError as error:
        return refuse(error)


def wishes(arguments: argparse.Namespace) -> SessionWishes:
    """The wishes of the command line."""
    return SessionWishes(
        minutes=arguments.minutes,
        kit=None if arguments.kit is None else frozenset(arguments.kit),
        without=frozenset(arguments.without),
        more=frozenset(arguments.more),
        new=arguments.new or 0,
        serve=frozenset(arguments.serve),
    )


def shape(series: Series, arguments: argparse.Namespace) -> SessionShape | None:
    """The blocks of the command line; None where it leaves them to the series."""
    return with_shared_blocks(series, arguments.blocks) if arguments.blocks else None


def wrong_wishes(series: Series, arguments: argparse.Namespace) -> Iterator[str]:
    """What no proposal can be made of, all of it at once."""
    muscles = {*MUSCLE_REGIONS, *series.details.muscles, *PATTERNS}
    yield from _unknown("kit", arguments.kit or (), series.details.kit)
    yield from _unknown("exercise", arguments.without, series.exercises)
    yield from _unknown("muscle or pattern", arguments.more, muscles)
    yield from _unknown("need", arguments.serve, series.details.needs)
    if arguments.minutes is not None and arguments.minutes < 1:
        yield f"--minutes {arguments.minutes} is too little; write 1 or more"
    if arguments.blocks:
        try:
            parse_blocks(arguments.blocks)
        except NotationError as error:
            yield f"--blocks: {error}"


def _again(content: Path, series: Series, arguments: argparse.Namespace) -> int:
    """Show the plan composed again, and write it where asked to."""
    result = again(content, series, arguments.again, wishes(arguments))
    width = columns()
    print(f"Episode {arguments.again} again")
    for line in _session(1, result.proposal, width):
        print(line)
    for line in _after(ProposalAnswers(up_to(series, arguments.again)), result.proposal, width):
        print(line)
    if arguments.write is None:
        return OK
    print()
    write_again(result)
    for line in what_stays(result):
        print(line)
    return OK


def _wrong_counts(arguments: argparse.Namespace) -> Iterator[str]:
    for option, least in (("new", 0), ("count", 1), ("write", 1)):
        value = getattr(arguments, option)
        if value is not None and value < least:
            yield f"--{option} {value} is too little; write {least} or more"
    if arguments.again is not None:
        given = {"--blocks": arguments.blocks, "--title": arguments.title}
        yield from (
            f"{option} is for a new plan; with --again it is as the file says"
            for option, value in given.items()
            if value
        )
    if (arguments.write or 1) > arguments.count:
        yield f"--write {arguments.write} is more than the {arguments.count} proposals of --count"


def _unknown(what: str, words: Iterable[str], known: Iterable[str]) -> Iterator[str]:
    names = sorted(known)
    for word in words:
        if word not in names:
            near = difflib.get_close_matches(word, names, 1)
            meant = f"do you mean {near[0]!r}?" if near else f"write one of {', '.join(names)}"
            yield f"there is no {what} {word!r}; {meant}"


def _written(content: Path, series: Series, found: Proposals, arguments: argparse.Namespace) -> int:
    if arguments.write > len(found.sessions):
        return refuse(f"there are only {len(found.sessions)} proposals; nothing is written")
    chosen = found.sessions[arguments.write - 1]
    title = arguments.title or chosen.episode.title
    name, text = plan_file(series, title, date.today(), list(block_lines(chosen, series.details.kit)))
    path = write_episode(content, name, text)
    print(f"\n{path}: proposal {arguments.write}, ready to edit; sitegen check looks at it like at any other")
    tell_if_late(content)
    return OK


def proposal_lines(series: Series, found: Proposals, width: int) -> Iterator[str]:
    """All proposals, the best first."""
    after = ProposalAnswers(series)
    for number, proposal in enumerate(found.sessions, start=1):
        yield "" if number > 1 else f"Proposals for episode {found.room.number}"
        yield from _session(number, proposal, width)
        yield from _after(after, proposal, width)


def _session(number: int, proposal: Proposal, width: int) -> Iterator[str]:
    film = f", a film of {round(proposal.film / 60)} among them" if proposal.film else ""
    best = (
        "none better with blocks like these"
        if proposal.proven
        else "there may be a better one with blocks like these"
    )
    yield f"{number}. A {proposal.level} session, {minutes_words(proposal.seconds)}{film} ({best})"
    for conflict in proposal.conflicts:
        yield from _wrapped("   not kept: ", f"{conflict.what}; {conflict.relax}", width)
    for kind in lacking(proposal.episode):
        yield f"   {no_such_block(kind)}"
    if not proposal.conflicts:
        yield "   keeps all bounds, recovery, length and pairings"
    choices = dict(zip(proposal.composed, proposal.choices, strict=True))
    for place, block in enumerate(proposal.episode.blocks):
        if place in proposal.prepared:
            yield from _wrapped("   ", f"{block.name}: {proposal.prepared[place]}", width)
        if place in choices:
            sets = "" if (block.sets.low, block.sets.high) == (1, 1) else f", {block.sets} sets"
            yield f"   {block.name}: {block.format}{sets}"
            for choice in choices[place]:
                yield from _choice(choice, width)


def _after(after: ProposalAnswers, proposal: Proposal, width: int) -> Iterator[str]:
    """What needs would lose of a session, and how each exercise grew and would grow."""
    for need, lost in after.lost(proposal.episode):
        yield from _wrapped("   loses much: ", f"{need}, {lost}", width)
    for name, curve in after.curves(proposal.episode):
        yield from _wrapped("   all sets: ", f"{name}: {curve}", width)


def _choice(choice: ChosenExercise, width: int) -> Iterator[str]:
    chosen = choice.candidate
    dose = f" {chosen.item.dose}" if chosen.item.dose else ""
    load = f" with {chosen.item.load}" if chosen.item.load else ""
    effort = f", {chosen.item.effort}" if chosen.item.effort else ""
    yield f"     {chosen.form.name}:{dose}{load}{effort}"
    yield from _wrapped("       ", choice.reason, width)
    if chosen.dose is not None:
        yield from _wrapped("       ", chosen.dose.reason, width)
    if chosen.question:
        yield from _wrapped("       ", f"question: {chosen.question}", width)


def _wrapped(lead: str, text: str, width: int) -> Iterator[str]:
    yield from textwrap.wrap(text, width, initial_indent=lead, subsequent_indent=" " * len(lead))
