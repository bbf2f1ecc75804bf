"""Caption files: what is read, what is refused and where, and what is written.

Reference: W3C, *WebVTT: The Web Video Text Tracks Format* (timestamps, timings, identifiers,
header). SubRip has no official text; its cases are common practice.
"""

import io

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from sitegen.reading.captions.cues import Cue, read_captions, write_vtt
from tests.draws import draws


def vtt(*blocks: str) -> bytes:
    return "\n\n".join(["WEBVTT", *blocks, ""]).encode()


def cue(start_ms: int, end_ms: int, text: str, identifier: str = "") -> Cue:
    return Cue(start_ms=start_ms, end_ms=end_ms, text=text, identifier=identifier)


def told(data: bytes, name: str = "captions/a.vtt") -> list[str]:
    return [f"{p.place} {p.severity} {p.check}" for p in read_captions(data, name).problems]


def test_a_webvtt_file_is_read():
    data = vtt(
        "NOTE ours",
        "STYLE\n::cue { color: lime }",
        "1\n00:01.000 --> 00:04.000\nPush up",
        "00:00:05.250 --> 00:00:06.000 line:0\nAnd\nrest",
    )
    read = read_captions(data, "a.vtt")
    assert read.cues == (cue(1000, 4000, "Push up", "1"), cue(5250, 6000, "And\nrest"))
    assert read.problems == []


def test_a_subrip_file_is_read_whatever_its_name():
    first = b"1\r\n00:00:01,000 --> 00:00:04,000\r\n{\\an8}<i>Push</i> up\r\n\r\n"
    data = b"\xef\xbb\xbf" + first + b"2\r\n01:00:05,250 --> 01:00:06,000\r\nRest\r\n"
    read = read_captions(data, "captions/a.vtt")
    assert read.cues == (cue(1000, 4000, "Push up", "1"), cue(3605250, 3606000, "Rest", "2"))
    assert read.problems == []


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
def test_every_line_terminator_of_the_standard_is_one(ending):
    data = vtt("00:01.000 --> 00:04.000\nGo").replace(b"\n", ending.encode())
    assert read_captions(data, "a.vtt").cues == (cue(1000, 4000, "Go"),)


@pytest.mark.parametrize(
    ("timings", "expected"),
    [
        pytest.param("00:01.000 --> 00:04.000", (1000, 4000), id="hours-omitted-W3C-example"),
        pytest.param("00:00:01.000\t-->\t100:00:04.000", (1000, 360004000), id="tabs-and-many-hours"),
        pytest.param("00:59.999 -->   59:59.000 align:start", (59999, 3599000), id="settings-ignored"),
    ],
)
def test_valid_timings(timings, expected):
    (only,) = read_captions(vtt(f"{timings}\nGo"), "a.vtt").cues
    assert (only.start_ms, only.end_ms) == expected


@pytest.mark.parametrize(
    ("timings", "column", "message"),
    [
        pytest.param(
            "60:00.000 --> 61:00.000", 1, "'60:00.000' has more than 59", id="W3C-60-minutes-is-no-hour"
        ),
        pytest.param("00:00:01,000 --> 00:00:02.000", 1, "'00:00:01,000' is not a time", id="comma"),
        pytest.param("00:01.000 --> 00:61.000", 15, "'00:61.000' has more than 59", id="61-seconds"),
        pytest.param("0:01.000 --> 00:02.000", 1, "'0:01.000' is not a time", id="one-digit-minutes"),
        pytest.param("00:01.00 --> 00:02.000", 1, "'00:01.00' is not a time", id="two-digit-fraction"),
        pytest.param("00:01.000-->00:02.000", 10, "--> needs a space on both sides", id="no-spaces"),
        pytest.param("00:01.000 --> ", 14, "'' is not a time", id="no-end"),
        pytest.param("00:03.000 --> 00:02.000", 15, "the cue ends before it starts", id="end-before-start"),
        pytest.param(
            "00:03.000 --> 00:03.000", 15, "the cue ends before it starts", id="W3C-end-equals-start"
        ),
    ],
)
def test_malformed_timings_are_told_with_line_and_column(timings, column, message):
    read = read_captions(vtt("00:00.000 --> 00:00.500\nfine", f"{timings}\nGo"), "a.vtt")
    (problem,) = read.problems
    assert (problem.severity, problem.check, problem.line, problem.column) == (
        "problem",
        "captions-time",
        6,
        column,
    )
    assert message in problem.message
    assert [c.text for c in read.cues] == ["fine"]


def test_the_advice_shows_the_time_put_right():
    (problem,) = read_captions(vtt("00:00:01,000 --> 00:00:02.000\nGo"), "a.vtt").problems
    assert problem.advice == "write '.' before the milliseconds: 00:00:01.000"


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        pytest.param(
            b"WEBVTTx\n\n00:01.000 --> 00:02.000\nGo\n",
            ["captions/a.vtt:1 problem captions-header"],
            id="header-with-a-tail",
        ),
        pytest.param(
            b"WEB VTT\n\n00:01.000 --> 00:02.000\nGo\n",
            ["captions/a.vtt:1 problem captions-header", "captions/a.vtt:1 problem captions-form"],
            id="header-misspelt",
        ),
        pytest.param(
            b"00:01.000 --> 00:02.000\nGo\n", ["captions/a.vtt:1 problem captions-header"], id="no-header"
        ),
        pytest.param(
            b"WEBVTT - ours\nKind: captions\n\n00:01.000 --> 00:02.000\nGo\n", [], id="header-with-fields"
        ),
        pytest.param(
            b"WEBVTT\n00:01.000 --> 00:02.000\nGo\n",
            ["captions/a.vtt:2 warning captions-header"],
            id="blank-line-missing",
        ),
        pytest.param(
            vtt("00:01.000 --> 00:03.000\nGo", "00:02.000 --> 00:04.000\nOn"),
            ["captions/a.vtt:6 warning captions-overlap"],
            id="overlap",
        ),
        pytest.param(
            vtt("00:05.000 --> 00:06.000\nGo", "00:02.000 --> 00:04.000\nOn"),
            ["captions/a.vtt:6 problem captions-order"],
            id="order",
        ),
        pytest.param(
            vtt("a\n00:01.000 --> 00:02.000\nGo", "a\n00:02.000 --> 00:03.000\nOn"),
            ["captions/a.vtt:7 warning captions-id"],
            id="id-twice",
        ),
        pytest.param(
            vtt("00:01.000 --> 00:02.000\n<b></b>", "00:03.000 --> 00:04.000\nGo"),
            ["captions/a.vtt:3 warning captions-empty"],
            id="no-text",
        ),
        pytest.param(
            vtt("stray words", "00:03.000 --> 00:04.000\nGo"),
            ["captions/a.vtt:3 problem captions-form"],
            id="stray-lines",
        ),
        pytest.param(b"", ["captions/a.vtt problem captions-empty"], id="empty"),
        pytest.param(b"\n \n", ["captions/a.vtt problem captions-empty"], id="blank"),
        pytest.param(b"WEBVTT\n", ["captions/a.vtt problem captions-empty"], id="header-only"),
        pytest.param(
            b"Dear diary,\n\ntoday we trained.\n", ["captions/a.vtt problem captions-form"], id="a-letter"
        ),
        pytest.param(
            b"\x89PNG\r\n\x1a\n\0\0", ["captions/a.vtt:3 problem captions-encoding"], id="a-picture"
        ),
        pytest.param(
            b"WEBVTT\n\n" + b"x" * 2_000_000, ["captions/a.vtt problem captions-size"], id="too-big"
        ),
        pytest.param(
            "WEBVTT\n\n00:01.000 --> 00:02.000\nGo\n".encode("utf-16"),
            ["captions/a.vtt problem captions-encoding"],
            id="utf-16",
        ),
    ],
)
def test_what_is_wrong_is_told_with_its_line(data, expected):
    assert told(data) == expected


def test_all_problems_are_told_at_once():
    data = vtt(
        "00:05.000 --> 00:04.000\nA",
        "00:06.000 -> 00:07.000\nB",
        "00:08.000 --> 00:09.000\nC",
        "00:01.000 --> 00:02.000\nD",
    )
    assert told(data) == [
        "captions/a.vtt:3:15 problem captions-time",
        "captions/a.vtt:6 problem captions-form",
        "captions/a.vtt:12 problem captions-order",
    ]


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte-order-mark"])
def test_a_byte_that_is_not_utf8_is_named_and_the_rest_is_still_read(mark):
    data = mark + b"WEBVTT\n\n00:01.000 --> 00:02.000\ncaf\xe9\n\n00:04.000 --> 00:03.000\nGo\n"
    first, second = read_captions(data, "a.vtt").problems
    assert first.message == f"byte {36 + len(mark)} (0xe9) is not UTF-8"
    assert (first.line, first.column) == (4, 4)
    assert second.check == "captions-time"


def test_cues_come_in_order_of_start_even_where_the_file_is_not():
    data = vtt("00:05.000 --> 00:06.000\nlate", "00:02.000 --> 00:04.000\nearly")
    assert [c.text for c in read_captions(data, "a.vtt").cues] == ["early", "late"]


@pytest.mark.parametrize(
    ("payload", "text"),
    [
        pytest.param("<v Robin>Pull <c.loud>hard</c></v>", "Pull hard", id="voice-and-class"),
        pytest.param("<00:01.500>Pull", "Pull", id="karaoke-time"),
        pytest.param("<script>alert(1)</script>", "alert(1)", id="script"),
        pytest.param("&lt;b&gt; &amp; more&nbsp;&#x2764;", "<b> & more ❤", id="references"),
        pytest.param("rest < 30 s and 5 > 3", "rest < 30 s and 5 > 3", id="bare-signs"),
        pytest.param("a\x07b\x0bc", "abc", id="control-characters"),
    ],
)
def test_markup_is_taken_out_safely(payload, text):
    (only,) = read_captions(vtt(f"00:01.000 --> 00:02.000\n{payload}"), "a.vtt").cues
    assert only.text == text


def test_the_writer_escapes_and_keeps_cues_whole():
    cues = [
        cue(0, 1500, "5 < 6 & --> on\n\nnext"),
        cue(3_600_000, 3_600_001, "Go", "x --> y"),
        cue(3_600_001, 3_600_002, "On", "NOTE"),
    ]
    assert write_vtt(cues) == (
        "WEBVTT\n\n00:00:00.000 --> 00:00:01.500\n5 &lt; 6 &amp; --&gt; on\nnext\n\n"
        "01:00:00.000 --> 01:00:00.001\nGo\n\n01:00:00.001 --> 01:00:00.002\nOn\n"
    )


@pytest.mark.parametrize(
    "cues", [[cue(5, 5, "a")], [cue(9, 10, "a"), cue(8, 10, "b")]], ids=["no-length", "unordered"]
)
def test_the_writer_refuses_what_would_not_be_valid(cues):
    with pytest.raises(ValueError, match="out of order or ends before it starts"):
        write_vtt(cues)


texts = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1, max_size=30)
stretches = st.lists(st.tuples(st.integers(1, 5_000_000), texts, texts), min_size=1, max_size=8)


@draws(40, thorough=200)
@given(stretches)
def test_what_is_written_is_read_back_the_same_by_us_and_by_another_reader(parts):
    cues, clock = [], 0
    for length, text, _ in parts:
        cues.append(cue(clock, clock + length, text))
        clock += length
    written = write_vtt(cues)
    read = read_captions(written.encode(), "a.vtt")
    assert read.problems == []
    assert read.cues == tuple(cues)
    other = webvtt.from_buffer(io.StringIO(written), strict=True)
    assert [(c.start_time.in_milliseconds(), c.end_time.in_milliseconds()) for c in other] == [
        (c.start_ms, c.end_ms) for c in cues
    ]


@given(st.binary(max_size=300), st.sampled_from([b"", b"WEBVTT\n\n", b"1\n00:00:01,000 --> "]))
def test_no_input_breaks_the_reader(data, head):
    read = read_captions(head + data, "a.vtt")
    assert read.cues or read.problems
