"""What a day in the past leaves out: weighings, sold months and tastings that came after it.

Only what lies between the day that the site is computed for and today was still to come on
that day. A day later than today is a slip, and stays an error of the checks.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import TypeVar

from builder.display.words import listed
from builder.language import ntr, tr
from builder.problems import Place, Problem, Severity
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.kinds import Cook, Count, Cut, Plate, Tasting
from builder.records.sales import Sale
from builder.records.stages import Stage, WeighingTest
from builder.records.unpriced import also_on, without_records
from builder.records.uses import MENU, Uses

Weighed = TypeVar("Weighed", Cut, Cook)


class Later:
    """Takes out of a content what came after its day, and warns of each record's."""

    def __init__(self, content: Content, today: date) -> None:
        named = content.kitchen.as_of
        self.content, self.uses = content, Uses.of(content)
        self.last = max(today, named.day) if named else today
        self.problems: list[Problem] = []
        self.unweighed: dict[str, tuple[str, ...]] = {}

    def without(self) -> Content:
        """The content of the day."""
        content = self.content
        if content.as_of >= self.last:
            return content
        sales = tuple(sale for sale in content.sales if not self._is_to_come(sale.day))
        self._warn_of_sales()
        gone = {tasting.path for tasting in content.tastings.values() if self._is_later(tasting)}
        gone |= {count.path for count in content.counts.values() if self._is_ahead(count)}
        kept = content.with_records(
            cuts={name: self._weighed(cut) for name, cut in content.cuts.items()},
            cooks={name: self._weighed(cook) for name, cook in content.cooks.items()},
            plates={name: self._counted(plate) for name, plate in content.plates.items()},
        )
        kept = replace(kept, unweighed=self.unweighed, sales=sales)
        return without_records(kept, gone) if gone else kept

    def _is_to_come(self, day: date) -> bool:
        return self.content.as_of < day <= self.last

    def _is_later(self, tasting: Tasting) -> bool:
        """Whether a tasting was held after the day; one that is planned is not in its past."""
        held = tasting.date
        if held is None or not self._is_to_come(held.day):
            return False
        answers = tasting.scores, tasting.ranks, tasting.answers
        if not (any(answers) or tasting.correct or self.content.ballots.get(tasting.id)):
            return False
        also = tuple(path for name, path in self._linked() if name == tasting.id)
        self._warn(
            held.place, tasting.title, "tasting", [str(held.day)], "", also,
            needs=("tastings", "tasting answers"),
        )  # fmt: skip
        return True

    def _is_ahead(self, count: Count) -> bool:
        """Whether a count ends after the day."""
        end = count.end
        if end is None or not self._is_to_come(end.day):
            return False
        self._warn(end.place, count.title, "count", [str(end.day)], "", (), needs=("counts",))
        return True

    def _linked(self) -> Iterator[tuple[str, str]]:
        """Each tasting that a plate or a swap leans on, with the path of that page."""
        for plate in self.content.plates.values():
            yield str(plate.evidence), plate.path
        for swap in self.content.swaps.values():
            yield str(swap.tasting), swap.path

    def _weighed(self, owner: Weighed) -> Weighed:
        """A cut or a cook with the weighings of the day."""
        changes: dict[str, object] = {}
        for name, stage in stages_of(owner):
            later = [test for test in stage.tests if self._is_to_come(test.date.day)]
            if not later:
                continue
            kept = [test for test in stage.tests if test not in later]
            if name == "cook" and isinstance(owner, Cook):
                changes |= {"tests": kept, "load": self._load(owner, kept, later)}
            else:
                changes[name.replace(" ", "_")] = stage.model_copy(update={"tests": kept})
            self._warn_of_weighings(owner, name, stage, later)
        return owner.model_copy(update=changes) if changes else owner

    def _load(self, cook: Cook, kept: list[WeighingTest], later: list[WeighingTest]) -> object:
        """The batch stays as large as it was weighed where nothing else says its size."""
        gear = self.content.kitchen.equipment.get(cook.equipment) if cook.equipment else None
        if cook.load or kept or (gear and gear.holds):
            return cook.load
        return max((test.in_ for test in later), key=lambda weight: weight.value)

    def _warn_of_weighings(
        self, owner: Cut | Cook, name: str, stage: Stage, later: list[WeighingTest]
    ) -> None:
        also = also_on(self.content, self.uses, owner)
        days = [str(test.date.day) for test in later]
        what = f"{owner.title}, {name}"
        known = stage.stated or stage.published or len(later) < len(stage.tests)
        rest = "" if known else tr("; the stage is counted as no loss")
        if not known:
            self.unweighed[owner.path] = (*self.unweighed.get(owner.path, ()), name)
        self._warn(
            later[0].date.place, what, "weighing", days, owner.path, also, rest,
            needs=("cuts", "cooks", "weights"),
        )  # fmt: skip

    def _counted(self, plate: Plate) -> Plate:
        """A plate with the months that had begun by the day."""
        later = [month for month in plate.sold if self._is_to_come(month.first)]
        if not later:
            return plate
        months = [str(month) for month in later]
        self._warn(
            later[0].place, plate.title, "count", months, plate.path, (MENU,),
            needs=("plates", "sales"),
        )  # fmt: skip
        kept = {month: count for month, count in plate.sold.items() if month not in later}
        return plate.model_copy(update={"sold": kept})

    def _warn_of_sales(self) -> None:
        """One warning a file, at its first row of a later day."""
        later: dict[str, list[Sale]] = {}
        for sale in self.content.sales:
            if self._is_to_come(sale.day):
                later.setdefault(sale.place.file, []).append(sale)
        for file, rows in later.items():
            days = sorted({str(row.day) for row in rows})
            span = (
                days if len(days) == 1 else [tr("{days} to {days2}", days=days[0], days2=days[-1])]
            )
            # It names a file, so it is for whoever is granted everything.
            self._warn(rows[0].place, file, "sale", span, "", (MENU,), last=days[-1], needs=None)

    def _warn(
        self,
        place: Place,
        of: str,
        what: str,
        days: list[str],
        path: str,
        also: tuple[str, ...],
        rest: str = "",
        last: str = "",
        *,
        needs: tuple[str, ...] | None,
    ) -> None:
        """Name what is left out, and the day that would count it."""
        one = len(days) == 1 and last in {"", *days}
        count = 1 if one else 2
        message = ntr(
            "{of}: {what} comes after {as_of}, the day of the build, and is left out{rest}",
            "{of}: {what} come after {as_of}, the day of the build, and are left out{rest}",
            count,
            of=of,
            what=_what(what, count, listed(days)),
            as_of=self.content.as_of,
            rest=rest,
        )
        hint = ntr(
            "compute for {last} or later to count it",
            "compute for {last} or later to count them",
            count,
            last=last or max(days),
        )
        self.problems.append(Problem(place, message, hint, Severity.WARNING, path, also, needs))


def _what(what: str, count: int, days: str) -> str:
    """What lies after the day of the build, with its days."""
    match what:
        case "weighing":
            return ntr("the weighing of {days}", "the weighings of {days}", count, days=days)
        case "sale":
            return ntr("the sale of {days}", "the sales of {days}", count, days=days)
        case "tasting":
            return ntr("the tasting of {days}", "the tastings of {days}", count, days=days)
    return ntr("the count of {days}", "the counts of {days}", count, days=days)


def without_later(content: Content, today: date) -> tuple[Content, list[Problem]]:
    """The content as it was on its day, and a warning of each record's later answers."""
    later = Later(content, today)
    return later.without(), later.problems
