#!/usr/bin/env python3
"""Make the demo series' videos: moving slates with a running clock.

Each video shows, at the times its episode file gives, the block, the exercise and its dose, so
that chapters, captions and pictures can be compared by eye. The slates are drawn by ffmpeg
from plain colours and the DejaVu fonts; nothing in them belongs to anybody else. Each is made in
the two forms that together play in every browser: WebM (VP9), and MP4 (H.264) for older iPhones.
Episodes that name one form only, MP4, get a light film with one frame a second, which shows the same at a
third of the bytes. With the same ffmpeg the result is the same byte for byte: one thread per encoder, no
dates, no random ids.

Run from the top folder: ``python tests/tools/make_demo_videos.py [number ...] [--ending mp4] [--jobs 2]``.
"""

import argparse
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from sitegen.notation import parse_clock

CONTENT = Path(__file__).resolve().parents[2] / "content"
FONTS = Path("/usr/share/fonts/truetype/dejavu")
WIDTH, HEIGHT, FPS = 320, 180, 5
LIGHT_FPS = 1
MARGIN = 16
KEYFRAME_EVERY = 2
"""Seconds between keyframes: how exactly a player can jump."""
FAREWELL = 10
"""Seconds of the closing slate."""

COLOURS = {
    "title": "0x1b3a4b",
    "warm-up": "0x7a4a12",
    "conditioning": "0x7d2e2e",
    "strength": "0x1f4e5f",
    "mobility": "0x4a3f6b",
    "cool-down": "0x2f5d50",
    "your turn": "0x2b2b2b",
}
INK, BRASS = "0xf4f1e8", "0xe0b04a"


@dataclass(frozen=True, slots=True, kw_only=True)
class Slate:
    """What the picture shows from ``start`` (seconds) until the next slate."""

    start: int
    colour: str
    above: str
    """Small line: the block."""
    main: str
    """Large line: the exercise."""
    below: str = ""
    """Small line: the dose."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """One video to make."""

    number: int
    title: str
    length: int
    """Seconds."""
    targets: tuple[Path, ...]
    """One file for each form."""
    fps: int
    """Frames a second."""
    slates: tuple[Slate, ...]


def read(path: Path) -> Any:
    """A content file with every scalar as it was written: ``3:20`` stays text."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def exercise_name(exercise_id: str, variant_id: str | None) -> str:
    """The name viewers know the exercise, or the variant shown, by."""
    exercise = read(CONTENT / "exercises" / f"{exercise_id}.yaml")
    if variant_id is None:
        return str(exercise["name"])
    form = next(form for form in exercise["variants"] if form["id"] == variant_id)
    return str(form["name"]) if "name" in form else exercise_name(form["exercise"], None)


def with_routine(block: dict[str, Any]) -> dict[str, Any]:
    """The block itself, or the shared one it names with its times moved to this video."""
    if "routine" not in block:
        return block
    shared = read(CONTENT / "routines" / f"{block['routine']}.yaml")
    start = parse_clock(block["at"])
    items = [{**item, "from_start": start + parse_clock(item["at"])} for item in shared["items"]]
    return {**shared, **block, "items": items}


def item_start(item: dict[str, Any]) -> int:
    """When the item is shown, in seconds of the video."""
    return int(item["from_start"]) if "from_start" in item else parse_clock(item["at"])


def dose_line(block: dict[str, Any], item: dict[str, Any]) -> str:
    """Sets, dose and load as one short line."""
    sets = block.get("sets") or block.get("rounds")
    dose = item.get("dose") or block.get("work", "")
    amount = f"{sets} × {dose}" if sets else str(dose)
    return " · ".join(part for part in (amount, item.get("load")) if part)


def block_slates(block: dict[str, Any]) -> Iterator[Slate]:
    """The slates of one block: its name, its items, and the pause to do it."""
    kind, name = block["kind"], block["name"]
    first = item_start(block["items"][0])
    if parse_clock(block["at"]) < first:
        yield Slate(start=parse_clock(block["at"]), colour=kind, above=kind, main=name, below=block["format"])
    for item in block["items"]:
        shown = exercise_name(item["exercise"], item.get("variant"))
        yield Slate(start=item_start(item), colour=kind, above=name, main=shown, below=dose_line(block, item))
    if "your_turn" in block:
        start = parse_clock(block["your_turn"])
        invitation = "pause here, then come back"
        yield Slate(start=start, colour="your turn", above=name, main="Your turn", below=invitation)


def film_of(episode: dict[str, Any], series: str, endings: Sequence[str]) -> Film:
    """Everything the video of an episode shows, for its files with one of the endings."""
    length, files = parse_clock(episode["video"]["length"]), episode["video"]["file"]
    files = [files] if isinstance(files, str) else files
    heading = f"{series} · {episode['number']}"
    slates = [Slate(start=0, colour="title", above=heading, main=episode["title"], below=episode["lasts"])]
    for block in episode["blocks"]:
        slates.extend(block_slates(with_routine(block)))
    slates.append(Slate(start=length - FAREWELL, colour="title", above=heading, main="Until next time"))
    return Film(
        number=int(episode["number"]),
        title=episode["title"],
        length=length,
        targets=tuple(CONTENT / file for file in files if file.endswith(tuple(endings))),
        fps=LIGHT_FPS if len(files) == 1 else FPS,
        slates=tuple(slates),
    )


def fitting_size(text: str, largest: int) -> int:
    """Font size in pixels at which a line fits between the margins; a bold letter is about 0.68 em wide."""
    return min(largest, int((WIDTH - 2 * MARGIN) / (0.68 * len(text))))


def draw_text(file: Path, *, font: str, size: int, y: int, colour: str, when: str) -> str:
    """One drawtext filter that shows the text of a file, taken literally."""
    return (
        f"drawtext=fontfile={FONTS / font}:textfile={file}:expansion=none:fontsize={size}"
        f":fontcolor={colour}:x={MARGIN}:y={y}:enable='{when}'"
    )


def slate_filters(slate: Slate, end: int, index: int, folder: Path) -> Iterator[str]:
    """Background and text of one slate, shown from its start until ``end``."""
    when = f"gte(t,{slate.start})*lt(t,{end})"
    yield f"drawbox=x=0:y=0:w=iw:h=ih:t=fill:color={COLOURS[slate.colour]}:enable='{when}'"
    lines = (
        (slate.above, "DejaVuSans.ttf", 13, 34, BRASS),
        (slate.main, "DejaVuSans-Bold.ttf", 26, 58, INK),
        (slate.below, "DejaVuSans.ttf", 14, 94, INK),
    )
    for row, (text, font, largest, y, colour) in enumerate(lines):
        if text:
            file = folder / f"{index}-{row}.txt"
            file.write_text(text, encoding="utf-8")
            size = fitting_size(text, largest)
            yield draw_text(file, font=font, size=size, y=y, colour=colour, when=when)


def filter_graph(film: Film, folder: Path) -> str:
    """All slates, the clock, and a marker that sails along the bottom once per video."""
    ends = [slate.start for slate in film.slates[1:]] + [film.length]
    drawn = [
        part
        for index, (slate, end) in enumerate(zip(film.slates, ends, strict=True))
        for part in slate_filters(slate, end, index, folder)
    ]
    clock = (
        f"drawtext=fontfile={FONTS / 'DejaVuSansMono-Bold.ttf'}:fontsize=26:fontcolor={INK}:x={MARGIN}:y=126"
        r":text='%{eif\:floor(t/60)\:d}\:%{eif\:mod(floor(t)\,60)\:d\:2}'"
    )
    rail = f"drawbox=x=0:y=168:w=iw:h=2:t=fill:color={BRASS}"
    # One step a second keeps the four frames between two steps nearly free.
    sail = f"overlay=x='floor(t)*{WIDTH - 12}/{film.length}':y='160-4*mod(floor(t),2)':eval=frame"
    return f"[0:v]{','.join([*drawn, clock, rail])}[deck];[deck][1:v]{sail}"


def ffmpeg(*arguments: str) -> None:
    """Run ffmpeg quietly; its own words go to the terminal where it fails."""
    quiet = ["ffmpeg", "-hide_banner", "-loglevel", "error", "-nostdin", "-y"]
    subprocess.run([*quiet, *arguments], check=True)


KEYFRAMES = str(KEYFRAME_EVERY * FPS)
CODECS = {
    # Keyframes are nine tenths of the file; the lower limit keeps them small and still readable.
    ".webm": (
        *("-c:v", "libvpx-vp9", "-pix_fmt", "yuv420p", "-b:v", "0", "-crf", "58"),
        *("-qmin", "50", "-qmax", "58"),
        *("-deadline", "good", "-cpu-used", "0", "-auto-alt-ref", "0", "-lag-in-frames", "0"),
        *("-g", KEYFRAMES, "-keyint_min", KEYFRAMES, "-threads", "1", "-row-mt", "0", "-cues_to_front", "1"),
    ),
    # H.264 spends more on a keyframe. Each slate begins with one; in between, 200 small frames will do.
    ".mp4": (
        *("-c:v", "libx264", "-profile:v", "main", "-pix_fmt", "yuv420p", "-crf", "38"),
        *(
            "-preset",
            "veryslow",
            "-tune",
            "animation",
            "-g",
            "200",
            "-threads",
            "1",
            "-movflags",
            "+faststart",
        ),
    ),
}


LIGHT_CODEC = (
    *("-c:v", "libx264", "-profile:v", "main", "-pix_fmt", "yuv420p", "-crf", "44", "-preset", "veryslow"),
    *("-tune", "animation", "-g", "300", "-threads", "1", "-movflags", "+faststart"),
)


def encode(film: Film, graph: Path, video: Path) -> None:
    """Draw and encode the slates, in the form that the file's ending says."""
    background = f"color=c={COLOURS['title']}:s={WIDTH}x{HEIGHT}:r={film.fps}:d={film.length}"
    marker = f"color=c={BRASS}:s=12x8:r={film.fps}:d={film.length}"
    ffmpeg(
        *("-filter_threads", "1", "-filter_complex_threads", "1"),
        *("-f", "lavfi", "-i", background, "-f", "lavfi", "-i", marker),
        *("-filter_complex_script", str(graph), "-frames:v", str(film.length * film.fps)),
        *(LIGHT_CODEC if film.fps == LIGHT_FPS else CODECS[video.suffix]),
        *("-metadata", f"title={film.title}", "-fflags", "+bitexact", "-flags:v", "+bitexact"),
        str(video),
    )


def make(film: Film) -> Sequence[Path]:
    """Write the film; an interrupted run leaves the old ones in place."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        graph = folder / "graph"
        graph.write_text(filter_graph(film, folder), encoding="utf-8")
        for target in film.targets:
            video = folder / f"film{target.suffix}"
            encode(film, graph, video)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.move(video, target)
    return film.targets


def main(arguments: Sequence[str] | None = None) -> int:
    """Make the videos with the given numbers, or all."""
    parser = argparse.ArgumentParser(description="Make the demo series' videos.")
    parser.add_argument("number", type=int, nargs="*", help="episodes to make (default: all)")
    parser.add_argument("--ending", choices=("mp4", "webm"), help="the form to make (default: both)")
    parser.add_argument("--jobs", type=int, default=2, help="videos made at the same time (default: 2)")
    options = parser.parse_args(arguments)
    series = read(CONTENT / "series.yaml")["title"]
    endings = [options.ending] if options.ending else ["mp4", "webm"]
    films = [film_of(read(path), series, endings) for path in sorted((CONTENT / "episodes").glob("*.yaml"))]
    chosen = [film for film in films if not options.number or film.number in options.number]
    with ThreadPoolExecutor(max_workers=options.jobs) as pool:
        for targets in pool.map(make, chosen):
            for target in targets:
                print(f"{target.name}  {target.stat().st_size / 1024:.0f} KB")
    return 0


if __name__ == "__main__":
    sys.exit(main())
