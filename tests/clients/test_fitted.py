"""What a client's page and sheets say of what they are fitted to, with the advice of her needs."""

import re
from base64 import b64decode
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.clients.checks import check_client
from sitegen.clients.reading import read_file
from sitegen.model import Series
from sitegen.pages.client.client_plan import ClientPlan, client_plan
from sitegen.pages.client.fitted import fitted_in_full, fitted_to
from sitegen.pages.client.her_sessions import HerViews
from sitegen.pages.client.sheets import client_sheet, sheets_html
from sitegen.pages.episode import episode_address
from sitegen.pages.sheets.code import code_svg
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import markup
from tests.conftest import ROOT

UNKNOWN = "to any need: Robin Vale knows of none. Say what you must avoid before you begin."
CHAIR = "From a wheelchair, without the legs"
FITTED = [
    ("", ("Not fitted", UNKNOWN), ""),
    ("leave_out: [chair-dip]", ("Not fitted", UNKNOWN), "Left out: Chair dip."),
    ("needs: [wheelchair]", ("Fitted to", f"{CHAIR}."), ""),
    (
        "needs: [wheelchair, weak-grip]\navoids: [head low]\nkit: []",
        ("Fitted to", f"{CHAIR}; Weak grip; without: having the head low."),
        "without kit",
    ),
    ("avoids: [jumping]", ("Fitted to", "without: jumping."), ""),
    ("limits: {load: 4 kg}", ("Fitted to", "within your limits."), "at most: 4 kg in all hands together"),
    ("needs: [seated]\nkit: [wall]", ("Fitted to", "Whole session seated."), "with this kit only: Clear"),
]


def plan_of(tmp_path: Path, series: Series, text: str) -> ClientPlan:
    path = tmp_path / "ada.yaml"
    path.write_text(f"name: Ada\n{text}\n", encoding="utf-8")
    client, problems = read_file(path, series)
    assert client is not None, problems
    return client_plan(Site(series, {}, Theme(ROOT / "themes/tidewater", "en"), ""), series, client, "code")


@pytest.mark.parametrize(
    ("text", "sheet", "more"), FITTED, ids=[text or "a name only" for text, *_ in FITTED]
)
def test_it_is_said_what_a_plan_is_fitted_to(
    text: str, sheet: tuple[str, str], more: str, tmp_path: Path, demo_series: Series
) -> None:
    plan = plan_of(tmp_path, demo_series, text)
    assert fitted_to(plan) == sheet
    label, full = fitted_in_full(plan)
    assert label == sheet[0]
    assert more in full
    known = [one.check for one in check_client(demo_series, plan.client) if one.check == "client-unknown"]
    assert known == (["client-unknown"] if label == "Not fitted" else [])


@dataclass(frozen=True)
class Case:
    """A client, and what the sheet of session 1 has to say."""

    text: str
    advice: tuple[str, ...] = ()
    other_forms: bool = True


@pytest.mark.parametrize(
    "case",
    [
        Case("", other_forms=False),
        Case("needs: [wheelchair]", ("Lock both brakes",)),
        Case("needs: [arms-low, easy-knees]", ("Work only where it does not hurt", "use a higher seat")),
        Case("exchanges: {march-in-place: {exercise: hip-circles, dose: 20 s}}"),
    ],
    ids=["nothing known", "a need", "two needs", "an exchange"],
)
def test_a_sheet_has_the_advice_and_says_where_the_video_differs(
    case: Case, tmp_path: Path, demo_series: Series
) -> None:
    plan = plan_of(tmp_path, demo_series, case.text)
    session = plan.sessions[0]
    page = BeautifulSoup(str(sheets_html(plan)), "lxml").select_one(".sheet")
    assert page is not None
    advised = [one.get_text() for one in page.select(".sheet-advice")]
    assert len(advised) == len(case.advice)
    assert all(words in text for words, text in zip(case.advice, advised, strict=True))
    line = page.select_one(".sheet-others")
    assert line is not None
    assert ("The video shows other forms" in line.get_text()) == case.other_forms
    named = [item.instead for block in client_sheet(plan, session).blocks for item in block.items]
    others = [
        one.other_form for _, items in session.blocks if any(one.version for one in items) for one in items
    ]
    assert list(map(bool, named)) == others
    assert any(others) == case.other_forms
    # Her needs are in no address: whoever keeps the log of the web host would read them there.
    image = page.select_one(".sheet-code")
    assert image is not None
    address = plan.public.public(episode_address(session.filmed.slug))
    assert b64decode(str(image["src"]).partition(",")[2]) == code_svg(address)


KIT = [
    ("needs: [wheelchair]", False, True),
    ("needs: [wheelchair]\nkit: []", False, True),
    ("needs: [seated]", True, True),
    ("needs: [seated]\nkit: []", False, False),
]


@pytest.mark.parametrize(("text", "fetched", "breathes"), KIT, ids=[text for text, *_ in KIT])
def test_kit_that_is_there_with_a_need_is_used_and_not_fetched(
    text: str, fetched: bool, breathes: bool, tmp_path: Path, demo_series: Series
) -> None:
    """The breathing at the end of session 1 takes a chair."""
    plan = plan_of(tmp_path, demo_series, text)
    session = plan.sessions[0]
    [last] = [one for _, items in session.blocks for one in items if one.filmed.exercise == "slow-breathing"]
    assert (last.version is not None) == breathes
    kit = [piece.name for piece in client_sheet(plan, session).kit]
    assert any("chair" in name for name in kit) == fetched
    views = HerViews(plan, date(2026, 11, 26)).sessions()
    assert any("chair" in piece.name for piece in views[0].kit) == fetched


def test_her_page_begins_with_it(made: Path) -> None:
    for name, begins, advice in (
        ("imke-solheim", "Fitted to From a wheelchair", "Lock both brakes"),
        ("tobias-wren", "Not fitted to any need", ""),
    ):
        text = (made / "clients" / name / "galley-strength-plan.html").read_text()
        page = BeautifulSoup(text, "lxml")
        line = page.select_one("main > .fitted")
        assert line is not None
        assert re.sub(r"\s+", " ", line.get_text()).startswith(begins)
        cares = " ".join(one.get_text() for one in page.select("main > .care"))
        assert (advice in cares) if advice else "Lock both brakes" not in text


def test_the_note_of_a_form_stands_with_it(tmp_path: Path, demo_series: Series) -> None:
    plan = plan_of(tmp_path, demo_series, "needs: [wheelchair]")
    page, sheets = (
        HerViews(plan, date(2026, 11, 27)).sessions(),
        BeautifulSoup(str(sheets_html(plan)), "lxml"),
    )
    noted = 0

    for session, view, sheet in zip(plan.sessions, page, sheets.select(".sheet"), strict=True):
        asked = [one for _, items in session.blocks for one in items]
        shown = [item for block in view.blocks for item in block.items]
        for one, item in zip(asked, shown, strict=True):
            if one.version is not None and one.version.form.note:
                noted += 1
                assert item.form_note.striptags() == markup(one.version.form.note).striptags()
                assert item.form_note.striptags() in [part.get_text() for part in sheet.select(".part.note")]
    assert noted > 10


def test_the_summary_stands_where_a_form_has_no_cue(tmp_path: Path, demo_series: Series) -> None:
    bare = {one.id: replace(one, cues=()) for one in demo_series.exercises.values()}
    plan = plan_of(tmp_path, replace(demo_series, exercises=bare), "")
    session = plan.sessions[0]
    summaries = [
        markup(bare[one.asked.exercise].summary)
        for _, items in session.blocks
        for one in items
        if one.version and not one.asked.variant
    ]
    view = HerViews(plan, date(2026, 11, 27)).sessions()[0]
    sheet = client_sheet(plan, session)

    assert summaries
    assert set(summaries) <= {cue for block in view.blocks for item in block.items for cue in item.cues}
    assert set(summaries) <= {item.cue for block in sheet.blocks for item in block.items}


def test_a_session_without_a_video_speaks_of_none(tmp_path: Path, demo_series: Series) -> None:
    sessions = (replace(one, video=None) for one in demo_series.episodes)
    plan = plan_of(tmp_path, replace(demo_series, episodes=tuple(sessions)), "needs: [wheelchair]")
    sheet = client_sheet(plan, plan.sessions[0])
    session = HerViews(plan, date(2027, 3, 1)).sessions()[0]

    assert sheet.way_back == "Its page is"
    assert "The session's page shows other forms" in sheet.others
    assert {one.filmed.partition(" it is ")[0] for block in session.blocks for one in block.items} == {
        "",
        "As planned",
    }
