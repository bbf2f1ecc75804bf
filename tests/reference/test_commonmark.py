"""The Markdown settings against the CommonMark Spec 0.31.2: its own examples, safe subset."""

import json
import re
from pathlib import Path

import html5lib
import pytest

from sitegen.reading.markdown import block_html

EXAMPLES = json.loads((Path(__file__).parent / "data" / "commonmark-0.31.2.json").read_text())

HTML_OFF = "raw HTML is shown as text"
NO_IMAGES = "pictures are content fields with a text alternative, not Markdown"
SCHEMES = "links go to https, http, mailto and relative addresses only"

LEFT_OUT_SECTIONS = {"HTML blocks": HTML_OFF, "Raw HTML": HTML_OFF, "Images": NO_IMAGES}
LEFT_OUT = (
    dict.fromkeys([21, 31, 201, 308, 309, 344, 475, 476, 477, 491, 494, 524, 536, 642, 643], HTML_OFF)
    | dict.fromkeys([517, 520, 531], NO_IMAGES)
    | dict.fromkeys([596, 598, 599, 601], SCHEMES)
)
COVERED = [e for e in EXAMPLES if e["section"] not in LEFT_OUT_SECTIONS and e["number"] not in LEFT_OUT]


def as_html5(xhtml: str) -> str:
    """The spec prints void elements as XHTML; an empty quote's line break is layout only."""
    return (
        xhtml.replace("<hr />", "<hr>")
        .replace("<br />", "<br>")
        .replace("<blockquote>\n</blockquote>", "<blockquote></blockquote>")
        .replace("→", "\t")
    )


@pytest.mark.parametrize("section", dict.fromkeys(e["section"] for e in COVERED))
def test_the_examples_of_a_section_of_the_specification(section: str) -> None:
    examples = [e for e in COVERED if e["section"] == section]
    made = {e["number"]: block_html(e["markdown"].replace("→", "\t")) for e in examples}
    assert made == {e["number"]: as_html5(e["html"]) for e in examples}


def test_nearly_all_examples_are_covered() -> None:
    assert len(EXAMPLES) == 652
    assert len(COVERED) == 544


def test_no_example_brings_markup_of_its_own() -> None:
    """Whatever the text, only tags that Markdown makes come out, and no other scheme in a link."""
    allowed = {"p", "em", "strong", "code", "pre", "a", "ul", "ol", "li", "blockquote", "hr", "br", "s"}
    allowed |= {"h1", "h2", "h3", "h4", "h5", "h6", "table", "thead", "tbody", "tr", "th", "td"}
    for example in EXAMPLES:
        fragment = html5lib.parseFragment(block_html(example["markdown"]), namespaceHTMLElements=False)
        for element in list(fragment.iter())[1:]:
            assert element.tag in allowed, example["number"]
            link = element.get("href", "https:").lower()
            scheme = re.match(r"[a-z][a-z0-9+.-]*:", link)
            assert scheme is None or scheme[0] in ("https:", "http:", "mailto:"), example["number"]
