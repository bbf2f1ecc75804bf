"""The forms of an exercise as its page shows them: as a ladder, by kit; and what is related."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from sitegen.model import Exercise, Kit
from sitegen.pages.drawings import DrawnForm
from sitegen.pages.exercises.exercise_library import Library
from sitegen.pages.exercises.links import FormLink, form_link
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.pages.views import FaultView, PictureView, Views, markup
from sitegen.study.forms import Form, FormKey
from sitegen.study.ladder import Rung, ladder
from sitegen.study.related import RelatedExercise, related

MOST_RELATED = 6
"""Other exercises named at the foot of a page (our choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RungView:
    """One form of the ladder."""

    id: str
    """Its anchor; empty for the main form."""
    name: str
    kit: tuple[str, ...]
    main: bool
    note: Markup
    exercise: str | None
    """Id of the exercise it is, where it is one."""
    dose_change: str
    spares: tuple[str, ...]
    adds: tuple[str, ...]
    cues: tuple[Markup, ...]
    """Its own; empty where it is done as the form it is made from."""
    faults: tuple[FaultView, ...]
    pictures: tuple[PictureView, ...]
    drawing: DrawnForm | None
    """None where nothing is said about its poses."""
    move: str
    """What moves, in the trainer's words, where no drawing shows it."""
    asks: str
    """Which joints it is easier or harder on than the main form; empty where nothing can be said, and of
    another movement, where it says nothing about how to choose."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderLevel:
    """Forms of the ladder that are equally many steps easier or harder."""

    words: str
    """How many steps easier or harder than the exercise itself."""
    below_top: int
    """How many levels of the ladder are harder: the stair rises by this when it is drawn."""
    rungs: tuple[RungView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RelatedView:
    """Another exercise of the same pattern."""

    id: str
    name: str
    shared: tuple[str, ...]
    spares: tuple[str, ...]
    adds: tuple[str, ...]


class FormViews:
    """Makes the views of one site's exercises."""

    def __init__(self, site: Site, views: Views, library: Library) -> None:
        self.site, self.views, self.library = site, views, library
        self._words = site.theme.strings.exercise

    def pattern(self, exercise: Exercise) -> str:
        """The movement pattern as read."""
        return str(self._words.pattern_words.get(exercise.pattern, exercise.pattern))

    def muscles(self, exercise: Exercise) -> dict[str, tuple[str, ...]]:
        """Muscles as read, by role."""
        return {role: self._muscle_words(getattr(exercise.muscles, role)) for role in ("prime", "assist")}

    def _muscle_words(self, muscles: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(self._words.muscle_words.get(muscle, muscle) for muscle in muscles)

    def ladder(self, exercise: Exercise) -> tuple[LadderLevel, ...]:
        """The ladder from the easiest to the hardest."""
        levels: dict[int, list[RungView]] = {}
        for rung in ladder(exercise, self.site.forms):
            if not rung.apart:
                levels.setdefault(rung.level, []).append(self._rung(exercise, rung))
        return tuple(
            LadderLevel(
                words=self._level(level) or (self._words.same_level if len(rungs) > 1 else self._words.main),
                below_top=len(levels) - 1 - place,
                rungs=tuple(rungs),
            )
            for place, (level, rungs) in enumerate(levels.items())
        )

    def instead(self, exercise: Exercise) -> tuple[RungView, ...]:
        """Other movements in its place. Without a load, seated or for learning, none is "as hard" as it."""
        return tuple(self._rung(exercise, rung) for rung in ladder(exercise, self.site.forms) if rung.apart)

    def _rung(self, exercise: Exercise, rung: Rung) -> RungView:
        form, variant = rung.form, exercise.variant(rung.form.key.variant or "")
        shown = self.views.form(*form.key)
        return RungView(
            id=form.key.variant or "",
            name=form.name,
            kit=shown.kit,
            main=variant is None,
            note=markup(form.note),
            exercise=form.exercise if form.link else None,
            dose_change=self.site.phrases.change(form.dose),
            spares=self.views.spared_words(rung.spares),
            adds=self.views.demand_words(rung.adds),
            cues=shown.cues if variant and variant.cues else (),
            faults=shown.faults if variant and variant.faults else (),
            pictures=shown.pictures if variant and variant.pictures else (),
            drawing=shown.drawing,
            move=variant.move if variant and shown.drawing is None else "",
            asks="" if rung.apart else self._asks(exercise, rung),
        )

    def _asks(self, exercise: Exercise, rung: Rung) -> str:
        main = self.site.forms[FormKey(exercise.id)]
        return str(self.views.asks.compared(rung.form, main, rung.level))

    def _level(self, level: int) -> str:
        if level == 0:
            return ""
        return plural(self._words.easier if level < 0 else self._words.harder, abs(level))

    def by_kit(self, exercise: Exercise) -> list[tuple[list[Kit], list[FormLink]]]:
        """Kit, and the forms that need just that; of the main form first, then by number of pieces."""
        groups: dict[tuple[str, ...], list[Form]] = {}
        for form in self.site.forms.of(exercise.id).values():
            groups.setdefault(tuple(sorted(form.kit)), []).append(form)
        rows = sorted(groups.items(), key=lambda group: (group[1][0].key.variant is not None, len(group[0])))
        kit = self.site.details.kit
        return [
            ([kit[p] for p in pieces], [form_link(self.site, f) for f in forms]) for pieces, forms in rows
        ]

    def related(self, exercise: Exercise, alike: Iterable[str]) -> tuple[RelatedView, ...]:
        """Other exercises of the same pattern, which are ``alike``, that ask for other things."""
        main = self.site.forms[FormKey(exercise.id)]
        found = related(main, [self.site.forms[FormKey(one)] for one in alike], MOST_RELATED)
        return tuple(map(self._related, found))

    def _related(self, one: RelatedExercise) -> RelatedView:
        return RelatedView(
            id=one.form.exercise,
            name=one.form.name,
            shared=self._muscle_words(one.shared),
            spares=self.views.spared_words(one.spares),
            adds=self.views.demand_words(one.adds),
        )
