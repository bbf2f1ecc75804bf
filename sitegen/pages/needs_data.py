"""What the site's scripts know of the series' needs: the block with the id ``needs-data`` of a page."""

from collections.abc import Iterator
from functools import cached_property
from typing import Any

from markupsafe import Markup

from sitegen.pages.limit_levels import LimitLevels
from sitegen.pages.script_json import script_json
from sitegen.pages.site import Site
from sitegen.study.joint_loads import SPARED
from sitegen.study.moved_addresses import MovedAddresses, place_of
from sitegen.study.suitability import avoided_by, joints_of_needs
from sitegen.vocabulary import UNSHOWN, UNTOLD


class NeedsData:
    """The needs of one site."""

    def __init__(self, site: Site) -> None:
        self.site = site

    @cached_property
    def levels(self) -> LimitLevels:
        """The levels of the needs' limits."""
        return LimitLevels(self.site.details.needs)

    @cached_property
    def json(self) -> Markup:
        """The series' needs, for the block with the id ``needs-data`` that needs.js reads.

        ``{"prefix": …, "needs": {id: need}, "words": {demand: word}, "untold": [demand, …],
        "renamed": {old id: id}}``; ``untold`` are the demands of forms of which nothing, or not all, is told.
        A need has its name, what it avoids, and, where there is any, what it rather does without, its limits
        as levels, the longest session in seconds, the kit that it has with it and the joints that it spares.
        """
        return script_json(
            {
                # Begins every key under which scripts keep something in a browser: the site's own, for
                # several sites may share one host.
                "prefix": self.site.details.address.partition("://")[2],
                "needs": {need: self._need(need) for need in self.site.details.needs},
                "words": {demand: self.site.phrases.words("demands", demand) for demand in self.told},
                "untold": [UNTOLD, UNSHOWN],
                "renamed": dict(self._renamed()),
            }
        )

    def _renamed(self) -> Iterator[tuple[str, str]]:
        """Needs whose page moved to that of another: a choice kept in a browser or a link moves along."""
        details = self.site.details
        places = {f"needs/{need}": need for need in details.needs}
        moves = MovedAddresses(details.moved, places.__contains__)
        for place in map(place_of, details.moved):
            end = moves.end_of(place)
            if end is not None and place not in places and place.startswith("needs/"):
                yield place.removeprefix("needs/"), places[end]

    def _need(self, need_id: str) -> dict[str, Any]:
        need = self.site.details.needs[need_id]
        data = {"name": need.name, "avoids": self._avoided(need_id)}
        further = {
            "rather": need.rather_without,
            "limits": self.levels.of(need),
            "session": need.limits.session,
            "has": need.has,
            "joints": [SPARED.index(joint) for joint in joints_of_needs([need])],
        }
        return data | {name: value for name, value in further.items() if value}

    def _avoided(self, need_id: str) -> list[str]:
        need = self.site.details.needs[need_id]
        return list(avoided_by(self.site.details, need))

    @cached_property
    def told(self) -> tuple[str, ...]:
        """Demands that some need of the series avoids or rather does without; others never decide."""
        needs = self.site.details.needs
        demands = (demand for need in needs for demand in (*self._avoided(need), *needs[need].rather_without))
        return tuple(dict.fromkeys(demands))
