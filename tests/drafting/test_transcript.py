"""What a draft can be made from, and what it refuses with a reason."""

import pytest

from sitegen.drafting import read_transcript

TALK = "and now you take the towel and pull it to your chest twelve times each side"


def told(data: bytes, name: str = "talk.txt") -> list[str]:
    return [f"{p.line or '-'} {p.check}: {p.message}" for p in read_transcript(data, name).problems]


@pytest.mark.parametrize(
    ("data", "starts"),
    [
        pytest.param("[0:05] Push up\n[1:02:07] Rest now\n", [5000, 3727000], id="brackets"),
        pytest.param("(00:05) Push up\n(00:07.5) Rest now\n", [5000, 7500], id="round-brackets"),
        pytest.param("00:00:05 Push up\n00:00:07 Rest now\n", [5000, 7000], id="line-starts"),
        pytest.param("0:05 - Push up\n0:07 - Rest now\n", [5000, 7000], id="dash"),
        pytest.param("0:05\nPush up\n0:07\nRest now\n", [5000, 7000], id="time-on-its-own-line"),
        pytest.param("0:05 --> 0:06\nPush up\n\n0:07 --> 0:09\nRest now\n", [5000, 7000], id="loose-times"),
        pytest.param(
            "1\n00:00:05.000 --> 00:00:06.000\nPush up\n\n2\n00:00:07,000 --> 00:00:09,000\nRest now\n",
            [5000, 7000],
            id="comma-and-point-mixed",
        ),
    ],
)
def test_plain_transcripts_and_loose_captions_are_read(data: str, starts: list[int]) -> None:
    captions = read_transcript(data.encode(), "talk.txt")
    assert captions.problems == []
    assert [cue.start_ms for cue in captions.cues] == starts
    assert [cue.text for cue in captions.cues] == ["Push up", "Rest now"]


def test_where_no_end_is_given_talk_does_not_fill_a_long_silence() -> None:
    first, _ = read_transcript(b"[0:05] Push up now\n[1:05] Rest now\n", "talk.txt").cues
    assert 300 <= first.end_ms - first.start_ms < 3000


def test_text_that_scrolls_along_is_taken_once() -> None:
    blocks = ["push up and", "push up and\nkeep your back long", "keep your back long\nand breathe"]
    data = (
        "WEBVTT\n\n"
        + "\n\n".join(f"00:0{i}.000 --> 00:0{i + 1}.000\n{text}" for i, text in enumerate(blocks))
        + "\n"
    )
    texts = [cue.text for cue in read_transcript(data.encode(), "talk.vtt").cues]
    assert texts == ["push up and", "keep your back long", "and breathe"]


def test_sounds_and_names_of_speakers_are_left_out() -> None:
    captions = read_transcript(b"[0:01] ROBIN: [Music] push up\n[0:04] [Applause]\n[0:06] rest\n", "talk.txt")
    assert [cue.text for cue in captions.cues] == ["push up", "rest"]


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        pytest.param(b"", "- captions-empty: the file has no cues", id="empty"),
        pytest.param(
            b"\x00\x01\x02\xff" * 9, "1 captions-encoding: byte 1 is zero: this is no text file", id="binary"
        ),
        pytest.param(
            b"Dear diary, today we trained.\n",
            "- captions-form: no line of the file begins with a time",
            id="no-times",
        ),
        pytest.param(
            b"[0:10] push\n[0:05] up\n[0:20] rest\n",
            "2 captions-order: the time runs backwards",
            id="backwards",
        ),
        pytest.param(
            b"[0:10] a\n[0:05] b\n[0:09] c\n[0:01] d\n",
            "2 captions-order: the times run (2 times) backwards",
            id="backwards-twice",
        ),
        pytest.param(
            b"x" * 20_000_001,
            "- captions-size: the file has 20.0 MB; a caption file may have 20 MB",
            id="20-MB",
        ),
    ],
)
def test_what_cannot_be_used_is_refused_with_its_reason(data: bytes, problem: str) -> None:
    assert told(data) == [problem]


@pytest.mark.parametrize(
    "sentence",
    [
        "und jetzt nehmen wir das Handtuch und ziehen es zwölf Mal zur Brust, auf jeder Seite",
        "et maintenant on prend la serviette et on tire douze fois vers la poitrine de chaque côté",
        "y ahora tomamos la toalla y tiramos doce veces hacia el pecho en cada lado sin prisa",
    ],
    ids=["German", "French", "Spanish"],
)
def test_another_language_is_named_as_such(sentence: str) -> None:
    data = "".join(f"[0:{second:02d}] {sentence}\n" for second in range(0, 60, 10)).encode()
    assert told(data) == ["- captions-language: this does not look like English talk"]


def test_telegram_style_is_still_english() -> None:
    data = b"[0:01] Dead lift. Six reps. Heavy. Two minutes rest.\n[0:20] Row. Eight. Each side.\n" * 1
    assert told(data) == []


def test_latin_letters_of_another_encoding_do_not_stop_the_draft() -> None:
    captions = read_transcript(f"[0:01] caf\xe9 {TALK}\n".encode("latin-1"), "talk.txt")
    assert captions.cues[0].text.startswith("café and now")
