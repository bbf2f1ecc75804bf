"""Drawings: seconds for 1,000 of the demo's, bytes of each, and 2,000 random pose files."""

import gzip
import statistics
import sys
import time
from collections import Counter
from itertools import cycle, islice

from sitegen.pages.drawings import Drawings
from sitegen.pages.theme import Theme
from sitegen.reading.reader import read_series
from sitegen.study.forms import forms_of
from tests.conftest import DEMO, ROOT
from tests.study.body.test_fuzz import try_out

MANY, FILES = 1000, 2000


def main(argv: list[str]) -> int:
    """Print the figures."""
    theme = Theme(ROOT / "themes/tidewater", "en")
    macro = theme.environment.get_template("drawings.html").module.drawing
    forms = [form for form in forms_of(read_series(DEMO).exercises).values() if form.poses is not None]
    macro(Drawings(theme.strings.drawings).of(forms[0]).key.picture)  # compiled before the clock runs
    sizes, drawn = [], 0
    began = time.process_time()
    for form in islice(cycle(forms), MANY):
        found = Drawings(theme.strings.drawings).of(form)
        for frame in found.frames:
            text = macro(frame.picture, frame.words)
            sizes.append(len(text))
            drawn += 1
        if drawn >= MANY:
            break
    seconds = time.process_time() - began
    keys = (Drawings(theme.strings.drawings).of(form).key.picture for form in forms)
    packed = [len(gzip.compress(macro(picture).encode())) for picture in keys]
    each = seconds / drawn * 1000
    print(f"{drawn} drawings with their words in {seconds:.2f} s of one core ({each:.2f} ms each; aim 2 ms)")
    print(f"bytes each: median {statistics.median(sizes):.0f}, most {max(sizes)}")
    print(f"packed (gzip), one for each form: median {statistics.median(packed):.0f}, most {max(packed)}")
    began = time.perf_counter()
    ends = Counter(try_out(seed) for seed in range(FILES))
    print(f"{FILES} random files: {dict(ends)} in {time.perf_counter() - began:.1f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
