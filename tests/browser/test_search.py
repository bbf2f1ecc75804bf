"""Search as a visitor types: forgiving, in any order, with the places where an exercise is shown."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from sitegen.building.build import Builder
from tests.browser.finder import INDEX, all_names, ask, found, names, open_index, search
from tests.checks.library_folder import LibraryFolder
from tests.conftest import fresh_tab, serve
from tests.tabs import SIZE


@pytest.fixture(scope="module")
def german_index(chromium: Browser, german_url: str) -> Iterator[Page]:
    """The index of the site with German names."""
    with fresh_tab(chromium) as page:
        open_index(page, german_url)
        yield page


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("towel row", "Towel row"),
        ("row towel", "Towel row"),
        ("row with a towel", "Towel row"),
        ("tow", "Towel"),
        ("hamst str", "Hamstring stretch"),
        ("hamstirng stretch", "Hamstring stretch"),
        ("hmastr stre", "Hamstring stretch"),
        ("gobelt sqaut", "Goblet squat"),
        ("towelrow", "Towel row"),
        ("push-ups", "Counter push-up"),
        ("pushup", "Counter push-up"),
        ("PUSH UP", "Counter push-up"),
        ("star jump", "Jumping jack"),
        ("sit to stand", "Chair squat"),
        ("waiters carry", "Overhead carry"),
        ("waiter’s carry", "Overhead carry"),
    ],
)
def test_names_are_found_however_they_are_typed(index: Page, words: str, first: str) -> None:
    search(index, words)

    assert names(index)[0].startswith(first)


@pytest.mark.parametrize(
    ("words", "some"),
    [
        ("quads", {"Chair squat", "Goblet squat"}),
        ("quadriceps squat", {"Chair squat", "Goblet squat"}),
        ("rear shoulder", {"Towel row"}),
        ("horizontal pull", {"Towel row", "Bent-over row"}),
        ("umbrella", {"Broom hinge", "Broom rotation"}),
        ("broom", {"Broom hinge", "Broom rotation"}),
        ("seated towel", {"Towel row"}),
        ("heel taps", {"Dead bug"}),
    ],
    ids=[
        "everyday word for a muscle",
        "muscle and name",
        "muscle",
        "movement",
        "stand-in",
        "kit",
        "variant",
        "variant too",
    ],
)
def test_exercises_are_found_by_what_they_are(index: Page, words: str, some: set[str]) -> None:
    search(index, words)

    assert some <= set(names(index))


GERMAN = {
    "ueberkopfdruecken": "name: Überkopfdrücken\nalso: [Schulterdrücken]",
    "kniebeuge": "name: Kniebeuge\nalso: [Große Hocke]",
    "cafe-dehnung": "name: Café-Dehnung",
    "liegestuetz": "name: Liegestütz\n"
    "variants:\n  - {id: schraeg, name: Schräger Liegestütz, change: regression}",
}


@pytest.fixture(scope="module")
def german_url(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A site with German names."""
    library = LibraryFolder(tmp_path_factory.mktemp("german"))
    for name, text in GERMAN.items():
        library.exercise(name, text)
    out = library.root.parent / "build"
    Builder(library.root, out, jobs=1).build()
    yield from serve(out)


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("Überkopfdrücken", "Überkopfdrücken"),
        ("ueberkopfdruecken", "Überkopfdrücken"),
        ("uberkopfdrucken", "Überkopfdrücken"),
        ("überkpofdrücken", "Überkopfdrücken"),
        ("U\u0308berkopf", "Überkopfdrücken"),
        ("ueb", "Überkopfdrücken"),
        ("grosse hocke", "Kniebeuge"),
        ("große", "Kniebeuge"),
        ("cafe", "Café-Dehnung"),
        ("dehnung café", "Café-Dehnung"),
        ("schraeger", "Liegestütz"),
        ("liegestutz", "Liegestütz"),
    ],
)
def test_umlauts_and_accents_are_no_obstacle(german_index: Page, words: str, first: str) -> None:
    search(german_index, words)

    assert names(german_index)[0] == first


def test_a_name_with_an_umlaut_stands_under_its_plain_letter(german_index: Page) -> None:
    ask(german_index)

    group = german_index.locator("section.letter", has=german_index.locator("#letter-U"))
    assert group.get_by_role("link", name="Überkopfdrücken").is_visible()


def test_a_result_leads_to_episode_and_time_and_to_each_version(index: Page) -> None:
    search(index, "counter push-up")
    hit = index.locator(".hit").first
    expect(hit.get_by_role("link", name="Wall push-up")).to_be_visible()
    links = {a.inner_text(): a.get_attribute("href") for a in hit.get_by_role("link").all()}

    assert links["Counter push-up"] == "counter-push-up/index.html"
    assert links["Wall push-up"] == "counter-push-up/index.html#wall-push-up"
    assert links["session 1, 4:44"] == "../episodes/cast-off/index.html#t=284"
    expect(hit).to_contain_text("horizontal push · chest, triceps · Kitchen counter")
    expect(hit).to_contain_text("Wall push-up (easier)")


def test_the_version_that_was_meant_comes_first_and_is_marked(index: Page) -> None:
    search(index, "push-up knees")
    versions = index.locator(".hit").first.locator("[data-line=forms] a")

    expect(versions.first).to_have_text("Push-up from the knees")
    assert versions.first.locator("mark").all_inner_texts() == ["Push", "up", "knees"]


def test_what_only_comes_near_is_said_to(index: Page) -> None:
    search(index, "gobelt squat")
    expect(index.locator("#finder-note")).to_have_text("Nothing is called exactly that. These come near.")

    search(index, "goblet squat")
    expect(index.locator("#finder-note")).to_be_hidden()


def test_nothing_found_says_what_to_do(index: Page) -> None:
    for query, advice in (
        ("?q=qqqq", "Try another word, or half a word."),
        ("?q=qqqq&pattern=squat", "Take a filter away, or try another word."),
        ("?home=food-tin&need=seated&muscle=calves&pattern=carry", "Take a filter away."),
    ):
        ask(index, query)
        expect(index.locator("#finder-count")).to_have_text("No exercise fits")
        expect(index.locator("#finder-note")).to_have_text(advice)
        assert names(index) == []


def test_twenty_results_at_first_and_more_on_request(index: Page) -> None:
    search(index, "s")
    all_of_them = found(index)
    assert len(names(index)) == 20 < all_of_them

    index.get_by_role("button", name="Show more").click()
    expect(index.locator(".hits h3")).to_have_count(min(40, all_of_them))
    assert index.evaluate("document.activeElement.textContent") == names(index)[20]
    assert len(all_names(index)) == all_of_them


def test_who_jumps_to_show_more_finds_it_where_it_was_a_moment_ago(index: Page) -> None:
    """On a phone: results come to their height as they are seen, and a press that falls then went astray."""
    index.set_viewport_size({"width": 360, "height": 740})
    search(index, "s")
    places = index.evaluate(
        """async () => {
        const more = document.getElementById('finder-more');
        more.scrollIntoView({block: 'nearest', behavior: 'instant'});
        const places = [];
        for (let frame = 0; frame < 8; frame++) {
          await new Promise(requestAnimationFrame);
          places.push(more.getBoundingClientRect().top);
        }
        return places; }"""
    )
    index.set_viewport_size(SIZE)

    assert max(places) - min(places) <= 2


def test_an_empty_box_brings_the_list_from_a_to_z_back(index: Page) -> None:
    search(index, "row")
    expect(index.locator("#every-exercise")).to_be_hidden()
    index.get_by_role("searchbox").press("Escape")

    expect(index.locator("#every-exercise")).to_be_visible()
    expect(index.locator("#finder-results")).to_be_hidden()


def test_enter_leads_to_the_number_of_results(index: Page) -> None:
    search(index, "goblet")
    index.keyboard.press("Enter")

    expect(index.get_by_role("heading", name="1 exercise", exact=True)).to_be_focused()


def test_the_number_is_announced_once_the_typing_pauses(page: Page, demo_url: str) -> None:
    open_index(page, demo_url)
    page.evaluate(
        """() => { window.said = [];
        const status = document.getElementById('finder-status');
        new MutationObserver(() => said.push(status.textContent))
        .observe(status, {childList: true, characterData: true, subtree: true}); }"""
    )
    page.get_by_role("searchbox").press_sequentially("goblet", delay=30)
    expect(page.get_by_role("status")).to_have_text("1 exercise")

    assert page.evaluate("said") == ["1 exercise"]


def test_a_query_is_text_and_never_markup(index: Page) -> None:
    ask(index, "?q=%3Cimg+src%3Dx+onerror%3Dalert(1)%3E")

    expect(index.get_by_role("searchbox")).to_have_value("<img src=x onerror=alert(1)>")
    assert index.locator("#finder img:not([src*=drawings])").count() == 0


def test_without_scripts_the_list_is_there_and_no_empty_controls(scriptless: Page, demo_url: str) -> None:
    scriptless.goto(demo_url + INDEX)

    assert scriptless.locator("main :is(input, button, select):visible").count() == 0
    assert scriptless.locator("#every-exercise .index > li").count() == 67


def test_results_show_their_drawing(index: Page) -> None:
    search(index, "towel row")

    picture = index.locator("#finder-hits li img").first
    expect(picture).to_have_attribute("src", "towel-row/drawings.svg#_main")
    expect(picture).to_have_attribute("alt", "Drawing: Towel row")
    index.wait_for_function("document.querySelector('#finder-hits li img').naturalWidth > 0")
