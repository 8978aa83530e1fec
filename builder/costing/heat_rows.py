"""Entries of a cook's heat: what its file says, and what physics and the rule set give of it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.cooling import StageCheck
from builder.cooking.pieces import CoreEstimate, core_times
from builder.cooking.ranges import Range
from builder.cooking.verdict import Verdict
from builder.costing.entries import entry, noted
from builder.costing.heat import Chilling, Heat
from builder.costing.plans import nearly_there_c, piece_of, shape_factor
from builder.engine.book import Entry, Origin
from builder.language import Deferred, labelled, tr
from builder.records.kinds import Cook, Cut

Values = dict[str, Entry | None]
_CONSTANT = Deferred("common practice, no published source")


def heat_values(heat: Heat, cook: Cook, cut: Cut) -> Values:
    """What a cook's row holds of its heat; what is not modelled is left out."""
    values = _written(cook)
    heating, verdict = heat.heating(cook), heat.verdict(cook, cut)
    if verdict is not None:
        values |= _asked(verdict)
    if heating is not None:
        values |= _core(cook, heating, verdict)
    if found := heat.come_up_min(cook, cut):
        taken, allowed = found
        by = verdict.come_up.clause.clause if verdict and verdict.come_up else tr(_CONSTANT)
        values |= {"come_up": _given(taken / 60), "come_up_allowed": _given(allowed / 60, by)}
    if cook.cool and (cooling := heat.cooling(cook)):
        values |= _ends("chilled", core_times(cooling, cook.cool.to.value))
    return values


def _written(cook: Cook) -> Values:
    """What the file says, and what is taken where it says nothing of a piece with a thickness."""
    values = {
        "cook_temperature": entry(cook.at),
        "core_target": entry(cook.core),
        "chill_to": entry(cook.cool.to) if cook.cool else None,
        "chill_within": entry(cook.cool.within) if cook.cool else None,
    }
    piece, seen = cook.piece, piece_of(cook)
    if piece is None or seen is None:
        return values
    shape = shape_factor(cook)
    named = tr("for a {shape}", shape=tr(piece.shape or ""))
    by_name = noted(shape, piece.shape.place if piece.shape else None, named)
    return values | {
        "thickness": entry(piece.thickness),
        "thickness_spread": entry(piece.spread) or noted(0.0, None, tr("no spread is written")),
        "start_temperature": entry(piece.starts_at)
        or noted(seen.start_c, None, tr("taken where no start is written")),
        "shape_factor": entry(piece.shape_factor)
        or (by_name if piece.shape else noted(shape, None, tr("a slab where no shape is written"))),
    }


def _asked(verdict: Verdict) -> Values:
    """The row that the verdict rests on; without its hold where the core never comes to it."""
    hold, asked = verdict.ruling_hold, verdict.asked
    if hold is not None:
        by = labelled(hold.table.clause, str(hold.row))
        return {
            "asked_core": _given(hold.row.at_c, by),
            "asked_hold": _given(hold.row.hold_min / 60, by),
        }
    if asked is None or verdict.forbidden_by or verdict.surface:
        return {}
    return {"asked_core": _given(asked.row.at_c, labelled(asked.table.clause, str(asked.row)))}


def _core(cook: Cook, heating: CoreEstimate, verdict: Verdict | None) -> Values:
    hold = verdict.ruling_hold if verdict else None
    counted = hold.row.at_c if hold else nearly_there_c(cook, heating)
    times = core_times(heating, counted)
    return {"core_counted": _given(counted), **_ends("time_to_core", times)}


def cooling_rows(heat: Heat, cook: Cook) -> Iterator[tuple[str, Values]]:
    """Each stage of each way to cool a cook, in the order of its page, by a name."""
    for chilling in heat.chillings(cook):
        for number, check in enumerate(chilling.verdict.stages, start=1):
            yield (
                tr("{where}, stage {number}", where=chilling.where, number=number),
                _stage(chilling, check),
            )


def _stage(chilling: Chilling, check: StageCheck) -> Values:
    stage, by = check.stage, chilling.verdict.clause
    thickest = chilling.thickest_mm
    return {
        "around_temperature": _given(chilling.around_c, tr(_CONSTANT)),
        "stage_from": _given(check.from_c, by),
        "stage_to": _given(stage.to_c, by),
        "stage_allowed": _given(stage.within_min / 60, by),
        "thickest": None if thickest is None else _given(thickest),
        **_ends("cooling", check.taken_min),
    }


def _ends(name: str, minutes: Range | None) -> Values:
    """Hours at the fast end, typically and at the slow end; nothing where it is never reached."""
    if minutes is None:
        return {}
    ends = {"fast": minutes.low, "typical": minutes.typical, "slow": minutes.high}
    return {f"{name}_{end}": _given(taken / 60) for end, taken in ends.items()}


def _given(value: float, by: str = "") -> Entry:
    """The entry of what a method gives, with the clause that it comes from."""
    return Entry(value, Origin(reason=by))
