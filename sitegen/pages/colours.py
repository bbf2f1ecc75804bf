"""The colours of a site: those of the theme, and those that the series chooses instead.

A theme's ``colours.yaml`` names its colours, says which a series may choose, which lie between two others,
and what each is used for with the least contrast that it needs. So a trainer's colour is tried against every
use, on light and on dark screens, before anything is built.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from sitegen.model import Details, Look
from sitegen.notation.colour import contrast, luminance, mixed, parse_colour
from sitegen.problems import Problem, found

SCREENS = ("light", "dark")
_STEPS = 200
"""How finely a shade that passes is looked for: finer than an eye tells apart."""


@dataclass(frozen=True, slots=True)
class ColourUse:
    """What a colour is used for, on which others, and the contrast that this needs."""

    what: str
    colour: str
    grounds: tuple[str, ...]
    least: float


@dataclass(frozen=True, slots=True)
class LowContrast:
    """A use whose contrast is too low on one screen."""

    use: ColourUse
    ground: str
    contrast: float


class Palette:
    """The colours of a theme with what a series chose."""

    def __init__(self, declared: Mapping[str, Any], look: Look) -> None:
        """``declared`` is what ``colours.yaml`` says, whole."""
        self._own = {
            screen: {name: parse_colour(str(one)) for name, one in declared.get(screen, {}).items()}
            for screen in SCREENS
        }
        self._between = declared.get("between", {})
        self.choosable: tuple[str, ...] = tuple(declared.get("chosen", ()))
        self.styles: tuple[str, ...] = tuple(declared.get("styles", ()))
        self.uses = [
            ColourUse(one["what"], one["colour"], tuple(one["grounds"]), one["least"])
            for one in declared.get("uses", ())
        ]
        self._chosen = {"light": look.light, "dark": look.dark}

    @cached_property
    def colours(self) -> Mapping[str, Mapping[str, str]]:
        """Every colour by screen and name."""
        return {screen: self._of(screen, self._chosen[screen]) for screen in SCREENS}

    def _of(self, screen: str, chosen: Mapping[str, str]) -> Mapping[str, str]:
        colours = self._own[screen] | dict(chosen)
        if {"ink", "paper"} & chosen.keys():
            for name, share in self._between.get(screen, {}).items():
                if name not in chosen:
                    colours[name] = self._between_two(name, share, colours)
        return colours

    def _between_two(self, name: str, share: float, colours: Mapping[str, str]) -> str:
        """A colour between ink and paper, so much nearer to ink that it can be read as well as needed."""
        uses = [use for use in self.uses if use.colour == name]
        grounds = [(colours[ground], use.least) for use in uses for ground in use.grounds]
        for less in range(_STEPS):
            shade = mixed(colours["ink"], colours["paper"], max(0, share - less / _STEPS))
            if all(contrast(shade, ground) >= least for ground, least in grounds):
                return shade
        return colours["ink"]

    @cached_property
    def style(self) -> bytes:
        """The colours as custom properties, for light and for dark screens."""
        return b"".join(self._rules())

    def _rules(self) -> Iterator[bytes]:
        for screen in SCREENS:
            values = "".join(f"--{screen}-{name}:{one};" for name, one in self.colours[screen].items())
            yield f":root{{{values}}}\n".encode()
        for screen, rule in zip(
            SCREENS, (":root{%s}\n", "@media (prefers-color-scheme:dark){:root{%s}}\n"), strict=True
        ):
            values = "".join(f"--{name}:var(--{screen}-{name});" for name in self.colours[screen])
            yield (rule % values).encode()

    def too_low(self) -> Iterator[str]:
        """Uses of the theme's own colours whose contrast is too low, in words."""
        for screen in SCREENS:
            for one in self._failures(self.uses, screen, {}):
                yield (
                    f"on a {screen} screen the contrast of {one.use.what} is {one.contrast:.2f} "
                    f"({one.use.colour} on {one.ground}), and {one.use.least:g} is needed (WCAG 2.2)"
                )

    # --- contrast --------------------------------------------------------------------------

    def problems(self, details: Details) -> Iterator[Problem]:
        """What the series chose that cannot be chosen, or that cannot be read well enough."""
        for screen in SCREENS:
            location = details.location.at("look", screen)
            for name in self._chosen[screen]:
                if name not in self.choosable:
                    message = f"the theme has no colour {name!r} for a series to choose"
                    advice = f"choose from {', '.join(self.choosable)}" if self.choosable else "leave it out"
                    yield found("problem", "unknown-colour", location.at(name), message, advice)
            yield from self._unreadable(screen, details)

    def _unreadable(self, screen: str, details: Details) -> Iterator[Problem]:
        chosen = {name: one for name, one in self._chosen[screen].items() if name in self.choosable}
        if not chosen:
            return
        location = details.location.at("look", screen)
        paper, ink = (self._of(screen, chosen)[name] for name in ("paper", "ink"))
        if (luminance(paper) < luminance(ink)) == (screen == "light"):
            lighter, other = ("lighter", "dark") if screen == "light" else ("darker", "light")
            message = f"on a {screen} screen paper {paper} is to be {lighter} than ink {ink}"
            advice = f"swap the two, or write them under {other}:"
            at = location.at("paper" if "paper" in chosen else "ink")
            yield found("problem", "colours-swapped", at, message, advice)
            return
        better = dict(chosen)
        for root in ("paper", "ink", "load"):
            uses = [use for use in self.uses if self._root(use.colour, screen) == root]
            if not (failures := self._failures(uses, screen, better)):
                continue
            # Ink that fits no paper like this one needs another paper.
            names = [name for name in (root, "paper") if name in chosen] or [*chosen][:1]
            shades = ((name, self._shade(name, uses, screen, better)) for name in names)
            name, shade = next(((name, shade) for name, shade in shades if shade), (names[0], None))
            worst = min(failures, key=lambda one: one.contrast / one.use.least)
            words = _words(worst, screen, better[name], shade)
            yield found("problem", "low-contrast", location.at(name), *words)
            better[name] = shade or better[name]  # what is wrong besides is told in the same run

    def _root(self, colour: str, screen: str) -> str:
        """The colour to change where a use of another fails: what it is made from, or what it stands on."""
        if colour in self._between.get(screen, {}):
            return "ink"
        return colour if colour in self.choosable else "paper"

    def _failures(
        self, uses: Sequence[ColourUse], screen: str, chosen: Mapping[str, str]
    ) -> list[LowContrast]:
        colours = self._of(screen, chosen)
        pairs = [
            LowContrast(use, ground, contrast(colours[use.colour], colours[ground]))
            for use in uses
            for ground in use.grounds
        ]
        return [one for one in pairs if one.contrast < one.use.least]

    def _shade(
        self, name: str, uses: Sequence[ColourUse], screen: str, chosen: Mapping[str, str]
    ) -> str | None:
        """The nearest shade of a chosen colour with which no use fails; None where there is none."""
        wanted = [self.uses, uses] if name == "paper" else [uses]  # all else stands on paper
        return next(
            (
                shade
                for some in wanted
                for shade in _shades(chosen[name])
                if not self._failures(some, screen, {**chosen, name: shade})
            ),
            None,
        )


def _shades(colour: str) -> Iterator[str]:
    """Shades of a colour with black or white in it, the nearest first."""
    for step in range(1, _STEPS + 1):
        for end in ("#000000", "#ffffff"):
            yield mixed(colour, end, step / _STEPS)


def _words(failure: LowContrast, screen: str, written: str, better: str | None) -> tuple[str, str]:
    use = failure.use
    message = (
        f"with {written} on a {screen} screen the contrast of {use.what} is {failure.contrast:.2f} "
        f"({use.colour} on {failure.ground}), and {use.least:g} is needed (WCAG 2.2)"
    )
    if better is None:
        return message, "no shade of it will do with the other colours: choose others, or leave them out"
    return message, f'write "{better}", the nearest shade of it that can be read'
