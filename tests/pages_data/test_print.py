"""Every form prints on one page of A4 and of Letter, in a real browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.pages.components import Form
from builder.pages.rendering import assets, render
from tests.pages_data.kitchens import SITE, SMALL, by_path, form_pages, view_of
from tests.site.opened import sheets_of


def parts(count: int) -> str:
    return ", ".join(f"part {n}: [0.1 kg, 2.00/kg]" for n in range(count))


STAGES = ("purge", "portion cut", "cure", "rest", "carve", "hold")
CROWDED = {
    **SMALL,
    "cuts/chuck-roll.yaml": (
        "species: beef\nprice: 13.60/kg\nsupplier: South Yard\ntrim:\n  tests:\n"
        + "".join(
            f"    - {{date: 2026-09-0{n}, in: 8.4 kg, out: 5.0 kg, parts: {{{parts(count)}}}}}\n"
            for n, count in enumerate((33, 14, 15), 1)
        )
    ),
    "cooks/chuck-30h.yaml": (
        "cut: chuck-roll\nhow: water bath\nload: 7.1 kg\nfinish: {how: sear, loss: 3 %}\n"
        + "".join(f"{stage}: 1 %\n" for stage in STAGES)
        + "tests:\n"
        + "".join(
            f"  - {{date: 2026-09-{n:02}, in: 7.10 kg, out: 5.68 kg}}\n" for n in range(1, 26)
        )
    ),
    **{
        f"plates/plate-{n}.yaml": (
            f"name: Slow chuck with bone sauce and mash, number {n}\nmenu: mains\n"
            "cook: chuck-30h\nportion: 180 g\nprice: 27.00\n"
        )
        for n in range(40)
    },
}


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(
    "name",
    [
        "blank-yield-test",
        "blank-cooking-loss",
        "chuck-roll-yield-test",
        "chuck-30h-cooking-loss",
        "ribeye-yield-test",
    ],
)
def test_a_form_takes_one_page(browser: Browser, tmp_path: Path, name: str, paper: str) -> None:
    page = by_path(form_pages(view_of(CROWDED)))[f"forms/{name}.html"]
    files = {page.path: render(page, SITE), **assets()}
    for path, data in files.items():
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_bytes(data)
    tab = browser.new_page()
    tab.goto((tmp_path / page.path).as_uri())
    printed = tab.pdf(format=paper)
    tab.close()
    forms = [section for section in page.sections if isinstance(section, Form)]
    halves = sum(bool(form.half) for form in forms)
    assert sheets_of(printed) == len(forms) - halves // 2
