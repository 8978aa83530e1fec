"""Small pieces that the pages of tastings share: names, points, ways to methods and traces."""

from __future__ import annotations

from dataclasses import dataclass

from builder.costing.blind import has_own_seed, is_over
from builder.costing.tasting_results import AttributeResult, ChoiceResult, TastingResult
from builder.costing.tasting_words import spread_so_far
from builder.engine.methods import METHODS
from builder.pages.components import Cell
from builder.pages.method_graph import function_path
from builder.pages.parts import page_of
from builder.pages.view import View
from builder.reading.names import slug
from builder.tasting.wording import points_in_words

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


def sheet_path(result: TastingResult, sheet: str) -> str:
    """The page of one of its printed sheets."""
    return f"forms/{result.tasting.id}-{sheet}.html"


def method_href(name: str) -> str:
    """The page of a sourced function."""
    return f"~/{function_path(METHODS[name])}"


def anchor(*words: str) -> str:
    """The anchor of a figure in a tasting's trace."""
    return ".".join(slug(word) for word in words)


def trace_href(result: TastingResult, *words: str) -> str:
    """The way to a figure's trace, from any page."""
    return f"~/{page_path(result)}#{anchor(*words)}"


def points(value: float | None, signed: bool = False) -> str:
    """Points of 100, or a dash."""
    return UNKNOWN if value is None else points_in_words(value, signed)


def points_cell(value: float | None, href: str = "", signed: bool = False) -> Cell:
    """A cell of points with the way to its trace."""
    return Cell(points(value, signed), value, href if value is not None else "")


def sample_cell(result: TastingResult, column: int) -> Cell:
    """A sample by its short name, with the way to its cook or plate."""
    sample = result.samples[column]
    record = sample.plate or sample.cook
    note = "benchmark" if column == result.benchmark else ""
    return Cell(sample.words, sample.name, f"~/{page_of(record)}" if record else "", note=note)


@dataclass(frozen=True, slots=True)
class ShownShare:
    """The share who can tell, or in a pair that asks either way the lead of who is ahead."""

    title: str
    low: float
    mid: float
    high: float


def shown_share(choice: ChoiceResult) -> ShownShare:
    """What a choice's tile, picture and trace show."""
    share = choice.share
    if not choice.protocol.two_sided:
        return ShownShare("Share who can tell", share.at_least, share.estimate, share.at_most)
    first, second = choice.first.replace("-", " "), choice.second.replace("-", " ")
    if share.estimate < 0:
        title = f"Lead of {second} over {first}"
        return ShownShare(title, -share.upper, -share.estimate, -share.lower)
    return ShownShare(f"Lead of {first} over {second}", share.lower, share.estimate, share.upper)


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
