"""The button that copies a trial's files, in a real browser and from disk."""

from __future__ import annotations

from playwright.sync_api import Browser, expect

from tests.site.opened import opened
from tests.site.sites import BuiltSite


def test_one_click_copies_a_trial_from_a_file(browser: Browser, demo: BuiltSite) -> None:
    """From disk, without a server; what was copied is what a paste gives."""
    with opened(browser, demo.home("file"), "try-next.html") as page:
        button = page.get_by_role("button", name="Copy").first
        button.click()
        status = button.locator("xpath=following-sibling::*[@role='status']")
        expect(status).to_have_text("Copied.")
        wanted = page.locator("figure.copyable pre").first.text_content()
        page.evaluate("document.body.append(document.createElement('textarea'))")
        page.locator("body > textarea").focus()
        page.keyboard.press("Control+V")
        assert page.locator("body > textarea").input_value() == wanted
        assert wanted is not None
        assert wanted.count("\n# ") + wanted.startswith("# ") >= 5


def test_a_browser_without_a_clipboard_copies_too(browser: Browser, demo: BuiltSite) -> None:
    with opened(browser, demo.home("file"), "try-next.html") as page:
        page.evaluate("() => { navigator.clipboard.writeText = () => Promise.reject('none'); }")
        button = page.get_by_role("button", name="Copy").last
        button.click()
        wanted = page.locator("figure.copyable pre").last.text_content()
        expect(button.locator("xpath=following-sibling::*")).to_have_text("Copied.")
        assert page.evaluate("getSelection().toString().trim()") == (wanted or "").strip()
