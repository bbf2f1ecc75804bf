"""The benchmark: ``python -m tests.bench [build|captions|search|...] [options]``.

Every figure is printed with what it is measured against; the budgets are in DEVELOPERS.md.
"""

import importlib
import sys

BENCHES = {
    "build": "time and memory of builds at 100, 1,000 and 10,000 episodes, against the floor",
    "preview": "seconds from a saved file to the renewed page at 1,000 episodes",
    "captions": "how well recordings are turned into draft episodes",
    "compose": "seconds to propose a session after 12, 200 and 1,000; 300 random series judged by check",
    "search": "time per key press of the exercise search at 2,000 exercises",
    "kills": "builds killed before every step and by the clock: the site is the old or the new one",
    "cuts": "publications cut off after many a number of bytes: nothing is lost, a second run is right",
    "choice": "what a browser chooses for random series and needs: the same as the study",
    "slips": "slips of a typist in the demo's files: how often the message names the line and mends the file",
    "schedule": "seconds to plan up to 10,000 sessions, and milliseconds in the browser",
    "sheets": "seconds for one sheet as a PDF file on one core",
    "edits": "random edits, each compared byte for byte with a build from scratch",
    "machinery": "builds without one piece of machinery for speed after the other",
    "fuzz": "10,000 broken files, captions, records: no traceback, none over 5 s",
    "faults": "faults that were there once, put back: random edits must find each",
    "drawings": "seconds for 1,000 drawings, their bytes, and 2,000 random pose files",
    "clients": "hostile logs, and the seconds of a day with 30 clients",
    "publish": "what an edited cue of 1,000 episodes sends, and how long publishing takes",
}


def main(argv: list[str]) -> int:
    """Run one bench; ``build`` where none is named."""
    name = argv[0] if argv and argv[0] in BENCHES else "build"
    if argv and argv[0] in ("-h", "--help"):
        print(__doc__)
        for bench, what in BENCHES.items():
            print(f"  {bench:9} {what}")
        return 0
    return int(importlib.import_module(f"tests.bench_{name}").main(argv[1:] if argv[:1] == [name] else argv))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
