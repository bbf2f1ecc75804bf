"""Content's Markdown as plain text, for files and attributes that hold no HTML."""

import html
import re

from sitegen.reading.markdown import inline_html

# Enough for HTML that our own program wrote: no attribute of it holds a ">".
_TAG = re.compile(r"<[^>]*>")


def plain_text(text: str) -> str:
    """The words of one line of Markdown, without its signs."""
    return html.unescape(_TAG.sub("", inline_html(text)))
