"""A plan gets its film's name once; the lines of a new plan that say how to write it go."""

from sitegen.drafting.writing.film import name_film

PLAN = """\
title: Sea legs
number: 3
# video: {file: media/03.webm, length: "9:40"}
# captions: captions/03.vtt
# Ask Robin about the carriers.
blocks:
  - routine: harbour-warm-up
"""


def test_the_film_takes_the_place_of_the_hint() -> None:
    both = name_film(PLAN, video_file="media/03.mp4", video_length=580, captions_file="captions/03.vtt")
    assert 'video: {file: media/03.mp4, length: "9:40"}\ncaptions: captions/03.vtt\n' in both
    assert "# video" not in both
    assert "# captions" not in both
    assert "# Ask Robin about the carriers." in both


def test_what_is_not_named_keeps_its_hint() -> None:
    one = name_film(PLAN, video_file=None, video_length=None, captions_file="captions/03.vtt")
    assert "# video: " in one
    assert "# captions" not in one
    assert name_film(PLAN, video_file=None, video_length=None, captions_file=None) == PLAN
