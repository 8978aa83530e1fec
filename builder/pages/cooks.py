"""The pages of the cooks: the chain of weights, the batch's money, and the cautions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from markupsafe import Markup

from builder.cooking.verdict import Outcome
from builder.costing.cautions import Finding
from builder.display.words import listed
from builder.language import Deferred, tr
from builder.pages.at_the_stove import (
    allergen_facts,
    core_facts,
    finish_facts,
    served_facts,
)
from builder.pages.behind_spreads import is_unproven
from builder.pages.buffet_uses import buffet_links
from builder.pages.components import (
    Cell,
    Column,
    Figures,
    FigureTile,
    Link,
    Notice,
    Notices,
    Page,
    Part,
    Row,
    Table,
    Term,
)
from builder.pages.cook_heat import heat_parts, verdict_of, verdict_words
from builder.pages.cook_money import money_part
from builder.pages.cook_weights import weights_part
from builder.pages.cook_work import work_parts
from builder.pages.cut_cooks import cooks_table
from builder.pages.figure_names import BatchFigure
from builder.pages.in_clauses import in_clauses
from builder.pages.interval_words import sure_tile
from builder.pages.labels import label_path
from builder.pages.listings import listing
from builder.pages.parts import (
    HOT,
    form_path,
    gear_name,
    links,
    page_of,
    part,
    present,
    record_cell,
    record_link,
)
from builder.pages.portions import portion_of, size_words
from builder.pages.remarks import remarks
from builder.pages.stages import tests_table
from builder.pages.steps import steps_part
from builder.pages.tries import cook_tries, tries
from builder.pages.unknown import doubted, full_cost_words
from builder.pages.values import paragraph_of
from builder.pages.view import View
from builder.pages.warned import found_of, leading, notices_of
from builder.pages.ways import way_words
from builder.pages.withheld import WithheldError, each_seen, seen
from builder.records.chains import stages_of
from builder.records.kinds import Cook, Plate

NAV = "~/cooks.html"
_COUNTED = (
    ("meets", Deferred("{count} meets it"), Deferred("{count} meet it")),
    ("does not meet", Deferred("{count} does not meet it"), Deferred("{count} do not meet it")),
    ("is not covered", Deferred("{count} is not covered"), Deferred("{count} are not covered")),
    ("waits for keys", Deferred("{count} lacks keys"), Deferred("{count} lack keys")),
    (
        Deferred("is not modelled here"),
        Deferred("{count} is not modelled here"),
        Deferred("{count} are not modelled here"),
    ),
)
FOOD_SAFETY = Deferred(
    "What this page says about time and temperature is arithmetic, not a "
    "food-safety plan. Log the core with a calibrated probe; local code and "
    "the licensed authority decide."
)


def cook_page(view: View, cook: Cook) -> Page:
    """One way to cook a cut."""
    cut = view.costed.content.cuts[cook.cut]
    found = seen(_found, view, cook) or []
    lead, *also = seen(_answer, view, cook, found) or [f"{cut.title}, {way_words(cook.how)}."]
    return Page(
        path=page_of(cook),
        title=cook.title,
        lead=lead,
        also=paragraph_of(also),
        alarm=bool(found),
        kind=tr("Cook"),
        crumbs=(Link(tr("Cooks"), NAV), Link(cut.title, f"~/{page_of(cut)}")),
        nav=NAV,
        aside=seen(_facts, view, cook) or (),
        sections=present(
            view.notices(cook.path, [(each.place, each.hint) for each in found]),
            seen(_key_figures, view, cook),
            tries(cook_tries(view, cook)),
            *each_seen(heat_parts(view, cook)),
            seen(steps_part, view, cook),
            seen(weights_part, view, cook),
            seen(money_part, view, cook),
            seen(_plates_part, view, cook) if view.grants("plates") else None,
            *each_seen(work_parts(view, cook)),
            _cautions(),
            seen(_weighings, view, cook),
            _forms(cook),
            *remarks(view, cook),
            listing(view, cook),
        ),
    )


def _found(view: View, cook: Cook) -> list[Finding]:
    return list(found_of(view, cook))


def _answer(view: View, cook: Cook, found: list[Finding]) -> list[str]:
    """What fails, what is left to serve and at what cost, what the rules say of it."""
    row = view.batch(cook)
    if row.hides("servable_weight"):
        raise WithheldError
    bought, servable = row.texts("ap_weight", "servable_weight")
    cut = view.costed.content.cuts[cook.cut].title
    first, verdict = leading(found), verdict_of(view, cook)
    failed = verdict is not None and verdict.outcome is Outcome.DOES_NOT_MEET
    left = tr(
        "{cut}: buy {bought}, serve {servable}. {priced}",
        cut=cut,
        bought=bought,
        servable=servable,
        priced=_priced(view, cook),
    ).strip()
    # Beside what fails after it, a rule that is met is said of the cook alone.
    met = verdict_words(view, cook, alone=bool(first))
    return [*first, left, *([] if failed else [met])]


def _priced(view: View, cook: Cook) -> str:
    """What a servable kilogram costs; nothing where it is not shown."""
    row = view.batch(cook)
    if row.hides("cost_per_servable_kg"):
        return ""
    if doubt := view.costed.doubts.cooks[cook.id]:
        return tr("What it costs is in doubt: {doubt}.", doubt=doubt)
    cost, factor = row.texts("cost_per_servable_kg", "cost_factor_per_kg")
    return tr(
        "What is served costs {cost}, {factor} times the purchase price.", cost=cost, factor=factor
    )


def _facts(view: View, cook: Cook) -> tuple[Term, ...]:
    row = view.batch(cook)
    facts = [Term(tr("How"), way_words(cook.how))]
    written = (tr("At"), row.traced("cook_temperature")), (tr("For"), row.traced("cook_hours"))
    facts += [Term(term, text) for term, text in written if text]
    facts += [*core_facts(view, cook), *finish_facts(view, cook), *served_facts(view, cook)]
    # A phone's first screen ends below these: what follows is looked for before the cook begins.
    facts += allergen_facts(view, view.costed.content.cuts[cook.cut])
    return (*facts, *_piece_facts(view, cook))


def _piece_facts(view: View, cook: Cook) -> Iterator[Term]:
    """What the piece is like, and what it is cooked on."""
    if view.grants("cooking") and cook.piece and cook.piece.thickness:
        factor = cook.piece.shape_factor
        by_factor = (
            tr("shape factor {numerals}", numerals=view.style.numerals(factor.value, 2, trim=True))
            if factor
            else ""
        )
        shape = way_words(cook.piece.shape or "") or by_factor or way_words("piece")
        thickness = view.batch(cook).traced("thickness")
        yield Term(tr("Piece"), Markup("{}, {}").format(shape, thickness))
    if cook.equipment:
        yield Term(tr("Equipment"), gear_name(view, cook.equipment), "~/equipment.html")


def _key_figures(view: View, cook: Cook) -> Figures:
    row = view.batch(cook)
    names: dict[BatchFigure, str] = {
        "cost_per_servable_kg": tr("Cost of servable weight"),
        "overall_yield": tr("EP / AP"),
        "cook_yield": tr("Left by the cook itself"),
        "cost_factor_per_kg": tr("Cost factor"),
        "servable_weight": tr("Servable from a batch"),
    }
    # What is counted as worth too much leaves the weights as they are; a loss not known does not.
    sure = tuple(label for name, label in names.items() if "cost" not in name)
    return doubted(
        (
            _sure_tile(view, cook, name, row.tile(name, label=label))
            if "cost" in name
            else row.tile(name, label=label)
            for name, label in names.items()
        ),
        view.costed.doubts.cooks[cook.id],
        but=sure if view.costed.doubts.below_nothing[cook.id] else (),
    )


def _sure_tile(view: View, cook: Cook, name: BatchFigure, tile: FigureTile) -> FigureTile:
    """A tile with its interval, and that this takes the loss as written where nothing weighs it."""
    found = sure_tile(view.batch(cook), name, tile)
    if found is tile or not seen(is_unproven, view, cook):
        return found
    note = in_clauses((found.note, tr("its cook loss taken as written")))
    return replace(found, note=note)


def _plates_part(view: View, cook: Cook) -> Part:
    plates = view.uses.plates_of_cook.get(cook.id, ())
    found = [
        *(
            record_link(plate, _portion_words(view, plate, cook), full_cost_words(view, plate))
            for plate in plates
        ),
        *buffet_links(view, cook),
    ]
    # A buffet that the reader may not know of may put it out.
    nothing = (
        tr("No plate, counter or buffet uses it.")
        if view.grants("buffets")
        else tr("No plate uses it.")
    )
    return part("plates", tr("On the menu"), links(tr("What this cook is sold as"), found, nothing))


def _portion_words(view: View, plate: Plate, cook: Cook) -> str:
    if not view.grants("weights"):
        return ""
    return tr("portion of {size_words}", size_words=size_words(view, portion_of(plate, cook)))


def _cautions() -> Part:
    both = Notices((Notice(tr(FOOD_SAFETY), "caution"), Notice(tr(HOT), "caution")))
    return Part("cautions", tr("Cautions"), (both,), open=True)


def _weighings(view: View, cook: Cook) -> Part:
    tables = [
        tests_table(view, name, stage, view.stage(cook.path, name))
        for name, stage in stages_of(cook)
    ]
    return part("weighings", tr("Weighings"), *tables)


def _forms(cook: Cook) -> Part:
    found = [
        Link(tr("Labels"), f"~/{label_path(cook)}", tr("made, use by, allergens, initials")),
        Link(tr("Log sheet"), f"~/{form_path(cook.id, 'log')}", tr("time, core, initials")),
        Link(tr("Cooking loss test"), f"~/{form_path(cook.id, 'cooking-loss')}"),
        Link(tr("Butcher's yield test"), f"~/{form_path(cook.cut, 'yield-test')}"),
    ]
    return part("forms", tr("To print"), links(tr("Printed forms"), found))


def cook_list_page(view: View) -> Page:
    """The list of cooks."""
    cooks = list(view.costed.content.cooks.values())
    table = seen(cooks_table, view, cooks, "cooks", tr("Every cook"))
    return Page(
        path="cooks.html",
        title=tr("Cooks"),
        lead=tr(
            "{cooks} ways to cook a cut, each from as purchased to servable.", cooks=len(cooks)
        ),
        also=seen(_beside, view, cooks) or (),
        nav=NAV,
        sections=present(seen(notices_of, view, cooks), table, seen(_rule_part, view, cooks)),
    )


def _rule_part(view: View, cooks: list[Cook]) -> Part:
    return part("rule", tr("Beside the rule"), _verdicts_table(view, cooks))


def _beside(view: View, cooks: list[Cook]) -> tuple[str, ...]:
    """How many plans the rule set covers."""
    rules = view.costed.heat.rule_set
    if rules is None:
        return ()
    found = Counter(v.short for cook in cooks if (v := verdict_of(view, cook)))
    counts = [
        tr(one if found[short] == 1 else several, count=found[short])
        for short, one, several in _COUNTED
        if found[short]
    ]
    return (tr("{rules}: {counts}.", rules=rules.name, counts=listed(counts)),) if counts else ()


def _verdicts_table(view: View, cooks: list[Cook]) -> Table:
    rules = view.costed.heat.rule_set
    columns = (
        Column("cook", tr("Cook")),
        Column("verdict", tr("The plan")),
        Column("clause", tr("Clause")),
        Column("to-spare", tr("To spare, slow end"), numeric=True),
    )
    return Table(
        "verdicts",
        rules.name if rules else tr("No authority named"),
        columns,
        tuple(_verdict_row(view, cook) for cook in cooks) if rules else (),
        sortable=True,
        about=tr(FOOD_SAFETY),
        empty=tr("Name one with authority: in kitchen.yaml."),
    )


def _verdict_row(view: View, cook: Cook) -> Row:
    verdict = verdict_of(view, cook)
    # Nothing is to spare of a plan that fails elsewhere.
    first, row = any(found_of(view, cook)), view.batch(cook)
    hold = verdict.ruling_hold if verdict and not first else None
    failed = verdict is not None and verdict.outcome is Outcome.DOES_NOT_MEET
    further = tr("with a caution, at the top of this page") if first and not failed else ""
    words = verdict.short if verdict else "–"
    return Row(
        (
            record_cell(cook),
            Cell(words, tone="loss" if words == "does not meet" else "", note=further),
            Cell(verdict.clause if verdict else "–"),
            row.cell("hold_margin") if hold else Cell("–"),
        )
    )
