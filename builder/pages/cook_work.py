"""What a cook takes: its energy with its uncertainty, and the hours of its equipment."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.weekly_counts import counts_of
from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Figures, Part, Row, Section, Table
from builder.pages.equipment import NO_BUFFETS
from builder.pages.figure_names import BatchFigure, PlateFigure, PortionFigure
from builder.pages.menu_guests import adds_guests
from builder.pages.parts import gear_name, paragraph, part, record_cell
from builder.pages.portions import share
from builder.pages.unknown import cost_cell, doubt_note
from builder.pages.view import BatchRow, F, FigureRow, View
from builder.records.kinds import Cook, Plate


def work_parts(view: View, cook: Cook) -> Iterator[Part]:
    """Energy, then the equipment's week."""
    yield part("energy", tr("Energy"), *_energy(view, cook))
    yield part("capacity", tr("The equipment's week"), *_capacity(view, cook))


def _plates(view: View, cook: Cook) -> list[Plate]:
    return list(view.uses.plates_of_cook.get(cook.id, ()))


def _energy(view: View, cook: Cook) -> Iterator[Section]:
    row = view.batch(cook)
    if not row.number("batch_energy") > 0:
        yield paragraph(
            tr("Nothing is written or measured that tells how much energy a batch takes.")
        )
        return
    yield Table(
        "energy-figures",
        tr("Energy for a batch"),
        (
            Column("what", tr("What")),
            Column("low", tr("At least"), numeric=True),
            Column("taken", tr("Costed at"), numeric=True),
            Column("high", tr("At most"), numeric=True),
        ),
        tuple(_energy_rows(view, cook)),
        about=_basis(row, cook),
    )


def _energy_rows(view: View, cook: Cook) -> Iterator[Row]:
    batch = view.batch(cook)
    yield _ends(tr("A batch"), batch, "batch_energy_low", "batch_energy", "batch_energy_high")
    yield _ends(tr("Its cost"), batch, "energy_cost_low", "batch_energy_cost", "energy_cost_high")
    for plate in _plates(view, cook):
        row = share(view, plate, cook)
        used = row.cell("energy_used_per_plate")
        yield Row((Cell(tr("A portion, {plate}", plate=plate.title)), Cell("–"), used, Cell("–")))
        yield _ends(
            tr("Its cost"), row, "energy_per_plate_low", "energy_per_plate", "energy_per_plate_high"
        )


def _ends(label: str, row: FigureRow[F], *figures: F) -> Row:
    return Row((Cell(label), *(cost_cell(row, figure) for figure in figures)))


def _basis(row: BatchRow, cook: Cook) -> str:
    """What the energy rests on, in words: a meter, the physics, or standby times hours."""
    if row.known("measured_energy"):
        return tr("Read from a meter, or stated by the kitchen, and used instead of an estimate.")
    if row.known("modelled_energy"):
        node = ("batch", "modelled_energy")
        reason = row.view.costed.figures.origin(node, row.row).reason
        if cook.gas is not None:
            return tr("Read from a gas meter, or stated by the kitchen: {reason}.", reason=reason)
        return tr(
            "Estimated: {reason}. Put a meter reading under energy: and it is used instead.",
            reason=reason,
        )
    return tr("Measured standby times hours, with no more known of its spread.")


def _capacity(view: View, cook: Cook) -> Iterator[Section]:
    row = view.batch(cook)
    if view.uses.buffets_of_cook.get(cook.id):
        yield paragraph(tr(NO_BUFFETS))
    if cook.for_ is None or not row.known("weekly_loads"):
        yield paragraph(_unbooked(cook))
        return
    several, gear = row.number("how_many") > 1, gear_name(view, cook.equipment or "")
    menus = view.costed.content.menus.values()
    counted = counts_of(_plates(view, cook), view.costed.menu_month, menus).words(view.style)
    names: dict[BatchFigure, str] = {
        "cycle_hours": tr("A load ties up one ({gear})", gear=gear)
        if several
        else tr("A load ties up {gear}", gear=gear),
        "weekly_loads": tr("Loads each could finish in a week")
        if several
        else tr("Loads it could finish in a week"),
        "loads_needed": tr("Loads at {counted}", counted=counted)
        if counted
        else tr("Loads: no plate is counted"),
        "booked_hours": tr("Hours booked in a week"),
    }
    yield Figures(
        tuple(row.tile(name, label=label) for name, label in names.items()),
        tr("Loads and hours"),
    )
    if plates := _plates(view, cook):
        yield _plates_table(view, cook, plates)


def _unbooked(cook: Cook) -> str:
    """Why no hours are booked: the keys that its file leaves out."""
    if cook.equipment:
        return tr("No hours are booked: the file does not say how long it cooks (for:).")
    if cook.for_:
        return tr("No hours are booked: the file does not name its equipment (equipment:).")
    return tr(
        "No hours are booked: the file does not name its equipment (equipment:) or say how long "
        "it cooks (for:)."
    )


_SHARES: dict[PortionFigure, str] = {
    "weekly_count": Deferred("Sold a week"),
    "plates_to_make": Deferred("Made a week, set menus' too"),
    "portions_a_load": Deferred("Portions a load"),
    "portions_a_week": Deferred("Portions a week, at most"),
}
_MARGINS: dict[PlateFigure, str] = {
    "contribution_margin": Deferred("Margin a plate"),
    "margin_per_equipment_hour": Deferred("Margin an equipment-hour"),
}


def _plates_table(view: View, cook: Cook, plates: list[Plate]) -> Table:
    """Money first: a phone shows the first columns.

    A margin an hour is of a plate's main cook: that of another portion is not its own.
    """
    shares = {
        name: label
        for name, label in _SHARES.items()
        if name != "plates_to_make" or adds_guests(view, plates)
    }
    body = tuple(
        Row(
            (
                record_cell(plate),
                *(
                    view.plate(plate).cell(figure, note=doubt_note(view, plate, figure))
                    if plate.cook == cook.id or figure == "contribution_margin"
                    else Cell("–")
                    for figure in _MARGINS
                ),
                *share(view, plate, cook).cells(*shares),
            )
        )
        for plate in plates
    )
    columns = (
        Column("plate", tr("Plate")),
        *(
            Column(key.replace("_", "-"), label, numeric=True)
            for key, label in (*_MARGINS.items(), *shares.items())
        ),
    )
    return Table("loads", tr("What a load gives"), columns, body)
