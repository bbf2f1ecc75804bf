"""A version for somebody's needs in a reader's words: what to do, what to hold, and what is lost."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from sitegen.model import Block
from sitegen.notation import Dose, Effort, Load
from sitegen.notation.quantity import KG_PER_LB
from sitegen.pages.load_words import load_words
from sitegen.pages.site import Site
from sitegen.study.nearness import Loss
from sitegen.study.need_limits import WORKING_KINDS, rpe_of
from sitegen.study.version import Version

TOLD_KINDS = WORKING_KINDS
"""Kinds of block in which lost muscles and loads are told: elsewhere nothing is trained hard."""


class VersionWords:
    """Words of one site's versions."""

    def __init__(self, site: Site) -> None:
        self._site = site
        self._words = site.theme.strings.version
        self._muscles = site.theme.strings.exercise.muscle_words

    def change(self, version: Version) -> str:
        """Whether it is easier or harder than the form filmed, or stands in its place; empty for that form
        itself."""
        if not version.steps:
            return ""
        rise = version.rise if version.compared else 0
        change = "progression" if rise > 0 else "regression" if rise < 0 else "substitution"
        return self._site.phrases.words("changes", change)

    def dose(self, block: Block, version: Version) -> str:
        """What one set asks for; the work time where the format sets it."""
        return self._site.phrases.dose_or_work(version.dose, block)

    def effort(self, version: Version) -> str:
        """How hard it should be; as a bound where a limit made it less."""
        effort = version.effort
        if effort is None or "effort" not in version.limited:
            return self._site.phrases.effort(effort)
        most = rpe_of(effort)
        return str(self._words.at_most.format(effort=self._site.phrases.effort(Effort("rpe", most, most))))

    def tempo(self, version: Version) -> str:
        """The tempo as written or as a limit made it."""
        return self._site.phrases.tempo(version.tempo)

    def load(self, version: Version) -> str:
        """What is held, with its weight; what may be, where nobody wrote it; empty for nothing."""
        return self._load(version, version.load)

    def short_load(self, version: Version) -> str:
        """What is held, without its weight where somebody wrote what it is."""
        return self._site.phrases.load(version.load) or self.load(version)

    def held(self, version: Version) -> list[tuple[str, str]]:
        """Pieces of kit by id with what is held in each."""
        if version.load is None:
            if not version.own_load or not self.load(version):
                return []
            return [(piece, self.load(version)) for piece in version.form.kit if self._is_load(piece)]
        load, held = version.load, []
        for piece in dict.fromkeys(part.piece for part in load.parts if part.piece):
            mine = load.only(lambda part, piece=piece: part.piece == piece)  # type: ignore[misc]
            held.append((piece, self._load(version, mine)))
        return held

    def _load(self, version: Version, load: Load | None) -> str:
        if load is not None:
            return load_words(self._site, load)
        if not version.own_load:
            return ""
        mass = mass_words(version.most_kg, self._site.details.units) if version.most_kg is not None else ""
        # What a need allows is no dose: only what the trainer wrote of the form itself stands as a load.
        if mass and "light" in version.limited:
            return str(self._words.own_load_below.format(load=self._light(version), mass=mass))
        if mass:
            return str(self._words.most.format(mass=mass))
        return self._light(version) if version.steps else ""

    def _light(self, version: Version) -> str:
        """The load to begin with, where nobody wrote one."""
        kit = self._site.details.kit
        weights = [mass for piece in version.form.kit for mass in kit[piece].weighs]
        if not weights:
            return str(self._words.own_load)
        return str(self._words.lightest.format(mass=min(weights, key=lambda mass: mass.base)))

    def _is_load(self, piece: str) -> bool:
        kit = self._site.details.kit[piece]
        return bool(kit.holds or kit.weighs)

    def harder(self, version: Version) -> str:
        """That it is harder than the form filmed, or may be, with who chose it; empty where it is not."""
        for one in version.lost:
            if one.what in _HARDER:
                return self.chosen if version.own_choice else str(self._words.lost[one.what])
        return ""

    @property
    def chosen(self) -> str:
        """What is said of one that is harder, or may be, where the trainer chose it: nothing was sought."""
        return str(self._words.chosen.format(trainer=self._site.details.trainer.name))

    def said(self, block: Block, version: Version) -> list[str]:
        """What is lost against the form filmed, a sentence for each, but for whether it is harder."""
        told = block.kind in TOLD_KINDS
        lost = [one for one in version.lost if told or one.what in _TOLD_EVERYWHERE]
        return [text for one in lost if one.what not in _HARDER for text in self._lost(one, version)]

    def limited(self, version: Version) -> list[str]:
        """What the limits of the needs changed, a few words for each."""
        return [str(self._words.limited[change]) for change in dict.fromkeys(version.limited)]

    def all_said(self, block: Block, version: Version) -> str:
        """All that is lost or changed, in one paragraph."""
        changes = self._words.muscles_between.join(self.limited(version))
        return " ".join(
            [
                *filter(None, [self.harder(version)]),
                *self.said(block, version),
                *([self.changes.format(changes=changes)] if changes else []),
            ]
        )

    @property
    def changes(self) -> str:
        """The sentence for what limits changed, with ``{changes}`` to fill in."""
        return str(self._words.changes)

    def _lost(self, loss: Loss, version: Version) -> Iterator[str]:
        """A sentence for it; two where some muscles are trained less and others not at all."""
        none = tuple(muscle for muscle in loss.names if muscle not in version.form.muscles.assist)
        less = tuple(muscle for muscle in loss.names if muscle not in none)
        if less or not loss.names:
            yield str(self._words.lost[loss.what].format(muscles=self._named(less)))
        if none:
            yield str(self._words.untrained.format(muscles=self._named(none)))

    def _named(self, muscles: Sequence[str]) -> str:
        names = [str(self._muscles.get(muscle, muscle)) for muscle in muscles]
        *before, last = names or [""]
        return str(
            self._words.muscles_and.join(
                [*([self._words.muscles_between.join(before)] if before else []), last]
            )
        )


_HARDER = ("harder", "not compared")
_TOLD_EVERYWHERE = ("more", "less", "other dose", "again")


def mass_words(kg: float, units: str) -> str:
    """A limit in the unit of a system, never rounded up."""
    metric = units == "metric"
    amount = math.floor((kg if metric else kg / KG_PER_LB) * 10 + 1e-6) / 10
    return f"{amount:g} {'kg' if metric else 'lb'}"


def one_side(dose: Dose | None) -> Dose | None:
    """The part of a dose that one side does; None where it is not done side by side."""
    if dose is None or not dose.per_side:
        return None
    return replace(dose, per_side=False, sets=tuple(replace(one, per_side=False) for one in dose.sets))


def timed_seconds(block: Block, dose: Dose | None) -> int:
    """How long one set (of one side) is worked by the clock, at most; 0 where it is counted."""
    if dose is not None and dose.kind == "time":
        return dose.high
    return block.work.high if dose is None and block.work else 0
