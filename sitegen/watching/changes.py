"""Changes to an episode's text, one at a time, each from a text to a text; comments and order stay.

A change that would leave times out of order, name an exercise that the library lacks, or write a dose
that cannot be read raises :class:`ChangeRefused` with what to do instead.
"""

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from itertools import count

from sitegen.drafting.structure.planned_session import text_of
from sitegen.drafting.writing.edit import TextEdits
from sitegen.notation import Count, Dose, NotationError, format_clock, parse_clock
from sitegen.reading.source import child_at
from sitegen.watching.lines import BLOCK, ITEM, QUESTION, TURN, Lines, MomentRow, OpenQuestion

PLACED, DOSED, COUNTED, TURNED, OTHER = "placed", "dosed", "counted", "turned", "other"
"""What a question is about: whether it is shown here, its dose, the sets, the turn, or anything else."""

_ABOUT = (
    (TURNED, re.compile(r"your_turn")),
    (DOSED, re.compile(r"\bdose\b")),
    (COUNTED, re.compile(r"sets or rounds")),
    (PLACED, re.compile(r"shown here|when is it shown|not found")),
)
_OFFERED = {
    DOSED: re.compile(r"is the dose (.+?)\?"),
    COUNTED: re.compile(r"\? (\S+) at [\d:]+\?"),
    TURNED: re.compile(r'your_turn: "([\d:]+)"'),
}
"""What a question offers as its answer."""

_KEEPS_PLACE = "only keeps the place"
_UNDOSED = "# QUESTION: which dose? 1 only keeps the place"


class ChangeRefused(Exception):
    """A change that cannot be made; the text says why and what to do."""


@dataclass(frozen=True, slots=True)
class RowChange:
    """What is to be done to a row."""

    row: str
    value: str = ""
    at: int = 0
    """Seconds, where the film stands."""


def about(question: OpenQuestion) -> str:
    """What a question is about."""
    return next((what for what, pattern in _ABOUT if pattern.search(question.text)), OTHER)


def changed(text: str, file: str, action: str, wish: RowChange, library: Collection[str]) -> str:
    """The text with one change made. Raises ChangeRefused, or BadFile where the text is no YAML."""
    if action not in ACTIONS:
        raise ChangeRefused(f"there is no {action!r}")
    return ACTIONS[action](Lines(text, file), wish, library)


def _row(lines: Lines, key: str) -> MomentRow:
    found = next((row for row in lines.rows if row.id == key), None)
    if found is None:
        raise ChangeRefused("that line is not in the file any more; look again")
    return found


def _without(lines: Lines, gone: Collection[int]) -> Lines:
    """The text without the questions of some lines."""
    out = []
    for number, line in enumerate(lines.split):
        if number in gone:
            line = QUESTION.sub("", line).rstrip()
            if not line:
                continue
        out.append(line)
    return Lines("\n".join(out), "episode")


def _answered(lines: Lines, key: str, *what: str) -> Lines:
    """The text without a row's questions about something."""
    return _without(lines, {one.line for one in _row(lines, key).asked if about(one) in what})


def _set(lines: Lines, key: str, name: str, value: str, after: tuple[str, ...]) -> str:
    edits = TextEdits(lines.text)
    edits.set(lines.places[key].node, name, value, after)
    return edits.done()


_CLOCK_AFTER = ("at", "format", "kind", "routine", "name")


def _here(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """The row begins where the film stands."""
    row = _row(lines, wish.row)
    opens = row.kind == ITEM and row.id.endswith(".0")
    block = row.id.partition(".")[0]
    started = _row(lines, block).at
    if opens and started is not None and started > wish.at:
        # Her first exercise cannot come before its block: the block begins with it then.
        lines = Lines(_here(lines, RowChange(block, at=wish.at), library), "episode")
        row = _row(lines, wish.row)
    _in_order(lines, row, wish.at)
    clock = f'"{format_clock(wish.at)}"'
    if row.kind == TURN:
        lines = _answered(lines, row.id, TURNED)
        return _set(lines, row.id, "your_turn", clock, _CLOCK_AFTER)
    lines = _answered(lines, row.id, PLACED)
    return _set(lines, row.id, "at", clock, ("exercise", "format", "kind", "routine", "name"))


def _in_order(lines: Lines, row: MomentRow, at: int) -> None:
    """Refuse a time that is not between those of the rows above and below."""
    place = lines.rows.index(row)
    above = [one for one in lines.rows[:place] if one.at is not None]
    below = [one for one in lines.rows[place + 1 :] if one.at is not None]
    near = [(one, 1, "before") for one in above[-1:]] + [(one, -1, "behind") for one in below[:1]]
    for one, sign, word in near:
        if one.at is not None and sign * (one.at - at) > 0:
            raise ChangeRefused(
                f"{format_clock(at)} is {word} {one.name} at {format_clock(one.at)}; move that one first, "
                "or take out what is not shown"
            )


def _accept(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """Yes to every question of the row: what it offers is written."""
    row = _row(lines, wish.row)
    for question in row.asked:
        what = about(question)
        offered = _OFFERED[what].search(question.text) if what in _OFFERED else None
        if offered and what == DOSED:
            lines = Lines(_dose(lines, RowChange(row.id, offered[1]), library), "episode")
        elif offered and what == COUNTED:
            lines = Lines(_sets(lines, RowChange(row.id, offered[1]), library), "episode")
        elif offered and what == TURNED:
            wish = RowChange(row.id, at=parse_clock(offered[1]))
            lines = Lines(_here(lines, wish, library), "episode")
        elif what == PLACED or (what == DOSED and _KEEPS_PLACE not in question.text):
            lines = _answered(lines, row.id, what)
        else:
            raise ChangeRefused(f"this needs an answer of yours: {question.text}")
    return lines.text


def _answer(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """The question with these words is answered: it goes."""
    gone = {one.line for one in _row(lines, wish.row).asked if one.text == wish.value}
    if not gone:
        raise ChangeRefused("that question is not in the file any more")
    if any(_KEEPS_PLACE in lines.split[line] for line in gone):
        raise ChangeRefused("give the dose first")
    return _without(lines, gone).text


def _exercise(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """Another exercise is shown."""
    _known(wish.value, library)
    if _row(lines, wish.row).kind != ITEM:
        raise ChangeRefused("choose the line of an exercise first")
    lines = _answered(lines, wish.row, PLACED)
    split = list(lines.split)
    first = lines.places[wish.row].first
    # How sure the draft was of the other exercise says nothing of this one.
    split[first] = re.sub(r"\s+# [01]\.\d\d.*$", "", split[first])
    return _set(Lines("\n".join(split), "episode"), wish.row, "exercise", wish.value, ())


def _known(exercise: str, library: Collection[str]) -> None:
    if exercise not in library:
        raise ChangeRefused(
            f"{exercise!r} is not in the library; write exercises/{exercise or 'name'}.yaml first"
        )


def _dose(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """Its dose."""
    if _row(lines, wish.row).kind != ITEM:
        raise ChangeRefused("choose the line of an exercise first")
    try:
        dose = Dose.parse(wish.value)
    except NotationError as error:
        raise ChangeRefused(str(error)) from None
    lines = _answered(lines, wish.row, DOSED)
    return _set(lines, wish.row, "dose", f'"{dose}"', ("at", "exercise"))


def _sets(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """The sets of its block."""
    block = wish.row.partition(".")[0]
    try:
        count = Count.parse(wish.value)
    except NotationError as error:
        raise ChangeRefused(str(error)) from None
    lines = _answered(lines, block, COUNTED)
    return _set(lines, block, "sets", str(count), ("your_turn", "at", "format", "kind", "name"))


def _drop(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """It is not shown: its lines go, and its block with the last of them. A turn loses its time."""
    row = _row(lines, wish.row)
    place = lines.places[row.id]
    if row.kind == TURN:
        node = child_at(place.node, "your_turn")
        gone = {node.start_mark.line} if node is not None else set()
        gone |= {one.line for one in row.asked}
        return "\n".join(line for n, line in enumerate(lines.split) if n not in gone)
    block = row.id.partition(".")[0]
    if row.kind == ITEM and f"{block}.1" not in lines.places:
        place = lines.places[block]
    if place is lines.places.get(block) and "1" not in lines.places:
        raise ChangeRefused("this is the only block of the file; name another exercise instead")
    end = _end_of(lines, place.end)
    return "\n".join([*lines.split[: place.first], *lines.split[end:]])


def _end_of(lines: Lines, end: int) -> int:
    """The end of some lines without the blank ones and comments of whole lines that stand behind them."""
    while end > 0 and lines.split[end - 1].strip() == "":
        end -= 1
    return end


def _new(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """An exercise begins where the film stands: behind the last one before, or first in a block that has
    just been opened, or in the one behind a turn.
    """
    _known(wish.value, library)
    items = [row for row in lines.rows if row.kind == ITEM]
    if not items:
        raise ChangeRefused("write a block with one exercise first, or begin the episode from its film")
    timed = [row for row in lines.rows if row.at is not None and row.at <= wish.at]
    last = timed[-1] if timed else None
    behind = last is not None and last.kind == ITEM
    if last is None or not behind:
        place = lines.rows.index(last) if last is not None else 0
        following = next((row for row in lines.rows[place:] if row.kind == ITEM), None)
        if following is None:
            raise ChangeRefused("the last turn stands before this; take it out or move it first")
        block, _, number = following.id.partition(".")
    else:
        block, _, number = last.id.partition(".")
    by = lines.places[f"{block}.{number}"]
    dash = " " * (by.node.start_mark.column - 2)
    entry = [
        f"{dash}- exercise: {wish.value}",
        f'{dash}  at: "{format_clock(wish.at)}"',
        f'{dash}  dose: "1"    {_UNDOSED}',
    ]
    at = _end_of(lines, by.end) if behind else by.first
    lines = Lines("\n".join([*lines.split[:at], *entry, *lines.split[at:]]), "episode")
    # Looked at once more as any other start is: is it in order, and does its block open before it?
    return _here(lines, RowChange(f"{block}.{int(number) + behind}", at=wish.at), library)


def _split(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """A new block begins with the exercise; a turn behind it goes with it."""
    row = _row(lines, wish.row)
    if row.kind != ITEM or row.id.endswith(".0"):
        raise ChangeRefused("choose an exercise that is not the first of its block")
    block, _, _ = row.id.partition(".")
    old, place = lines.places[block], lines.places[row.id]
    keys = [name.value for name, _ in old.node.value]
    if keys[-1] != "items" or getattr(old.node, "flow_style", False):
        raise ChangeRefused("its block has lines behind its items; move them above 'items:' first")
    dash = " " * (old.node.start_mark.column - 2)
    kind, form = (_written(lines, block, key) for key in ("kind", "format"))
    head = [f"{dash}- name: {_next_name(lines)}"]
    head += [f"{dash}  {key}: {value}" for key, value in (("kind", kind), ("format", form)) if value]
    if row.at is not None:
        head.append(f'{dash}  at: "{format_clock(row.at)}"')
    moved: set[int] = set()
    turn = child_at(old.node, "your_turn")
    if turn is not None:
        moved = {turn.start_mark.line}
        head.append(f"{dash}  {lines.split[turn.start_mark.line].strip()}")
    out = []
    for number, line in enumerate(lines.split):
        if number == place.first:
            out += [*head, f"{dash}  items:"]
        if number not in moved:
            out.append(line)
    return "\n".join(out)


def _written(lines: Lines, key: str, name: str) -> str:
    node = child_at(lines.places[key].node, name)
    return str(node.value) if node is not None else ""


def _next_name(lines: Lines) -> str:
    names = {row.name for row in lines.rows if row.kind == BLOCK}
    return next(name for n in count(len(names) + 1) if (name := f"Block {n}") not in names)


def _join(lines: Lines, wish: RowChange, library: Collection[str]) -> str:
    """The block is part of the one above: its own lines go, its exercises and its turn stay."""
    block = wish.row.partition(".")[0]
    above = str(int(block) - 1)
    if above not in lines.places:
        raise ChangeRefused("this is the first block")
    mine, other = lines.places[block], lines.places[above]
    items = child_at(mine.node, "items")
    before = child_at(other.node, "items")
    if items is None or before is None or [n.value for n, _ in other.node.value][-1] != "items":
        raise ChangeRefused("only blocks that list their exercises, below all else, can be joined")
    first = items.value[0].start_mark
    if first.column != before.value[0].start_mark.column:
        raise ChangeRefused("the exercises of both blocks stand at different columns; join them in the file")
    turn = text_of(child_at(mine.node, "your_turn"))
    old = child_at(other.node, "your_turn")
    gone = {old.start_mark.line} if old is not None else set()
    gone |= set(range(mine.first, first.line))
    lines = Lines("\n".join(line for n, line in enumerate(lines.split) if n not in gone), "episode")
    return _set(lines, above, "your_turn", f'"{turn}"', _CLOCK_AFTER) if turn else lines.text


ACTIONS: Mapping[str, Callable[[Lines, RowChange, Collection[str]], str]] = {
    "here": _here,
    "accept": _accept,
    "answer": _answer,
    "exercise": _exercise,
    "dose": _dose,
    "sets": _sets,
    "drop": _drop,
    "new": _new,
    "split": _split,
    "join": _join,
}


def first_text(*, title: str, number: int, film: str, exercise: str, at: int) -> str:
    """The file of an episode that begins with its film: one block, one exercise."""
    clock = format_clock(at)
    return "\n".join(
        [
            f"title: {title}",
            f"number: {number}",
            f"video: {{file: {film}}}",
            "blocks:",
            "  - name: Block 1",
            "    kind: strength    # QUESTION: is this strength?",
            "    format: circuit    # QUESTION: in which format?",
            f'    at: "{clock}"',
            "    items:",
            f"      - exercise: {exercise}",
            f'        at: "{clock}"',
            f'        dose: "1"    {_UNDOSED}',
            "",
        ]
    )
