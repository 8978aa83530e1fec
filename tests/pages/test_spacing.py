"""French spaces before signs: in text and labels, never in a key that is to be copied."""

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
