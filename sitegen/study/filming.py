"""The filming day of a session: what each shot shows, and an order in which little has to be set up again."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from sitegen.model import Details, Episode
from sitegen.study.forms import Form, FormKey, Forms, shown_form
from sitegen.study.suitability import Suitability
from sitegen.study.version import Version

FLOOR, STANDING, SEATED = "floor", "standing", "seated"
"""Where the camera looks: at somebody on the floor, on her feet or on a seat."""
_CAMERA = 2
"""Moving camera, light and mat counts as much as two pieces of kit brought or put away (our choice)."""
_MOST_EXACT = 11
"""Set-ups up to which every order is looked at: 11 take a tenth of a second, and each more twice that."""


@dataclass(frozen=True, slots=True)
class SetUp:
    """What has to stand ready for a shot."""

    place: str
    """:data:`FLOOR`, :data:`STANDING` or :data:`SEATED`."""
    kit: frozenset[str]
    """Ids of the kit of the main form."""

    def effort_to(self, other: "SetUp") -> int:
        """What it takes to change to another: pieces brought and put away, and the camera."""
        return len(self.kit ^ other.kit) + (_CAMERA if self.place != other.place else 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenVersion:
    """A version that some needs are given instead of the form filmed."""

    version: Version
    needs: tuple[str, ...]
    """Ids of the needs, in the order of the series."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One item of a session before the camera."""

    block: int
    item: int
    form: Form
    set_up: SetUp
    given: tuple[GivenVersion, ...]
    """Versions by how many needs they serve, most first."""
    without: tuple[str, ...]
    """Ids of the needs that nothing fits: they are told to leave it out."""
    same_as: int | None = None
    """The place, in the session, of an earlier shot of the very same form: it need not be filmed twice."""


def set_up_of(form: Form) -> SetUp:
    """What a form needs: where it is done follows from its demands."""
    demands = form.demands
    place = FLOOR if "getting to the floor" in demands else STANDING if "standing" in demands else SEATED
    return SetUp(place, frozenset(form.kit))


def shots_of(details: Details, forms: Forms, suitability: Suitability, episode: Episode) -> tuple[Shot, ...]:
    """A shot for each item, in the order of the session."""
    chosen = {need: suitability.session(episode, (need,)) for need in details.needs}
    shots: list[Shot] = []
    first: dict[FormKey, int] = {}
    for at, block in enumerate(episode.blocks):
        for index, item in enumerate(block.items):
            form = shown_form(forms, item)
            versions = {need: session[at][index] for need, session in chosen.items()}
            shots.append(
                Shot(
                    block=at,
                    item=index,
                    form=form,
                    set_up=set_up_of(form),
                    given=_by_number(versions),
                    without=tuple(need for need, version in versions.items() if version is None),
                    same_as=first.get(form.key),
                )
            )
            first.setdefault(form.key, len(shots) - 1)
    return tuple(shots)


def _by_number(versions: dict[str, Version | None]) -> tuple[GivenVersion, ...]:
    """The forms other than the one filmed; of several versions of a form that of the first need stands."""
    found: dict[FormKey, list[str]] = {}
    standing: dict[FormKey, Version] = {}
    for need, version in versions.items():
        if version is not None and version.steps:
            found.setdefault(version.form.key, []).append(need)
            standing.setdefault(version.form.key, version)
    # The sort is stable: of equal numbers the need that the series names first leads.
    ranked = sorted(found, key=lambda key: -len(found[key]))
    return tuple(GivenVersion(version=standing[key], needs=tuple(found[key])) for key in ranked)


def filming_order(set_ups: Sequence[SetUp]) -> tuple[int, ...]:
    """The places of the shots in the order to film them: each set-up once, with the least to change between.

    Of equal orders the one nearest to the session's own is taken. Beyond :data:`_MOST_EXACT` set-ups the next
    is always the one that takes least from the last, which need not be the least in all.
    """
    distinct = list(dict.fromkeys(set_ups))
    order = _exact(distinct) if len(distinct) <= _MOST_EXACT else _step_by_step(distinct)
    return tuple(place for one in order for place, set_up in enumerate(set_ups) if set_up == distinct[one])


def effort_of(set_ups: Iterable[SetUp]) -> int:
    """What changing set-ups in this order takes in all."""
    return sum(one.effort_to(other) for one, other in pairwise(set_ups))


def _exact(set_ups: Sequence[SetUp]) -> tuple[int, ...]:
    """The best order by dynamic programming over sets (Held and Karp 1962)."""
    number = len(set_ups)
    best: dict[tuple[int, int], tuple[int, tuple[int, ...]]] = {(1 << i, i): (0, (i,)) for i in range(number)}
    for _ in range(number - 1):
        longer: dict[tuple[int, int], tuple[int, tuple[int, ...]]] = {}  # by done shots, a bit each, and last
        for (done, last), (effort, order) in best.items():
            for then in range(number):
                if done & 1 << then:
                    continue
                key = done | 1 << then, then
                found = effort + set_ups[last].effort_to(set_ups[then]), (*order, then)
                if key not in longer or found < longer[key]:
                    longer[key] = found
        best = longer
    return min(best.values(), default=(0, ()))[1]


def _step_by_step(set_ups: Sequence[SetUp]) -> tuple[int, ...]:
    left, order = list(range(1, len(set_ups))), [0]
    while left:
        then = min(left, key=lambda one: set_ups[order[-1]].effort_to(set_ups[one]))
        left.remove(then)
        order.append(then)
    return tuple(order)
