"""A better order of the sessions: as little changed as relieves the conflicts the most.

A label is the start of an order together with the earliest plan of it. Labels grow by one session
at a time: the first that is still to come, or one at most ``REACH`` places after it, so no session
moves further than that. Of labels that have placed the same sessions and are in the same state,
whatever follows costs the same, so only the best is kept: fewest training days lost to recovery,
then fewest exchanges of neighbours, then the order closest to the one given (the first that differs
holds the earlier session). This is exact within the reach as long as no more than ``width`` labels
are alive at once; beyond, the worst are dropped and the answer says so. It never takes a clock's word
for when to stop: the same input gives the same answer, in time that grows with sessions x width.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sitegen.study.schedule.layout import CalendarLayout, lay_out
from sitegen.study.schedule.placement import PlacementState, place_in_order
from sitegen.study.schedule.records import ScheduleRequest

REACH = 3
"""How many places a session may move forward or back."""
WIDTH = 1_000
"""Most labels kept, for short series."""
LABEL_BUDGET = 50_000
"""Most labels kept over a whole series, so that long ones stay quick."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderProposal:
    """An order that loses fewer training days to recovery than the one given."""

    order: tuple[int, ...]
    """SessionToPlace numbers."""
    moved: tuple[tuple[int, int], ...]
    """Pairs of sessions whose order is turned round, as now held: (the one first now, the other).
    There are as many as exchanges of neighbours are needed."""
    lost_days_before: int
    lost_days: int
    finish: date
    exact: bool
    """Whether no order within the reach is better; False where labels had to be dropped."""


@dataclass(frozen=True, slots=True)
class _Label:
    """The start of an order. Comparing the first three fields compares labels."""

    lost: int
    exchanges: int
    rank: tuple[int, int]
    """Rank of the label it grew from, and the session added: sorts as the orders do."""
    next: int
    """The first session still to come."""
    taken: frozenset[int]
    """Sessions after ``next`` that are placed."""
    state: PlacementState
    parent: "_Label | None"

    @property
    def cost(self) -> tuple[int, int, tuple[int, int]]:
        """What is to be as small as possible."""
        return self.lost, self.exchanges, self.rank


def better_order(request: ScheduleRequest, *, width: int = WIDTH) -> OrderProposal | None:
    """The order that relieves most with the fewest exchanges; None where none relieves anything.

    None too where the order given does not fit before the horizon: there is nothing to compare.
    """
    layout = lay_out(request)
    lost = sum(step.lost for step in layout.steps)
    if not layout.complete or not lost:
        return None
    # However long the series is, eight orders are followed at once: with fewer the search is a first guess.
    width = min(width, max(LABEL_BUDGET // len(layout.hard), 8))
    labels = [_Label(0, 0, (0, 0), 0, frozenset(), PlacementState(), None)]
    exact = True
    for _ in layout.hard:
        labels = _merged(grown for label in labels for grown in _grow(layout, label, lost))
        if len(labels) > width:
            exact = False
            labels = sorted(labels, key=lambda label: label.cost)[:width]
    best = min(labels, key=lambda label: label.cost, default=None)
    return None if best is None or best.lost >= lost else _proposal(layout, best, lost, exact)


def _grow(layout: CalendarLayout, label: _Label, lost_before: int) -> Iterator[_Label]:
    """The labels with one more session, but for those that already lose as much as the order given."""
    exchanges = label.exchanges
    last = min(label.next + REACH, len(layout.hard) - 1)
    for session in range(label.next, last + 1):
        if session in label.taken:
            continue
        repeats = [session] * layout.request.repeats
        steps = place_in_order(layout.days, layout.hard, repeats, label.state)
        lost = label.lost + sum(step.lost for step in steps)
        if len(steps) == len(repeats) and lost < lost_before:
            yield _label(label, session, lost, exchanges, steps[-1].state)
        exchanges += 1


def _label(parent: _Label, session: int, lost: int, exchanges: int, state: PlacementState) -> _Label:
    taken = parent.taken | {session}
    following = parent.next
    while following in taken:
        taken -= {following}
        following += 1
    return _Label(lost, exchanges, (parent.rank[0], session), following, taken, state, parent)


def _merged(labels: Iterator[_Label]) -> list[_Label]:
    """The best label of each state, ranked again, in the order of their orders."""
    best: dict[tuple[int, frozenset[int], PlacementState], _Label] = {}
    for label in labels:
        key = (label.next, label.taken, label.state)
        if key not in best or label.cost < best[key].cost:
            best[key] = label
    ranked = sorted(best.values(), key=lambda label: label.rank)
    return [
        _Label(old.lost, old.exchanges, (rank, old.rank[1]), old.next, old.taken, old.state, old.parent)
        for rank, old in enumerate(ranked)
    ]


def _proposal(layout: CalendarLayout, best: _Label, lost: int, exact: bool) -> OrderProposal:
    order: list[int] = []
    label: _Label | None = best
    while label is not None and label.parent is not None:
        order.append(label.rank[1])
        label = label.parent
    order.reverse()
    sessions = layout.request.sessions
    turned = [
        (sessions[now].number, sessions[later].number)
        for place, now in enumerate(order)
        for later in order[place + 1 : place + 1 + 2 * REACH]
        if later < now
    ]
    finish = date.fromordinal(layout.days.day(best.state.index))
    return OrderProposal(
        order=tuple(sessions[session].number for session in order),
        moved=tuple(turned),
        lost_days_before=lost,
        lost_days=best.lost,
        finish=finish,
        exact=exact,
    )
