"""What the series becomes for one client: a series like any other, and what was changed on the way.

Which version she gets is decided by ``study.suitability`` alone. Her wishes are put in its terms first:

- what she avoids beyond her needs, and her limits, are a need of her own, asked for beside the others;
- a form that she leaves out, or that takes kit she does not have, makes a demand which that need avoids;
- an exchange within an exercise is the trainer's own choice for that need, so it is given only where it is
  safe; an exchange for another exercise takes the place of the item before the versions are looked for.

Then her own doses and loads are put in, and the limits are kept once more. Where nothing fits there is a gap.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import chain

from sitegen.clients.client import Client, reference_of
from sitegen.clients.reading import own_amounts
from sitegen.model import Block, Episode, Item, Limits, Need, ScheduleWishes, Series
from sitegen.notation import Load, LoadPart
from sitegen.study.adapted import done_as
from sitegen.study.field_tests import ALL_OUT, DEMANDS_OF_TESTS
from sitegen.study.forms import Form, FormKey, Forms, forms_of
from sitegen.study.need_limits import held_at_most
from sitegen.study.suitability import Suitability, Versions
from sitegen.study.version import Version

HER_OWN = "her own"
"""Id of the need that stands for her; ids of a series have no spaces."""
LEFT_OUT, NOT_AT_HOME = "left out of her plan", "kit that is not at home"
"""Demands that no series can declare more than by chance: they never reach a page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TailoredItem:
    """One item as filmed, and what it becomes."""

    filmed: Item
    asked: Item
    """After an exchange; the item as filmed where there is none."""
    version: Version | None
    """None for a gap."""
    in_the_way: tuple[str, ...] = ()
    """For a gap, demands of the form asked for that she avoids."""
    own: bool = False
    """True where a dose or a load of her own was put in."""
    own_refused: bool = False
    """True where a load of her own cannot be kept within her limits, so that another one is given."""

    @property
    def exchanged(self) -> bool:
        """Whether another exercise takes the place of the one filmed."""
        return self.asked is not self.filmed and self.asked.exercise != self.filmed.exercise

    @property
    def other_form(self) -> bool:
        """Whether she does another form than the one filmed."""
        return self.version is not None and (self.exchanged or bool(self.version.steps))


@dataclass(frozen=True, slots=True, kw_only=True)
class TailoredSession:
    """A session as filmed and as she does it."""

    filmed: Episode
    episode: Episode
    """As she does it, without gaps and without blocks left empty."""
    blocks: tuple[tuple[Block, tuple[TailoredItem, ...]], ...]
    """Every block as filmed with its items."""
    off_purpose: tuple[Block, ...]
    """Blocks of strength, as filmed, that train none of their muscles any more."""

    @property
    def gaps(self) -> Iterator[tuple[Block, TailoredItem]]:
        """Items that nothing fits instead of."""
        return ((block, one) for block, items in self.blocks for one in items if one.version is None)


class MarkedForms(Forms):
    """The forms of a library; those that a client must not get make one more demand."""

    def __init__(self, forms: Forms, client: Client, brought: frozenset[str]) -> None:
        """``brought``: kit that is there with her needs."""
        self._forms = forms
        self._left_out = frozenset(client.leave_out)
        self._kit = None if client.kit is None else brought.union(client.kit)
        self._marked: dict[str, Mapping[FormKey, Form]] = {}
        """The choice asks for the same few hundred forms a hundred times each."""

    def __getitem__(self, key: FormKey) -> Form:
        return self.of(key.exercise)[key]

    def of(self, exercise_id: str) -> Mapping[FormKey, Form]:
        """The forms of one exercise."""
        if exercise_id not in self._marked:
            forms = self._forms.of(exercise_id)
            self._marked[exercise_id] = {key: self._with_marks(form) for key, form in forms.items()}
        return self._marked[exercise_id]

    def _with_marks(self, form: Form) -> Form:
        marks = tuple(self._marks(form))
        return replace(form, demands=(*form.demands, *marks)) if marks else form

    def _marks(self, form: Form) -> Iterator[str]:
        names = {form.exercise, reference_of(form.key)}
        if not form.link:
            names.add(form.key.exercise)
        if not self._left_out.isdisjoint(names):
            yield LEFT_OUT
        if self._kit is not None and not self._kit.issuperset(form.kit):
            yield NOT_AT_HOME

    def __iter__(self) -> Iterator[FormKey]:
        return iter(self._forms)

    def __len__(self) -> int:
        return len(self._forms)


class Tailor:
    """Fits the sessions of a series to one client."""

    def __init__(self, series: Series, client: Client) -> None:
        self.client = client
        self._series = series
        need = Need(
            id=HER_OWN,
            name=client.name,
            avoids=(*client.avoids, LEFT_OUT, NOT_AT_HOME),
            limits=client.limits,
            takes_untold=not client.avoids and client.limits == Limits(),
        )
        details = series.details
        self.details = replace(
            details, needs={**details.needs, HER_OWN: need}, schedule=her_schedule(details.schedule, client)
        )
        brought = chain.from_iterable(details.needs[one].has for one in client.needs)
        self.brought = frozenset(brought)
        """Kit that is there with her needs, at home or not, and that nobody has to fetch."""
        self.forms = MarkedForms(forms_of(series.exercises), client, self.brought)
        self._needs = (*client.needs, HER_OWN)
        self._suitability = Suitability(self.details, self.forms)
        self._amounts = own_amounts(client)
        self._sessions: list[TailoredSession] | None = None

    def sessions(self) -> list[TailoredSession]:
        """All sessions that she does, in their order."""
        if self._sessions is None:  # checks, pages and logs all ask
            episodes = (one for one in self._series.sessions if one.slug not in self.client.skip)
            self._sessions = [self.session(episode) for episode in episodes]
        return self._sessions

    def session(self, episode: Episode) -> TailoredSession:
        """One session as it is for her."""
        asked = [replace(b, items=tuple(map(self._asked, b.items))) for b in episode.blocks]
        chosen = [self._suitability.block(block, self._needs, self._kit(episode)) for block in asked]
        blocks = tuple(
            (filmed, tuple(self._items(filmed, block, versions)))
            for filmed, block, versions in zip(episode.blocks, asked, chosen, strict=True)
        )
        settled: list[Versions] = [tuple(one.version for one in items) for _, items in blocks]
        keeps = self._suitability.keeps_purpose
        return TailoredSession(
            filmed=episode,
            episode=done_as(
                self.details,
                self.forms,
                replace(episode, blocks=tuple(asked)),
                settled,
                paced=not self._suitability.combined(self._needs).limits.speed,
            ),
            blocks=blocks,
            off_purpose=tuple(
                block
                for block, versions in zip(episode.blocks, settled, strict=True)
                if any(versions) and not keeps(block, versions)
            ),
        )

    @property
    def most_effort(self) -> int | None:
        """Perceived exertion that her needs or her own file allow at most; None without such a limit."""
        return self._suitability.combined(self._needs).limits.effort

    @property
    def longest(self) -> int | None:
        """Most seconds that a session may last for her; None without such a limit."""
        return self._suitability.combined(self._needs).limits.session

    def tests(self) -> dict[str, tuple[str, ...]]:
        """The field tests of her file, each with what stands in its way: nothing where she may do it."""
        avoided = self._suitability.avoided(self._needs)
        limits = self._suitability.combined(self._needs).limits
        found = {}
        for test in self.client.tests:
            in_the_way = [word for word in DEMANDS_OF_TESTS[test] if word in avoided]
            if test in ALL_OUT and limits.effort is not None:
                in_the_way.append("as much as one can, and her effort is limited")
            if not limits.speed and "speed" in DEMANDS_OF_TESTS[test] and "speed" not in avoided:
                in_the_way.append("speed")
            found[test] = tuple(in_the_way)
        return found

    # --- before the choice -----------------------------------------------------------------

    def _kit(self, episode: Episode) -> frozenset[str]:
        """At hand: what she has, or else what the session uses; and what her needs bring along."""
        own = self.client.kit
        return self.brought.union(self._suitability.kit_at_hand(episode) if own is None else own)

    def _asked(self, item: Item) -> Item:
        """The item after her exchange, where there is one."""
        exchanges = self.client.exchanges
        exchange = exchanges.get(reference_of(FormKey(item.exercise, item.variant)))
        if exchange is None:
            return item
        if exchange.exercise is None or exchange.exercise == item.exercise:
            versions = {**item.versions, HER_OWN: exchange.variant} if exchange.variant else item.versions
            dose, load = exchange.dose or item.dose, exchange.load or item.load
            return replace(item, versions=versions, dose=dose, load=load)
        # Nothing of what was written for the other exercise holds: tempo, effort, its showing in the video.
        return Item(
            exercise=exchange.exercise, variant=exchange.variant, dose=exchange.dose, load=exchange.load
        )

    # --- after it --------------------------------------------------------------------------

    def _items(self, filmed: Block, asked: Block, versions: Versions) -> Iterator[TailoredItem]:
        for before, item, version in zip(filmed.items, asked.items, versions, strict=True):
            if version is None:
                in_the_way = self.in_the_way(FormKey(item.exercise, item.variant))
                yield TailoredItem(filmed=before, asked=item, version=None, in_the_way=in_the_way)
            else:
                own, refused = self._with_own_amounts(asked, item, version)
                yield TailoredItem(
                    filmed=before, asked=item, version=own, own=own is not version, own_refused=refused
                )

    def in_the_way(self, key: FormKey) -> tuple[str, ...]:
        """Demands of a form that she avoids."""
        avoided = self._suitability.avoided(self._needs)
        return tuple(one for one in self.forms[key].demands if one in avoided)

    def _with_own_amounts(self, block: Block, item: Item, version: Version) -> tuple[Version, bool]:
        """The version with her dose and load within her limits; whether a load had to be refused."""
        amounts = self._amounts.get(version.form.key)
        dose = amounts.dose if amounts else None
        load = (amounts.load if amounts else None) or self._kit_load(version)
        if dose is None and load is None:
            return version, False
        changed = version
        if dose is not None:
            changed = _forgetting(replace(changed, dose=dose), ("fewer", "counted", "shorter"))
        if load is not None and changed.form.most_kg is not None and version.steps:
            load = held_at_most(load, changed.form.most_kg, self.details.kit)
        if load is not None:
            holding = replace(changed, load=load, own_load=False, most_kg=None)
            kept = self._within(block, item, _forgetting(holding, ("lighter", "light")), changed.limited)
            if kept is not None:
                return kept, False
        within = self._within(block, item, changed, changed.limited)
        return within or version, load is not None

    def _within(self, block: Block, item: Item, version: Version, limited: tuple[str, ...]) -> Version | None:
        """Within her limits, with what they changed before said as well."""
        limits = self._suitability.combined(self._needs).limits
        kept = self._suitability.within(block, item, version, limits)
        if kept is None or kept is version:
            return kept
        before = (one for one in version.limited if one in limited)
        return replace(kept, limited=tuple(dict.fromkeys((*before, *kept.limited))))

    def _kit_load(self, version: Version) -> Load | None:
        """What she holds in the pieces of this version, where her file says so for one of them."""
        loads = self.client.loads
        if version.load is not None:
            if not any(part.piece in loads for part in version.load.parts):
                return None
            return version.load.each_set(lambda one: Load(tuple(map(self._part, one.parts))))
        pieces = [piece for piece in version.form.kit if piece in loads]
        return loads[pieces[0]] if version.own_load and len(pieces) == 1 else None

    def _part(self, part: LoadPart) -> LoadPart:
        own = self.client.loads.get(part.piece or "")
        return part if own is None else own.parts[0]


def _forgetting(version: Version, changes: Iterable[str]) -> Version:
    """Without what limits changed in an amount that is no longer there."""
    return replace(version, limited=tuple(one for one in version.limited if one not in changes))


def her_schedule(plan: ScheduleWishes | None, client: Client) -> ScheduleWishes | None:
    """The series' calendar with her own start, days, time and pace; None where neither says when.

    A wanted last day and holidays are the trainer's; with a start of her own the last day means nothing.
    """
    if plan is None:
        if client.start is None or not client.days:
            return None
        return ScheduleWishes(
            start=client.start, days=client.days, time=client.time, per_week=client.per_week
        )
    return replace(
        plan,
        start=client.start or plan.start,
        days=client.days or plan.days,
        time=plan.time if client.time is None else client.time,
        per_week=client.per_week or (None if client.days else plan.per_week),
        finish_by=None if client.start else plan.finish_by,
        repeats=1,
    )
