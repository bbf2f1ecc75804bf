"""The best session that keeps every rule: branch and bound over the exercises of each block.

A session is a choice of options for the places of each block. A choice that breaks a rule is left
(:mod:`sitegen.composing.broken_rules`); of the others the one with most points is the best
(:mod:`sitegen.composing.session_points`).

Where the search comes to its end the session found is the best there is (``proven``); where it has
looked at :data:`MOST_LOOKED_AT` partial sessions it takes the best so far and exchanges single exercises as
long as that gains points. It counts steps, not seconds:
the same input gives the same session on any machine.
"""

from collections.abc import Sequence

from sitegen.composing.block_order import order
from sitegen.composing.broken_rules import broken, broken_for_good
from sitegen.composing.exchanges import exchanged
from sitegen.composing.session_points import score, worth
from sitegen.composing.task import Blocks, FoundSession, Option, Task

MOST_LOOKED_AT = 2000
"""Partial sessions. A hundred times as many gained at most 0.4 % of the points in the demo (see
DEVELOPERS.md)."""


def find(task: Task, most_looked_at: int = MOST_LOOKED_AT) -> FoundSession | None:
    """The session with most points that keeps the rules, of equals the first found; None where none does, or
    none was found in so many steps."""
    search = _Search(task, most_looked_at)
    search.into(0, [], list(task.places[0].options) if task.places else [])
    if search.best is None:
        return None
    if search.gave_up:
        blocks = exchanged(task, search.best)
        return FoundSession(blocks=blocks, score=score(task, blocks), proven=False)
    return FoundSession(blocks=search.best, score=search.best_score, proven=True)


class _Search:
    def __init__(self, task: Task, most_looked_at: int) -> None:
        self.task = task
        self.left = most_looked_at
        self.gave_up = False
        self.best: Blocks | None = None
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
        # What each would gain alone now, the largest first, of equals in the order given.
        gains = sorted(((self._gain(option), option) for option in candidates), key=lambda pair: -pair[0])
        later = self._later(index + 1)
        so_far = worth(self.task, self._chosen(here))
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

    def _possible(self, here: Sequence[Option]) -> bool:
        chosen = self._chosen(here)
        if here[-1].key in {option.key for option in chosen if option is not here[-1]}:
            return False
        without = self.task.rules.without
        return (
            self._may_be_short_enough(chosen, here)
            and self._may_pull_enough(chosen, here)
            and all(rule in without for rule in broken_for_good(self.task, chosen))
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

    def _gain(self, option: Option) -> int:
        gain, fed = option.points, self.fed
        for name, amount, points in self.wanting[id(option)]:
            before = fed.get(name, 0)
            gain += points[before + amount] - points[before]
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
