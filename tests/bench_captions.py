"""How well recordings are turned into draft episodes: ``python -m tests.bench captions``.

Every hand is drafted with weights learned from the *other* hands only, so that each figure is one of a
stranger's recordings. This trains as many times as there are hands and takes some minutes; ``--as-shipped``
takes the weights of the package instead, which have seen the hands that its tables name. ``--evidence`` tells
what each kind of evidence adds: the figures with one kind after the other taken away. ``--curve`` tells what
more hands add: the figures of the hands asked for, unread halves too, with tables of two other hands, of
four, and so on. Last comes how true the confidence is, by kind of finding.
"""

import argparse
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

from sitegen.drafting import draft
from sitegen.drafting.amounts.doses import DOSE
from sitegen.drafting.heard import hear
from sitegen.drafting.learned_tables import LearnedModel, learned
from sitegen.drafting.structure.session import session_of
from sitegen.reading.captions.cues import Captions, Cue
from tests.captions.corpus import OWN, Recording, hands, recordings_of, unseen_hands, unseen_recordings_of
from tests.captions.keys import is_true, to_truth
from tests.captions.score import Score, score, summed

_HOUR_S = 3600
KINDS_OF_EVIDENCE = {
    "names": (
        "cover",
        "whole",
        "shown",
        "early",
        "rival",
        "named before",
        "named later",
        "others named",
    ),
    "text of the card": ("text", "share", "ahead", "peak"),
    "words of its kind": ("names", "pattern", "body"),
    "talk acts": ("start", "inside", "start inside", "turn inside"),
    "doses": ("dose",),
    "length": ("words", "seconds", "short"),
}
"""The features of stretches (see ``structure/arcs.py``) by what they rest on."""

EVIDENCE_OF_DOSES = {
    "names beside doses": ("names ", "own name", "its name"),
    "words beside doses": ("before ", "after ", "next before ", "next after "),
    "place of doses": ("where ", "own ", "head ", "tail ", "last ", "session ", "ahead "),
    "doses said again": ("said again", "taken back", "corrects"),
}
"""The features of doses (see ``amounts/candidates.py``) by what they rest on: how their names begin."""


def main(argv: list[str]) -> int:
    """Print the figures for every hand, and how long an hour of captions takes."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench captions", description=__doc__)
    parser.add_argument("--hand", nargs="+", help="only these hands")
    parser.add_argument("--as-shipped", action="store_true", help="with the package's own weights")
    parser.add_argument(
        "--unseen",
        action="store_true",
        help="only the recordings that nobody reads or learns from, with the package's own weights",
    )
    parser.add_argument(
        "--unseen-too",
        action="store_true",
        help="both the recordings that may be read and those that nobody reads",
    )
    parser.add_argument(
        "--together",
        type=int,
        default=1,
        help="how many hands are left out at a time; 3 take a third of the time, and are a little strict",
    )
    parser.add_argument("--evidence", action="store_true", help="also with kinds of evidence taken away")
    parser.add_argument(
        "--keys", action="store_true", help="also the keys that bring each draft to the truth beside its film"
    )
    parser.add_argument("--curve", action="store_true", help="only what more hands add; takes many minutes")
    parser.add_argument("--misses", action="store_true", help="list what was missed")
    arguments = parser.parse_args(argv)
    if arguments.unseen and arguments.unseen_too:
        parser.error("either --unseen or --unseen-too")
    if arguments.misses and (arguments.unseen or arguments.unseen_too):
        parser.error("--misses would show what nobody should read")
    everybody, of_hand = (
        (unseen_hands(), unseen_recordings_of) if arguments.unseen else (hands(), recordings_of)
    )
    wanted = arguments.hand or everybody
    print(_header())
    if arguments.curve:
        for line in curve(wanted):
            print(line, flush=True)
        return 0
    totals: list[Score] = []
    shipped = arguments.as_shipped or arguments.unseen
    for hand, model in _models(wanted, shipped=shipped, together=arguments.together):
        recordings = list(of_hand(hand))
        if arguments.unseen_too:
            recordings += unseen_recordings_of(hand)
        total = measured(recordings, model)
        print(_row(hand, total))
        if arguments.keys:
            print("\n".join(keys_of(recordings, model)))
        if arguments.misses:
            print("\n".join(f"    {miss}" for miss in total.misses))
        if arguments.evidence:
            for name, less in with_less_evidence(model):
                print(_row(hand, measured(recordings, less)) + f"  without {name}")
        totals.append(total)
    together = summed(totals)
    print(_row("all", together))
    print("\n".join(["", *reliability(together.sure), ""]))
    seconds, cues = an_hour()
    print(f"an hour of captions ({cues} cues): {seconds:.2f} s to draft")
    return 0


def _models(wanted: list[str], *, shipped: bool, together: int) -> Iterator[tuple[str, LearnedModel]]:
    if shipped:
        yield from ((hand, learned()) for hand in wanted)
        return
    from tests.captions.train import left_out

    for hand, tables in left_out(wanted, together):
        yield hand, LearnedModel(tables)


def measured(
    recordings: list[Recording], model: LearnedModel, spoil: Callable[[Recording], Captions] | None = None
) -> Score:
    """The sums over some recordings."""
    scores = []
    for recording in recordings:
        captions = spoil(recording) if spoil else recording.captions
        one = score(session_of(hear(captions, recording.series, model)), recording.truth)
        one.misses = [f"{recording.name}: {miss}" for miss in one.misses]
        scores.append(one)
    return summed(scores)


def keys_of(recordings: list[Recording], model: LearnedModel) -> Iterator[str]:
    """For each recording the keys that bring its draft to the truth, and how long they take."""
    for recording in recordings:
        text = draft(recording.captions, recording.series, number=1, slug="draft", model=model).yaml_text
        if not text:
            yield f"    {recording.name}: no draft"
            continue
        hands = to_truth(text, recording.truth, frozenset(recording.series.exercises))
        length = recording.captions.cues[-1].end_ms / 60_000
        done = "" if is_true(hands, recording.truth) else ", and some lines by hand"
        yield (
            f"    {recording.name}: {hands.count.keys} keys, {hands.count.seconds / 60:.1f} min "
            f"for {length:.0f} min of film{done}; "
            + ", ".join(f"{action} {keys}" for action, keys in hands.count.by_action.most_common())
        )


def with_less_evidence(model: LearnedModel) -> Iterator[tuple[str, LearnedModel]]:
    """The model with one kind of evidence after the other taken away: these weights are 0."""
    for name, features in KINDS_OF_EVIDENCE.items():
        labelled = {f"{label}: {feature}" for label in ("exercise", "new") for feature in features}
        yield name, _without(model, "stretches", labelled.__contains__)
    for name, begins in EVIDENCE_OF_DOSES.items():
        yield name, _without(model, DOSE, lambda feature, begins=begins: feature.startswith(begins))


def _without(model: LearnedModel, table: str, taken: Callable[[str], bool]) -> LearnedModel:
    tables = {name: dict(weights.weights) for name, weights in model.tables.items()}
    tables[table] = {feature: weight for feature, weight in tables[table].items() if not taken(feature)}
    return LearnedModel(tables)


_CURVE_STEP = 2
"""Hands more from one point of the curve to the next; one hand alone has no other to learn trust from."""


def curve(wanted: list[str]) -> Iterator[str]:
    """The figures of all recordings of the wanted hands together, with tables of two other hands, of four,
    and so on to all others, the last of the alphabet first.
    """
    from tests.captions.train import train

    others = [hand for hand in reversed(hands()) if hand not in wanted]
    scored = [recording for hand in wanted for recording in recordings_of(hand)]
    scored += [r for hand in unseen_hands() if hand in wanted for r in unseen_recordings_of(hand)]
    for count in [*range(_CURVE_STEP, len(others), _CURVE_STEP), len(others)]:
        seen = [recording for other in others[:count] for recording in recordings_of(other)]
        total = measured(scored, LearnedModel(train(seen)))
        yield _row("+".join(wanted), total) + f"  with {', '.join(others[:count])} ({len(seen)} recordings)"


_STEPS = (0.0, 0.25, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)


def reliability(sure: list[tuple[str, float, bool]]) -> Iterator[str]:
    """For each kind of finding and step of confidence how many were found, and the share that is right.

    Where confidence is true the share lies within its step (a reliability table, as forecasters make).
    """
    steps = list(pairwise(_STEPS))
    yield "right of  " + "  ".join(f"{low:.2f}-{high:.2f}".rjust(10) for low, high in steps)
    for what in dict.fromkeys(kind for kind, _, _ in sure):
        cells = []
        for low, high in steps:
            right = [r for kind, c, r in sure if kind == what and low <= c and (c < high or high == 1.0)]
            share = f"{sum(right) / len(right):.2f} of {len(right)}" if right else "-"
            cells.append(share.rjust(10))
        yield what.ljust(10) + "  ".join(cells)


def _header() -> str:
    return "hand  " + "  ".join(name.rjust(7) for name in Score().rates())


def _row(hand: str, total: Score) -> str:
    return f"{hand:4}  " + "  ".join(f"{value:7.2f}" for value in total.rates().values())


def an_hour() -> tuple[float, int]:
    """Seconds of processor time to draft an hour of talk (recordings in a row), and its number of cues."""
    own = list(recordings_of(OWN))
    cues: list[Cue] = []
    clock = 0
    while clock < _HOUR_S * 1000:
        for recorded in own:
            for cue in recorded.captions.cues:
                # Without the silences, so that the hour is full of talk.
                length = cue.end_ms - cue.start_ms
                cues.append(replace(cue, start_ms=clock, end_ms=clock + length, identifier=""))
                clock += length
    hour = Captions(cues=tuple(cue for cue in cues if cue.end_ms <= _HOUR_S * 1000), problems=[])
    learned()
    begin = time.process_time()
    draft(hour, own[0].series, number=1, slug="hour")
    return time.process_time() - begin, len(hour.cues)
