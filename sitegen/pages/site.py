"""What every page is made with: the series, its study, the theme. What is looked up is noted."""

from collections.abc import Mapping, MutableMapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sitegen.model import Episode, Exercise, Series
from sitegen.pages.page import Gateway, fingerprint
from sitegen.pages.phrases import Phrases
from sitegen.pages.theme import Theme
from sitegen.pages.theme_faults import template_fault
from sitegen.reading.captions.cues import Cue
from sitegen.reading.picture_size import picture_size
from sitegen.study.body.moments import PoseBurden
from sitegen.study.forms import FormKey, FormShelf, forms_of
from sitegen.study.posed_forms import PosedForms
from sitegen.study.suitability import Suitability
from sitegen.study.timing import SessionTime, session_time
from sitegen.system.noted_reads import note, unrecorded

if TYPE_CHECKING:
    from sitegen.pages.facts import Facts


LOGO_WIDTH, LOGO_HEIGHT = 240, 44
"""The room for a logo at the top of a page, in CSS pixels: beside the menu's button on a phone of 360."""


@dataclass(frozen=True, slots=True)
class OwnPicture:
    """A picture of the trainer's as pages show it."""

    address: str
    alt: str
    width: int
    height: int
    dark: str = ""
    """Address of the one for dark screens; empty for the same."""
    held: str = ""
    """An address that holds the picture itself, where it is small; empty for one that has to be asked for."""
    dark_held: str = ""
    """The same of the one for dark screens."""


@dataclass(frozen=True, slots=True)
class NavEntry:
    """A link of the menu."""

    address: str
    label: str


class Site(Gateway):
    """The series with its theme: looks up and renders; holds no page's own logic.

    Every look at what may change is noted (``system/noted_reads.py``); ``pages/inputs.py`` lists the names.
    """

    def __init__(
        self,
        series: Series,
        cues: Mapping[str, tuple[Cue, ...]],
        theme: Theme,
        code: str,
        *,
        pictures: bool = False,
        asked: MutableMapping[str, PoseBurden] | None = None,
    ) -> None:
        """``asked`` holds what poses ask of the joints (``PosedForms``), from earlier builds too."""
        self.series = series
        self._asked = asked
        self.posters: Mapping[str, Path] = {}
        """Pictures made from videos of sessions that have neither poster nor figures, by file, and the small
        photograph; set once the facts are worked out, which say who has figures."""
        self.pictures = pictures
        """Whether pictures for links are made."""
        self.details = series.details
        with unrecorded():
            self.exercises = series.exercises
        """By id. Looking one up is no look at the list of them, which ``series.exercises`` is."""
        self.cues = cues
        self.theme = theme
        self.phrases = Phrases(theme.strings, series.details.kit)
        self.key = fingerprint(
            code,
            pictures,
            theme.digest,
            *(
                digest
                for file, digest in series.digests.items()
                if series.in_its_folder(file) == "series.yaml"
            ),
        )
        """What every page is made from and nobody notes: program, libraries, theme, series.yaml (and that of
        a shared library)."""
        self._media = _media_addresses(series)
        self.facts: Facts
        """Small answers about every episode; set once they are worked out."""

    # --- looking up ------------------------------------------------------------------------

    @cached_property
    def forms(self) -> FormShelf:
        """Every form of every exercise."""
        with unrecorded():  # whoever looks at a form notes it
            return forms_of(self.series.exercises)

    @cached_property
    def suitability(self) -> Suitability:
        """Answers who can do what."""
        with unrecorded():  # the same, and whoever asks for the forms around one
            return Suitability(self.details, self.forms, self.posed)

    @cached_property
    def posed(self) -> PosedForms:
        """What the poses of forms come to; each look at a form's poses is noted."""
        return PosedForms(self._asked)

    def place_all(self) -> None:
        """Work out every form's poses now, so that processes started later need not do it again each."""
        with unrecorded():
            self.posed.work_out(self.forms.values())

    def keep_from(self, before: "Site") -> None:
        """Use again what an earlier site worked out from the same exercises and needs."""
        if before.exercises is self.exercises and before.details is self.details:
            self.__dict__ |= {
                name: before.__dict__[name]
                for name in ("forms", "posed", "suitability")
                if name in before.__dict__
            }

    def exercise(self, exercise_id: str) -> Exercise:
        """The exercise with that id."""
        return self.exercises[exercise_id]

    def media(self, file: str) -> str:
        """Address of a content file that is copied into the site."""
        note(f"media {file}")
        return self._media[file]

    @property
    def media_files(self) -> Mapping[str, str]:
        """Addresses by file of all media."""
        return self._media

    def made_poster(self, episode: Episode) -> str:
        """Address of the poster made from an episode's video; empty where there is none."""
        video = (episode.video.file if episode.video else None) or ""
        return "" if episode.poster is not None or not video else self.poster_of(video)

    def poster_of(self, video: str) -> str:
        """Address of the poster made from a video file; empty where there is none."""
        note(f"poster {video}")
        place = self.posters.get(video)
        return f"media/{place.name}" if place else ""

    def logo(self) -> OwnPicture | None:
        """The trainer's sign at the top of every page; None for the series' title."""
        logo = self.details.look.logo
        if logo is None:
            return None
        width, height = self.series.sizes[logo.file]
        scale = min(LOGO_WIDTH / width, LOGO_HEIGHT / height)
        width, height = max(1, round(width * scale)), max(1, round(height * scale))
        dark = self.media(logo.dark) if logo.dark else ""
        held = self.series.held_in_pages
        return OwnPicture(
            address=self.media(logo.file),
            alt=logo.alt,
            width=width,
            height=height,
            dark=dark,
            held=held.get(logo.file, ""),
            dark_held=held.get(logo.dark, ""),
        )

    def photo(self) -> OwnPicture | None:
        """The trainer's photograph, if there is one: made small where ffmpeg is there for it."""
        photo = self.details.trainer.photo
        if photo is None:
            return None
        if made := self.poster_of(photo.file):
            size = picture_size(self.posters[photo.file].read_bytes())
        else:
            made, size = self.media(photo.file), self.series.sizes[photo.file]
        width, height = size or self.series.sizes[photo.file]
        return OwnPicture(made, photo.alt, width, height)

    def form(self, exercise: str, variant: str | None) -> Any:
        """A form of an exercise."""
        return self.forms[FormKey(exercise, variant)]

    def time_of(self, episode: Episode) -> SessionTime:
        """How long an episode takes."""
        return session_time(self.details, self.forms, episode)

    # --- rendering -------------------------------------------------------------------------

    @cached_property
    def nav(self) -> tuple[NavEntry, ...]:
        """The menu: five entries at most, so that it is one line on a wide screen and short on a phone."""
        words = self.theme.strings.nav
        entries = [NavEntry("index.html", words.episodes), NavEntry("exercises/index.html", words.exercises)]
        if self.details.needs:
            entries.append(NavEntry("needs/index.html", words.needs))
        entries += [
            NavEntry("schedule/index.html", words.schedule),
            NavEntry("about/index.html", words.about),
        ]
        return tuple(entries)

    @cached_property
    def _assets(self) -> dict[str, str]:
        return {name: asset.address for name, asset in self.theme.assets.items()}

    def render(self, template: str, address: str, **data: Any) -> bytes:
        """A page of the site from a template of the theme. Raises ContentError for a fault of the template.

        Templates get ``root`` (the way back to the site's root, so that the site works in any
        folder), ``site``, ``nav``, ``assets`` and the page's own data.
        """
        context = self.context(address, **data)
        try:
            return self.theme.environment.get_template(template).render(context).encode()
        except Exception as error:
            fault = template_fault(error, self.theme.files.folders)
            if fault is None:
                raise
            raise fault from error

    def context(self, address: str, **data: Any) -> dict[str, Any]:
        """What a template is given for a page."""
        return {
            "root": "../" * address.count("/"),
            "address": address,
            "canonical": self.public(address),
            "site": self.details,
            "language": self.details.language,
            "direction": self._direction,
            "nav": self.nav,
            "assets": self._assets,
            "logo": self.logo(),
            "colours": self.theme.palette.colours,
            "picture": "picture.png" if self.pictures else "",
        } | data

    @cached_property
    def _direction(self) -> str:
        """``rtl`` where the theme has strings in the series' language and that is written from right to left;
        in English words such names are set apart one by one (styles/site.css)."""
        language, written = self.details.language, self.theme.language
        return "rtl" if written.split("-")[0] == language.split("-")[0] and is_rtl(written) else ""

    def public(self, address: str) -> str:
        """The absolute address where a page is published."""
        return self.details.address + address.removesuffix("index.html")


_FROM_THE_RIGHT = frozenset(("ar", "arc", "ckb", "dv", "fa", "he", "ps", "sd", "syr", "ug", "ur", "yi"))
"""Languages usually written in a script that runs from right to left (Unicode CLDR; from memory)."""
_SCRIPTS_FROM_THE_RIGHT = frozenset(("adlm", "arab", "hebr", "nkoo", "rohg", "syrc", "thaa"))
"""The same of scripts, for a tag that names one, such as ``az-Arab`` (BCP 47; from memory)."""


def is_rtl(language: str) -> bool:
    """Whether a language tag says that the text runs from right to left."""
    first, *others = language.lower().split("-")
    scripts = [part for part in others if len(part) == _LETTERS_OF_A_SCRIPT and part.isalpha()]
    return scripts[0] in _SCRIPTS_FROM_THE_RIGHT if scripts else first in _FROM_THE_RIGHT


_LETTERS_OF_A_SCRIPT = 4
"""ISO 15924."""


def _media_addresses(series: Series) -> dict[str, str]:
    """Media keep their name and gain a part of their fingerprint: a changed file is a new address."""
    addresses = {}
    for file, digest in series.digests.items():
        folder, _, name = series.in_its_folder(file).rpartition("/")
        if folder.split("/")[0] not in ("exercises", "routines", "episodes", "pages", "captions") and folder:
            stem, _, ending = name.rpartition(".")
            addresses[file] = f"media/{stem}.{digest[:10]}.{ending}"
    return addresses
