"""The pages of the two classic forms: filled from any cut and cook, and blank."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred, labelled, ntr, tr
from builder.pages.components import Form, Link, Page
from builder.pages.cooking_forms import TITLE as COOKING_LOSS
from builder.pages.cooking_forms import cooking_losses, open_cooking_loss
from builder.pages.parts import form_path, page_of
from builder.pages.view import View
from builder.pages.yield_forms import TITLE as YIELD_TEST
from builder.pages.yield_forms import open_yield_test, yield_tests
from builder.records.kinds import Cook, Cut


def blank_form_pages(view: View) -> Iterator[Page]:
    """Both forms, blank for the clipboard."""
    yield _blank("forms/blank-yield-test.html", tr(YIELD_TEST), open_yield_test(view))
    yield _blank("forms/blank-cooking-loss.html", tr(COOKING_LOSS), open_cooking_loss(view))


def yield_test_page(view: View, cut: Cut) -> Page:
    """The butcher's yield test of a cut."""
    path = form_path(cut.id, "yield-test")
    return _filled(path, tr(YIELD_TEST), cut, tuple(yield_tests(view, cut)))


def cooking_loss_page(view: View, cook: Cook) -> Page:
    """The cooking loss test of a cook."""
    path = form_path(cook.id, "cooking-loss")
    return _filled(path, tr(COOKING_LOSS), cook, tuple(cooking_losses(view, cook)))


_LISTS = {"cuts": Deferred("Cuts"), "cooks": Deferred("Cooks")}


def _blank(path: str, title: str, form: Form) -> Page:
    return Page(
        path=path,
        title=tr("{title}, blank", title=title),
        lead=tr("For the clipboard: it prints on one page of A4 or Letter."),
        kind=tr("Form"),
        sections=(form,),
        sheet=True,
    )


def _filled(path: str, title: str, record: Cut | Cook, forms: tuple[Form, ...]) -> Page:
    lead = ntr(
        "One sheet, filled from the kitchen's figures and printed on one page of A4 or Letter.",
        "{count} sheets, each filled from the kitchen's figures and printed on one page of A4 or "
        "Letter.",
        len(forms),
    )
    listed = f"~/{record.folder}.html"
    return Page(
        path=path,
        title=labelled(title, record.title),
        lead=lead,
        kind=tr("Form"),
        crumbs=(
            Link(tr(_LISTS[record.folder]), listed),
            Link(record.title, f"~/{page_of(record)}"),
        ),
        nav=listed,
        sections=forms,
        sheet=True,
    )
