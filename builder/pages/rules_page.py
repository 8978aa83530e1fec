"""The page of the kitchen's rule set: every row of it, and only the names of the others."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.cautions import COOL_COOK_MIN, GROWTH_C, PASSED_WITHIN_MIN
from builder.cooking.foods import Cut, Form, Scope, Species
from builder.cooking.rules import HUMID, Clause, HoldTable, RuleSet
from builder.cooking.verdicts import DEFERENCE
from builder.display.style import Style
from builder.display.words import listed
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
        title=rules.title if rules else "Rules",
        lead=_lead(rules),
        kind="Rule set",
        crumbs=(Link("Cooks", "~/cooks.html"),),
        nav="~/cooks.html",
        aside=_facts(rules) if rules else (),
        sections=present(
            Notices((Notice(_caution(rules), "caution"),)),
            *(_parts(view, rules) if rules else ()),
            part("others", "Other rule sets that a kitchen may name", _others(view, rules)),
        ),
    )


def _lead(rules: RuleSet | None) -> str:
    if rules is None:
        return f"There is {NO_AUTHORITY}."
    return f"Every cook of this kitchen is held against {rules.name}, and against no other."


def _caution(rules: RuleSet | None) -> str:
    note = f" {rules.note}" if rules and rules.note else ""
    return f"What stands here is {DEFERENCE}. Check your own jurisdiction's text.{note}"


def _facts(rules: RuleSet) -> tuple[Term, ...]:
    return (
        Term("Authority", rules.authority),
        Term("Jurisdiction", rules.jurisdiction),
        Term("Edition", rules.edition),
        Term("Status of the text here", rules.status),
    )


def _parts(view: View, rules: RuleSet) -> Iterator[Part]:
    yield part(
        "holds",
        "Core temperature and how long it is held",
        *(_hold_table(view.style, n, table) for n, table in enumerate(rules.holds, start=1)),
        about="The next lower row counts; nothing between rows and nothing below the first.",
    )
    yield part("limits", "Other limits", *_limits(view, rules))
    yield part("cautions", "Cautions under any rule set", paragraph(_cautions(view)))


def _cautions(view: View) -> str:
    low, high = (view.style.temperature(degrees) for degrees in GROWTH_C)
    longest, within = minutes(view, COOL_COOK_MIN), minutes(view, PASSED_WITHIN_MIN)
    return (
        f"Bacteria can grow between {low} and {high}. Whatever the rule set says, a cook of more "
        f"than {longest} below {high} is a caution here, and so is a core that takes more than "
        f"{within} through that range on its way up or down. Common caution: one published table "
        "prints the latter for itself [secondary]; the former is time as a control [from memory]. "
        "Local code decides."
    )


def _hold_table(style: Style, number: int, table: HoldTable) -> Table:
    body = tuple(
        Row((Cell(" / ".join(row.printed)), Cell(row.printed_hold if row.hold_s else "at once")))
        for row in table.rows
    )
    asks = f" It also asks: {'; '.join(table.asks)}." if table.asks else ""
    humid = style.percent(HUMID, 0)
    sealed = f" In a sealed bag or at {humid} humidity or more." if table.moist else ""
    lower = (
        " Where a cook does not meet it, other clauses may apply, and lower needs "
        f"{table.lower_needs}; the authority decides."
        if table.lower_needs
        else ""
    )
    return Table(
        f"hold-{number}",
        f"{table.clause}, {table.title}",
        (Column("core", "Core"), Column("hold", "Held", numeric=True)),
        body,
        about=f"For {_scope(table.scope)}.{sealed}{asks}{lower} Status: {table.status}.",
    )


def _scope(scope: Scope) -> str:
    words = []
    if scope.forms != frozenset(Form):
        words.append(listed(sorted(scope.forms)))
    if scope.species != frozenset(Species):
        words.append(listed(sorted(scope.species)))
    if scope.cuts != frozenset(Cut):
        words.append(f"as {listed(sorted(scope.cuts))}")
    return ", ".join(words) or "any meat"


def _limits(view: View, rules: RuleSet) -> Iterator[Section]:
    terms = [Term(words, text, note=_cite(clause)) for clause, words, text in _said(view, rules)]
    silent = (("Cooling", rules.cooling), ("Reheating", rules.reheating))
    terms += [Term(name, "no clause here; local code decides") for name, c in silent if not c]
    yield Definitions(tuple(terms))
    if rules.packaging is not None:
        packaging = rules.packaging
        before = [f"a cook that meets {packaging.cooked_by}"] if packaging.cooked_by else []
        before += [f"cooling that meets {packaging.cooled_by}"] if packaging.cooled_by else []
        yield paragraph(f"{packaging.clause} also needs: {'; '.join([*before, *packaging.needs])}.")


def _cite(clause: Clause) -> str:
    return f"{clause.clause}; status: {clause.status}"


def _said(view: View, rules: RuleSet) -> Iterator[tuple[Clause, str, str]]:
    style = view.style
    if come_up := rules.come_up:
        span = f"{style.temperature(come_up.from_c)} to {style.temperature(come_up.to_c)}"
        bound = "" if come_up.binding else "; of another text, so it only warns"
        yield come_up, "Come-up", f"{span} within {minutes(view, come_up.within_min)}{bound}"
    if rules.cooling is not None:
        for stage in rules.cooling.stages:
            span = f"{style.temperature(stage.from_c)} to {style.temperature(stage.to_c)}"
            yield rules.cooling, "Cooling", f"{span} within {minutes(view, stage.within_min)}"
    for holding in rules.hot_holding:
        what = f"{style.temperature(holding.at_c)} or above, {_scope(holding.scope)}"
        yield holding, "Hot holding", what
    if again := rules.reheating:
        within = f" within {minutes(view, again.within_min)}" if again.within_min else ""
        held = style.duration(again.hold_s / 3600)
        yield again, "Reheating", f"{style.temperature(again.at_c)} for {held}{within}"
        for milder in (again.as_cooked, again.to_order):
            if milder is not None:
                yield milder, "Reheating otherwise", milder.title
    yield from _said_of_storing(view, rules)


def _said_of_storing(view: View, rules: RuleSet) -> Iterator[tuple[Clause, str, str]]:
    style = view.style
    storing = (("Reduced-oxygen packaging", rules.packaging), ("Kept cold", rules.keeping))
    for name, clause in storing:
        if clause is None:
            continue
        for limit in clause.limits:
            at = style.temperature(limit.at_c)
            note = f" ({limit.note})" if limit.note else ""
            first = ", the day of preparation being day 1" if clause.first_day_counts else ""
            days = f"at {at} or below for {limit.days:g} days{first}{note}; {limit.status}"
            yield clause, name, days
    for surface in rules.surfaces:
        at = f" at {style.temperature(surface.surface_c)} or above" if surface.surface_c else ""
        hot = f"surface{at or ' cooked all over'}"
        words = f"{hot}, cooked within {minutes(view, surface.cook_max_min)}"
        yield surface, surface.title, "; ".join([words, *surface.asks])
    for band in rules.forbids:
        ends = f"{style.temperature(band.low_c)} and {style.temperature(band.high_c)}"
        words = f"between {ends} for at most {minutes(view, band.total_max_min)} in all"
        yield band, "Forbidden beyond", words


def _others(view: View, rules: RuleSet | None) -> Definitions:
    known = view.costed.heat.authority.known
    others = [rule for name, rule in known.items() if rules is None or name != rules.id]
    return Definitions(tuple(Term(rule.id, rule.name) for rule in others))
