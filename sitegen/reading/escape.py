"""The five characters that HTML and XML give a meaning."""

_TABLE = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})


def escape_html(text: str) -> str:
    """``text`` with markup characters as references, for element content and quoted attributes."""
    return text.translate(_TABLE)
