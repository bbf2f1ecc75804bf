"""Reading what a draft rests on: captions (WebVTT, SRT) or a plain transcript with times.

A draft must make the best of what the camera software gives, so this reader is more patient than the
one for the site's own captions: times written in another way are understood, text that scrolls from cue
to cue is taken once, and only what cannot be used is a problem.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from statistics import quantiles

from sitegen.drafting.learned_tables import words_in
from sitegen.problems import Problem, in_file
from sitegen.reading.captions.blocks import plain_text, split_lines
from sitegen.reading.captions.cues import Captions, Cue, decoded, read_captions

MOST_BYTES = 20_000_000
"""Largest file a draft is made from."""

_WORD = re.compile(r"\w+")
_FASTEST = 12
"""Words a second. Quick talk has four (common practice, no source); what has three times as many is no talk,
and would take longer to draft from than the recording lasts."""
_LETTERS = 8
"""Of a word with its space there are fewer: English talk has five to six (common practice, no source)."""
_SURELY_TALK = 1000
"""So many words are never refused: the times of a short transcript may be few and rough."""

_SCROLL_MS = 500
"""Text scrolls on from one cue to the next; what comes later again is said again."""

# Minutes may go beyond 59: recorders count on.
_STAMP = r"(?:(?P<{0}h>\d{{1,2}}):)?(?P<{0}m>\d{{1,3}}):(?P<{0}s>[0-5]\d)(?:[.,](?P<{0}ms>\d{{1,3}}))?"
# A line that begins with a time: "[3:05] …", "3:05 - …", or with two: "3:05 --> 3:09".
_LINE = re.compile(
    rf"\s*[\[(<]?\s*{_STAMP.format('a')}(?:\s*-{{1,2}}>?\s*{_STAMP.format('b')}.*|"
    r"\s*[\])>]?\s*(?:[-–—:|]\s+)?(?P<text>.*))"
)
# What is heard and not said.
_SOUND = re.compile(
    r"\[[^\[\]]*\]|\((?:music|applause|laughter|laughs|inaudible)[^()]*\)|[♪♫]|>>+", re.IGNORECASE
)
_SPEAKER = re.compile(r"^(?:[A-Z][A-Z .'-]{1,24}|Speaker \d+):\s+")  # capitals: "Ready:" is said
_ENGLISH = words_in(
    "the and of it is that this you your we for with now up down are can if not back go keep it's "
    "then each first second third last next side rest set sets rounds seconds minute minutes times "
    "two three four five six eight ten twelve fifteen twenty thirty forty per do hold slow"
)
_FEWEST_ENGLISH = 0.12
"""Of a hundred words of English talk about a workout some thirty are among these, of other languages
hardly one or two.
"""


def read_transcript(data: bytes, name: str) -> Captions:
    """The cues of a caption file or transcript, and what is wrong with it.

    Where a ``problem`` is among the problems, a draft would not be worth having: the file is no text,
    too large, has no times, runs backwards, or is not in English.
    """
    strict = read_captions(data, name, most_bytes=MOST_BYTES)
    broken = [problem for problem in strict.problems if problem.severity == "problem"]
    no_text = "this is no text file"
    hopeless = [p for p in broken if p.check in ("captions-size", "captions-empty") or no_text in p.message]
    if hopeless:
        return Captions(cues=(), problems=hopeless)
    cues = list(strict.cues)
    problems: list[Problem] = []
    if broken or not cues:
        cues, problems = _patient(data, name)
    cues = list(_once(cues, may_scroll=not broken or b"-->" in data))
    if cues and not problems and not _english(cues):
        message = "this does not look like English talk"
        problems = [in_file("captions-language", name, message, "draft reads English")]
    if cues and not problems and _too_dense(cues):
        message = "there are more words than anybody can say in the time"
        advice = "export the captions again: a line seems to be repeated, or the times are wrong"
        problems = [in_file("captions-dense", name, message, advice)]
    return Captions(cues=() if problems else tuple(cues), problems=problems)


def _too_dense(cues: list[Cue]) -> bool:
    words = sum(len(_WORD.findall(cue.text)) for cue in cues)
    # A row of letters without a space may be one word.
    words = max(words, sum(len(cue.text) for cue in cues) // _LETTERS)
    return words > _SURELY_TALK and words > _FASTEST * cues[-1].end_ms / 1000


def _patient(data: bytes, name: str) -> tuple[list[Cue], list[Problem]]:
    """Cues of any text in which lines begin with times; ends are estimated where none are given."""
    stretches = list(_stretches(split_lines(decoded(data))))
    if not stretches:
        advice = "export the captions as WebVTT or SRT, or begin each line with its time: [3:05] …"
        return [], [in_file("captions-form", name, "no line of the file begins with a time", advice)]
    backwards = [line for (_, before, *_), (line, start, *_) in pairwise(stretches) if start < before]
    if backwards:
        word = "time runs" if len(backwards) == 1 else f"times run ({len(backwards)} times)"
        message, advice = f"the {word} backwards", "put the cues in order"
        return [], [in_file("captions-order", name, message, advice, backwards[0])]
    return list(_with_ends(stretches)), []


def _stretches(lines: list[str]) -> Iterator[tuple[int, int, int | None, str]]:
    """Line number, start, end where it is given (milliseconds) and text of every stretch of talk."""
    found: list[tuple[int, int, int | None, list[str]]] = []
    for number, line in enumerate(lines, 1):
        if match := _LINE.match(line):
            end = _milliseconds(match, "b") if match["bm"] else None
            found.append((number, _milliseconds(match, "a"), end, [match["text"] or ""]))
        elif found and line.strip() and not line.strip().isdigit():
            found[-1][3].append(line)
    for number, start, end, held in found:
        if text := plain_text(tuple(held)):
            yield number, start, end, text


def _milliseconds(match: re.Match[str], which: str) -> int:
    hours, minutes, seconds = (int(match[which + unit] or 0) for unit in "hms")
    fraction = int((match[f"{which}ms"] or "0").ljust(3, "0"))
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + fraction


def _with_ends(stretches: list[tuple[int, int, int | None, str]]) -> Iterator[Cue]:
    """Cues; where no end is given, the talk is taken to fill the time up to the next one at an ordinary
    pace.
    """
    per_letter = _pace(stretches)
    for index, (_, start, end, text) in enumerate(stretches):
        following = stretches[index + 1][1] if index + 1 < len(stretches) else None
        if end is None or end <= start:
            end = start + max(300, round(per_letter * len(text)))  # ms: a short word (our choice)
            if following is not None:
                end = max(start + 1, min(end, following))
        yield Cue(start_ms=start, end_ms=end, text=text, identifier="")


def _pace(stretches: list[tuple[int, int, int | None, str]]) -> float:
    """Milliseconds of talk per letter: of the stretches, the denser ones, where nobody pauses."""
    paces = [
        (following[1] - start) / len(text)
        for (_, start, _, text), following in pairwise(stretches)
        if len(text) >= 20  # a word or two says little about the pace
    ]
    # Fewer than four have no quarters. 75 ms a letter, spaces too, are about 130 words a minute; the bounds
    # are about 90 and 200 (our choice).
    usual = quantiles(paces, n=4)[0] if len(paces) >= 4 else 75.0
    return min(110.0, max(50.0, usual))


def _once(cues: list[Cue], *, may_scroll: bool) -> Iterator[Cue]:
    """The cues without what scrolls along from the one before, sounds, and names of speakers."""
    before: list[str] = []
    ended = 0
    for cue in cues:
        lines = [_SPEAKER.sub("", _SOUND.sub(" ", line)) for line in cue.text.split("\n")]
        words = " ".join(lines).split()
        scrolled = may_scroll and cue.start_ms - ended < _SCROLL_MS
        fresh = words[_repeated(before, words) if scrolled else 0 :]
        before, ended = words or before, cue.end_ms
        if fresh:
            yield replace(cue, text=" ".join(fresh))


def _repeated(before: list[str], words: list[str]) -> int:
    """How many words at the beginning are the end of the cue before (two or more, as in scrolling
    captions).
    """
    for length in range(min(len(before), len(words)), 1, -1):
        if before[-length:] == words[:length]:
            return length
    return 0


def _english(cues: list[Cue]) -> bool:  # by the first 2,000, which is an hour and more
    words = re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)?", " ".join(cue.text for cue in cues[:2000]).lower())
    if len(words) < 30:  # too few to judge by
        return True
    return sum(word in _ENGLISH for word in words) / len(words) >= _FEWEST_ENGLISH
