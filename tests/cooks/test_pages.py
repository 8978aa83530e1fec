"""What a cook's page, the rules, the schedule and the sheets say, in the words that they may use.

The rows are those of the US model Food Code 3-401.11(B) as two adopted state texts print them
[read] and of the Victorian limit on hours between 55 and 60 °C [secondary].
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.cooking.rule_library import rule_sets
from builder.costing.costed import Costed
from builder.pages.components import Chart, Form, Page, Part, Table, walk
from tests.cooks.kitchens import COOK, FILES, KITCHEN, changed, costed, pages
from tests.kitchens import costed_from, read, write

FORBIDDEN = Path(__file__).parent.parent / "kitchens" / "forbidden"
DEFERS = (
    "arithmetic on published tables, not a food-safety plan; log the core with a calibrated probe; "
    "local code and the licensed authority decide"
)
Pages = dict[str, tuple[Page, str]]
SERVICE = """\
day: Friday
at: 18:00
plates: {chuck-plate: 30}
steps:
  - {what: lay the line, for: 45 min}
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Pages:
    files = {
        **changed(
            COOK,
            more="cool: {to: 3 °C, within: 2 h, in: ice bath}\nstore: {at: 3 °C, for: 9 d}\n"
            "reheat: {at: 80 °C, for: 90 min}\nhold at: 60 °C\n",
        ),
        "services/friday.yaml": SERVICE,
    }
    return pages(costed(tmp_path_factory.mktemp("site"), files))


@pytest.fixture(scope="module")
def forbidden() -> Pages:
    return pages(costed_from(FORBIDDEN))


def chart(page: Page, kind: str) -> Chart:
    (found,) = (s for s in walk(page.sections) if isinstance(s, Chart) and s.kind == kind)
    return found


def table(page: Page, table_id: str) -> Table:
    (found,) = (s for s in walk(page.sections) if isinstance(s, Table) and s.id == table_id)
    return found


def test_the_lead_says_whether_the_rule_is_met(site: Pages) -> None:
    page, _ = site["cooks/chuck-30h.html"]
    # It is stored for too long: that comes first, and the rule is met by the cook alone.
    assert page.answer.startswith("Storing does not meet US model Food Code")
    verdict = (
        "The cook itself meets US model Food Code, 2017 and later (3-401.11(B)), by arithmetic."
    )
    assert page.answer.endswith(verdict)


def test_the_curve_carries_its_band_the_threshold_and_the_moment(site: Pages) -> None:
    page, text = site["cooks/chuck-30h.html"]
    found = chart(page, "core-curve")
    core = [row for row in found.rows if row["role"] == "core"]
    (line,) = (row for row in found.rows if row["role"] == "threshold")
    (met,) = (row for row in found.rows if row["role"] == "met")
    assert core[0] == {"role": "core", "time": 0.0, "low": 4.0, "mid": 4.0, "high": 4.0}
    for row in core:
        assert float(row["low"]) <= float(row["mid"]) <= float(row["high"]) <= 57  # type: ignore[arg-type]
    assert line["text"] in {"54.4 °C held 112 min", "55.0 °C held 89 min", "56.1 °C held 56 min"}
    assert float(met["time"]) < 30  # type: ignore[arg-type]
    at_the_slow_end = [row for row in core if float(row["low"]) >= float(line["temperature"])]  # type: ignore[arg-type]
    hold = float(re.search(r"held (\d+) min", str(line["text"]))[1]) / 60  # type: ignore[index]
    step = float(core[1]["time"])  # type: ignore[arg-type]
    assert float(at_the_slow_end[0]["time"]) + hold == pytest.approx(float(met["time"]), abs=step)  # type: ignore[arg-type]
    assert "an estimate like this is easily 25% off, so both ends are given" in text


def test_a_cook_is_chilled_stored_reheated_and_held_beside_its_clauses(site: Pages) -> None:
    _, text = site["cooks/chuck-30h.html"]
    for clause in ("3-501.14(A)", "3-502.12(D)", "3-403.11", "3-501.16(A)(1)"):
        assert f"US model Food Code, 2017 and later ({clause})" in text
    assert "Kept for 9 days at 3 °C, of 7 days allowed" in text
    assert "HACCP plan" in text


@pytest.mark.parametrize(
    "said", ["calibrated probe", "licensed authority decide", "food-safety plan"]
)
def test_a_cook_page_says_once_in_full_who_decides(
    site: Pages, forbidden: Pages, said: str
) -> None:
    """However many clauses it is held against, and whatever fails; a log sheet has it, too."""
    cooks = [*site.items(), *forbidden.items()]
    cooks = [(path, it) for path, it in cooks if path.startswith("cooks/")]
    assert len(cooks) > 1
    for path, (page, text) in cooks:
        assert text.count(said) == 1, path
        [caution] = (s for s in page.sections if isinstance(s, Part) and s.id == "cautions")
        assert caution.open
    assert DEFERS in site["forms/chuck-30h-log.html"][1].replace("Arithmetic", "arithmetic")


def test_cooling_names_the_limits_and_the_largest_piece(site: Pages) -> None:
    page, _ = site["cooks/chuck-30h.html"]
    rows = [[cell.text for cell in row.cells] for row in table(page, "cooling").rows]
    assert [row[0].split(",")[0] for row in rows] == ["Ice bath"] * 2 + ["Blast chiller"] * 2
    assert {row[4].replace("\xa0", " ") for row in rows} == {"2 h", "6 h"}
    ice, chiller = (float(rows[n][6].split("\xa0")[0]) for n in (0, 2))
    assert ice > 60 > chiller


@pytest.mark.parametrize("path", ["cooks/chuck-30h.html", "forms/chuck-30h-log.html"])
def test_one_rule_set_only_stands_on_a_page(site: Pages, path: str) -> None:
    _, text = site[path]
    others = [rules for name, rules in rule_sets().items() if name != "us-food-code-2017"]
    assert "US model Food Code" in text
    assert [rules.name for rules in others if rules.name in text or rules.title in text] == []


def test_no_page_says_the_word_that_nothing_here_can_promise(site: Pages, forbidden: Pages) -> None:
    for path, (_, text) in {**site, **forbidden}.items():
        assert not re.search(r"\bsafe(ly)?\b", text, re.IGNORECASE), path


def test_the_rules_page_has_every_row_and_only_the_names_of_others(site: Pages) -> None:
    page, text = site["rules.html"]
    rows = [[c.text for c in row.cells] for row in table(page, "hold-1").rows]
    assert len(rows) == 17
    assert rows[0] == ["130 °F / 54.4 °C", "112 min"]
    assert rows[-1] == ["158 °F / 70.0 °C", "at once"]
    assert "uk-core-equivalents" in text
    assert "45 min" not in text
    assert "Check your own jurisdiction's text" in text


def test_the_log_sheet_prints_the_threshold(site: Pages) -> None:
    page, text = site["forms/chuck-30h-log.html"]
    forms = [section for section in page.sections if isinstance(section, Form)]
    assert page.sheet
    assert [form.title for form in forms] == ["Log of the core", "Log of cooling"]
    assert re.search(r"To show: the core is at 13[013] °F / .* stays there for \d+ min", text)
    assert "57.2 °C to 21.1 °C within 2 h" in text.replace("\xa0", " ")
    assert "Initials" in text


def test_a_limit_on_hours_forbids_the_plan(forbidden: Pages) -> None:
    page, text = forbidden["cooks/chuck-30h.html"]
    assert "The plan does not meet Victoria, low-temperature cooking limit" in page.answer
    assert "30 h between 55 °C and 60 °C, of 6 h allowed in all" in text
    assert "Food Code" not in text


def test_a_limit_on_hours_warns_at_the_line_that_states_them() -> None:
    _, problems = read(FORBIDDEN)
    (found,) = [p for p in problems if "does not meet" in p.message]
    assert (str(found.place), found.record) == ("cooks/chuck-30h.yaml:4:6", "cooks/chuck-30h")
    assert not found.is_error


def test_a_hotter_cook_passes_through_and_is_covered_by_no_hold(forbidden: Pages) -> None:
    page, text = forbidden["cooks/chuck-62.html"]
    assert "The plan is not covered by Victoria" in page.answer
    assert "no rule of this set covers the plan" in text.lower()


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("form: intact\n", ""), "does not say what was done to the piece"),
        (("shape: slab, thickness: 60 mm, ", ""), "does not say how thick a piece is"),
        (("counts as: roast\n", ""), "does not say how the rules name the piece"),
    ],
)
def test_what_the_file_leaves_out_is_said_in_the_lead_and_not_called_uncovered(
    tmp_path: Path, change: tuple[str, str], words: str
) -> None:
    kitchen = costed(tmp_path, changed(COOK, change))
    found = pages(kitchen)
    page, text = found["cooks/chuck-30h.html"]
    rules = "US model Food Code, 2017 and later"
    assert f"The plan can't be compared with {rules}: " in page.answer
    assert words in page.answer
    assert "not covered" not in text
    assert "1 lacks keys" in found["cooks.html"][1]
    # Where the food is known the log still says what its clause asks of the core.
    log = found["forms/chuck-30h-log.html"][1]
    assert ("To show: the core is at 130 °F / 54.4 °C" in log) is ("thickness" in change[0])
    assert ("can't be compared with" in log) is ("thickness" not in change[0])


def test_what_no_rule_covers_is_said_to_be_not_covered(tmp_path: Path) -> None:
    dry = ("how: water bath", "sealed: no\nhow: water bath")
    page, text = pages(costed(tmp_path, changed(COOK, dry)))["cooks/chuck-30h.html"]
    assert "The plan is not covered by US model Food Code, 2017 and later" in page.answer
    assert "asks for a sealed bag or 90% humid" in text


def test_a_plan_too_short_does_not_meet(tmp_path: Path) -> None:
    page, text = pages(costed(tmp_path, changed(COOK, ("for: 30 h", "for: 3 h"))))[
        "cooks/chuck-30h.html"
    ]
    assert "The plan does not meet US model Food Code" in page.answer
    assert "Too short by" in text


def test_without_an_authority_nothing_is_held_against_a_rule(tmp_path: Path) -> None:
    kitchen = costed(tmp_path, changed(KITCHEN, ("authority: us-food-code-2017\n", "")))
    found = pages(kitchen)
    for path in ("cooks/chuck-30h.html", "rules.html", "forms/chuck-30h-log.html"):
        assert "no authority named" in found[path][1].lower()
        assert "The plan meets" not in found[path][1]
    assert chart(found["cooks/chuck-30h.html"][0], "core-curve").rows


def test_a_seared_steak_is_covered_by_its_surface(tmp_path: Path) -> None:
    files = changed(
        COOK,
        ("how: water bath", "how: grill"),
        ("equipment: bath\n", ""),
        ("at: 57 °C", "at: 240 °C"),
        ("for: 30 h", "for: 12 min"),
        ("counts as: roast", "counts as: steak\nseared: yes"),
    )
    page, text = pages(costed(tmp_path, files))["cooks/chuck-30h.html"]
    assert "The plan meets US model Food Code, 2017 and later (3-401.11(C))" in page.answer
    assert "not for a highly susceptible population" in text


def test_the_kitchens_units_are_kept(tmp_path: Path) -> None:
    kitchen = costed(
        tmp_path, changed(KITCHEN, ("currency: CAD", "currency: USD\nunits: us customary"))
    )
    found = chart(pages(kitchen)["cooks/chuck-30h.html"][0], "core-curve")
    (line,) = (row for row in found.rows if row["role"] == "threshold")
    assert found.units["temperature"] == "°F"
    assert float(line["temperature"]) == pytest.approx(130, abs=3.2)  # type: ignore[arg-type]
    assert str(line["text"]).startswith(f"{line['temperature']:.0f} °F held")


def us_customary(*changes: tuple[str, str]) -> dict[str, str]:
    """The kitchen with its units in US customary."""
    return dict(changed(KITCHEN, ("currency: CAD", "currency: USD\nunits: us customary"), *changes))


CHILLED = "cool: {{to: 3 °C, within: 2 h, in: ice bath}}\nstore: {{at: {store}, for: 9 d}}\n"
AGAIN = "reheat: {at: 80 °C, for: 90 min}\nhold at: 60 °C\n"


def said(kitchen: Costed) -> list[str]:
    """Every reason of the cook and of what follows it."""
    cook, heat = kitchen.content.cooks["chuck-30h"], kitchen.heat
    cut = kitchen.content.cuts["chuck"]
    reheated = heat.reheating(cook, cut)
    after = [
        heat.storing(cook, cut),
        heat.hot_holding(cook, cut),
        reheated[1] if reheated else None,
    ]
    verdict = heat.verdict(cook, cut)
    assert verdict is not None
    found = [*verdict.reasons, *(r for v in after if v for r in v.reasons)]
    found += [reason for chilling in heat.chillings(cook) for reason in chilling.verdict.reasons]
    return [reason.replace("\xa0", " ") for reason in found]


def test_reasons_follow_the_kitchens_units_and_printed_rows_stay(tmp_path: Path) -> None:
    """41, 130 and 165 °F are the code's own figures; its rows are printed with both."""
    cook = changed(COOK, more=CHILLED.format(store="9 °C") + AGAIN)[COOK]
    reasons = said(costed(tmp_path, {**us_customary(), COOK: cook}))
    row, again = (r for r in reasons if " / " in r)
    assert re.search(
        r"reaches 13[0-3] °F / 5[456]\.\d °C after about 4 h 30 min at the slow end", row
    )
    assert "by 3-403.11(E), the core reaches 1" in again
    others = [r.partition("; by ")[0] for r in reasons if r is not row]
    assert [r for r in others if "°C" in r] == []
    for words in ("warmer than the 41 °F", "at least 130 °F", "reaches 165 °F", "to 70 °F"):
        assert any(words in r for r in others), words


def test_the_rule_page_says_what_a_cook_that_misses_its_clause_may_need(tmp_path: Path) -> None:
    """3-401.11 has clauses for other foods, (C) [read], and for what is approved, (D) [memory]."""
    page = pages(costed(tmp_path, FILES))["rules.html"][1]
    assert (
        "Where a cook does not meet it, other clauses may apply, and lower needs a variance or a "
        "plan approved by the authority; the authority decides."
    ) in page


def test_a_reheating_without_a_thickness_is_not_estimated(tmp_path: Path) -> None:
    cook = changed(COOK, more=CHILLED.format(store="3 °C") + AGAIN)[COOK]
    bare = re.sub(r"thickness: [^,}]*,? ?", "", cook)
    assert bare != cook
    for text, missing in ((bare, True), (cook, False)):
        found = pages(costed(tmp_path / str(missing), {**FILES, COOK: text}))
        words = found[COOK.replace(".yaml", ".html")][1]
        assert ("The reheating is not estimated: the file does not say" in words) is missing


def test_a_forbidding_limit_is_reported_in_the_kitchens_units(tmp_path: Path) -> None:
    files = us_customary(("us-food-code-2017", "au-victoria-55-60"))
    assert said(costed(tmp_path, files)) == [
        "30 h between 131 °F and 140 °F, of 6 h allowed in all"
    ]


def test_a_roasts_hot_holding_is_for_a_roast_cooked_by_its_clause(tmp_path: Path) -> None:
    """3-501.16(A)(1) [read]: 135 °F, and 130 °F for roasts cooked as 3-401.11(B) asks."""
    for bath, asked in (("57 °C", "at least 54.4 °C"), ("54 °C", "at least 57.2 °C")):
        files = changed(COOK, ("at: 57 °C", f"at: {bath}"), more="hold at: 56 °C\n")
        reasons = said(costed(tmp_path / bath[:2], files))
        assert any(asked in reason for reason in reasons)


@pytest.mark.parametrize("store", ["-3 °C", "3 °C"])
def test_a_reheating_starts_as_cold_as_it_was_stored(tmp_path: Path, store: str) -> None:
    files = changed(COOK, more=CHILLED.format(store=store) + AGAIN)
    kitchen = costed(tmp_path, files)
    assert pages(kitchen)["cooks/chuck-30h.html"][0].answer
    found = kitchen.heat.reheating(
        kitchen.content.cooks["chuck-30h"], kitchen.content.cuts["chuck"]
    )
    assert found is not None
    assert found[0].piece.start_c == float(store[:-3])
    assert any("all within 2 h" in reason for reason in said(kitchen))


@pytest.mark.parametrize("start", ["-2 °C", "-18 °C"])
def test_a_frozen_or_tempered_piece_comes_up_later(tmp_path: Path, start: str) -> None:
    plain = costed(tmp_path / "plain").heat
    files = changed(COOK, ("starts at: 4 °C", f"starts at: {start}"))
    kitchen = costed(tmp_path / "cold", files)
    cook, cut = kitchen.content.cooks["chuck-30h"], kitchen.content.cuts["chuck"]
    holds = [v.hold for h in (plain, kitchen.heat) if (v := h.verdict(cook, cut))]
    assert holds[0] is not None
    assert holds[1] is not None
    assert holds[1].margin_min < holds[0].margin_min - 20
    page, text = pages(kitchen)["cooks/chuck-30h.html"]
    found = chart(page, "core-curve")
    assert found.rows[0]["mid"] == float(start[:-3])
    assert "melts" in text


def test_a_frozen_load_draws_more(tmp_path: Path) -> None:
    """9.6 kg from -18 instead of 4 °C: about 0.7 kWh, mostly the ice [enthalpies from memory]."""
    files = changed(COOK, ("starts at: 4 °C", "starts at: -18 °C"))
    cold, plain = costed(tmp_path / "cold", files), costed(tmp_path / "plain")
    drawn = [k.figures.value("batch", "batch_energy", 0) for k in (cold, plain)]
    assert 0.55 < drawn[0] - drawn[1] < 0.75


LATE = {
    "cool: {to: 5 °C, within: 6 h, in: blast chiller}\n": ("cooling in the blast chiller", 11, 26),
    "hold at: 50 °C\n": ("the hot holding", 11, 10),
    CHILLED.format(store="9 °C"): ("storing", 12, 24),
    f"cool: {{to: 5 °C, within: 6 h}}\n{AGAIN}": ("the reheating", 12, 26),
}


@pytest.mark.parametrize("more", LATE)
def test_what_follows_a_cook_warns_at_the_line_that_states_it(tmp_path: Path, more: str) -> None:
    """60 mm of meat in moving air, warm holding, warm storing, too short a reheating."""
    what, line, column = LATE[more]
    _, reported = read(write(tmp_path, changed(COOK, more=more)))
    (found,) = [p for p in reported if "does not meet" in p.message]
    assert found.message.startswith(f"{what} does not meet US model Food Code")
    assert str(found.place) == f"{COOK}:{line}:{column}"
    assert found.record == "cooks/chuck-30h"
    assert not found.is_error
