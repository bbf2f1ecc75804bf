"""Warnings about announced times."""

from pathlib import Path

import pytest

from tests.sessions import SessionFolder

# Three sets of 30 s with 60 s between them are 210 s; with 600 s of video that is 13.5 minutes.
VIDEO = 'video: {host: harbour, id: a1, length: "10:00"}'
HOST = 'hosts: {harbour: {name: H, page: "https://v.example/{id}?{seconds}", player: "https://v.example/{id}?{seconds}"}}\n'


@pytest.fixture
def series(tmp_path: Path) -> SessionFolder:
    return SessionFolder(tmp_path, more=HOST)


@pytest.mark.parametrize("lasts", ["14 min", "10-14 min", "13-20 min", "14-15 min"])
def test_an_announcement_that_holds(series: SessionFolder, lasts: str) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=f"lasts: {lasts}\n{VIDEO}")

    assert series.said("session-time") == []


def test_longer_than_announced(series: SessionFolder) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=f"lasts: 10-13 min\n{VIDEO}")

    assert series.said("session-time") == [
        "episodes/01-session-1.yaml:3:8: the session takes 14 min, longer than the 10-13 min it announces"
    ]
    assert series.advice("session-time") == ["write lasts: 14 min, or take something out"]


def test_much_shorter_than_announced(series: SessionFolder) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=f"lasts: 20-25 min\n{VIDEO}")

    assert series.said("session-time") == [
        "episodes/01-session-1.yaml:3:8: the session takes 14 min, less than the 20-25 min it announces"
    ]


def test_nothing_is_said_where_nothing_is_announced_or_the_video_is_not_known(series: SessionFolder) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=VIDEO)
    series.session(2, "chair-squat, dose: 30 s", head="lasts: 2 min")

    assert series.said("session-time") == []


def test_silenced_with_a_reason(series: SessionFolder) -> None:
    head = f"lasts: 10-13 min\n{VIDEO}\nsilence: {{session-time: Most people skip the last set}}"
    series.session(1, "chair-squat, dose: 30 s", head=head)

    assert series.said("session-time") == []
