"""Which rules a session breaks: they are kept or broken, never weighed against points."""

from collections.abc import Iterator, Sequence

from sitegen.composing.task import RULES, Option, Task, summed


def broken(task: Task, blocks: Sequence[Sequence[Option]]) -> tuple[str, ...]:
    """The rules that a session breaks, in the order of :data:`RULES`."""
    chosen = [option for block in blocks for option in block]
    found = {*broken_for_good(task, chosen), *_in_blocks(task, blocks)}
    if _pushes_too_much(task, chosen):
        found.add("push and pull")
    return tuple(rule for rule in RULES if rule in found and rule not in task.rules.without)


def broken_for_good(task: Task, chosen: Sequence[Option]) -> Iterator[str]:
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
