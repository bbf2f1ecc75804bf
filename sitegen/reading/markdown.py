"""Markdown in content: a safe subset of CommonMark, and a check of what it would not show.

HTML is off, so tags are shown as text. Links go to https, http, mailto or relative addresses.
"""

import re
from collections.abc import Iterator
from functools import cache, lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

_PLAIN = re.compile(r"[A-Za-z0-9 ,.;:'’‘“”()/?%+–—…\-À-ɏ]*")
"""Text in which no character can mean anything to inline Markdown or to HTML."""
# No pattern looks past the next "<" or "[" for its end: it would go over "<a <a <a" again from each of them.
_LINK = re.compile(r"\]\(\s*<?([^)\s>]*)")
_AUTOLINK = re.compile(r"<([A-Za-z][A-Za-z0-9+.\-]*:[^<>\s]*)>")  # CommonMark 0.31, 6.5: no < inside
# CommonMark 0.31, 4.7: link reference definitions.
_REFERENCE = re.compile(r"^ {0,3}\[[^\[\]]+\]:\s*<?(\S+?)>?(?:\s|$)", re.M)
# Tags, comments, and declarations, which begin with a letter.
_TAG = re.compile(r"</?[A-Za-z][A-Za-z0-9-]*(?:\s[^<>]*)?/?>|<!--|<[!?][A-Za-z]")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.\-]*:")  # RFC 3986, 3.1
_ALLOWED_SCHEMES = ("https:", "http:", "mailto:")


def safe_link(url: str) -> bool:
    """True for https, http and mailto addresses and relative ones that stay on the site."""
    # Browsers drop control characters and spaces before they read the scheme.
    bare = re.sub(r"[\x00-\x20]", "", url).lower()
    if bare.startswith(("//", "\\")):
        return False
    scheme = _SCHEME.match(bare)
    return scheme is None or scheme[0] in _ALLOWED_SCHEMES


@cache
def _parser() -> "MarkdownIt":
    from markdown_it import MarkdownIt

    parser = MarkdownIt("js-default", {"html": False, "linkify": False, "typographer": False})
    parser.disable(["image"])
    parser.validateLink = safe_link  # type: ignore[method-assign]
    return parser


@lru_cache(maxsize=65536)  # more than a large library has lines, but bounded: a preview runs for days
def inline_html(text: str) -> str:
    """HTML of one line of text, without a paragraph around it."""
    if _PLAIN.fullmatch(text):
        return text
    html: str = _parser().renderInline(text)
    return html.strip()


@lru_cache(maxsize=4096)
def block_html(text: str, heading_level: int | None = None) -> str:
    """HTML of a text of several paragraphs.

    Where ``heading_level`` is given, the text's highest heading gets that level and the others
    follow: a text may start with ``#`` or ``##`` and fits below the page's own headings either way.
    """
    parser = _parser()
    tokens = parser.parse(text)
    headings = [token for token in tokens if token.type in ("heading_open", "heading_close")]
    if headings and heading_level is not None:
        shift = heading_level - min(int(token.tag[1]) for token in headings)
        for token in headings:
            token.tag = f"h{min(6, int(token.tag[1]) + shift)}"
    html: str = parser.renderer.render(tokens, parser.options, {})
    return html


def trouble_in(text: str) -> Iterator[tuple[int, str, str, str]]:
    """``(offset, check, message, advice)`` for what Markdown here would not show as meant."""
    if "<" in text:
        for match in _TAG.finditer(text):
            message = f"HTML ({match[0][:40]}) is shown as text, not used"
            yield match.start(), "html-in-text", message, "write Markdown, such as **bold**, or remove it"
    if "](" in text or "<" in text or "]:" in text:
        for pattern in (_LINK, _AUTOLINK, _REFERENCE):
            for match in pattern.finditer(text):
                if not safe_link(match[1]):
                    message = f"the link {match[1][:60]!r} is not allowed"
                    advice = "link to https, mailto or a page of this site"
                    yield match.start(1), "unsafe-link", message, advice
