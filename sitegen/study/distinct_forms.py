"""A form of its own for every item of a block, as far as there are enough of them.

Somebody who needs other versions shall not get the same exercise twice in one block while something
else fits. The rule: as few repeats as possible; among such choices each item in turn takes the first of
its options with which that still works out. Items that are settled keep their first option whatever
the others do.
"""

from collections.abc import Hashable, Sequence


def choose_apart(options: Sequence[Sequence[Hashable]], settled: Sequence[bool]) -> list[int]:
    """The place of each item's choice among its options; 0 for an item that has none."""
    firsts = [ones[0] for ones in options if ones]
    if len(set(firsts)) == len(firsts):
        return [0] * len(options)
    choices = [0] * len(options)
    taken = {ones[0] for ones, fixed in zip(options, settled, strict=True) if fixed and ones}
    open_items = [item for item, ones in enumerate(options) if ones and not settled[item]]
    for done, item in enumerate(open_items, start=1):
        rest = [options[other] for other in open_items[done:]]
        places = range(len(options[item]))
        choices[item] = min(places, key=lambda place: _repeats(options[item][place], rest, taken))
        taken.add(options[item][choices[item]])
    return choices


def _repeats(choice: Hashable, rest: Sequence[Sequence[Hashable]], taken: set[Hashable]) -> int:
    """Fewest repeats from here on if an item makes this choice."""
    now = taken | {choice}
    return (choice in taken) + len(rest) - _matched(rest, now)


def _matched(options: Sequence[Sequence[Hashable]], taken: set[Hashable]) -> int:
    """How many items at most can have an option of their own beside what is taken.

    Kuhn's algorithm: each item in turn takes an option, and whoever has it already looks for another.
    """
    owner: dict[Hashable, int] = {}

    def place(item: int, tried: set[Hashable]) -> bool:
        for option in options[item]:
            if option in taken or option in tried:
                continue
            tried.add(option)
            if option not in owner or place(owner[option], tried):
                owner[option] = item
                return True
        return False

    return sum(place(item, set()) for item in range(len(options)))
