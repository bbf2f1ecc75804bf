"""How well recordings are turned into draft episodes: ``python -m tests.bench captions``.

Every hand is drafted with weights learned from the *other* hands only, so that each figure is one of a
stranger's recordings. This trains as many times as there are hands and takes some minutes; ``--as-shipped``
takes the weights of the package instead, which have seen every recording here. ``--evidence`` tells what
each kind of evidence adds: the figures with one kind after the other taken away. Last comes how true the
confidence is, by kind of finding.
"""

import argparse
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

from sitegen.drafting import draft
from sitegen.drafting.heard import hear
from sitegen.drafting.structure.session import session_of
from sitegen.drafting.tables import Model, learned
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
        "part",
        "rival",
        "named before",
        "named later",
        "others named",
    ),
    "text of the card": ("text", "share", "ahead", "peak"),
    "words of its kind": ("names", "pattern", "body"),
    "talk acts": ("start", "block start", "inside", "start inside", "turn inside"),
    "doses": ("dose",),
    "length and silence": ("words", "seconds", "short", "silence before"),
}
"""The features of stretches (see ``structure/arcs.py``) by what they rest on."""


def main(argv: list[str]) -> int:
    """Print the figures for every hand, and how long an hour of captions takes."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench captions", description=__doc__)
    parser.add_argument("--hand", help="only this hand")
    parser.add_argument("--as-shipped", action="store_true", help="with the package's own weights")
    parser.add_argument(
        "--unseen",
        action="store_true",
        help="only the recordings that nobody reads or learns from, with the package's own weights",
    )
    parser.add_argument("--evidence", action="store_true", help="also with kinds of evidence taken away")
    parser.add_argument(
        "--keys", action="store_true", help="also the keys that bring each draft to the truth beside its film"
    )
    parser.add_argument("--misses", action="store_true", help="list what was missed")
    arguments = parser.parse_args(argv)
    if arguments.misses and arguments.unseen:
        parser.error("--misses would show what nobody should read")
    everybody, of_hand = (
        (unseen_hands(), unseen_recordings_of) if arguments.unseen else (hands(), recordings_of)
    )
    wanted = [arguments.hand] if arguments.hand else everybody
    header = True
    sure: list[tuple[str, float, bool]] = []
    for hand, model in _models(wanted, shipped=arguments.as_shipped or arguments.unseen):
        recordings = list(of_hand(hand))
        total = measured(recordings, model)
        if header:
            print("hand  " + "  ".join(name.rjust(7) for name in total.rates()))
            header = False
        print(_row(hand, total))
        if arguments.keys:
            print("\n".join(keys_of(recordings, model)))
        if arguments.misses:
            print("\n".join(f"    {miss}" for miss in total.misses))
        if arguments.evidence:
            for name, features in KINDS_OF_EVIDENCE.items():
                print(_row(hand, measured(recordings, without(model, features))) + f"  without {name}")
        sure += total.sure
    print("\n".join(["", *reliability(sure), ""]))
    seconds, cues = an_hour()
    print(f"an hour of captions ({cues} cues): {seconds:.2f} s to draft")
    return 0


def _models(wanted: list[str], *, shipped: bool) -> Iterator[tuple[str, Model]]:
    if shipped:
        yield from ((hand, learned()) for hand in wanted)
        return
    from tests.captions.train import left_out

    for hand, tables in left_out(wanted):
        yield hand, Model(tables)


def measured(
    recordings: list[Recording], model: Model, spoil: Callable[[Recording], Captions] | None = None
) -> Score:
    """The sums over some recordings."""
    scores = []
    for recording in recordings:
        captions = spoil(recording) if spoil else recording.captions
        one = score(session_of(hear(captions, recording.series, model)), recording.truth)
        one.misses = [f"{recording.name}: {miss}" for miss in one.misses]
        scores.append(one)
    return summed(scores)


def keys_of(recordings: list[Recording], model: Model) -> Iterator[str]:
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


def without(model: Model, features: tuple[str, ...]) -> Model:
    """The model with some features of stretches taken away (their weights are 0)."""
    tables = {name: dict(weights.weights) for name, weights in model.tables.items()}
    for feature in features:
        for label in ("exercise", "new"):
            tables["stretches"].pop(f"{label}: {feature}", None)
    return Model(tables)


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
