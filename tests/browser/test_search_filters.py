"""Filters: what passes, the live numbers, the address that can be sent, keyboard and names."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from sitegen.model import Series
from sitegen.study.forms import Form, FormKey, forms_of
from tests.browser.finder import INDEX, found, names, open_index, search, tick


def all_names(page: Page) -> set[str]:
    """Every result, drawn to the last."""
    while page.locator("#finder-more").is_visible():
        page.locator("#finder-more").click()
    return set(names(page))


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
    page: Page, demo_url: str, demo_series: Series, state: dict[str, list[str]]
) -> None:
    open_index(page, demo_url, address(state))
    wanted = expected(demo_series, state)

    assert all_names(page) == wanted
    assert found(page) == len(wanted) > 0


BASES = {
    "nothing chosen": "",
    "a search": "?q=towel",
    "a need and what is at home": "?need=no-floor&home=sturdy-chair",
    "a movement": "?pattern=squat",
}


@pytest.mark.parametrize("base", BASES.values(), ids=BASES)
def test_every_number_is_what_the_tick_brings(page: Page, demo_url: str, base: str) -> None:
    open_index(page, demo_url, base)
    expect(page.locator("#finder")).not_to_have_attribute("aria-busy", "true")
    chosen = {part.split("=")[0] for part in base.removeprefix("?").split("&")}
    wrong = page.evaluate(
        """chosen => {
        const result = () => document.getElementById("finder-count").textContent.match(/[0-9]+/);
        const wrong = [];
        for (const tick of document.querySelectorAll("#finder-filters input[type=checkbox]")) {
          // In a list where something is ticked already, a further tick widens instead of narrowing.
          if (tick.checked || (chosen.includes(tick.name) && !["need", "home"].includes(tick.name))) continue;
          if (tick.value === "_none" && chosen.includes("home") && tick.name === "home") continue;
          // A need says how many stay as they are and how many need another version.
          const told = tick.parentElement.lastElementChild.textContent.match(/[0-9]+/g);
          const said = told.reduce((sum, one) => sum + Number(one), 0);
          tick.checked = true;
          tick.dispatchEvent(new Event("change", {bubbles: true}));
          const found = Number((result() || [0])[0]);
          if (said !== found) wrong.push([tick.name, tick.value, said, found]);
          tick.checked = false;
          tick.dispatchEvent(new Event("change", {bubbles: true}));
        }
        return wrong; }""",
        sorted(chosen),
    )

    assert wrong == []


def test_a_result_names_the_forms_that_pass_together(page: Page, demo_url: str) -> None:
    open_index(page, demo_url, "?q=towel+row&need=seated&home=sturdy-chair")
    forms = page.locator(".hit", has=page.get_by_role("heading", name="Towel row", exact=True)).locator(
        "[data-line=forms]"
    )

    # The seated towel row needs a towel, which is not at home.
    expect(forms).to_have_text("Fits as: Elbow press in the chair (easier)")


def test_a_stand_in_is_as_good_as_the_piece(page: Page, demo_url: str) -> None:
    open_index(page, demo_url, "?home=broom-handle")
    with_broom = all_names(page)
    open_index(page, demo_url, "?home=broom-handle:a-mop-handle")

    expect(page.get_by_role("checkbox", name="a mop handle")).to_be_checked()
    assert all_names(page) == with_broom


@pytest.mark.parametrize(
    ("query", "label"),
    [
        ("?week=2", "Week 2"),
        ("?episode=steady-pull", "3. Steady pull"),
        ("?shown=never", "in no episode yet"),
    ],
)
def test_where_shown(page: Page, demo_url: str, demo_series: Series, query: str, label: str) -> None:
    by_value = {
        "?week=2": demo_series.episodes[3:6],
        "?episode=steady-pull": demo_series.episodes[2:3],
        "?shown=never": demo_series.episodes,
    }
    shown = {e for episode in by_value[query] for e in episode.exercises}
    wanted = set(demo_series.exercises) - shown if "never" in query else shown
    open_index(page, demo_url, query)
    chosen = page.locator("#finder-shown option:checked")

    assert all_names(page) == {demo_series.exercise(exercise).name for exercise in wanted}
    assert chosen.inner_text() == f"{label} ({len(wanted)})"


def test_the_choice_of_episodes_counts_when_it_is_looked_at(page: Page, demo_url: str) -> None:
    open_index(page, demo_url, "?q=goblet+squat")
    expect(page.locator("#finder-count")).to_have_text("1 exercise")
    page.get_by_label("Where shown").focus()
    options = page.locator("#finder-shown option").all_text_contents()

    assert [one for one in options if one.endswith("(1)")] == [
        "Week 2 (1)",
        "Week 3 (1)",
        "4. Rising tide (1)",
        "7. Night watch (1)",
    ]


# --- the address ----------------------------------------------------------------------------


def test_the_state_is_in_the_address_and_an_address_restores_it(
    chromium: Browser, page: Page, demo_url: str
) -> None:
    open_index(page, demo_url)
    search(page, "towel row")
    tick(page, "need", "arms-low")
    tick(page, "home", "bath-towel")
    tick(page, "home", "sturdy-chair:a-bench-fixed-to-the-wall")
    tick(page, "kind", "regression")
    page.locator("#finder-shown").select_option("week:2")
    page.wait_for_url("**?q=*&home=*&need=*&kind=*&week=2")
    sent = page.url
    assert sent.endswith(
        "?q=towel+row&home=sturdy-chair:a-bench-fixed-to-the-wall,bath-towel&need=arms-low&kind=regression&week=2"
    )

    somebody = chromium.new_context()
    other = somebody.new_page()
    other.goto(sent)
    expect(other.locator("#finder-count")).to_have_text(page.locator("#finder-count").inner_text())
    expect(other.get_by_role("searchbox")).to_have_value("towel row")
    expect(other.locator("#finder-shown")).to_have_value("week:2")
    assert other.locator("#finder-filters input:checked").count() == 4
    assert names(other) == names(page)
    somebody.close()


def test_coming_back_from_an_exercise_finds_everything_as_it_was(page: Page, demo_url: str) -> None:
    open_index(page, demo_url)
    search(page, "goblet")
    tick(page, "need", "seated")
    page.wait_for_url("**?q=goblet&need=seated")
    page.locator(".hits h3 a").first.click()
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


def test_nothing_asked_leaves_a_clean_address(page: Page, demo_url: str) -> None:
    open_index(page, demo_url, "?q=row&need=seated")
    page.get_by_role("button", name="Clear everything").click()
    page.wait_for_url(f"{demo_url}{INDEX}")

    expect(page.get_by_role("searchbox")).to_be_focused()
    expect(page.locator("#every-exercise")).to_be_visible()


# --- by keyboard and by ear -----------------------------------------------------------------


def test_a_filter_is_set_and_taken_away_by_keyboard_alone(page: Page, demo_url: str) -> None:
    open_index(page, demo_url)
    page.get_by_role("searchbox").focus()
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.value") == "no-kneeling":
            break
    page.keyboard.press("Space")
    expect(page.get_by_role("checkbox", name="No kneeling")).to_be_checked()
    expect(page.locator("#finder-count")).to_have_text("67 exercises")

    page.get_by_role("button", name="Remove No kneeling").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("checkbox", name="No kneeling")).not_to_be_checked()
    expect(page.get_by_role("searchbox")).to_be_focused()


def test_names_for_a_screen_reader(page: Page, demo_url: str) -> None:
    open_index(page, demo_url, "?pattern=squat")

    expect(page.get_by_role("search", name="Exercises")).to_be_visible()
    box = page.get_by_role("searchbox", name="Search by name, muscle, movement or kit")
    expect(box).to_have_accessible_description(
        "A misspelt or half a word will do. Press the down arrow for the first result."
    )
    group = page.get_by_role("group", name="Movement", exact=True)
    expect(group.get_by_role("checkbox", checked=True)).to_have_accessible_name("squat 5")
    expect(page.get_by_role("form", name="Filters")).to_be_visible()
    expect(page.get_by_role("list", name="Chosen filters").get_by_role("button")).to_have_accessible_name(
        "Remove squat"
    )
    expect(page.get_by_role("region", name="5 exercises")).to_be_visible()


def test_stand_ins_are_grouped_under_their_piece(page: Page, demo_url: str) -> None:
    open_index(page, demo_url, "?home=cushion")
    group = page.get_by_role("group", name="Instead of: Cushion")

    assert group.get_by_role("checkbox").count() == 3


def test_filters_are_folded_away_on_a_phone(page: Page, demo_url: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    open_index(page, demo_url, "?need=seated,weak-grip")

    expect(page.get_by_role("checkbox", name="No jumping")).to_be_hidden()
    expect(page.locator("#finder-filters > details > summary")).to_have_text("Filters 2 chosen")


# --- needs chosen elsewhere -----------------------------------------------------------------


def test_needs_chosen_on_another_page_are_offered_and_not_forced(
    context: BrowserContext, demo_url: str
) -> None:
    page = context.new_page()
    page.goto(f"{demo_url}needs/arms-low/index.html")
    page.get_by_role("button", name="Show every session this way").click()
    open_index(page, demo_url)
    expect(page.locator("#finder-chosen li")).to_have_count(0)
    page.get_by_role("button", name="Only what suits my needs: Arms below the shoulder").click()

    expect(page.get_by_role("checkbox", name="Arms below the shoulder")).to_be_checked()
    expect(page.get_by_role("button", name="Only what suits my needs")).to_be_hidden()


def test_filters_work_from_a_folder_without_a_server(page: Page, demo_site: Path) -> None:
    page.goto(f"file://{demo_site}/{INDEX}?need=seated&pattern=trunk")

    assert found(page) > 0
    tick(page, "home", "sturdy-chair")
    expect(page.get_by_role("list", name="Chosen filters").get_by_role("listitem")).to_have_count(3)
