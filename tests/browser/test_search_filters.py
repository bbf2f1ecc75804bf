"""Filters: what passes, the live numbers, the address that can be sent, keyboard and names."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from sitegen.model import Series
from sitegen.study.forms import Form, FormKey, forms_of
from tests.browser.finder import INDEX, all_names, ask, found, names, open_index, search, tick

STATES = {
    "two needs": {"need": ["arms-low", "no-jumping"]},
    "all the needs": {"need": ["seated", "weak-grip", "arms-low", "thin-bones"]},
    "nothing at home": {"home": ["_none"]},
    "a chair and a towel": {"home": ["sturdy-chair", "bath-towel"]},
    "at home and a need": {"home": ["sturdy-chair"], "need": ["no-floor"]},
    "two movements": {"pattern": ["squat", "hinge"]},
    "a muscle and kit": {"muscle": ["hamstrings"], "kit": ["backpack", "water-carrier"]},
    "a part of a session": {"part": ["warm-up"]},
    "two parts and a need": {"part": ["cool-down", "mobility"], "need": ["no-floor"]},
    "no kit": {"kit": ["_none"], "pattern": ["trunk"]},
    "easier without kneeling": {"kind": ["regression"], "need": ["no-kneeling"], "muscle": ["abdominals"]},
}


def passes(series: Series, form: Form, state: dict[str, list[str]]) -> bool:
    """Worked out from the content files alone, form by form."""
    slug = {
        pattern: pattern.replace(" ", "-")
        for pattern in [form.pattern, *form.muscles.prime, *form.muscles.assist]
    }
    own = {
        "pattern": {slug[form.pattern]},
        "muscle": {slug[muscle] for muscle in (*form.muscles.prime, *form.muscles.assist)},
        "kit": set(form.kit) or {"_none"},
    }
    needs = [series.details.needs[need] for need in state.get("need", [])]
    avoided = {demand for need in needs for demand in need.avoids}
    avoided |= {"speed" for need in needs if not need.limits.speed}
    return (
        all(not form.link and own[name] & set(state[name]) for name in own if name in state)
        and not avoided & set(form.demands)
        and ("home" not in state or set(form.kit) <= set(state["home"]))
        and ("part" not in state or not shown_in(series, form).isdisjoint(state["part"]))
        and ("kind" not in state or form.change in state["kind"])
    )


def shown_in(series: Series, form: Form) -> set[str]:
    """Kinds of the parts whose items are this form."""
    return {
        block.kind
        for episode in series.episodes
        for block in episode.blocks
        for item in block.items
        if (item.exercise, item.variant) == (form.key.exercise, form.key.variant)
    }


def expected(series: Series, state: dict[str, list[str]]) -> set[str]:
    """Names of the exercises with a form that passes."""
    forms = forms_of(series.exercises)
    return {
        exercise.name
        for exercise in series.exercises.values()
        for variant in (None, *(v.id for v in exercise.variants))
        if passes(series, forms[FormKey(exercise.id, variant)], state)
    }


def address(state: dict[str, list[str]]) -> str:
    return "?" + "&".join(f"{name}={','.join(values)}" for name, values in state.items())


@pytest.mark.parametrize("state", STATES.values(), ids=STATES)
def test_an_address_shows_what_the_content_says(
    index: Page, demo_series: Series, state: dict[str, list[str]]
) -> None:
    ask(index, address(state))
    wanted = expected(demo_series, state)

    assert all_names(index) == wanted
    assert found(index) == len(wanted) > 0


BASES = {
    "nothing chosen": "",
    "a search": "?q=towel",
    "a need and what is at home": "?need=no-floor&home=sturdy-chair",
    "a movement": "?pattern=squat",
}
RARER = ("nothing chosen", "a movement")
"""A search narrows what is counted, and needs with a home choose among forms: these two stay in every run."""


@pytest.mark.parametrize(
    "base",
    [
        pytest.param(query, id=name, marks=pytest.mark.thorough if name in RARER else ())
        for name, query in BASES.items()
    ],
)
def test_every_number_is_what_the_tick_brings(index: Page, base: str) -> None:
    ask(index, base)
    chosen = {part.split("=")[0] for part in base.removeprefix("?").split("&")}
    wrong = index.evaluate(
        """chosen => {
        const ticks = [...document.querySelectorAll("#finder-filters input[type=checkbox]")].filter((tick) =>
          // In a list where something is ticked already, a further tick widens instead of narrowing.
          !tick.checked && !(chosen.includes(tick.name) && !["need", "home"].includes(tick.name))
          && !(tick.value === "_none" && chosen.includes("home") && tick.name === "home"));
        // A need says how many stay as they are and how many need another version.
        const numbers = (tick) => tick.parentElement.lastElementChild.textContent.match(/[0-9]+/g);
        const said = ticks.map((tick) => numbers(tick).reduce((sum, one) => sum + Number(one), 0));
        const found = ticks.map((tick) => {
          tick.checked = true;
          tick.dispatchEvent(new Event("change", {bubbles: true}));
          tick.checked = false;
          return Number((document.getElementById("finder-count").textContent.match(/[0-9]+/) || [0])[0]);
        });
        return ticks.map((tick, place) => [tick.name, tick.value, said[place], found[place]])
          .filter(([, , said, found]) => said !== found); }""",
        sorted(chosen),
    )

    assert wrong == []


def test_a_result_names_the_forms_that_pass_together(index: Page) -> None:
    ask(index, "?q=towel+row&need=seated&home=sturdy-chair")
    forms = index.locator(".hit", has=index.get_by_role("heading", name="Towel row", exact=True)).locator(
        "[data-line=forms]"
    )

    # The seated towel row needs a towel, which is not at home.
    expect(forms).to_have_text("Fits as: Elbow press in the chair (easier)")


def test_a_stand_in_is_as_good_as_the_piece(index: Page) -> None:
    ask(index, "?home=broom-handle")
    with_broom = all_names(index)
    ask(index, "?home=broom-handle:a-mop-handle")

    expect(index.locator("#finder-chosen li")).to_contain_text("a mop handle")
    assert all_names(index) == with_broom


@pytest.mark.parametrize(
    ("query", "label"),
    [
        ("?week=2", "Week 2"),
        ("?episode=steady-pull", "3. Steady pull"),
        ("?shown=never", "in no session yet"),
    ],
)
def test_where_shown(index: Page, demo_series: Series, query: str, label: str) -> None:
    by_value = {
        "?week=2": demo_series.episodes[3:6],
        "?episode=steady-pull": demo_series.episodes[2:3],
        "?shown=never": demo_series.episodes,
    }
    shown = {e for episode in by_value[query] for e in episode.exercises}
    wanted = set(demo_series.exercises) - shown if "never" in query else shown
    ask(index, query)
    chosen = index.locator("#finder-shown option:checked")

    assert all_names(index) == {demo_series.exercise(exercise).name for exercise in wanted}
    assert chosen.text_content() == f"{label} ({len(wanted)})"


def test_the_choice_of_episodes_counts_when_it_is_looked_at(index: Page) -> None:
    ask(index, "?q=goblet+squat")
    expect(index.locator("#finder-count")).to_have_text("1 exercise")
    index.get_by_label("Where shown").focus()
    options = index.locator("#finder-shown option").all_text_contents()

    assert [one for one in options if one.endswith("(1)")] == [
        "Week 2 (1)",
        "Week 3 (1)",
        "4. Rising tide (1)",
        "7. Night watch (1)",
    ]


# --- the address ----------------------------------------------------------------------------


def test_the_state_is_in_the_address_and_an_address_restores_it(
    index: Page, page: Page, demo_url: str
) -> None:
    search(index, "towel row")
    tick(index, "need", "arms-low")
    tick(index, "home", "bath-towel")
    tick(index, "home", "sturdy-chair:a-bench-fixed-to-the-wall")
    tick(index, "kind", "regression")
    index.locator("#finder-shown").select_option("week:2")
    index.wait_for_url("**?q=*&home=*&need=*&kind=*&week=2")
    sent = index.url
    assert sent.endswith(
        "?q=towel+row&home=sturdy-chair:a-bench-fixed-to-the-wall,bath-towel&need=arms-low&kind=regression&week=2"
    )

    page.goto(sent)  # somebody else, who has nothing of it on her device
    expect(page.locator("#finder-count")).to_have_text(index.locator("#finder-count").inner_text())
    expect(page.get_by_role("searchbox")).to_have_value("towel row")
    expect(page.locator("#finder-shown")).to_have_value("week:2")
    assert page.locator("#finder-filters input:checked").count() == 4
    assert names(page) == names(index)


def test_by_keyboard_to_a_result_and_back_where_everything_is_as_it_was(page: Page, demo_url: str) -> None:
    open_index(page, demo_url)
    tick(page, "need", "seated")
    search(page, "goblet")
    page.wait_for_url("**?q=goblet&need=seated")
    page.get_by_role("searchbox").press("ArrowDown")
    expect(page.locator(".hits a").first).to_be_focused()
    page.keyboard.press("Enter")
    page.wait_for_url("**/goblet-squat/index.html")
    page.go_back()

    expect(page.locator(".hits h3").first).to_have_text("Goblet squat")
    expect(page.locator("[data-list=need] input:checked")).to_have_count(1)


def test_an_address_with_words_nobody_knows_is_no_problem(page: Page, demo_url: str) -> None:
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    open_index(page, demo_url, "?pattern=dance&need=,&episode=gone&week=99&shown=x&home=%00&__proto__=1")

    expect(page.locator("#every-exercise")).to_be_visible()
    assert errors == []


def test_nothing_asked_leaves_a_clean_address(index: Page, demo_url: str) -> None:
    ask(index, "?q=row&need=seated")
    index.get_by_role("button", name="Clear everything").click()
    index.wait_for_url(f"{demo_url}{INDEX}")

    expect(index.get_by_role("searchbox")).to_be_focused()
    expect(index.locator("#every-exercise")).to_be_visible()


# --- by keyboard and by ear -----------------------------------------------------------------


def test_a_filter_is_set_and_taken_away_by_keyboard_alone(index: Page) -> None:
    ask(index)
    index.get_by_role("searchbox").focus()
    for _ in range(40):
        index.keyboard.press("Tab")
        if index.evaluate("document.activeElement.value") == "no-kneeling":
            break
    index.keyboard.press("Space")
    expect(index.get_by_role("checkbox", name="No kneeling")).to_be_checked()
    expect(index.locator("#finder-count")).to_have_text("67 exercises")

    index.get_by_role("button", name="Remove No kneeling").focus()
    index.keyboard.press("Enter")
    expect(index.get_by_role("checkbox", name="No kneeling")).not_to_be_checked()
    expect(index.get_by_role("searchbox")).to_be_focused()


def test_names_for_a_screen_reader(index: Page) -> None:
    ask(index, "?pattern=squat")

    expect(index.get_by_role("search", name="Exercises")).to_be_visible()
    box = index.get_by_role("searchbox", name="Search by name, muscle, movement or kit")
    expect(box).to_have_accessible_description(
        "A misspelt or half a word will do. Press the down arrow for the first result."
    )
    group = index.get_by_role("group", name="Movement", exact=True)
    expect(group.get_by_role("checkbox", checked=True)).to_have_accessible_name("squat 5")
    expect(index.get_by_role("form", name="Filters")).to_be_visible()
    expect(index.get_by_role("list", name="Chosen filters").get_by_role("button")).to_have_accessible_name(
        "Remove squat"
    )
    expect(index.get_by_role("region", name="5 exercises")).to_be_visible()


def test_a_filter_in_the_address_is_unfolded_and_stand_ins_are_grouped_under_their_piece(
    page: Page, demo_url: str
) -> None:
    open_index(page, demo_url, "?home=cushion")
    group = page.get_by_role("group", name="Instead of: Cushion")

    assert group.get_by_role("checkbox").count() == 3


def test_filters_are_folded_away_on_a_phone_and_the_needs_of_a_link_are_said_at_the_top(
    page: Page, demo_url: str
) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    open_index(page, demo_url, "?need=seated,weak-grip")
    line = page.locator("#finder-shown-for")

    expect(page.get_by_role("checkbox", name="No jumping")).to_be_hidden()
    expect(page.locator("#finder-filters > details > summary")).to_have_text("Filters 2 chosen")
    expect(line).to_have_text("Only versions for: Whole session seated, Weak grip. Change")
    expect(line).to_be_in_viewport(ratio=1)
    line.get_by_role("link", name="Change").click()
    expect(page.get_by_role("checkbox", name="Whole session seated")).to_be_visible()


# --- needs chosen elsewhere -----------------------------------------------------------------


def test_needs_chosen_on_another_page_are_offered_and_not_forced(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}needs/arms-low/index.html")
    page.get_by_role("button", name="Show every session this way").click()
    open_index(page, demo_url)
    expect(page.locator("#finder-chosen li")).to_have_count(0)
    page.get_by_role("button", name="Only what suits my needs: Sore shoulder").click()

    expect(page.get_by_role("checkbox", name="Sore shoulder")).to_be_checked()
    expect(page.get_by_role("button", name="Only what suits my needs")).to_be_hidden()


def test_filters_and_search_work_from_a_folder_without_a_server(page: Page, demo_site: Path) -> None:
    page.goto(f"file://{demo_site}/{INDEX}?need=seated&pattern=trunk")

    assert found(page) > 0
    tick(page, "home", "sturdy-chair")
    expect(page.get_by_role("list", name="Chosen filters").get_by_role("listitem")).to_have_count(3)
    page.get_by_role("button", name="Clear everything").click()
    search(page, "towel row")
    assert names(page)[0] == "Towel row"
