"""What YAML takes away without a word: text behind a ``#``, and a sentence cut at its commas."""

import re

from sitegen.reading.schemas.report import Reading
from sitegen.reading.source import Node, ScalarNode, SequenceNode

_CUT = re.compile(r"\s+(#\S.*|# ?\d.*)")
"""A comment that reads on like the text before it: a remark usually has a space behind its ``#``."""
_MIDDLE = re.compile(r"(?:and|or|but|then)\b|[a-z]")
"""How an entry begins that is the rest of a sentence."""


def warn_of_comment(node: Node, name: str, reading: Reading) -> None:
    """Warn where the text of a plain value goes on behind a ``#``."""
    if not isinstance(node, ScalarNode) or node.style or b" #" not in reading.data:
        return
    cut = _CUT.fullmatch(reading.behind(node).rstrip())
    if cut:
        whole = f"{node.value} {cut[1]}".replace('"', "'")
        message = f"{name} ends at the #: {cut[1]!r} is taken for a comment and lost"
        advice = f'put the text in quotes: "{whole}"'
        reading.report(node, "comment-in-text", message, advice, severity="warning")


def warn_of_commas(node: SequenceNode, name: str, reading: Reading) -> None:
    """Warn where a list in brackets looks like one sentence that its commas cut."""
    entries = [child for child in node.value if isinstance(child, ScalarNode)]
    if len(entries) < 2 or len(entries) != len(node.value) or any(child.style for child in entries):
        return
    first, *others = (child.value for child in entries)
    if first[:1].isupper() and all(_MIDDLE.match(text) for text in others):
        message = f"{name} are {len(entries)} entries: in [ ] every comma begins the next"
        whole = ", ".join([first, *others]).replace('"', "'")
        advice = f'if it is one, put it in quotes: ["{whole}"]; otherwise begin each with a capital letter'
        reading.report(node, "comma-in-text", message, advice, severity="warning")
