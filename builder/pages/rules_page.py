"""The page of the kitchen's rule set: every row of it, and only the names of the others."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.cautions import COOL_COOK_MIN, GROWTH_C, PASSED_WITHIN_MIN
from builder.cooking.foods import Cut, Form, Scope, Species
from builder.cooking.rules import HUMID, Clause, HoldTable, RuleSet
from builder.cooking.verdict import DEFERENCE
from builder.display.style import Style
from builder.display.words import listed
from builder.language import clauses, tr
from builder.pages.components import (
    Cell,
    Column,
    Definitions,
    Link,
    Notice,
    Notices,
    Page,
    Part,
    Row,
    Section,
    Table,
    Term,
)
from builder.pages.cook_heat import NO_AUTHORITY
from builder.pages.heat_words import minutes
from builder.pages.parts import paragraph, part, present
from builder.pages.view import View

PATH = "rules.html"


def rules_page(view: View) -> Page:
    """What the kitchen's rule set says, as far as it is held here."""
    authority = view.costed.heat.authority
    rules = authority.rule_set
    return Page(
        path=PATH,
        title=tr(rules.title) if rules else tr("Rules"),
        lead=_lead(rules),
        kind=tr("Rule set"),
        crumbs=(Link(tr("Cooks"), "~/cooks.html"),),
        nav="~/cooks.html",
        aside=_facts(rules) if rules else (),
        sections=present(
            Notices((Notice(_caution(rules), "caution"),)),
            *(_parts(view, rules) if rules else ()),
            part("others", tr("Other rule sets that a kitchen may name"), _others(view, rules)),
        ),
    )


def _lead(rules: RuleSet | None) -> str:
    if rules is None:
        return tr("There is {no_authority}.", no_authority=NO_AUTHORITY)
    return tr(
        "Every cook of this kitchen is compared with {rules}, and with no other.",
        rules=rules.name,
    )


def _caution(rules: RuleSet | None) -> str:
    note = f" {rules.note}" if rules and rules.note else ""
    return tr(
        "The text here is {deference}. Check your own jurisdiction's text.{note}",
        deference=DEFERENCE,
        note=note,
    )


def _facts(rules: RuleSet) -> tuple[Term, ...]:
    return (
        Term(tr("Authority"), rules.authority),
        Term(tr("Jurisdiction"), rules.jurisdiction),
        Term(tr("Edition"), rules.edition),
        Term(tr("Status of the text here"), rules.status),
    )


def _parts(view: View, rules: RuleSet) -> Iterator[Part]:
    yield part(
        "holds",
        tr("Core temperature and how long it is held"),
        *(_hold_table(view.style, n, table) for n, table in enumerate(rules.holds, start=1)),
        about=tr("The next lower row counts; nothing between rows and nothing below the first."),
    )
    yield part("limits", tr("Other limits"), *_limits(view, rules))
    yield part("cautions", tr("Cautions under any rule set"), paragraph(_cautions(view)))


def _cautions(view: View) -> str:
    low, high = (view.style.temperature(degrees) for degrees in GROWTH_C)
    longest, within = minutes(view, COOL_COOK_MIN), minutes(view, PASSED_WITHIN_MIN)
    return tr(
        "Bacteria can grow between {low} and {high}. Whatever the rule set says, "
        "a cook of more than {longest} below {high} is a caution here, and so is "
        "a core that takes more than {within} through that range on its way up "
        "or down. Common caution: one published table prints the latter for "
        "itself [secondary]; the former is time as a control [from memory]. "
        "Local code decides.",
        low=low,
        high=high,
        longest=longest,
        within=within,
    )


def _hold_table(style: Style, number: int, table: HoldTable) -> Table:
    body = tuple(
        Row((Cell(row.printed_core), Cell(row.printed_hold if row.hold_s else tr("at once"))))
        for row in table.rows
    )
    asks = tr(" It also asks: {asks}.", asks=clauses(map(tr, table.asks))) if table.asks else ""
    humid = style.percent(HUMID, 0)
    sealed = (
        tr(" In a sealed bag or at {humid} humidity or more.", humid=humid) if table.moist else ""
    )
    lower = (
        tr(
            " Where a cook does not meet it, other clauses may apply, and lower "
            "needs {lower_needs}; the authority decides.",
            lower_needs=table.lower_needs,
        )
        if table.lower_needs
        else ""
    )
    return Table(
        f"hold-{number}",
        f"{table.clause}, {table.title}",
        (Column("core", tr("Core")), Column("hold", tr("Held"), numeric=True)),
        body,
        about=tr(
            "For {scope}.{sealed}{asks}{lower} Status: {status}.",
            scope=_scope(table.scope),
            sealed=sealed,
            asks=asks,
            lower=lower,
            status=table.status,
        ),
    )


def _scope(scope: Scope) -> str:
    words = []
    if scope.forms != frozenset(Form):
        words.append(listed(sorted(scope.forms)))
    if scope.species != frozenset(Species):
        words.append(listed(sorted(scope.species)))
    if scope.cuts != frozenset(Cut):
        words.append(tr("as {cuts}", cuts=listed(sorted(scope.cuts))))
    return ", ".join(words) or tr("any meat")


def _limits(view: View, rules: RuleSet) -> Iterator[Section]:
    terms = [Term(words, text, note=_cite(clause)) for clause, words, text in _said(view, rules)]
    silent = ((tr("Cooling"), rules.cooling), (tr("Reheating"), rules.reheating))
    terms += [Term(name, tr("no clause here; local code decides")) for name, c in silent if not c]
    yield Definitions(tuple(terms))
    if rules.packaging is not None:
        packaging = rules.packaging
        before = (
            [tr("a cook that meets {cooked_by}", cooked_by=packaging.cooked_by)]
            if packaging.cooked_by
            else []
        )
        before += (
            [tr("cooling that meets {cooled_by}", cooled_by=packaging.cooled_by)]
            if packaging.cooled_by
            else []
        )
        yield paragraph(
            tr(
                "{clause} also needs: {value}.",
                clause=packaging.clause,
                value=clauses([*before, *map(tr, packaging.needs)]),
            )
        )


def _cite(clause: Clause) -> str:
    return tr("{clause}; status: {status}", clause=clause.clause, status=clause.status)


def _said(view: View, rules: RuleSet) -> Iterator[tuple[Clause, str, str]]:
    style = view.style
    if come_up := rules.come_up:
        span = tr(
            "{from_c} to {to_c}",
            from_c=style.temperature(come_up.from_c),
            to_c=style.temperature(come_up.to_c),
        )
        bound = "" if come_up.binding else tr("; of another text, so it only warns")
        yield (
            come_up,
            tr("Come-up"),
            tr(
                "{span} within {minutes}{bound}",
                span=span,
                minutes=minutes(view, come_up.within_min),
                bound=bound,
            ),
        )
    if rules.cooling is not None:
        for stage in rules.cooling.stages:
            span = tr(
                "{from_c} to {to_c}",
                from_c=style.temperature(stage.from_c),
                to_c=style.temperature(stage.to_c),
            )
            yield (
                rules.cooling,
                tr("Cooling"),
                tr("{span} within {minutes}", span=span, minutes=minutes(view, stage.within_min)),
            )
    for holding in rules.hot_holding:
        what = tr(
            "{at_c} or above, {scope}",
            at_c=style.temperature(holding.at_c),
            scope=_scope(holding.scope),
        )
        yield holding, tr("Hot holding"), what
    if again := rules.reheating:
        within = (
            tr(" within {minutes}", minutes=minutes(view, again.within_min))
            if again.within_min
            else ""
        )
        held = style.duration(again.hold_s / 3600)
        yield (
            again,
            tr("Reheating"),
            tr(
                "{at_c} for {held}{within}",
                at_c=style.temperature(again.at_c),
                held=held,
                within=within,
            ),
        )
        for milder in (again.as_cooked, again.to_order):
            if milder is not None:
                yield milder, tr("Reheating otherwise"), milder.title
    yield from _said_of_storing(view, rules)


def _said_of_storing(view: View, rules: RuleSet) -> Iterator[tuple[Clause, str, str]]:
    style = view.style
    storing = ((tr("Reduced-oxygen packaging"), rules.packaging), (tr("Kept cold"), rules.keeping))
    for name, clause in storing:
        if clause is None:
            continue
        for limit in clause.limits:
            at = style.temperature(limit.at_c)
            note = f" ({limit.note})" if limit.note else ""
            first = tr(", the day of preparation being day 1") if clause.first_day_counts else ""
            days = tr(
                "at {at} or below for {days:g} days{first}{note}; {status}",
                at=at,
                days=limit.days,
                first=first,
                note=note,
                status=limit.status,
            )
            yield clause, name, days
    for surface in rules.surfaces:
        at = (
            tr(" at {surface_c} or above", surface_c=style.temperature(surface.surface_c))
            if surface.surface_c
            else ""
        )
        hot = tr("surface{at}", at=at) if at else tr("surface cooked all over")
        words = tr(
            "{hot}, cooked within {minutes}", hot=hot, minutes=minutes(view, surface.cook_max_min)
        )
        yield surface, surface.title, clauses([words, *map(tr, surface.asks)])
    for band in rules.forbids:
        ends = tr(
            "{low_c} and {high_c}",
            low_c=style.temperature(band.low_c),
            high_c=style.temperature(band.high_c),
        )
        words = tr(
            "between {ends} for at most {minutes} in all",
            ends=ends,
            minutes=minutes(view, band.total_max_min),
        )
        yield band, tr("Forbidden beyond"), words


def _others(view: View, rules: RuleSet | None) -> Definitions:
    known = view.costed.heat.authority.known
    others = [rule for name, rule in known.items() if rules is None or name != rules.id]
    return Definitions(tuple(Term(rule.id, rule.name) for rule in others))
