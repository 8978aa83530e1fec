"""A day's prep sheet has every start of the day, of whichever service, and none of another day."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from builder.build import compute_content
from builder.costing.clashes import check_services
from builder.costing.staffing import check_staffed
from builder.language import written_in
from builder.pages.clash_notices import clash_problems
from builder.pages.components import Form, FormGrid, FormTicks, Page
from builder.pages.day_sheets import day_pages
from builder.pages.log_sheets import prep_page
from builder.pages.schedule import schedule_pages
from builder.pages.values import capital
from builder.pages.view import View
from tests.kitchens import write
from tests.pages_data.kitchens import by_path, html_of, text_of
from tests.pages_data.opened import demo_view

COSTED = demo_view().costed
PLANS = COSTED.content, COSTED.services
VIEW = View.of(COSTED, [*check_services(*PLANS), *check_staffed(*PLANS, COSTED.heat)])
PAGES = by_path(day_pages(VIEW))
NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
SERVICES, ORDERS = VIEW.costed.services, VIEW.costed.orders


def rows_of(page: Page) -> list[list[str]]:
    """The cells of a sheet's starts, as they are printed."""
    forms = [form for form in page.sections if isinstance(form, Form)]
    grids = [block for form in forms for block in form.blocks if isinstance(block, FormGrid)]
    return [[str(cell.text) for cell in row.cells] for grid in grids for row in grid.rows]


def items_of(page: Page) -> list[str]:
    """What a sheet has to tick off at no given start."""
    forms = [form for form in page.sections if isinstance(form, Form)]
    ticks = [block for form in forms for block in form.blocks if isinstance(block, FormTicks)]
    return [str(item) for block in ticks for item in block.items]


def test_the_days_together_have_every_start_of_every_service_once() -> None:
    starts = [step.start for plan in VIEW.costed.services.values() for step, _ in plan.starts()]
    wanted = dict.fromkeys(NAMES, 0)
    for start in starts:
        wanted[NAMES[start.weekday()]] += 1
    got = {
        name: len([row for row in rows_of(page) if row[0] != "–"])
        for name in NAMES
        if (page := PAGES.get(f"forms/prep-{name}.html"))
    }
    assert got == {name: count for name, count in wanted.items() if count}
    assert sum(got.values()) == len(starts) > 30


def test_a_day_goes_by_its_clock_over_two_services() -> None:
    """On Friday the brisket for Sunday stands between what is for the dinner."""
    rows = rows_of(PAGES["forms/prep-friday.html"])
    services = [row[2] for row in rows]
    assert {"Friday dinner", "Sunday lunch"} == set(services)
    assert services.index("Sunday lunch") < len(services) - services[::-1].index("Friday dinner")
    assert rows[0][:3] == ["3:00\xa0a.m.", "Turkey thigh 14h: prepare", "Friday dinner"]
    words = text_of(html_of(PAGES["forms/prep-friday.html"]))
    assert "is wanted at 2 temperatures at once" in words


def test_a_day_has_the_warnings_of_its_own_starts_and_no_others() -> None:
    """The staff are missing on the days that the warning names; the bath is wanted twice where
    one of the two cooks goes in."""
    said = {path: text_of(html_of(page)) for path, page in PAGES.items()}
    reported = [
        problem
        for plan in VIEW.costed.services.values()
        for problem in (
            *clash_problems(VIEW, plan.service),
            *VIEW.by_record.get(plan.service.path, ()),
        )
        if problem.days is not None and problem.record == plan.service.path
    ]
    assert len(reported) > 1
    for problem in reported:
        words = " ".join(capital(VIEW.notice(problem).text).split())
        shown = {path for path, text in said.items() if words in " ".join(text.split())}
        assert shown == {f"forms/prep-{NAMES[day]}.html" for day in problem.days or ()}


def test_what_is_served_without_a_cook_is_on_the_day_of_its_service() -> None:
    for path, page in PAGES.items():
        served = [row for row in rows_of(page) if row[1].endswith(": served without a cook")]
        assert bool(served) == (path == "forms/prep-sunday.html")


def test_what_is_made_is_on_the_day_of_its_service() -> None:
    made = {plan.at.weekday(): ORDERS[name].made for name, plan in SERVICES.items()}
    assert len(made) == len(SERVICES)
    for path, page in PAGES.items():
        names = made.get(NAMES.index(path.split("-")[-1].removesuffix(".html")), ())
        got = {item.split(", ")[0] for item in items_of(page) if ": " not in item}
        assert {VIEW.costed.content.pantry[name].title for name in names} == got


def test_the_schedule_leads_to_each_day() -> None:
    week = html_of(next(iter(schedule_pages(VIEW))))
    assert len(PAGES) > 4
    assert all(path in week for path in PAGES)


def test_french_names_the_day() -> None:
    with written_in("fr"):
        page = by_path(day_pages(VIEW))["forms/prep-thursday.html"]
    assert page.title == "Fiche de mise en place, jeudi"


def test_many_warnings_leave_room_for_starts(tmp_path: Path) -> None:
    """However much is said over the starts, every sheet has some, and all of them are printed."""
    plates = {
        f"plates/p{n}.yaml": f"name: Plate {n} {'of a very long name ' * 4}\nmenu: m\ncook: c{n}\n"
        "portion: 100 g\nprice: 20\n"
        for n in range(90)
    }
    cooks = {
        f"cooks/c{n}.yaml": f"name: Cook {n}\ncut: a\nhow: pan\nat: 200 °C\nfor: 1 h\nload: 2 kg\n"
        "hands-on: 5 min\nloss: 20 %\n"
        for n in range(90)
    }
    served = ", ".join(f"p{n}: 4" for n in range(90))
    write(
        tmp_path,
        {
            "kitchen.yaml": "name: K\ncurrency: CAD\nlocale: en_CA\nloaded wage: 20/h\n"
            "energy: 0.1/kWh\nsections: [m]\n",
            "cuts/a.yaml": "species: beef\nprice: 10/kg\ntrim: {loss: 5 %}\n",
            **plates,
            **cooks,
            "services/s.yaml": f"day: friday\nat: 18:00\nplates: {{{served}}}\n",
        },
    )
    costed, problems = compute_content(tmp_path, None, date(2026, 10, 1))
    assert costed is not None, problems
    view = View.of(costed, problems)
    (plan,) = costed.services.values()
    starts = len(list(plan.starts()))
    assert len(rows_of(prep_page(view, plan))) == starts
    assert sum(len(rows_of(page)) for page in day_pages(view)) == starts


def test_a_clash_of_two_services_is_said_once_a_sheet_and_on_both(tmp_path: Path) -> None:
    """One cook at 57 °C for Friday at six, another at 75 °C in the same bath for an hour later."""
    early = {"services/early.yaml": "day: Friday\nat: 18:00\nplates: {a: 4}\n"}
    late = {"services/late.yaml": "day: Friday\nat: 19:00\nplates: {b: 4}\n"}
    cook = (
        "cut: x\nhow: water bath\nat: {} °C\nfor: 30 h\nequipment: bath\nload: 2 kg\nloss: 20 %\n"
    )
    plate = "menu: mains\ncook: {}\nportion: 200 g\nprice: 30.00\n"
    files = {
        "kitchen.yaml": "name: K\ncurrency: CAD\nas of: 2026-10-01\n"
        "equipment: {bath: {kind: water bath, holds: 9 kg}}\n",
        "cuts/x.yaml": "species: beef\nprice: 12.50/kg\n",
        "cooks/a.yaml": cook.format(57), "cooks/b.yaml": cook.format(75),
        "plates/a.yaml": plate.format("a"), "plates/b.yaml": plate.format("b"),
    }  # fmt: skip
    costed, problems = compute_content(
        write(tmp_path, {**files, **early, **late}), None, date(2026, 10, 1)
    )
    assert costed is not None, problems
    view = View.of(costed, problems)
    assert sum("is wanted at 2 temperatures" in p.message for p in problems) == 1
    made = [*schedule_pages(view), *day_pages(view)]
    pages = {page.path: text_of(html_of(page)) for page in made}
    sheets = [text for path, text in pages.items() if path.startswith("forms/prep-")]
    assert max(text.count("is wanted at 2 temperatures") for text in sheets) == 1
    for path in ("schedule.html", "services/early.html", "services/late.html"):
        assert pages[path].count("is wanted at 2 temperatures") == 1, path
