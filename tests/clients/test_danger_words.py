"""Remarks that speak of danger are found, those that deny it are not, and they are shown first."""

from dataclasses import replace
from pathlib import Path

import pytest

from sitegen.cli import main
from sitegen.clients.danger_words import SignReader
from sitegen.model import Series
from tests.clients.logs import code_of, log_of, sitting, write_log
from tests.clients.test_next_steps import TWICE, rows, steps_of


@pytest.mark.parametrize(
    "text",
    [
        "saw stars after the press",
        "Got dizzy getting up",
        "a bit of diziness",
        "tight chest on the stairs",
        "Headache at the back of the head",
        "left hand numb, fingers tingling",
        "my heart was really racing",
        "heart stumbled twice",
        "everything went black",
        "nearly fainted",
        "the knee gives way",
        "fell over the chair",
        "Vision blurred for a moment",
        "I could not breathe",
        "pain in the calf",
        # what looks like a denial and is none
        "not well, dizzy",
        "No, dizzy",
        "went dizzy",
        "no pain until the last set",
        "not dizzy at first",
        "not without pain",
        "never had pain like this",
        "I do not know why I was dizzy",
        "no pain but dizzy",
    ],
)
def test_words_of_danger_are_found(demo_series: Series, text: str) -> None:
    assert SignReader(demo_series.details).signs(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "8, 8, 8",
        "no pain",
        "No pain or dizziness.",
        "not dizzy",
        "I didn’t feel dizzy, all good",
        "without any pain",
        "Neighbours complained about the hops.",
        "Fell asleep early, could not do more",
        "The buckle of the backpack broke",
        "painted the hall before",
        "Felt strong today",
    ],
)
def test_denials_and_other_remarks_are_left_alone(demo_series: Series, text: str) -> None:
    assert SignReader(demo_series.details).signs(text) == ()


def test_the_own_signs_of_a_series_are_found_in_any_language(demo_series: Series) -> None:
    details = replace(
        demo_series.details, language="de", call_if=("Druck in der Brust",), stop_if=("Schwindel",)
    )
    reader = SignReader(details)
    assert not reader.knows_language
    assert reader.signs("Ein Druck, links in der Brust") == ("druck in der brust",)
    assert reader.signs("etwas schwindelig") == ("schwindel",)
    assert reader.signs("Der Nachbar hat Druck gemacht") == ()


@pytest.mark.parametrize("day", ["2026-12-15", None])
def test_nothing_gets_harder_after_a_remark_of_danger(
    tmp_path: Path, demo_series: Series, day: str | None
) -> None:
    calm = steps_of(tmp_path, demo_series, rows(*TWICE, text="Went well, no pain."))
    assert calm["backpack-row"].proposal is not None
    sittings = rows(*TWICE) | {"ballast-1": _remark("saw stars after the press", day)}
    step = steps_of(tmp_path, demo_series, sittings)["backpack-row"]
    assert step.proposal is None
    assert "nothing gets harder before a session without" in step.why


def test_words_in_the_field_of_an_exercise_count_too(tmp_path: Path, demo_series: Series) -> None:
    written = rows(TWICE[0], ("2026-12-15", "8 kg", "12, 12, 12 dizzy", 6))
    assert "sign of danger" in steps_of(tmp_path, demo_series, written)["backpack-row"].why


def _remark(text: str, day: str | None) -> dict[str, object]:
    one = sitting(day or "2026-12-15", text=text)
    if day is None:
        del one["done"]
    return one


def test_they_are_shown_first(made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sittings = {
        "cast-off-1": sitting("2026-12-07", text="Neighbours complained."),
        "fair-lead-1": _remark("headache, saw stars after the press", None),
        "steady-pull-1": sitting("2026-12-14", pain="", text="knee, in the step-up"),
    }
    log = write_log(
        tmp_path / "log.json", log_of(code_of(made, "tobias-wren"), "2027-01-05T10:00:00.000Z", sittings)
    )
    content = ["--content", str(made / "content"), "--today", "2027-01-05"]
    assert main(["client", "tobias-wren", "--log", str(log), *content]) == 0
    told = " ".join(capsys.readouterr().out.split())
    first = "(no day) Fair lead: read this first (headache, saw stars); “headache, saw stars after the press”"
    assert told.index("come first") < told.index(first) < told.index("Remarks - 7 Dec 2026 Cast off")
    assert told.count("saw stars after") == 1
    assert "pain; where, the remark may say; “knee, in the step-up”" in told
    page = (made / "clients" / "came-back.html").read_text(encoding="utf-8")
    assert page.index("saw stars after") < page.index("Neighbours complained")


def test_a_session_done_before_its_day_is_not_due(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    done = {"cast-off-1": sitting("2026-12-02")}
    log = write_log(
        tmp_path / "log.json", log_of(code_of(made, "tobias-wren"), "2026-12-03T10:00:00.000Z", done)
    )
    content = ["--content", str(made / "content"), "--today", "2026-12-03"]
    assert main(["client", "tobias-wren", "--log", str(log), *content]) == 0
    told = capsys.readouterr().out
    assert "1 session done" in told
    assert "due" not in told
