"""The stylesheet's colours against WCAG 2.2's contrast minimum, in both schemes.

Relative luminance and contrast ratio as in WCAG 2.2, definitions "relative
luminance" and "contrast ratio" [from memory]; 4.5 for text, success criterion
1.4.3, 3 for what shows a control or a picture, 1.4.11 [from memory].
"""

from __future__ import annotations

import re

import pytest

from builder.pages.rendering import stylesheet

CSS = stylesheet().decode()
LIGHT, DARK = (
    dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", block))
    for block in re.findall(r":root \{(.*?)\}", CSS, re.S)[:2]
)
SCHEMES = {"light": LIGHT, "dark": LIGHT | DARK}
GROUNDS = ("paper", "card", "mark")
TEXT = [(text, ground) for text in ("ink", "muted", "accent", "gain") for ground in GROUNDS]
PARTS = [("on-part", f"part-{n}") for n in range(2, 8)] + [("paper", "part-1"), ("paper", "ink")]
SIGNS = [("edge", "paper"), ("edge", "card"), ("accent", "paper"), ("gain", "paper")]


def luminance(colour: str) -> float:
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_ratio_itself() -> None:
    # Black on white is 21 by definition; 767676 is the palest grey that passes 4.5 on white,
    # common knowledge among designers [from memory].
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize(("text", "ground"), TEXT + PARTS)
def test_text_can_be_read(scheme: str, text: str, ground: str) -> None:
    assert contrast(SCHEMES[scheme][text], SCHEMES[scheme][ground]) >= 4.5


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize(("sign", "ground"), SIGNS)
def test_signs_can_be_seen(scheme: str, sign: str, ground: str) -> None:
    assert contrast(SCHEMES[scheme][sign], SCHEMES[scheme][ground]) >= 3
