"""What a trainer should know of a client's plan before it is sent: warnings, and unsafe exchanges."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from sitegen.clients.client import Client, reference_of
from sitegen.clients.folder import client_files
from sitegen.clients.reading import read_file
from sitegen.clients.tailored import LEFT_OUT, NOT_AT_HOME, Tailor, TailoredItem, TailoredSession
from sitegen.model import Limits, Series
from sitegen.notation import Dose, Load
from sitegen.notation.english import listed
from sitegen.problems import Location, Problem, found, in_file, in_order
from sitegen.reading.reader import locate_all
from sitegen.study.avoided_in_vain import avoided_in_vain, declared_demands
from sitegen.study.forms import FormKey
from sitegen.study.need_limits import rpe_of
from sitegen.study.unusual_amounts import unusual_in_dose_and_load
from sitegen.vocabulary import UNTOLD, is_told


def check_clients(folder: Path, series: Series) -> list[Problem]:
    """Every problem and warning of every client's file."""
    problems: list[Problem] = []
    for path in client_files(folder):
        client, wrong = read_file(path, series)
        problems += wrong
        if client is not None:
            data = path.read_bytes()
            problems += locate_all(check_client(series, client), lambda _, data=data: data)  # type: ignore[misc]
    return in_order([*problems, *left_behind(folder)])


def left_behind(folder: Path) -> Iterator[Problem]:
    """Folders of plans whose client's file is gone: health data that nobody looks after any more."""
    names = {path.stem for path in client_files(folder)}
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        if path.is_dir() and path.name not in names and any(path.glob("*-plan.html")):
            place = f"{folder.name}/{path.name}"
            message = f"it holds a client's plan, but there is no {path.name}.yaml beside it any more"
            advice = f"delete the folder if this client has left; or put {path.name}.yaml back"
            yield in_file("client-left-behind", place, message, advice, severity="warning")


def check_client(series: Series, client: Client) -> list[Problem]:
    """What the checks find in one client's plan; places are still locations."""
    return check_tailored(Tailor(series, client))


_OLDER, _HARD = 65, 8
"""Years from which on guidelines speak of older adults, and the effort from 0 to 10 that is hard for them:
moderate is 5 or 6, vigorous begins at 7 or 8 (Physical Activity Guidelines for Americans, 2nd edition, from
memory)."""


def check_tailored(tailor: Tailor) -> list[Problem]:
    """What the checks find in the plan of somebody whose sessions are fitted already."""
    client, sessions = tailor.client, tailor.sessions()
    return [
        *_unusual_amounts(client),
        *_nothing_known(client),
        *_not_filmed(client, sessions),
        *_hard_at_her_age(client, tailor, sessions),
        *_exchanges(client, tailor, sessions),
        *_gaps(client, sessions),
        *_refused(client, sessions),
        *_unused(client, sessions),
        *_nothing_left(client, sessions),
        *_avoided_in_vain(client, tailor),
        *_tests(client, tailor),
    ]


def unsafe(problems: Iterable[Problem]) -> list[Problem]:
    """Those that keep a plan from being made."""
    return [problem for problem in problems if problem.severity == "problem"]


def _items(sessions: Iterable[TailoredSession]) -> Iterator[tuple[TailoredSession, TailoredItem]]:
    return ((session, one) for session in sessions for _, items in session.blocks for one in items)


def _unusual_amounts(client: Client) -> Iterator[Problem]:
    """Amounts of her own that go far beyond what is usual at home."""
    amounts: list[tuple[Location, Dose | None, Load | None]] = []
    for reference, own in client.exercises.items():
        amounts.append((client.location.at("exercises", reference), own.dose, own.load))
    for reference, exchange in client.exchanges.items():
        amounts.append((client.location.at("exchanges", reference), exchange.dose, exchange.load))
    for index, proposal in enumerate(client.proposals):
        amounts.append((client.location.at("proposals", index), proposal.dose, proposal.load))
    for location, dose, load in amounts:
        for amount in unusual_in_dose_and_load(dose, load):
            yield found("warning", amount.check, location.at(*amount.keys), amount.message, amount.advice)


def _not_filmed(client: Client, sessions: Iterable[TailoredSession]) -> Iterator[Problem]:
    """Sessions of which she would have words and drawings only."""
    titles = [repr(one.filmed.title) for one in sessions if one.filmed.video is None]
    if titles:
        message = f"no video shows her how: {listed(titles)}"
        advice = "send this plan once they are filmed, or leave them out of it with skip:"
        yield found("warning", "not-filmed", client.location, message, advice)


def _hard_at_her_age(
    client: Client, tailor: Tailor, sessions: Iterable[TailoredSession]
) -> Iterator[Problem]:
    """Hard sets for somebody of 65 and more whose effort nothing limits."""
    if client.age is None or client.age < _OLDER or tailor.most_effort is not None:
        return
    versions = [(session, one.version) for session, one in _items(sessions) if one.version is not None]
    for session, version in versions:
        if version.effort is not None and rpe_of(version.effort) >= _HARD:
            message = (
                f"{client.name} is {client.age}, and {session.filmed.title!r} asks for an effort of "
                f"{version.effort} in {version.form.name!r}: nothing in her file or needs limits it"
            )
            advice = "write limits: {effort: at least 4 in reserve}, or what her doctor agreed to"
            yield found("warning", "hard-at-her-age", client.location.at("age"), message, advice)
            return


def _nothing_known(client: Client) -> Iterator[Problem]:
    """A file that says neither what she needs nor what she avoids: her plan is as filmed."""
    if not client.needs and not client.avoids and client.limits == Limits():
        message = (
            f"nothing is known of what {client.name} must avoid: no form was chosen for a need, and the plan "
            "says so"
        )
        advice = f"ask {client.name}; write needs:, avoids: or limits:"
        yield found("warning", "client-unknown", client.location, message, advice)


def _exchanges(client: Client, tailor: Tailor, sessions: list[TailoredSession]) -> Iterator[Problem]:
    """An exchange that is not given as written, because it is not safe for her."""
    told: set[str] = set()
    for _, one in _items(sessions):
        reference = reference_of(FormKey(one.filmed.exercise, one.filmed.variant))
        exchange = client.exchanges.get(reference)
        if exchange is None or reference in told:
            continue
        wanted = FormKey(exchange.exercise or one.filmed.exercise, exchange.variant)
        if one.version is None or one.version.form.key != wanted:
            told.add(reference)
            why = ", ".join(map(_word, tailor.in_the_way(wanted))) or "a limit"
            message = f"the exchange for {reference} is not safe for {client.name}: {why}"
            advice = (
                f"choose a form without what {client.name} avoids, within the limits and with the kit at home"
            )
            at = client.location.at("exchanges", reference)
            yield found("problem", "client-exchange", at, message, advice)


def _gaps(client: Client, sessions: list[TailoredSession]) -> Iterator[Problem]:
    """What she is given nothing for."""
    for session in sessions:
        for block, one in session.gaps:
            what = reference_of(FormKey(one.asked.exercise, one.asked.variant))
            why = ", ".join(map(_word, one.in_the_way)) or "a limit"
            message = f"session {session.filmed.number}, {block.name}: nothing fits instead of {what} ({why})"
            advice = f"it is left out; give {client.name} an exchange, or look at what stands in the way"
            if UNTOLD in one.in_the_way:
                advice = (
                    f"write demands: for {what} in the file of the exercise {one.asked.exercise} first, "
                    f"demands: [] if it asks nothing; until then it is left out for {client.name}"
                )
            yield found("warning", "client-gap", client.location, message, advice)
        for block in session.off_purpose:
            what = f"session {session.filmed.number}, {block.name}"
            message = f"{what}: nothing in it trains the muscles it is for"
            advice = f"give {client.name} exchanges, or skip it"
            yield found("warning", "client-purpose", client.location, message, advice)


def _word(demand: str) -> str:
    return {LEFT_OUT: "left out in this file", NOT_AT_HOME: "its kit is not at home"}.get(demand, demand)


def _refused(client: Client, sessions: list[TailoredSession]) -> Iterator[Problem]:
    """A load of her own that her limits do not allow in any session."""
    told: set[str] = set()
    for _, one in _items(sessions):
        if one.version is None:
            continue
        reference = reference_of(one.version.form.key)
        if reference in told or not (one.own_refused or (one.own and "lighter" in one.version.limited)):
            continue
        told.add(reference)
        path = ("exercises", reference) if reference in client.exercises else ("loads",)
        at = client.location.at(*path)
        message = f"the own load for {reference} is more than the limits allow; {client.name} is given less"
        yield found("warning", "client-load", at, message, "write a lighter load, or change the limit")


def _unused(client: Client, sessions: list[TailoredSession]) -> Iterator[Problem]:
    """Amounts and exchanges that never come up."""
    given = {reference_of(one.version.form.key) for _, one in _items(sessions) if one.version}
    asked = {reference_of(FormKey(one.filmed.exercise, one.filmed.variant)) for _, one in _items(sessions)}
    for key, wanted, known in (
        ("exercises", client.exercises, given),
        ("exchanges", client.exchanges, asked),
    ):
        for reference in wanted:
            if reference not in known:
                message = f"{reference!r} does not come up in the sessions of {client.name}"
                advice = "name the form that is given, such as towel-row/seated-towel-row, or remove it"
                yield found("warning", "client-unused", client.location.at(key, reference), message, advice)


def _tests(client: Client, tailor: Tailor) -> Iterator[Problem]:
    """Field tests that are not for her."""
    for index, (test, in_the_way) in enumerate(tailor.tests().items()):
        if in_the_way:
            message = f"the {test} is left out of the page: it asks for {', '.join(in_the_way)}"
            advice = f"choose another, or measure with {client.name} and write the result under baseline:"
            yield found("warning", "client-test", client.location.at("tests", index), message, advice)


def _avoided_in_vain(client: Client, tailor: Tailor) -> Iterator[Problem]:
    """Words of her own file that no form of the library declares: to avoid them changes nothing for her."""
    declared = declared_demands(tailor.forms)
    for index, demand in enumerate(client.avoids):
        if is_told(demand, declared) and demand not in declared:
            location = client.location.at("avoids", index)
            message, advice = avoided_in_vain([demand], client.name)
            yield found("warning", "demand-never-declared", location, message, advice)


def _nothing_left(client: Client, sessions: list[TailoredSession]) -> Iterator[Problem]:
    for session in sessions:
        if not session.episode.blocks and session.filmed.blocks:
            message = f"nothing is left of session {session.filmed.number} for {client.name}"
            advice = f"add it to skip: [{session.filmed.slug}]"
            yield found("warning", "client-empty", client.location, message, advice)
