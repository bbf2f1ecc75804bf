"""What is typed instead of a name leads to what is meant: a need, an empty home, a part, a muscle, kit."""

import pytest
from playwright.sync_api import Page, expect

from sitegen.model import Series
from tests.browser.finder import ask, names, open_index, search


def offered(page: Page) -> list[str]:
    return page.locator("#finder-answers button").all_text_contents()


KNEES = ["Sore knees: versions for this need", "No kneeling: versions for this need"]
NOTHING = "With nothing at all at home: exercises without kit"
WARM_UP = "Warm-up: exercises shown in this part of a session"
WHEELCHAIR = "From a wheelchair, without the legs: versions for this need"


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("sore knees", KNEES[0]),
        ("my knee hurts", KNEES[0]),
        ("knee pain", KNEES[0]),
        ("can't kneel", KNEES[1]),
        ("sore shoulder", "Sore shoulder: versions for this need"),
        ("back pain", "Back pain or disc: versions for this need"),
        ("wrist pain", "Sore wrists: versions for this need"),
        ("weak grip", "Weak grip: versions for this need"),
        ("osteoporosis", "Osteoporosis: versions for this need"),
        ("blood pressure", "Blood pressure or hernia: versions for this need"),
        ("no jumping", "No jumping: versions for this need"),
        ("wheelchair", WHEELCHAIR),
        ("wheelchiar", WHEELCHAIR),
        ("seated", "Whole session seated: versions for this need"),
        ("no equipment", NOTHING),
        ("without kit", NOTHING),
        ("bodyweight", NOTHING),
        ("tummy", "abdominals: exercises that train it"),
        ("quads", "quadriceps: exercises that train it"),
        ("warm up", WARM_UP),
        ("Warm-up", WARM_UP),
        ("warmup", WARM_UP),
        ("stretching", "Mobility: exercises shown in this part of a session"),
        ("squat", "squat: exercises with this movement"),
        ("umbrella", "Broom handle: exercises that use it"),
    ],
)
def test_what_is_meant_comes_first(index: Page, words: str, first: str) -> None:
    search(index, words)

    assert offered(index)[0] == first


@pytest.mark.parametrize(
    "words", ["goblet squat", "push-up knees", "s", "no", "pain", "neck pain", "up", "qqqq"]
)
def test_nothing_is_guessed(index: Page, words: str) -> None:
    search(index, words)

    assert offered(index) == []


@pytest.mark.parametrize("words", ["sore back", "bad shoulder", "no abs", "without chair", "weak legs"])
def test_nobody_with_a_complaint_is_sent_to_train_it(index: Page, words: str) -> None:
    search(index, words)

    assert [one for one in offered(index) if not one.endswith(": versions for this need")] == []


@pytest.mark.parametrize("words", ["knee pain", "no jumping", "no equipment", "warm up", "pain"])
def test_exercises_that_are_only_called_alike_are_left_out(index: Page, words: str) -> None:
    search(index, words)

    assert names(index) == []


def test_two_wishes_at_once(index: Page) -> None:
    search(index, "bad knees, no equipment")

    assert offered(index) == [*KNEES, NOTHING]


@pytest.mark.parametrize(
    ("words", "said"), [("knee pain", True), ("neck pain", True), ("knees", False), ("weak grip", False)]
)
def test_where_something_hurts_the_doctor_comes_first(index: Page, words: str, said: bool) -> None:
    search(index, words)
    care = index.locator("#finder-care")

    expect(care).to_be_visible(visible=said)
    if said:
        expect(care).to_contain_text("ask your doctor or physiotherapist first")
        expect(care.get_by_role("link")).to_have_attribute("href", "../needs/index.html")


@pytest.mark.parametrize(
    ("words", "address"),
    [
        ("sore knees", "need=easy-knees"),
        ("no equipment", "home=_none"),
        ("tummy", "muscle=abdominals"),
        ("warm up", "part=warm-up"),
        ("umbrella", "kit=broom-handle"),
    ],
)
def test_an_answer_sets_its_filter(index: Page, words: str, address: str) -> None:
    search(index, words)
    index.locator("#finder-answers button").first.click()

    index.wait_for_url(f"**?{address}")
    expect(index.get_by_role("searchbox")).to_have_value("")
    expect(index.locator("#finder-count")).to_be_focused()
    expect(index.locator("#finder-count")).to_contain_text("exercises")


def test_answers_lead_to_pages_that_are_there(index: Page, demo_url: str) -> None:
    for words, page in {
        "sore knees": "needs/easy-knees/",
        "no equipment": "exercises/by/",
        "tummy": "exercises/by/",
        "umbrella": "exercises/by/",
    }.items():
        search(index, words)
        address = index.locator("#finder-answers a").first.evaluate("link => link.href")
        assert address.startswith(demo_url + page)
        assert index.request.get(address).ok


def test_answers_are_announced_and_reached_by_keyboard(index: Page) -> None:
    search(index, "sore knees")

    expect(index.get_by_role("status").filter(has_text="Sore knees")).to_have_text(". ".join(KNEES))
    index.get_by_role("searchbox").press("ArrowDown")
    expect(index.get_by_role("button", name=KNEES[0])).to_be_focused()


# --- what filters show ----------------------------------------------------------------------


def test_a_need_says_how_much_stays_as_it_is(index: Page, demo_series: Series) -> None:
    ask(index)
    for need in demo_series.details.needs.values():
        avoided = {*need.avoids, *([] if need.limits.speed else ["speed"])}
        exercises = demo_series.exercises.values()
        same = sum(avoided.isdisjoint(exercise.demands) for exercise in exercises)
        told = index.locator(f"[data-list=need] label:has([value={need.id}]) .tick-count")
        words = ("1 as it is" if same == 1 else f"{same} as they are") if same else "in another version"
        expect(told).to_contain_text(words)


# --- links that were sent -------------------------------------------------------------------


def test_a_link_with_needs_says_so_at_the_top(index: Page) -> None:
    """Of a phone's page ``test_search_filters.py`` says so."""
    ask(index, "?need=seated,weak-grip")
    line = index.locator("#finder-shown-for")

    expect(line).to_have_text("Only versions for: Whole session seated, Weak grip. Change")
    expect(line).to_be_in_viewport(ratio=1)
    line.get_by_role("link", name="Change").click()
    expect(index.get_by_role("checkbox", name="Whole session seated")).to_be_visible()


@pytest.mark.parametrize(
    ("query", "lost"),
    [
        ("?need=sore-knee", "“sore-knee”"),
        ("?need=seated,sore-knee", "“sore-knee”"),
        ("?pattern=dance&kit=gone", "“dance”, “gone”"),
        ("?episode=gone", "“gone”"),
        ("?part=party", "“party”"),
    ],
)
def test_what_a_link_asks_in_vain_is_said(index: Page, query: str, lost: str) -> None:
    ask(index, query)
    alarm = index.locator("#finder-unknown")

    expect(alarm).to_contain_text(f"This link asks for {lost}, which is not offered here")
    alarm.get_by_role("button", name="Go on without it").click()
    expect(alarm).to_be_hidden()


def test_what_a_link_asks_in_vain_stays_in_the_address_until_it_is_given_up(
    page: Page, demo_url: str
) -> None:
    open_index(page, demo_url, "?need=seated,sore-knee")
    alarm = page.locator("#finder-unknown")
    search(page, "towel")
    page.wait_for_url("**q=towel**")
    page.reload()
    expect(alarm).to_contain_text("“sore-knee”")
    alarm.get_by_role("button", name="Go on without it").click()
    expect(alarm).to_be_hidden()
