"""The whole model: every table of the chain, the pantry, the plates and the swaps.

Importing this module checks that every formula finds the figures that it needs
and that none runs in a circle.
"""

from __future__ import annotations

from builder.cooking import lethality as _lethality  # noqa: F401 - likewise
from builder.costing.heat_table import COOLING
from builder.costing.kinds import KINDS
from builder.engine.model import Model
from builder.money import actions as _actions  # noqa: F401 - declares what acting is worth
from builder.money import actuals as _actuals  # noqa: F401 - declares what was used and thrown
from builder.money import batch_intervals as _batch_intervals  # noqa: F401 - declares how sure what plates rest on is
from builder.money import capacity as _capacity  # noqa: F401 - declares what equipment holds
from builder.money import count_intervals as _count_intervals  # noqa: F401 - declares how sure counts are
from builder.money import decisions as _decisions  # noqa: F401 - declares what a decision promised
from builder.money import equal_margin as _equal_margin  # noqa: F401 - declares where margins meet
from builder.money import intervals as _intervals  # noqa: F401 - declares how sure money is
from builder.money import menu_actions as _menu_actions  # noqa: F401 - declares what a menu gains
from builder.money import smaller as _smaller  # noqa: F401 - declares smaller portions
from builder.money.candidates import CANDIDATE
from builder.money.counted import COUNT, OUTPUT, SALE, USAGE, WASTE
from builder.money.covers import COVER_ITEM
from builder.money.further_sales import FURTHER_SALE
from builder.money.guest_sales import GUEST_SALE, MENU_SALE
from builder.money.kitchen import CONSUMABLE, EQUIPMENT, KITCHEN
from builder.money.menu import FURTHER_ORDER, ORDER, SECTION
from builder.money.ordering import ORDER_LINE, ORDER_NEED, PREPARATION, SERVICE_ORDER
from builder.money.pantry import INGREDIENT, PANTRY
from builder.money.plates import ACCOMPANIMENT, PLATE
from builder.money.portions import PORTION
from builder.money.sales import TAKING
from builder.money.scaling import SCALE, SCALED
from builder.money.service import JOB, LOADING, MENU_SERVING, SERVING
from builder.money.set_menus import CHOICE, COURSE, SET_MENU
from builder.money.swap_portions import MOVED, MOVED_CUT
from builder.money.swaps import SWAP
from builder.tasting.findings import FINDING
from builder.yields import forms as _forms  # noqa: F401 - declares what the forms print
from builder.yields import means as _means  # noqa: F401 - likewise, the means of the tests
from builder.yields.chain import BATCH, CUT, STEP
from builder.yields.weighings import BYPRODUCT, PART, STAGE, TEST

MODEL = Model(
    [
        KITCHEN,
        EQUIPMENT,
        CUT,
        STAGE,
        TEST,
        BYPRODUCT,
        PART,
        BATCH,
        STEP,
        COOLING,
        CONSUMABLE,
        PANTRY,
        INGREDIENT,
        COVER_ITEM,
        SECTION,
        PLATE,
        ACCOMPANIMENT,
        PORTION,
        ORDER,
        FURTHER_ORDER,
        SET_MENU,
        COURSE,
        CHOICE,
        *(table for kind in KINDS for table in kind.tables),
        SCALE,
        SCALED,
        TAKING,
        SWAP,
        MOVED,
        MOVED_CUT,
        CANDIDATE,
        LOADING,
        SERVING,
        MENU_SERVING,
        JOB,
        SERVICE_ORDER,
        ORDER_LINE,
        PREPARATION,
        ORDER_NEED,
        FINDING,
        COUNT,
        USAGE,
        OUTPUT,
        SALE,
        MENU_SALE,
        GUEST_SALE,
        FURTHER_SALE,
        WASTE,
    ]
)
