"""What is wrong with a cook's times and temperatures, wherever the cook is served or logged."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from builder.cooking.verdict import DECIDES
from builder.costing.cautions import Finding, reported_findings
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.components import Notice, Notices
from builder.pages.parts import page_of
from builder.pages.short_sentences import in_short
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.withheld import seen
from builder.records.kinds import Cook, Plate, Service

# Clause 3-603.11 as state texts that adopt the code print it (secondary); who is most at risk:
# common practice.
_FOOD_CODE = "us-food-code"
_RAW = Deferred(
    "Raw animal food can make guests ill, most of all the very young, the "
    "old, the pregnant and the sick"
)
_ADVISORY = Deferred(
    "the US model Food Code asks for a consumer advisory, a disclosure and a "
    "reminder, where animal food is served raw or undercooked (3-603.11)"
)
_SAY_SO = Deferred("say on the menu that it is raw where local code asks for it")


def found_of(view: View, cook: Cook, *services: Service) -> Iterator[Finding]:
    """Every finding of a cook, in all services or some."""
    return reported_findings(cook, view.costed.content, view.costed.heat, services or None)


def sentence(found: Finding) -> str:
    """A finding as a sentence that defers to whoever decides."""
    return capital(_deferring(found))


def _deferring(found: Finding) -> str:
    """The same as it is within a sentence."""
    tail = "" if found.message.endswith(tr(DECIDES)) else _tail()
    return f"{found.message}{tail}."


def _tail() -> str:
    """What defers to whoever decides, as it ends a sentence of the language."""
    return tr("{before}; {part}", before="", part=tr(DECIDES))


def leading(found: Iterable[Finding]) -> list[str]:
    """What fails in a cook or after it, then why and what may be done, to lead its page.

    In sentences; none where nothing fails. Its cautions say who decides, once for all of them.
    """
    said = (f"{capital(each.message.removesuffix(_tail()))}." for each in found)
    return [short for each in said for short in in_short(each)]


def cook_warnings(view: View, cook: Cook, *services: Service) -> list[str]:
    """Each finding with the cook's name, for a page that is not the cook's own."""
    return [" ".join(each) for each in _named(view, cook, *services)]


def _named(view: View, cook: Cook, *services: Service) -> Iterator[list[str]]:
    """Each finding with the cook's name, in one sentence or two."""
    for found in found_of(view, cook, *services):
        yield in_short(_deferring(replace(found, message=found.of(cook.title))))


def plate_faults(view: View, plate: Plate) -> list[str]:
    """What a plate inherits from its cooks, in sentences, what fails first.

    The last of them says who decides, for all of them.
    """
    cooks = (view.costed.content.cooks[name] for name in plate.cooks)
    said = [
        found.of(cook.title).removesuffix(_tail())
        for cook in cooks
        for found in found_of(view, cook)
    ]
    if not said:
        return []
    ends = [*(f"{each}." for each in said[:-1]), f"{said[-1]}{_tail()}."]
    return [short for each in ends for short in in_short(each)]


def faulty_cooks(view: View, *plates: Plate) -> list[Cook]:
    """The cooks of some plates that fail a rule or have a caution on them, each once."""
    names = dict.fromkeys(name for plate in plates for name in plate.cooks)
    cooks = (view.costed.content.cooks[name] for name in names)
    return [cook for cook in cooks if any(found_of(view, cook))]


def pair_fault_words(view: View, plate: Plate, benchmark: Plate) -> str:
    """Why what a plate saves against another counts nowhere yet: the one's cook, or the other's."""
    sides = _fault_words(view, plate.cooks, tr("its cook")), benchmark_fault(view, plate, benchmark)
    return listed(list(filter(None, sides)))


def benchmark_fault(view: View, plate: Plate, benchmark: Plate) -> str:
    """What fails in a benchmark's cook that is not the challenger's, too; else empty."""
    rest = [cook for cook in benchmark.cooks if cook not in plate.cooks]
    return _fault_words(view, rest, tr("the benchmark's cook"))


def _fault_words(view: View, names: Iterable[str], whose: str) -> str:
    cooks = view.costed.content.cooks
    found = [each for name in names for each in found_of(view, cooks[name])]
    reported = [each.is_caution for each in found]
    if not reported:
        return ""
    return (
        tr("there is a caution on {whose}", whose=whose)
        if all(reported)
        else tr("{whose} does not meet the rules", whose=whose)
    )


def plate_warnings(view: View, plate: Plate) -> Notices | None:
    """What a plate inherits from its cooks, with the way to their pages, and what is uncooked."""
    cooks = (view.costed.content.cooks[name] for name in plate.cooks)
    return notices_of(view, cooks, [plate])


def uncooked(view: View, plates: Iterable[Plate]) -> Notices | None:
    """The usual caution of what is uncooked on any of the plates; None where all is cooked."""
    found = tuple(_uncooked(view, plates))
    return Notices(found) if found else None


def uncooked_words(view: View, plates: Iterable[Plate]) -> list[str]:
    """The same for a sheet of paper, a sentence for each cut."""
    return [notice.text for notice in _uncooked(view, plates)]


def _uncooked(view: View, plates: Iterable[Plate]) -> Iterator[Notice]:
    """The usual caution of every cut that is served without a cook, each once."""
    code = str(view.costed.content.kitchen.authority or "").startswith(_FOOD_CODE)
    for name in dict.fromkeys(name for plate in plates for name in plate.raw_cuts):
        cut = view.costed.content.cuts[name]
        text = tr(
            "{cut}: served without a cook. {raw}; {advisory}",
            cut=cut.title,
            raw=_RAW,
            advisory=tr(_ADVISORY) if code else tr(_SAY_SO),
        )
        yield Notice(f"{clauses([text, tr(DECIDES)])}.", "caution", href=f"~/{page_of(cut)}")


def notices_of(view: View, cooks: Iterable[Cook], plates: Iterable[Plate] = ()) -> Notices | None:
    """What is wrong with any of the cooks, each once, with the way to its page.

    Then what is uncooked on any of the plates.
    """
    reported = tuple(
        Notice(text, href=f"~/{page_of(cook)}")
        for cook in {cook.id: cook for cook in cooks}.values()
        for text in seen(cook_warnings, view, cook) or ()
    )
    found = *reported, *_uncooked(view, plates)
    return Notices(found) if found else None
