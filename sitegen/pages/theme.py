"""A theme: everything a reader sees. Templates, strings, styles and scripts, read from one folder.

What a theme does not hold comes from the one below it, so that a new theme begins with one style sheet.
"""

import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from hashlib import blake2b
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from jinja2 import (
    BaseLoader,
    ChoiceLoader,
    Environment,
    FileSystemBytecodeCache,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
)
from jinja2.bccache import Bucket
from markupsafe import Markup

from sitegen.model import Look
from sitegen.notation import NotationError, format_clock
from sitegen.pages.colours import Palette
from sitegen.pages.page import fingerprint
from sitegen.pages.theme_faults import syntax_problems
from sitegen.pages.theme_files import ThemeFiles, laid_over, problem
from sitegen.problems import ContentError, Problem
from sitegen.reading.markdown import block_html, inline_html


@dataclass(frozen=True, slots=True)
class Asset:
    """A style, script or font of the theme, at an address that changes with its bytes."""

    name: str
    """Path below the theme, such as ``styles/site.css``."""
    address: str
    data: bytes


class Theme:
    """One theme folder, over those ``below`` it; ``cache`` may hold compiled templates between runs.

    Raises ContentError where a file of it cannot be understood.
    """

    def __init__(
        self,
        folder: Path,
        language: str,
        cache: Path | None = None,
        *,
        below: Sequence[Path] = (),
        look: Look | None = None,
    ) -> None:
        self.files = ThemeFiles((folder, *below))
        self.palette = _palette(self.files, look or Look())
        self._data = dict(self.files.data)
        for name in self.palette.styles:
            self._data[name] = self.palette.style + self._data.get(name, b"")
        hashes = {name: blake2b(data, digest_size=12).hexdigest() for name, data in self._data.items()}
        self.digest = fingerprint(language, *(part for named in sorted(hashes.items()) for part in named))
        self.language = self._language_with_strings(language)
        self._cache = cache

    def _language_with_strings(self, language: str) -> str:
        """The language itself, or English where the theme has no strings for it."""
        known = {name.split("/")[1] for name in self.files.names("strings/")}
        return next((tag for tag in (language, language.split("-")[0]) if tag in known), "en")

    @cached_property
    def strings(self) -> Any:
        """Every sentence of the interface: ``strings.episode.chapters`` and so on.

        What a language lacks is said in English.
        """
        merged: dict[str, Any] = {}
        for language in dict.fromkeys(("en", self.language)):
            for name in self.files.names(f"strings/{language}/"):
                merged = laid_over(merged, self.files.merged(name))
        return _namespace(merged)

    def check(self) -> None:
        """Try all that can be tried before a page is made. Raises ContentError with everything found."""
        _ = self.strings, self.assets
        names = [name.removeprefix("templates/") for name in self.files.names("templates/")]
        colours = self.files.shown(self.files.folders[0] / _COLOURS)
        low = [problem(colours, None, words) for words in self.palette.too_low()]
        if wrong := [*low, *syntax_problems(self.environment, names, self.files.folders)]:
            raise ContentError(wrong)

    @cached_property
    def assets(self) -> Mapping[str, Asset]:
        """Styles, scripts and fonts by name."""
        found: dict[str, Asset] = {}
        files = self._data | self._bundles
        # Styles last: they name fonts and pictures by addresses that must be known by then.
        for name in sorted(files, key=lambda name: (name.startswith("styles/"), name)):
            folder, _, rest = name.partition("/")
            if folder in ("styles", "scripts", "fonts", "pictures"):
                data = _with_addresses(files[name], found) if folder == "styles" else files[name]
                stem, dot, ending = rest.rpartition(".")
                address = f"assets/{stem}.{fingerprint(data)[:10]}{dot}{ending}"
                found[name] = Asset(name, address, data)
        return found

    @property
    def _bundles(self) -> dict[str, bytes]:
        """What ``bundles.yaml`` puts together: each new file is the files listed, in their order.

        A page asks for one file instead of a dozen small ones. Classic scripts and styles mean the same
        joined as one after the other. Comments and spaces stay in the theme: a third of the weight.
        """
        listed: dict[str, list[str]] = self.files.merged(_BUNDLES)
        missing = [part for parts in listed.values() for part in parts if part not in self._data]
        if missing:
            raise ContentError([self._missing_part(part) for part in dict.fromkeys(missing)])
        return {
            bundle: b"\n".join(map(_tightened, parts, map(self._data.__getitem__, parts)))
            for bundle, parts in listed.items()
        }

    def _missing_part(self, part: str) -> Problem:
        file = self.files.path(_BUNDLES)
        lines = file.read_text("utf-8").splitlines()
        line = next((number for number, text in enumerate(lines, 1) if part in text), None)
        message = f"there is no file {part!r} in the theme, nor in the one below it"
        return problem(self.files.shown(file), line, message, "correct the name, or leave the line out")

    def data(self, name: str) -> bytes:
        """The bytes of one of the theme's files. KeyError where there is none."""
        return self._data[name]

    @cached_property
    def environment(self) -> Environment:
        """The template environment: everything is escaped unless it was made by us."""
        environment = Environment(
            loader=_loader(self.files.folders),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            auto_reload=False,
            bytecode_cache=_CompiledTemplates(str(self._cache)) if self._cache else None,
        )
        environment.filters["md"] = lambda text: Markup(inline_html(text))
        environment.filters["md_block"] = lambda text, level=2: Markup(block_html(text, level))
        environment.filters["clock"] = format_clock
        environment.filters["leading_figure"] = leading_figure
        environment.globals["t"] = self.strings
        environment.globals["n"] = plural
        return environment


_BUNDLES, _COLOURS = "bundles.yaml", "colours.yaml"


def _palette(files: ThemeFiles, look: Look) -> Palette:
    declared = files.merged(_COLOURS)
    try:
        return Palette(declared, look)
    except (KeyError, TypeError, ValueError, AttributeError, NotationError) as error:
        file = files.shown(files.path(_COLOURS)) if _COLOURS in files.data else _COLOURS
        message = f"the colours are not understood ({error})"
        raise ContentError(
            [problem(file, None, message, "write them as tidewater's colours.yaml does")]
        ) from None


def _loader(folders: Sequence[Path]) -> BaseLoader:
    """Templates of the theme, then of those below it, which can be named too: ``tidewater/home.html``."""
    loaders = {folder.name: FileSystemLoader(folder / "templates") for folder in folders}
    return ChoiceLoader([*loaders.values(), PrefixLoader(loaders)])


class _CompiledTemplates(FileSystemBytecodeCache):
    """Compiled templates in a folder; one that cannot be written to, or is full, costs time only."""

    def load_bytecode(self, bucket: Bucket) -> None:
        with suppress(OSError):
            super().load_bytecode(bucket)

    def dump_bytecode(self, bucket: Bucket) -> None:
        with suppress(OSError):
            super().dump_bytecode(bucket)


def _with_addresses(style: bytes, assets: Mapping[str, Asset]) -> bytes:
    """A style sheet whose ``url("../fonts/x.woff2")`` names the file as it is called in the site."""

    def address(match: re.Match[bytes]) -> bytes:
        asset = assets.get(match[1].decode())
        return match[0] if asset is None else b'url("%s")' % asset.address.rpartition("/")[2].encode()

    return re.sub(rb'url\("\.\./((?:fonts|pictures)/[^"]+)"\)', address, style)


# A number or a range, with signs for thousands and decimals.
_FIGURE = re.compile(r"\d[\d–,.]*")


def leading_figure(text: str) -> tuple[str, str]:
    """The number or range that a text begins with, and what follows: ``8–12`` and `` reps``."""
    found = _FIGURE.match(text)
    return (found[0], text[found.end() :]) if found else ("", text)


# Comments that have their lines to themselves: one behind code may be part of a text.
_COMMENT_LINES = re.compile(rb"^[ \t]*(?:/\*(?:(?!\*/).)*\*/|//[^\n]*)[ \t]*\n", re.DOTALL | re.MULTILINE)


_INDENT = re.compile(rb"^[ \t]+", re.MULTILINE)


# Texts are left as they are: a sign in them is no sign of the code.
_IN_QUOTES = re.compile(rb"""("[^"\n]*"|'[^'\n]*')""")
_ROUND_SIGNS = re.compile(rb"\s*([{};,])\s*|(?<=:)[ \t]+")  # before ":" a space says "any inside"


def _tightened(name: str, code: bytes) -> bytes:
    """A script without comment lines and indentation; of a style also without the spaces round its signs."""
    bare = _INDENT.sub(b"", without_comments(code))
    if not name.endswith(".css"):
        return bare
    parts = _IN_QUOTES.split(bare)  # every other one stands in quotes and stays as it is
    return b"".join(
        part if index % 2 else _ROUND_SIGNS.sub(lambda found: found[1] or b"", part)
        for index, part in enumerate(parts)
    )


def without_comments(code: bytes) -> bytes:
    """A script or style without the comments that have lines of their own; no other line is touched."""
    return _COMMENT_LINES.sub(b"", code)


def plural(forms: str, count: float) -> str:
    """The form for a number: strings hold ``one|many``, with ``{n}`` for the number."""
    one, _, many = forms.partition("|")
    return (one if count == 1 or not many else many).format(n=f"{count:g}")


def _namespace(value: Any) -> Any:
    """Nested mappings as objects, so that a template names a string with dots."""
    if not isinstance(value, dict):
        return value
    # Keys that hold spaces or hyphens (words of the content) stay reachable by index.
    return _Strings({key: _namespace(inner) for key, inner in value.items()})


class _Strings(SimpleNamespace):
    """Strings by attribute, or by index for words with spaces."""

    def __init__(self, values: dict[str, Any]) -> None:
        super().__init__(**values)

    def __getitem__(self, key: str) -> Any:
        return self.__dict__[key]

    def get(self, key: str, default: Any = None) -> Any:
        return self.__dict__.get(key, default)
