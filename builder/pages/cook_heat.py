"""Time and temperature on a cook's page: the core's curve, the rule, and what follows the cook."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from markupsafe import Markup
from numpy.typing import ArrayLike

from builder.cooking.pieces import CoreBand, CoreEstimate
from builder.cooking.ranges import Range
from builder.cooking.rules import HoldRow
from builder.cooking.verdict import Outcome, Verdict
from builder.display.estimates import written_thickness
from builder.engine.methods import METHODS
from builder.language import Deferred, clauses, tr, written
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Definitions,
    Figures,
    FigureTile,
    Notice,
    Notices,
    Part,
    Row,
    Table,
    Term,
    Value,
)
from builder.pages.cook_after import after_sections
from builder.pages.heat_words import estimated, span
from builder.pages.keeping import keeping_table
from builder.pages.method_graph import function_path
from builder.pages.parts import part
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.warned import found_of
from builder.quantities import Dimension, convert
from builder.records.kinds import Cook, Cut

RULES = "~/rules.html"
# Steps [min] of the times in the table below the curve, and how many of them at the most.
_ROUND_MIN = (1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 720, 1440)
_MOST_TIMES = 12
NOT_MODELLED = Deferred(
    "The core is estimated, not measured: an estimate like this is easily {} off, so both ends "
    "are given. It leaves out bags that touch or float, bone, and a bath that sags under a cold "
    "load. The slow end counts here."
)
MELTS = Deferred(
    " The piece goes in frozen or tempered: its ice melts on the way, by "
    "common figures for lean to fat meat."
)
NO_AUTHORITY = Deferred(
    "no authority named: write authority: in kitchen.yaml, and the cooks are compared with its "
    "rules"
)
UNNAMED = Deferred(
    "The file does not say how the rules name the piece (counts as: roast, "
    "or steak), so it is taken as neither."
)


def cut_of(view: View, cook: Cook) -> Cut:
    """The cut that is cooked."""
    return view.costed.content.cuts[cook.cut]


def verdict_of(view: View, cook: Cook) -> Verdict | None:
    """What the kitchen's rule set says of a cook; None where it names none."""
    return view.costed.heat.verdict(cook, cut_of(view, cook))


def verdict_words(view: View, cook: Cook, *, alone: bool = False) -> str:
    """The verdict as a sentence of its own; `alone` where what follows the cook has another."""
    verdict = verdict_of(view, cook)
    if verdict is None:
        return f"{capital(tr(NO_AUTHORITY))}."
    if alone and verdict.outcome is Outcome.MEETS:
        return tr("The cook itself {verdict}.", verdict=verdict.brief)
    return tr("The plan {verdict}.", verdict=verdict.brief)


def heat_parts(view: View, cook: Cook) -> Iterator[Part]:
    """The parts of a cook's page about heat: the cook itself, then what follows it."""
    heating = view.costed.heat.heating(cook)
    verdict = verdict_of(view, cook)
    yield part(
        "heat",
        tr("Time and temperature"),
        _verdict_notices(view, cook, verdict),
        _reach_tiles(view, cook, heating, verdict) if heating else None,
        _chart(view, cook, heating, verdict) if heating else None,
        part("rule", tr("The rule and its text"), _rule_terms(verdict)) if verdict else None,
        about=_not_modelled(view, heating) if heating else "",
    )
    yield part(
        "after",
        tr("Chilling, holding, reheating"),
        keeping_table(view, cook),
        *after_sections(view, cook, cut_of(view, cook)),
    )


def _not_modelled(view: View, heating: CoreEstimate) -> str:
    return tr(NOT_MODELLED).format(view.style.percent(0.25, 0)) + (
        tr(MELTS) if heating.piece.frozen else ""
    )


def _verdict_notices(view: View, cook: Cook, verdict: Verdict | None) -> Notices | None:
    """What the rules say beyond the verdict, which the lead gives unless the plan fails."""
    if verdict is None:
        return None
    further = [capital(reason) + "." for reason in verdict.reasons]
    if verdict.come_up is not None and verdict.come_up.kept:
        check, row = verdict.come_up, view.batch(cook)
        further.append(
            Markup(
                tr("The core comes up from {} to {} in {} at the slow end, within {} ({}).")
            ).format(
                *(view.style.temperature(t) for t in (check.clause.from_c, check.clause.to_c)),
                row.traced("come_up"),
                row.traced("come_up_allowed"),
                check.clause.clause,
            )
        )
    asked = view.costed.heat.asks_what_it_is(cook, cut_of(view, cook))
    if cook.counts_as is None and asked and verdict.outcome is Outcome.MEETS:
        further.append(tr(UNNAMED))
    if verdict.target and verdict.target.table.taken_as:
        further.append(verdict.target.table.taken_as)
    if verdict.asks:
        further.append(tr("The clause also asks: {asks}.", asks=clauses(map(tr, verdict.asks))))
    notes = [Notice(text, "note") for text in further]
    if verdict.outcome is Outcome.DOES_NOT_MEET:
        notes.insert(0, Notice(verdict_words(view, cook), "caution", href=RULES))
    return Notices(tuple(notes)) if notes else None


def _target(view: View, cook: Cook, verdict: Verdict | None) -> tuple[float, str]:
    """The core temperature [°C] that the page looks at, and what it is."""
    target = view.batch(cook).number("core_counted")
    if verdict is not None and verdict.ruling_hold is not None:
        return target, verdict.ruling_hold.row.printed_core
    aimed = cook.core is not None and cook.core.value == target
    return target, cook.core.text if cook.core and aimed else view.style.temperature(target)


def _reach_tiles(
    view: View, cook: Cook, heating: CoreEstimate, verdict: Verdict | None
) -> Figures | None:
    target, words = _target(view, cook, verdict)
    reach, row = view.costed.heat.reach_min(heating, target), view.batch(cook)
    if reach is None:
        return None
    note = Markup(tr("{} typically, {} at the fast end")).format(
        row.traced("time_to_core_typical"), row.traced("time_to_core_fast")
    )
    reached = row.tile("time_to_core_slow", label=tr("Core at {words}, slow end", words=words))
    tiles = [*_failed_tiles(view, cook, verdict), replace(reached, note=note)]
    if verdict is not None and verdict.ruling_hold is not None:
        hold = verdict.ruling_hold
        asked = row.tile("asked_hold", label=tr("Hold required"))
        held = hold.row.printed_hold if hold.row.hold_s else tr("no hold")
        tiles.append(row.tile("hold_slow", label=tr("Held then, slow end")))
        tiles.append(replace(asked, value=held))
        margin = row.tile("hold_margin", label=tr("To spare"))
        if hold.margin_min < 0:
            short = estimated(view, -hold.margin_min, "up")
            tiles.append(replace(margin, label=tr("Too short by"), value=short, tone="loss"))
        elif not any(found_of(view, cook)):
            tiles.append(margin)
    return Figures(tuple(tiles), tr("The core against the rule"))


def _failed_tiles(view: View, cook: Cook, verdict: Verdict | None) -> Iterator[FigureTile]:
    """A core that stays too cold, or a come-up that the rule set limits: what fails leads."""
    if verdict is None or verdict.outcome is not Outcome.DOES_NOT_MEET:
        return
    row = view.batch(cook)
    if verdict.asked is not None and not verdict.forbidden_by:
        tile = row.tile("asked_core", label=tr("Core required"), tone="loss")
        printed = verdict.asked.row.printed_core
        yield replace(tile, value=printed, note=tr("this cook never gets there"))
    if verdict.comes_up_late and verdict.come_up:
        check = verdict.come_up
        low, high = (view.style.temperature(t) for t in (check.clause.from_c, check.clause.to_c))
        allowed = row.traced("come_up_allowed")
        label = tr("Core from {low} to {high}, slow end", low=low, high=high)
        tile = row.tile("come_up", label=label, tone="loss")
        yield replace(tile, note=Markup(tr("the clause allows {}")).format(allowed))


# The picture


def _chart(view: View, cook: Cook, heating: CoreEstimate, verdict: Verdict | None) -> Chart:
    hold = verdict.ruling_hold if verdict else None
    target, words = _target(view, cook, verdict)
    reach = view.costed.heat.reach_min(heating, target)
    until = _until(cook, reach, hold.row.hold_min if hold else 0.0)
    band = view.costed.heat.curve(heating, until)
    rows = _core_rows(view, band)
    if hold is not None and reach is not None:
        rows += _rule_rows(view, hold.row, reach, hold.time_min)
    else:
        rows += _bath_rows(view, heating, reach)
    return Chart(
        "core",
        "core-curve",
        tr("Core temperature over time, {cook}", cook=cook.title),
        _summary(view, cook, heating, reach, words),
        tuple(rows),
        _curve_table(view, view.costed.heat.curve_at(heating, round_times(until))),
        {"time": tr("hours"), "temperature": view.style.unit(Dimension.TEMPERATURE)},
    )


def _core_rows(view: View, band: CoreBand) -> list[dict[str, Value]]:
    shown = [_degrees(view, c) for c in (band.slow_c, band.typical_c, band.fast_c)]
    return [
        {"role": "core", "time": round(t / 60, 3), "low": low, "mid": mid, "high": high}
        for t, low, mid, high in zip(band.time_min.tolist(), *shown, strict=True)
    ]


def round_times(until_min: float) -> tuple[float, ...]:
    """Moments [min] at which somebody would look at a probe: a dozen at the most, and evenly.

    >>> round_times(245.0)
    (0.0, 30.0, 60.0, 90.0, 120.0, 150.0, 180.0, 210.0, 240.0)
    """
    step = next(each for each in _ROUND_MIN if until_min / each <= _MOST_TIMES)
    return tuple(float(step * n) for n in range(int(until_min / step) + 1))


def _until(cook: Cook, reach: Range | None, hold_min: float) -> float:
    """Where the picture ends [min]: a good way past the rule, and no later than the cook."""
    whole = cook.for_.value * 60 if cook.for_ else float("inf")
    wanted = 1.5 * (reach.high + hold_min) if reach else whole
    until = min(whole, max(wanted, 60.0), 7 * 24 * 60.0)
    return max(5.0, 5.0 * round(until / 5))


def _degrees(view: View, celsius: ArrayLike) -> list[float]:
    """Temperatures in the kitchen's unit, to a hundredth."""
    unit = view.style.unit(Dimension.TEMPERATURE)
    zero = convert(0.0, unit)
    scale = convert(1.0, unit) - zero
    shown: list[float] = np.round(np.asarray(celsius, dtype=np.float64) * scale + zero, 2).tolist()
    return shown


def _rule_rows(
    view: View, row: HoldRow, reach: Range, plan_min: float
) -> Iterator[dict[str, Value]]:
    (at,) = _degrees(view, [row.at_c])
    words = (
        tr("held {printed_hold}", printed_hold=row.printed_hold) if row.hold_s else tr("reached")
    )
    yield {"role": "threshold", "temperature": at, "text": f"{_as_on_the_axis(view, row)} {words}"}
    met = reach.high + row.hold_min
    if met <= plan_min:
        text = tr("rule met after {estimated}", estimated=estimated(view, met, limit=plan_min))
        yield {"role": "met", "time": round(met / 60, 3), "temperature": at, "text": text}


def _as_on_the_axis(view: View, row: HoldRow) -> str:
    """The printed temperature in the kitchen's unit, else as the rule set prints it first."""
    unit = view.style.unit(Dimension.TEMPERATURE)
    return written(
        next((printed for printed in row.printed if printed.endswith(unit)), row.printed[0])
    )


def _bath_rows(
    view: View, heating: CoreEstimate, reach: Range | None
) -> Iterator[dict[str, Value]]:
    """Without a rule the line is the bath, and the mark where the core is nearly there."""
    (at,) = _degrees(view, [heating.medium_c])
    around = f"{heating.medium.name}, {view.style.temperature(heating.medium_c)}"
    yield {"role": "threshold", "temperature": at, "text": around}
    if reach is not None:
        text = tr("{estimated}, slow end", estimated=estimated(view, reach.high))
        yield {"role": "met", "time": round(reach.high / 60, 3), "temperature": at, "text": text}


def _summary(view: View, cook: Cook, heating: CoreEstimate, reach: Range | None, words: str) -> str:
    piece, style = heating.piece, view.style
    what = tr(
        "{written_thickness} from {start_c} in a {medium} of {medium_c}",
        written_thickness=written_thickness(style, piece.thickness_mm),
        start_c=style.temperature(piece.start_c),
        medium=heating.medium.name,
        medium_c=style.temperature(heating.medium_c),
    )
    if reach is None:
        return tr("{what}: the core never gets to {words}.", what=what, words=words)
    length = cook.for_.value * 60 if cook.for_ else None
    return tr(
        "{what}: the core is at {words} after {estimated} typically, {span} from "
        "the fast to the slow end.",
        what=what,
        words=words,
        estimated=estimated(view, reach.typical, "near", length),
        span=span(view, reach, length),
    )


def _curve_table(view: View, band: CoreBand) -> Table:
    columns = (
        Column("time", tr("Time")),
        Column("slow", tr("Slow end"), numeric=True),
        Column("typical", tr("Typical"), numeric=True),
        Column("fast", tr("Fast end"), numeric=True),
    )
    unit = view.style.unit(Dimension.TEMPERATURE)
    body = tuple(
        Row(
            (
                Cell(view.style.duration(float(row["time"] or 0))),
                *(
                    Cell(f"{view.style.number(float(row[name] or 0), 1)} {unit}")
                    for name in ("low", "mid", "high")
                ),
            )
        )
        for row in _core_rows(view, band)
    )
    about = Markup(tr('Points of one curve, as <a href="~/{}">the model of a core</a> gives it.'))
    return Table(
        "core-rows",
        tr("Core temperature over time"),
        columns,
        body,
        about=about.format(function_path(METHODS["core_times"])),
    )


def _undecided(verdict: Verdict) -> str:
    """What stands for the clause that decides, where none does: the one that asks, or why."""
    if verdict.target is not None:
        return verdict.target.table.clause
    unheld = verdict.waits_for or not verdict.modelled
    return tr("the plan can't be compared with one") if unheld else tr("none covers this plan")


def _rule_terms(verdict: Verdict) -> Definitions:
    rules = verdict.rule_set
    clause = verdict.clause or _undecided(verdict)
    return Definitions(
        (
            Term(tr("Rule set"), rules.title, RULES),
            Term(tr("Edition"), rules.edition),
            Term(tr("Clause"), clause),
            Term(tr("Status of the text here"), rules.status),
        )
    )
