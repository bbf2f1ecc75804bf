"""Data for the theme's scripts, as blocks of JSON inside a page."""

import json
from typing import Any

from markupsafe import Markup


def to_json(data: Any) -> str:
    """Compact JSON that cannot end the script element it stands in.

    HTML ends a script at ``</script`` and changes how it reads one at ``<!--``, so no ``<`` is left.
    """
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")


def script_json(data: Any) -> Markup:
    """Such JSON, ready for a template: ``<script type="application/json">{{ … }}</script>``."""
    return Markup(to_json(data))
