"""Draft an episode from its captions, or put the recording's times into a planned one."""

import argparse
import gc
import re
import sys
from pathlib import Path

from slugify import slugify

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, print_problems, refuse
from sitegen.drafting import Draft, draft, fill_plan, name_film
from sitegen.drafting.transcript.captions import MOST_BYTES, read_transcript
from sitegen.model import Series
from sitegen.notation import format_clock
from sitegen.problems import ContentError
from sitegen.reading.captions.cues import Captions, read_captions, write_vtt
from sitegen.reading.media import MediaFault, can_probe, probe_length
from sitegen.reading.reader import read_content
from sitegen.reading.source import MAX_BYTES
from sitegen.reading.textfile import BadFile, decode
from sitegen.system.whole_files import free_name


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("captions", type=Path, help="captions (WebVTT, SRT) or a transcript with times")
    parser.add_argument(
        "--plan", type=Path, metavar="EPISODE", help="fill the times into this planned episode"
    )
    parser.add_argument("--video", type=Path, metavar="FILE", help="the recording")
    add_folders(parser)
    parser.add_argument("--number", type=int, help="number of the new episode (default: the next one)")
    parser.add_argument("--slug", help="address of the new episode (default: from the name of the captions)")
    parser.add_argument(
        "--write", action="store_true", help="write the file; one that is there is kept as .old"
    )


def run(arguments: argparse.Namespace) -> int:
    gc.disable()  # a short run that makes few reference cycles: collecting them only costs time
    for path in filter(None, (arguments.captions, arguments.plan, arguments.video)):
        if not path.is_file():
            return refuse(f"there is no file {path}")
    series = _series(content_folder(arguments))
    captions = _captions(arguments.captions)
    if series is None or captions is None:
        return PROBLEMS
    try:
        return _fill(arguments, captions, series) if arguments.plan else _draft(arguments, captions, series)
    except BadFile as error:
        print_problems([error.problem])
        return PROBLEMS


def _series(folder: Path) -> Series | None:
    """The series; None where there is no library to draft from. Unfinished episodes do not matter here."""
    try:
        content = read_content(folder)
    except ContentError as error:
        print_problems(error.problems)
        return None
    if content.series is None or not content.series.exercises:
        print_problems(content.problems)
        print(f"{folder}: a draft needs the exercises of the series; put these right first", file=sys.stderr)
        return None
    return content.series


def _captions(path: Path) -> Captions | None:
    with path.open("rb") as stream:
        captions = read_transcript(stream.read(MOST_BYTES + 1), str(path))
    if captions.problems:
        print_problems(captions.problems)
        return None
    return captions


def _draft(arguments: argparse.Namespace, captions: Captions, series: Series) -> int:
    folder = content_folder(arguments)
    number = arguments.number or max((episode.number for episode in series.episodes), default=0) + 1
    slug = arguments.slug or _slug(arguments.captions.stem) or f"session-{number}"
    path = folder / "episodes" / f"{number:02d}-{slug}.yaml"
    if not path.exists() and any(episode.slug == slug for episode in series.episodes):
        return refuse(f"an episode with the address {slug} is there already; choose another with --slug")
    usable = _usable_captions(arguments.captions, folder)
    if arguments.write and not path.exists() and (there := _same_film(arguments, usable, folder, series)):
        return refuse(there)
    result = draft(
        captions,
        series,
        number=number,
        slug=slug,
        video_length=_length(arguments.video),
        video_file=_below(arguments.video, folder),
        captions_file=_below(usable, folder),
    )
    _tell(result)
    if not result.yaml_text:
        print(f"{arguments.captions}: no exercise of the library is heard in it", file=sys.stderr)
        return PROBLEMS
    if arguments.write and usable != arguments.captions:
        _write(usable, write_vtt(captions.cues))
    _put(path, result.yaml_text, write=arguments.write)
    return OK


def _same_film(arguments: argparse.Namespace, captions: Path, folder: Path, series: Series) -> str | None:
    """What to say where an episode of this film is there already and nobody asked for another."""
    if arguments.slug or arguments.number:
        return None
    film, said = _below(arguments.video, folder), _below(captions, folder)
    for episode in series.episodes:
        files = [one.file for one in episode.video.files] if episode.video else []
        if (film and film in files) or (said and said == episode.captions):
            again = f"--number {episode.number} --slug {episode.slug}"
            return (
                f"{folder / episode.location.file} is made from this film already; nothing was written. "
                f"Add {again} to make it again (the file as it was is kept as .old), --plan with its file to "
                "fill in its times, or --slug with another address for a second episode of the film"
            )
    return None


def _fill(arguments: argparse.Namespace, captions: Captions, series: Series) -> int:
    text = decode(arguments.plan.read_bytes(), str(arguments.plan), MAX_BYTES)
    filled = fill_plan(text, captions, series)
    found = f"{filled.found} of {filled.planned} planned exercises found"
    print("\n  ".join([found, *filled.differences]), file=sys.stderr)
    if not filled.related:
        return PROBLEMS
    folder = content_folder(arguments)
    usable = _usable_captions(arguments.captions, folder)
    filmed = name_film(
        filled.text,
        video_file=_below(arguments.video, folder),
        video_length=_length(arguments.video),
        captions_file=_below(usable, folder),
    )
    names_them = f"captions: {_below(usable, folder)}" in filmed
    if arguments.write and names_them and usable != arguments.captions:
        _write(usable, write_vtt(captions.cues))
    _put(arguments.plan, filmed, write=arguments.write)
    if "\nvideo:" not in filmed:
        print(
            "the episode names no video yet: give it with --video, or write video: {file: …}", file=sys.stderr
        )
    return OK


def _slug(stem: str) -> str:
    words = slugify(stem)
    return re.sub(r"^\d+-", "", words) if not words.isdigit() else ""


def _below(path: Path | None, folder: Path) -> str | None:
    """The path below the content folder; None where it is elsewhere."""
    if path is None or not path.resolve().is_relative_to(folder.resolve()):
        return None
    return path.resolve().relative_to(folder.resolve()).as_posix()


def _usable_captions(path: Path, folder: Path) -> Path:
    """The captions that the site can show: the file itself, or where its WebVTT version goes.

    A plain transcript, or captions in another encoding or with faults, are enough for a draft but not for
    the site; so are captions outside of the content folder.
    """
    below = _below(path, folder) is not None
    problems = read_captions(path.read_bytes(), path.name).problems
    if below and not any(problem.severity == "problem" for problem in problems):
        return path
    return (path.parent if below else folder / "captions") / f"{path.stem}.vtt"


def _length(video: Path | None) -> int | None:
    """Seconds of a video, where ffprobe is installed to tell."""
    if video is None or not can_probe():
        return None
    try:
        return probe_length(video)
    except MediaFault:
        return None


def _tell(result: Draft) -> None:
    items = sum(len(block.items) for block in result.findings)
    lines = [f"{len(result.findings)} blocks, {items} exercises, {len(result.questions)} questions"]
    lines += [f"  {format_clock(one.at)}: {one.text}" for one in result.questions]
    lines += [f"  {format_clock(one.at)}: {one.name!r} is not in the library" for one in result.unknown]
    if result.unplaced:
        lines.append(f"{len(result.unplaced)} things heard but not placed; they are listed at the end")
    print("\n".join(lines), file=sys.stderr)


def _put(path: Path, text: str, *, write: bool) -> None:
    """Print the file, or write it and keep the one that was there."""
    if not write:
        sys.stdout.write(text)
        return
    _write(path, text)


def _write(path: Path, text: str) -> None:
    """Write a file; one that is there is kept beside it."""
    if path.exists():
        kept = free_name(path)
        path.rename(kept)
        print(f"{kept}: the file as it was", file=sys.stderr)
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("x", encoding="utf-8", newline="") as stream:
        stream.write(text)
    print(f"{path}: written")
