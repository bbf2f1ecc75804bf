"""Read the logs that came back: whose they are, what they say, one page of all for the trainer."""

import sys
from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path

from sitegen.cli import OK, PROBLEMS
from sitegen.clients.came_back import CameBack, came_back
from sitegen.clients.client import Client
from sitegen.clients.danger_words import SignReader
from sitegen.clients.folder import client_files, plan_code, plan_key
from sitegen.clients.log import Log
from sitegen.clients.log_reading import read_log
from sitegen.clients.log_text import lines_of
from sitegen.clients.next_steps import NextStep, next_steps
from sitegen.clients.proposing import CannotWrite, new_proposals, proposal_line, write_proposals
from sitegen.clients.untrusted_json import NotAccepted
from sitegen.model import Series
from sitegen.pages.client.came_back_page import came_back_page
from sitegen.pages.client.client_plan import client_plan
from sitegen.pages.client.days import planned_occurrences
from sitegen.pages.site import Site
from sitegen.system.terminal import columns
from sitegen.system.whole_files import write_whole

PAGE = "came-back.html"
_WIDTHS = (60, 110)
"""Least and most characters of a line in a terminal: less breaks up the words, more is tiring to read."""


def read_logs(
    site: Site,
    series: Series,
    folder: Path,
    clients: Sequence[Client],
    files: Iterable[Path],
    today: date,
    *,
    propose: bool,
) -> int:
    """Show what the files say of these clients, here and on a page in ``folder``.

    ``propose``: write the next steps into their files as proposals.
    """
    logs, refused = _sorted_out(series, folder, clients, files)
    backs = [_back(site, series, client, logs[client.id], today) for client in clients if logs[client.id]]
    width = min(max(columns(), _WIDTHS[0]), _WIDTHS[1])
    for back, steps in sorted(backs, key=lambda one: not one[0].troubles):
        print("\n".join(lines_of(back, steps, width)), end="\n\n")
        if propose:
            _propose(series, folder, back.client, steps)
    if backs:
        path = folder / PAGE
        write_whole(path, came_back_page(site, backs, refused, today))
        print(f"{path}: the same with charts, for you alone")
    for line in refused:
        print(f"not read: {line}", file=sys.stderr)
    return PROBLEMS if refused else OK


def _sorted_out(
    series: Series, folder: Path, clients: Sequence[Client], files: Iterable[Path]
) -> tuple[dict[str, list[Log]], list[str]]:
    """The logs of each client, and a line for each file that is not read."""
    key = plan_key(folder)
    everybody = {plan_code(key, path.stem): path.stem for path in client_files(folder)}
    logs: dict[str, list[Log]] = {client.id: [] for client in clients}
    refused = []
    for file in files:
        try:
            log = read_log(file, series)
            owner = _owner(log, everybody, [client.id for client in clients])
        except NotAccepted as why:
            refused.append(f"{file.name!a}: {why}")
        else:
            logs[owner].append(log)
    return logs, refused


def _owner(log: Log, everybody: dict[str, str], named: Sequence[str]) -> str:
    """Whose log it is. Raises NotAccepted."""
    if not log.code:
        if len(named) == 1:
            return named[0]
        raise NotAccepted(
            "it is saved by the public site and does not say whose it is; read it for one client alone"
        )
    owner = everybody.get(log.code)
    if owner is None:
        raise NotAccepted("it is of a plan that is not in this folder of clients")
    if owner not in named:
        raise NotAccepted(f"it is the log of {owner}, not of {' or '.join(named)}")
    return owner


def _back(
    site: Site, series: Series, client: Client, logs: Iterable[Log], today: date
) -> tuple[CameBack, tuple[NextStep, ...]]:
    plan = client_plan(site, series, client, code="")
    planned, reader = planned_occurrences(plan, today), SignReader(series.details)
    back = came_back(client, logs, plan.sessions, planned, site.forms, today, reader)
    return back, next_steps(back, series, plan.sessions, today)


def _propose(series: Series, folder: Path, client: Client, steps: Iterable[NextStep]) -> None:
    """Write the proposals into her file, or say why not and what to write."""
    proposals = new_proposals(client, [step.proposal for step in steps if step.proposal is not None])
    if not proposals:
        print(f"{client.id}: nothing new to propose\n")
        return
    path = folder / f"{client.id}.yaml"
    try:
        write_proposals(path, client, proposals, series)
    except CannotWrite as why:
        print(f"{path} was not changed, for {why}. Put in by hand, below proposals:", file=sys.stderr)
        for one in proposals:
            print(f"  - {proposal_line(one)}", file=sys.stderr)
    else:
        print(f"{path}: {len(proposals)} proposed. Write accept: yes where you agree; then make the plan.\n")


def log_files(named: Iterable[Path]) -> list[Path]:
    """The files named; of a folder, every file of it that ends in .json."""
    files: list[Path] = []
    for path in named:
        files += sorted(path.glob("*.json")) if path.is_dir() else [path]
    return files
