"""Recognition errors put into captions by a stated, seeded procedure.

Every word is spoiled with probability :data:`RATE` (a number word with half of it): of the spoiled
words 60 % become a sound-alike (``confusions.yaml``; a word without one is dropped or kept, each half
of the time), 15 %
are lost, 10 % are torn in two, 10 % run into the next word, 5 % are said twice. Then all punctuation and
capitals go. Figures (``12``) are never replaced, only lost.
"""

import random
import re
from collections.abc import Iterable
from functools import lru_cache

import yaml

from sitegen.drafting.learned_tables import words_in
from sitegen.reading.captions.cues import Cue
from tests.captions.script import FOLDER

RATE = 0.10
"""Share of words with an error."""

NUMBERS = words_in(
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen "
    "eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety"
)


@lru_cache(maxsize=1)
def confusions() -> dict[str, list[str]]:
    """Sound-alikes by word."""
    text = (FOLDER / "confusions.yaml").read_text(encoding="utf-8")
    return {str(word): [str(other) for other in others] for word, others in yaml.safe_load(text).items()}


def spoil(cues: Iterable[Cue], seed: str, rate: float = RATE) -> list[Cue]:
    """The cues with errors; the same seed gives the same errors."""
    chance = random.Random(f"errors {seed}")
    spoiled = []
    for cue in cues:
        words = re.sub(r"[.,!?:;\"]+(?=\s|$)", "", cue.text.lower()).replace("-", " ").split()
        text = _spoil_words(words, chance, rate)
        if text:
            spoiled.append(Cue(start_ms=cue.start_ms, end_ms=cue.end_ms, text=text, identifier=""))
    return spoiled


def _spoil_words(words: list[str], chance: random.Random, rate: float) -> str:
    out: list[str] = []
    glue = ""
    for word in words:
        share = rate / 2 if word in NUMBERS or word.isdigit() else rate
        if chance.random() >= share:
            out.append(glue + word)
            glue = ""
            continue
        kind = chance.random()
        if kind < 0.60:
            out.append(glue + _sound_alike(word, chance))
            glue = ""
        elif kind < 0.75:
            continue
        elif kind < 0.85 and len(word) >= 6 and word.isalpha():
            place = chance.randint(2, len(word) - 3)
            out.extend([glue + word[:place], word[place:]])
            glue = ""
        elif kind < 0.95 and word.isalpha() and word not in NUMBERS:
            glue += word
        else:
            out.extend([glue + word, word])
            glue = ""
    if glue:
        out.append(glue)
    return " ".join(" ".join(out).split())


def _sound_alike(word: str, chance: random.Random) -> str:
    others = confusions().get(word)
    if others:
        return chance.choice(others)
    return word if word.isdigit() or chance.random() < 0.5 else ""
