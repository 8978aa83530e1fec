"""Whether a tasting has anything to say of a plate: whether it serves it, or its cut."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from builder.display.words import listed
from builder.language import tr
from builder.problems import Problem, Severity
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.kinds import Plate, Swap
from builder.records.tastings import Sample, Tasting


def serves(content: Content, tasting: Tasting, plate: Plate) -> bool:
    """Whether a plate, or a cook of one of its cuts, is among the samples of a tasting."""
    cuts = {content.cooks[name].cut for name in plate.cooks if name in content.cooks}
    return any(
        sample.plate == plate.id or _cut_of(content, sample) in cuts
        for sample in tasting.samples.values()
    )


def _cut_of(content: Content, sample: Sample) -> Text | None:
    plate = content.plates.get(sample.plate) if sample.plate else None
    cook = content.cooks.get(sample.cook or (plate and plate.cook) or "")
    return cook.cut if cook else None


def check_served(content: Content) -> Iterator[Problem]:
    """Tastings that a swap or a plate leans on and that serve nothing of it."""
    for swap in content.swaps.values():
        plates = [content.plates[name] for name in swap.challengers if name in content.plates]
        yield from _check(content, swap, swap.tasting, plates)
        yield from _check_apart(content, swap, plates)
    for plate in content.plates.values():
        yield from _check(content, plate, plate.evidence, [plate])


def _check(
    content: Content, record: Swap | Plate, name: Text | None, plates: Collection[Plate]
) -> Iterator[Problem]:
    tasting = content.tastings.get(name) if name else None
    if name is None or tasting is None or not plates:
        return
    if not any(serves(content, tasting, plate) for plate in plates):
        titles = listed([plate.title for plate in plates])
        message = tr("{tasting} serves nothing of {plates}", tasting=tasting.title, plates=titles)
        hint = tr("name the tasting in which it was served, or take this out")
        yield _doubt(record, name, message, hint)


def _check_apart(content: Content, swap: Swap, challengers: Collection[Plate]) -> Iterator[Problem]:
    """Challengers of the benchmark's own cook, where a tasting served cooks alone."""
    tasting = content.tastings.get(swap.tasting) if swap.tasting else None
    benchmark = content.plates.get(swap.benchmark)
    if swap.tasting is None or tasting is None or benchmark is None or not benchmark.cooks:
        return
    whole = {sample.plate for sample in tasting.samples.values()}
    alike = [
        plate.title
        for plate in challengers
        if plate.cooks == benchmark.cooks and whole.isdisjoint({plate.id, benchmark.id})
    ]
    if alike:
        message = tr(
            "{tasting} says nothing of {plates} beside {benchmark}: they are of one cook",
            tasting=tasting.title,
            plates=listed(alike),
            benchmark=benchmark.title,
        )
        hint = tr("serve the plates themselves, or take this out")
        yield _doubt(swap, swap.tasting, message, hint)


def _doubt(record: Swap | Plate, name: Text, message: str, hint: str) -> Problem:
    """The warning at the tasting that a record names."""
    needs = ("tastings", "cooks", "plates", record.folder)
    return Problem(name.place, message, hint, Severity.WARNING, record.path, needs=needs)
