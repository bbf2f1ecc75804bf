"""How many keys it takes to bring a draft to the truth beside its film.

The keys are really pressed, on the file: every action goes through :mod:`sitegen.watching.changes`, and the
file that results says what the truth says, or the count is refused. Nobody is watched: the seconds are those
of the keystroke-level model (Card, Moran and Newell, "The Psychology of Human-Computer Interaction", 1983:
0.28 s for a key of an average typist, 1.35 s to make up one's mind), without the time to watch the film.
"""

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Any

from sitegen.notation import Dose, NotationError
from sitegen.watching.changes import ChangeRefused, RowChange, changed
from sitegen.watching.lines import BLOCK, ITEM, TURN, Lines, MomentRow
from tests.captions.score import WIDE, nearest, true_doses

KEY_S, DECISION_S = 0.28, 1.35
_RIGHT_S = 2.0
"""Nobody moves a start that is so near."""


@dataclass
class Count:
    """What was pressed."""

    keys: int = 0
    decisions: int = 0
    by_action: Counter[str] = field(default_factory=Counter)
    """Keys for each action."""

    @property
    def seconds(self) -> float:
        """By the keystroke-level model."""
        return self.keys * KEY_S + self.decisions * DECISION_S


class Hands:
    """Presses keys on the text of one draft."""

    def __init__(self, text: str, library: Collection[str]) -> None:
        self.text, self.library, self.count = text, library, Count()

    @property
    def rows(self) -> tuple[MomentRow, ...]:
        """The rows as they are now."""
        return Lines(self.text, "draft").rows

    def press(self, action: str, row: str, value: str = "", at: float = 0, typed: int = 0) -> bool:
        """Make a change; ``typed`` letters are given with it, and Enter. Whether it was made."""
        try:
            self.text = changed(self.text, "draft", action, RowChange(row, value, int(at)), self.library)
        except ChangeRefused:
            return False
        keys = 1 + (typed + 1 if typed else 0)
        self.count.keys += keys
        self.count.by_action[action] += keys
        self.count.decisions += 1
        return True

    def letters(self, exercise: str) -> int:
        """Letters until only this exercise begins so, as the list of names offers it."""
        for length in range(1, len(exercise)):
            if sum(other.startswith(exercise[:length]) for other in self.library) == 1:
                return length
        return len(exercise)


def to_truth(text: str, truth: dict[str, Any], library: Collection[str]) -> Hands:
    """A draft brought to the truth. What the library lacks is left to the trainer's own writing."""
    hands = Hands(text, library)
    blocks = [
        block | {"items": [i for i in block["items"] if i["exercise"] in library]}
        for block in truth["blocks"]
        if any(i["exercise"] in library for i in block["items"])
    ]
    wanted = [item | {"block": b} for b, block in enumerate(blocks) for item in block["items"]]
    _exercises(hands, wanted)
    _blocks(hands, wanted)
    for number, item in enumerate(wanted):
        _dose(hands, _items(hands)[number], item)
    for number, block in enumerate(blocks):
        _sets(hands, str(number), block)
        _turn(hands, f"{number}.{TURN}", block)
    # Every row is looked at once.
    hands.count.keys += len(hands.rows)
    hands.count.by_action["looked at"] += len(hands.rows)
    return hands


def _items(hands: Hands) -> list[MomentRow]:
    return [row for row in hands.rows if row.kind == ITEM]


def _exercises(hands: Hands, wanted: list[dict[str, Any]]) -> None:
    """Take out what is not shown, add what is missing, move what begins elsewhere."""
    items = _items(hands)
    match = nearest(
        wanted, items, WIDE, lambda w: w["start"], lambda r: r.at, lambda w, r: w["exercise"] == r.name
    )
    keep = _ascending(match)
    for n in sorted(set(range(len(items))) - set(keep.values()), reverse=True):
        if len(_items(hands)) > 1:
            hands.press("drop", items[n].id)
    # From the end, so that a later start never stands in the way of an earlier one.
    for w in sorted(keep, reverse=True):
        row = _items(hands)[sorted(keep.values()).index(keep[w])]
        if row.at is not None and abs(row.at - wanted[w]["start"]) > _RIGHT_S:
            _despite_turns(hands, "here", row.id, "", wanted[w]["start"])
    for w, item in enumerate(wanted):
        if w not in keep:
            name = item["exercise"]
            at = max([item["start"], *(r.at for r in _items(hands)[:w] if r.at is not None)])
            _despite_turns(hands, "new", "0", name, at, hands.letters(name))


def _despite_turns(hands: Hands, action: str, row: str, value: str, at: float, typed: int = 0) -> None:
    """Make a change; a turn that stands in its way is taken out first."""
    for turn in [None, *(one.id for one in hands.rows if one.kind == TURN and one.at is not None)]:
        if turn is not None:
            hands.press("drop", turn)
        if hands.press(action, row, value, at, typed):
            return


def _ascending(match: dict[int, int]) -> dict[int, int]:
    """The pairs that are in the same order on both sides."""
    kept: dict[int, int] = {}
    for w in sorted(match):
        if not kept or match[w] > max(kept.values()):
            kept[w] = match[w]
    return kept


def _blocks(hands: Hands, wanted: list[dict[str, Any]]) -> None:
    for n in range(1, len(wanted)):
        row = _items(hands)[n]
        apart, should = row.id.endswith(".0"), wanted[n]["block"] != wanted[n - 1]["block"]
        if should and not apart:
            hands.press("split", row.id)
        elif apart and not should:
            hands.press("join", row.id)


def _dose(hands: Hands, row: MomentRow, item: dict[str, Any]) -> None:
    doses = true_doses(item)
    if not doses:
        return
    try:
        right = Dose.parse(row.dose or "") in doses
    except NotationError:
        right = False
    offered = any(f"is the dose {dose}?" in one.text for one in row.asked for dose in doses)
    if offered or (right and row.asked):
        hands.press("accept", row.id)
    elif not right:
        hands.press("dose", row.id, str(doses[0]), typed=len(str(doses[0])))


def _sets(hands: Hands, row: str, block: dict[str, Any]) -> None:
    sets = str(block["sets"] or "")
    now = next(one for one in hands.rows if one.id == row and one.kind == BLOCK)
    if sets and sets != "1" and now.sets != sets:
        hands.press("sets", row, sets, typed=len(sets))


def _turn(hands: Hands, row: str, block: dict[str, Any]) -> None:
    now, true = next(one for one in hands.rows if one.id == row), block["your_turn"]
    if true is None:
        if now.at is not None:
            hands.press("drop", row)
    elif now.at is None or abs(now.at - true) > _RIGHT_S:
        hands.press("here", row, at=true)


def is_true(hands: Hands, truth: dict[str, Any]) -> bool:
    """Whether the file names the true exercises with their doses in their blocks, each where it begins."""
    wanted = [
        [item for item in block["items"] if item["exercise"] in hands.library] for block in truth["blocks"]
    ]
    rows = hands.rows
    blocks = [
        [one for one in rows if one.kind == ITEM and one.id.startswith(f"{row.id}.")]
        for row in rows
        if row.kind == BLOCK
    ]
    told = [items for items in wanted if items]
    return [len(items) for items in blocks] == [len(items) for items in told] and all(
        row.name == item["exercise"]
        and row.at is not None
        and abs(row.at - item["start"]) <= _RIGHT_S + 1
        and (not true_doses(item) or Dose.parse(row.dose or "") in true_doses(item))
        for items, true in zip(blocks, told, strict=True)
        for row, item in zip(items, true, strict=True)
    )
