"""What a series may say of its look: colours and a logo."""

from typing import Any

from sitegen.model import Logo, Look
from sitegen.notation.colour import parse_colour
from sitegen.reading.schemas.report import BAD, Path, Reading, name_of
from sitegen.reading.schemas.scalars import Scalar
from sitegen.reading.schemas.shapes import Key, RecordShape
from sitegen.reading.schemas.shared_scalars import FILE, LINE
from sitegen.reading.source import Node, ScalarNode, is_null


class Colour(Scalar):
    """A colour; without quotes YAML takes it for a remark, which is told here."""

    says = 'a colour such as "#14323c"'
    reads_nothing = True

    def parse(self, text: str) -> str:
        return parse_colour(text)

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if isinstance(node, ScalarNode) and is_null(node):
            written = reading.behind(node).strip()
            advice = f'put it in quotes: "{written}"' if written.startswith("#") else f"write {self.says}"
            reading.report(
                node, "empty-value", f"{name_of(path)} is empty: YAML drops what follows a #", advice
            )
            return BAD
        return super().read(node, reading, path)

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": "^#?([0-9a-fA-F]{3}|[0-9a-fA-F]{6})$", "examples": ["#14323c"]}


_COLOUR = Colour()
_COLOURS = RecordShape(
    "the colours",
    {
        "paper": Key(_COLOUR, help="What everything stands on"),
        "ink": Key(_COLOUR, help="Words, lines and figures"),
        "load": Key(_COLOUR, help="Loads and the level in vessels, and nothing else"),
    },
    dict,
)

LOOK = RecordShape(
    "the look",
    {
        "light": Key(_COLOURS, help="On light screens and on paper"),
        "dark": Key(_COLOURS, help="On dark screens"),
        "logo": Key(
            RecordShape(
                "a logo",
                {
                    "file": Key(FILE, required=True, help="SVG, PNG, JPEG or WebP"),
                    "dark": Key(FILE, help="The same for dark screens"),
                    "alt": Key(LINE, required=True, help="What it says, for those who cannot see it"),
                },
                Logo,
            ),
            help="In the place of the title at the top of every page",
        ),
    },
    Look,
)
