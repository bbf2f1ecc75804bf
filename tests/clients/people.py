"""Three invented clients of the demo series, and a series folder that holds them."""

import shutil
from pathlib import Path

from tests.demo_copy import copy_demo

PEOPLE = {
    "nora-quayle": """\
name: Nora
age: 68
sex: woman
needs: [thin-bones, easy-knees]
avoids: [grip]
limits: {effort: at least 4 in reserve}
leave_out: [mountain-climber, jumping-jack]
exchanges:
  squat-thrust: {exercise: march-in-place, dose: 30 s}
loads: {backpack: 3 kg}
kit: [sturdy-chair, backpack, wall, counter, cushion]
start: 2026-12-01
days: [tuesday, friday]
repeat: {cast-off: 2}
skip: [lee-shore]
note: Take the zebrawood stairs slowly.
notes: {cast-off: Begin with the chair by the marmalade window.}
tests: [chair stand]
baseline: [{test: chair stand, day: 2026-11-20, result: 11}, {test: chair stand, day: 2027-01-04, result: 13}]
""",
    "imke-solheim": """\
name: Imke
needs: [wheelchair]
start: 2026-12-02
days: [wednesday, saturday]
time: "7:15"
exercises:
  tin-press/low-tin-press: {dose: 6}
note: Quorndon hydrotherapy stays on Thursdays.
""",
    "tobias-wren": """\
name: Tobias
age: 34
sex: man
start: 2026-12-07
days: [monday, wednesday, friday]
loads: {water-carrier: 4 l water}
exercises:
  backpack-row: {dose: "10", load: 8 kg}
leave_out: [chair-dip]
tests: [one-leg stance, chair stand]
baseline: [{test: one-leg stance, day: 2026-12-01, result: 38}]
""",
}
"""By name of the file. They hold words that nothing else of the project has."""

RARE = (
    "quayle",
    "solheim",
    "wren",
    "zebrawood",
    "marmalade",
    "quorndon",
    "hydrotherapy",
    "nora",
    "imke",
    "tobias",
)
"""Words of these files that must turn up nowhere else."""


def write_people(clients: Path) -> None:
    """Write the three files."""
    clients.mkdir(exist_ok=True)
    for name, text in PEOPLE.items():
        (clients / f"{name}.yaml").write_text(text, encoding="utf-8")


def series_with_people(root: Path, episodes: int = 12) -> Path:
    """The demo's content with the clients' folder beside it; gives the content folder."""
    content = copy_demo(root, episodes)
    shutil.rmtree(content / "schema", ignore_errors=True)
    write_people(root / "clients")
    return content
