"""What each need makes of an item: whether it keeps the movement whole, less of it, or nothing."""

from dataclasses import dataclass

from sitegen.composing.so_far import SoFar
from sitegen.model import Block, Item
from sitegen.study.forms import shown_form
from sitegen.study.suitability import Suitability


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedsKept:
    """What each need makes of an item, by the ids of needs."""

    whole: tuple[str, ...]
    """The same movement and muscles, loaded where it is loaded."""
    less: tuple[tuple[str, str], ...]
    """Another form that trains less of the same, or without the load, with its name."""
    gap: tuple[str, ...]
    """No form at all."""
    astray: frozenset[str]
    """None that trains a prime muscle of it."""


class ForNeeds:
    """Asks the same chooser as the pages of the site."""

    def __init__(self, so_far: SoFar) -> None:
        self._details = so_far.details
        self._forms = so_far.forms
        self._suitability = Suitability(so_far.details, so_far.forms)

    def kept(self, block: Block, item: Item) -> NeedsKept:
        """What every need of the series makes of an item in a block."""
        whole, less, gap, astray = [], [], [], set()
        form = shown_form(self._forms, item)
        kit = frozenset(form.kit)
        for need in self._details.needs:
            fitting = self._suitability.fitting(block, item, [need], kit)
            if not fitting or not self._suitability.trains_the_same(item, fitting[0].form):
                astray.add(need)
            if not fitting:
                gap.append(need)
            elif not fitting[0].near.unlike and not fitting[0].near.load_lost:
                whole.append(need)
            else:
                less.append((need, fitting[0].form.name))
        return NeedsKept(whole=tuple(whole), less=tuple(less), gap=tuple(gap), astray=frozenset(astray))
