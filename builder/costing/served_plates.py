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
        yield Problem(
            name.place,
            tr("{tasting} serves nothing of {plates}", tasting=tasting.title, plates=titles),
            tr("name the tasting in which it was served, or take this out"),
            Severity.WARNING,
            record.path,
            needs=("tastings", "cooks", "plates", record.folder),
        )
