"""A small library with sessions, built, for the tests of exercise and need pages."""

from pathlib import Path

from bs4 import BeautifulSoup, Tag

from sitegen.building.build import Builder
from sitegen.building.writer import SiteChanges
from tests.checks.library_folder import LibraryFolder

ROW = """name: Door row
also: [towel row]
summary: Pull the chest to the door.
pattern: pull horizontal
muscles: {prime: [upper back, lats], assist: [biceps]}
kit: [towel]
demands: [standing, grip]
move: Draw both elbows back past the ribs
cues: [Elbows past the ribs, Long arms at the end]
faults:
  - {see: Shoulders creep up, fix: Slide them down}
  - {see: Hips come first, fix: Lean less}
cautions:
  - {text: Lock the door., about: [grip], source: "House rules, 2026"}
variants:
  - {id: upright, name: Upright row, change: regression, note: Lean less}
  - id: seated
    name: Seated row
    change: regression
    of: upright
    kit: [towel, sturdy-chair]
    demands: [grip]
    dose: half
  - id: squeeze
    name: Blade squeeze
    change: substitution
    kit: []
    demands: [standing]
    move: Draw both blades together
    cues: [Squeeze for three]
  - {id: low, name: Low row, change: progression, dose: -2, faults: [{see: The head drops, fix: Look up}]}
  - {id: to-pack, change: substitution, exercise: pack-row}
"""
PACK = """name: Pack row
pattern: pull horizontal
muscles: {prime: [upper back]}
kit: [backpack]
demands: [standing, sustained bending]
"""
EPISODE = """title: {title}
number: {number}
blocks:
  - name: Warm up
    kind: warm-up
    format: circuit
    at: 0:10
    items:
      - {{exercise: door-row, dose: 5}}
  - name: Pull
    kind: strength
    format: straight sets
    at: 1:00
    sets: 3
    items:
      - {{exercise: door-row, at: 1:05, dose: "{dose}"}}
      - {{exercise: door-row, variant: low, at: 1:30, dose: 6, load: 2 kg}}
"""


class LibrarySite(LibraryFolder):
    """The library with three sessions in which the door row rises from 8 to 10 to 10 repetitions."""

    def __init__(self, root: Path) -> None:
        super().__init__(root)
        self.out = root / "build"
        self.edit(
            "series.yaml",
            "  backpack:",
            "  towel: {name: Bath towel, holds: 3 kg, stand_ins: [a sheet]}\n  backpack:",
        )
        self.write("exercises/door-row.yaml", ROW)
        self.write("exercises/pack-row.yaml", PACK)
        for number, dose in ((2, 8), (3, 10), (4, 10)):
            self.session(number, dose)

    def session(self, number: int, dose: int | str) -> None:
        """Write a session."""
        text = EPISODE.format(title=f"Session {number}", number=number, dose=dose)
        self.write(f"episodes/{number:02}-session-{number}.yaml", text)

    def build(self) -> SiteChanges:
        """Bring the site up to date."""
        builder = Builder(self.root, self.out, jobs=1)
        built = builder.build()
        builder.remember()
        return built.written

    def page(self, address: str) -> BeautifulSoup:
        """A page of the site."""
        return BeautifulSoup((self.out / address).read_bytes(), "html5lib")


def words(element: Tag | None) -> str:
    """Text of an element with single spaces."""
    return " ".join(element.get_text(" ").split()) if element else ""


def rows(table: Tag) -> list[list[str]]:
    """Cells of a table's body as text."""
    return [[words(cell) for cell in row.find_all(["th", "td"])] for row in table.select("tbody tr")]
