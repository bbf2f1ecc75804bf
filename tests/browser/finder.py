"""The exercise index in a browser: what the tests of search and filters share."""

from playwright.sync_api import Page, expect

INDEX = "exercises/index.html"


def open_index(page: Page, site: str, query: str = "") -> None:
    """Open the index, with a state in its address."""
    page.goto(f"{site}{INDEX}{query}")
    expect(page.get_by_role("search")).to_be_visible()


_ASK = """query => {
  history.replaceState(history.state, '', location.pathname + query);
  dispatchEvent(new PopStateEvent('popstate'));
}"""


def ask(page: Page, query: str = "") -> None:
    """Bring the opened index to the state of another address, as the browser's way back does.

    It costs a twentieth of opening the page there.
    """
    page.evaluate(_ASK, query)
    settle(page)


def fold_back(page: Page) -> None:
    """Take all filters away, fold them as at first and go to the top."""
    page.evaluate(f"""() => {{
      const set = '#finder-filters input:checked, #finder-shown option:checked:not([value=""])';
      const asked = document.querySelector(set) || !document.getElementById('finder-unknown').hidden;
      if (asked) ({_ASK})('');
      for (const list of document.querySelectorAll('#finder-filters [data-list]'))
        list.open = ['need', 'pattern'].includes(list.dataset.list);
      scrollTo(0, 0);
    }}""")


def search(page: Page, words: str) -> None:
    """Type into the search box."""
    page.get_by_role("searchbox").fill(words)
    settle(page)


def settle(page: Page) -> None:
    """Until the index of words is built and what was asked is answered."""
    expect(page.locator("#finder")).not_to_have_attribute("aria-busy", "true")


def names(page: Page) -> list[str]:
    """Names of the results on the page."""
    return page.locator(".hits h3").all_text_contents()


def all_names(page: Page) -> set[str]:
    """Every result, drawn to the last."""
    return set(
        page.evaluate("""() => {
        const more = document.getElementById('finder-more');
        while (!more.hidden) more.click();
        return [...document.querySelectorAll('.hits h3')].map(one => one.textContent);
      }""")
    )


def tick(page: Page, list_name: str, value: str, on: bool = True) -> None:
    """Set a tick in a filter, opening it where needed."""
    box = page.locator(f'[data-list={list_name}] input[value="{value}"]')
    if not box.is_visible():
        page.evaluate(
            "name => { document.querySelector('#finder-filters > details').open = true;"
            " document.querySelector(`[data-list=${name}]`).open = true; }",
            list_name,
        )
    box.set_checked(on)


def found(page: Page) -> int:
    """How many exercises the page says it found."""
    words = (page.locator("#finder-count").text_content() or "none").split()[0]
    return int(words) if words.isdigit() else 0
