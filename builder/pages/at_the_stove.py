"""What somebody at the stove looks for first: core, finish, portion and allergens of a cook, and
how a plate is cooked."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from builder.cooking.verdict import Outcome, Verdict
from builder.display.words import listed
from builder.language import tr
from builder.pages.allergens import are_granted, short_words
from builder.pages.components import Term
from builder.pages.cook_heat import verdict_of
from builder.pages.parts import page_of
from builder.pages.portions import size_words
from builder.pages.view import View
from builder.pages.ways import way_words
from builder.pages.withheld import each_seen
from builder.quantities.prints import ROUNDING_C
from builder.records.contained import Holder
from builder.records.kinds import Cook, Plate
from builder.records.plates import Portion
from builder.records.portions import source_of


def core_facts(view: View, cook: Cook) -> Iterator[Term]:
    """The core that the file aims at, else what the kitchen's rule asks for, its hold with it."""
    row = view.batch(cook)
    if stated := row.traced("core_target"):
        yield Term(tr("Core"), _stated_words(verdict_of(view, cook), cook, stated))
    elif asked := row.traced("asked_core"):
        yield Term(tr("Core"), _asked_words(verdict_of(view, cook), asked))


def _stated_words(verdict: Verdict | None, cook: Cook, core: str) -> str:
    """The kitchen's own core with the hold that its rule asks for, there or at a row below it."""
    check = verdict and verdict.asked_of_core
    if not check or not check.row.hold_s or cook.core is None:
        return core
    values = {"core": core, "printed_hold": check.row.printed_hold}
    if abs(cook.core.value - check.row.at_c) < ROUNDING_C or cook.core.value == check.row.least_c:
        held = Markup(tr("{core} for {printed_hold}")).format(**values)
        return _of_the_rule(verdict, held)
    words = Markup(tr("{core}; the rule asks {printed} for {printed_hold}"))
    return words.format(printed=" / ".join(check.row.printed), **values)


def _asked_words(verdict: Verdict | None, core: str) -> Markup:
    """A rule's core with the time that it is held there: either alone is half of the rule."""
    check = verdict.asked_of_core if verdict else None
    if check and check.row.hold_s:
        held = Markup(tr("{core} for {printed_hold}"))
        core = held.format(core=core, printed_hold=check.row.printed_hold)
    return _of_the_rule(verdict, core)


def _of_the_rule(verdict: Verdict | None, core: str) -> Markup:
    """Who asks for a core: a rule, or one row of a table whose rows are as good as each other.

    Of a plan that does not meet the rule, or that no comparison is made of, it must not read as
    what the cook does.
    """
    outcome, check = (verdict.outcome, verdict.asked_of_core) if verdict else (None, None)
    if outcome is Outcome.DOES_NOT_MEET:
        return Markup(tr("{core} is asked for, and not met")).format(core=core)
    rows = len(check.table.rows) if check else 1
    if outcome is Outcome.NOT_COVERED:
        one, only = tr("{core} is asked for by one row of the rule"), tr("{core} is asked for")
    else:
        one, only = tr("{core}, as one row of the rule asks"), tr("{core}, as the rule asks")
    return Markup(one if rows > 1 else only).format(core=core)


def finish_facts(_: View, cook: Cook) -> Iterator[Term]:
    """How the cooked piece is finished, in the file's own words."""
    if cook.finish and cook.finish.how:
        yield Term(tr("Finish"), way_words(cook.finish.how))


def served_facts(view: View, cook: Cook) -> Iterator[Term]:
    """The portions that plates take of a cook."""
    if view.grants("plates", "weights"):
        sizes = dict.fromkeys(size_words(view, portion) for portion in _portions(view, cook))
        if sizes:
            yield Term(tr("Portion"), listed(list(sizes)))


def _portions(view: View, cook: Cook) -> Iterator[Portion]:
    for plate in view.uses.plates_of_cook.get(cook.id, ()):
        yield from (portion for portion in plate.served if portion.cook == cook.id)


def allergen_facts(view: View, record: Holder) -> Iterator[Term]:
    """What is known of allergens, in short; the page's own part has it in full."""
    if are_granted(view):
        yield Term(tr("Allergens"), short_words(view, record))


def portion_facts(view: View, plate: Plate) -> Iterator[Term]:
    """Each portion of a plate: what it is of, its size, and how that is cooked."""
    for portion in plate.served:
        source = source_of(view.costed.content, portion)
        label = tr("Cook") if portion.cook else tr("Cut, no cook")
        yield Term(label, source.title, f"~/{page_of(source)}")
        if view.grants("weights"):
            yield Term(tr("Portion"), size_words(view, portion))
        if isinstance(source, Cook):
            for facts in (_heat_facts, core_facts, finish_facts):
                yield from each_seen(facts(view, source))


def _heat_facts(view: View, cook: Cook) -> Iterator[Term]:
    row = view.batch(cook)
    heat = (row.traced("cook_temperature"), row.traced("cook_hours"))
    yield Term(tr("How"), Markup(", ").join((way_words(cook.how), *filter(None, heat))))
