"""The steps of a your turn, from a block's data alone: every format, sides, ranges, gaps, uneven loads."""

from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page

from sitegen.model import Block, Details
from sitegen.notation import Duration
from sitegen.study.doses import dose_in
from sitegen.study.timing import block_time, item_sets, pauses
from tests.conftest import ROOT
from tests.study.series_parts import block as study_block
from tests.study.series_parts import details as study_details
from tests.study.series_parts import exercise, forms

SCRIPTS = ROOT / "themes/tidewater/scripts"


@pytest.fixture
def scripts(page: Page) -> Page:
    """An empty page with the scripts that need no page."""
    for name in ("turn-steps.js", "turn-run.js", "turn-words.js"):
        page.add_script_tag(path=Path(SCRIPTS / name))
    return page


def block(format: str, **more: Any) -> dict[str, Any]:
    return {
        "format": format,
        "sets": [1, 1],
        "exchange": [15, 15],
        "break": [60, 90],
        "side": [10, 10],
        "after": 0,
        "time": 0,
    } | more


def shown(step: dict[str, Any]) -> str:
    """``2.0.left 30 s`` for a set, ``rest set 90 s -> 1`` for a pause before item 1."""
    seconds = f" {step['seconds']} s" if step["seconds"] else ""
    if step["kind"] == "rest":
        target = "" if step["item"] is None else f" -> {step['item']}"
        return f"rest {step['why']}{seconds}{target}"
    return f"{step['id']}{seconds}{' maybe' if step.get('maybe') else ''}"


def steps(page: Page, block: dict[str, Any], items: list[dict[str, Any]]) -> list[str]:
    built = page.evaluate("([block, items]) => TurnSteps.build(block, items)", [block, items])
    return [shown(step) for step in built]


REPS: dict[str, Any] = {"seconds": 0, "sides": 1}
EACH_SIDE: dict[str, Any] = {"seconds": 0, "sides": 2}
TIMED: dict[str, Any] = {"seconds": 30, "sides": 1}
TIMED_SIDES: dict[str, Any] = {"seconds": 20, "sides": 2}
SKIP: dict[str, Any] = {"skip": "no version"}

CASES: dict[str, tuple[dict[str, Any], list[dict[str, Any]], list[str]]] = {
    "straight sets: all sets of one, then the next": (
        block("straight sets", sets=[2, 2]),
        [REPS, REPS],
        ["1.0", "rest set 90 s -> 0", "2.0", "rest exercise 15 s -> 1", "1.1", "rest set 90 s -> 1", "2.1"],
    ),
    "doses set by set have their own seconds": (
        block("straight sets", sets=[2, 2]),
        [TIMED | {"bySet": [["40 s", "", 40], ["20 s", "", 20]]}],
        ["1.0 40 s", "rest set 90 s -> 0", "2.0 20 s"],
    ),
    "a superset goes round by round": (
        block("superset", sets=[2, 2]),
        [REPS, REPS],
        [
            "1.0",
            "rest exercise 15 s -> 1",
            "1.1",
            "rest set 90 s -> 0",
            "2.0",
            "rest exercise 15 s -> 1",
            "2.1",
        ],
    ),
    "a tri-set": (
        block("tri-set"),
        [REPS, REPS, REPS],
        ["1.0", "rest exercise 15 s -> 1", "1.1", "rest exercise 15 s -> 2", "1.2"],
    ),
    "a giant set without rests": (
        block("giant set", exchange=[0, 0]),
        [REPS, REPS, REPS, REPS],
        ["1.0", "1.1", "1.2", "1.3"],
    ),
    "a circuit": (
        block("circuit", sets=[2, 2], exchange=[0, 0], **{"break": [45, 45]}),
        [TIMED, REPS],
        ["1.0 30 s", "1.1", "rest set 45 s -> 0", "2.0 30 s", "2.1"],
    ),
    "intervals": (
        block("intervals", sets=[2, 2], exchange=[20, 20], **{"break": [20, 20]}),
        [TIMED],
        ["1.0 30 s", "rest set 20 s -> 0", "2.0 30 s"],
    ),
    "as many rounds as possible is one countdown": (
        block("as many rounds as possible", time=360, after=120),
        [REPS, REPS],
        ["rounds 360 s", "rest after 120 s"],
    ),
    "every minute: the items take turns": (
        block("every minute on the minute", time=240),
        [TIMED, REPS, REPS],
        ["1 60 s", "2 60 s", "3 60 s", "4 60 s"],
    ),
    "each side: left, then right": (
        block("straight sets", sets=[2, 2]),
        [EACH_SIDE],
        ["1.0.left", "1.0.right", "rest set 90 s -> 0", "2.0.left", "2.0.right"],
    ),
    "timed sides need a moment to change over": (
        block("superset", exchange=[60, 60], side=[10, 10]),
        [TIMED_SIDES, REPS],
        ["1.0.left 20 s", "rest side 10 s -> 0", "1.0.right 20 s", "rest exercise 60 s -> 1", "1.1"],
    ),
    "sets beyond the fewest may be left out": (
        block("straight sets", sets=[2, 3]),
        [REPS],
        ["1.0", "rest set 90 s -> 0", "2.0", "rest set 90 s -> 0", "3.0 maybe"],
    ),
    "an item without a fitting version is left out": (
        block("tri-set", sets=[2, 2]),
        [SKIP, REPS, REPS],
        [
            "1.1",
            "rest exercise 15 s -> 2",
            "1.2",
            "rest set 90 s -> 1",
            "2.1",
            "rest exercise 15 s -> 2",
            "2.2",
        ],
    ),
    "nothing fits": (block("superset", after=60), [SKIP, SKIP], []),
    "every minute keeps its minute where an item is left out": (
        block("every minute on the minute", time=120),
        [SKIP, REPS],
        ["1 60 s", "2 60 s"],
    ),
    "a rest after the block ends it": (block("superset", after=60), [REPS], ["1.0", "rest after 60 s"]),
}


@pytest.mark.parametrize(("given", "items", "expected"), CASES.values(), ids=CASES)
def test_steps_of_every_format(
    scripts: Page, given: dict[str, Any], items: list[dict[str, Any]], expected: list[str]
) -> None:
    assert steps(scripts, given, items) == expected


def heavy(page: Page, plan: list[list[Any]], sides: int, sets: int) -> list[list[Any]]:
    item = {"seconds": 0, "sides": sides, "heavy": plan}
    built = page.evaluate(
        "([block, items]) => TurnSteps.build(block, items)",
        [block("straight sets", sets=[sets, sets]), [item]],
    )
    return [[one["heavy"]["hand"], one["heavy"]["swap"]] for one in built if one["kind"] == "work"]


def test_the_heavier_load_swaps_hands_as_planned(scripts: Page) -> None:
    plan = [["left", 0, ""], ["right", 0, ""], ["left", 4, "4 reps"]]

    assert heavy(scripts, plan, 1, 3) == [["left", 0], ["right", 0], ["left", 4]]


def test_with_sides_the_heavier_load_changes_with_the_side(scripts: Page) -> None:
    plan = [["left", 0, ""], ["right", 0, ""]]

    assert heavy(scripts, plan, 2, 2) == [["left", 0], ["right", 0], ["right", 0], ["left", 0]]


HELD = """([block, item, words]) => {
  const steps = TurnSteps.build(block, [item]);
  let now = 0;
  const run = TurnRun.create(steps, {}, () => now);
  const told = TurnWords.create(words);
  const held = () => told.textOf({block, items: [item], steps, run}).loads
    .map(load => `${load.hand} ${load.amount[0]}`.trim()).join();
  const found = [held()];
  run.main();
  if (!item.seconds) { run.main(); found.push(held()); }
  for (let at = 0; item.seconds && at < 3; at += 1) {
    for (let n = 0; n < 5; n += 1) { now += 2000; run.tick(); }
    found.push(held());
  }
  return found;
}"""


@pytest.mark.parametrize(
    ("item", "expected"),
    [
        pytest.param(
            REPS | {"setAmounts": [[["5", "kg", ""]], [["8", "kg", ""]]], "amounts": [["8", "kg", ""]]},
            ["5", "8"],
            id="each set has its own load, not that of the heaviest",
        ),
        pytest.param(
            {"seconds": 40, "sides": 1, "amounts": [["5", "kg", ""], ["3", "kg", ""]]}
            | {"heavy": [["right", 20, "after 20 s"]] * 2},
            ["left 3,right 5", "left 3,right 5", "left 5,right 3", "left 5,right 3"],
            id="left before right, the other way round once hands have changed",
        ),
    ],
)
def test_what_is_held_is_told_for_the_set_and_the_hand(
    scripts: Page, item: dict[str, Any], expected: list[str]
) -> None:
    hands = {"hand_left": "left", "hand_right": "right"}
    texts = ("set", "set_maybe", "round", "next", "swap", "care", "rest", "change", "ready", "get_ready")
    words = dict.fromkeys(texts, "") | hands
    given = block("straight sets", sets=[2, 2])

    assert scripts.evaluate(HELD, [given, item, words]) == expected


def test_a_range_of_rest_says_from_when_one_may_go_on(scripts: Page) -> None:
    given = [block("straight sets", sets=[2, 2]), [REPS]]
    rest = scripts.evaluate("([block, items]) => TurnSteps.build(block, items)[1]", given)

    assert (rest["seconds"], rest["ready"]) == (90, 30)


# --- the same time as the study works out ---------------------------------------------------------

TIMED_FORMATS = (
    "straight sets", "superset", "tri-set", "giant set", "circuit", "intervals",
    "every minute on the minute", "as many rounds as possible",
)  # fmt: skip


def drawn_block(random: Random) -> Block:
    """A block of timed items, so that the steps alone say how long it takes."""
    format = random.choice(TIMED_FORMATS)

    def length(most: int) -> str | None:
        low, more = random.randrange(0, most, 5), random.choice([0, 0, 15])
        return random.choice([None, f"{low} s" if not more else f"{low}-{low + more} s"])

    low, more = random.randint(1, 4), random.choice([0, 0, 1, 2])
    doses: tuple[str, ...] = (
        "plank 20 s",
        "plank 45 s",
        "plank 20-40 s",
        "plank 30 s each side",
        "plank 20-25 s each side",
    )
    if format == "intervals":
        doses = ("plank",)  # their length is the block's
    by_time = format in ("every minute on the minute", "as many rounds as possible")
    return study_block(
        format,
        *(random.choice(doses) for _ in range(random.randint(1, 5))),
        kind=random.choice(["warm-up", "conditioning", "strength", "mobility", "cool-down"]),
        sets=str(low) if not more else f"{low}-{low + more}",
        gap=length(60),
        rest=length(120),
        after=length(200),
        work=f"{random.choice([20, 30, 40])} s" if format == "intervals" else None,
        time=f"{random.randint(2, 12)} min" if by_time else None,
    )


def as_script_data(details: Details, done: Block) -> list[Any]:
    """The block and its items as the page's data has them."""
    exchange, break_ = pauses(details, done)
    change = details.changeover
    given = block(
        done.format,
        sets=[done.sets.low, done.sets.high],
        exchange=[exchange.low, exchange.high],
        side=[change.low, change.high],
        after=done.rest.after.high if done.rest.after else 0,
        time=done.time.high if done.time else 0,
        **{"break": [break_.low, break_.high]},
    )
    doses = [dose_in(done, item) for item in done.items]
    items = [{"seconds": dose.high, "sides": dose.sides} for dose in doses]
    return [given, items]


@pytest.mark.parametrize("count", [120, pytest.param(400, marks=pytest.mark.thorough)])
def test_the_steps_take_as_long_as_the_study_says(scripts: Page, count: int) -> None:
    """The most sets with the longest rests, over so many drawn blocks; and each item has as many sets."""
    random = Random(20260911)
    details = study_details(changeover=Duration(10, 15))
    library = forms(exercise("plank"))
    blocks = [drawn_block(random) for _ in range(count)]
    built = scripts.evaluate(
        "cases => cases.map(([block, items]) => TurnSteps.build(block, items))",
        [as_script_data(details, done) for done in blocks],
    )
    assert {done.format for done in blocks} == {*TIMED_FORMATS}
    for done, made in zip(blocks, built, strict=True):
        assert sum(step["seconds"] for step in made) == block_time(details, library, done).long.whole, done
        if done.format != "as many rounds as possible":
            begun = Counter(step["item"] for step in made if step.get("id") and step.get("side") != "right")
            sets = item_sets(details, library, done)
            assert [begun[n] for n in range(len(done.items))] == [span.high for span in sets], done


# --- going through the steps ---------------------------------------------------------------------

RUN = """
([steps, acts]) => {
  let now = 0;
  const run = TurnRun.create(steps, {}, () => now);
  const show = () => [run.at(), Math.ceil(run.left()), run.running()];
  return [show(), ...acts.map((act) => {
    if (typeof act === "number") for (let n = 0; n < act; n++) { now += 1000; run.tick(); }
    else run[act]();
    return show();
  })];
}
"""


def go(page: Page, given: dict[str, Any], items: list[dict[str, Any]], *acts: str | float) -> list[Any]:
    """Index, seconds left and whether it counts down: at first, and after each act (a number waits)."""
    built = page.evaluate("([block, items]) => TurnSteps.build(block, items)", [given, items])
    result: list[Any] = page.evaluate(RUN, [built, list(acts)])
    return result


def test_a_counted_set_waits_a_rest_counts_down_by_itself(scripts: Page) -> None:
    given = block("straight sets", sets=[2, 2], **{"break": [5, 5]})

    assert go(scripts, given, [REPS], 100, "main", 3, 2, "main") == [
        [0, 0, False],
        [0, 0, False],  # nothing happens by itself
        [1, 5, True],
        [1, 2, True],
        [2, 0, False],  # the rest is over
        [3, 0, False],  # all done
    ]


def test_timed_work_starts_when_told_and_then_goes_on_by_itself(scripts: Page) -> None:
    given = block("intervals", sets=[2, 2], **{"break": [10, 10]})

    assert go(scripts, given, [TIMED], 50, "main", 30, 10, 30) == [
        [0, 30, False],
        [0, 30, False],
        [0, 30, True],
        [1, 10, True],
        [2, 30, True],
        [3, 0, False],
    ]


def test_a_countdown_can_stand_and_go_on(scripts: Page) -> None:
    assert go(scripts, block("intervals"), [TIMED], "main", 10, "pause", 60, "main", 5) == [
        [0, 30, False],
        [0, 30, True],
        [0, 20, True],
        [0, 20, False],
        [0, 20, False],
        [0, 20, True],
        [0, 15, True],
    ]


def test_rounds_are_counted_until_the_time_is_up(scripts: Page) -> None:
    given = block("as many rounds as possible", time=60)
    rounds = """([steps]) => { let now = 0; const run = TurnRun.create(steps, {}, () => now);
        run.main(); run.main(); run.main();
        while (now < 61000) { now += 1000; run.tick(); }
        return [run.rounds(), run.step(), run.done("rounds")]; }"""
    built = scripts.evaluate("([block, items]) => TurnSteps.build(block, items)", [given, [REPS]])

    assert scripts.evaluate(rounds, [built]) == [2, None, True]


def test_back_undoes_the_last_set(scripts: Page) -> None:
    given = block("superset", sets=[1, 1])

    assert go(scripts, given, [REPS, REPS], "main", "main", "back", "back") == [
        [0, 0, False],
        [1, 15, True],
        [2, 0, False],
        [0, 0, False],
        [0, 0, False],
    ]


def test_a_set_marked_beforehand_is_passed_over_with_its_rest(scripts: Page) -> None:
    given = block("straight sets", sets=[3, 3])
    built = scripts.evaluate("([block, items]) => TurnSteps.build(block, items)", [given, [REPS]])
    at = """([steps]) => { const run = TurnRun.create(steps, {}, () => 0);
        run.toggle("2.0"); run.main(); return [run.at(), run.step().why]; }"""

    # steps: set 1, rest, set 2, rest, set 3; after set 1 comes the rest before set 3
    assert scripts.evaluate(at, [built]) == [3, "set"]


AWAY = """
([steps, acts]) => {
  let now = 0;
  let run = TurnRun.create(steps, {}, () => now, () => 0);
  const does = {
    sleep: seconds => { now += seconds * 1000; run.tick(); },
    hidden: seconds => { run.hide(); does.awake(seconds); run.show(); },
    closed: seconds => { const kept = JSON.parse(JSON.stringify(run.state())); now += seconds * 1000;
                         run = TurnRun.create(steps, kept, () => now, () => 0); },
    awake: seconds => { for (let n = 0; n < seconds; n++) { now += 1000; run.tick(); } },
    set_back: seconds => { now -= seconds * 1000; run.tick(); },
  };
  for (const [act, seconds] of acts) (does[act] || run[act])(seconds);
  const left = Math.round(run.left());
  return {done: run.state().done, at: run.at(), left, running: run.running(), away: run.away()};
}
"""

AWAY_CASES: dict[str, tuple[list[list[Any]], dict[str, Any]]] = {
    "asleep in the first of many timed sets": (
        [["main"], ["awake", 10], ["sleep", 900]],
        {"done": [], "at": 0, "left": 20, "running": False, "away": 900},
    ),
    "in the background, where timers may run on": (
        [["main"], ["awake", 10], ["hidden", 900]],
        {"done": [], "at": 0, "left": 20, "running": False, "away": 900},
    ),
    "closed and opened again": (
        [["main"], ["awake", 10], ["closed", 900]],
        {"done": [], "at": 0, "left": 20, "running": False, "away": 900},
    ),
    "for a second only": (
        [["main"], ["awake", 10], ["hidden", 1]],
        {"done": [], "at": 0, "left": 20, "running": False, "away": 1},
    ),
    "and away again before the answer: from the first time on": (
        [["main"], ["awake", 10], ["sleep", 60], ["awake", 5], ["sleep", 60]],
        {"done": [], "at": 0, "left": 20, "running": False, "away": 125},
    ),
    "going on begins the interrupted set again": (
        [["main"], ["awake", 10], ["sleep", 60], ["main"], ["awake", 5]],
        {"done": [], "at": 0, "left": 25, "running": True, "away": 0},
    ),
    "going on from a rest goes to the next set": (
        [["main"], ["awake", 35], ["sleep", 60], ["main"]],
        {"done": ["1.0"], "at": 2, "left": 30, "running": True, "away": 0},
    ),
    "back goes to the last set": (
        [["main"], ["awake", 35], ["sleep", 60], ["back"]],
        {"done": [], "at": 0, "left": 30, "running": False, "away": 0},
    ),
    "a timer that comes late by less than three seconds is no absence": (
        [["main"], ["awake", 10], ["sleep", 2]],
        {"done": [], "at": 0, "left": 18, "running": True, "away": 0},
    ),
    "a clock that is set back takes nothing away": (
        [["main"], ["awake", 10], ["set_back", 3600], ["awake", 1]],
        {"done": [], "at": 0, "left": 19, "running": True, "away": 0},
    ),
    "before anything began": (
        [["sleep", 900]],
        {"done": [], "at": 0, "left": 30, "running": False, "away": 0},
    ),
    "while it was paused for a moment": (
        [["main"], ["awake", 10], ["pause"], ["sleep", 60]],
        {"done": [], "at": 0, "left": 20, "running": False, "away": 0},
    ),
}  # fmt: skip


@pytest.mark.parametrize(("acts", "expected"), AWAY_CASES.values(), ids=AWAY_CASES)
def test_time_away_counts_nothing_and_is_told(
    scripts: Page, acts: list[list[Any]], expected: dict[str, Any]
) -> None:
    given = block("intervals", sets=[6, 6], **{"break": [10, 10]})
    built = scripts.evaluate("([block, items]) => TurnSteps.build(block, items)", [given, [TIMED]])

    assert scripts.evaluate(AWAY, [built, acts]) == expected


READY = """
([steps, waits]) => {
  let now = 0;
  const run = TurnRun.create(steps, {}, () => now, () => 5);
  run.main();
  return waits.map(seconds => {
    for (let n = 0; n < seconds * 2; n++) { now += 500; run.tick(); }
    return [run.at(), run.ready(), run.resting(), run.side(), Math.ceil(run.left())];
  });
}
"""


def test_five_seconds_to_get_ready_come_before_timed_work_that_one_starts(scripts: Page) -> None:
    """After a rest that counted down there are none more: its last seconds are for getting ready."""
    given = block("intervals", sets=[2, 2], **{"break": [10, 10]})
    built = scripts.evaluate("([block, items]) => TurnSteps.build(block, items)", [given, [TIMED]])

    assert scripts.evaluate(READY, [built, [0, 4, 1, 30, 10]]) == [
        [0, True, False, "", 5],
        [0, True, False, "", 1],
        [0, False, False, "", 30],
        [1, False, False, "", 10],
        [2, False, False, "", 30],
    ]


def test_a_minute_marks_where_its_work_ends_and_where_the_side_changes(scripts: Page) -> None:
    given = block("every minute on the minute", time=120)
    built = scripts.evaluate("([block, items]) => TurnSteps.build(block, items)", [given, [TIMED_SIDES]])

    assert scripts.evaluate(READY, [built, [5, 19, 1, 20, 20]]) == [
        [0, False, False, "left", 20],
        [0, False, False, "left", 1],
        [0, False, False, "right", 20],
        [0, False, True, "", 20],
        [1, False, False, "left", 20],
    ]
