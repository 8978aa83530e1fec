"""Which parts of a page are open when it is opened; the others are a heading to press."""

from __future__ import annotations

from dataclasses import replace

from builder.pages.components import Form, Page, Part, Section, Table, walk

# More parts than a page about one thing has.
_MANY = 24


def unfolded(page: Page) -> Page:
    """The page with the parts open that are to be read first.

    That is the first part, unless a table of the page comes before it or the parts are so many
    that they are a list themselves, and all parts of a sheet to print. A part that says that it
    is open, such as a caution, stays so.
    """
    if page.sheet or any(isinstance(section, Form) for section in walk(page.sections)):
        return replace(page, sections=tuple(map(_opened, page.sections)))
    first = next((each for each in page.sections if isinstance(each, Part | Table)), None)
    if not isinstance(first, Part) or _parts(page) > _MANY:
        return page
    opened = replace(first, open=True)
    return replace(page, sections=tuple(opened if s is first else s for s in page.sections))


def _parts(page: Page) -> int:
    return sum(isinstance(section, Part) for section in page.sections)


def _opened(section: Section) -> Section:
    """A part with all that is in it open."""
    if not isinstance(section, Part):
        return section
    return replace(section, open=True, sections=tuple(map(_opened, section.sections)))
