"""What came back: logs are read strictly, merged without double counting, and shown with pain first."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from sitegen.cli import main
from sitegen.clients.log_numbers import counts_of, kilograms, load_of
from sitegen.clients.log_reading import read_log
from sitegen.clients.untrusted_json import NotAccepted
from sitegen.model import Series
from sitegen.notation import Load
from tests.browser.audit import violations
from tests.clients.logs import INVENTED, ROW, SQUAT, TESTS, broken, code_of, log_of, nora, sitting, write_log
from tests.conftest import fresh_tab

SAVED = "2027-01-05T10:00:00.000Z"


@pytest.fixture(scope="module")
def logs(made: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with one log of each invented client."""
    folder = tmp_path_factory.mktemp("logs")
    for name, sittings in INVENTED.items():
        write_log(
            folder / f"{name}.json", log_of(code_of(made, name), SAVED, sittings(), tests=TESTS.get(name, []))
        )
    return folder


def shown(made: Path, *words: str) -> int:
    return main(["client", *words, "--content", str(made / "content"), "--today", "2027-01-05"])


@pytest.fixture(scope="module")
def page(made: Path, logs: Path) -> Path:
    """The trainer's page of all three."""
    assert shown(made, "--log", str(logs)) == 0
    return made / "clients" / "came-back.html"


# --- reading ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("8, 8, 7", (8, 8, 7)),
        ("8,8,7", (8, 8, 7)),
        ("8/8/7", (8, 8, 7)),
        ("8 8 7", (8, 8, 7)),
        ("8 and 7", (8, 7)),
        ("3x8", (8, 8, 8)),
        ("3 × 10", (10, 10, 10)),
        ("10 each side", (10,)),
        ("30 s, 25 s", (30, 25)),
        ("12 reps", (12,)),
        ("", ()),
        ("8 or 9", ()),
        ("many", ()),
        ("1000", ()),
        ("99x8", ()),
        ("8.5", ()),
        # a range as well as a list, a decimal comma as well as one between two numbers, one set in two parts
        ("8-12", ()),
        ("8 - 8 - 7", ()),
        ("12,5", ()),
        ("12, 5", (12, 5)),
        ("1,000", ()),
        ("1,000,000", ()),
        ("8 + 7", ()),
        # sets and repetitions, where it can be told which is which
        ("3 times 8", (8, 8, 8)),
        ("8 times", (8,)),
        ("5 x 5", (5, 5, 5, 5, 5)),
        ("20 x 3", ()),
        ("30s, 25s", (30, 25)),
        ("8 reps, 30 s", ()),
        ("٨", ()),
        ("3x٨", ()),
    ],
)
def test_counts_are_read_or_left_alone(text: str, counts: tuple[int, ...]) -> None:
    assert counts_of(text) == counts


@pytest.mark.parametrize(
    ("text", "measure", "counts"),
    [
        ("30 s", "seconds", (30,)),
        ("30 s", "reps", ()),
        ("30 steps", "m", ()),
        ("30", "reps", (30,)),
        ("12 reps", "seconds", ()),
    ],
)
def test_what_is_counted_is_what_was_asked_for(text: str, measure: str, counts: tuple[int, ...]) -> None:
    assert counts_of(text, measure) == counts


@pytest.mark.parametrize(
    ("text", "asked", "kg"),
    [
        ("4 kg", None, 4.0),
        ("4,5kg", None, 4.5),
        ("2 x 400 g", None, 0.8),
        ("4 l", "5 l water", 3.993),
        ("4 l", None, None),
        ("4 l", "5 l water + 3 l sand", None),
        ("4", "5 kg", None),
        ("1,000 g", "1 kg", None),
        ("1.500 g", "1 kg", None),
        ("1,000 kg", None, None),
        ("0,125 kg", None, 0.125),
        ("1.125 kg", None, 1.125),
        ("two tins", None, None),
        ("", "5 kg", None),
    ],
)
def test_loads_are_read_or_left_alone(text: str, asked: str | None, kg: float | None) -> None:
    found = kilograms(load_of(text, Load.parse(asked) if asked else None))
    assert found == (None if kg is None else pytest.approx(kg, abs=0.001))


def refusal(tmp_path: Path, series: Series, data: Any) -> str:
    path = tmp_path / "log.json"
    path.write_bytes(data if isinstance(data, bytes) else json.dumps(data).encode())
    with pytest.raises(NotAccepted) as why:
        read_log(path, series)
    return str(why.value)


CODE = "0123456789abcdef"


def with_sitting(**one: Any) -> dict[str, Any]:
    return log_of(CODE, SAVED, {"cast-off-1": {"v": 1, **one}})


REFUSED = [
    (b"", "it is empty"),
    (b"x" * 2_000_001, "it has more than 2 MB, which no log has"),
    (b'{"what":', "it is damaged at line 1, column 9"),
    (b"\xff{}", "byte 1 is not UTF-8 text"),
    (b"[" * 100_000, "it is nested too deep"),
    (b"[" * 20 + b"]" * 20, "it is nested too deep"),
    (b"<html>", "it is damaged at line 1, column 1"),
    (b"[]", "it is no log: neither a client's page nor the site has saved it"),
    (b'{"what": 1, "what": 2}', "the name 'what' stands there twice"),
    (b'{"v": NaN}', "NaN is not a number of JSON"),
    (b'{"v": 1000000000000000}', "a number has 16 digits"),
    (log_of(CODE, SAVED, {}, version=3), "it is of version 3, newer than this program"),
    (log_of("x", SAVED, {}), "for: 'x' is not the code of a plan"),
    (log_of(CODE, "now", {}), "saved: 'now' is not a moment"),
    (log_of(CODE, "2026-02-31", {}), "saved: '2026-02-31' is not a moment"),
    (log_of(CODE, "9999-99-99T99:99:99Z", {}), "saved: '9999-99-99T99:99:99Z' is not a moment"),
    (log_of(CODE, "9999-12-31T24:00:00Z", {}), "saved: '9999-12-31T24:00:00Z' is not a moment"),
    (log_of(CODE, "٢٠٢٦-٠١-٠١", {}), "is not a moment"),
    (with_sitting(changed="2026-12-01T10:60:00Z"), "changed: '2026-12-01T10:60:00Z' is not a moment"),
    (with_sitting(done="٢٠٢٦-١٢-٠١"), "is not a date"),
    (log_of(CODE, SAVED, {"cast-off-1٢": {}}), "it is not a session and which time of it"),
    (log_of(CODE, SAVED, {}, more=1), "'more' is not known in such a file"),
    (log_of(CODE, SAVED, {"cast-off": {}}), "sittings > cast-off: it is not a session and which time of it"),
    (with_sitting(v=None), "sittings > cast-off-1 > v: it is not a whole number"),
    (with_sitting(effort=11), "sittings > cast-off-1 > effort: 11 is not between 0 and 10"),
    (with_sitting(effort=True), "effort: it is not a whole number"),
    (with_sitting(done="2026-02-30"), "done: '2026-02-30' is not a date"),
    (with_sitting(text="a" * 2001), "text: it is longer than 2000 characters"),
    (with_sitting(text=["a"]), "text: it is not a text"),
    (with_sitting(text="fine\x1b[2J"), "a text holds a control character (U+001B) after 'fine'"),
    (with_sitting(text="a\u202eb"), "a text holds a control character (U+202E) after 'a'"),
    (with_sitting(text="a\u2028b"), "a text holds a control character (U+2028) after 'a'"),
    (with_sitting(text="a\U000e0041"), "a text holds a control character (U+E0041) after 'a'"),
    (b'{"v": 1e999}', "'1e999' is too large a number"),
    (with_sitting(text="\ud83d"), "a text holds half a character (U+D83D)"),
    (with_sitting(items={"../up": {}}), "items > '../up': it is not the id of an exercise"),
    (with_sitting(items={"row": {"reps": 8}}), "items > row > reps: it is not a text"),
    (log_of(CODE, SAVED, {}, tests=[{"test": "plank", "day": "2026-12-01", "result": 3}]), "tests > 1 > test: 'plank' is not a field test"),
]  # fmt: skip


@pytest.mark.parametrize(("data", "line"), REFUSED, ids=[line[:40] for _, line in REFUSED])
def test_a_hostile_file_is_refused_with_one_clear_line(
    data: Any, line: str, tmp_path: Path, demo_series: Series
) -> None:
    said = refusal(tmp_path, demo_series, data)
    assert line in said
    assert "\n" not in said
    assert said.isprintable()


@pytest.mark.parametrize(
    "text",
    ["\u200fכואב\u200f", "\u061cألم", "می\u200cخواهم", "\U0001f3f4\U000e0067\U000e0062\U000e0077\U000e006c\U000e0073\U000e007f"],
    ids=["Hebrew", "Arabic", "Persian", "flag of Wales"],
)  # fmt: skip
def test_what_people_write_is_read(text: str, tmp_path: Path, demo_series: Series) -> None:
    path = write_log(tmp_path / "log.json", with_sitting(text=text))
    assert read_log(path, demo_series).sittings[0].text == text


def test_a_name_may_be_as_long_as_the_file_of_an_exercise_and_the_id_of_its_variant(
    tmp_path: Path, demo_series: Series
) -> None:
    """Whatever the trainer's own pages write into a log is read again."""
    longest = f"{'a' * 250}/{'b' * 80}"
    (tmp_path / "log.json").write_text(json.dumps(with_sitting(items={longest: {"reps": "8"}})))
    log = read_log(tmp_path / "log.json", demo_series)
    assert longest in log.sittings[0].items


def test_damaged_files_never_fail_otherwise(tmp_path: Path, demo_series: Series) -> None:
    """A sample; ``python -m tests.bench logs`` takes 300 and more."""
    for name, data in broken(CODE, 35):
        (tmp_path / "log.json").write_bytes(data)
        with pytest.raises(NotAccepted) as why:
            read_log(tmp_path / "log.json", demo_series)
        assert str(why.value).isprintable(), name


def test_a_log_of_the_first_version_is_read(tmp_path: Path, demo_series: Series) -> None:
    """It has no effort of single exercises, and no field tests."""
    data = log_of(
        CODE, SAVED, {"cast-off-1": sitting("2026-12-01", 5, items={ROW: ("4 kg", "8")})}, version=1
    )
    log = read_log(write_log(tmp_path / "log.json", data), demo_series)
    assert log.sittings[0].done == date(2026, 12, 1)
    assert log.sittings[0].items[ROW].effort is None


def test_the_progress_file_of_the_public_site_is_read(tmp_path: Path, demo_series: Series) -> None:
    """The n-th whole day of the panel is the n-th time, unless a tick says otherwise; ids are those of the
    site."""
    turn = {"done": ["a", "b"], "need": 2, "at": 3, "clock": {"until": 5}, "seen": 12}
    whole = {"of": 1, "turns": {"first-tri-set": turn}}
    half = {"of": 1, "turns": {"first-tri-set": turn | {"need": 3}}}
    days = {"2026-12-01": whole, "2026-12-03": half, "2026-12-05": whole}
    data = {
        "what": "progress of a series",
        "v": 1,
        "series": demo_series.details.address,
        "saved": "2026-12-20",
        "entries": {
            "steady-pull-1": {"v": 1, "done": "2026-12-08", "text": "", "items": {ROW: {"load": "6 kg", "reps": "8"}}},
            "cast-off-2": {"v": 1, "done": False, "items": {}},
        },
        "days": {"cast-off": {"v": 1, "days": days}, "lee-shore": {"v": 1, "days": {"2026-12-09": {"of": 0, "watched": True, "turns": {}}}}},
        "plan": {"start": "2026-12-01", "days": ["monday"], "per_week": None},
    }  # fmt: skip
    log = read_log(write_log(tmp_path / "progress.json", data), demo_series)
    assert {one.key: str(one.done) for one in log.sittings} == {
        "steady-pull-1": "2026-12-08",
        "cast-off-1": "2026-12-01",
        "cast-off-2": "None",
        "lee-shore-1": "2026-12-09",
    }
    assert log.code == ""
    assert "of another series" in refusal(tmp_path, demo_series, data | {"series": "https://other.example/"})


# --- whose it is, and merging ------------------------------------------------------------------


def test_a_log_of_somebody_else_is_not_read(
    made: Path, logs: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    strange = write_log(tmp_path / "strange.json", log_of(CODE, SAVED, {}))
    files = [
        str(logs / "nora-quayle.json"),
        str(logs / "tobias-wren.json"),
        str(strange),
        str(tmp_path / "no.json"),
    ]
    assert shown(made, "tobias-wren", "--log", *files) == 1
    told = capsys.readouterr()
    assert "'nora-quayle.json': it is the log of nora-quayle, not of tobias-wren" in told.err
    assert "'strange.json': it is of a plan that is not in this folder of clients" in told.err
    assert "'no.json': it cannot be read (No such file or directory)" in told.err
    assert "Tobias (tobias-wren): 6 of 12 sessions done" in told.out  # the others are read all the same
    assert "Nora" not in told.out


def test_overlapping_logs_count_once_and_the_latest_word_holds(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Pain that only the earlier file tells of is shown all the same."""
    code, sittings = code_of(made, "nora-quayle"), nora()
    first = log_of(
        code, "2026-12-05T10:00:00.000Z", {key: sittings[key] for key in ("cast-off-1", "cast-off-2")}
    )
    corrected = {**sittings["cast-off-2"], "changed": "2026-12-09T10:00:00.000Z", "done": "2026-12-05"}
    del corrected["pain"]
    second = log_of(code, SAVED, {"cast-off-2": corrected, "fair-lead-1": sittings["fair-lead-1"]})
    files = [write_log(tmp_path / "b.json", first), write_log(tmp_path / "a.json", second)]
    for order in (files, files[::-1], [*files, *files]):
        assert shown(made, "nora-quayle", "--log", *map(str, order)) == 0
        told = " ".join(capsys.readouterr().out.split())
        assert "Nora (nora-quayle): 3 of" in told
        assert "5 Dec 2026: 7, 5, effort 7" in told
        assert "4 Dec 2026: 7, 5" not in told
        assert (
            told.count("pain: left knee, half squat at the counter; (a later log does not say it any more)")
            == 1
        )


def test_pain_in_other_words_is_told_in_both(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, first = code_of(made, "nora-quayle"), sitting("2026-12-04", 6, pain="sharp, left knee", text="Ow.")
    second = first | {"pain": "a little", "changed": "2026-12-09T10:00:00.000Z"}
    third = second | {"text": "No worry.", "changed": "2026-12-10T10:00:00.000Z"}
    days = ("06", "09", "11")
    files = [
        write_log(tmp_path / f"{day}.json", log_of(code, f"2026-12-{day}T11:00:00.000Z", {"cast-off-2": one}))
        for day, one in zip(days, (first, second, third), strict=True)
    ]
    for order in (files, files[::-1]):
        assert shown(made, "nora-quayle", "--log", *map(str, order)) == 0
        told = " ".join(capsys.readouterr().out.split())
        assert "pain: sharp, left knee; (a later log says it in other words); “Ow.”" in told
        assert "pain: a little; (a later log says it in other words); “Ow.”" in told
        assert "pain: a little; “No worry.”" in told


def test_one_set_is_not_compared_with_three(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Three sets of 12, 10 and 8 are no less than one of 12."""
    sittings = {
        "cast-off-1": sitting("2026-12-07", 7, items={SQUAT: ("", "12, 10, 8", 7)}),
        "trim-and-balance-1": sitting("2026-12-21", 7, items={SQUAT: ("", "12", 7)}),
    }
    log = write_log(tmp_path / "log.json", log_of(code_of(made, "tobias-wren"), SAVED, sittings))
    assert shown(made, "tobias-wren", "--log", str(log)) == 0
    assert "Got easier" not in capsys.readouterr().out


TRUE_SAVED, TRUE_CHANGED = "2026-12-06T10:00:00Z", "2026-12-05T10:00:00Z"


@pytest.mark.parametrize(
    ("saved", "changed", "said"),
    [
        # a clock that was years ahead, while she wrote and saved
        ("2036-01-01T00:00:00Z", "2036-01-01T00:00:00Z", "'old.json' was saved on 01 Jan 2036 by its clock"),
        # and one put right between the two
        ("2026-12-04T20:00:00Z", "2036-01-01T00:00:00Z", "in 'old.json' was changed on 01 Jan 2036"),
        # by less than until today
        ("2026-12-04T20:00:00Z", "2026-12-24T00:00:00Z", "in 'old.json' was changed on 24 Dec 2026"),
        # a clock that is right, and half a second
        ("2026-12-04T20:00:00Z", "2026-12-04T19:00:00Z", ""),
        (TRUE_SAVED, "2026-12-05T09:59:59.500Z", ""),
    ],
)
def test_a_clock_that_was_ahead_does_not_win(
    saved: str, changed: str, said: str, made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = code_of(made, "nora-quayle")
    old = sitting("2026-12-04", 3, text="Easy.", changed=changed)
    true = sitting("2026-12-04", 9, pain="back", text="Hard.", changed=TRUE_CHANGED)
    files = [
        write_log(tmp_path / "old.json", log_of(code, saved, {"cast-off-2": old})),
        write_log(tmp_path / "true.json", log_of(code, TRUE_SAVED, {"cast-off-2": true})),
    ]
    for order in (files, files[::-1]):
        assert shown(made, "nora-quayle", "--log", *map(str, order)) == 0
        told = " ".join(capsys.readouterr().out.split())
        assert "pain: back; “Hard.”" in told  # as it stands, not taken back
        assert "“Easy.”" not in told
        assert said in told
        assert ("by its clock" in told) == bool(said)


def test_parts_of_a_second_are_in_order(tmp_path: Path, demo_series: Series) -> None:
    data = log_of(CODE, "2026-12-06T10:00:00.500Z", {"cast-off-1": sitting("2026-12-05", changed="2026-12-06T10:00:00Z")})  # fmt: skip
    log = read_log(write_log(tmp_path / "log.json", data), demo_series)
    (one,) = log.sittings
    assert one.changed is not None
    assert one.changed < log.saved


def test_a_field_test_of_days_to_come_is_no_result(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tests = [{"test": "chair stand", "day": "2036-01-04", "result": 25}]
    log = write_log(tmp_path / "log.json", log_of(code_of(made, "nora-quayle"), SAVED, {}, tests=tests))
    assert shown(made, "nora-quayle", "--log", str(log)) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "chair stand is dated 04 Jan 2036, which is still to come: not counted" in told
    assert "25 (" not in told


def test_the_terminal_says_pain_first_then_the_rest(
    made: Path, logs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert shown(made, "--log", str(logs)) == 0
    told = " ".join(capsys.readouterr().out.split())
    order = [
        "Nora (nora-quayle): 3 of",
        "Pain and dizziness come first",
        "8 Dec 2026 Fair lead: dizzy, faint or short of breath; “Had not slept <b>well</b>.”",
        "4 Dec 2026 Cast off: pain: left knee, half squat at the counter",
        "Field tests - Chair stand: 11 stands (20 Nov 2026), now 13 (4 Jan 2027): +2 in 6 weeks. For comparison, women of 65 to 69: the middle half 11 to 16",
        "Got harder - Half squat at the counter: 7, 7, effort 4 (1 Dec 2026), now 7, 5, effort 7",
        "Not done",
        "Nothing written for",
        "no repetitions can be read from 'about half a minute'",
        "Remarks - 9 Dec 2026 Fair lead: Neighbours complained",
        "One-leg stance: 38 seconds (1 Dec 2026), now 43 (5 Jan 2027): +5 in 5 weeks. For comparison, men of 18 to 39: 44.4 (healthy people",
        "Got easier",
        "Chair squat: 8, 8, 8, effort 7 (7 Dec 2026), now 10 10 10, effort 5 (21 Dec 2026)",
        "Backpack row: 10, 10, 10, with 8 kg, effort 7 (14 Dec 2026), now 12/12/12, with 8kg, effort 5 (4 Jan 2027)",
    ]
    places = [told.find(words) for words in order]
    assert -1 not in places, order[places.index(-1)]
    assert told.index("Nora (") < told.index("Imke (")


def test_the_page_shows_all_of_them_with_charts(page: Path, chromium: Browser) -> None:
    with fresh_tab(
        chromium, viewport={"width": 360, "height": 780}, offline=True, java_script_enabled=True
    ) as tab:
        noise: list[str] = []
        tab.on("console", lambda message: noise.append(message.text))
        tab.goto(page.as_uri())
        expect(tab.locator(".people tbody tr")).to_have_count(3)
        expect(tab.locator(".people tbody tr").first).to_contain_text("Nora")  # pain first
        assert (
            tab.locator(".person").first.locator("section").first.get_attribute("class")
            == "came-part came-first"
        )
        row = tab.locator("#tobias-wren .course", has_text="Backpack row")
        assert row.locator("g").evaluate_all("all => all.map(g => g.className.baseVal)") == [
            "row-load",
            "row-reps",
            "row-effort",
        ]
        # Effort 7, 6, 5 on the 14th, 18th and 4th: down the scale of 10, along the days.
        assert row.locator(".row-effort polyline").get_attribute("points") == "44.0,22.4 94.7,27.2 310.0,32.0"
        assert tab.locator("#nora-quayle b").count() == 0  # what she writes stays text
        assert tab.evaluate("document.documentElement.scrollWidth") <= 360
        assert violations(tab) == []
        assert noise == []


def test_the_page_is_private(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    assert "<script" not in text
    assert "http" not in text.replace("http-equiv", "").replace("http://www.w3.org", "")


def test_a_proposal_goes_into_her_file_and_holds_once_it_is_accepted(
    made: Path, logs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """From her log to the proposal, to her next plan, to what is asked of the next log."""
    path = made / "clients" / "tobias-wren.yaml"
    before, command = path.read_text(), ("tobias-wren", "--log", str(logs / "tobias-wren.json"), "--propose")
    try:
        assert shown(made, *command) == 0
        assert "1 proposed" in capsys.readouterr().out
        line = 'form: backpack-row, load: {backpack: 8.25 kg}, why: "at least 1 over 10 on 18 Dec and 4 Jan'
        assert line in path.read_text()
        assert shown(made, *command) == 0  # not accepted: said again, not written again
        assert "nothing new to propose" in capsys.readouterr().out
        path.write_text(path.read_text().replace("accept: no", "accept: yes"))
        assert shown(made, *command) == 0
        told = " ".join(capsys.readouterr().out.split())
        assert "Backpack row stays as it is: done with less than 8.25 kg" in told
    finally:
        path.write_text(before)


def test_a_name_is_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["client"]) == 2
    assert "name a client" in capsys.readouterr().err


def test_no_page_is_written_where_nothing_could_be_read(made: Path, tmp_path: Path) -> None:
    page = made / "clients" / "came-back.html"
    before = page.read_bytes() if page.exists() else b""
    (tmp_path / "broken.json").write_text("{")
    assert shown(made, "--log", str(tmp_path)) == 1
    assert (page.read_bytes() if page.exists() else b"") == before
