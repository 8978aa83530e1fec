"""What it brings to sell more of a plate that earns, or to drop one that does not."""

from __future__ import annotations

from builder.engine.arith import Column, either, whole_up
from builder.engine.tables import formula
from builder.money.actions import MONTHS
from builder.money.menu import MENU_ANALYSIS, SECTION
from builder.money.plates import PLATE

GUESTS_MOVE = "guests who choose otherwise choose the section's other plates alike [our rule]"

PLATE.lookup("section_margin", "section", SECTION)


@formula(PLATE, unit="money", source=MENU_ANALYSIS, as_sure_as="contribution_margin")
def others_margin(
    section_margin: Column, month_margin: Column, section_sold: Column, sold: Column
) -> Column:
    """What the other plates of the section earn a plate: their margin over their number.

    Not known where nothing else of the section was sold.
    """
    others = either(section_sold > sold, section_sold - sold, float("nan"))
    return (section_margin - month_margin) / others


@formula(PLATE, unit="count", source=MENU_ANALYSIS)
def sold_at_the_line(dividing_mix: Column, section_sold: Column) -> Column:
    """Plates a month that the dividing mix of the section asks of each, whole ones."""
    return whole_up(dividing_mix * section_sold)


@formula(PLATE, unit="factor", source=MONTHS)
def usual_month(weeks_open: Column, days_in_month: Column) -> Column:
    """Weeks open in a twelfth of a year over the weeks of the month that was counted."""
    return weeks_open / 12 / (days_in_month / 7)


@formula(PLATE, unit="money/month", source=GUESTS_MOVE)
def promote_a_month(
    earns_sells_little: Column,
    sold_at_the_line: Column,
    sold: Column,
    usual_month: Column,
    contribution_margin: Column,
    others_margin: Column,
) -> Column:
    """What it brings a usual month if a plate that earns sells as often as the dividing mix asks.

    Not known for any other plate.
    """
    more = (sold_at_the_line - sold) * usual_month * (contribution_margin - others_margin)
    return either(earns_sells_little > 0, more, float("nan"))


@formula(PLATE, unit="money/month", source=GUESTS_MOVE)
def drop_a_month(
    neither_sells_nor_earns: Column,
    monthly_count: Column,
    contribution_margin: Column,
    others_margin: Column,
) -> Column:
    """What it brings a month if the guests of a plate that does neither take the others.

    Not known for any other plate.
    """
    gain = monthly_count * (others_margin - contribution_margin)
    return either(neither_sells_nor_earns > 0, gain, float("nan"))
