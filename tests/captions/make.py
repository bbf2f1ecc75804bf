"""Making the caption files and their truth from the scripts: ``python -m tests.captions.make``.

The cue lengths vary within the bounds of the script's header, drawn with the script's name as seed,
so that the files are the same every time.
"""

import random
import re
from pathlib import Path
from typing import Any

import yaml

from sitegen.notation import format_clock
from sitegen.reading.captions.cues import Cue, write_vtt
from tests.captions.script import FOLDER, Script, all_scripts
from tests.captions.speech import Mark, Word, in_digits, speak

FILES = FOLDER / "files"
SUFFIX = {"vtt": ".vtt", "srt": ".srt", "brackets": ".txt", "lines": ".txt"}


def cues_of(script: Script, words: list[Word]) -> list[Cue]:
    """The words cut into cues; a pause of two seconds or more always ends one."""
    header = script.header
    chance = random.Random(f"cues {script.name}")
    if header["numbers"] == "digits":
        words = in_digits(words)
    cues: list[Cue] = []
    held: list[Word] = []
    most = chance.randint(*header["cue"])
    for index, word in enumerate(words):
        held.append(word)
        following = words[index + 1] if index + 1 < len(words) else None
        if following is None or len(held) >= most or following.start - word.end > 2:
            cues.append(_cue(held, following, header))
            held, most = [], chance.randint(*header["cue"])
    return [cue for cue in cues if cue.text]


def _cue(words: list[Word], following: Word | None, header: dict[str, Any]) -> Cue:
    text = " ".join(word.text for word in words)
    if not header["punctuation"]:
        text = re.sub(r"[.,!?:;]+(?=\s|$)", "", text).replace("-", " ")
    if header["case"] == "lower":
        text = text.lower()
    end = words[-1].end + 0.4
    if following:
        end = min(end, following.start)
    return Cue(start_ms=round(words[0].start * 1000), end_ms=round(end * 1000), text=text, identifier="")


def written(cues: list[Cue], form: str) -> str:
    """The caption file's text in one of the forms of :data:`SUFFIX`."""
    if form == "vtt":
        return write_vtt(cues)
    if form == "srt":
        return "\n".join(
            f"{number}\n{_srt(cue.start_ms)} --> {_srt(cue.end_ms)}\n{cue.text}\n"
            for number, cue in enumerate(cues, 1)
        )
    if form == "brackets":
        return "".join(f"[{format_clock(cue.start_ms / 1000)}] {cue.text}\n" for cue in cues)
    return "".join(f"{_srt(cue.start_ms)[:8]} {cue.text}\n" for cue in cues)


def _srt(milliseconds: int) -> str:
    seconds, rest = divmod(milliseconds, 1000)
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d},{rest:03d}"


def truth_of(script: Script, marks: list[Mark], words: list[Word]) -> dict[str, Any]:
    """The marks as plain data, with times in seconds."""
    blocks: list[dict[str, Any]] = []
    for mark in marks:
        at = round(mark.at, 1)
        settings = mark.step.settings
        if mark.step.kind == "block":
            blocks.append({"kind": "strength", **settings, "start": at, "your_turn": None, "items": []})
        elif mark.step.kind == "turn":
            blocks[-1]["your_turn"] = at
        elif mark.step.kind == "item":
            blocks[-1]["items"].append({"exercise": mark.step.words[0], "start": at, **settings})
        else:
            blocks[-1]["items"].append({"new": settings["name"], "start": at, "dose": settings["dose"]})
    length = round(words[-1].end + 2)
    return {
        "library": script.header["library"],
        "style": script.header["style"],
        "length": length,
        "blocks": blocks,
    }


def main() -> None:
    """Write all caption files and truths."""
    FILES.mkdir(exist_ok=True)
    for script in all_scripts():
        words, marks = speak(script)
        form = script.header["form"]
        path = FILES / f"{script.name}{SUFFIX[form]}"
        path.write_text(written(cues_of(script, words), form), encoding="utf-8")
        truth = yaml.safe_dump(truth_of(script, marks, words), sort_keys=False, width=110, allow_unicode=True)
        _truth_path(path).write_text(truth, encoding="utf-8")


def _truth_path(path: Path) -> Path:
    return path.with_suffix(".truth.yaml")


if __name__ == "__main__":
    main()
