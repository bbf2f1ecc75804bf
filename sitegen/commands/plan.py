"""Plan whole weeks: sessions proposed one after the other, each as the plan of an episode to be edited."""

import argparse
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

from sitegen.cli import OK, PROBLEMS, USAGE
from sitegen.commands.again import NothingToRenew, again, own_plans, what_stays, write_again
from sitegen.commands.common import content_folder, refuse, series_to_build_on, write_episode
from sitegen.commands.episode import shared_blocks, tell_if_late
from sitegen.commands.next_episode import plan_file, shared_around
from sitegen.commands.propose import add_wishes, shape, wishes, wrong_wishes
from sitegen.composing.composer import propose
from sitegen.composing.conflicts import ProposalError
from sitegen.composing.plan_text import block_lines
from sitegen.composing.proposal import Proposal, lacking
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Episode, Series
from sitegen.reading.reader import read_series
from sitegen.report.session_words import minutes_words, no_such_block

_MOST_WEEKS = 52
"""A year: what lies further ahead would rest on sessions that nobody has done yet."""
_NEW_LATER = 3
"""New exercises in each session after the first of a series: enough for variety, few enough to be learned
(common practice, no source)."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "weeks", type=int, nargs="?", metavar="WEEKS", help="how many weeks of training days to plan"
    )
    parser.add_argument(
        "--again",
        action="store_true",
        help="compose all plans that are not filmed yet again, in their order: exercises that stand there as "
        "they were proposed are chosen again, what you changed stays",
    )
    add_wishes(parser)
    parser.add_argument(
        "--new",
        type=int,
        metavar="N",
        help="most exercises of each session that the series has not shown yet (default: 3; a series without "
        "sessions starts with new ones)",
    )


def run(arguments: argparse.Namespace) -> int:
    content = content_folder(arguments)
    series = series_to_build_on(content, "a plan builds on what is there")
    if series is None:
        return PROBLEMS
    wrong = [*wrong_wishes(series, arguments), *_wrong(series, arguments)]
    for line in wrong:
        refuse(line)
    if wrong:
        return USAGE
    if arguments.again:
        return _again(content, series, arguments)
    days = len(series.details.schedule.days) if series.details.schedule else 0
    return _plan(content, series, arguments, arguments.weeks * days)


def _wrong(series: Series, arguments: argparse.Namespace) -> list[str]:
    if arguments.again:
        given = {"WEEKS": arguments.weeks, "--blocks": arguments.blocks}
        said = [option for option, value in given.items() if value is not None]
        return [f"{option} is for new plans; with --again the files say it" for option in said]
    wrong = []
    if arguments.weeks is None:
        wrong.append("say for how many weeks, such as: sitegen plan 2")
    elif not 1 <= arguments.weeks <= _MOST_WEEKS:
        wrong.append(f"{arguments.weeks} weeks cannot be planned; write 1 to {_MOST_WEEKS}")
    if series.details.schedule is None:
        wrong.append("the series has no training days; write schedule: with start: and days: in series.yaml")
    if arguments.new is not None and arguments.new < 0:
        wrong.append(f"--new {arguments.new} is too little; write 0 or more")
    return wrong


def _again(content: Path, series: Series, arguments: argparse.Namespace) -> int:
    """Compose every plan again; each rests on those before it as they are then."""
    numbers = own_plans(content, series)
    if not numbers:
        return refuse("no plan has an exercise that stands there as it was proposed", PROBLEMS)
    for done, number in enumerate(numbers):
        try:
            before = [one for one in series.sessions if one.number < number]
            result = again(content, series, number, _asked(series, before, arguments))
            write_again(result)
        except (ProposalError, NothingToRenew) as error:
            so_far = f"{done} of {len(numbers)} plans are composed again; they stay so"
            return refuse(f"{error}\n{so_far}", PROBLEMS)
        for line in what_stays(result):
            print(f"   {line}")
        series = read_series(content)
    return OK


def _plan(content: Path, series: Series, arguments: argparse.Namespace, number: int) -> int:
    """Write so many plans; each is read again before the next, so that all rests on what the files say."""
    for written in range(number):
        try:
            asked = _asked(series, series.sessions, arguments)
            [proposal] = propose(series, asked, shape(series, arguments), 1).sessions
            path = _write(content, series, proposal)
        except (ProposalError, ValueError) as error:
            so_far = f"{written} of {number} sessions are written; they stay as they are"
            return refuse(f"{error}\n{so_far}", PROBLEMS)
        series = read_series(content)
        print(_line(path, proposal, series.sessions[-1]))
    tell_if_late(content)
    print("first plans, to be edited; sitegen check looks at them like at any other")
    return OK


def _asked(series: Series, before: Sequence[Episode], arguments: argparse.Namespace) -> SessionWishes:
    """The wishes; how many exercises may be new after these sessions where nothing is said."""
    if arguments.new is not None:
        return wishes(arguments)
    return replace(wishes(arguments), new=_NEW_LATER if before else len(series.exercises))


def _write(content: Path, series: Series, proposal: Proposal) -> Path:
    """The plan's file. A series without sessions gets its shared blocks around the first one."""
    lines = list(block_lines(proposal, series.details.kit))
    if not series.sessions:
        opening, closing = (_routines(some) for some in shared_around((), shared_blocks(content, series)))
        lines = [*opening, *lines, *closing]
    name, text = plan_file(series, proposal.episode.title, date.today(), lines)
    return write_episode(content, name, text)


def _routines(ids: Sequence[str]) -> list[str]:
    return [f"  - routine: {one}" for one in ids]


def _line(path: Path, proposal: Proposal, episode: Episode) -> str:
    names = [choice.candidate.form.name for block in proposal.choices for choice in block]
    told = "".join(f"\n   not kept: {one.what}; {one.relax}" for one in proposal.conflicts)
    lacks = "".join(f"\n   {no_such_block(kind)}" for kind in lacking(episode))
    return f"{path}: {minutes_words(proposal.seconds)}: {', '.join(names)}{told}{lacks}"
