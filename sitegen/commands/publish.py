"""Check, build, show what will change, ask, and send the difference to where clients open the site."""

import argparse
import sys
from collections.abc import Iterable
from datetime import UTC, datetime
from pathlib import Path

from sitegen.building.build import Builder
from sitegen.building.build_directory import OutputBusy
from sitegen.checks import ASKED_BEFORE_PUBLISHING, NEVER_PUBLISHED, warnings
from sitegen.checks.material import Material
from sitegen.cli import OK, PROBLEMS, STOPPED
from sitegen.clients.folder import clients_folder
from sitegen.commands.common import (
    add_folders,
    add_release_day,
    content_folder,
    count_line,
    out_folder,
    print_problems,
    refuse,
    release_day,
)
from sitegen.model import Series
from sitegen.problems import ContentError, Problem
from sitegen.publishing import messages
from sitegen.publishing.addresses import group_dropped
from sitegen.publishing.client_texts import episode_texts, new_episodes
from sitegen.publishing.difference import dropped_addresses
from sitegen.publishing.file_source import BuiltSite, FileSource
from sitegen.publishing.headers import brotli_is_missing
from sitegen.publishing.lease import Lease, current_holder, this_holder
from sitegen.publishing.publications import read_history
from sitegen.publishing.publisher import Comparison, Publisher
from sitegen.publishing.redaction import redact
from sitegen.publishing.restore import compare_for_restore, find_publication
from sitegen.publishing.site_files import site_files, stored_as
from sitegen.publishing.target_errors import TargetError
from sitegen.publishing.targets import choose, store_for
from sitegen.system.cache_folders import cache_folder


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("target", nargs="?", metavar="TARGET", help="a name under publish: in series.yaml")
    add_folders(parser, out=True)
    add_release_day(parser)
    parser.add_argument(
        "--pages-only", action="store_true", help="leave out the PDF files and the pictures for links"
    )
    parser.add_argument("--preview-only", action="store_true", help="show what would change, and stop")
    parser.add_argument("--yes", action="store_true", help="do not ask")
    parser.add_argument("--drop", action="store_true", help="let go of addresses that nothing replaces")
    parser.add_argument(
        "--restore",
        nargs="?",
        type=int,
        const=0,
        metavar="N",
        help="bring back publication N (default: the one before) instead of building",
    )
    parser.add_argument("--take-over", action="store_true", help="go on although another run seems to")
    parser.add_argument(
        "--recheck", action="store_true", help="compare every file at the target by its bytes"
    )


def run(arguments: argparse.Namespace) -> int:
    try:
        return _publish(arguments)
    except ContentError as error:
        print_problems(error.problems)
        print("nothing was published", file=sys.stderr)
    except OutputBusy as busy:
        refuse(f"{busy}; wait for it, or stop it")
    except TargetError as error:
        refuse(redact(f"{error.what}\n    {error.advice}" if error.advice else error.what))
    except KeyboardInterrupt:
        print(
            "\nstopped; the site at the target is whole, and a second run goes on from here", file=sys.stderr
        )
        return STOPPED
    return PROBLEMS


def _publish(arguments: argparse.Namespace) -> int:
    content = content_folder(arguments)
    out = out_folder(arguments, content)
    builder = Builder(content, out, today=release_day(arguments), pdf=not arguments.pages_only)
    restoring = arguments.restore is not None
    series, problems = _check(builder, although_bad=restoring)
    if _holds_placeholders(problems):
        return PROBLEMS
    target = series.details.publish[choose(series.details.publish, arguments.target)]
    taken = (content, out, clients_folder(content), *([builder.shared] if builder.shared else ()))
    store = store_for(target, base=content.parent, caches=cache_folder(out), taken=taken)
    if not restoring:
        checked, series = series, _build(builder)
        if series.digests != checked.digests:
            message = "a file was saved after the content was checked, so nothing was sent: publish again"
            print(message, file=sys.stderr)
            return PROBLEMS
        print(f"checked: {count_line(problems)}" + (" (sitegen check lists them)" if problems else ""))
        _show_doubts(problems, series)
    store.open()
    try:
        publisher = Publisher(store, lambda: datetime.now(UTC), _show_progress)
        comparison, source = _compare(arguments, publisher, out)
        return _go_on(arguments, publisher, comparison, source, series, out)
    finally:
        store.close()


def _check(builder: Builder, *, although_bad: bool) -> tuple[Series, list[Problem]]:
    """The series with its warnings. Raises ContentError where it has problems, checks included.

    To bring an earlier publication back, ``although_bad``, only series.yaml must be readable.
    """
    found = builder.read()
    if although_bad and found.series is not None:
        return found.series, []
    problems = list(found.problems)
    if found.series is not None and not any(p.severity == "problem" for p in problems):
        problems += warnings(Material(found.series, found.cues), builder.content)
    if found.series is None or any(p.severity == "problem" for p in problems):
        raise ContentError(problems)
    return found.series, problems


def _holds_placeholders(problems: list[Problem]) -> bool:
    """Whether something waits to be replaced that must not go out; says what."""
    held = [problem for problem in problems if problem.check in NEVER_PUBLISHED]
    for problem in held:
        print(problem, file=sys.stderr)
    if held:
        print("nothing was published: put these right first", file=sys.stderr)
    return bool(held)


def _show_doubts(problems: list[Problem], series: Series) -> None:
    """Show in full what clients would train by although it is in doubt."""
    out = {series.details.location.file, *(episode.location.file for episode in series.episodes)}
    out |= {block.location.file for episode in series.episodes for block in episode.blocks}
    out |= {exercise.location.file for exercise in series.exercises.values()}
    for problem in problems:
        if problem.check in ASKED_BEFORE_PUBLISHING and problem.file in out:
            print(problem)


def _build(builder: Builder) -> Series:
    """The series as it is in the built site: without what is not out yet."""
    built = builder.build()
    builder.remember()
    if built.unprinted:
        print(f"sheets without PDF files: {built.unprinted} (the README says what prints them)")
    return built.series


def _compare(arguments: argparse.Namespace, publisher: Publisher, out: Path) -> tuple[Comparison, FileSource]:
    store = publisher.store
    if arguments.restore is not None:
        publication = find_publication(read_history(store), arguments.restore or None)
        return compare_for_restore(publisher, publication)
    if brotli_is_missing(store.compress):
        print('text is stored as gzip: for brotli, pip install "sitegen[publish-brotli]"')
    compress = store.compress if store.keeps_headers else "none"
    wanted = stored_as(site_files(out, cache_folder(out) / "published-files.json"), compress)
    return publisher.compare(wanted, thorough=arguments.recheck), BuiltSite(out)


def _go_on(
    arguments: argparse.Namespace,
    publisher: Publisher,
    comparison: Comparison,
    source: FileSource,
    series: Series,
    out: Path,
) -> int:
    """Show what would change; then ask and send."""
    store = publisher.store
    _say(messages.before(store.where, comparison))
    if arguments.restore is None and not arguments.drop and _would_drop(comparison, series):
        return PROBLEMS
    done = comparison.difference.nothing and not comparison.history.unfinished
    if done and comparison.history.current is not None:
        print("the site is out as it is; there is nothing to send")
        return OK
    if arguments.preview_only:
        if (somebody := current_holder(store)) is not None:
            print(f"{somebody.name} has been publishing there since {somebody.since}")
        return OK
    answer = _ask(arguments)
    if answer is not None:
        return answer
    holder = this_holder(cache_folder(out), datetime.now(UTC))
    title = messages.title_of(comparison.difference)
    with Lease(store, holder, take_over=arguments.take_over) as lease:
        sent = publisher.send(comparison, source, lease, title)
    _say(messages.after(store.where, sent))
    if arguments.restore is None:
        _say(_what_to_send(comparison, series, out))
    return OK


def _would_drop(comparison: Comparison, series: Series) -> bool:
    """Whether addresses would be lost; says which and what to write instead."""
    history = comparison.history
    dropped = dropped_addresses(comparison.wanted, history)
    if not dropped:
        return False
    sys.stdout.flush()
    upcoming = {f"episodes/{e.slug}": e.released for e in series.upcoming if e.released is not None}
    for line in messages.refused(group_dropped(dropped, comparison.wanted, history.files), upcoming):
        print(line, file=sys.stderr)
    return True


def _ask(arguments: argparse.Namespace) -> int | None:
    """None to go on; otherwise the exit status to stop with."""
    if arguments.yes:
        return None
    if not sys.stdin.isatty():
        return refuse("nobody is here to ask; add --yes to publish, or --preview-only")
    if input("Publish this? [y/N] ").strip().lower() in ("y", "yes"):
        return None
    print("nothing was published")
    return OK


def _what_to_send(comparison: Comparison, series: Series, out: Path) -> Iterable[str]:
    """The texts of the newest of the episodes that have just come out, and the addresses of all."""
    added = comparison.wanted.keys() - comparison.history.files.keys()
    slugs = new_episodes(added, series)
    if not slugs:
        return [f"clients see it at {series.details.address}"]
    newest, *others = (episode_texts(series.details, out, slug) for slug in slugs)
    return messages.texts(newest, others)


def _say(lines: Iterable[str]) -> None:
    for line in lines:
        print(redact(line))


def _show_progress(what: str, done: int, total: int) -> None:
    """One line that counts up by tens, on a terminal only."""
    if sys.stderr.isatty() and (done % 10 == 0 or done == total):
        end = "\n" if done == total else ""
        print(f"\r{what}: {done} of {total}  ", end=end, file=sys.stderr, flush=True)
