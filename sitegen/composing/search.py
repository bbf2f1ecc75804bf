"""The best session that keeps every rule: branch and bound over the exercises of each block.

A session is a choice of options for the places of each block. Rules are never weighed against points: a
choice that breaks one is left. Points are

- those of each option by itself (variety, emphasis, what needs keep of it),
- what muscles and patterns still want, in two shares (first what the week lacks, then what it usually
  has): the second set of a muscle is worth no more than the first, so that the gain of several options
  together is never more than the sum of what each would gain alone. That sum is the bound by which
  branches are left;
- less what a session costs: kit that is set up, a pattern that comes again, neighbours with the same
  prime muscle, two of one sort in a block of conditioning, what comes before its turn (a carry before the
  big lifts), pairs and beginnings of the sessions before. Costs are never below 0, so the bound may leave
  them out.

Where the search comes to its end the session found is the best there is (``proven``); where it has
looked at :data:`MOST_LOOKED_AT` partial sessions it takes the best so far and exchanges single exercises as
long as that gains points. It counts steps, not seconds:
the same input gives the same session on any machine. Amounts are whole quarters of a set, so that sums
are exact.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations, permutations, product, zip_longest
from math import comb

MOST_LOOKED_AT = 2000
"""Partial sessions. A hundred times as many gained at most 0.4 % of the points in the demo (see
DEVELOPERS.md)."""
MOST_EXCHANGES = 8
"""Exchanges after a search that was cut short."""
MOST_TOGETHER = 70
"""Choices of two up to which two exercises of a block are exchanged at once: of twelve there are 66. What is
done on the floor has no standing neighbour in a pair, so that one alone could never be exchanged."""
QUARTERS = 4
"""Of a set: assisting muscles count a half, and ranges are taken at their middle."""

_ALL_ORDERS = 5
"""Exercises of a block up to which every order is tried: 120 of them; six would be 720."""

# Points that a session loses (our choice, all of them):
SET_UP = 3
"""For a piece of kit that is set up."""
REPEATED_PATTERN = 8
"""For a pattern that comes again."""
SHARED_MUSCLE = 12
"""For neighbours that share a prime muscle."""
SHARED_HELP = 4
"""For neighbours of which one helps with a prime muscle of the other."""
SAME_STRAIN = 10
"""For neighbours of one pattern, or that strain the same part."""
OUT_OF_TURN = 4
"""For each two exercises in the wrong order, by how far they are apart."""
NO_CONTRAST = 12
"""For what two neighbours in conditioning have in common."""
PAIRED_BEFORE = 14
"""For a pair that stood in one block before."""
BEGUN_ALIKE = 10
"""For each session before whose strength began with the same sorts of lift."""
NOTHING_FOR_A_NEED = 60
"""For each need for which a block trains nothing of what it is for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One exercise with its dose, as it would stand in one block."""

    key: str
    """The exercise: a session has it once."""
    points: int
    feeds: Mapping[str, int] = field(default_factory=dict)
    """Quarters of sets for each muscle and pattern that may want some."""
    load: Mapping[str, int] = field(default_factory=dict)
    """Quarters of strength sets of each muscle, at the low end: what upper limits look at."""
    push: int = 0
    pull: int = 0
    hard: Mapping[str, int] = field(default_factory=dict)
    """Quarters of hard sets of each prime muscle, at the high end."""
    seconds: float = 0.0
    kit: frozenset[str] = frozenset()
    prime: frozenset[str] = frozenset()
    assist: frozenset[str] = frozenset()
    pattern: str = ""
    grip: bool = False
    floor: bool = False
    strains: frozenset[str] = frozenset()
    """Demands of which two side by side are too much of one thing, such as weight on the wrists."""
    new: bool = False
    turn: int | None = None
    """The later in a session its turn comes, the more; None where the order is free."""
    sort: frozenset[str] = frozenset()
    """In conditioning, what the other of a pair should not be too: of the legs, on the floor, fast."""
    lift: str = ""
    """Which of the large lifts it is; empty for none."""
    astray: frozenset[str] = frozenset()
    """Needs for which none of its forms trains what it trains."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """A block with places to fill."""

    options: tuple[Option, ...]
    count: int
    """Places, those of ``kept`` among them."""
    kept: tuple[Option, ...] = ()
    """What stands there already and stays."""
    kept_at: tuple[int, ...] = ()
    """Where in the block each of these stands, from 0; left out: at its beginning."""
    rotating: bool = True
    """Whether its items are done in turn, round after round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """Quarters of sets that a muscle or pattern wants, and the points of each."""

    urgent: int
    urgent_points: int
    usual: int
    usual_points: int

    def worth(self, amount: int) -> int:
        """Points of so many quarters; ever less for each further one."""
        first = min(amount, self.urgent)
        return first * self.urgent_points + min(amount - first, self.usual) * self.usual_points


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """What no session may break. None, or a name in ``without``, for what is not asked."""

    most: Mapping[str, int] = field(default_factory=dict)
    """Quarters of sets that a muscle may still have."""
    tired: frozenset[str] = frozenset()
    """Muscles that may not be trained hard."""
    hard_from: int = 2 * QUARTERS
    """Quarters of hard sets from which a muscle counts as trained hard."""
    push_per_pull: float | None = None
    push: int = 0
    pull: int = 0
    """Quarters that the week has already."""
    seconds: float | None = None
    """Most seconds of all options together."""
    new: int | None = None
    """Most exercises that the series has not shown before."""
    without: frozenset[str] = frozenset()
    """Rules that are let go, of :data:`RULES`."""


RULES = ("sets", "recovery", "push and pull", "length", "new exercises", "grip", "floor")


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A session that keeps the rules."""

    blocks: tuple[tuple[Option, ...], ...]
    """In the order in which they are done."""
    score: int
    proven: bool
    """Whether no other session can have more points."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Everything a session is chosen from and by."""

    places: tuple[Places, ...]
    wants: Mapping[str, Want]
    rules: Rules
    paired: frozenset[frozenset[str]] = frozenset()
    """Pairs of exercises that stood in one block of a session not long ago."""
    begun: tuple[frozenset[str], ...] = ()
    """Of the last sessions, the large lifts of the first block of strength."""


def score(task: Task, blocks: Sequence[Sequence[Option]]) -> int:
    """Points of a whole session in its order."""
    chosen = [option for block in blocks for option in block]
    return _worth(task, chosen) - _cost(task, blocks)


def _worth(task: Task, chosen: Sequence[Option]) -> int:
    fed: dict[str, int] = {}
    for option in chosen:
        for name, amount in option.feeds.items():
            fed[name] = fed.get(name, 0) + amount
    gained = sum(task.wants[name].worth(amount) for name, amount in fed.items() if name in task.wants)
    return gained + sum(option.points for option in chosen)


def _cost(task: Task, blocks: Sequence[Sequence[Option]]) -> int:
    patterns = [option.pattern for block in blocks for option in block]
    again = len(patterns) - len(set(patterns))
    together = [
        pair
        for places, block in zip(task.places, blocks, strict=False)
        if places.rotating
        for pair in combinations(block, 2)
    ]
    shared = sum(len(one.prime & other.prime) for one, other in together)
    helped = sum(len(one.prime & other.assist) + len(one.assist & other.prime) for one, other in together)
    alike = sum(len(one.strains & other.strains) + (one.pattern == other.pattern) for one, other in together)
    early = out_of_turn([option for block in blocks for option in block])
    sorts = sum(len(one.sort & other.sort) for one, other in together)
    known = [pair for block in blocks for pair in combinations(block, 2)]
    paired = sum(frozenset((one.key, other.key)) in task.paired for one, other in known) if task.paired else 0
    return (
        SET_UP * _set_ups(blocks)
        + REPEATED_PATTERN * again
        + SHARED_MUSCLE * shared
        + SHARED_HELP * helped
        + SAME_STRAIN * alike
        + OUT_OF_TURN * early
        + NO_CONTRAST * sorts
        + PAIRED_BEFORE * paired
        + NOTHING_FOR_A_NEED * sum(len(_left_out(block)) for block in blocks)
        + BEGUN_ALIKE * (task.begun.count(lifts_begun(blocks)) if task.begun else 0)
    )


def _left_out(block: Sequence[Option]) -> frozenset[str]:
    """Needs for which nothing in a block trains what the block is for."""
    return frozenset.intersection(*(option.astray for option in block)) if block else frozenset()


def lifts_begun(blocks: Sequence[Sequence[Option]]) -> frozenset[str]:
    """The large lifts of the first block of strength."""
    first = next((block for block in blocks if any(option.turn is not None for option in block)), ())
    return frozenset(option.lift for option in first if option.lift)


def out_of_turn(options: Sequence[Option]) -> int:
    """How far the options are from the order of their turns: the sum over all pairs in the wrong order."""
    turns = [option.turn for option in options if option.turn is not None]
    return sum(max(0, earlier - later) for earlier, later in combinations(turns, 2))


def _set_ups(blocks: Sequence[Sequence[Option]]) -> int:
    """How often a piece of kit is fetched: once for each run of blocks that use it."""
    count, before = 0, frozenset[str]()
    for block in blocks:
        here = frozenset(piece for option in block for piece in option.kit)
        count += len(here - before)
        before = here
    return count


def broken(task: Task, blocks: Sequence[Sequence[Option]]) -> tuple[str, ...]:
    """The rules that a session breaks, in the order of :data:`RULES`."""
    chosen = [option for block in blocks for option in block]
    found = {*_monotone(task, chosen), *_in_blocks(task, blocks)}
    if _pushes_too_much(task, chosen):
        found.add("push and pull")
    return tuple(rule for rule in RULES if rule in found and rule not in task.rules.without)


def _monotone(task: Task, chosen: Sequence[Option]) -> Iterator[str]:
    """Broken rules that no further option could mend."""
    rules, kept = task.rules, {id(option) for places in task.places for option in places.kept}
    if any(
        amount > rules.most[muscle]
        for muscle, amount in summed(option.load for option in chosen).items()
        if muscle in rules.most
    ):
        yield "sets"
    hard = summed(option.hard for option in chosen)
    if any(hard.get(muscle, 0) >= rules.hard_from for muscle in rules.tired):
        yield "recovery"
    if rules.seconds is not None and sum(option.seconds for option in chosen) > rules.seconds:
        yield "length"
    if rules.new is not None and sum(o.new and id(o) not in kept for o in chosen) > rules.new:
        yield "new exercises"


def summed(amounts: Iterable[Mapping[str, int]]) -> dict[str, int]:
    """Amounts added up by name."""
    sums: dict[str, int] = {}
    for one in amounts:
        for name, amount in one.items():
            sums[name] = sums.get(name, 0) + amount
    return sums


def _pushes_too_much(task: Task, chosen: Sequence[Option]) -> bool:
    rules = task.rules
    if rules.push_per_pull is None:
        return False
    push = rules.push + sum(option.push for option in chosen)
    pull = rules.pull + sum(option.pull for option in chosen)
    return push > rules.push_per_pull * pull


def _in_blocks(task: Task, blocks: Sequence[Sequence[Option]]) -> Iterator[str]:
    for places, block in zip(task.places, blocks, strict=False):
        if places.rotating and grips_in_a_row(block):
            yield "grip"
        if floor_changes_in_a_row(block, rotating=places.rotating):
            yield "floor"


def _pairs(block: Sequence[Option], *, rotating: bool) -> list[tuple[Option, Option]]:
    """Neighbours as they are done; in turn the first follows on the last."""
    following = [*block[1:], *block[:1]] if rotating else block[1:]
    return list(zip(block, following, strict=False)) if len(block) > 1 else []


def grips_in_a_row(block: Sequence[Option]) -> bool:
    """Whether two exercises that tire the grip follow on each other."""
    return any(one.grip and other.grip for one, other in _pairs(block, rotating=True))


def floor_changes_in_a_row(block: Sequence[Option], *, rotating: bool) -> bool:
    """Whether one gets down to the floor and up again, or up and down, from one exercise to the next."""
    changes = [one.floor != other.floor for one, other in _pairs(block, rotating=rotating)]
    following = [*changes[1:], *changes[:1]] if rotating else changes[1:]
    return any(one and other for one, other in zip(changes, following, strict=False))


def find(task: Task, most_looked_at: int = MOST_LOOKED_AT) -> Found | None:
    """The session with most points that keeps the rules, of equals the first found; None where none does, or
    none was found in so many steps."""
    search = _Search(task, most_looked_at)
    search.into(0, [], list(task.places[0].options) if task.places else [])
    if search.best is None:
        return None
    if search.gave_up:
        blocks = _swapped(task, search.best)
        return Found(blocks=blocks, score=score(task, blocks), proven=False)
    return Found(blocks=search.best, score=search.best_score, proven=True)


def _swapped(task: Task, blocks: tuple[tuple[Option, ...], ...]) -> tuple[tuple[Option, ...], ...]:
    """A session with single options exchanged for others as long as that gains points.

    What a search that was cut short has found first is often one exchange from a better one.
    """
    best = score(task, blocks)
    for _ in range(MOST_EXCHANGES):
        better = max(_exchanges(task, blocks, best), key=lambda pair: pair[0], default=None)
        if better is None:
            break
        best, blocks = better
    return blocks


def _exchanges(
    task: Task, blocks: tuple[tuple[Option, ...], ...], least: int
) -> Iterator[tuple[int, tuple[tuple[Option, ...], ...]]]:
    """All sessions with one exercise of a block exchanged, or two where there are few to choose from, or with
    exercises of two blocks in each other's place, that keep the rules and have more points."""
    own = [_not_kept(places, block) for places, block in zip(task.places, blocks, strict=True)]
    for index, places in enumerate(task.places):
        elsewhere = [option for other in (*blocks[:index], *blocks[index + 1 :]) for option in other]
        taken = {option.key for option in (*elsewhere, *places.kept)}
        for new in _others(places, own[index], taken):
            if _worth(task, [*elsewhere, *places.kept, *new]) > least:  # costs are never below 0
                yield from _better(task, blocks, {index: new}, least)
    for here, there in combinations(range(len(blocks)), 2):
        for change in _swaps(task.places[here], own[here], task.places[there], own[there]):
            yield from _better(task, blocks, dict(zip((here, there), change, strict=True)), least)


def _better(
    task: Task,
    blocks: tuple[tuple[Option, ...], ...],
    change: Mapping[int, Sequence[Option]],
    least: int,
) -> Iterator[tuple[int, tuple[tuple[Option, ...], ...]]]:
    """The session with other options in some blocks, where it keeps the rules and has more points."""
    tried = list(blocks)
    for index, new in change.items():
        ordered = order(task.places[index], new, task.rules.without)
        if ordered is None:
            return
        tried[index] = ordered
    points = score(task, tried)
    if points > least and not broken(task, tried):
        yield points, tuple(tried)


def _not_kept(places: Places, block: Sequence[Option]) -> list[Option]:
    kept = {id(option) for option in places.kept}
    return [option for option in block if id(option) not in kept]


def _swaps(
    one: Places, here: Sequence[Option], other: Places, there: Sequence[Option]
) -> Iterator[tuple[list[Option], list[Option]]]:
    """The new options of two blocks with an exercise of each in the place of the other."""
    into_one = {option.key: option for option in one.options}
    into_other = {option.key: option for option in other.options}
    for a, b in product(here, there):
        if b.key in into_one and a.key in into_other:
            yield (
                [*(option for option in here if option is not a), into_one[b.key]],
                [*(option for option in there if option is not b), into_other[a.key]],
            )


def _others(places: Places, new: Sequence[Option], taken: Collection[str]) -> Iterator[list[Option]]:
    """The new options of a block with one or two of them exchanged."""
    here = {option.key for option in new}
    free = [option for option in places.options if option.key not in taken and option.key not in here]
    for number in (1, 2):
        if number > len(new) or (number > 1 and comb(len(free), number) > MOST_TOGETHER):
            return
        for out in combinations(new, number):
            staying = [option for option in new if all(option is not other for other in out)]
            for into in combinations(free, number):
                yield [*staying, *into]


class _Search:
    def __init__(self, task: Task, most_looked_at: int) -> None:
        self.task = task
        self.left = most_looked_at
        self.gave_up = False
        self.best: tuple[tuple[Option, ...], ...] | None = None
        self.best_score = 0
        self.done: list[tuple[Option, ...]] = []
        self.fed: dict[str, int] = {}
        self.most_pull = [max((o.pull for o in places.options), default=0) for places in task.places]
        self.least_seconds = [min((o.seconds for o in places.options), default=0.0) for places in task.places]
        worths = self._worths()
        self.wanting = {
            id(option): [(name, a, worths[name]) for name, a in option.feeds.items() if name in worths]
            for places in task.places
            for option in places.options
        }
        self.wanted = [places.count - len(places.kept) for places in task.places]
        for places in task.places:
            for option in places.kept:
                self._feed(option, 1)

    def into(self, index: int, here: list[Option], candidates: list[Option]) -> None:
        """Fill the block with that index further; ``here`` are its new options, ``candidates`` may follow."""
        if index == len(self.task.places):
            self._settle()
            return
        places = self.task.places[index]
        wanted = places.count - len(places.kept) - len(here)
        if wanted <= 0:
            self._close(index, here)
            return
        gains = self._gains(candidates)
        later = self._later(index + 1)
        so_far = self._so_far(here)
        for position, (_, option) in enumerate(gains):
            rest = sum(g for g, _ in gains[position : position + wanted])
            if self.best is not None and so_far + rest + later <= self.best_score:
                return  # the next ones gain less still
            if self.left <= 0:
                self.gave_up = True
                return
            self.left -= 1
            if self._possible([*here, option]):
                self._feed(option, 1)
                self.into(index, [*here, option], [other for _, other in gains[position + 1 :]])
                self._feed(option, -1)

    def _close(self, index: int, here: list[Option]) -> None:
        """Every order in which a block can be done; the first that keeps the rules and costs least."""
        places = self.task.places[index]
        ordered = order(places, here, self.task.rules.without)
        if ordered is None:
            return
        self.done.append(ordered)
        if index + 1 < len(self.task.places):
            self.into(index + 1, [], list(self.task.places[index + 1].options))
        else:
            self._settle()
        self.done.pop()

    def _settle(self) -> None:
        if broken(self.task, self.done):
            return
        points = score(self.task, self.done)
        if self.best is None or points > self.best_score:
            self.best, self.best_score = tuple(self.done), points

    def _chosen(self, here: Sequence[Option]) -> list[Option]:
        done = [option for block in self.done for option in block]
        kept = [option for places in self.task.places[len(self.done) :] for option in places.kept]
        return [*done, *here, *kept]

    def _so_far(self, here: Sequence[Option]) -> int:
        return _worth(self.task, self._chosen(here))

    def _possible(self, here: Sequence[Option]) -> bool:
        chosen = self._chosen(here)
        if here[-1].key in {option.key for option in chosen if option is not here[-1]}:
            return False
        without = self.task.rules.without
        return (
            self._may_be_short_enough(chosen, here)
            and self._may_pull_enough(chosen, here)
            and all(rule in without for rule in _monotone(self.task, chosen))
        )

    def _may_be_short_enough(self, chosen: Sequence[Option], here: Sequence[Option]) -> bool:
        """Whether the length can still be kept with the shortest options in the places left."""
        most = self.task.rules.seconds
        if most is None or "length" in self.task.rules.without:
            return True
        return sum(option.seconds for option in chosen) + self._left(self.least_seconds, here) <= most

    def _left(self, each: Sequence[float], here: Sequence[Option]) -> float:
        """An amount of one option of each block, over the places that are still empty."""
        index = len(self.done)
        in_later = zip(each[index + 1 :], self.wanted[index + 1 :], strict=True)
        return each[index] * (self.wanted[index] - len(here)) + sum(a * b for a, b in in_later)

    def _may_pull_enough(self, chosen: Sequence[Option], here: Sequence[Option]) -> bool:
        """Whether push to pull can still come right with the most pull that the places left may get."""
        rules = self.task.rules
        if rules.push_per_pull is None or "push and pull" in rules.without:
            return True
        pull = self._left(self.most_pull, here)
        push = rules.push + sum(option.push for option in chosen)
        return push <= rules.push_per_pull * (rules.pull + pull + sum(option.pull for option in chosen))

    def _gains(self, candidates: Sequence[Option]) -> list[tuple[int, Option]]:
        """What each candidate would gain alone now, the largest first, of equals in the order given."""
        return sorted(((self._gain(option), option) for option in candidates), key=lambda pair: -pair[0])

    def _gain(self, option: Option) -> int:
        gain, fed = option.points, self.fed
        for name, amount, worth in self.wanting[id(option)]:
            before = fed.get(name, 0)
            gain += worth[before + amount] - worth[before]
        return gain

    def _worths(self) -> dict[str, list[int]]:
        """Of each want, the points of every amount that may come together."""
        most: dict[str, int] = {}
        for places in self.task.places:
            for option in (*places.options, *places.kept):
                for name, amount in option.feeds.items():
                    most[name] = max(amount, most.get(name, 0))
        number = sum(places.count + len(places.kept) for places in self.task.places) + 1
        return {
            name: [want.worth(amount) for amount in range(number * most[name] + 1)]
            for name, want in self.task.wants.items()
            if name in most
        }

    def _later(self, index: int) -> int:
        """At most what the blocks from an index on can gain."""
        gain = 0
        for places in self.task.places[index:]:
            wanted = places.count - len(places.kept)
            gain += sum(sorted((self._gain(option) for option in places.options), reverse=True)[:wanted])
        return gain

    def _feed(self, option: Option, sign: int) -> None:
        for name, amount in option.feeds.items():
            self.fed[name] = self.fed.get(name, 0) + sign * amount


def order(
    places: Places, chosen: Sequence[Option], without: frozenset[str] = frozenset()
) -> tuple[Option, ...] | None:
    """The order of a block's options that keeps the rules about neighbours; None where none does.

    What is kept stands where it stood; of the others each in its turn as far as it goes.
    """
    best: tuple[Option, ...] | None = None
    few = len(chosen) <= _ALL_ORDERS
    chosen = sorted(chosen, key=lambda one: one.turn or 0)
    for arranged in permutations(chosen) if few else (_spread(chosen),):
        block = _among_kept(places, arranged)
        grip = "grip" not in without and places.rotating and grips_in_a_row(block)
        floor = "floor" not in without and floor_changes_in_a_row(block, rotating=places.rotating)
        if not grip and not floor and (best is None or out_of_turn(block) < out_of_turn(best)):
            best = block
            if out_of_turn(best) == 0:
                break
    return best


def _among_kept(places: Places, arranged: Sequence[Option]) -> tuple[Option, ...]:
    """What is new in its order, between what is kept in its places."""
    stays = dict(zip(places.kept_at or range(len(places.kept)), places.kept, strict=True))
    new = iter(arranged)
    return tuple(stays[n] if n in stays else next(new) for n in range(len(places.kept) + len(arranged)))


def _spread(chosen: Sequence[Option]) -> tuple[Option, ...]:
    """One likely order of many: what is on the floor together at the end, what tires the grip apart."""
    found: list[Option] = []
    for floor in (False, True):
        here = sorted((one for one in chosen if one.floor == floor), key=lambda one: one.turn or 0)
        gripping, free = ([one for one in here if one.grip == grip] for grip in (True, False))
        found += [one for pair in zip_longest(gripping, free) for one in pair if one is not None]
    return tuple(found)
