"""A large series grown from the demo: the same kinds of episodes and exercises, many times over."""

import re
import shutil
from pathlib import Path

from tests.four_weeks import four_weeks

EXERCISES = 400


def generate(folder: Path, episodes: int, exercises: int = EXERCISES) -> Path:
    """Write a content folder of that size; gives the folder.

    Episodes are the demo's twelve in turn, with numbers, titles and doses of their own and the
    exercises spread over the whole library. Videos are hosted, so that no time goes into copying.
    """
    demo = four_weeks()
    content = folder / "content"
    for name in ("routines", "pages", "media"):
        shutil.copytree(demo / name, content / name, ignore=shutil.ignore_patterns("*.webm", "*.jpg"))
    shutil.copyfile(demo / "series.yaml", content / "series.yaml")
    copies = _exercises(demo, content, exercises)
    _episodes(demo, content, episodes, copies)
    return content


def _exercises(demo: Path, content: Path, wanted: int) -> int:
    """The demo's exercises and numbered copies of them; gives how many copies there are of each."""
    (content / "exercises").mkdir()
    originals = sorted((demo / "exercises").glob("*.yaml"))
    for index in range(wanted):
        source = originals[index % len(originals)]
        copy = index // len(originals)
        text = source.read_text()
        if copy:
            text = re.sub(r"^name: (.*)$", rf"name: \1 {copy + 1}", text, count=1, flags=re.M)
        name = source.stem if not copy else f"{source.stem}-{copy + 1}"
        (content / "exercises" / f"{name}.yaml").write_text(text)
    return wanted // len(originals)


def _episodes(demo: Path, content: Path, wanted: int, copies: int) -> None:
    (content / "episodes").mkdir()
    (content / "captions").mkdir()
    originals = sorted((demo / "episodes").glob("*.yaml"))
    for index in range(wanted):
        text = originals[index % len(originals)].read_text()
        number, copy = index + 1, index // len(originals)
        (content / "episodes" / f"{number:05d}-session-{number}.yaml").write_text(
            _episode(text, number, copy % copies if copies else 0, demo, content)
        )


def _episode(text: str, number: int, copy: int, demo: Path, content: Path) -> str:
    text = re.sub(r"^number: .*$", f"number: {number}", text, count=1, flags=re.M)
    text = re.sub(r"^title: .*$", f"title: Session {number}", text, count=1, flags=re.M)
    text = re.sub(
        r"^video: \{file: \[[^\]]*\],", f"video: {{host: harbour, id: v{number},", text, count=1, flags=re.M
    )
    captions = re.search(r"^captions: (.*)$", text, flags=re.M)
    if captions:
        source = demo / captions[1].strip()
        own = f"captions/{number:05d}{source.suffix}"
        shutil.copyfile(source, content / own)
        text = text.replace(captions[0], f"captions: {own}")
    if copy:
        text = re.sub(r"(exercise: [a-z0-9-]+)", rf"\1-{copy + 1}", text)
    return re.sub(r"dose: (\d+)(?= |,|\n)", lambda m: f"dose: {int(m[1]) + number % 3}", text)
