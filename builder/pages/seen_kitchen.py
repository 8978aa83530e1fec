"""The kitchen that a reader's pages are made of: what is not granted is barred, or not there."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import replace
from typing import Any

from builder.costing.ballots import Ballots
from builder.costing.blind import has_own_seed, is_over
from builder.costing.candidates import Candidates
from builder.costing.costed import Costed
from builder.costing.doubts import Doubts
from builder.costing.findings import Findings
from builder.costing.history import History
from builder.costing.tasting_results import Served, TastingResult
from builder.costing.uncertainty import Uncertainty
from builder.engine.model import Node
from builder.pages.reader import Reader, reads_files, reads_till
from builder.pages.weight_doubts import NoDoubts, WeightDoubts
from builder.pages.whereabouts import RowKey
from builder.pages.withheld import BARRED, WITHHELD, SeenFigures, redacted
from builder.reading.folder import PICTURES
from builder.records.content import Content
from builder.records.kitchen import Kitchen
from builder.records.pricing import CurrentPrice
from builder.records.sold_as import SoldAs
from builder.tasting.findings import FINDING


def content_for(content: Content, reader: Reader) -> Content:
    """The records of the kinds that are granted, with the keys that are."""
    kinds = {
        kind: {name: redacted(record, reader) for name, record in records.items()}
        if kind in reader.kinds
        else {}
        for kind, records in content.kinds.items()
    }
    kitchen: Kitchen = redacted(content.kitchen, reader)
    lists = reads_files(reader)
    files = {
        path: file for path, file in content.files.items() if lists or path.startswith(PICTURES)
    }
    later = {
        path: title
        for path, title in content.left_out.items()
        if path.partition("/")[0] in reader.kinds
    }
    pages = content.pages if "notes" in reader.parts else {}
    kept = replace(content, kitchen=kitchen, files=files, left_out=later, pages=pages, kinds=kinds)
    if reader.sees_records:
        return kept
    till = content.till if reads_till(reader) else {}
    return replace(kept, ballots={}, prices=(), sales=(), till=till)


def costed_for(costed: Costed, reader: Reader) -> Costed:
    """A computed kitchen of which the reader's pages are made."""
    figures = costed.figures
    content = content_for(costed.content, reader)
    hidden = reader.hidden(figures.model)
    barred: Any = BARRED
    return replace(
        costed,
        content=content,
        figures=SeenFigures(figures, hidden, _of_tasters(costed, reader)),
        prices={name: _price(price, reader) for name, price in costed.prices.items()},
        heat=costed.heat if "cooking" in reader.groups else barred,
        doubts=costed.doubts if reader.sees_figures else _doubts(costed, content, reader),
        services={
            name: replace(costed.services[name], service=service)
            for name, service in content.services.items()
        },
        tastings=_tastings(costed, content, reader),
        findings=costed.findings if "tasting answers" in reader.groups else Findings((), {}),
        uncertainty=costed.uncertainty if reader.sees_records else _uncertainty(costed, hidden),
        menu_month=costed.menu_month if "sales" in reader.groups else barred,
        counts={name: costed.counts[name] for name in content.counts},
        candidates=costed.candidates if reader.sees_figures else Candidates(),
        # What changed says every cost and why it moved: for the owner alone.
        history=History(),
    )


def _price(current: CurrentPrice, reader: Reader) -> CurrentPrice:
    barred: Any = BARRED
    prices, suppliers = ("prices" in reader.groups), ("suppliers" in reader.groups)
    return CurrentPrice(
        current.price if prices else barred,
        current.supplier if suppliers else barred,
        current.since if prices else barred,
        _sold_as(current.sold_as, reader),
    )


def _sold_as(sold: SoldAs | None, reader: Reader) -> SoldAs | None:
    """How an item is sold: sizes are weights, a deposit is a price."""
    if sold is None or "weights" not in reader.groups:
        return None
    return sold if "prices" in reader.groups else sold.model_copy(update={"deposit": None})


def _tastings(costed: Costed, content: Content, reader: Reader) -> Mapping[str, TastingResult]:
    """All, or those ahead whose ballots are printed, for whoever hands these out."""
    if reader.sees_records:
        return costed.tastings
    if "tastings" in reader.kinds:
        return {name: _tasting(costed, name, content, reader) for name in content.tastings}
    if "tasting sheets" not in reader.parts:
        return {}
    return {name: r for name, r in costed.tastings.items() if _has_ballots(costed, r)}


def _has_ballots(costed: Costed, result: TastingResult) -> bool:
    """Whether ballots can be handed out: it is ahead, and its codes can't be worked out."""
    over = is_over(costed.content, result.tasting, result.held)
    return not over and has_own_seed(costed.content, result.tasting)


def _tasting(costed: Costed, name: str, content: Content, reader: Reader) -> TastingResult:
    """A tasting as it was planned, with what tasters found and their codes where these may be seen.

    Without the codes no answer of a single taster is there to be looked up.
    """
    result = costed.tastings[name]
    says_core = "tasting sheets" in reader.parts and _has_ballots(costed, result)
    samples = tuple(_served(sample, content, says_core) for sample in result.samples)
    seen = replace(result, tasting=content.tastings[result.tasting.id], samples=samples)
    if "cooking" not in reader.groups:
        # Which samples are a series of hours, and are called by them, is told by their cooks.
        samples = tuple(replace(sample, called="") for sample in samples)
        seen = replace(seen, samples=samples, series=())
    if "tasting answers" not in reader.groups:
        return replace(
            seen, tasters=(), ballots=Ballots(), attributes=(), rights=(), choice=None,
            decision=None, answers_kept=result.held,
        )  # fmt: skip
    if "personal codes" not in reader.groups:
        return replace(seen, tasters=(WITHHELD,) * len(result.tasters), ballots=Ballots())
    return seen


def _of_tasters(costed: Costed, reader: Reader) -> frozenset[RowKey]:
    """The rows that say how one taster judged, where codes may not be seen."""
    if "personal codes" in reader.groups:
        return frozenset()
    rows = enumerate(costed.findings.rows)
    return frozenset((FINDING.name, number) for number, row in rows if row.about.taster)


def _served(sample: Served, content: Content, says_core: bool) -> Served:
    """A sample with its redacted records; a ballot says how far its meat is cooked all the same."""
    cook = content.cooks[sample.cook.id] if sample.cook else None
    if cook and sample.cook and says_core:
        cook = cook.model_copy(update={"at": sample.cook.at, "core": sample.cook.core})
    return replace(
        sample, cook=cook, plate=content.plates[sample.plate.id] if sample.plate else None
    )


def _doubts(costed: Costed, content: Content, reader: Reader) -> Doubts:
    if "weights" not in reader.groups:
        return NoDoubts(content)
    return WeightDoubts(content, costed.figures, costed.rows)


def _uncertainty(costed: Costed, hidden: Container[Node]) -> Uncertainty | None:
    if costed.uncertainty is None:
        return None
    spreads = {
        node: {row: replace(spread, shared=()) for row, spread in rows.items()}
        for node, rows in costed.uncertainty.spreads.items()
        if node not in hidden
    }
    barred: Any = BARRED
    return Uncertainty(spreads, *(barred,) * 7, {})
