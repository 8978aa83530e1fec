"""What a tasting prints: a ballot for each taster, the server's tray map, and the key apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import ceil

from builder.costing.panels import protocol_of
from builder.costing.tasting_results import TastingResult
from builder.language import Deferred, labelled, tr
from builder.pages.components import (
    Cell,
    Column,
    Form,
    FormBlock,
    FormField,
    FormFields,
    FormGrid,
    FormLines,
    FormNote,
    FormScale,
    Link,
    Page,
    Row,
)
from builder.pages.marks import with_marks
from builder.pages.tasting_key import cooking_form, key_forms
from builder.pages.tasting_pieces import NAV, page_path, session_is_over, sheet_path, sheets_of
from builder.pages.tasting_plan import moment
from builder.pages.view import View
from builder.records.contained import Holder, contained, in_words
from builder.records.tasting_values import RANKS, SCORES, WrittenScale
from builder.records.tastings import Attribute, Tasting
from builder.tasting.plans import Ballot, Serving
from builder.tasting.protocols import Question

_SEATS = 20
# Lines to mark that one sheet of A4 or Letter holds, and those below the head of the first.
_LINES, _FIRST_LINES = 14, 10
_WARM_UP = Deferred("to warm up: taste, do not score")
_SCORES_TASK = (
    Deferred("Score each sample on every scale; write a dash where you did not taste."),
    Deferred("Mark each line with one upright stroke; leave it bare where you did not taste."),
)
_REMARKS = Deferred("Remarks (no names)")
_BETWEEN = FormNote(
    Deferred(
        "Taste in this order, all of it warm. Water and bread between samples; "
        "talk about it when all ballots are in."
    )
)
# What half a sheet of Letter holds beside its head and foot, in lines of small words; how high a
# row is, and how many letters a line has, of words and of headings. A browser test prints
# ballots of this size.
_HALF_COLUMNS, _HALF_LINES, _ROW_LINES, _LETTERS, _HEADING_LETTERS = 5, 15, 1.65, 110, 95
PINK_BELOW = 70.0
"""Core [°C] below which meat may look pink: common practice, no published source."""


def sheet_pages(view: View) -> Iterator[Page]:
    """The printed sheets of every tasting; key and trays only once nobody has to be kept blind."""
    for result in view.costed.tastings.values():
        found = sheets_of(view, result)
        if "ballots" in found:
            yield ballot_page(view, result)
        if "key" in found:
            yield from key_pages(view, result)


def ballot_page(view: View, result: TastingResult) -> Page:
    """The ballots of a tasting."""
    plans = result.plan.ballots
    ballots = _two_to_a_page([form for b in plans for form in _ballot(view, result, b)])
    about, drawn = tr("A ballot for each taster."), _drawn(view, result)
    return with_marks(_page(result, "ballots", tr("Ballots"), ballots, about, drawn), view.style)


def _drawn(view: View, result: TastingResult) -> str:
    """What the codes rest on; the seed, from which the key follows, once the session is over."""
    if not session_is_over(view, result):
        return tr("The same file gives the same codes.")
    name, seed = result.tasting.draws_from, result.tasting.seed
    if seed:
        return tr("Drawn from the seed “{seed}”: the same file gives the same codes.", seed=name)
    return tr(
        "Drawn from the file's name, “{name}”: the same file gives the same codes.", name=name
    )


def key_pages(view: View, result: TastingResult) -> Iterator[Page]:
    """The tray map and the key."""
    trays, drawn = tuple(_trays(view, result)), _drawn(view, result)
    about = tr("For whoever serves; it names no sample.")
    yield _page(result, "trays", tr("Tray map"), trays, about, drawn)
    key = (*key_forms(result), cooking_form(view, result))
    about = tr("Kept in the kitchen until the last ballot is in.")
    yield with_marks(_page(result, "key", tr("Key"), key, about, drawn), view.style)


def _page(
    result: TastingResult, sheet: str, title: str, forms: tuple[Form, ...], about: str, drawn: str
) -> Page:
    """A page of sheets; ballots and trays lead back to the list, so that the key stays apart."""
    tasting = result.tasting
    crumbs = [Link(tr("Tastings"), NAV)]
    if sheet == "key":
        crumbs.append(Link(tasting.title, f"~/{page_path(result)}"))
    return Page(
        path=sheet_path(result, sheet),
        title=labelled(title, tasting.title),
        lead=about,
        also=(drawn,),
        kind=tr("Form"),
        crumbs=tuple(crumbs),
        nav=NAV,
        sections=forms,
        sheet=True,
    )


# Ballots


def _ballot(view: View, result: TastingResult, ballot: Ballot) -> Iterator[Form]:
    """A taster's sheet, and further ones where the lines to mark need them."""
    grids = tuple(_grids(result.tasting, ballot))
    room = _FIRST_LINES - sum(_height(grid) for grid in grids if isinstance(grid, FormGrid))
    first, *further = _sheets(_lines(result.tasting, ballot), room)
    half = _fits_half(view, result, grids, (*first, *further))
    foot = (FormLines(tr(_REMARKS), 1 if half else 2), _BETWEEN)
    blocks = (*_head(view, result, ballot), *grids, *first, *foot)
    anchor = f"ballot-{ballot.taster.lower()}"
    count = 1 + len(further)
    of = tr(", sheet 1 of {count}", count=count) if further else ""
    yield Form(
        anchor, tr("Ballot"), blocks, reference=f"{ballot.taster}{of}", half="upper" if half else ""
    )
    for number, lines in enumerate(further, start=2):
        reference = tr(
            "{taster}, sheet {number} of {count}", taster=ballot.taster, number=number, count=count
        )
        yield Form(f"{anchor}-{number}", tr("Ballot"), lines, reference=reference)


def _fits_half(
    view: View,
    result: TastingResult,
    grids: Sequence[FormGrid | FormNote],
    lines: Sequence[object],
) -> bool:
    """Whether a ballot needs no more than half a sheet: a short table and no lines to mark."""
    tables = [grid for grid in grids if isinstance(grid, FormGrid)]
    letters = len(contains(view, result)) + len(doneness(view, result))
    taken = ceil(letters / _LETTERS) + sum(map(_lines_of, tables))
    return (
        not any(lines)
        and taken <= _HALF_LINES
        and all(len(table.columns) <= _HALF_COLUMNS for table in tables)
    )


def _lines_of(table: FormGrid) -> float:
    """How many lines of small words a table is as high as."""
    widest = max(len(column.label) for column in table.columns) * len(table.columns)
    return ceil(widest / _HEADING_LETTERS) + _ROW_LINES * len(table.rows)


def _two_to_a_page(ballots: Sequence[Form]) -> tuple[Form, ...]:
    """Halves one above the other; one that is left alone has a sheet of its own."""
    found: list[Form] = []
    for form in ballots:
        if form.half and found and found[-1].half == "upper":
            found.append(replace(form, half="lower"))
        else:
            found.append(replace(form, half="upper") if form.half else form)
    alone = [
        f.half == "upper" and n.half != "lower" for f, n in pairwise([*found, Form("", "", ())])
    ]
    return tuple(replace(f, half="") if a else f for f, a in zip(found, alone, strict=True))


def _height(grid: FormGrid) -> int:
    """How many lines to mark a table is as high as: nine rows as four, its heading as one."""
    return ceil(1 + len(grid.rows) * 4 / 9)


def _head(view: View, result: TastingResult, ballot: Ballot) -> tuple[FormBlock, ...]:
    tasting = result.tasting
    day = view.style.date(tasting.date.day) if tasting.date else ""
    return (
        FormFields(
            (
                FormField(tr("Taster"), ballot.taster, width="quarter"),
                FormField(tr("Date"), day, width="quarter"),
            )
        ),
        FormNote(f"{contains(view, result)} {doneness(view, result)}", strong=True),
        FormNote(_task(tasting, ballot)),
    )


def _task(tasting: Tasting, ballot: Ballot) -> str:
    """What the taster is to do, without a word on what the samples are."""
    if tasting.test == SCORES:
        asked = (len(_columns(tasting, ballot)) > 1, bool(_line_scales(tasting, ballot)))
        return " ".join(tr(words) for words, ask in zip(_SCORES_TASK, asked, strict=True) if ask)
    if tasting.test == RANKS:
        return tr(
            "Rank the samples by {asked}: 1 for the highest; = where you can't tell.",
            asked=tasting.asked,
        )
    match protocol_of(tasting).question:
        case Question.TRIANGLE:
            return tr("Two of the three are alike. Tick the odd one; guess if you can't tell.")
        case Question.DUO_TRIO:
            return tr("The first is the reference. Tick the one like it; guess if you can't tell.")
        case _:
            if tasting.asks is None:
                return tr("Tick the one that you like more; guess if you can't tell.")
            return tr(
                "Tick the one with more {asked}; guess if you can't tell.", asked=tasting.asked
            )


def _grids(tasting: Tasting, ballot: Ballot) -> Iterator[FormGrid | FormNote]:
    """The table of what is written as a number or a word; none where every scale is a line."""
    columns = _columns(tasting, ballot)
    if len(columns) > 1:
        rows = tuple(_row(serving, len(columns)) for serving in ballot.servings)
        yield FormGrid(tr("Samples in order"), columns, rows)
        return
    for serving in ballot.servings:
        if serving.warm_up:
            yield FormNote(tr("{code}: {words}.", code=serving.code, words=_WARM_UP))


def _columns(tasting: Tasting, ballot: Ballot) -> tuple[Column, ...]:
    code = Column("code", tr("Code"))
    if tasting.test != SCORES:
        return code, Column("answer", tr("Rank") if tasting.test == RANKS else tr("Tick one"))
    return code, *(
        Column(str(name), labelled(str(name).capitalize(), _scale(attribute, scale)))
        for name, attribute in tasting.attributes.items()
        for scale in (tasting.scale_for(ballot.taster, attribute),)
        if scale is None or not scale.is_line
    )


def _line_scales(tasting: Tasting, ballot: Ballot) -> dict[str, WrittenScale]:
    """The attributes that this taster answers with a mark on a line."""
    found = {name: tasting.scale_for(ballot.taster, a) for name, a in tasting.scored.items()}
    return {name: scale for name, scale in found.items() if scale and scale.is_line}


def _lines(tasting: Tasting, ballot: Ballot) -> Iterator[tuple[FormScale, ...]]:
    """The lines to mark, sample by sample in the order of the tray."""
    scales = _line_scales(tasting, ballot) if tasting.test == SCORES else {}
    for serving in ballot.servings:
        if scales and not serving.warm_up:
            yield tuple(
                FormScale(
                    labelled(serving.code, str(name)),
                    *_line_ends(tasting, name),
                    length_mm=scale.line_mm,
                )
                for name, scale in scales.items()
            )


def _line_ends(tasting: Tasting, name: str) -> tuple[str, str]:
    if tasting.scored[name].best == "low":
        return tr("least {name} (best)", name=name), tr("most {name}", name=name)
    return tr("least {name}", name=name), tr("most {name} (best)", name=name)


def _sheets(samples: Iterable[tuple[FormScale, ...]], room: int) -> Iterator[tuple[FormScale, ...]]:
    """Lines on as many sheets as they need, a sample's together where one sheet can hold them."""
    sheet: tuple[FormScale, ...] = ()
    for lines in samples:
        for start in range(0, len(lines), _LINES):
            piece = lines[start : start + _LINES]
            if len(piece) > room:
                yield sheet
                sheet, room = (), _LINES
            sheet, room = sheet + piece, room - len(piece)
    yield sheet


def _scale(attribute: Attribute, scale: WrittenScale | None) -> str:
    if scale is None:
        low, high = attribute.ends
        return tr("{low}, right, or {high}", low=low, high=high)
    best = tr("lowest is best") if attribute.best == "low" else tr("highest is best")
    return tr("{low:g} to {high:g}, {best}", low=scale.low, high=scale.high, best=best)


def _row(serving: Serving, width: int) -> Row:
    note = tr(_WARM_UP) if serving.warm_up else ""
    return Row((Cell(serving.code, note=note), *(Cell("") for _ in range(width - 1))))


def contains(view: View, result: TastingResult) -> str:
    """The allergens that the kitchen's files state for what is served."""
    content = view.costed.content
    cuts = [content.cuts[each.cook.cut] for each in result.samples if each.cook and not each.plate]
    records: list[Holder] = [*cuts, *(each.plate for each in result.samples if each.plate)]
    found = contained(content, *records)
    ask = tr("Ask whoever is responsible before you taste.")
    if found.unstated or len(records) < len(result.samples):
        ask = tr("Not every part states its allergens. {ask}", ask=ask)
    traces = in_words(found.may, found.rows)
    may = tr(" May contain {in_words}.", in_words=traces) if traces else ""
    if found.contains:
        return tr(
            "Contains {in_words}, as the kitchen's files state.{may} {ask}",
            in_words=in_words(found.contains, found.rows),
            may=may,
            ask=ask,
        )
    return tr(
        "The kitchen's files state no allergen for these samples; that is no promise.{may} {ask}",
        may=may,
        ask=ask,
    )


def doneness(view: View, result: TastingResult) -> str:
    """How far the meat is cooked, without saying which sample is which."""
    degrees = [_core(result, column) for column in range(len(result.samples))]
    known = [value for value in degrees if value is not None]
    low = min(known, default=PINK_BELOW)
    if low < PINK_BELOW:
        at = view.style.temperature(low)
        return tr(
            "Some of it is cooked at {at} and may be pink or undercooked by some food codes.", at=at
        )
    if len(known) < len(degrees):
        return tr("Some of it may be pink inside.")
    return ""


def _core(result: TastingResult, column: int) -> float | None:
    """What the core can reach [°C]; None where the file leaves it open."""
    cook = result.samples[column].cook
    if cook is None:
        return None
    if cook.core is not None:
        return cook.core.value
    return cook.at.value if cook.at and cook.at.value < 100 else None


# Trays and key


def _trays(view: View, result: TastingResult) -> Iterator[Form]:
    trays = result.plan.trays
    width = max(len(tray.codes) for tray in trays)
    warm_up = any(serving.warm_up for b in result.plan.ballots for serving in b.servings)
    columns = (
        Column("seat", tr("Seat")),
        Column("taster", tr("Taster")),
        *(Column(f"place-{n}", _place(n, warm_up)) for n in range(width)),
    )
    for first in range(0, len(trays), _SEATS):
        sheet = trays[first : first + _SEATS]
        rows = tuple(
            Row((Cell(str(t.seat)), Cell(t.taster), *(Cell(code) for code in t.codes)))
            for t in sheet
        )
        yield Form(
            f"trays-{first // _SEATS + 1}",
            tr("Tray map"),
            (
                FormGrid(tr("Left to right"), columns, rows),
                FormNote(f"{contains(view, result)} {doneness(view, result)}", strong=True),
                FormNote(
                    tr(
                        "Fill the cups by the key in the kitchen; take no key to the table. "
                        "{portion} in each cup, all alike, warm.",
                        portion=view.style.weight(_portion(result)),
                    )
                ),
            ),
            subtitle=moment(view, result.tasting) or "",
            reference=tr("Seats {seat} to {seat2}", seat=sheet[0].seat, seat2=sheet[-1].seat),
        )


def _place(number: int, warm_up: bool) -> str:
    if warm_up:
        return tr("Warm-up") if number == 0 else f"{number}"
    return f"{number + 1}"


def _portion(result: TastingResult) -> float:
    portion = result.tasting.portion
    return portion.value if portion else 0.020
