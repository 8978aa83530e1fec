"""Reading answers: who, on which sample, once; what is refused is a problem at its place."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import ParamSpec

from pydantic_core import PydanticCustomError

from builder.costing.panels import blind_plan, samples_by_code
from builder.language import tr
from builder.problems import Place, Problem, did_you_mean
from builder.reading.tree import Blank, Branch, Node, Text
from builder.records.fields import refuse
from builder.records.tasting_values import WrittenScale, code
from builder.records.tastings import Tasting
from builder.records.tree_paths import tidy_key
from builder.tasting.codes import mistakable
from builder.tasting.plans import ServingPlan

P = ParamSpec("P")

BLIND = re.compile(r"[0-9]{3}", re.ASCII)
_PASSED_OVER = {"timestamp"}
_PERSONAL = {"name", "email", "e mail", "phone", "age", "address"}


@dataclass(frozen=True, slots=True)
class Mark:
    """One taster's answer on one sample; `value` is None where nothing was tasted."""

    taster: str
    sample: str
    attribute: str
    value: float | None
    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Choice:
    """One taster's answer in a discrimination test.

    `hit`: correct, or in a pair that asks either way, a choice of the first sample.
    """

    taster: str
    hit: bool
    text: str
    place: Place


class AnswerReader:
    """One pass over a tasting's answers."""

    def __init__(self, tasting: Tasting, rows: Sequence[Branch]) -> None:
        self.tasting = tasting
        self.rows = rows
        self.marks: dict[tuple[str, str, str], Mark] = {}
        self.choices: dict[str, Choice] = {}
        self.problems: list[Problem] = []
        self.scales: dict[str, WrittenScale] = {
            str(taster): scale for taster, scale in tasting.scales.items()
        }
        self.seen: dict[tuple[str, str], Place] = {}
        self.first: dict[str, Place] = {}

    @cached_property
    def plan(self) -> ServingPlan:
        """Codes and trays as they were served."""
        return blind_plan(self.tasting)

    @cached_property
    def trays(self) -> Mapping[str, tuple[str, ...]]:
        """The codes that each taster was served."""
        return {tray.taster: tray.codes for tray in self.plan.trays}

    @cached_property
    def by_code(self) -> Mapping[str, Mapping[str, str]]:
        """What each scored code on each taster's tray stands for."""
        return samples_by_code(self.plan)

    def refuse(self, place: Place, message: str, hint: str = "") -> None:
        """Add a problem."""
        self.problems.append(Problem(place, message, hint))

    def attempt(self, read: Callable[P, None], *args: P.args, **kwargs: P.kwargs) -> None:
        """Read something; what it refuses is a problem at its place."""
        try:
            read(*args, **kwargs)
        except PydanticCustomError as error:
            found = error.context or {}
            self.refuse(found["place"], str(found["message"]), str(found["hint"]))

    # Who, and what

    def taster(self, text: Node | None, at: Place) -> str:
        """A taster of this tasting."""
        if not isinstance(text, Text) or isinstance(text, Blank):
            raise refuse(tr("no taster is named here"), tr("a private code such as T1"), at)
        found = code(text)
        if found not in self.tasting.tasters:
            hint = did_you_mean(found, self.tasting.tasters) or tr("add the code to tasters")
            raise refuse(
                tr("taster {found} is not one of this tasting", found=found), hint, text.place
            )
        self.first.setdefault(str(found), text.place)
        return str(found)

    def sample(self, text: Text, taster: str) -> str:
        """A sample by its name, or by the code on this taster's tray."""
        if text in self.tasting.samples:
            return str(text)
        if BLIND.fullmatch(text):
            return self.decoded(text, taster)
        hint = did_you_mean(text, self.tasting.samples)
        known = tr("samples: {samples}", samples=", ".join(self.tasting.samples))
        raise refuse(tr('there is no sample "{text}"', text=text), hint or known, text.place)

    def decoded(self, text: Text, taster: str) -> str:
        """What a code on a taster's tray stands for."""
        tray = self.trays[taster]
        if found := self.by_code[taster].get(text):
            return found
        if text in tray or any(line.code == text and line.warm_up for line in self.plan.key):
            raise refuse(
                tr("{text} is the warm-up, which is not scored", text=text),
                tr("leave it out"),
                text.place,
            )
        near = [other for other in tray if mistakable(text, other)]
        hint = (
            tr("did you mean {near}?", near=near[0])
            if near
            else tr("on that tray: {tray}", tray=", ".join(tray))
        )
        if any(text in codes for codes in self.by_code.values()):
            raise refuse(
                tr("{taster} was not served {text}: are codes swapped?", taster=taster, text=text),
                hint,
                text.place,
            )
        raise refuse(tr("{text} is no code of this tasting", text=text), hint, text.place)

    def once(self, taster: str, sample: str, place: Place) -> None:
        """Refuse a taster's second answer on a sample."""
        first = self.seen.setdefault((taster, sample), place)
        if first != place:
            raise refuse(
                tr("{taster} has answered on {sample} already", taster=taster, sample=sample),
                tr("at {first}", first=first),
                place,
            )

    def columns_fit(self, known: Sequence[str]) -> bool:
        """Report columns that mean nothing here; a name or an address would be one."""
        known = ["taster", *known]
        fine = True
        for column in self.rows[0]:
            if tidy_key(column) not in known and column not in _PASSED_OVER:
                personal = tidy_key(column) in _PERSONAL
                hint = "" if personal else did_you_mean(tidy_key(column), known)
                taken = tr("taken: {known}; nothing personal belongs here", known=", ".join(known))
                self.refuse(
                    column.place,
                    tr('the column "{column}" means nothing here', column=column),
                    hint or taken,
                )
                fine = False
        return fine

    def what(self, cells: Mapping[str, Node], row: Branch) -> Text:
        """The sample or the code that a row is about."""
        for column in ("sample", "code"):
            if isinstance(found := cells.get(column), Text) and found:
                return found
        raise refuse(tr("this row names no sample"), tr("a column sample, or code"), row.place)
