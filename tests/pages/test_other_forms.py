"""The line beside an exercise of a session names whoever does it in another form than filmed."""

import re
from collections.abc import Sequence
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from sitegen.model import Episode, Series
from sitegen.pages.exercises.by_need import episode_decisions
from sitegen.pages.other_forms import other_forms
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import BlockView, Views
from sitegen.reading.reader import read_content
from sitegen.study.forms import shown_form
from tests.checks.library_folder import LibraryFolder
from tests.conftest import ROOT
from tests.sheet_views import line_for

PLAIN_TO_SEE = {"no-jumping", "no-kneeling", "no-floor", "seated", "wheelchair"}
"""Needs of somebody who cannot do what the drawing shows: stand, jump, kneel, get to the floor."""
WORDS = {
    "arms-low": ("sore shoulder",),
    "easy-knees": ("sore knee",),
    "easy-wrists": ("sore wrist",),
    "thin-bones": ("osteoporosis",),
    "touchy-disc": ("back pain", "bad disc"),
    "weak-grip": ("weak grip",),
    "steady-feet": ("unsure balance",),
    "no-straining": ("blood pressure", "hernia"),
}
"""How the other needs are named, in the trainer's words or in the program's."""


def site_of(series: Series) -> Site:
    return Site(series, {}, Theme(ROOT / "themes/tidewater", "en"), "")


def test_everybody_whom_the_choice_sends_elsewhere_is_named(demo_series: Series) -> None:
    site = site_of(demo_series)
    views, needs = Views(site), list(demo_series.details.needs)
    assert set(needs) == PLAIN_TO_SEE | set(WORDS)

    silent = [
        (episode.number, item.form.name, need)
        for episode in demo_series.episodes
        for item, decided in zip(
            [item for block in _blocks(site, views, episode) for item in block.items],
            _decisions(site, episode),
            strict=True,
        )
        for need, as_filmed in zip(needs, decided, strict=True)
        if need in WORDS and not as_filmed
        if not any(word in _shown(item.form.cautions, item.others).lower() for word in WORDS[need])
    ]
    assert silent == []


def _blocks(site: Site, views: Views, episode: Episode) -> tuple[BlockView, ...]:
    return views.blocks(episode, other_forms(site, episode, site.suitability.for_each_need(episode)))


def _shown(cautions: Sequence[object], others: str) -> str:
    return " ".join([*(getattr(caution, "short", "") for caution in cautions), others])


def _decisions(site: Site, episode: Episode) -> list[list[bool]]:
    """For each item, and for each need, whether its exercise's page says "as filmed"."""
    items = [item for block in episode.blocks for item in block.items]
    decided = iter(episode_decisions(site, episode, site.suitability.for_each_need(episode)))
    found = []
    for item in items:
        by_need = next(decided)[1]
        if shown_form(site.forms, item).exercise != item.exercise:
            next(decided)  # the same, told for the other exercise that it shows
        found.append([one.as_filmed for one in by_need])
    return found


NEEDS = """needs:
  low: {name: Low arms, avoids: [arms overhead]}
  calm: {name: Calm pace, avoids: [speed]}
  grip: {name: Weak grip, also: [tired hands], avoids: [grip]}
  chair: {name: From a chair, avoids: [standing]}
  easy: {name: Easy does it, avoids: [head low], limits: {max_sets: no}}
"""
LOW = "  - {id: low, name: Low reach, change: regression, demands: [standing]}\n"
SLOW = "  - {id: slow, name: Slow reach, change: regression, demands: [standing, arms overhead, grip]}\n"


@pytest.mark.parametrize(
    ("exercise", "dose", "line"),
    [
        ("demands: [standing]", "8", ""),
        ("demands: [standing]", "max", "Gentler for: Easy does it."),
        (f"demands: [standing, arms overhead]\nvariants:\n{LOW}", "8", "Low arms: Low reach."),
        (
            f"demands: [standing, arms overhead, grip]\nvariants:\n{LOW}",
            "8",
            "Low arms, Weak grip: Low reach.",
        ),
        (
            f"demands: [standing, arms overhead, speed, grip]\nvariants:\n{SLOW}{LOW}",
            "8",
            "Low arms, Weak grip: Low reach. Calm pace: Slow reach.",
        ),
        (
            f"demands: [standing, arms overhead, grip]\nvariants:\n{LOW}"
            "cautions: [{text: 'Tired hands: reach low.'}]",
            "8",
            "Low arms: Low reach.",
        ),
        (
            f"demands: [standing, arms overhead]\nvariants:\n{LOW}"
            "cautions: [{text: 'With low arms take the low reach.'}]",
            "8",
            "",
        ),
        (
            "demands: [standing, arms overhead]\nvariants:\n"
            "  - {id: low, name: Low arms reach, change: regression, demands: [standing]}\n"
            "cautions: [{text: 'If sore take the low arms reach.'}]",
            "8",
            "Low arms: Low arms reach.",
        ),
        ("demands: [arms overhead]", "8", "Not for: Low arms."),
        ("demands: [standing, jumping]\nvariants:\n" + LOW, "8", ""),
    ],
    ids=[
        "everybody as filmed",
        "less of the same",
        "one form",
        "one form for two",
        "two forms",
        "named by a caution already",
        "named beside the form",
        "only the form is named",
        "no form fits",
        "nobody avoids it",
    ],
)
def test_the_line(tmp_path: Path, exercise: str, dose: str, line: str) -> None:
    library = LibraryFolder(tmp_path)
    library.exercise("reach", exercise)
    library.use("reach", dose=dose)
    text = (library.root / "series.yaml").read_text()
    library.write("series.yaml", re.sub(r"needs:\n(?:  .*\n)+", NEEDS, text))
    series = read_content(library.root).series
    assert series is not None

    [episode] = [one for one in series.episodes if one.number == 2]
    site = site_of(series)
    assert other_forms(site, episode, site.suitability.for_each_need(episode)) == [(line,)]


def test_of_what_a_form_does_without_the_four_are_told_that_most_needs_avoid(demo_series: Series) -> None:
    spared = (
        "head low",
        "speed",
        "jumping",
        "weight on the wrists",
        "getting to the floor",
        "deep knee bend",
    )

    views = Views(site_of(demo_series))
    assert views.spared_words(spared) == views.demand_words(
        ("head low", "jumping", "getting to the floor", "deep knee bend")
    )
    assert len(views.demand_words(spared)) == 6


def test_a_sheet_says_below_its_head_who_must_not_train_from_it_as_filmed(
    demo_site: Path, demo_series: Series
) -> None:
    """The line of one session, on its every print; that it is complete is tried with all of them."""
    site = site_of(demo_series)
    for episode in demo_series.episodes[::7]:
        line = f"As filmed {line_for(site, episode)}"
        for kind in ("", "large/", "weeks/"):
            page = BeautifulSoup(
                (demo_site / f"episodes/{episode.slug}/sheet/{kind}index.html").read_bytes(), "lxml"
            )
            head = page.select_one(".sheet-top")
            assert head is not None
            below = head.find_next_sibling()
            assert isinstance(below, Tag)
            assert below.get_text() == line, (episode.slug, kind)


OWN = " Print your own from the session's page."
EXCEPT = "Do not use it with any need that the site names, except: "


def test_the_line_of_a_sheet_leaves_nobody_out(demo_series: Series) -> None:
    """Everybody with whom the session's own choice changes anything is told so, in one way or the other."""
    site = site_of(demo_series)
    names = {need.name for need in demo_series.details.needs.values()}
    for episode in demo_series.episodes:
        changed = {
            demo_series.details.needs[need].name
            for need, session in site.suitability.for_each_need(episode).items()
            if any(version is None or not version.as_filmed for block in session for version in block)
        }
        line = line_for(site, episode).removesuffix(OWN)
        if line.startswith(EXCEPT):
            assert set(line.removeprefix(EXCEPT).removesuffix(".").split(", ")) == names - changed
        else:
            assert changed == names, episode.number
            assert line == "Do not use it with any need that the site names."


ARMS = "  low: {name: Low arms, avoids: [arms overhead]}\n"
HOPS = "  still: {name: No jumping, avoids: [jumping]}\n"
CHAIR = "  chair: {name: From a chair, avoids: [standing]}\n"
LIGHT = "  light: {name: Light loads, avoids: [], limits: {max_sets: no}}\n"
CALM = "  calm: {name: Calm pace, avoids: [], limits: {speed: no}}\n"
SHORT = "  short: {name: Short of time, avoids: [], limits: {session: 2 min}}\n"
STANDS = "demands: [standing]"


@pytest.mark.parametrize(
    ("needs", "exercise", "dose", "line"),
    [
        (ARMS + HOPS, STANDS, "8", ""),
        (ARMS + HOPS + CHAIR, STANDS, "8", "Do not use it with: From a chair."),
        (ARMS + CHAIR, "demands: [standing, jumping]", "8", "Do not use it with: From a chair."),
        (
            ARMS + HOPS + CHAIR,
            "demands: [standing, jumping]",
            "8",
            f"{EXCEPT}Low arms.",
        ),
        (HOPS, "demands: [jumping]", "8", "Do not use it with any need that the site names."),
        (ARMS + LIGHT, STANDS, "max", "Do not use it with: Light loads."),
        (ARMS + CALM, STANDS, "amrap", "Do not use it with: Calm pace."),
        (ARMS + SHORT, STANDS, "300 s", "Do not use it with: Short of time."),
        (ARMS + SHORT, STANDS, "30 s", ""),
    ],
    ids=[
        "everybody as filmed",
        "one",
        "half of them",
        "most",
        "all",
        "a limit of amounts alone",
        "nothing but the clock",
        "nothing but the length",
        "short enough",
    ],
)
def test_the_line_of_a_sheet(tmp_path: Path, needs: str, exercise: str, dose: str, line: str) -> None:
    library = LibraryFolder(tmp_path)
    library.exercise("reach", exercise)
    library.use("reach", dose=dose.replace("amrap", "8"))
    library.edit("episodes/02-more.yaml", "at: 0:10\n", "at: 0:10\n    your_turn: 0:20\n")
    if dose == "amrap":
        library.edit("episodes/02-more.yaml", "straight sets", "amrap\n    time: 6 min")
    text = (library.root / "series.yaml").read_text()
    library.write("series.yaml", re.sub(r"needs:\n(?:  .*\n)+", f"needs:\n{needs}", text))
    series = read_content(library.root).series
    assert series is not None

    [episode] = [one for one in series.episodes if one.number == 2]
    assert line_for(site_of(series), episode) == (line + OWN if line else "")
