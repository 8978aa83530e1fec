"""Small pieces that the pages of tastings share: names, points, ways to methods, cells."""

from __future__ import annotations

from dataclasses import replace

from builder.costing.blind import has_own_seed, is_over
from builder.costing.tasting_results import AttributeResult, ChoiceResult, TastingResult
from builder.costing.tasting_words import spread_so_far
from builder.engine.methods import METHODS
from builder.language import tr
from builder.pages.components import Cell
from builder.pages.method_graph import function_path
from builder.pages.parts import form_path, page_of
from builder.pages.view import View
from builder.tasting.findings import FINDING
from builder.tasting.wording import percent_in_words, points_in_words

NAV = "~/tastings.html"
UNKNOWN = "–"


def page_path(result: TastingResult) -> str:
    """The page of a tasting."""
    return page_of(result.tasting)


def session_is_over(view: View, result: TastingResult) -> bool:
    """Whether nobody is left to be kept blind: there are answers, or its day has passed."""
    return is_over(view.costed.content, result.tasting, result.held)


def has_sheets(view: View, result: TastingResult) -> bool:
    """Whether sheets are printed: the codes can be kept unknown, or need not be any more."""
    return session_is_over(view, result) or has_own_seed(view.costed.content, result.tasting)


def sheets_of(view: View, result: TastingResult) -> tuple[str, ...]:
    """The sheets of a tasting that are in the site, by the end of their path.

    The key and the tray map wait for the end of the session. Whoever is granted no answers gets
    the ballots of what is ahead alone: those of a session that is over have its tasters' codes.
    """
    if not view.grants("tasting sheets", "allergens") or not has_sheets(view, result):
        return ()
    if not session_is_over(view, result):
        return ("ballots",)
    whole = view.grants("tasting answers", "personal codes")
    return ("ballots", "trays", "key") if whole else ()


def sheet_path(result: TastingResult, sheet: str) -> str:
    """The page of one of its printed sheets."""
    return form_path(result.tasting.id, sheet)


def method_href(name: str) -> str:
    """The page of a sourced function."""
    return f"~/{function_path(METHODS[name])}"


def finding_cell(
    view: View, result: TastingResult, figure: str, test: str, attribute: str = "", about: str = ""
) -> Cell:
    """A figure of a test with the reference to it, a dash where there is no such test.

    `about`: the sample, the pair of samples or the taster that the test is about.
    """
    row = view.costed.findings.row(result.tasting.id, test, attribute, about)
    return Cell(UNKNOWN) if row is None else view.cell(FINDING.name, figure, row)


def points(value: float | None, signed: bool = False) -> str:
    """Points of 100, or a dash."""
    return UNKNOWN if value is None else points_in_words(value, signed)


def sample_cell(result: TastingResult, column: int) -> Cell:
    """A sample by its short name, with the way to its cook or plate."""
    sample = result.samples[column]
    record = sample.plate or sample.cook
    note = tr("benchmark") if column == result.benchmark else ""
    return Cell(sample.words, sample.name, f"~/{page_of(record)}" if record else "", note=note)


def named_cell(result: TastingResult, name: str) -> Cell:
    """A sample by its name in the file; empty where a step is of none."""
    found = (column for column, each in enumerate(result.samples) if each.name == name)
    column = next(found, None)
    return Cell(name) if column is None else replace(sample_cell(result, column), note="")


def choice_cell(
    view: View, result: TastingResult, choice: ChoiceResult, figure: str, test: str
) -> Cell:
    """A figure of a test of choices; in a pair that asks either way it is about a sample."""
    about = choice.shown.ahead if test == "share" else choice.first
    return finding_cell(
        view, result, figure, test, about=about if choice.protocol.two_sided else ""
    )


def share_title(result: TastingResult, choice: ChoiceResult) -> str:
    """The share who can tell, or in a pair that asks either way the lead of who is ahead."""
    if not choice.protocol.two_sided:
        return tr("Share who can tell")
    ahead, behind = map(result.words_of, (choice.shown.ahead, choice.shown.behind))
    return tr("Lead of {ahead} over {behind}", ahead=ahead, behind=behind)


def share_cells(view: View, result: TastingResult, choice: ChoiceResult) -> tuple[Cell, Cell, Cell]:
    """Low, estimate and high of the share: the tests' own bounds; either way, two limits."""
    low, high = ("lower", "upper") if choice.protocol.two_sided else ("at_least", "at_most")
    names = (low, "estimate", high)
    cells = (choice_cell(view, result, choice, name, "share") for name in names)
    first, mid, last = (
        replace(cell, text=percent_in_words(float(cell.sort or 0.0))) for cell in cells
    )
    return first, mid, last


def scale_words(found: AttributeResult) -> str:
    """The declared scale of an attribute."""
    scale = found.attribute.scale if found.attribute else None
    return scale.name if scale else "ranks"


def challengers(result: TastingResult) -> list[int]:
    """Columns of the samples other than the benchmark."""
    return [column for column in range(len(result.samples)) if column != result.benchmark]


def kitchen_spread(view: View) -> float | None:
    """Middle spread of tasters' differences in the kitchen's tastings so far."""
    return spread_so_far(view.costed.tastings.values())
