"""A client's file: what it may say, what is told of a slip, and that nothing of it goes out."""

import os
import re
import subprocess
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest

from sitegen.cli import main
from sitegen.clients.checks import check_client, check_clients
from sitegen.clients.client import Client
from sitegen.clients.folder import plan_code, plan_key
from sitegen.clients.reading import read_client, read_file
from sitegen.clients.tailored import Tailor, TailoredSession
from sitegen.model import Series
from sitegen.problems import ContentError
from sitegen.reading.reader import read_series
from sitegen.study.forms import FormKey
from sitegen.study.load import load_mass
from sitegen.study.version import Version
from sitegen.vocabulary import UNTOLD
from tests.clients.people import PEOPLE, RARE, series_with_people, write_people
from tests.demo_copy import leave_out_unused, shorten
from tests.folders import SeriesFolder


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    clients = tmp_path_factory.mktemp("people") / "clients"
    write_people(clients)
    return clients


SLIPS = [
    ("age: 68", "no-name", "missing-key", "'name' is missing in a client", "add name: with one line of text"),
    ("name: A\nneed: [x]", "2:1", "unknown-key", "'need' is not a key of a client", "did you mean 'needs'?"),
    ("name: A\nneeds: [thin-bone]", "2:9", "unknown-need", "there is no need 'thin-bone'", "write its id, 'thin-bones'"),
    ("name: A\navoids: [jumpin]", "2:10", "unknown-demand", "there is no demand 'jumpin'", "did you mean 'jumping'?"),
    ("name: A\nleave_out: [towel-ro]", "2:13", "unknown-exercise", "there is no exercise 'towel-ro'", "did you mean"),
    ("name: A\nleave_out: [towel-row/seated]", "2:13", "unknown-variant", "towel-row has no variant 'seated'", "seated-towel-row"),
    ("name: A\nkit: [chair]", "2:7", "unknown-kit", "there is no kit 'chair'", "sturdy-chair"),
    ("name: A\nskip: [cast-of]", "2:8", "unknown-session", "there is no session 'cast-of'", "did you mean 'cast-off'?"),
    ("name: A\nrepeat: {steady: 2}", "2:18", "unknown-session", "there is no session 'steady'", "steady-pull"),
    ("name: A\nloads: {water-carrier: 9 l water}", "2:24", "load-too-large", "'5-litre water carrier' (water-carrier) cannot be 9 l water", "it holds 5 l at most"),
    ("name: A\nloads: {backpack: 2 x 3 kg}", "2:19", "malformed", "'2 x 3 kg' is more than one load", "write what one of them holds"),
    ("name: A\nexercises: {towel-row: {}}", "2:24", "empty-amounts", "neither a dose nor a load is given", "add dose: or load:"),
    ("name: A\nexercises: {backpack-row: {load: 90 kg}}", "2:34", "load-too-large", "more than 'Backpack with books'", "write a smaller load"),
    ("name: A\nexchanges: {squat-thrust: {exercise: chair-squat}}", "2:38", "missing-key", "the dose of one exercise may be wrong for another", "add dose:"),
    ("name: A\nexercises: {chair-squat: {dose: 8 each}}", "2:33", "each-of-what", "Nothing says that 'Chair squat' is done one side", "write 8 for 8 in a set, or 8 each side"),
    ("name: A\nexchanges: {squat-thrust: {exercise: chair-squat, dose: 8 each}}", "2:57", "each-of-what", "each of what?", "write 8 for 8"),
    ("name: A\nlimits: {effort: at least RPE 6}", "2:18", "malformed", "asks for more effort, not for less", "at least 4 in reserve"),
    ("name: A\nstart: 1/12/2026", "2:8", "malformed", "'1/12/2026' is not a date", "write 2026-12-01 for 1 December"),
    ("name: A\nbaseline: [{test: plank, day: 2026-11-20, result: 9}]", "2:19", "malformed", "'plank' is not", "chair stand"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "place", "check", "message", "advice"), SLIPS, ids=[s[0][-40:] for s in SLIPS]
)
def test_slips_are_told_like_those_of_the_content(
    text: str, place: str, check: str, message: str, advice: str, demo_series: Series, tmp_path: Path
) -> None:
    path = tmp_path / "ada.yaml"
    path.write_text(text, encoding="utf-8")
    client, problems = read_file(path, demo_series)
    assert client is None
    (problem,) = problems
    assert (problem.check, problem.file) == (check, "clients/ada.yaml")
    assert message in problem.message
    assert advice in problem.advice
    if place != "no-name":
        assert f"{problem.line}:{problem.column}" == place


def test_a_wrong_key_hides_no_other_slip_of_the_file(demo_series: Series, tmp_path: Path) -> None:
    path = tmp_path / "ada.yaml"
    path.write_text(
        "nam: Ada\nneed: [x]\nneeds: [thin-bone]\nkit: [chair]\nleave_out: [towel-ro]\nage: old\n"
        "exercises:\n  backpack-row: {load: 90 kg}\n  towel-pull: {dose: 6}\n  chair-squat: {dose: lots}\n",
        encoding="utf-8",
    )
    client, problems = read_file(path, demo_series)
    assert client is None
    assert [(p.line, p.check) for p in problems] == [
        (1, "missing-key"),
        (1, "unknown-key"),
        (2, "unknown-key"),
        (3, "unknown-need"),
        (4, "unknown-kit"),
        (5, "unknown-exercise"),
        (6, "malformed"),
        (8, "load-too-large"),
        (9, "unknown-exercise"),
        (10, "malformed"),
    ]


def test_the_invented_clients_read_well(folder: Path, demo_series: Series) -> None:
    assert [str(p) for p in check_clients(folder, demo_series) if p.severity == "problem"] == []


def test_a_plan_whose_client_is_gone_is_told(tmp_path: Path, demo_series: Series) -> None:
    folder = tmp_path / "clients"
    write_people(folder)
    for name in ("jule", "nora-quayle"):
        (folder / name).mkdir()
        (folder / name / "galley-strength-plan.html").write_text("a plan", encoding="utf-8")
    (folder / "letters").mkdir()
    found = [p for p in check_clients(folder, demo_series) if p.check == "client-left-behind"]
    assert [(p.file, p.severity) for p in found] == [(f"{folder.name}/jule", "warning")]
    assert "there is no jule.yaml" in found[0].message


def test_an_unknown_client_is_told_the_known_ones(folder: Path, demo_series: Series) -> None:
    with pytest.raises(ContentError) as error:
        read_client(folder, "noora", demo_series)
    assert "known: imke-solheim, nora-quayle, tobias-wren" in error.value.problems[0].advice


# --- what the series becomes for her ---------------------------------------------------------


def test_nobody_is_given_what_she_avoids(folder: Path, demo_series: Series) -> None:
    """Every form of every session, against the lists in her file and in her needs."""
    for name in PEOPLE:
        client = read_client(folder, name, demo_series)
        tailor = Tailor(demo_series, client)
        needs = [demo_series.details.needs[need] for need in client.needs]
        avoided = {*client.avoids, *(word for need in needs for word in need.avoids)}
        most_kg = min([need.limits.load for need in needs if need.limits.load is not None], default=None)
        for session in tailor.sessions():
            for _, items in session.blocks:
                for one in items:
                    if one.version is None:
                        continue
                    form = tailor.forms[one.version.form.key]
                    assert avoided.isdisjoint(form.demands), (name, form.key)
                    assert form.exercise not in client.leave_out
                    assert client.kit is None or set(form.kit) <= set(client.kit)
                    if most_kg is not None and one.version.load is not None:
                        assert load_mass(one.version.load).high <= most_kg + 1e-9


def session_of(
    series: Series, folder: Path, name: str, slug: str, extra: str = ""
) -> tuple[Client, TailoredSession]:
    """A session for somebody whose file is that of ``name`` (or nearly empty) with some more lines."""
    path = folder.parent / "somebody.yaml"
    path.write_text((PEOPLE[name] if name else "name: A\n") + extra, encoding="utf-8")
    client, problems = read_file(path, series)
    assert client is not None, problems
    return client, Tailor(series, client).session(next(e for e in series.sessions if e.slug == slug))


def given(session: TailoredSession, exercise: str) -> Version:
    """What is given for an exercise of the session."""
    items = (one for _, items in session.blocks for one in items if one.filmed.exercise == exercise)
    version = next(items).version
    assert version is not None
    return version


def test_own_amounts_take_the_place_of_those_filmed(folder: Path, demo_series: Series) -> None:
    _, session = session_of(demo_series, folder, "tobias-wren", "steady-pull")
    row = given(session, "backpack-row")
    assert (str(row.dose), str(row.load)) == ("10", "8 kg")
    assert row.form.key.exercise == "backpack-row"


@pytest.mark.parametrize(
    ("file", "load"),
    [
        ("loads: {backpack: 4 kg}", "4 kg"),
        ("loads: {backpack: 8 kg}", "8 kg"),
        ("exercises: {backpack-row: {load: 5 kg}}\nloads: {backpack: 4 kg}", "5 kg"),
        ("loads: {backpack: 8 kg}\nlimits: {load: 4 kg}", "4 kg"),
        ("loads: {backpack: 2 kg}\nlimits: {load: 50 %}", "2 kg"),
        ("loads: {backpack: 5 kg}\nlimits: {load: 50 %}", "3 kg"),
    ],
)
def test_own_loads_keep_the_limits(file: str, load: str, folder: Path, demo_series: Series) -> None:
    """The session asks for 6 kg: half of that is 3 kg."""
    _, session = session_of(demo_series, folder, "", "steady-pull", file)
    assert str(given(session, "backpack-row").load) == load


@pytest.mark.parametrize(
    ("extra", "told"),
    [
        ('exercises: {towel-row: {dose: "80"}}', "80 repetitions in a set: is that a slip?"),
        ('exercises: {towel-row: {dose: "60"}}', ""),
        ("exchanges: {squat-thrust: {exercise: chair-squat, dose: 40 min}}", "2400 s in a set"),
        ("proposals: [{form: towel-row, dose: 120}]", "120 repetitions in a set"),
        (
            'exercises: {towel-row: {dose: "max, 0 in reserve"}}',
            "max, 0 in reserve is a set until nothing more",
        ),
    ],
)
def test_a_slip_of_a_digit_in_her_amounts(extra: str, told: str, folder: Path, demo_series: Series) -> None:
    client, _ = session_of(demo_series, folder, "", "steady-pull", extra + "\n")
    found = [p.message for p in check_client(demo_series, client) if p.check in ("too-much", "to-failure")]
    assert len(found) == bool(told)
    assert all(message.startswith(told) for message in found)


def test_a_shorter_dose_of_her_own_is_not_cut_again(folder: Path, demo_series: Series) -> None:
    """Four in reserve take a repetition off the eight filmed with three; her own six stay six."""
    limit = "limits: {effort: at least 4 in reserve}"
    _, filmed = session_of(demo_series, folder, "", "steady-pull", limit)
    _, own = session_of(
        demo_series, folder, "", "steady-pull", f"{limit}\nexercises: {{backpack-row: {{dose: 6}}}}"
    )
    assert str(given(filmed, "backpack-row").dose) == "7"
    assert str(given(own, "backpack-row").dose) == "6"
    assert str(given(own, "backpack-row").effort) == "4 in reserve"


def test_kit_that_is_not_at_home_is_never_asked_for(folder: Path, demo_series: Series) -> None:
    _, session = session_of(demo_series, folder, "", "steady-pull", "kit: [wall, sturdy-chair, counter]")
    used = {p for _, items in session.blocks for one in items if one.version for p in one.version.form.kit}
    assert used <= {"wall", "sturdy-chair", "counter"}


def test_where_nothing_fits_there_is_a_gap_and_a_warning(folder: Path, demo_series: Series) -> None:
    client, session = session_of(
        demo_series,
        folder,
        "",
        "steady-pull",
        "avoids: [standing, lying flat, getting to the floor]\nkit: []",
    )
    gaps = [one for _, one in session.gaps]
    assert gaps
    kept = [i.exercise for b in session.episode.blocks for i in b.items]
    assert len(kept) + len(gaps) == sum(len(b.items) for b in session.filmed.blocks)
    told = [p for p in check_client(demo_series, client) if p.check == "client-gap"]
    assert any("nothing fits instead of" in p.message for p in told)


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("age: 78", True),
        ("age: 64", False),
        ("age: 78\nlimits: {effort: at least 4 in reserve}", False),
        ("", False),
    ],
)
def test_hard_sets_at_an_age_are_asked_about(
    lines: str, told: bool, folder: Path, demo_series: Series
) -> None:
    client, _ = session_of(demo_series, folder, "", "ballast", lines)

    found = [p for p in check_client(demo_series, client) if p.check == "hard-at-her-age"]

    assert len(found) == told
    assert all("is 78, and" in one.message and "asks for an effort of" in one.message for one in found)


def test_sessions_that_no_video_shows_are_told(folder: Path, demo_series: Series) -> None:
    unfilmed = {"ballast", "lee-shore"}
    sessions = (replace(one, video=None) if one.slug in unfilmed else one for one in demo_series.episodes)
    series = replace(demo_series, episodes=tuple(sessions))
    client, _ = session_of(series, folder, "", "ballast", "skip: [lee-shore]")

    [problem] = [p for p in check_client(series, client) if p.check == "not-filmed"]

    assert problem.message == "no video shows her how: 'Ballast'"


@pytest.mark.parametrize(
    ("exchange", "word"),
    [
        ("skater-step: {exercise: side-hop, dose: 20 s}", "jumping"),
        ("backpack-row: {exercise: towel-row, dose: 8}", "its kit is not at home"),
    ],
)
def test_an_unsafe_exchange_is_a_problem(exchange: str, word: str, folder: Path, demo_series: Series) -> None:
    extra = f"avoids: [jumping]\nkit: [backpack, sturdy-chair, wall]\nexchanges: {{{exchange}}}"
    client, _ = session_of(demo_series, folder, "", "steady-pull", extra)
    found = [p for p in check_client(demo_series, client) if p.check == "client-exchange"]
    assert [p.severity for p in found] == ["problem"]
    assert f"is not safe for {client.name}: {word}" in found[0].message


@pytest.mark.parametrize(
    ("heeds", "given_as_filmed"),
    [
        ("age: 60\n", True),
        ("avoids: [kneeling]\n", False),
        ("needs: [no-kneeling]\n", False),
        ("limits: {effort: at most RPE 6}\n", False),
    ],
    ids=["nothing", "a demand of her own", "a need", "a limit"],
)
def test_what_nothing_is_told_of_is_for_nobody_who_has_to_avoid_something(
    heeds: str, given_as_filmed: bool, folder: Path, demo_series: Series
) -> None:
    row = demo_series.exercises["backpack-row"]
    series = replace(
        demo_series, exercises={**demo_series.exercises, row.id: replace(row, demands=(UNTOLD,))}
    )
    client, session = session_of(series, folder, "", "steady-pull", heeds)
    [item] = [one for _, items in session.blocks for one in items if one.filmed.exercise == row.id]
    assert (item.version is not None and not item.version.steps) == given_as_filmed
    in_the_way = Tailor(series, client).in_the_way(FormKey(row.id))
    assert in_the_way == (() if given_as_filmed else (UNTOLD,))


def test_a_gap_of_untold_demands_sends_to_the_exercise(folder: Path, demo_series: Series) -> None:
    row = replace(demo_series.exercises["backpack-row"], demands=(UNTOLD,), variants=())
    series = replace(demo_series, exercises={**demo_series.exercises, row.id: row})
    client, _ = session_of(series, folder, "", "steady-pull", "sex: man\navoids: [kneeling]\n")
    told = [p for p in check_client(series, client) if p.check == "client-gap" and row.id in p.message]
    assert told
    assert told[0].advice.startswith(
        f"write demands: for {row.id} in the file of the exercise {row.id} first"
    )


def test_warnings_about_a_client_call_nobody_her(folder: Path, demo_series: Series) -> None:
    extra = (
        "sex: man\navoids: [standing]\nkit: []\nexchanges: {squat-thrust: {exercise: side-hop, dose: 9}}\n"
    )
    texts = []
    for more in ("", extra):
        client, _ = session_of(demo_series, folder, "", "steady-pull", more)
        texts += [f" {p.message} {p.advice} " for p in check_client(demo_series, client)]
    assert len(texts) > 1
    assert [text for text in texts if re.search(r"\b(?:she|her|herself)\b", text)] == []


@pytest.mark.parametrize(
    ("avoids", "told"),
    [("jumping", []), ("kneeling", ["kneeling"]), ("kneeling, jumping, head low", ["kneeling", "head low"])],
)
def test_a_word_that_no_exercise_is_marked_with_changes_nothing_for_her(
    avoids: str, told: list[str], tmp_path: Path
) -> None:
    starter = SeriesFolder(tmp_path)
    series = read_series(starter.root)
    path = tmp_path / "clients" / "mabel.yaml"
    path.parent.mkdir()
    path.write_text(f"name: Mabel\navoids: [{avoids}]\n", encoding="utf-8")

    found = [p for p in check_clients(path.parent, series) if p.check == "demand-never-declared"]
    assert [(p.line, p.message) for p in found] == [
        (2, f"no exercise is marked with {word!r}: avoiding it changes nothing for Mabel") for word in told
    ]


def test_an_accepted_proposal_is_her_amount(folder: Path, demo_series: Series) -> None:
    extra = "proposals: [{form: backpack-row, load: 8.5 kg, why: two more on two sessions, accept: %s}]\n"
    for accept, load in (("no", "8 kg"), ("yes", "8.5 kg")):
        _, session = session_of(demo_series, folder, "tobias-wren", "steady-pull", extra % accept)
        assert str(given(session, "backpack-row").load) == load


# --- nothing goes out ------------------------------------------------------------------------


def test_a_new_series_keeps_its_clients_out_of_version_control(tmp_path: Path) -> None:
    assert main(["begin", str(tmp_path / "mine")]) == 0
    clients = tmp_path / "mine" / "clients"
    (clients / "ada.yaml").write_text("name: Ada\n", encoding="utf-8")
    subprocess.run(["git", "init", "-q", str(tmp_path / "mine")], check=True)
    status = ["git", "-C", str(tmp_path / "mine"), "status", "--porcelain", "--untracked-files=all"]
    listed = subprocess.run(status, check=True, capture_output=True, text=True).stdout
    assert "content/series.yaml" in listed
    assert "clients" not in listed
    assert clients.stat().st_mode & 0o077 == 0


def test_the_code_of_a_plan_cannot_be_found_by_trying_names(tmp_path: Path) -> None:
    """It goes with her calendar; another folder gives the same name another code, the same one always its own."""
    (tmp_path / "one").mkdir()
    (tmp_path / "other").mkdir()
    key = plan_key(tmp_path / "one")
    assert plan_key(tmp_path / "one") == key
    assert (tmp_path / "one" / ".plan-key").stat().st_mode & 0o077 == 0
    codes = {plan_code(key, "ada"), plan_code(key, "eva"), plan_code(plan_key(tmp_path / "other"), "ada")}
    assert len(codes) == 3
    assert plan_code(key, "ada") in codes


@pytest.mark.parametrize("text", ["", "0" * 63, "x" * 64, "é" * 64])
def test_a_damaged_key_is_no_key(text: str, tmp_path: Path) -> None:
    """Anybody could work out the codes that an empty one makes."""
    (tmp_path / ".plan-key").write_text(text, encoding="utf-8")
    with pytest.raises(ContentError) as why:
        plan_key(tmp_path)
    (problem,) = why.value.problems
    assert "is damaged" in problem.message
    assert (tmp_path / ".plan-key").read_text(encoding="utf-8") == text  # it may be put back yet


@pytest.mark.parametrize("links", [True, False])
def test_of_two_first_runs_the_quicker_one_makes_the_key(
    links: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """And nobody ever sees a key of which a part is written."""
    link, seen = os.link, []

    def overtaken(source: str, target: Path) -> None:
        assert len(Path(source).read_text()) == 64
        if not links:
            raise PermissionError
        if not seen:
            target.write_text("a" * 64)
        seen.append(source)
        link(source, target)

    monkeypatch.setattr(os, "link", overtaken)
    key = plan_key(tmp_path)
    assert (key == "a" * 64) == links
    assert plan_key(tmp_path) == key
    assert [path.name for path in tmp_path.iterdir()] == [".plan-key"]


def test_clients_in_the_content_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    content = series_with_people(tmp_path, episodes=1)
    (tmp_path / "clients").rename(content / "clients")
    out = tmp_path / "build"
    assert main(["build", "--content", str(content), "--out", str(out), "--pages-only"]) == 1
    told = capsys.readouterr().out
    assert "clients: problem: clients' files lie in the content folder" in told
    assert "move the folder clients out of it, beside the content folder" in told
    assert not out.exists() or not any(out.iterdir())


@pytest.mark.parametrize("place", ["clients", "clients/site"])
def test_a_site_is_not_built_among_the_clients(
    place: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = series_with_people(tmp_path, episodes=1)
    assert main(["build", "--content", str(content), "--out", str(tmp_path / place), "--pages-only"]) == 1
    assert "it would mix with the clients' files" in capsys.readouterr().out


def test_a_publication_does_not_go_among_the_clients(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = series_with_people(tmp_path, episodes=1)
    leave_out_unused(content)
    series = content / "series.yaml"
    series.write_text(series.read_text().replace("path: published", "path: clients/site"))
    command = [
        "publish",
        "--content",
        str(content),
        "--out",
        str(tmp_path / "build"),
        "--pages-only",
        "--yes",
    ]
    assert main([*command, "--include-upcoming"]) == 1
    assert "cannot be published to" in capsys.readouterr().err


def test_nothing_of_a_clients_file_is_in_a_site_or_a_publication(tmp_path: Path) -> None:
    """The site is the same to the byte with the clients beside it, and holds none of their own words."""
    content = series_with_people(tmp_path, episodes=1)
    shorten(content)
    leave_out_unused(content)
    options = ["--content", str(content), "--pages-only", "--include-upcoming"]
    (tmp_path / "clients").rename(tmp_path / "elsewhere")
    assert main(["build", *options, "--out", str(tmp_path / "bare")]) == 0
    (tmp_path / "elsewhere").rename(tmp_path / "clients")
    assert main(["publish", *options, "--out", str(tmp_path / "build"), "--yes"]) == 0
    bare = site_files(tmp_path / "bare")
    assert len(bare) > 50
    assert site_files(tmp_path / "build") == bare
    there = b" ".join((*map(str.encode, bare), *bare.values())).lower()
    own = {word for word in words_of_people() if not has_word(there, word)}
    assert set(RARE) <= own
    published = site_files(tmp_path / "published")
    assert bare.keys() <= published.keys()
    for address, data in published.items():
        text = address.encode() + b" " + data.lower()
        assert [word for word in RARE if has_word(text, word)] == [], address


def site_files(folder: Path) -> dict[str, bytes]:
    """Every file below a folder."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def words_of_people() -> set[str]:
    """Every word of the clients' files and of their names."""
    texts = (text for pair in PEOPLE.items() for text in pair)
    return {word.lower() for text in texts for word in re.findall(r"[^\W\d_]+", text)}


def has_word(text: bytes, word: str) -> bool:
    """Whether a word stands in some bytes, not inside another word."""
    return re.search(rb"(?<![a-z])%s(?![a-z])" % re.escape(word.encode()), text) is not None


def test_a_refused_run_says_that_the_plan_of_before_is_still_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = SeriesFolder(tmp_path).root
    clients = tmp_path / "clients"
    clients.mkdir()
    file = clients / "ada.yaml"
    file.write_text("name: Ada\nneed: [seated]\n", encoding="utf-8")
    words = ["client", "ada", "--content", str(content), "--no-pdf"]
    assert main(words) != 0
    assert "still the plan" not in capsys.readouterr().err
    file.write_text("name: Ada\nneeds: [seated]\n", encoding="utf-8")
    assert main(words) == 0
    [page] = (clients / "ada").glob("*-plan.html")
    os.utime(page, (datetime(2026, 11, 27, 10, 16).timestamp(),) * 2)
    file.write_text("name: Ada\nneed: [seated]\n", encoding="utf-8")
    capsys.readouterr()
    assert main(words) != 0
    said = capsys.readouterr().err
    assert "nothing was made" in said
    assert f"{page}: this is still the plan of 27 November 2026, 10:16" in said
    assert "do not send it" in said
