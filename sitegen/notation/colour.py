"""Colours as six hexadecimal digits, their contrast, and shades of them.

W3C, *Web Content Accessibility Guidelines 2.2*, definitions of relative luminance and contrast ratio.
"""

import re

from sitegen.notation.errors import NotationError

_LONG = re.compile(r"#?([0-9a-fA-F]{6})")  # with or without #: YAML takes one for a comment
_SHORT = re.compile(r"#?([0-9a-fA-F]{3})")  # each digit stands for two


def parse_colour(text: str) -> str:
    """A colour such as ``#14323c``, in small letters. Raises NotationError."""
    if found := _LONG.fullmatch(text.strip()):
        return f"#{found[1].lower()}"
    if found := _SHORT.fullmatch(text.strip()):
        return "#" + "".join(digit * 2 for digit in found[1].lower())
    raise NotationError(
        f"{text!r} is not a colour", 'write six digits or letters from a to f, such as "#14323c"'
    )


def luminance(colour: str) -> float:
    """How light a colour is, from 0 for black to 1 for white (WCAG 2.2, relative luminance)."""
    red, green, blue = (_linear(channel / 255) for channel in channels(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours (WCAG 2.2): from 1 for the same one to 21 for black on white."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def mixed(one: str, other: str, share: float) -> str:
    """A colour between two: ``share`` 0 is the one, 1 the other."""
    pairs = zip(channels(one), channels(other), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


def channels(colour: str) -> tuple[int, int, int]:
    """Red, green and blue, each from 0 to 255."""
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _linear(channel: float) -> float:
    # 0.04045 is the value of sRGB (IEC 61966-2-1); WCAG's 0.03928 gives the same for all 256 steps.
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4
