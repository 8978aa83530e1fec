"""The pages of the cuts: what is left after trim, and what a servable kilogram costs."""

from __future__ import annotations

from builder.costing.spreads import AP_PRICE
from builder.display.words import listed
from builder.language import Deferred, clauses, ntr, tr
from builder.pages.allergens import allergens_part
from builder.pages.behind_spreads import jump_words
from builder.pages.components import Cell, Column, Figures, Link, Page, Part, Row, Table, Term, Text
from builder.pages.cut_cooks import cooks_table
from builder.pages.interval_words import sure_tile
from builder.pages.listings import listing
from builder.pages.parts import (
    form_path,
    links,
    page_of,
    part,
    present,
    record_cell,
    record_link,
)
from builder.pages.portions import size_words
from builder.pages.remarks import remarks
from builder.pages.service_orders import item_orders_part, sold_facts, supplier_cell
from builder.pages.stages import basis, stated_parts_table, tests_table
from builder.pages.tries import cut_tries, tries
from builder.pages.try_next import PATH, TITLE
from builder.pages.unknown import IN_DOUBT, full_cost_words
from builder.pages.view import View
from builder.pages.warned import notices_of
from builder.pages.ways import species_words
from builder.pages.withheld import WITHHELD, WithheldError, seen
from builder.quantities import Dimension
from builder.records.base import Record
from builder.records.chains import stages_of
from builder.records.kinds import Cook, Cut, Plate
from builder.records.listed import benchmark_of

NAV = "~/cuts.html"
_CHEAPEST = Deferred("cost of servable weight, of the cooks on the menu where there are any")


def _cooks_of(view: View, cut: Cut) -> list[Cook]:
    return list(view.uses.cooks_of_cut.get(cut.id, ()))


def _uncooked(view: View, cut: Cut) -> list[Plate]:
    """The plates that serve a cut without a cook."""
    return list(view.uses.plates_of_cut.get(cut.id, ()))


def cut_page(view: View, cut: Cut) -> Page:
    """A cut: what is left after trim, and how it is cooked."""
    cooks = _cooks_of(view, cut)
    lead, *also = seen(_answer, view, cut, cooks) or [_how_used(view, cut, cooks)]
    return Page(
        path=page_of(cut),
        title=cut.title,
        lead=lead,
        also=tuple(also),
        kind=tr("Cut as purchased"),
        crumbs=(Link(tr("Cuts"), NAV),),
        nav=NAV,
        aside=_facts(view, cut),
        sections=present(
            view.notices(cut.path),
            seen(notices_of, view, cooks, _uncooked(view, cut)),
            seen(_key_figures, view, cut),
            tries(cut_tries(view, cut)),
            _cooks_section(view, cut, cooks),
            seen(_uncooked_part, view, cut),
            seen(item_orders_part, view, cut),
            seen(_weighings, view, cut),
            _forms(cut, cooks),
            allergens_part(view, cut),
            *remarks(view, cut),
            listing(view, cut),
        ),
    )


def _cooks_section(view: View, cut: Cut, cooks: list[Cook]) -> Part | None:
    if not view.grants("cooks") or (_uncooked(view, cut) and not cooks):
        return None
    return seen(_cooks_part, view, cooks)


def _how_used(view: View, cut: Cut, cooks: list[Cook]) -> str:
    """What becomes of a cut, where what it costs is not shown."""
    if not view.grants("cooks", "plates"):
        return ""
    if cooks:
        return tr(
            "{cut}: cooked as {cooks}.",
            cut=cut.title,
            cooks=listed([cook.title for cook in cooks]),
        )
    served = listed([plate.title for plate in _uncooked(view, cut)])
    if served:
        return tr("{cut}: served without a cook in {served}.", cut=cut.title, served=served)
    return tr("{cut}: no cook yet.", cut=cut.title)


def _answer(view: View, cut: Cut, cooks: list[Cook]) -> list[str]:
    if view.cut(cut).hides("ap_price"):
        raise WithheldError
    price = _bought(view, cut)
    if not view.grants("cooks", "plates"):
        return [tr("{cut}: bought at {price}.", cut=cut.title, price=price)]
    if not cooks:
        served = listed([plate.title for plate in _uncooked(view, cut)])
        how = (
            tr("it is served without a cook in {served}", served=served)
            if served
            else tr("no cook uses it yet")
        )
        return [tr("{cut}: bought at {price}; {how}.", cut=cut.title, price=price, how=how)]
    cooks = _trusted(view, cooks)
    if not cooks:
        return [
            tr(
                "{cut}: bought at {price}; what it costs servable is in doubt.",
                cut=cut.title,
                price=price,
            )
        ]
    best = min(_sold(view, cooks), key=lambda c: view.batch(c).number("cost_per_servable_kg"))
    row = view.batch(best)
    cheapest, share, factor = row.texts(
        "cost_per_servable_kg", "overall_yield", "cost_factor_per_kg"
    )
    times = (
        tr(", a cost factor of {factor}", factor=factor) if row.known("cost_factor_per_kg") else ""
    )
    which = tr(" as {best}", best=best.title) if len(cooks) > 1 else ""
    return [
        tr(
            "{cut}: {price} as purchased and {cheapest} servable{which}.",
            cut=cut.title,
            price=price,
            cheapest=cheapest,
            which=which,
        ),
        tr("{share} of the weight reaches the plate{times}.", share=share, times=times),
    ]


def _bought(view: View, cut: Cut) -> Text:
    """The price of a cut by weight, after the one by the piece where it is bought so."""
    by_weight, current = view.cut(cut).text("ap_price"), view.costed.prices.get(cut.id)
    if current is None or current.price.dimension is not Dimension.COUNT:
        return by_weight
    return tr(
        "{price} each ({by_weight})",
        price=view.style.money(current.price.value),
        by_weight=by_weight,
    )


def _sold(view: View, cooks: list[Cook]) -> list[Cook]:
    """Of some cooks those on the menu; all of them where none is, or nobody may know."""
    if not view.grants("plates"):
        return cooks
    return [cook for cook in cooks if _sold_as(view, cook)] or cooks


def _sold_as(view: View, cook: Cook) -> list[Record]:
    """What a cook is sold as: plates, counters and buffets, as far as the reader may know."""
    uses = view.uses
    return [*uses.plates_of_cook.get(cook.id, ()), *uses.buffets_of_cook.get(cook.id, ())]


def _trusted(view: View, cooks: list[Cook]) -> list[Cook]:
    """The cooks whose costs are not in doubt: one below nothing is no cheapest one."""
    return [cook for cook in cooks if not view.costed.doubts.cooks[cook.id]]


def _facts(view: View, cut: Cut) -> tuple[Term, ...]:
    current = view.costed.prices.get(cut.id)
    facts = [Term(tr("Species"), species_words(str(cut.species)))]
    if cut.imps:
        facts.append(Term("IMPS", str(cut.imps)))
    if cut.muscle:
        facts.append(Term(tr("Muscle"), str(cut.muscle)))
    if cut.id in view.costed.candidates.rows:
        plate = view.costed.content.plates[benchmark_of(cut)]
        facts.append(Term(tr("Candidate for"), plate.title, f"~/{PATH}#{cut.id}"))
    if view.grants("suppliers") and current and current.supplier:
        facts.append(Term(tr("Supplier"), current.supplier))
    if view.grants("prices") and current and current.since:
        facts.append(Term(tr("Price since"), view.style.date(current.since), "~/prices.html"))
    facts += sold_facts(view, cut)
    return tuple(facts)


def _key_figures(view: View, cut: Cut) -> Figures:
    row = view.cut(cut)
    jump = seen(jump_words, view, AP_PRICE, row.row) or ""
    tiles = [row.tile("ap_price", label=tr("AP price"), note=jump)]
    for name, stage in stages_of(cut):
        stage_row = view.stage(cut.path, name)
        unknown = "" if stage.has_figure else tr(IN_DOUBT)
        tiles.append(
            stage_row.tile(
                "stage_yield",
                label=tr("Left after {name}", name=name),
                note=clauses((unknown, basis(view, stage_row, stage))),
            )
        )
    if (trimmed := list(stages_of(cut))) and view.grants("prices", "food cost"):
        name, _ = trimmed[-1]
        last = view.stage(cut.path, name)
        doubt = view.costed.doubts.of_cut(cut)
        label, factor = tr("Cost after {name}", name=name), last.text("cost_factor_per_usable_kg")
        tiles.append(
            sure_tile(
                last,
                "cost_per_usable_kg",
                last.tile(
                    "cost_per_usable_kg",
                    label=label,
                    note=clauses(
                        (
                            tr(IN_DOUBT) if doubt else "",
                            tr("parts credited; cost factor {factor}", factor=factor),
                        )
                    ),
                ),
            )
        )
    return Figures(tuple(tiles))


def _cooks_part(view: View, cooks: list[Cook]) -> Part:
    table = cooks_table(view, cooks, "cooks-of-this-cut", tr("Cooks of this cut"), with_cut=False)
    used = {each.path: each.title for cook in cooks for each in _sold_as(view, cook)}
    if not view.grants("plates"):
        return part("cooks", tr("How it is cooked"), table)
    names = listed(list(used.values()))
    about = (
        tr("On the menu in {names}.", names=names)
        if used
        else tr("No counter, buffet or plate on the menu uses it.")
        if view.grants("buffets")
        else tr("No plate on the menu uses it.")
    )
    return part("cooks", tr("How it is cooked"), table, about=about)


def _uncooked_part(view: View, cut: Cut) -> Part | None:
    """The plates that serve it as it is, each with its portion and cost."""
    plates = _uncooked(view, cut)
    found = (
        record_link(
            plate,
            tr("portion of {size_words}", size_words=size_words(view, portion))
            if view.grants("weights")
            else "",
            full_cost_words(view, plate),
        )
        for plate in plates
        for portion in plate.served
        if portion.cut == cut.id
    )
    return (
        part("uncooked", tr("Served without a cook"), links(tr("Plates"), found))
        if plates
        else None
    )


def _weighings(view: View, cut: Cut) -> Part:
    tables = [
        table(view, name, stage, view.stage(cut.path, name))
        for name, stage in stages_of(cut)
        for table in (tests_table, stated_parts_table)
    ]
    return part("weighings", tr("Weighings"), *tables)


def _forms(cut: Cut, cooks: list[Cook]) -> Part:
    return part(
        "forms",
        tr("To print"),
        links(
            tr("Printed forms"),
            [
                Link(tr("Butcher's yield test"), f"~/{form_path(cut.id, 'yield-test')}"),
                *(
                    Link(
                        tr("Cooking loss test: {cook}", cook=cook.title),
                        f"~/{form_path(cook.id, 'cooking-loss')}",
                    )
                    for cook in cooks
                ),
            ],
        ),
    )


def cut_list_page(view: View) -> Page:
    """The list of cuts."""
    cuts = list(view.costed.content.cuts.values())
    columns = (
        Column("cut", tr("Cut")),
        Column("price", tr("AP price"), numeric=True),
        Column("best", tr("Cheapest servable"), numeric=True, about=tr(_CHEAPEST)),
        Column("cooks", tr("Cooks"), numeric=True),
        Column("imps", "IMPS"),
        Column("species", tr("Species")),
        Column("supplier", tr("Supplier")),
    )
    body = tuple(_list_row(view, cut) for cut in cuts)
    return Page(
        path="cuts.html",
        title=tr("Cuts"),
        lead=tr(
            "{cuts}{list_words}.",
            cuts=ntr("{count} cut", "{count} cuts", len(cuts)),
            list_words=_list_words(view),
        ),
        nav=NAV,
        sections=(
            Table(
                "cuts",
                tr("Cuts as purchased"),
                columns,
                body,
                sortable=True,
                filterable=True,
                pick=True,
            ),
            links(
                tr("What comes next"),
                [Link(tr(TITLE), f"~/{PATH}", tr("candidates for a plate's place"))],
            ),
        ),
    )


def _list_words(view: View) -> str:
    if ("batch", "cost_per_servable_kg") in view.hidden:
        return ""
    return tr(", with what each costs as purchased and at the least as the menu cooks it")


def _best(view: View, cooks: list[Cook]) -> Cell:
    """What the cheapest servable kilogram of a cut costs."""
    if ("batch", "cost_per_servable_kg") in view.hidden:
        return Cell(WITHHELD)
    batches = [view.batch(cook) for cook in _sold(view, _trusted(view, cooks))]
    best = min(batches, key=lambda b: b.number("cost_per_servable_kg"), default=None)
    return Cell("–") if best is None else best.cell("cost_per_servable_kg")


def _list_row(view: View, cut: Cut) -> Row:
    cooks = _cooks_of(view, cut)
    return Row(
        (
            record_cell(cut),
            view.cut(cut).cell("ap_price"),
            _best(view, cooks),
            Cell(str(len(cooks)), sort=len(cooks)) if view.grants("cooks") else Cell(WITHHELD),
            Cell(str(cut.imps or "–"), sort=str(cut.imps or "")),
            Cell(species_words(str(cut.species)), sort=str(cut.species)),
            supplier_cell(view, cut),
        )
    )
