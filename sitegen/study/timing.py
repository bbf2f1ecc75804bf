"""How long a set, a block and a session take, as a range of seconds, work and rest apart.

Each range is worked out twice: in the short estimate every count, dose and rest is at its low
end, in the long one at its high end. Within one estimate the parts add up exactly.

Where the content says nothing we assume (common practice, no source, unless named):

- a rest between exercises, or a change of sides: the series' changeover; as many rounds as possible: the
  same from one round to the next, unless the block gives a rest between rounds;
- a rest between sets or rounds: 60 s in strength blocks (inside the 30-90 s that *Essentials of
  Strength Training and Conditioning* gives for muscle growth, seen in a summary only), 30 s in
  conditioning blocks (the same summary: endurance, 30 s at most), elsewhere and in intervals the
  same as between exercises;
- ``max``, and an item without any dose: 6 to 15 repetitions;
- a step: 0.6 to 1 s (60 to 100 steps a minute); a metre: 0.8 to 1.6 s (an unhurried walk indoors, about
  two metres in three steps); a calm breath: 4 to 6 s;
- setting up (fetching the kit, filling what is filled, clearing the floor): 2 to 5 minutes where a session
  needs kit, else nothing;
- the pause inside a split set such as ``8 + 7``: 5 to 15 s.
"""

from collections.abc import Callable
from dataclasses import dataclass
from operator import attrgetter

from sitegen.model import Block, Details, Episode, Item
from sitegen.notation import Dose, Duration
from sitegen.notation.quantity import DISTANCES_CM
from sitegen.study.forms import Forms, shown_form
from sitegen.study.span import NOTHING, Span, total
from sitegen.vocabulary import AMRAP, EMOM, INTERVALS, STRAIGHT

# All but the first in seconds: of a step, a metre, a breath, the pause in a split set, setting up.
MAX_REPS = Span(6, 15)
STEP_SECONDS = Span(0.6, 1)
METRE_SECONDS = Span(0.8, 1.6)
BREATH_SECONDS = Span(4, 6)
SPLIT_PAUSE_SECONDS = Span(5, 15)
SETTING_UP_SECONDS = Span(120, 300)
"""Where each comes from is said at the head of this file."""
REST_BETWEEN_SETS = {"strength": Duration(60, 60), "conditioning": Duration(30, 30)}
"""By kind of block, where the block says nothing."""


@dataclass(frozen=True, slots=True)
class SetTime:
    """One set of one item, in seconds."""

    work: float
    pause: float
    """Between the sides, or the parts of a split set."""

    @property
    def whole(self) -> float:
        """Work and pause together."""
        return self.work + self.pause


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A block with every range at one end, in seconds."""

    work: tuple[float, ...]
    """Of each item, all its sets together."""
    rest: float
    """All pauses inside the block."""
    after: float
    """Rest after the block."""

    @property
    def whole(self) -> float:
        """All time from the block's start to the end of the rest after it."""
        return sum(self.work) + self.rest + self.after


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockTime:
    """How long a block takes when it is done."""

    short: Estimate
    long: Estimate

    @property
    def seconds(self) -> Span:
        """Everything, the rest after the block included."""
        return Span(self.short.whole, self.long.whole)

    @property
    def work(self) -> Span:
        """Seconds of work."""
        return Span.between(sum(self.short.work), sum(self.long.work))

    @property
    def rest(self) -> Span:
        """Seconds of rest inside the block."""
        return Span.between(self.short.rest, self.long.rest)

    @property
    def after(self) -> Span:
        """Seconds of rest after it."""
        return Span(self.short.after, self.long.after)


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionTime:
    """How long an episode takes at home."""

    blocks: tuple[BlockTime, ...]
    """All blocks in order; those done along with the video are inside its time."""
    your_turn: Span
    """Seconds of all blocks for which the viewer pauses the video."""
    video: int | None
    """Seconds; None where the length is not known."""
    setting_up: Span = NOTHING
    """Seconds before it begins."""

    @property
    def whole(self) -> Span | None:
        """All the time it takes at home, setting up included; None where the video's length is not known."""
        return None if self.seconds is None else self.seconds + self.setting_up

    @property
    def seconds(self) -> Span | None:
        """Video and your turns together; None where the video's length is not known."""
        return None if self.video is None else Span(self.video, self.video) + self.your_turn


def session_time(details: Details, forms: Forms, episode: Episode) -> SessionTime:
    """Time of a whole episode; of a plan, where no video shows anything yet, all blocks are your turn."""
    times = tuple(block_time(details, forms, block) for block in episode.blocks)
    turns = (
        time.seconds
        for time, block in zip(times, episode.blocks, strict=True)
        if block.your_turn is not None or episode.planned
    )
    video = episode.video.length if episode.video else None
    kit = any(shown_form(forms, item).kit for block in episode.blocks for item in block.items)
    return SessionTime(
        blocks=times,
        your_turn=total(turns),
        video=video,
        setting_up=SETTING_UP_SECONDS if kit else NOTHING,
    )


def block_time(details: Details, forms: Forms, block: Block) -> BlockTime:
    """Time of one block when it is done with its own sets and rests."""
    return BlockTime(
        short=_estimate(details, forms, block, _low), long=_estimate(details, forms, block, _high)
    )


def set_seconds(details: Details, forms: Forms, block: Block, item: Item) -> Span:
    """One set of an item, changing sides included."""
    short, long = (_set(details, forms, block, item, end) for end in (_low, _high))
    return Span(short.whole, long.whole)


def dose_seconds(details: Details, forms: Forms, item: Item, dose: Dose) -> Span:
    """How long a dose of an item takes, changing sides included, however long its format gives it."""
    short, long = (_dosed(details, forms, item, dose, end) for end in (_low, _high))
    return Span(short.whole, long.whole)


def round_seconds(details: Details, forms: Forms, block: Block) -> Span:
    """One round of a block without the way back to its start."""

    def seconds(end: _End) -> float:
        sets = [_set(details, forms, block, item, end) for item in block.items]
        return _round(sets, _between_exercises(details, block, end), 0)

    return Span(seconds(_low), seconds(_high))


def item_sets(details: Details, forms: Forms, block: Block) -> tuple[Span, ...]:
    """How many sets of each item the block has.

    Every minute on the minute: the items take turns, so the first ones may get one more. As many
    rounds as possible: the whole rounds that fit into the time.
    """
    if block.format == EMOM and block.time:
        few, many = block.time.low // 60, block.time.high // 60
        return tuple(Span(_turns(few, block, n), _turns(many, block, n)) for n in range(len(block.items)))
    if block.format == AMRAP and block.time:
        return (_rounds_within(details, forms, block, block.time),) * len(block.items)
    return (Span(block.sets.low, block.sets.high),) * len(block.items)


def pauses(details: Details, block: Block) -> tuple[Span, Span]:
    """Seconds between exercises and between sets or rounds, with what we assume where nothing is said."""
    exchange = Span(_between_exercises(details, block, _low), _between_exercises(details, block, _high))
    break_ = Span(_between_sets(details, block, _low), _between_sets(details, block, _high))
    return exchange, break_


_End = Callable[[Span | Duration], float]
_low: _End = attrgetter("low")
_high: _End = attrgetter("high")


def _estimate(details: Details, forms: Forms, block: Block, end: _End) -> Estimate:
    after = end(block.rest.after) if block.rest.after else 0.0
    sets = [_set(details, forms, block, item, end) for item in block.items]
    if block.format == EMOM:
        work, rest = _by_the_minute(block, sets, end)
    elif block.format == AMRAP and block.time:
        pauses = _between_exercises(details, block, end), _way_back(details, block, end)
        work, rest = _within(end(block.time), sets, _round(sets, *pauses))
    else:
        work, rest = _in_turn(details, block, sets, end)
    return Estimate(work=work, rest=rest, after=after)


def _in_turn(
    details: Details, block: Block, sets: list[SetTime], end: _End
) -> tuple[tuple[float, ...], float]:
    """Work of each item and rest of a block whose sets are counted; no rest after the last set."""
    count = end(Span(block.sets.low, block.sets.high))
    exchange = _between_exercises(details, block, end)
    break_ = _between_sets(details, block, end)
    work = tuple(one.work * count for one in sets)
    pauses = sum(one.pause for one in sets) * count
    moves = len(sets) - 1
    if block.format == STRAIGHT:
        return work, pauses + moves * exchange + len(sets) * (count - 1) * break_
    return work, pauses + count * moves * exchange + (count - 1) * break_


def _within(cap: float, sets: list[SetTime], one_round: float) -> tuple[tuple[float, ...], float]:
    """A time cap shared out as one round, of so many seconds, shares its time between work and rest."""
    work = tuple(cap * one.work / one_round for one in sets)
    return work, max(0.0, cap - sum(work))  # rounding may make the parts a little more than the whole


def _by_the_minute(block: Block, sets: list[SetTime], end: _End) -> tuple[tuple[float, ...], float]:
    """Every minute has one set; what is left of the minute is rest. Work fills a minute at most."""
    if block.time:
        seconds = end(block.time)
        turns = [_turns(int(seconds // 60), block, n) for n in range(len(sets))]
    else:
        count = int(end(Span(block.sets.low, block.sets.high)))
        seconds = 60.0 * count * len(sets)
        turns = [count] * len(sets)
    work = tuple(min(60.0, one.work) * turn for one, turn in zip(sets, turns, strict=True))
    return work, seconds - sum(work)


def _turns(minutes: int, block: Block, index: int) -> int:
    """How many of the minutes fall to the item with that index."""
    whole, left_over = divmod(minutes, len(block.items))
    return whole + (1 if index < left_over else 0)


def _rounds_within(details: Details, forms: Forms, block: Block, cap: Duration) -> Span:
    def rounds(cap_end: int, end: _End) -> float:
        sets = [_set(details, forms, block, item, end) for item in block.items]
        exchange, way_back = _between_exercises(details, block, end), _way_back(details, block, end)
        # The last round needs no way back after it.
        return (cap_end + way_back) // _round(sets, exchange, way_back)

    return Span(rounds(cap.low, _high), rounds(cap.high, _low))


def _round(sets: list[SetTime], exchange: float, way_back: float) -> float:
    """Seconds of one round with the way back to its start; never nothing, for it divides."""
    return max(1.0, sum(one.whole for one in sets) + (len(sets) - 1) * exchange + way_back)


def _way_back(details: Details, block: Block, end: _End) -> float:
    """Between rounds without a number: the rest that the block gives, else as between exercises."""
    rest = block.rest.between_sets
    return _between_exercises(details, block, end) if rest is None else end(rest)


def _between_exercises(details: Details, block: Block, end: _End) -> float:
    rest = block.rest.between_exercises
    return end(details.changeover if rest is None else rest)


def _between_sets(details: Details, block: Block, end: _End) -> float:
    if block.rest.between_sets is not None:
        return end(block.rest.between_sets)
    if block.format == INTERVALS or block.kind not in REST_BETWEEN_SETS:
        return _between_exercises(details, block, end)
    return end(REST_BETWEEN_SETS[block.kind])


def _set(details: Details, forms: Forms, block: Block, item: Item, end: _End) -> SetTime:
    if block.work and (block.format == INTERVALS or item.dose is None):
        return SetTime(end(block.work), 0.0)
    dose = item.dose or Dose(kind="max")
    if not dose.sets:
        return _dosed(details, forms, item, dose, end)
    # A set of average length stands for each: all together come to the same.
    sets = [_dosed(details, forms, item, one, end) for one in dose.sets]
    return SetTime(sum(one.work for one in sets) / len(sets), sum(one.pause for one in sets) / len(sets))


def _dosed(details: Details, forms: Forms, item: Item, dose: Dose, end: _End) -> SetTime:
    """A set by its dose, however long the format gives it."""
    pause = (len(dose.parts) - 1) * end(SPLIT_PAUSE_SECONDS) if dose.parts else 0.0
    amount = _amount_seconds(details, forms, item, dose, end)
    between_sides = (dose.sides - 1) * end(details.changeover)
    return SetTime(dose.sides * amount, dose.sides * pause + between_sides)


def _amount_seconds(details: Details, forms: Forms, item: Item, dose: Dose, end: _End) -> float:
    """Seconds of work on one side."""
    amount = end(Span(dose.low, dose.high))
    if dose.kind == "time":
        return amount
    if dose.kind == "distance":
        return amount * DISTANCES_CM[dose.unit] / 100 * end(METRE_SECONDS)
    if dose.unit == "steps":
        return amount * end(STEP_SECONDS)
    if dose.unit == "breaths":
        return amount * end(BREATH_SECONDS)
    return _rep_seconds(details, forms, item) * (end(MAX_REPS) if dose.kind == "max" else amount)


def _rep_seconds(details: Details, forms: Forms, item: Item) -> float:
    """By the item's tempo, else its form's, else a step's rate, else the series' tempo."""
    form = shown_form(forms, item)
    tempo = item.tempo or form.tempo
    if tempo is None and form.stepping is not None:
        return 60 / form.stepping.per_minute
    return (tempo or details.tempo).seconds
