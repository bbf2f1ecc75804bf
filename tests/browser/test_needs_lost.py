"""A page says for which needs it is shown; a need that the series does not offer is never dropped unsaid."""

import json
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from sitegen.building.build import Builder
from tests.browser.episodes import BALLAST, STEADY_PULL, start_turn
from tests.conftest import serve
from tests.demo_copy import copy_demo, leave_out_unused

SHEET = "episodes/ballast/sheet/index.html"
LINE = ".needs-line[data-needs-chosen]"
ALARM = ".needs-line-lost"


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("address", [STEADY_PULL, SHEET])
def test_a_shared_link_says_above_the_fold_for_whom_the_page_is_shown(
    page: Page, demo_url: str, address: str, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": 844})
    page.goto(f"{demo_url}{address}?needs=seated,weak-grip")
    line = page.locator(LINE)

    expect(line).to_have_text("Shown for: Whole session seated, Weak grip. Change")
    expect(line).to_be_in_viewport(ratio=1)
    line.get_by_role("link", name="Change").click()
    expect(page.get_by_label("Weak grip")).to_be_visible()
    page.get_by_label("Weak grip").uncheck()
    expect(line).to_have_text("Shown for: Whole session seated. Change")


@pytest.mark.parametrize("address", ["index.html", "schedule/index.html"])
def test_pages_that_lead_to_sessions_say_for_whom_these_open(page: Page, demo_url: str, address: str) -> None:
    page.goto(f"{demo_url}{address}?needs=seated")
    expect(page.locator(LINE)).to_contain_text("Sessions open for: Whole session seated.")
    expect(page.locator(LINE)).to_be_in_viewport(ratio=1)
    page.goto(demo_url + STEADY_PULL)
    expect(page.locator(LINE)).to_contain_text("Shown for: Whole session seated.")


def test_without_needs_nothing_is_said(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)

    expect(page.locator("#needs")).to_be_visible()
    for hidden in (LINE, ALARM, "[data-needs-lost] >> nth=0"):
        expect(page.locator(hidden)).to_be_hidden()


PAGES = {
    "episode": BALLAST,
    "sheet": SHEET,
    "large sheet": "episodes/ballast/sheet/large/index.html",
    "four weeks": "episodes/ballast/sheet/weeks/index.html",
    "a need": "needs/seated/index.html",
    "all needs": "needs/index.html",
    "exercises": "exercises/index.html",
    "home": "index.html",
    "calendar": "schedule/index.html",
}


@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_every_page_that_follows_needs_tells_of_a_lost_one(page: Page, demo_url: str, address: str) -> None:
    page.goto(f"{demo_url}{address}?needs=sore-knee,seated")
    alarm = page.get_by_role("alert")

    expect(alarm).to_contain_text("You asked for “sore-knee”.")
    expect(alarm).to_be_in_viewport()
    expect(alarm.get_by_role("link", name="Choose again")).to_be_visible()


KEPT = {
    "a need that is gone": json.dumps(["sore-knee"]),
    "beside one that is there": json.dumps(["seated", "sore-knee"]),
    "damaged": "[sore-knee",
    "of another kind": json.dumps({"sore-knee": True}),
    "a name of the language": json.dumps(["__proto__", "sore-knee"]),
}


def test_what_was_stored_is_not_forgotten_from_page_to_page(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    for kept in KEPT.values():
        page.evaluate("kept => localStorage.setItem(Needs.key('needs'), kept)", kept)
        for address in (SHEET, BALLAST):
            page.goto(demo_url + address)
            expect(page.locator(ALARM)).to_contain_text("sore-knee")


def test_nothing_as_filmed_stands_unmarked(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{BALLAST}?needs=sore-knee")
    parts = page.locator(".block")

    assert parts.count() > 2
    for part in parts.all():
        expect(part.locator(".needs-lost")).to_contain_text("Not fitted to “sore-knee”")
    start_turn(page, "press-and-prop")
    expect(page.locator("#turn-panel .needs-lost")).to_contain_text("Not fitted to “sore-knee”")
    expect(page.locator("#turn-panel .needs-lost")).to_be_in_viewport()


def test_the_paper_says_so_too(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{SHEET}?needs=sore-knee")
    page.emulate_media(media="print")

    expect(page.locator(".paper .needs-lost")).to_contain_text("Not fitted to “sore-knee”")


def test_choosing_again_is_acknowledged_only_by_oneself(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{STEADY_PULL}?needs=sore-knee")
    page.get_by_role("link", name="Choose again").click()
    page.get_by_label("Easy on the knees").check()
    expect(page.locator(ALARM)).to_be_visible()  # it may have been one of two

    page.get_by_role("button", name="Go on without it").click()
    expect(page.locator(ALARM)).to_be_hidden()
    expect(page.locator(".block .needs-lost").first).to_be_hidden()
    page.reload()
    expect(page.locator(LINE)).to_contain_text("Easy on the knees")
    expect(page.locator(ALARM)).to_be_hidden()


def test_a_link_sent_on_tells_the_next_reader(page: Page, demo_url: str, context: BrowserContext) -> None:
    page.goto(f"{demo_url}{STEADY_PULL}?needs=sore+knee,seated")
    sent = page.evaluate("Needs.link(location.href)")

    page.goto(sent)
    expect(page.locator(ALARM)).to_contain_text("“sore knee”")
    assert page.evaluate("Needs.chosen()") == ["seated"]


def test_a_link_is_text_and_its_length_is_bounded(page: Page, demo_url: str) -> None:
    junk = ",".join(f"<img src=x onerror=alert({n})>{'x' * 200}" for n in range(50))
    page.goto(f"{demo_url}{STEADY_PULL}?needs={junk}")

    expect(page.locator(ALARM)).to_contain_text("<img src=x")
    assert page.locator(f"{ALARM} img").count() == 0
    assert len(page.locator(ALARM).inner_text()) < 1000


@pytest.fixture(scope="module")
def renamed_url(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The demo with a need under another name, and its page said to have moved."""
    content = copy_demo(tmp_path_factory.mktemp("renamed"), episodes=3)
    leave_out_unused(content)
    for file in content.glob("**/*.yaml"):
        file.write_text(file.read_text().replace("easy-knees", "calm-knees"))
    with (content / "series.yaml").open("a") as details:
        details.write("\nmoved:\n  needs/easy-knees: needs/calm-knees\n")
    out = content.parent / "site"
    Builder(content, out, jobs=1).build()
    yield from serve(out)


def test_a_need_that_was_renamed_goes_on(page: Page, renamed_url: str) -> None:
    page.goto(f"{renamed_url}{STEADY_PULL}?needs=easy-knees")

    expect(page.locator(LINE)).to_contain_text("Shown for: Easy on the knees.")
    expect(page.locator(ALARM)).to_be_hidden()
    assert page.evaluate("Needs.chosen()") == ["calm-knees"]
