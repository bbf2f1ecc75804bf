"""The next session of a series proposed: ranked, with the reason of every choice and every conflict named.

:func:`propose` is pure: the same series, wishes and shape give the same sessions. A whole series is composed
by adding each session to its plans and asking again.

Where no shape is asked for, ``skeletons`` offers builds and the sessions before decide which one is due; the
``level`` says how hard the session is meant to be in its week. Sets, rests, warm-up and cool-down are chosen
after the exercises (:mod:`sitegen.composing.finishing`).

What a session is chosen by: its muscles' lower limits for the week first, then what a usual week has; time
since an exercise was last used; what needs keep of it; wishes. What it may not break is in ``task.Rules``.
The session found is then worked out again as ``check`` would (:mod:`sitegen.composing.verify`), so that a
bound it breaks is said in any case.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import islice
from math import ceil

from sitegen.composing.broken_rules import broken
from sitegen.composing.conflicts import BrokenRule, ProposalError, let_go, shortened
from sitegen.composing.filling import Filling, block_name
from sitegen.composing.finishing import Finishing, UnfinishedSession
from sitegen.composing.pool import Pool
from sitegen.composing.preparing import Preparing
from sitegen.composing.proposal import ChosenExercise, Proposal, Proposals
from sitegen.composing.reasons import reason_of
from sitegen.composing.session_frame import SessionFrame
from sitegen.composing.session_shape import SessionShape, first_shape, is_composed, lengths, shape_of
from sitegen.composing.skeletons import skeletons
from sitegen.composing.so_far import SoFar, so_far
from sitegen.composing.task import RULES, FoundSession
from sitegen.composing.verify import broken_bounds
from sitegen.composing.wishes import SessionWishes
from sitegen.composing.written_plan import WrittenPlan
from sitegen.model import Block, Series
from sitegen.study.span import Span
from sitegen.vocabulary import COOL_DOWN, WARM_UP

BUILDS = 3
"""Builds of a session that are tried before one is made shorter: each takes a whole search, and the fourth
best suits the sessions before so little that a shorter one is better (our choice)."""


class Composer:
    """Composes sessions after the last one of a series."""

    def __init__(self, standing: SoFar) -> None:
        self._so_far = standing
        self._pool = Pool(standing)
        preparing = Preparing(standing.series, standing.forms)
        self._frame = SessionFrame(standing, preparing)
        self._finishing = Finishing(self._pool, preparing, self._frame)

    def propose(self, wishes: SessionWishes, shape: SessionShape | None, count: int) -> Proposals:
        """Propose at most ``count`` sessions, as :func:`propose` says."""
        wishes = self._defaults(wishes)
        builds = self._builds() if shape is None else (shape,)
        found: list[Proposal] = []
        for _ in range(count):
            before = [one.candidate.form.exercise for p in found for block in p.choices for one in block]
            taken = [_outline(p.episode.blocks[n] for n in p.composed) for p in found]
            outlines = [tuple((one.block.format, one.places) for one in build.blocks) for build in builds]
            others = [build for build, outline in zip(builds, outlines, strict=True) if outline not in taken]
            proposal = self._one(others or builds, wishes, before, asked=shape is not None)
            if any(_same(proposal, other) for other in found):
                break
            found.append(proposal)
        if shape is not None:  # points tell which is better where the build is the same
            found.sort(key=lambda one: -one.score)
        ranked = sorted(found, key=lambda one: len(one.conflicts))  # of equals, the better stay before
        return Proposals(room=self._so_far.room, sessions=tuple(ranked))

    def again(self, written: WrittenPlan, wishes: SessionWishes) -> Proposal:
        """A plan composed again: what is the trainer's stays, the other exercises are chosen again.

        Its blocks stay as they stand, with their sets and rests: nothing but exercises changes. Raises
        ProposalError.
        """
        episode = written.episode
        if wishes.minutes is None and episode.lasts is not None:
            wishes = replace(wishes, minutes=ceil(episode.lasts.high / 60))
        filling = self._filling(shape_of(episode), self._defaults(wishes), (), written)
        return self._again(filling, written, self._found(filling))

    def _defaults(self, wishes: SessionWishes) -> SessionWishes:
        """The wishes, with what the series says where nothing is wanted."""
        if wishes.minutes is None:
            wishes = replace(wishes, minutes=self._usual_minutes())
        if not self._so_far.history.last_used:  # of a first session everything is new
            wishes = replace(wishes, new=max(wishes.new, len(self._so_far.series.exercises)))
        return wishes

    def _builds(self) -> tuple[SessionShape, ...]:
        """What the session may be built of where nobody says so, the best first."""
        series = self._so_far.series
        if found := skeletons(series, self._so_far.level):
            return found
        like = (e for e in reversed(series.sessions) if any(map(is_composed, e.blocks)))
        return tuple(shape_of(one) for one in like)[:1] or (first_shape(),)

    def _usual_minutes(self) -> int | None:
        """How long sessions of such a level usually are, by what the series announces."""
        announced = sorted(e.lasts.high for e in self._so_far.series.sessions if e.lasts is not None)
        if not announced:
            return None
        return ceil(announced[min(len(announced) - 1, int(self._so_far.level.share * len(announced)))] / 60)

    # --- one session -----------------------------------------------------------------------

    def _filling(
        self,
        shape: SessionShape,
        wishes: SessionWishes,
        before: Sequence[str],
        written: WrittenPlan | None = None,
    ) -> Filling:
        return Filling(self._pool, self._frame, shape, wishes, before, written)

    def _one(
        self, builds: Sequence[SessionShape], wishes: SessionWishes, before: Sequence[str], *, asked: bool
    ) -> Proposal:
        kept: Proposal | None = None
        for number, (shape, tried) in enumerate(self._tries(builds, wishes)):
            if kept is not None and number >= BUILDS:
                break
            if wishes.minutes is None or self._frame.seconds_fixed(tried) < wishes.minutes * 60:
                filling = self._filling(tried, wishes, before)
                if (found := filling.find()) is not None:
                    shorter = shortened(shape, tried, wishes.minutes) if asked else None
                    proposal = self._proposal(filling, found, shorter)
                    if not proposal.conflicts or asked:
                        return proposal
                    if kept is None or len(proposal.conflicts) < len(kept.conflicts):
                        kept = proposal
        if kept is not None:
            return kept
        filling = self._filling(builds[0], wishes, before)
        return self._proposal(filling, self._found(filling), None)

    def _tries(
        self, builds: Sequence[SessionShape], wishes: SessionWishes
    ) -> Iterator[tuple[SessionShape, SessionShape]]:
        """A build and what is tried of it: as it is, some that have time enough, then the first shorter or
        longer."""
        if len(builds) > 1:
            fewer = [(build, shape) for build in builds for shape in islice(lengths(build), 2)]
            as_they_are = [(build, build) for build in builds]
            roomy = (pair for pair in (*as_they_are, *fewer) if self._has_time(pair[1], wishes))
            yield from islice(roomy, BUILDS)
        yield from ((builds[0], tried) for tried in lengths(builds[0]))

    def _has_time(self, shape: SessionShape, wishes: SessionWishes) -> bool:
        """Whether exercises of middling length fill it in time: else only the shortest could stand in it."""
        if wishes.minutes is None:
            return True
        seconds = self._frame.seconds_fixed(shape)
        for one in shape.blocks:
            options = [c.option.seconds for c in self._pool.candidates(one, wishes).values()]
            if len(options) < one.places:
                return False
            seconds += one.places * sum(options) / len(options)
        return seconds <= wishes.minutes * 60

    def _found(self, filling: Filling) -> FoundSession:
        """The best session, with as few rules let go as it takes."""
        if short := filling.too_few():
            raise ProposalError(short)
        for without in (frozenset[str](), *(frozenset({rule}) for rule in RULES), frozenset(RULES)):
            if (found := filling.find(without)) is not None:
                return found
        raise ProposalError("no session of this shape can be filled; ask for fewer exercises or blocks")

    # --- what was found, as a proposal -----------------------------------------------------

    def _proposal(self, filled: Filling, found: FoundSession, shorter: BrokenRule | None) -> Proposal:
        draft = self._draft(filled, found)
        draft, conflicts = self._finishing.finished(draft, filled.shape.blocks, filled.wishes)
        opening, own = len(draft.opening), len(draft.own)
        places = {WARM_UP: opening - 1, COOL_DOWN: opening + own}
        return Proposal(
            episode=self._finishing.episode(draft),
            choices=tuple(
                tuple(ChosenExercise(candidate=one, reason=reason_of(self._so_far, one)) for one in block)
                for block in draft.chosen
            ),
            composed=tuple(range(opening, opening + own)),
            prepared={places[kind]: reason for kind, reason in draft.reasons.items()},
            level=self._so_far.level.name,
            conflicts=(*([shorter] if shorter else []), *_let_go(filled, found, conflicts), *conflicts),
            score=found.score + filled.taken_off(found),
            proven=found.proven,
            seconds=self._finishing.seconds_of(draft),
            film=self._frame.film,
        )

    def _again(self, filled: Filling, written: WrittenPlan, found: FoundSession) -> Proposal:
        """A plan that is written, with its exercises chosen again and all else as it stands."""
        choices = filled.choices(found)
        episode = written.with_items([tuple(one.candidate.item for one in block) for block in choices])
        own = self._frame.worked_out(episode.blocks[at] for at in written.composed)
        around = self._frame.seconds_around(filled.shape, written)
        seconds = own + around + Span(self._frame.film, self._frame.film)
        conflicts = tuple(broken_bounds(self._so_far, episode, filled.wishes, seconds))
        return Proposal(
            episode=episode,
            choices=choices,
            composed=written.composed,
            prepared={},
            level=self._so_far.level.name,
            conflicts=(*_let_go(filled, found, conflicts), *conflicts),
            score=found.score + filled.taken_off(found),
            proven=found.proven,
            seconds=seconds,
            film=self._frame.film,
        )

    def _draft(self, filled: Filling, found: FoundSession) -> UnfinishedSession:
        shape = filled.shape
        chosen = tuple(
            tuple(filled.candidates[number][option.key] for option in options)
            for number, options in enumerate(found.blocks)
        )
        own = tuple(
            replace(one.block, name=block_name(shape, number), items=tuple(c.item for c in chosen[number]))
            for number, one in enumerate(shape.blocks)
        )
        return UnfinishedSession(
            opening=self._frame.opening(shape),
            own=own,
            closing=self._frame.closing(shape),
            chosen=chosen,
            reasons={},
        )


def _let_go(filled: Filling, found: FoundSession, conflicts: Sequence[BrokenRule]) -> Iterator[BrokenRule]:
    """Pairings are the search's own rules: what had to be let go is told by its rules."""
    told = {one.rule for one in conflicts}
    return (let_go(rule) for rule in broken(filled.task(), found.blocks) if rule not in told)


def _outline(blocks: Iterable[Block]) -> tuple[tuple[str, int], ...]:
    """What a session is built of."""
    return tuple((block.format, len(block.items)) for block in blocks)


def _same(one: Proposal, other: Proposal) -> bool:
    keys = [{c.candidate.form.exercise for block in p.choices for c in block} for p in (one, other)]
    return keys[0] == keys[1]


def propose(
    series: Series, wishes: SessionWishes | None = None, shape: SessionShape | None = None, count: int = 1
) -> Proposals:
    """Ranked proposals for the session after the last one.

    Without a shape each has a build of its own, the one due first. Raises ProposalError where a block cannot
    be filled at all, with what to ask for instead.
    """
    return Composer(so_far(series)).propose(wishes or SessionWishes(), shape, count)


def propose_again(series: Series, written: WrittenPlan, wishes: SessionWishes | None = None) -> Proposal:
    """A plan composed again on what the series has before it. Raises ProposalError."""
    return Composer(so_far(up_to(series, written.episode.number))).again(written, wishes or SessionWishes())


def up_to(series: Series, number: int) -> Series:
    """The series with the sessions before a number only."""
    before = tuple(episode for episode in series.sessions if episode.number < number)
    return replace(series, episodes=before, upcoming=())
