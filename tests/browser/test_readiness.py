"""The questions before the first session: what is said, and that nothing of it is kept or sent."""

from playwright.sync_api import Browser, expect

from tests.browser.audit import violations
from tests.conftest import fresh_tab

CASES = [
    ({"active": "No", "disease": "No", "signs": "No", "vigorous": "No", "listed": "No"}, "Begin gently"),
    ({"signs": "I don't know"}, "Ask your doctor first."),
    ({"active": "Yes"}, "Stop training for now, and ask your doctor."),
    ({"signs": "No", "disease": "Yes"}, "if not, ask before this series"),
    ({"vigorous": "Yes"}, "Ask your doctor first."),
    ({"disease": "No"}, "Go on as you are used to, and make it harder little by little."),
    ({"listed": "I don't know"}, "Ask your doctor first."),
    ({"listed": "Yes", "active": "No"}, "Ask your doctor first."),
]
"""Answers changed against the case before, and what is said then."""


def test_the_answers_are_weighed_on_the_page_alone(chromium: Browser, demo_url: str) -> None:
    with fresh_tab(chromium, viewport={"width": 360, "height": 780}) as page:
        page.goto(f"{demo_url}before-you-start/index.html")
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        outcome, show = page.locator("#readiness-outcome"), page.locator("#readiness-show")
        show.click()
        expect(outcome).to_have_text("Please answer all five.")
        for answers, said in CASES:
            for name, answer in answers.items():
                group = page.locator("fieldset", has=page.locator(f"[name={name}]"))
                group.get_by_label(answer, exact=True).check()
            expect(outcome).to_have_text("")
            show.click()
            expect(outcome).to_contain_text(said)
        assert violations(page) == []
        assert asked == []
        assert page.evaluate("localStorage.length + sessionStorage.length") == 0
        assert page.context.cookies() == []
        page.reload()
        assert page.locator("#readiness-form :checked").count() == 0
