"""No secret is ever printed: words on their way out pass through :func:`redact`."""

import os
import re

HIDDEN = "[hidden]"

_NAMES = re.compile(r"PASS(?!IVE)|SECRET|TOKEN|CREDENTIAL|(^|_)(KEY|PWD|PIN)(_|$)|ACCESS_KEY", re.IGNORECASE)
_IN_ADDRESS = re.compile(r"(?<=//)[^/@\s]+@")  # who and what password, before the host
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
    return sorted((v for v in values if not os.path.exists(v)), key=len, reverse=True)
