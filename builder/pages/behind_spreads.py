"""What the spread of an input rests on, in words."""

from __future__ import annotations

import math

from builder.costing.spreads import YIELD
from builder.display.numerals import as_read
from builder.display.words import listed
from builder.engine.draws import Basis
from builder.engine.model import Node
from builder.engine.sensitivity import Reach
from builder.language import ntr, tr
from builder.pages.view import View
from builder.records.kinds import Cook


def behind(view: View, reach: Reach) -> str:
    """What a spread rests on, with how much of it there is."""
    count = reach.spread.count
    alike = reach.node == YIELD and view.number("stage", "tests_count", reach.row) > 1
    tests = ntr("{count} test", "{count} tests", count)
    match reach.spread.basis:
        case Basis.TESTS:
            return tests
        case Basis.POOLED:
            return tr(
                "{tests}, pooled with like stages in this kitchen",
                tests=tests,
            )
        case Basis.LIKE:
            return tr(
                "{tests}; spread of like stages in this kitchen",
                tests=ntr("{count} test alike", "{count} tests alike", count) if alike else tests,
            )
        case Basis.LIKE_CUTS:
            return tr(
                "spread among {other_cuts} of this kitchen",
                other_cuts=ntr("{count} other cut", "{count} other cuts", count),
            )
        case Basis.PUBLISHED:
            return tr(
                "published spread of {samples}",
                samples=ntr("{count} sample", "{count} samples", count),
            )
        case Basis.LIST:
            return tr(
                "{changes} of its price list",
                changes=ntr("{count} change", "{count} changes", count),
            )
        case Basis.LIKE_PRICES:
            return tr("changes of all listed prices")
        case Basis.WEIGHED:
            return ntr("{count} weighed portion", "{count} weighed portions", count)
        case Basis.MONTHS:
            return tr("{months} counted", months=ntr("{count} month", "{count} months", count))
        case Basis.MODEL:
            return tr("range of the energy estimate")
        case Basis.STATED:
            own = tr("{tests} alike; ", tests=tests) if alike else ""
            return tr("{own}what the kitchen gives or takes", own=own)


def jump_words(view: View, node: Node, row: int) -> str:
    """That a price moved far within a list, which its spread counts."""
    known = view.costed.uncertainty
    jump = known.jumps.get((node, row)) if known else None
    if known is None or jump is None:
        return _like_jumps(view, node, row)
    times, style = math.exp(abs(jump.step)), view.style
    about = as_read(times, 1) == 2
    if jump.step > 0:
        ratio = style.number(times, 1)
        went = tr("doubled") if about else tr("went to {times} times its price", times=ratio)
    else:
        share = style.percent(1 - 1 / times, 0)
        went = tr("fell by half") if about else tr("fell by {fell}", fell=share)
    return tr(
        "{went} on {listed}; its spread counts that change",
        went=went,
        listed=style.date(jump.listed),
    )


def _like_jumps(view: View, node: Node, row: int) -> str:
    """Whose changes were left out of all that a price of few changes moves like."""
    known = view.costed.uncertainty
    spread = known.spreads.get(node, {}).get(row) if known else None
    if known is None or spread is None or spread.basis is not Basis.LIKE_PRICES or not known.jumps:
        return ""
    owners = (view.costed.figures.identity(each[0], at).owner for each, at in known.jumps)
    whose = listed([view.where.title(f"{owner}.html") for owner in owners])
    return tr(
        "its spread is that of all listed prices, without large changes in the price of {whose}",
        whose=whose,
    )


def is_unproven(view: View, cook: Cook) -> bool:
    """Whether nothing says how far off a cook's loss may be, while others' inputs have a spread."""
    known, row = view.costed.uncertainty, view.costed.rows.stages.get((cook.path, "cook"))
    if known is None or row is None:
        return False
    return row not in known.spreads.get(YIELD, {}) and (YIELD, row) not in known.sure
