"""Whether what a file refers to is there: ids of exercises, kit, needs, demands, and files."""

from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import Any

from sitegen.model import Caution, Details, Exercise, Variant
from sitegen.notation import Load
from sitegen.problems import Location, Problem, found
from sitegen.reading.files import FileResult
from sitegen.reading.folder import id_of
from sitegen.reading.kit_of_loads import placed
from sitegen.reading.reference_advice import (
    demand_advice,
    exercise_advice,
    exercise_names,
    id_advice,
    kit_names,
    meant_id,
    muscle_advice,
    need_names,
)
from sitegen.reading.suggestions import meanings, nearest
from sitegen.study.forms import Form
from sitegen.vocabulary import MUSCLE_REGIONS

_MOST_SUGGESTIONS = 200
"""Most problems of a series for which near words are looked for: it takes milliseconds each, and nobody reads
the two hundredth advice before the first ones are followed (our choice)."""


class ReferenceChecks:
    """Collects the problems of references that lead nowhere, each with what to write instead."""

    def __init__(self, results: Iterable[FileResult], files: frozenset[str], details: Details | None) -> None:
        self.problems: list[Problem] = []
        self.details = details
        """None where series.yaml is unusable: then nobody knows which kit, needs and demands there are."""
        self.files = files
        """Every file of the content folder, and of the shared library."""
        self.exercises: Mapping[str, Exercise] = {}
        """Those that are linked, by whose names others are suggested."""
        by_kind = {kind: [r for r in results if r.kind == kind] for kind in ("exercises", "routines")}
        self.ids = {kind: {id_of(r.file) for r in some} for kind, some in by_kind.items()}
        """Ids by kind, unusable files included: a reference to one is no second mistake."""
        self._routine_names: dict[str, tuple[str, ...]] = dict.fromkeys(self.ids["routines"], ())
        self._routine_names |= {id_of(r.file): (r.value["name"],) for r in by_kind["routines"] if r.usable}

    def report(
        self, check: str, location: Location, message: str, advice: str = "", instead: str = ""
    ) -> None:
        """Add a problem."""
        self.problems.append(found("problem", check, location, message, advice, instead))

    def check_kit(self, kit: Iterable[str], location: Location) -> None:
        """Whether kit of the series is named; so for the others."""
        if self.details is not None:
            self._check_ids("kit", kit, kit_names(self.details), location)

    def check_muscles(self, muscles: Any, location: Location) -> None:
        """Prime and assisting muscles of an exercise or a variant."""
        known = [*MUSCLE_REGIONS, *(self.details.muscles if self.details else ())]
        for role in ("prime", "assist"):
            for index, muscle in enumerate(getattr(muscles, role)):
                if muscle not in known:
                    advice = "correct it" if self._suggested() else muscle_advice(muscle, known)
                    message = f"there is no muscle {muscle!r}"
                    meant = [one for one in meanings("muscles", muscle) if one in known]
                    instead = meant[0] if len(meant) == 1 else ""
                    self.report("unknown-muscle", location.at(role, index), message, advice, instead)

    def check_needs(self, needs: Iterable[str], location: Location) -> None:
        """Needs of the series."""
        if self.details is not None:
            self._check_ids("need", needs, need_names(self.details), location)

    def _check_ids(
        self, what: str, ids: Iterable[str], known: Mapping[str, Iterable[str]], location: Location
    ) -> None:
        for index, one in enumerate(ids):
            if one not in known:
                self.unknown(what, one, known, location.at(index))

    def check_cautions(self, cautions: Iterable[Caution], location: Location) -> None:
        """The cautions of an exercise, a variant or an episode."""
        for index, caution in enumerate(cautions):
            self.check_caution(caution, location.at("cautions", index))

    def check_caution(self, caution: Caution, location: Location) -> None:
        """What a caution is about: kit or demands."""
        kit = self.details.kit if self.details else ()
        for place, word in enumerate(caution.about):
            if word not in kit:
                self.check_demands([word], location.at("about"), place)

    def check_demands(self, demands: Iterable[str], location: Location, first: int = 0) -> None:
        """Demands, counted from ``first`` on in their list."""
        if self.details is None:  # what the series declares is not known
            return
        for index, demand in enumerate(demands, start=first):
            if demand not in self._demand_sentences:
                advice = demand_advice(demand, self._demand_sentences, suggest=not self._suggested())
                message = f"there is no demand {demand!r}"
                self.report("unknown-demand", location.at(index), message, advice)

    @cached_property
    def _demand_sentences(self) -> Mapping[str, str]:
        return self.details.demand_sentences if self.details else {}

    def placed(self, load: Load, form: Form, location: Location | None) -> Load:
        """The load with its pieces of kit settled; what is wrong with it is told where it has a location."""
        settled, complaints = placed(load, form, self.details.kit if self.details else {})
        if location is not None:
            for one in complaints:
                at = location.at(one.piece) if one.piece else location
                self.report(one.check, at, one.message, one.advice)
        return settled

    def check_pictures(self, owner: Exercise | Variant, location: Location) -> None:
        """The files of pictures."""
        for index, picture in enumerate(owner.pictures):
            self.check_file(picture.file, location.at("pictures", index, "file"), "missing-media")

    def check_file(self, file: str, location: Location, check: str) -> None:
        """Whether a file that is named lies in the content folder."""
        if file in self.files:
            return
        near = None if self._suggested() else nearest(file, self.files)
        advice = f"did you mean {near!r}?" if near else "put the file there, or leave the key out"
        self.report(check, location, f"there is no file {file!r} in the content folder", advice)

    def unknown(
        self, what: str, word: str, known: Iterable[str] | Mapping[str, Iterable[str]], location: Location
    ) -> None:
        """Report a reference that leads nowhere; ``known`` are ids, with their names where they have any."""
        names = known if isinstance(known, Mapping) else dict.fromkeys(known, ())
        # Of ids only kit has common names.
        kind = what if what == "kit" else None
        advice = "correct it" if self._suggested() else id_advice(word, names, kind)
        instead = meant_id(word, names)
        self.report(f"unknown-{what}", location, f"there is no {what} {word!r}", advice, instead)

    def unknown_exercise(self, word: str, location: Location) -> None:
        """Report an exercise that is not there."""
        advice = "correct it" if self._suggested() else exercise_advice(word, self.exercises)
        instead = meant_id(word, exercise_names(self.exercises))
        self.report("unknown-exercise", location, f"there is no exercise {word!r}", advice, instead)

    def unknown_routine(self, word: str, location: Location) -> None:
        """Report a shared block that is not there."""
        self.unknown("routine", word, self._routine_names, location)

    def _suggested(self) -> bool:
        """True once so many words were looked for that more would only take time."""
        return len(self.problems) >= _MOST_SUGGESTIONS
