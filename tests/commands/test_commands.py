"""The commands as a trainer types them: words out, exit status, nothing lost."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from unittest import mock

import jsonschema
import pytest
import yaml

from sitegen.cli import COMMANDS, USAGE, main
from sitegen.clients.file_schema import CLIENT
from sitegen.reading.schemas.json_schema import schema_of, schemas
from sitegen.resources import demo_folder, starter_folder
from tests.folders import SeriesFolder
from tests.trees import tree


@pytest.fixture
def empty(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_help_lists_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as exit_:
        main(["--help"])
    assert exit_.value.code == 0
    listed = re.findall(r"^  ([a-z]+)  +\S", capsys.readouterr().out, flags=re.M)
    assert [name for name in listed if name in COMMANDS] == list(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_each_command_explains_itself(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as exit_:
        main([name, "--help"])
    assert exit_.value.code == 0
    assert f"usage: sitegen {name}" in capsys.readouterr().out


def test_help_imports_no_library() -> None:
    """The budget for `sitegen --help` holds because nothing heavy is imported for it."""
    code = "import sys, contextlib, io\nfrom sitegen.cli import main\n"
    code += (
        "with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit): main(['--help'])\n"
    )
    code += (
        "print([m for m in ('yaml', 'jinja2', 'markdown_it', 'webvtt', 'sitegen.model') if m in sys.modules])"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert result.stdout.strip() == "[]"


def test_a_mistyped_command_is_a_usage_error(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as exit_:
        main(["biuld"])
    assert exit_.value.code == 2
    assert "biuld" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("2026-99-01", "there is no such day as '2026-99-01'; months go from 01 to 12"),
        ("1 May 2026", "'1 May 2026' is not a date; write 2026-05-01"),
        ("2026-W18-5", "'2026-W18-5' is not a date; write year-month-day, such as 2026-09-14"),
    ],
)
@pytest.mark.parametrize("command", ["build", "preview", "client"])
def test_a_day_is_read_as_in_a_file(
    command: str, said: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main([command, "--today", said])
    assert ended.value.code == USAGE
    assert f"argument --today: {told}" in capsys.readouterr().err


def test_who_stops_a_command_is_told_what_holds_for_all_of_them(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sitegen.commands.check.run", mock.Mock(side_effect=KeyboardInterrupt))
    assert main(["check"]) == 130
    assert capsys.readouterr().err == "\nstopped; what was finished stays, and no file is half written\n"


def test_begin_and_build_in_an_empty_folder(empty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["begin", "my-series"]) == 0
    assert main(["build"]) == 0
    assert (empty / "my-series/build/index.html").is_file()
    assert "1 episode, 3 exercises" in capsys.readouterr().out


def test_begin_prints_what_can_be_typed(empty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder's name with spaces and signs is in quotes, so that the shell takes it for one."""
    assert main(["begin", "My New Series!"]) == 0
    [line] = [line for line in capsys.readouterr().out.splitlines() if line.startswith("  2. cd ")]
    there = subprocess.run(
        ["sh", "-c", line.removeprefix("  2. ") + " && pwd"], capture_output=True, text=True
    )
    assert there.stdout.rstrip() == str(empty / "My New Series!")


def test_begin_with_the_demo(empty: Path) -> None:
    """It is the demo as it is; what the checks say of that is in `tests/checks/test_demo.py`."""
    assert main(["begin", "galley", "--demo"]) == 0
    new = tree(empty / "galley/content")
    assert {file: new[file] for file in tree(demo_folder())} == tree(demo_folder())


def test_begin_does_not_touch_a_folder_with_something_in_it(
    empty: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (empty / "mine").mkdir()
    (empty / "mine/notes.txt").write_text("mine")
    assert main(["begin", "mine"]) == 2
    assert "not empty" in capsys.readouterr().err
    assert [p.name for p in (empty / "mine").iterdir()] == ["notes.txt"]


def test_the_starter_series_only_waits_for_texts_of_ones_own(tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    assert series.problems("problem") == []
    assert {p.check for p in series.problems("warning")} == {"placeholder", "no-emergency-number"}
    series.make_own()
    assert [p.check for p in series.problems("warning")] == ["no-video"]


def test_episode_writes_the_next_one_and_it_builds(empty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["begin", "s"])
    capsys.readouterr()
    assert main(["episode", "Steady as she goes", "--content", "s/content"]) == 0
    path = empty / "s/content/episodes/02-steady-as-she-goes.yaml"
    written = yaml.safe_load(path.read_text())
    assert (written["number"], written["title"]) == (2, "Steady as she goes")
    assert written["blocks"][0]["routine"] == "short-warm-up"
    assert main(["check", "--content", "s/content"]) == 0
    assert main(["episode", "Steady as she goes", "--content", "s/content"]) == 2
    assert "choose another title" in capsys.readouterr().err


def test_check_says_what_is_wrong_and_exits_with_1(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    series = SeriesFolder(tmp_path)
    place = series.spoil("episodes/01-first-steps.yaml", "dose: 8-12", "dose: ¦lots")
    assert main(["check", "--content", str(series.root)]) == 1
    out, err = capsys.readouterr()
    line, column = place or (0, 0)
    start = f"episodes/01-first-steps.yaml:{line}:{column}: problem: "
    assert out.startswith(f"{start}'dose': 'lots' is not a dose [malformed]\n    write ")
    assert err == "1 problem (all warnings are looked for once there are no problems)\n"


def test_check_speaks_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    series = SeriesFolder(tmp_path)
    series.edit("series.yaml", "units: metric ", "units: stone ")
    assert main(["check", "--json", "--content", str(series.root)]) == 1
    [problem] = json.loads(capsys.readouterr().out)
    assert {k: problem[k] for k in ("severity", "check", "file", "line", "column")} == {
        "severity": "problem",
        "check": "malformed",
        "file": "series.yaml",
        "line": 5,
        "column": 8,
    }


def test_build_without_a_series_says_how_to_start(empty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build"]) == 1
    assert "sitegen begin" in capsys.readouterr().out
    assert not (empty / "build").exists()


@pytest.mark.parametrize(
    "spoiled", ["episodes/01-first-steps.yaml", "series.yaml", "exercises/chair-squat.yaml"]
)
def test_no_spoiled_file_ends_in_a_traceback(tmp_path: Path, spoiled: str) -> None:
    """A file cut off anywhere, as by an editor that crashed."""
    series = SeriesFolder(tmp_path)
    whole = (series.root / spoiled).read_bytes()
    for cut in range(0, len(whole), max(1, len(whole) // 25)):
        series.write(spoiled, whole[:cut])
        series.problems()


def test_a_mistake_of_the_program_is_told_apart_and_its_details_kept(tmp_path: Path) -> None:
    script = "import sitegen.cli as cli; cli.main = lambda: {}['gone']; cli.program()"
    result = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        env=os.environ | {"TMPDIR": str(tmp_path)},
        check=False,
    )
    assert result.returncode == 1
    assert result.stderr.splitlines()[0] == (
        "sitegen: an internal error, not a fault of your content (KeyError: 'gone')"
    )
    (details,) = tmp_path.glob("sitegen-*.txt")
    assert str(details) in result.stderr
    assert "Traceback" in details.read_text()


class EditorLoader(yaml.BaseLoader):
    """An editor's own YAML reading, that of YAML 1.2: numbers are numbers, times and dates are text."""


for _tag, _form in (("int", r"[-+]?[0-9]+$"), ("float", r"[-+]?[0-9]*\.[0-9]+$"), ("bool", r"(true|false)$")):
    EditorLoader.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(_form), None)
    EditorLoader.add_constructor(
        f"tag:yaml.org,2002:{_tag}", getattr(yaml.SafeLoader, f"construct_yaml_{_tag}")
    )


@pytest.mark.parametrize(
    "one_in",
    [
        pytest.param(4, id="one file in four"),
        pytest.param(1, id="every file", marks=pytest.mark.thorough),
    ],
)
def test_schema_is_valid_and_accepts_the_demo(empty: Path, one_in: int) -> None:
    """The schemas against JSON Schema 2020-12 and against the files of the demo."""
    main(["begin", "s"])
    assert main(["schema", "--content", "s/content"]) == 0
    written = {path.name: json.loads(path.read_text()) for path in (empty / "s/content/schema").iterdir()}
    assert written == schemas() | {"client.schema.json": schema_of(CLIENT)}
    for schema in written.values():
        jsonschema.Draft202012Validator.check_schema(schema)
    for folder in ("exercises", "routines", "episodes"):
        validator = jsonschema.Draft202012Validator(written[f"{folder.removesuffix('s')}.schema.json"])
        for root in (demo_folder(), starter_folder()):
            for path in sorted((root / folder).glob("*.yaml"))[::one_in]:
                read = yaml.load(path.read_text(), EditorLoader)
                assert [e.message for e in validator.iter_errors(read)] == [], path


def test_schema_refuses_what_the_reader_refuses() -> None:
    schema = jsonschema.Draft202012Validator(schemas()["episode.schema.json"])
    errors = {e.message for e in schema.iter_errors({"title": "x", "numbr": 1, "blocks": []})}
    assert any("'numbr' was unexpected" in e for e in errors)
    assert any("'number' is a required property" in e for e in errors)
