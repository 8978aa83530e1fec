"""A sentence says what the table beside it says, and says it once."""

from __future__ import annotations

import re

import pytest
from markupsafe import Markup

from builder.costing.costed import check_figures
from builder.costing.left_out import made_without_energy
from builder.engine.methods import METHODS
from builder.pages.components import Chart, Form, FormNote
from builder.pages.cooks import cook_page
from builder.pages.counts import count_pages
from builder.pages.cuts import cut_list_page, cut_page
from builder.pages.decision_sheets import decision_page
from builder.pages.docstrings import summary
from builder.pages.equipment import equipment_page
from builder.pages.labels import service_label_page
from builder.pages.pantry import item_page
from builder.pages.plates import plate_page
from builder.pages.schedule import schedule_pages
from builder.pages.swap_counts import pairs
from builder.pages.swap_limits import limits
from builder.pages.swaps import swap_pages
from builder.records.kinds import Swap
from tests.golden import SITES
from tests.live.test_recomputed import KITCHENS, view_of
from tests.pages_data.kitchens import by_path, html_of, text_of
from tests.pages_data.opened import demo_view

VIEW = demo_view()
CONTENT = VIEW.costed.content


def first_number(words: str) -> float:
    (found, *_) = re.findall(r"\d[\d,]*(?:\.\d+)?", words)
    return float(found.replace(",", ""))


def plain(words: str) -> str:
    return re.sub(r"\s+", " ", words)


def test_what_the_rules_say_of_a_cook_is_said_once() -> None:
    for cook in CONTENT.cooks.values():
        page = cook_page(VIEW, cook)
        said = plain(text_of(html_of(page)))
        for sentence in re.findall(r"The (?:plan|cook itself) meets .*? authority decide", said):
            assert said.count(sentence[sentence.index("meets") :]) == 1, cook.id


def test_hours_booked_are_those_of_the_table() -> None:
    (found,) = [p for p in check_figures(VIEW.costed) if " books " in p.message]
    booked, whole = VIEW.equipment("bath-20").texts("hours_booked", "available_hours")
    assert f"books {plain(booked)} of {plain(whole)}, so 2 are needed" in plain(found.message)


def test_the_picture_of_the_week_names_every_piece_of_equipment() -> None:
    week = next(page for page in schedule_pages(VIEW) if page.path == "schedule.html")
    parts = [part for part in week.sections if hasattr(part, "sections")]
    (chart,) = [s for part in parts for s in part.sections if isinstance(s, Chart)]
    assert chart.table is not None
    for row in chart.table.rows:
        assert str(row.cells[0].text) in chart.summary


def test_use_of_several_alike_is_of_the_hours_of_all() -> None:
    page = decision_page(VIEW, CONTENT.swaps["pork-butt-for-loin"])
    (form,) = [s for s in page.sections if isinstance(s, Form)]
    said = [plain(b.text) for b in form.blocks if isinstance(b, FormNote)]
    row = VIEW.equipment("baths-40")
    share = row.number("hours_booked") / (row.number("available_hours") * row.number("how_many"))
    assert any(f"book {share:.1%} of the 167 h that each of the 4 has" in words for words in said)


def test_a_sentence_ends_with_one_full_stop() -> None:
    """A time before noon or after it ends with a point of its own."""
    for page in schedule_pages(VIEW):
        assert not re.search(r"[ap]\.m\.\.", plain(text_of(html_of(page)))), page.path


def test_several_of_which_nothing_is_known_are_listed_as_several() -> None:
    said = made_without_energy(VIEW.costed, ["slaw"])
    assert said == "Slaw and Mustard mayo"


def test_a_payback_says_what_pays() -> None:
    """The equipment's price over the margin gained: what menu prices give up is off it."""
    swap = CONTENT.swaps["duck-leg-for-breast"]
    page = by_path(swap_pages(VIEW))["swaps/duck-leg-for-breast.html"]
    said = plain(text_of(html_of(page)))
    row = VIEW.swap(swap, "duck-leg-plate")
    by_hand = row.number("invested") / (row.number("margin_change") * row.number("swap_count"))
    # The gain is known to some 35 %, either way, so its weeks to tens.
    assert f"The margin gained pays for the equipment in {round(by_hand, -1):.0f} weeks" in said


ROWS = re.compile(r"(?P<points>[\d.]+) points (more|less) than today's loss|(?P<share>[+−][\d.]+)%")


@pytest.mark.parametrize("name", ["demo", "published", "starter"])
def test_how_far_a_limit_lies_off_is_the_difference_of_what_is_printed(name: str) -> None:
    view = view_of(KITCHENS[name])
    seen = 0
    for swap in view.costed.content.swaps.values():
        for plate, row in pairs(view, swap):
            for line in limits(view, plate, row, "").rows:
                found = ROWS.match(plain(Markup(line.cells[0].note).striptags()))
                if found is None:
                    continue
                now, limit = (first_number(str(line.cells[at].text)) for at in (1, -1))
                said = found["points"] or found["share"].lstrip("+−")
                off = limit - now if found["points"] else 100 * (limit / now - 1)
                half = 0.5 / 10 ** len(said.partition(".")[2])
                assert abs(abs(off) - float(said)) <= half + 1e-9, (plate.id, now, limit, said)
                seen += 1
    assert seen > (3 if name == "demo" else 0)


@pytest.mark.parametrize("swap", CONTENT.swaps.values(), ids=lambda swap: swap.id)
def test_a_gain_that_may_be_a_loss_is_not_said_as_sure(swap: Swap) -> None:
    """The words follow the interval of the tile: both signs in it, or one."""
    said = plain(text_of(html_of(by_path(swap_pages(VIEW))[f"swaps/{swap.id}.html"])))
    for plate, row in pairs(VIEW, swap):
        low, high = row.numbers("margin_change_low", "margin_change_high")
        words = re.findall(rf"{plate.title} earns [^.]*[.]\d\d (?:more|less) a plate[^.]*\.", said)
        assert words
        assert all((", but may earn" in each) == (low < 0 < high) for each in words)


def test_a_portion_of_pieces_is_of_no_size_that_a_batch_decides() -> None:
    """A leg stays a leg: 60 legs for 180 guests are not 62 g each."""
    said = plain(text_of(html_of(plate_page(VIEW, CONTENT.plates["duck-leg-plate"]))))
    assert "Portion if one batch must do" not in said
    assert "as purchased gives 60 portions." in said
    said = plain(text_of(html_of(plate_page(VIEW, CONTENT.plates["chuck-steak"]))))
    assert "Portion if one batch must do, by weight" in said


def test_a_cut_is_bought_as_its_price_is_written_and_served_as_it_is_on_the_menu() -> None:
    """Legs cost 4.70 each; of seven cooks of chuck three are on plates, the 24 h one cheapest."""
    legs = cut_page(VIEW, CONTENT.cuts["duck-leg"])
    assert legs.lead.startswith("Duck leg: $4.70 each ($17.74/kg)")
    row = VIEW.batch(CONTENT.cooks["chuck-roll-24h"])
    cost = row.text("cost_per_servable_kg")
    lead = cut_page(VIEW, CONTENT.cuts["beef-chuck-roll"]).lead
    assert lead.endswith(f" as purchased and {cost} servable as Chuck roll 24h.")
    said = plain(text_of(html_of(cut_list_page(VIEW))))
    assert f"$13.60/kg {cost} 7" in said


def test_what_is_used_whole_is_not_said_to_cost_what_it_costs() -> None:
    """All of the anchovies is used, 81 % of the potatoes."""
    anchovies, potatoes = (item_page(VIEW, CONTENT.pantry[i]) for i in ("anchovies", "potatoes"))
    assert anchovies.lead == "Bought at $34.00/kg, all of it used."
    assert "81.0% of it is used, so that it costs" in potatoes.lead


def test_what_a_piece_gives_at_more_loss_is_what_it_still_gives() -> None:
    """A piece of 13 portions that loses a little more still gives 13."""
    swap = CONTENT.swaps["chuck-for-eye-of-round"]
    [(plate, row)] = pairs(VIEW, swap)
    notes = [
        plain(Markup(cell.note).striptags())
        for line in limits(VIEW, plate, row, "").rows
        for cell in line.cells
    ]
    assert any("more than today's loss; a piece then still gives 13 portions" in n for n in notes)


def test_no_summary_of_a_method_gives_the_shape_of_an_array() -> None:
    for method in METHODS.values():
        assert not re.search(r"shape \(|\(rows\b", summary(method.doc, VIEW.style)), method.title


def test_what_a_swap_says_of_losses_and_work() -> None:
    """One point is no points; work that is held is not the work that the table moves."""
    words = {
        name: text_of(html_of(page))
        for name, swap in CONTENT.swaps.items()
        for page in swap_pages(VIEW)
        if page.path == f"swaps/{name}.html"
    }
    assert "1 point more than today's loss" in words["chuck-for-eye-of-round"]
    assert not any(re.search(r"(?<![\d.,])1 points", text) for text in words.values())
    duck = words["duck-leg-for-breast"].partition("Held at what is written")
    assert "Duck legs 24h: work on a batch" in duck[0]
    assert "the work on the batch of Duck breast from the pan" in duck[2]


def test_differences_without_bounds_claim_none() -> None:
    page = next(p for p in swap_pages(VIEW) if p.path == "swaps/shoulder-or-neck-for-rack.html")
    words = text_of(html_of(page))
    assert "No bounds of shoulder and neck" in words
    assert "one-sided bounds" not in words


def test_a_count_is_of_whole_plates() -> None:
    """64 guests of whom 35 % take the duck salad: 22.4 in the table of data, 22 on the page."""
    page = next(page for page in count_pages(VIEW) if page.path == "counts/late-september.html")
    words = text_of(html_of(page))
    assert "22 by guests of set menus" in words
    assert not re.search(r"\d\.\d+ by guests", words)
    assert re.search(r"Plates sold \d+ ", words)


def test_labels_are_no_more_than_are_printed() -> None:
    """46 duck legs in the bath, of which a sheet of eight labels is printed."""
    (page,) = [page for page in schedule_pages(VIEW) if page.path == "services/sunday-lunch.html"]
    assert "one a piece, 8 of a cook at most" in text_of(html_of(page))
    labels = service_label_page(VIEW, VIEW.costed.services["sunday-lunch"])
    assert text_of(html_of(labels)).count("Duck legs 24h") == 8


def test_a_decision_sheet_says_of_equipment_what_its_page_says() -> None:
    """Of a kitchen without any count neither knows how much is used."""
    words = text_of(html_of(decision_page(VIEW, CONTENT.swaps["chuck-for-ribeye"])))
    use, hours = VIEW.equipment("bath-40").texts("use", "available_hours")
    said = f"a week's plates, as forecast or counted, book {use} of its {hours}"
    assert plain(said) in plain(words)
    uncounted = view_of(next(site for site in SITES if site.name == "first") / "content")
    (swap,) = uncounted.costed.content.swaps.values()
    assert "no count says how much it is used" in text_of(html_of(decision_page(uncounted, swap)))
    assert "so no hours are booked" in text_of(html_of(equipment_page(uncounted)))
