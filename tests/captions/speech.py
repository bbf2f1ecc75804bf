"""From a script to timed words: how long each word takes, pauses, counting and cheering."""

import random
import re
from dataclasses import dataclass
from typing import Any

from tests.captions.script import Script, Step

CHEERS = (
    "Come on, you've got this.",
    "Nice and steady, keep breathing.",
    "Ten seconds left.",
    "Half way there already.",
    "Looking good, keep those shoulders down.",
    "Five more seconds, don't stop now.",
    "If you need a break, take a break.",
    "Last few, make them count.",
    "Keep the tummy tight.",
    "I know it burns, that's the point.",
    "Quality over speed.",
    "You can do two more than you think.",
)
_UNITS = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}


@dataclass(frozen=True, slots=True)
class Word:
    """One spoken word with its start and end in seconds."""

    text: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Mark:
    """A truth mark and the second at which the next word begins."""

    step: Step
    at: float


def speak(script: Script) -> tuple[list[Word], list[Mark]]:
    """Timed words and marks; the same script gives the same times."""
    speaker = _Speaker(random.Random(script.name), script.header)
    for step in script.steps:
        speaker.take(step)
    return speaker.words, speaker.marks


class _Speaker:
    """Keeps the clock while a script is read out."""

    def __init__(self, chance: random.Random, header: dict[str, Any]) -> None:
        self.chance = chance
        self.pace = 60 / header["rate"]
        self.pauses = header.get("pauses", 1)
        self.clock = 1.0
        self.words: list[Word] = []
        self.marks: list[Mark] = []

    def take(self, step: Step) -> None:
        if step.kind == "say":
            self.say(step.text)
        elif step.kind == "pause":
            self.clock += float(step.words[0]) * self.pauses
        elif step.kind == "count":
            self.count(int(step.words[0]), float(step.settings.get("pace", 1.2)))
        elif step.kind == "cheer":
            for line in self.chance.sample(CHEERS, int(step.words[0])):
                self.say(line)
                self.clock += self.chance.uniform(1.0, 4.0)
        else:
            self.marks.append(Mark(step, self.clock))

    def say(self, text: str) -> None:
        for word in text.split():
            # Half of a word's time is the same for all, half grows with its letters (5 on average).
            length = self.pace * (0.5 + 0.1 * len(word.strip(".,!?"))) * self.chance.uniform(0.8, 1.2)
            self.words.append(Word(word, self.clock, self.clock + length * 0.95))
            self.clock += length
            if re.search(r"[.!?:;]$", word):
                self.clock += self.chance.uniform(0.3, 1.0)
            elif word.endswith(","):
                self.clock += self.chance.uniform(0.05, 0.3)

    def count(self, most: int, pace: float) -> None:
        for number in range(1, most + 1):
            text = _UNITS[number] if number < 20 else ("twenty" if number == 20 else str(number))
            self.words.append(Word(f"{text}.", self.clock, self.clock + 0.5))
            self.clock += pace


def in_digits(words: list[Word]) -> list[Word]:
    """Number words of two and more as figures, as automatic captions often have them."""
    out: list[Word] = []
    for word in words:
        body = word.text.rstrip(".,!?:;")
        tail = word.text[len(body) :]
        figure = _figure(body.lower())
        out.append(Word(f"{figure}{tail}", word.start, word.end) if figure else word)
    return out


def _figure(word: str) -> str:
    tens, _, unit = word.partition("-")
    if tens in _TENS and (not unit or unit in _UNITS[1:10]):
        return str(_TENS[tens] + (_UNITS.index(unit) if unit else 0))
    return str(_UNITS.index(word)) if word in _UNITS[2:] else ""
