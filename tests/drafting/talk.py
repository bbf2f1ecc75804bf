"""Making captions from a few sentences, for tests."""

import re

from sitegen.reading.captions.cues import Captions, Cue

_PER_WORD_MS, _SENTENCE_MS, _WORDS_OF_A_CUE = 400, 600, 8


def say(*parts: str | float, punctuated: bool = True) -> Captions:
    """Captions of talk: texts are spoken one word in 0.4 s, numbers are silences in seconds."""
    clock, cues = 1000, []
    for part in parts:
        if isinstance(part, float | int):
            clock += int(part * 1000)
            continue
        words = part.split()
        for first in range(0, len(words), _WORDS_OF_A_CUE):
            text = " ".join(words[first : first + _WORDS_OF_A_CUE])
            length = _PER_WORD_MS * len(text.split()) + _SENTENCE_MS * len(re.findall(r"[.!?]", text))
            if not punctuated:
                text = re.sub(r"[.,!?:;]", "", text).lower()
            cues.append(Cue(start_ms=clock, end_ms=clock + length, text=text, identifier=""))
            clock += length
    return Captions(cues=tuple(cues), problems=[])
