"""What content, file names and others' leases say never gives a terminal an order."""

import subprocess
import sys
from pathlib import Path

import pytest

from sitegen.system.terminal import visible
from tests.folders import SeriesFolder

TEXTS = {
    "an escape sequence": ("a\x1b[2Jb", "a\\u001b[2Jb"),
    "a control of one byte": ("a\x9b2Jb", "a\\u009b2Jb"),
    "a line begun again": ("no problems\rtwo", "no problems\\u000dtwo"),
    "the count of pages": ("\r20 of 100 pages", "\r20 of 100 pages"),
    "another direction": ("a\u202egpj.exe", "a\\u202egpj.exe"),
    "lines and tabs": ("one\ttwo\n", "one\ttwo\n"),
    "other languages": ("Подъём — 腕立て伏せ", "Подъём — 腕立て伏せ"),
}


@pytest.mark.parametrize(("text", "shown"), TEXTS.values(), ids=TEXTS.keys())
def test_what_a_terminal_would_obey_is_written_out(text: str, shown: str) -> None:
    assert visible(text) == shown


def test_a_file_name_cannot_clear_the_screen(tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    series.write("exercises/a\x1b[2J\udcff.yaml", "name: [")
    command = [sys.executable, "-m", "sitegen", "check", "--content", str(series.root)]
    said = subprocess.run(command, capture_output=True, check=False)
    assert said.returncode == 1
    assert b"\x1b" not in said.stdout + said.stderr
    assert "not UTF-8" in said.stdout.decode()
    assert rb"exercises/a\u001b[2J" in said.stdout
    assert b"Traceback" not in said.stderr
