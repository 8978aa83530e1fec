"""A kitchen computed: its records, every figure, and which row is whose."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from math import inf

from builder.costing.attribute_findings import add_findings
from builder.costing.authority import authority_of, check_rules
from builder.costing.below_chance import check_below_chance
from builder.costing.candidates import Candidates, add_candidates
from builder.costing.clashes import check_services
from builder.costing.clock_changes import check_clock_changes, check_time_zone
from builder.costing.count_checks import check_count_figures, check_counts
from builder.costing.count_rows import CountRows, add_counts
from builder.costing.count_till import check_against_till
from builder.costing.dear import check_dear
from builder.costing.doubts import Doubts, check_doubts
from builder.costing.fill import Filler
from builder.costing.filled_rows import Rows
from builder.costing.findings import Findings
from builder.costing.heat import Heat
from builder.costing.history import History
from builder.costing.long_work import check_long_work
from builder.costing.menu_doubts import check_dear_buffets, check_dear_menus
from builder.costing.order_rows import OrderRows, add_orders, check_on_hand
from builder.costing.piece_checks import check_pieces
from builder.costing.served_plates import check_served
from builder.costing.services import ServicePlan, service_plans
from builder.costing.spread_checks import check_spreads
from builder.costing.staffing import check_staffed
from builder.costing.step_figures import check_step_figures
from builder.costing.tasting_checks import check_tastings
from builder.costing.tasting_hours import check_tasting_hours
from builder.costing.tasting_results import TastingResult
from builder.costing.tastings import tasting_analyses, tasting_results
from builder.costing.uncertainty import Uncertainty, how_sure
from builder.costing.verdict_checks import check_verdicts
from builder.costing.weekly_counts import counts_of
from builder.costing.wording import style_of, wording_of
from builder.display.style import Style
from builder.engine.figures import Figures, compute
from builder.language import Deferred, tr
from builder.problems import Gathered, Place, Problem, Severity, in_order
from builder.quantities import written_down
from builder.records.chains import stages_of
from builder.records.checks import check
from builder.records.content import Content
from builder.records.equipment import gear_title
from builder.records.kinds import Cook, Cut
from builder.records.plates import Portion
from builder.records.portions import source_of
from builder.records.pricing import CurrentPrice
from builder.records.stages import Stage


@dataclass(frozen=True, slots=True)
class Costed:
    """Everything that the pages read; nothing in it is rounded or worded yet."""

    content: Content
    figures: Figures
    rows: Rows
    prices: Mapping[str, CurrentPrice]
    heat: Heat
    menu_month: date
    doubts: Doubts
    services: Mapping[str, ServicePlan] = field(default_factory=dict)
    tastings: Mapping[str, TastingResult] = field(default_factory=dict)
    findings: Findings = field(default_factory=lambda: Findings((), {}))
    uncertainty: Uncertainty | None = None
    counts: Mapping[str, CountRows] = field(default_factory=dict)
    candidates: Candidates = field(default_factory=Candidates)
    orders: Mapping[str, OrderRows] = field(default_factory=dict)
    history: History = field(default_factory=History)


def cost(content: Content) -> Costed:
    """Compute every figure of checked records."""
    heat = Heat.of(authority_of(content), content.cooks.values(), wording_of(content.kitchen))
    filler = Filler(content, heat)
    book, rows = filler.fill()
    analyses = tasting_analyses(content)
    findings = add_findings(book, analyses)
    counts = add_counts(book, content, rows)
    orders = add_orders(book, content, rows)
    candidates = add_candidates(book, content, rows, filler.prices, analyses, heat)
    figures, uncertainty = how_sure(content, compute(book), rows, filler.prices, candidates)
    return Costed(
        content,
        figures,
        rows,
        filler.prices,
        heat,
        filler.menu_month,
        Doubts(content, figures, rows),
        service_plans(content, figures, rows),
        tasting_results(analyses, figures, rows),
        findings,
        uncertainty,
        counts,
        candidates,
        orders,
    )


def check_records(content: Content) -> list[Problem]:
    """Every problem that the records show before anything is computed.

    Of a file with an error only what has a line in it is reported: what is not there, and
    what is only doubted, waits until the file can be read. The same goes for doubts about
    days, where the kitchen's own day can't be read.
    """
    found = Gathered()
    for problems in (
        check(content),
        check_rules(content),
        check_tastings(content),
        check_served(content),
        check_counts(content),
        check_against_till(content),
    ):
        found.add(problem for problem in problems if _is_sure(content, problem))
    return in_order(found)


def _is_sure(content: Content, problem: Problem) -> bool:
    if not problem.place.file:
        return False  # it is about a stand-in
    if problem.is_error and problem.place.line:
        return True
    whole = problem.place.file not in content.doubtful
    return whole and (problem.is_error or content.as_of < date.max)


def check_figures(costed: Costed, reported: Collection[Place] = ()) -> Iterator[Problem]:
    """Problems that only the figures show: portions larger than a piece, doubtful statements.

    `reported` are the places of the problems that the records have shown.
    """
    yield from _check_portions(costed)
    yield from check_pieces(costed.content, costed.figures, costed.rows)
    yield from check_step_figures(costed.content, costed.figures, costed.rows)
    yield from check_doubts(costed.content, costed.figures, costed.rows, costed.doubts)
    yield from check_dear(costed.content, costed.doubts, reported)
    yield from check_long_work(costed.content, costed.figures, costed.rows, reported)
    for check_dear_offers in (check_dear_menus, check_dear_buffets):
        yield from check_dear_offers(
            costed.content, costed.figures, costed.rows, costed.doubts, reported
        )
    for owner in costed.content.weighed:
        yield from _check_stated(costed, owner)
    spreads = costed.uncertainty.spreads if costed.uncertainty else {}
    yield from check_spreads(costed.content, costed.rows, costed.prices, spreads, reported)
    yield from check_services(costed.content, costed.services)
    yield from check_on_hand(costed.content, costed.orders)
    yield from check_clock_changes(costed.content, costed.services)
    yield from check_time_zone(costed.content, costed.services)
    yield from check_staffed(costed.content, costed.services, costed.heat)
    for result in costed.tastings.values():
        yield from check_tasting_hours(costed.content, result)
    yield from _check_equipment(costed)
    yield from check_verdicts(costed.content, costed.heat)
    yield from check_count_figures(costed.content, costed.figures, costed.counts)
    yield from check_below_chance(costed.tastings)


def _check_portions(costed: Costed) -> Iterator[Problem]:
    """Portions by weight that are larger than a piece, or a batch, of their cook."""
    for plate in costed.content.plates.values():
        for portion, table, row in costed.rows.portions(plate):
            # An uncooked cut has no batch: any weight of it is bought.
            if portion.weight is not None and portion.cook is not None:
                yield from _check_portion(costed, portion, table, row)


def _check_portion(costed: Costed, portion: Portion, table: str, row: int) -> Iterator[Problem]:
    portions, servable, pieces = (
        costed.figures.value(table, name, row)
        for name in ("portions_by_weight", "servable_weight", "pieces")
    )
    if not portions / (pieces if pieces > 0 else 1) < 1 - 1e-9:
        return
    written, cook = portion.portion, source_of(costed.content, portion).title
    hint = tr(
        "a batch of {cook} gives {written_like} to serve",
        cook=cook,
        written_like=written_down(written.text, servable),
    )
    if pieces > 0:
        one = written_down(written.text, servable / pieces)
        several = max(2, round(written.value * pieces / servable))
        hint = tr(
            "a servable piece of {cook} weighs {one}; where a portion takes several, "
            "write portion: {several} pieces",
            cook=cook,
            one=one,
            several=several,
        )
    message = (
        tr("a portion of {written} is more than one piece gives", written=written.text)
        if pieces > 0
        else tr("a portion of {written} is more than a batch gives", written=written.text)
    )
    yield Problem(written.place, message, hint)


def _check_stated(costed: Costed, owner: Cut | Cook) -> Iterator[Problem]:
    """A stated loss that the kitchen's own tests contradict."""
    say = style_of(costed.content.kitchen)
    for name, stage in stages_of(owner):
        row = costed.rows.stages.get((owner.path, name))
        if row is None or stage.stated is None or stage.stated_yield is None:
            continue
        low, high, measured = (
            costed.figures.value("stage", figure, row)
            for figure in ("yield_low", "yield_high", "measured_yield")
        )
        # Without an interval (one test, or none) neither comparison holds.
        if not (stage.stated_yield < low or stage.stated_yield > high):
            continue
        yield Problem(
            stage.stated.place,
            _denied(say, name, stage, (measured, low, high)),
            tr("correct the stated figure, or weigh again"),
            Severity.WARNING,
            owner.path,
            needs=("cuts", "cooks", "weights"),
        )


def _denied(say: Style, name: str, stage: Stage, yields: tuple[float, float, float]) -> str:
    """What is stated of a stage, and what its tests give instead, in the same measure."""
    at, low, high = yields
    assert stage.stated is not None
    template, shares = _LOSS_DENIED, (1 - at, 1 - high, 1 - low)
    if stage.gain is not None:
        template, shares = _GAIN_DENIED, (at - 1, low - 1, high - 1)
    elif stage.yield_ is not None:
        template, shares = _YIELD_DENIED, yields
    value, value2, value3 = map(say.percent, shares)
    stated = stage.stated.text
    return tr(template, name=name, stated=stated, value=value, value2=value2, value3=value3)


_LOSS_DENIED = Deferred(
    "{name}: a loss of {stated} is stated, but the tests give one of {value} "
    "({value2} to {value3}); the tests count"
)
_GAIN_DENIED = Deferred(
    "{name}: a gain of {stated} is stated, but the tests give one of {value} "
    "({value2} to {value3}); the tests count"
)
_YIELD_DENIED = Deferred(
    "{name}: a yield of {stated} is stated, but the tests give one of {value} "
    "({value2} to {value3}); the tests count"
)


# What the hours booked of equipment rest on.
_BOOKS = ("cooks", "plates", "weights", "cooking", "work", "sales")


def _over_booked(needed: float, booked: float, there: float) -> str:
    """The sentence on equipment that a week over-books; no number is needed of what never ends."""
    if not booked < inf:
        return Deferred("{gear}: {week} books more than {whole}, and a load takes longer")
    if not needed < inf:
        return Deferred("{gear}: {week} books {booked} of {whole}, and a load takes longer")
    if there > 1:
        return Deferred(
            "{gear}: {week} books {booked} of {whole}, so {needed} are needed where there are "
            "{there}"
        )
    return Deferred("{gear}: {week} books {booked} of {whole}, so {needed} are needed")


def _check_equipment(costed: Costed) -> Iterator[Problem]:
    """A week's plates that one piece of equipment does not hold."""
    content = costed.content
    style = style_of(content.kitchen)
    for name, row in costed.rows.equipment.items():
        needed, booked, available, there = (
            costed.figures.value("equipment", figure, row)
            for figure in ("equipment_needed", "hours_booked", "available_hours", "how_many")
        )
        if not needed > there:
            continue
        key = next(key for key in costed.content.kitchen.equipment if key == name)
        cooks = {cook.id for cook in content.cooks.values() if cook.equipment == name}
        booking = [plate for plate in content.plates.values() if cooks.intersection(plate.cooks)]
        counts = counts_of(booking, costed.menu_month, content.menus.values())
        yield Problem(
            key.place,
            tr(
                _over_booked(needed, booked, there),
                gear=gear_title(content.kitchen.equipment, name),
                week=counts.week(style),
                booked=style.duration(booked),
                whole=style.duration(available * there),
                needed=f"{needed:.0f}",
                there=f"{there:.0f}",
            ),
            tr("move a cook to other equipment, share a temperature, or buy another"),
            Severity.WARNING,
            "equipment",
            needs=(*_BOOKS, "menus") if counts.guests else _BOOKS,
        )
