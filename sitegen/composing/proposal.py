"""The next session of a series proposed: ranked, with the reason of every choice and every conflict named.

:func:`propose` is pure: the same series, wishes and shape give the same sessions. A whole series is composed
by adding each session with :func:`with_session` and asking again.

Where no shape is asked for, ``skeletons`` offers builds and the sessions before decide which one is due; the
``level`` says how hard the session is meant to be in its week. Sets, rests, warm-up and cool-down are chosen
after the exercises (:mod:`sitegen.composing.finishing`).

What a session is chosen by: its muscles' lower limits for the week first, then what a usual week has; time
since an exercise was last used; what needs keep of it; wishes. What it may not break is in ``search.Rules``.
The session found is then worked out again as ``check`` would (:mod:`sitegen.composing.verify`), so that a
bound it breaks is said in any case.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from math import ceil

from sitegen.composing.conflicts import Conflict, ProposalError, let_go, shortened, too_few
from sitegen.composing.finishing import Draft, finished, seconds_of, unfilmed
from sitegen.composing.history import MAIN_LIFTS, History, history_of
from sitegen.composing.level import Level, level_at
from sitegen.composing.pool import Candidate, Pool, fixed_seconds, share_of_one
from sitegen.composing.preparing import Preparing
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
    is_composed,
    is_rotating,
    lengths,
    shape_of,
)
from sitegen.composing.skeletons import skeletons
from sitegen.composing.verify import broken_bounds
from sitegen.composing.written import Written
from sitegen.model import Block, Details, Episode, Series
from sitegen.problems import Location
from sitegen.study.forms import Forms
from sitegen.study.overview import Overview, overview
from sitegen.study.room import MuscleRoom, Room, room
from sitegen.study.span import Span, total
from sitegen.study.timing import block_time
from sitegen.study.weeks import usual_count
from sitegen.vocabulary import COOL_DOWN, WARM_UP

URGENT_POINTS, LAST_CHANCE_POINTS, USUAL_POINTS = 3, 12, 1
"""For a quarter of a set that the week lacks, that only this session can still give it, and that a usual week
has (our choice)."""
MAIN_POINTS = 6
"""For each of the first eight quarters of a set of a main lift: a session without one of knee, hinge, push or
pull should be the exception (common practice, no source)."""
BUILDS = 3
"""Builds of a session that are tried before one is made shorter."""
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
    prepared: Mapping[int, str]
    """Why the warm-up and the cool-down were chosen, by their place among the blocks."""
    level: str
    """``heavy``, ``medium`` or ``light``."""
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
        self.level: Level = level_at(
            len(self.room.sessions), self.per_week, after_week_off=self.room.after_week_off
        )
        self._candidates: dict[tuple[str, Wishes], Mapping[str, Candidate]] = {}
        self.pool = Pool(self.details, series.exercises, self.forms, self.history, self.room, self.level)
        self.preparing = Preparing(series, self.forms)

    def propose(self, wishes: Wishes, shape: Shape | None, count: int) -> Proposals:
        """At most so many sessions; see :func:`propose`."""
        wishes = self._defaults(wishes)
        builds = self._builds() if shape is None else (shape,)
        found: list[Proposal] = []
        for _ in range(count):
            before = [one.candidate.form.exercise for p in found for block in p.choices for one in block]
            taken = [_outline(p.episode.blocks[n] for n in p.composed) for p in found]
            others = [build for build in builds if _outline_of(build) not in taken]
            proposal = self._one(others or builds, wishes, before, asked=shape is not None)
            if any(_same(proposal, other) for other in found):
                break
            found.append(proposal)
        if shape is not None:  # points tell which is better where the build is the same
            found.sort(key=lambda one: -one.score)
        ranked = sorted(found, key=lambda one: len(one.conflicts))
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
        if wishes.minutes is None:
            wishes = replace(wishes, minutes=self._usual_minutes())
        if not self.history.last_used:  # of a first session everything is new
            wishes = replace(wishes, new=max(wishes.new, len(self.series.exercises)))
        return wishes

    def _builds(self) -> tuple[Shape, ...]:
        """What the session may be built of where nobody says so, the best first."""
        if found := skeletons(self.series, self.level):
            return found
        like = (e for e in reversed(self.series.sessions) if any(map(is_composed, e.blocks)))
        return tuple(shape_of(one) for one in like)[:1] or (first_shape(),)

    def _usual_minutes(self) -> int | None:
        """How long sessions of such a level usually are, by what the series announces."""
        lengths_ = sorted(e.lasts.high for e in self.series.sessions if e.lasts is not None)
        if not lengths_:
            return None
        return ceil(lengths_[min(len(lengths_) - 1, int(self.level.share * len(lengths_)))] / 60)

    def _one(
        self, builds: Sequence[Shape], wishes: Wishes, before: Sequence[str], *, asked: bool
    ) -> Proposal:
        kept: Proposal | None = None
        for number, (shape, tried) in enumerate(self._tries(builds, wishes)):
            if kept is not None and number >= BUILDS:
                break
            if not self._too_long(tried, wishes):
                search = _Filling(self, tried, wishes, before)
                if (found := search.find()) is not None:
                    shorter = shortened(shape, tried, wishes.minutes) if asked else None
                    proposal = self._proposal(search, found, shorter)
                    if not proposal.conflicts or asked:
                        return proposal
                    if kept is None or len(proposal.conflicts) < len(kept.conflicts):
                        kept = proposal
        if kept is not None:
            return kept
        search = _Filling(self, builds[0], wishes, before)
        return self._proposal(search, self._found(search), None)

    def _tries(self, builds: Sequence[Shape], wishes: Wishes) -> Iterator[tuple[Shape, Shape]]:
        """A build and what is tried of it: as it is, some that have time enough, then the first shorter or
        longer."""
        if len(builds) > 1:
            fewer = [(build, shape) for build in builds for shape in islice(lengths(build), 2)]
            as_they_are = [(build, build) for build in builds]
            roomy = (pair for pair in (*as_they_are, *fewer) if self._has_time(pair[1], wishes))
            yield from islice(roomy, BUILDS)
        yield from ((builds[0], tried) for tried in lengths(builds[0]))

    def _has_time(self, shape: Shape, wishes: Wishes) -> bool:
        """Whether exercises of middling length fill it in time: else only the shortest could stand in it."""
        if wishes.minutes is None:
            return True
        seconds = self.fixed(shape)
        for one in shape.blocks:
            options = [c.option.seconds for c in self.candidates(one, wishes).values()]
            if len(options) < one.places:
                return False
            seconds += one.places * sum(options) / len(options)
        return seconds <= wishes.minutes * 60

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
            return self.around((*self._opening(shape), *self._closing(shape)))
        known = [block.routine for block in written.others if block.routine and self.shown(block.routine)]
        unknown = [block for block in written.others if block.routine not in known]
        own = total(block_time(self.details, self.forms, block).seconds for block in unknown)
        return self.around(self._shown(routine for routine in known if routine)) + own

    @property
    def film(self) -> int:
        """Seconds of a film by the filmed sessions, on average; 0 where none is known."""
        known = [e.video.length for e in self.series.sessions if e.video and e.video.length]
        return round(sum(known) / len(known)) if known else 0

    def _opening(self, shape: Shape) -> tuple[Block, ...]:
        """What a session begins with before anything suits the day: shared blocks, or the last warm-up."""
        return self._shown(shape.opening) or self.preparing.last(WARM_UP)

    def _closing(self, shape: Shape) -> tuple[Block, ...]:
        return self._shown(shape.closing) or self.preparing.last(COOL_DOWN)

    def around(self, blocks: Iterable[Block]) -> Span:
        """Seconds of warm-ups and the like; what was last done along with the film is in its length."""
        turns = [block for block in blocks if block.at is None or block.your_turn is not None]
        return total(block_time(self.details, self.forms, block).seconds for block in turns)

    def shown(self, routine: str) -> Block | None:
        """A shared block as the last session has it; None where no session has it."""
        for episode in reversed(self.series.sessions):
            for block in episode.blocks:
                if block.routine == routine:
                    return block
        return None

    def _shown(self, routines: Iterable[str]) -> tuple[Block, ...]:
        return tuple(block for block in map(self.shown, routines) if block is not None)

    def _proposal(self, filled: "_Filling", found: Found, shorter: Conflict | None) -> Proposal:
        if filled.written:
            return self._again(filled, filled.written, found)
        draft = self._draft(filled, found)
        conflicts = self.conflicts(draft, filled.wishes)
        draft, conflicts = finished(self, draft, conflicts, filled.shape.blocks, filled.wishes)
        opening, own = len(draft.opening), len(draft.own)
        places = {WARM_UP: opening - 1, COOL_DOWN: opening + own}
        return Proposal(
            episode=self.episode(draft),
            choices=tuple(
                tuple(Choice(candidate=one, reason=reason_of(self, one)) for one in block)
                for block in draft.chosen
            ),
            composed=tuple(range(opening, opening + own)),
            prepared={places[kind]: reason for kind, reason in draft.reasons.items()},
            level=self.level.name,
            conflicts=(*([shorter] if shorter else []), *self._let_go(filled, found, conflicts), *conflicts),
            score=found.score + filled.taken_off(found),
            proven=found.proven,
            seconds=seconds_of(self, draft),
            film=self.film,
        )

    def _again(self, filled: "_Filling", written: Written, found: Found) -> Proposal:
        """A plan that is written, with its exercises chosen anew and all else as it stands."""
        choices = filled.choices(found)
        episode = written.with_items([tuple(one.candidate.item for one in block) for block in choices])
        own = total(
            block_time(self.details, self.forms, episode.blocks[at]).seconds for at in written.composed
        )
        seconds = own + self._others(filled.shape, written) + Span(self.film, self.film)
        conflicts = tuple(broken_bounds(self, episode, filled.wishes, seconds))
        return Proposal(
            episode=episode,
            choices=choices,
            composed=written.composed,
            prepared={},
            level=self.level.name,
            conflicts=(*self._let_go(filled, found, conflicts), *conflicts),
            score=found.score + filled.taken_off(found),
            proven=found.proven,
            seconds=seconds,
            film=self.film,
        )

    def _let_go(self, filled: "_Filling", found: Found, conflicts: Sequence[Conflict]) -> Iterator[Conflict]:
        """Pairings are the search's own rules: what had to be let go is told by its rules."""
        told = {one.rule for one in conflicts}
        return (let_go(rule) for rule in broken(filled.task(), found.blocks) if rule not in told)

    def _draft(self, filled: "_Filling", found: Found) -> Draft:
        shape = filled.shape
        chosen = tuple(
            tuple(filled.candidates[number][option.key] for option in options)
            for number, options in enumerate(found.blocks)
        )
        own = tuple(
            replace(one.block, name=_name(shape, number), items=tuple(c.item for c in chosen[number]))
            for number, one in enumerate(shape.blocks)
        )
        return Draft(
            opening=self._opening(shape), own=own, closing=self._closing(shape), chosen=chosen, reasons={}
        )

    def episode(self, draft: Draft) -> Episode:
        """The plan that a draft comes to."""
        number = self.room.number
        return Episode(
            slug=f"session-{number}",
            number=number,
            title=f"Session {number}",
            released=self.room.day,
            blocks=(*map(unfilmed, draft.opening), *draft.own, *map(unfilmed, draft.closing)),
            location=Location(f"episodes/{number:02d}-session-{number}.yaml"),
        )

    def conflicts(self, draft: Draft, wishes: Wishes) -> tuple[Conflict, ...]:
        """All bounds that a draft breaks."""
        return tuple(broken_bounds(self, self.episode(draft), wishes, seconds_of(self, draft)))


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
        history = self.composer.history
        return Task(
            places=places,
            wants=dict(self._wants()),
            rules=self._rules(without),
            paired=history.paired,
            begun=history.begun,
        )

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


def _outline(blocks: Iterable[Block]) -> tuple[tuple[str, int], ...]:
    """What a session is built of."""
    return tuple((block.format, len(block.items)) for block in blocks)


def _outline_of(build: Shape) -> tuple[tuple[str, int], ...]:
    return tuple((one.block.format, one.places) for one in build.blocks)


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

    Without a shape each has a build of its own, the one due first. Raises ProposalError where a block cannot
    be filled at all, with what to ask for instead.
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
