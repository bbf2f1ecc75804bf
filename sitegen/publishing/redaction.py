"""No secret is ever printed: words on their way out pass through :func:`redact`."""

import base64
import json
import os
import re
from collections.abc import Iterator
from urllib.parse import quote, quote_plus

HIDDEN = "[hidden]"

_NAMES = re.compile(r"PASS(?!IVE)|SECRET|TOKEN|CREDENTIAL|(^|_)(KEY|PWD|PIN)(_|$)|ACCESS_KEY", re.IGNORECASE)
# Who and what password, before the host. A password that nobody encoded may hold @ and / itself.
_IN_ADDRESS = re.compile(r"(?<=//)(?:[^/@\s:]+:\S*|[^/@\s]+)@")
_SIGNED = re.compile(
    r"((?:X-Amz-(?:Signature|Credential|Security-Token)|Signature|Credential)=)[^&\s,]+", re.IGNORECASE
)
_IN_QUERY = re.compile(
    r"([?&#;](?:[\w.-]*(?:pass(?:word)?|secret|token|credential|signature)[\w.-]*|(?:[\w.-]*[_-])?(?:key|sig|auth|pwd|pin|jwt|code))=)"
    r"[^&#;\s]+",
    re.IGNORECASE,
)
_HEADER = re.compile(r"(authorization: *(?:basic|bearer|token) +)\S+", re.IGNORECASE)


def redact(text: str) -> str:
    """The text without secrets of the environment, names and passwords in addresses, and signatures."""
    for value in _secret_values():
        text = text.replace(value, HIDDEN)
    text = _IN_ADDRESS.sub(_without_password, text)
    text = _IN_QUERY.sub(rf"\1{HIDDEN}", text)
    text = _SIGNED.sub(rf"\1{HIDDEN}", text)
    return _HEADER.sub(rf"\1{HIDDEN}", text)


def _without_password(match: re.Match[str]) -> str:
    """A bare user's name is no secret (``ssh://git@…``); what follows a colon is, and so is a token."""
    user = match[0].removesuffix("@")
    return match[0] if re.fullmatch(r"[a-z][a-z0-9._-]{0,15}", user) else f"{HIDDEN}@"


def _secret_values() -> list[str]:
    """Values of the environment whose names say that they are secret; longest first."""
    # Shorter values (a "1", a "true") would blot out parts of ordinary words, and are no secret worth the
    # name.
    values = [v for name, v in os.environ.items() if _NAMES.search(name) and len(v) >= 6]
    # A path is where a secret lies and no secret; the longest first, or the rest of one would stay readable.
    secrets = {written for v in values if not _is_path(v) for written in _ways_to_write(v)}
    return sorted(secrets, key=len, reverse=True)


def _is_path(value: str) -> bool:
    """A file's own name alone may as well be somebody's password."""
    return os.path.isabs(value) and os.path.exists(value)


def _ways_to_write(secret: str) -> Iterator[str]:
    """The secret as addresses, messages of libraries and headers would have it."""
    yield from (secret, repr(secret)[1:-1], json.dumps(secret)[1:-1])
    raw = os.fsencode(secret)  # an environment may hold bytes that are no text
    yield from (quote(raw), quote(raw, safe=""), quote_plus(raw))
    yield from (way(raw).decode().rstrip("=") for way in (base64.b64encode, base64.urlsafe_b64encode))
