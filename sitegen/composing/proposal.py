"""The next session of a series proposed: ranked, with the reason of every choice and every conflict named.

:func:`propose` is pure: the same series, wishes and shape give the same sessions. A whole series is composed
by adding each session with :func:`with_session` and asking again.

What a session is chosen by: its muscles' lower limits for the week first, then what a usual week has; time
since an exercise was last used; what needs keep of it; wishes. What it may not break is in ``search.Rules``.
The session found is then worked out again as ``check`` would (:mod:`sitegen.composing.verify`), so that a
bound it breaks is said in any case.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from sitegen.composing.conflicts import Conflict, ProposalError, let_go, shortened, too_few
from sitegen.composing.history import History, history_of
from sitegen.composing.pool import MAIN_LIFTS, Candidate, Pool, fixed_seconds, share_of_one
from sitegen.composing.reasons import reason_of
from sitegen.composing.request import Wishes
from sitegen.composing.search import (
    QUARTERS,
    RULES,
    Found,
    Option,
    Places,
    Rules,
    Task,
    Want,
    broken,
    find,
    summed,
)
from sitegen.composing.session_shape import (
    BlockShape,
    Shape,
    first_shape,
    is_rotating,
    lengths,
    session_like,
    shape_of,
)
from sitegen.composing.verify import broken_bounds
from sitegen.composing.written import Written
from sitegen.model import Block, Details, Episode, Item, Series
from sitegen.problems import Location
from sitegen.study.forms import Forms
from sitegen.study.overview import Overview, overview
from sitegen.study.room import MuscleRoom, Room, room
from sitegen.study.span import Span, total
from sitegen.study.timing import block_time
from sitegen.study.weeks import usual_count

URGENT_POINTS, LAST_CHANCE_POINTS, USUAL_POINTS = 3, 6, 1
"""For a quarter of a set that the week lacks, that only this session can still give it, and that a usual week
has (our choice)."""
MAIN_POINTS = 4
"""For each of the first eight quarters of a set of a main lift: a session without one of knee, hinge, push or
pull should be the exception (common practice, no source)."""
STAYS = "stays as you wrote it"
"""The reason of an exercise that the trainer chose or changed."""
PROPOSED_BEFORE = 15
"""Points that an exercise loses for each better proposal that has it, so that proposals differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One exercise of a proposal."""

    candidate: Candidate
    reason: str
    """In one line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """One session."""

    episode: Episode
    """As a plan without title: shared blocks and composed ones, in order."""
    choices: tuple[tuple[Choice, ...], ...]
    """Of each composed block, in the order in which it is done."""
    composed: tuple[int, ...]
    """Which blocks of the episode those are."""
    conflicts: tuple[Conflict, ...]
    score: int
    """Points by which proposals are ranked: of one shape the more the better."""
    proven: bool
    """Whether no other session of this shape can have more points, given the better proposals."""
    seconds: Span
    """Time it takes at home: every block and, at its usual length, the film."""
    film: int
    """Seconds of that are the film's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposals:
    """All of one asking."""

    room: Room
    sessions: tuple[Proposal, ...]
    """The best first."""


class Composer:
    """Composes sessions after the last one of a series."""

    def __init__(self, series: Series) -> None:
        self.series = series
        self.details: Details = series.details
        self.seen: Overview = overview(series)
        self.forms: Forms = self.seen.forms
        self.per_week = usual_count(week for week, _ in self.seen.weeks) or 1
        self.room: Room = room(series, self.seen)
        self.history: History = history_of(series, self.forms, self.seen)
        self._candidates: dict[tuple[str, Wishes], Mapping[str, Candidate]] = {}
        self.pool = Pool(self.details, series.exercises, self.forms, self.history, self.room)

    def propose(self, wishes: Wishes, shape: Shape | None, count: int) -> Proposals:
        """At most so many sessions; see :func:`propose`."""
        like = session_like(self.series, self.room.number, self.per_week)
        if shape is None:
            shape = shape_of(like) if like else first_shape()
        wishes = self._defaults(wishes)
        found: list[Proposal] = []
        for _ in range(count):
            before = [one.candidate.form.exercise for p in found for block in p.choices for one in block]
            proposal = self._one(shape, wishes, before)
            if any(_same(proposal, other) for other in found):
                break
            found.append(proposal)
        ranked = sorted(found, key=lambda one: (len(one.conflicts), -one.score))
        return Proposals(room=self.room, sessions=tuple(ranked))

    def again(self, written: Written, wishes: Wishes) -> Proposal:
        """A plan composed again: what is the trainer's stays, the other exercises are chosen anew.

        Its blocks stay as they stand, with their sets and rests: nothing but exercises changes. Raises
        ProposalError.
        """
        episode = written.episode
        if wishes.minutes is None and episode.lasts is not None:
            wishes = replace(wishes, minutes=ceil(episode.lasts.high / 60))
        search = _Filling(self, shape_of(episode), self._defaults(wishes), (), written)
        return self._proposal(search, self._found(search), None)

    def _defaults(self, wishes: Wishes) -> Wishes:
        """The wishes, with what the series says where nothing is wished."""
        like = session_like(self.series, self.room.number, self.per_week)
        if wishes.minutes is None and like is not None and like.lasts is not None:
            wishes = replace(wishes, minutes=ceil(like.lasts.high / 60))
        if not self.history.last_used:  # of a first session everything is new
            wishes = replace(wishes, new=max(wishes.new, len(self.series.exercises)))
        return wishes

    def _one(self, shape: Shape, wishes: Wishes, before: Sequence[str]) -> Proposal:
        for tried in lengths(shape):
            if not self._too_long(tried, wishes):
                search = _Filling(self, tried, wishes, before)
                if (found := search.find()) is not None:
                    return self._proposal(search, found, shortened(shape, tried, wishes.minutes))
        search = _Filling(self, shape, wishes, before)
        return self._proposal(search, self._found(search), None)

    def _found(self, search: "_Filling") -> Found:
        """The best session, with as few rules let go as it takes."""
        if short := search.too_few():
            raise ProposalError(short)
        for without in (frozenset[str](), *(frozenset({rule}) for rule in RULES), frozenset(RULES)):
            if (found := search.find(without)) is not None:
                return found
        raise ProposalError("no session of this shape can be filled; ask for fewer exercises or blocks")

    def candidates(self, block: BlockShape, wishes: Wishes) -> Mapping[str, Candidate]:
        """The candidates for a block by exercise, worked out once."""
        key = (repr(block), wishes)
        if key not in self._candidates:
            self._candidates[key] = {c.option.key: c for c in self.pool.candidates(block, wishes)}
        return self._candidates[key]

    def _too_long(self, shape: Shape, wishes: Wishes) -> bool:
        return wishes.minutes is not None and self.fixed(shape) >= wishes.minutes * 60

    def fixed(self, shape: Shape, written: Written | None = None) -> float:
        """Seconds of a session besides its exercises, at the long end: film, other blocks, rests."""
        own = sum(fixed_seconds(self.details, one.block, one.places) for one in shape.blocks)
        return self.film + self._others(shape, written).high + own

    def _others(self, shape: Shape, written: Written | None) -> Span:
        """Seconds of the blocks that are not composed."""
        if written is None:
            return self._shared((*shape.opening, *shape.closing))
        known = [block.routine for block in written.others if block.routine and self.shown(block.routine)]
        unknown = [block for block in written.others if block.routine not in known]
        own = total(block_time(self.details, self.forms, block).seconds for block in unknown)
        return self._shared([routine for routine in known if routine]) + own

    @property
    def film(self) -> int:
        """Seconds of a film by the filmed sessions, on average; 0 where none is known."""
        known = [e.video.length for e in self.series.sessions if e.video and e.video.length]
        return round(sum(known) / len(known)) if known else 0

    def _shared(self, routines: Sequence[str]) -> Span:
        """Seconds of shared blocks; those that were last done along with the film are in its length."""
        shown = [block for block in map(self.shown, routines) if block is not None]
        turns = [block for block in shown if block.at is None or block.your_turn is not None]
        return total(block_time(self.details, self.forms, block).seconds for block in turns)

    def shown(self, routine: str) -> Block | None:
        """A shared block as the last session has it; None where no session has it."""
        for episode in reversed(self.series.sessions):
            for block in episode.blocks:
                if block.routine == routine:
                    return block
        return None

    def _planned(self, routines: Iterable[str]) -> list[Block]:
        shown = (block for block in map(self.shown, routines) if block is not None)
        return [
            replace(b, at=None, your_turn=None, items=tuple(replace(item, at=None) for item in b.items))
            for b in shown
        ]

    def _proposal(self, filled: "_Filling", found: Found, shorter: Conflict | None) -> Proposal:
        choices = filled.choices(found)
        items = [tuple(choice.candidate.item for choice in block) for block in choices]
        if filled.written:
            episode, composed = filled.written.with_items(items), filled.written.composed
        else:
            episode, composed = self._episode(filled.shape, items)
        own = total(block_time(self.details, self.forms, episode.blocks[at]).seconds for at in composed)
        seconds = own + self._others(filled.shape, filled.written) + Span(self.film, self.film)
        conflicts = [*broken_bounds(self, episode, filled.wishes, seconds)]
        told = {one.rule for one in conflicts}
        # Pairings are the search's own rules: what had to be let go is told by its rules.
        let = [let_go(rule) for rule in broken(filled.task(), found.blocks) if rule not in told]
        return Proposal(
            episode=episode,
            choices=choices,
            composed=composed,
            conflicts=(*([shorter] if shorter else []), *let, *conflicts),
            score=found.score + filled.taken_off(found),
            proven=found.proven,
            seconds=seconds,
            film=self.film,
        )

    def _episode(self, shape: Shape, items: Sequence[tuple[Item, ...]]) -> tuple[Episode, tuple[int, ...]]:
        """A new plan, and which of its blocks are composed."""
        opening, closing = self._planned(shape.opening), self._planned(shape.closing)
        own = [
            replace(one.block, name=_name(shape, number), items=chosen)
            for number, (one, chosen) in enumerate(zip(shape.blocks, items, strict=True))
        ]
        number = self.room.number
        episode = Episode(
            slug=f"session-{number}",
            number=number,
            title=f"Session {number}",
            released=self.room.day,
            blocks=(*opening, *own, *closing),
            location=Location(f"episodes/{number:02d}-session-{number}.yaml"),
        )
        return episode, tuple(range(len(opening), len(opening) + len(own)))


class _Filling:
    """The search for the exercises of one shape."""

    def __init__(
        self,
        composer: Composer,
        shape: Shape,
        wishes: Wishes,
        before: Sequence[str],
        written: Written | None = None,
    ) -> None:
        self.composer = composer
        self.shape = shape
        self.wishes = wishes
        self.before = before
        self.written = written
        """The plan that is composed again; None for a new one."""
        self.kept = self._kept(written)
        self.candidates: list[Mapping[str, Candidate]] = [
            composer.candidates(block, wishes) for block in shape.blocks
        ]

    def _kept(self, written: Written | None) -> list[Mapping[int, Candidate]]:
        """Of each block, what stays in which place."""
        if written is None:
            return [{} for _ in self.shape.blocks]
        pool = self.composer.pool
        return [
            {
                at: pool.candidate(share_of_one(one), item, self.wishes, dose=None)
                for at, item in written.kept(number)
            }
            for number, one in enumerate(self.shape.blocks)
        ]

    def choices(self, found: Found) -> tuple[tuple[Choice, ...], ...]:
        """The exercises of a session that was found, each with its reason."""
        kept = {id(one.option): one for block in self.kept for one in block.values()}
        return tuple(
            tuple(
                Choice(candidate=kept[id(option)], reason=STAYS)
                if id(option) in kept
                else self._choice(candidates[option.key])
                for option in options
            )
            for candidates, options in zip(self.candidates, found.blocks, strict=True)
        )

    def _choice(self, chosen: Candidate) -> Choice:
        return Choice(candidate=chosen, reason=reason_of(self.composer, chosen))

    def find(self, without: frozenset[str] = frozenset()) -> Found | None:
        """The best session, with some rules let go."""
        return None if self.too_few() else find(self.task(without))

    def task(self, without: frozenset[str] = frozenset()) -> Task:
        """What is searched, with some rules let go."""
        places = tuple(
            Places(
                options=tuple(self._lowered(one.option) for one in candidates.values()),
                count=block.places,
                kept=tuple(one.option for one in kept.values()),
                kept_at=tuple(kept),
                rotating=is_rotating(block.block),
            )
            for block, candidates, kept in zip(self.shape.blocks, self.candidates, self.kept, strict=True)
        )
        return Task(places=places, wants=dict(self._wants()), rules=self._rules(without))

    def too_few(self) -> str:
        """What keeps a block from being filled; empty for nothing."""
        for number, (block, candidates) in enumerate(zip(self.shape.blocks, self.candidates, strict=True)):
            places = block.places - len(self.kept[number])
            if len(candidates) < places:
                return too_few(_name(self.shape, number), places, len(candidates))
        return ""

    def _lowered(self, option: Option) -> Option:
        return replace(option, points=option.points - PROPOSED_BEFORE * self.before.count(option.key))

    def taken_off(self, found: Found) -> int:
        """Points that the exercises lost because they were proposed before."""
        keys = [option.key for block in found.blocks for option in block]
        return PROPOSED_BEFORE * sum(map(self.before.count, keys))

    def _wants(self) -> Iterator[tuple[str, Want]]:
        left = self.composer.room.left
        for muscle in self.composer.room.muscles:
            urgent = ceil(muscle.lacks * QUARTERS / left)
            usual = max(0.0, muscle.usual - muscle.done.mid) * QUARTERS / left
            yield (
                muscle.muscle,
                Want(
                    urgent=urgent,
                    urgent_points=LAST_CHANCE_POINTS if left == 1 else URGENT_POINTS,
                    usual=max(0, round(usual) - urgent),
                    usual_points=USUAL_POINTS,
                ),
            )
        for name in MAIN_LIFTS:
            yield name, Want(urgent=2 * QUARTERS, urgent_points=MAIN_POINTS, usual=0, usual_points=0)

    def _rules(self, without: frozenset[str]) -> Rules:
        room, composer = self.composer.room, self.composer
        fixed = composer.fixed(self.shape, self.written)
        seconds = self.wishes.minutes * 60 - fixed if self.wishes.minutes else None
        balance = room.training.balance
        # What stays may be over a bound; that is told, and what is chosen keeps the others all the same.
        load, hard = self._of_kept("load"), self._of_kept("hard")
        most = {one.muscle: _quarters(one) for one in room.muscles if one.may is not None}
        return Rules(
            most={muscle: max(amount, load.get(muscle, 0)) for muscle, amount in most.items()},
            tired=frozenset(
                one.muscle for one in room.muscles if one.tired_from and not hard.get(one.muscle)
            ),
            push_per_pull=room.push_per_pull,
            push=round(balance.push.mid * QUARTERS),
            pull=round(balance.pull.mid * QUARTERS),
            seconds=seconds,
            new=self.wishes.new,
            without=without,
        )

    def _of_kept(self, name: str) -> dict[str, int]:
        """The load, or the hard sets, of each muscle in what stays."""
        return summed(getattr(one.option, name) for block in self.kept for one in block.values())


def _quarters(muscle: MuscleRoom) -> int:
    return int((muscle.may or 0) * QUARTERS)


def _name(shape: Shape, number: int) -> str:
    """``Strength 2``; without a number where it is the only one of its kind."""
    kinds = [one.block.kind for one in shape.blocks]
    kind = kinds[number]
    word = kind.capitalize()
    return word if kinds.count(kind) == 1 else f"{word} {kinds[: number + 1].count(kind)}"


def _same(one: Proposal, other: Proposal) -> bool:
    keys = [{c.candidate.form.exercise for block in p.choices for c in block} for p in (one, other)]
    return keys[0] == keys[1]


def propose(
    series: Series, wishes: Wishes | None = None, shape: Shape | None = None, count: int = 1
) -> Proposals:
    """Ranked proposals for the session after the last one.

    Without a shape it is that of the session a week before. Raises ProposalError where a block cannot be
    filled at all, with what to ask for instead.
    """
    return Composer(series).propose(wishes or Wishes(), shape, count)


def propose_again(series: Series, written: Written, wishes: Wishes | None = None) -> Proposal:
    """A plan composed again on what the series has before it. Raises ProposalError."""
    return Composer(up_to(series, written.episode.number)).again(written, wishes or Wishes())


def up_to(series: Series, number: int) -> Series:
    """The series with the sessions before a number only."""
    before = tuple(episode for episode in series.sessions if episode.number < number)
    return replace(series, episodes=before, upcoming=())


def with_session(series: Series, proposal: Proposal) -> Series:
    """The series with a proposal as its last session, not yet out."""
    return replace(series, upcoming=(*series.upcoming, proposal.episode))
