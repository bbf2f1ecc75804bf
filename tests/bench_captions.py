"""How well recordings are turned into draft episodes: ``python -m tests.bench captions``.

The recordings are in tests/captions: hand-written scripts with hand-placed truth, of which the half
``held`` was written before the drafting and is only measured, never looked at singly. The error-ridden
captions are made by the procedure of tests/captions/errors.py, each recording three times. An exercise
counts as found
within 30 s of its true start, a your-turn point within 10 s.
"""

import argparse
import time

from sitegen.draft import draft
from sitegen.reading.captions.cues import Captions, Cue
from tests.captions.library import series_of
from tests.captions.measure import measured, recordings
from tests.captions.score import Score, share

_HEAD = (
    "half  captions      plan  recall precis.  start error s  doses   turns   sets  formats  new ones\n"
    "                                          median   95 %"
)
_HOUR_S = 3600


def main(argv: list[str]) -> int:
    """Print the figures for both halves, and how long an hour of captions takes."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench captions", description=__doc__)
    parser.add_argument("--half", choices=("dev", "held"), help="only this half")
    parser.add_argument("--misses", action="store_true", help="list what was missed (development half only)")
    arguments = parser.parse_args(argv)
    print(_HEAD)
    for half in (arguments.half,) if arguments.half else ("dev", "held"):
        for errors in (False, True):
            for plan in (False, True):
                total = measured(half, errors=errors, plan=plan)
                print(_row(half, total, errors=errors, plan=plan))
                if arguments.misses and half == "dev":
                    print("\n".join(f"    {miss}" for miss in total.misses))
    seconds, cues = an_hour()
    print(f"an hour of captions ({cues} cues): {seconds:.2f} s to draft")
    return 0


def _row(half: str, total: Score, *, errors: bool, plan: bool) -> str:
    new = (
        ""
        if plan or not total.stubs
        else f"{total.stubs_right} of {total.stubs}, {total.stubs_drafted} drafted"
    )
    doses, turns = share(total.doses_right, total.doses), share(total.turns_right, total.turns)
    sets, formats = share(total.sets_right, total.blocks), share(total.formats_right, total.formats)
    median, most = total.start_error(0.5), total.start_error(0.95)
    return (
        f"{half:5} {'error-ridden' if errors else 'clean':13} {'yes' if plan else 'no':5} "
        f"{total.recall:6.3f} {total.precision:6.3f}   {median:7.1f} {most:6.1f}  "
        f"{doses:6.3f}  {turns:6.3f}  {sets:5.3f}  {formats:7.3f}  {new}"
    )


def an_hour() -> tuple[float, int]:
    """Seconds to draft an hour of talk (recordings one after another), and its number of cues."""
    cues: list[Cue] = []
    clock = 0
    while clock < _HOUR_S * 1000:
        for recorded in recordings("dev"):
            for cue in recorded.captions.cues:
                # Without the silences, so that the hour is full of talk.
                length = cue.end_ms - cue.start_ms
                cues.append(Cue(start_ms=clock, end_ms=clock + length, text=cue.text, identifier=""))
                clock += length
    hour = Captions(cues=tuple(cue for cue in cues if cue.end_ms <= _HOUR_S * 1000), problems=[])
    series = series_of("galley")
    begun = time.perf_counter()
    draft(hour, series, number=1, slug="an-hour")
    return time.perf_counter() - begun, len(hour.cues)
