"""The sheet on which a swap is decided: the swap page's figures, sources, and room to sign."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.pages.components import Chart, Form, FormFields, FormGrid, FormNote, FormTicks
from builder.pages.decision_sheets import decision_page, sheets_words
from builder.pages.swap_words import verdict
from builder.pages.view import View
from tests.kitchens import costed_from, write
from tests.money.test_swap_words import KITCHEN, PLATE, kitchen
from tests.pages_data.kitchens import view_of
from tests.pages_data.opened import demo_view
from tests.site.sites import STARTER


def _sheets(swap: str = "chuck-for-ribeye") -> list[Form]:
    view = demo_view()
    page = decision_page(view, view.costed.content.swaps[swap])
    return [section for section in page.sections if isinstance(section, Form)]


def test_every_challenger_has_a_sheet_that_leads_with_the_swap_page_s_sentence() -> None:
    view, forms = demo_view(), _sheets("shoulder-or-neck-for-rack")
    swap = view.costed.content.swaps["shoulder-or-neck-for-rack"]
    assert len(forms) == len(swap.challengers) == 2
    benchmark = view.costed.content.plates[swap.benchmark]
    for form, name in zip(forms, swap.challengers, strict=True):
        plate = view.costed.content.plates[name]
        said = verdict(view, plate, benchmark, view.swap(swap, name))
        assert form.blocks[:2] == (
            FormNote(said[0], strong=True),
            FormNote(" ".join(said[1:])),
        )
        assert plate.title in form.title and benchmark.title in form.title


def test_how_many_sheets_there_are_is_said_on_the_screen_and_on_each() -> None:
    swaps = demo_view().costed.content.swaps
    assert sheets_words(swaps["chuck-for-ribeye"]) == "one page, to sign"
    two = swaps["shoulder-or-neck-for-rack"]
    assert sheets_words(two) == "2 pages, one a challenger, each to sign"
    said = [str(form.reference) for form in _sheets(two.id)]
    assert said == [f"{two.file}, 1 of 2", f"{two.file}, 2 of 2"]
    # The first asks for all that the second does, and for a name of its own.
    first, second = ([type(block) for block in form.blocks] for form in _sheets(two.id))
    assert first == second
    assert first.count(FormTicks) == 1


def test_what_is_signed_can_be_checked_by_hand() -> None:
    """The margins side by side differ by the change that leads the sheet, as finely as printed."""
    (form,) = _sheets()
    grids = {block.caption: block for block in form.blocks if isinstance(block, FormGrid)}
    brings = {row.cells[0].text: row.cells[1].text for row in grids["What it brings"].rows}
    money = {row.cells[0].text: row.cells[1:] for row in grids["Side by side"].rows}

    def amount(text: str) -> float:
        return float(re.sub(r"[^\d.−]", "", text).replace("−", "-"))

    old, new = (amount(cell.text) for cell in money["Margin after full plate cost"])
    assert round(new - old, 2) == amount(brings["Margin change a plate, after full plate cost"])
    old, new = (amount(cell.text) for cell in money["Food cost"])
    assert abs(old - new - amount(brings["Food cost saved a plate"])) < 0.11
    # A portion divided by its share of the weight as purchased, by hand.
    portion, share = (money[name][1].text for name in ("Portion", "EP / AP"))
    assert abs(amount(portion) / amount(share) * 100 - 348) < 4
    assert amount(money["AP weight a portion"][1].text) == 348


def test_the_sheet_names_its_sources_and_has_room_to_sign() -> None:
    (form,) = _sheets()
    sources = next(b for b in form.blocks if isinstance(b, FormGrid) and b.caption == "Sources")
    said = {row.cells[0].text: row.cells[-1].text for row in sources.rows}
    assert len(said) == 7
    assert all(said.values())
    assert any("tests" in words for words in said.values())
    (ticks,) = (block for block in form.blocks if isinstance(block, FormTicks))
    assert ticks.items == ("go", "trial", "no")
    (signed,) = (block for block in form.blocks if isinstance(block, FormFields))
    assert signed.items[0].label == "Decided by"
    assert all(not field.value for field in signed.items)
    (picture,) = (block for block in form.blocks if isinstance(block, Chart))
    assert picture.table is None
    words = " ".join(str(b.text) for b in form.blocks if isinstance(b, FormNote))
    assert "Check every label" in words
    assert "of its 167\xa0h" in words


def test_a_swap_without_a_tasting_says_so_on_its_sheet() -> None:
    (form,) = _sheets("shank-for-brisket")
    assert not any(isinstance(block, Chart) for block in form.blocks)
    assert any("No tasting yet." in str(b.text) for b in form.blocks if isinstance(b, FormNote))


def test_a_swap_that_is_decided_is_not_asked_again() -> None:
    """Its sheet says who decided what, when and why, and has room for names, not for a choice."""
    (form,) = _sheets("duck-leg-for-breast")
    assert not any(isinstance(block, FormTicks) for block in form.blocks)
    words = " ".join(str(b.text) for b in form.blocks if isinstance(b, FormNote) and b.strong)
    assert "MB decided on Jun 30, 2026: " in words
    assert "Why: it earns a little more, and legs wait for no order." in words
    (signed,) = (block for block in form.blocks if isinstance(block, FormFields))
    assert [field.label for field in signed.items] == ["Signed by", "Date", "Look again on"]
    assert all(not field.value for field in signed.items)


def test_a_sheet_says_only_what_was_tasted_of_its_own_cuts() -> None:
    """Two challengers were tasted together; each sheet is signed for one."""
    forms = _sheets("shoulder-or-neck-for-rack")
    for form, own, other in zip(forms, ("shoulder", "neck"), ("neck", "shoulder"), strict=True):
        [said] = [
            block.text
            for block in form.blocks
            if isinstance(block, FormNote) and block.text.startswith("What tasters found")
        ]
        assert f"{own} against rack" in said.lower()
        assert other not in said.lower()
        [picture] = [block for block in form.blocks if isinstance(block, Chart)]
        assert {row["name"] for row in picture.rows} == {own}
        assert other not in picture.summary


def test_a_tasting_of_other_cuts_is_none_of_this_one() -> None:
    view = demo_view()
    pork = view.costed.content.swaps["pork-butt-for-loin"]
    swap = pork.model_copy(update={"tasting": "duck-leg-or-breast"})
    [form] = [s for s in decision_page(view, swap).sections if isinstance(s, Form)]
    words = [block.text for block in form.blocks if isinstance(block, FormNote)]
    assert "What tasters found: No tasting of Pork shoulder with roots yet." in words
    assert not any(isinstance(block, Chart) for block in form.blocks)


def test_a_source_is_a_file_by_its_name_and_leads_to_the_line() -> None:
    """A place in a file, `kitchen.yaml:11:14`, says nothing to who signs."""
    files = {str(path.relative_to(STARTER)): path.read_text() for path in STARTER.rglob("*.yaml")}
    view = view_of(files)
    swap = view.costed.content.swaps["chuck-for-ribeye"]
    (form,) = [each for each in decision_page(view, swap).sections if isinstance(each, Form)]
    grids = {block.caption: block for block in form.blocks if isinstance(block, FormGrid)}
    source = {str(row.cells[0].text): row.cells[2] for row in grids["Sources"].rows}
    assert str(source["Loaded wage"].text) == "the kitchen's file"
    assert str(source["Chuck roll: AP price"].text) == "the cut's file"
    assert str(source["Loaded wage"].href).startswith("~/kitchen.html#")
    assert str(source["Chuck roll: AP price"].href).startswith("~/cuts/chuck-roll.html#")
    assert not [cell for cell in source.values() if re.search(r"yaml:\d", str(cell.text))]


LOW = """cut: x
how: water bath
at: 50 °C
for: 6 h
form: intact
counts as: roast
load: 5 kg
piece: {shape: slab, thickness: 50 mm, starts at: 4 °C, weight: 5 kg}
loss: 20 %
hands-on: 1 h
"""
FAILS = "The benchmark's cook does not meet the rules"


@pytest.mark.parametrize(("price", "gains"), [(15, False), (25, True)])
def test_a_sheet_says_that_the_benchmark_s_cook_fails(
    price: int, gains: bool, tmp_path: Path
) -> None:
    """A core at 50 °C is below every row of the code; the sentence on a gain says so itself."""
    files = kitchen(
        kitchen=KITCHEN.format(currency="CAD") + "authority: us-food-code-2017\n",
        cooks__low=LOW,
        plates__large=PLATE.format(cook="low", portion=200, price=20),
        plates__small=PLATE.format(cook="a", portion=200, price=price),
    )
    view = View.of(costed_from(write(tmp_path, files)), ())
    page = decision_page(view, view.costed.content.swaps["swap"])
    (form,) = (section for section in page.sections if isinstance(section, Form))
    notes = [block for block in form.blocks if isinstance(block, FormNote)]
    assert (FormNote(f"{FAILS}.", strong=True) in notes) is not gains
    said = " ".join(str(note.text) for note in notes).lower()
    assert said.count(FAILS.lower()) == 1
