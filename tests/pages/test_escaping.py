"""Texts are escaped as markupsafe does it [reference library], by templates, too."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import UndefinedError
from jinja2.exceptions import TemplateRuntimeError
from markupsafe import Markup, escape

from builder.language import Deferred, tr, written_in
from builder.pages.escaping import Templates, html_of

TEXTS = st.text() | st.text(alphabet="&<>'\"; a#3")


@given(TEXTS)
def test_a_text_is_escaped_as_by_the_reference(text: str) -> None:
    assert html_of(text) == escape(text)


@given(TEXTS | st.integers() | st.floats() | st.booleans() | st.none())
def test_a_template_escapes_as_by_the_reference(value: object) -> None:
    template = Templates(autoescape=True).from_string("<p>{{ it }}</p>")
    assert template.render(it=value) == f"<p>{escape(str(value))}</p>"


@given(TEXTS)
def test_markup_stays_and_is_not_escaped_again(text: str) -> None:
    once = escape(text)
    assert html_of(once) == once
    nested = (
        "{% macro inner(it) %}<b>{{ it }}</b>{% endmacro %}{{ inner(it) }}{{ inner(inner(it)) }}"
    )
    printed = Templates(autoescape=True).from_string(nested).render(it=text)
    assert printed == f"<b>{once}</b><b><b>{once}</b></b>"


def test_the_builders_own_texts_are_printed_in_the_language_in_use() -> None:
    template = Templates(autoescape=True).from_string("{{ it }}")
    own = Deferred("Nothing recorded yet.")
    with written_in("fr"):
        french = tr(own)
        assert template.render(it=own) == html_of(own) == escape(french)
    assert french != own
    assert template.render(it=own) == html_of(own) == own


def test_what_is_not_there_is_an_error() -> None:
    template = Templates(autoescape=True).from_string("{{ it.more }}")
    with pytest.raises((AttributeError, UndefinedError, TemplateRuntimeError)):
        template.render(it=Markup("x"))
