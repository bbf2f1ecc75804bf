"""Demands that an exercise does not list and its words, muscles or pattern tell.

They are its own until its file settles it: by listing them, or by ``demands_kept:`` with the reason why not.
"""

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, replace

from sitegen.model import Exercise, Kit, Muscles, Variant
from sitegen.study.demand_words import DemandReader, nobody_stands
from sitegen.study.forms import Form, FormKey
from sitegen.study.usual_demands import usual_demands
from sitegen.vocabulary import MOVING_LEGS, ON_THE_LEGS, UNTOLD


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidDemands:
    """Finds what exercises say beyond the demands that they list."""

    reader: DemandReader
    leg_muscles: Set[str]
    kit: Mapping[str, Kit]

    def added_to(self, exercise: Exercise, forms: Mapping[FormKey, Form]) -> Exercise:
        """The exercise with the demands that it only says, in all of its forms."""
        main = self._only_said(forms[FormKey(exercise.id)], exercise.summary)
        variants = []
        for variant in exercise.variants:
            form = forms[FormKey(exercise.id, variant.id)]
            # What the main form lists and a variant does not was left out there on purpose.
            said = () if variant.exercise is not None else self._only_said(form, left_out=exercise.demands)
            new = tuple(demand for demand in said if variant.demands is not None or demand not in main)
            variants.append(replace(variant, demands=(*form.demands, *said), said=new) if new else variant)
        if not main and not any(variant.said for variant in variants):
            return exercise
        return replace(exercise, demands=(*exercise.demands, *main), said=main, variants=tuple(variants))

    def may_add_to(self, exercise: Exercise) -> bool:
        """Whether an exercise may say more than it lists.

        A quick look that works out no forms, which would cost more than all of the rest of linking a library.
        In doubt it says yes.
        """
        texts = (exercise.name, exercise.summary, *exercise.cues)
        if self._may_say_more(exercise.demands, exercise.muscles, texts):
            return True
        if exercise.poses is None and self._usual(exercise.pattern, exercise.demands, exercise.kit):
            return True
        return any(
            variant.exercise is None and self._variant_may_say_more(exercise, variant)
            for variant in exercise.variants
        )

    def _variant_may_say_more(self, exercise: Exercise, variant: Variant) -> bool:
        ancestry = tuple(exercise.ancestry(variant.id))
        if any(one.exercise is not None for one in ancestry):
            return True
        demands = next((one.demands for one in ancestry if one.demands is not None), exercise.demands)
        muscles = next((one.muscles for one in ancestry if one.muscles is not None), exercise.muscles)
        cues = next((one.cues for one in ancestry if one.cues), exercise.cues)
        if self._may_say_more(demands, muscles, (variant.name, *cues)):
            return True
        if exercise.poses is not None or any(one.poses is not None for one in ancestry):
            return False
        pattern = next((one.pattern for one in ancestry if one.pattern is not None), exercise.pattern)
        kit = next((one.kit for one in ancestry if one.kit is not None), exercise.kit)
        return not set(exercise.demands).issuperset(self._usual(pattern, demands, kit))

    def _may_say_more(self, demands: tuple[str, ...], muscles: Muscles, texts: tuple[str, ...]) -> bool:
        told = {demand for text in texts for demand, _ in self.reader.in_title(text)}
        jumps = "jumping" in demands and "standing" not in demands
        return jumps or not told.issubset(demands) or self._moves_legs(demands, muscles)

    def _only_said(self, form: Form, summary: str = "", left_out: tuple[str, ...] = ()) -> tuple[str, ...]:
        """``left_out``: what is usual, and no doubt where it is not listed."""
        if UNTOLD in form.demands:  # nobody with a need is given it anyway
            return ()
        told = dict.fromkeys(self._told(form, summary))
        if not any(self.kit[piece].may_weigh for piece in form.kit if piece in self.kit):
            told.pop("twisting under load", None)  # with empty hands a twist is another word's
        # Who jumps stands, unless poses or words show a seat.
        jumps = "jumping" in (*form.demands, *told)
        if jumps and form.poses is None and not nobody_stands(f"{form.name} {summary}"):
            told["standing"] = None
        if form.poses is None:
            usual = self._usual(form.pattern, (*form.demands, *told), form.kit)
            told |= dict.fromkeys(word for word in usual if word not in left_out)
        if not ON_THE_LEGS.isdisjoint((*form.demands, *told)):
            told.pop(MOVING_LEGS, None)
        elif self._moves_legs(form.demands, form.muscles):
            told[MOVING_LEGS] = None
        return tuple(word for word in told if word not in form.demands and word not in form.demands_kept)

    def _usual(self, pattern: str, demands: tuple[str, ...], kit: tuple[str, ...]) -> tuple[str, ...]:
        pieces = (self.kit[piece] for piece in kit if piece in self.kit)
        return tuple(usual_demands(pattern, set(demands), pieces))

    def _told(self, form: Form, summary: str) -> Iterator[str]:
        posed = form.poses is not None
        for title in (form.name, summary):
            yield from (demand for demand, _ in self.reader.in_title(title, posed=posed))
        for cue in form.cues:
            yield from (demand for demand, _ in self.reader.demands(cue))

    def _moves_legs(self, demands: tuple[str, ...], muscles: Muscles) -> bool:
        """Whether a muscle of the legs works although they do not carry the body."""
        if not {MOVING_LEGS, *ON_THE_LEGS}.isdisjoint(demands):
            return False
        return not self.leg_muscles.isdisjoint(muscles.prime)
