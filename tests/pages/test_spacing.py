"""French spaces before signs: in text and labels, never in a key that is to be copied."""

import pytest

import builder.records.kinds  # noqa: F401
from builder.pages.spacing import spaced

NBSP = "\N{NO-BREAK SPACE}"


def test_a_label_is_spaced_as_text_is() -> None:
    html = '<div role="group" aria-label="Bulletin: ordre"><p>Bulletin: ordre</p></div>'
    bulletin = f"Bulletin{NBSP}: ordre"
    expected = f'<div role="group" aria-label="{bulletin}"><p>{bulletin}</p></div>'
    assert spaced(html, "fr") == expected
    assert spaced(html, "en") == html


def test_addresses_and_styles_of_a_tag_stay() -> None:
    html = '<a href="notes.html?a: b" style="top: 0; left: 0" title="a: b">a</a>'
    assert spaced(html, "fr") == html


def test_a_key_is_written_as_it_is_copied() -> None:
    html = "<p>Mettre un relevé sous energy: et il est utilisé.</p>"
    assert spaced(html, "fr") == html
    assert spaced("<p>énergie: 3 kWh</p>", "fr") == f"<p>énergie{NBSP}: 3 kWh</p>"


@pytest.mark.parametrize("key", ["portion", "source", "date", "sold as", "hands-on", "till"])
def test_a_key_that_is_a_french_word_too_is_copied_as_it_is(key: str) -> None:
    html = f"<p>Écrire {key}: et ce qui en est dit.</p>"
    assert spaced(html, "fr") == html


def test_a_record_s_id_before_a_list_is_copied_as_it_is() -> None:
    html = "<p>Écrire steak-frites: [40, 6 h] ou steak-frites: {portion: 180 g}</p>"
    assert spaced(html, "fr") == html


def test_a_label_with_a_capital_is_no_key() -> None:
    assert spaced("<p>Source: le livre</p>", "fr") == f"<p>Source{NBSP}: le livre</p>"


@pytest.mark.parametrize("language", ["en", "fr"])
def test_no_line_ends_between_a_number_and_its_unit(language: str) -> None:
    html = "<p>Bath of 40 L, duck 24 h at 80; 3 hands</p>"
    kept = html.replace("40 L", f"40{NBSP}L").replace("24 h", f"24{NBSP}h")
    assert spaced(html, language).replace("\N{NARROW NO-BREAK SPACE}", "") == kept


@pytest.mark.parametrize(
    "html",
    [
        "<pre>hold: 30 h</pre>",
        "<p>write cook: [40, 6 h] or cook: {for: 6 h}</p>",
        "<p>write for: 6 h</p>",
        '<a title="Bath of 40 L">it</a>',
        "<script>{&quot;Bath of 40 L&quot;}</script>",
    ],
)
def test_what_is_copied_or_read_by_scripts_has_the_space_as_typed(html: str) -> None:
    assert spaced(html, "en") == html
