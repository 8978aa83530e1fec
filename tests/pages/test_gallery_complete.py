"""The components page lacks nothing: every field, every line of a template, every class of style.

A component, or a way of one, that nobody has put on the page is seen by none of the tests that
look at it for valid HTML, in both schemes and on a phone.
"""

from __future__ import annotations

import dataclasses
import re
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from types import FrameType
from typing import Any, Literal, get_args, get_origin, get_type_hints

import pytest
from playwright.sync_api import Browser, Page, expect

from builder.pages import components
from builder.pages.components import Section, Site
from builder.pages.rendering import TEMPLATES, environment, render, stylesheet
from tests.pages.gallery import COMPONENTS, PAGES, SITE
from tests.site.opened import Scheme, opened, violations

EVERY: list[Any] = [
    kind
    for kind in (getattr(components, name) for name in components.__all__)
    if dataclasses.is_dataclass(kind) and kind is not Site
]


def test_every_kind_of_section_is_on_the_page() -> None:
    shown = {type(section) for section in components.walk(COMPONENTS.sections)}
    assert shown == set(get_args(Section))


def found_in(value: object) -> Iterator[Any]:
    """Every dataclass within a value, itself included."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        yield value
        value = [getattr(value, field.name) for field in dataclasses.fields(value)]
    if isinstance(value, (tuple, list)):
        for each in value:
            yield from found_in(each)


def missing(kind: Any, shown: Iterable[object]) -> Iterator[str]:
    """What of a component no example gives: a field, or a word of a field that has few."""
    hints = get_type_hints(kind)
    for field in dataclasses.fields(kind):
        given = [getattr(each, field.name) for each in shown if type(each) is kind]
        if get_origin(hints[field.name]) is Literal:
            yield from (
                f"{kind.__name__}.{field.name} = {word!r}"
                for word in get_args(hints[field.name])
                if word not in given
            )
        elif all(each == field.default or each in ((), {}) for each in given):
            yield f"{kind.__name__}.{field.name}"


@pytest.mark.parametrize("kind", EVERY, ids=[kind.__name__ for kind in EVERY])
def test_every_field_of_every_component_has_an_example(kind: Any) -> None:
    pages = PAGES if kind is components.Page else (COMPONENTS,)
    shown = [each for page in pages for each in found_in(page)]
    assert list(missing(kind, shown)) == []


def test_every_line_of_every_component_template_prints_something_on_the_page() -> None:
    files = [path.relative_to(TEMPLATES).as_posix() for path in TEMPLATES.glob("components/*.html")]
    ran: dict[str, set[int]] = {name: set() for name in files}
    with_names = {environment().get_template(name).filename: name for name in files}

    def note(frame: FrameType, event: str, argument: object) -> Any:
        name = with_names.get(frame.f_code.co_filename)
        if name and event == "line":
            ran[name].add(frame.f_lineno)
        return note if name else None

    before = sys.gettrace()
    sys.settrace(note)
    try:
        render(COMPONENTS, SITE)
    finally:
        sys.settrace(before)
    assert {name: silent(name, lines) for name, lines in ran.items() if silent(name, lines)} == {}


ONCE = ("{% from ", "{% set ")


def silent(name: str, ran: set[int]) -> list[int]:
    """The lines of a template of which nothing ran; they are told from those of its Python.

    What is taken from another template, or set, at its top runs once, when it is first used.
    """
    template = environment().get_template(name)
    lines = (TEMPLATES / name).read_text(encoding="utf-8").splitlines()
    hit = {template.get_corresponding_lineno(line) for line in ran}
    printing = [line for line, _ in template.debug_info if not lines[line - 1].startswith(ONCE)]
    return [line for line in printing if line not in hit]


# What scripts add

ADDRESS = "components.html?picked.pick=plate-0,plate-2&long.sort=-cost&to-do.q=no-such"
# The chart library's own box, shown while a pointer rests on a mark.
OF_THE_LIBRARY = {"vg-tooltip-element", "visible"}


def ways(page: Page) -> Iterator[str]:
    """Bring the page into every state that a script has for it, one after the other."""
    yield "as opened"
    page.locator("#live a[href*='food-cost.html#']").click()
    expect(page.locator("#figure-panel .how").first).to_be_visible()
    yield "what a number is made of"
    page.keyboard.press("Escape")
    page.locator("#live a[href*='.html#']").first.click()
    expect(page.locator("#figure-panel .value b")).to_be_visible()
    yield "a number that is written"
    page.locator("#figure-panel .field input").first.fill("-1")
    page.keyboard.press("Tab")
    expect(page.locator("#figure-panel .wrong")).not_to_be_empty()
    yield "a value that cannot be"
    page.locator("#figure-panel .field input").first.fill("99")
    page.keyboard.press("Tab")
    page.locator("#tried summary").click()
    expect(page.locator("#following svg text").get_by_text("99.00")).to_have_count(1)
    yield "what is tried"
    page.keyboard.press("Escape")
    page.locator("#tried").get_by_role("button", name="Reset").click()
    for strip in page.locator("details:is(.try, .made) > summary").all():
        strip.click()
    expect(page.locator("details.made .field")).to_be_visible()
    yield "strips of inputs"
    page.keyboard.press("/")
    page.get_by_label("Search by name").fill("chu")
    expect(page.get_by_label("Kind of page")).to_be_visible()
    yield "search by kind"
    page.get_by_label("Search by name").fill("no such thing")
    expect(page.locator("dialog [role=status]")).to_contain_text("Nothing found")
    yield "nothing found"


NAMED = "[...document.querySelectorAll('[class], [id]')].flatMap((it) => [...it.classList, it.id])"


@pytest.mark.browser
@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_in_any_state(
    browser: Browser, site: Path, scheme: Scheme, width: int
) -> None:
    with opened(browser, site.as_uri(), ADDRESS, width=width, scheme=scheme) as page:
        assert {state: faults for state in ways(page) if (faults := violations(page))} == {}


@pytest.mark.browser
def test_every_class_that_has_a_style_is_on_the_page_in_some_state(
    browser: Browser, site: Path
) -> None:
    """What lies round the parts, such as the crumbs, is on the gallery's other pages."""
    rules = re.sub(r"/\*.*?\*/|\{[^{}]*\}", " ", stylesheet().decode(), flags=re.DOTALL)
    # Columns of tables are named by their number, for tables wider than any of the gallery, too.
    named = re.findall(r"[.#]([a-z][\w-]*)", rules)
    styled = {name for name in named if not re.fullmatch(r"n\d+", name)}
    seen: set[str] = set()
    with opened(browser, site.as_uri(), ADDRESS) as page:
        for _ in ways(page):
            seen.update(page.evaluate(NAMED))
        for other in PAGES:
            page.goto(f"{site.as_uri()}/{other.path}")
            seen.update(page.evaluate(NAMED))
    assert sorted(styled - seen - OF_THE_LIBRARY) == []
