"""A client's file to her record: the same shapes, places and advice as for the content."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from sitegen.clients.client import Amounts, Client, form_key
from sitegen.clients.file_schema import CLIENT
from sitegen.clients.folder import client_files
from sitegen.model import Details, Kit, Series
from sitegen.notation import Load
from sitegen.problems import ContentError, Location, Problem, in_file, in_order
from sitegen.reading.folder import CLIENTS_FOLDER
from sitegen.reading.reader import locate_all
from sitegen.reading.reference_advice import exercise_advice, id_advice, kit_names
from sitegen.reading.reference_checks import ReferenceChecks
from sitegen.reading.schemas.report import BAD, Reading
from sitegen.reading.slip_trials import read_yaml
from sitegen.reading.textfile import BadFile
from sitegen.study.forms import Form, FormKey, Forms, forms_of
from sitegen.study.sides import each_of_what
from sitegen.study.vessels import fits, takes


def read_client(folder: Path, client_id: str, series: Series) -> Client:
    """The client of that name, every id settled. Raises ContentError with every problem."""
    path = folder / f"{client_id}.yaml"
    if path not in client_files(folder):
        known = ", ".join(file.stem for file in client_files(folder)) or "none yet"
        file, message = f"{CLIENTS_FOLDER}/{client_id}.yaml", f"there is no such file in {folder}"
        advice = f"write it, or name another client; known: {known}"
        raise ContentError([in_file("no-client", file, message, advice)])
    client, problems = read_file(path, series)
    if client is None:
        raise ContentError(problems)
    return client


def read_file(path: Path, series: Series) -> tuple[Client | None, list[Problem]]:
    """The client of a file, None where it has problems, and the problems."""
    file = f"{CLIENTS_FOLDER}/{path.name}"
    try:
        data = path.read_bytes()
    except OSError as error:
        message = f"the file cannot be read ({error.strerror or error})"
        return None, [in_file("unreadable", file, message)]
    reading = Reading(file, data)
    try:
        root, value = read_yaml(data, file, CLIENT, reading)
    except BadFile as fault:
        return None, [fault.problem]
    if root is None:
        return None, in_order(reading.problems)
    # What is wrong with one key hides nothing that is wrong with the others.
    fields = CLIENT.fields(root, Reading(file, data, lenient=True)) if value is BAD else value
    client = Client(id=path.stem, location=Location(file), **{"name": path.stem, **fields})
    linker = _Linker(client, series)
    client = linker.linked()
    problems = [*reading.problems, *locate_all(linker.problems, lambda _: data)]
    bad = value is BAD or any(problem.severity == "problem" for problem in problems)
    return None if bad else client, in_order(problems)


class _Linker:
    """Settles what a client's file names, collecting problems on the way."""

    def __init__(self, client: Client, series: Series) -> None:
        self._client, self._series = client, series
        self._details: Details = series.details
        self._forms: Forms = forms_of(series.exercises)
        self._checks = ReferenceChecks((), frozenset(), series.details)
        self.problems = self._checks.problems

    def linked(self) -> Client:
        """The client with the piece of kit of every load settled."""
        client, location = self._client, self._client.location
        self._checks.check_needs(client.needs, location.at("needs"))
        self._checks.check_kit(client.kit or (), location.at("kit"))
        self._checks.check_demands(client.avoids, location.at("avoids"))
        for index, reference in enumerate(client.leave_out):
            self._form(reference, location.at("leave_out", index))
        for key, slugs in (("skip", client.skip), ("repeat", client.repeat), ("notes", client.notes)):
            self._check_sessions(slugs, location.at(key))
        exchanges = {
            reference: self._exchange(reference, location.at("exchanges", reference))
            for reference in client.exchanges
        }
        loads = {piece: self._kit_load(piece, load) for piece, load in client.loads.items()}
        exercises = {
            reference: self._amounts(reference, own, location.at("exercises", reference))
            for reference, own in client.exercises.items()
        }
        proposals = tuple(
            self._amounts(
                one.form, one, location.at("proposals", index), location.at("proposals", index, "form")
            )
            for index, one in enumerate(client.proposals)
        )
        return replace(client, exchanges=exchanges, loads=loads, exercises=exercises, proposals=proposals)

    def _check_sessions(self, slugs: Iterable[str], location: Location) -> None:
        names = {episode.slug: (episode.title, str(episode.number)) for episode in self._series.sessions}
        for index, slug in enumerate(slugs):
            if slug not in names:
                at = location.at(index if location.path == ("skip",) else slug)
                self._checks.unknown("session", slug, names, at)

    def _form(self, reference: str, location: Location) -> Form | None:
        key = form_key(reference)
        exercise = self._series.exercises.get(key.exercise)
        if exercise is None:
            advice = exercise_advice(key.exercise, self._series.exercises, joined=True)
            message = f"there is no exercise {key.exercise!r}"
            self._checks.report("unknown-exercise", location, message, advice)
            return None
        if key.variant is not None and exercise.variant(key.variant) is None:
            names = {variant.id: (variant.name,) for variant in exercise.variants}
            message = f"{key.exercise} has no variant {key.variant!r}"
            self._checks.report("unknown-variant", location, message, id_advice(key.variant, names))
            return None
        return self._forms[key]

    def _exchange(self, reference: str, location: Location) -> Any:
        exchange = self._client.exchanges[reference]
        if self._form(reference, location) is None:
            return exchange
        exercise = exchange.exercise or form_key(reference).exercise
        there = exercise if exchange.variant is None else f"{exercise}/{exchange.variant}"
        form = self._form(there, location.at("variant" if exchange.exercise is None else "exercise"))
        return exchange if form is None else self._settled(form, exchange, location)

    def _amounts(self, reference: str, own: Any, location: Location, named_at: Location | None = None) -> Any:
        """``own`` with the piece of its load settled; it may be a proposal as well."""
        form = self._form(reference, named_at or location)
        return own if form is None else self._settled(form, own, location)

    def _settled(self, form: Form, own: Any, location: Location) -> Any:
        """``own`` with the piece of its load settled; a bare ``each`` of its dose is asked about."""
        if asked := each_of_what(own.dose, form, self._series.exercises[form.key.exercise]):
            self._checks.report("each-of-what", location.at("dose"), *asked)
        if own.load is None:
            return own
        return replace(own, load=self._checks.placed(own.load, form, location.at("load")))

    def _kit_load(self, piece_id: str, load: Load) -> Load:
        location = self._client.location.at("loads", piece_id)
        if piece_id not in self._details.kit:
            self._checks.unknown("kit", piece_id, kit_names(self._details), location)
            return load
        piece, part = self._details.kit[piece_id], load.parts[0]
        if not (takes(part, piece) and fits(part, piece)):
            message = f"{piece.name!r} ({piece_id}) cannot be {part}"
            self._checks.report("load-too-large", location, message, _room(piece))
        return Load((replace(part, piece=piece_id),))


def _room(piece: Kit) -> str:
    if piece.weighs:
        return f"it weighs {' or '.join(map(str, piece.weighs))}"
    if piece.holds:
        return f"it holds {piece.holds} at most"
    return "series.yaml says of it no holds: and no weighs:"


def own_amounts(client: Client) -> Mapping[FormKey, Amounts]:
    """Her own amounts by form; an accepted proposal takes the place of what stood there before."""
    amounts = {form_key(reference): own for reference, own in client.exercises.items()}
    for one in client.proposals:
        if one.accept:
            key = form_key(one.form)
            before = amounts.get(key, Amounts())
            amounts[key] = Amounts(dose=one.dose or before.dose, load=one.load or before.load)
    return amounts
