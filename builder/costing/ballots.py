"""Answers as they were written, in YAML or as rows of a CSV, each with its place."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from builder.costing.answers import AnswerReader, Choice, Mark
from builder.costing.choices import ChoiceReader
from builder.costing.panels import scale_of
from builder.costing.wide import FormLayout, is_wide
from builder.language import Deferred, clauses, ntr, tr
from builder.problems import Place, Problem, did_you_mean
from builder.reading.tree import Blank, Branch, Node, Row, Text
from builder.records.fields import refuse
from builder.records.tasting_values import SCORES, WrittenScale, as_scale
from builder.records.tastings import Attribute, Tasting
from builder.records.tree_paths import tidy_key
from builder.tasting.scales import Scale

_NUMBER = re.compile(r"[+-]?[0-9]{1,4}([.,][0-9]{1,4})?", re.ASCII)
_NOT_TASTED = {"-", "–", "—", "n/a"}
_DASH = Deferred("write a dash (–) where nothing was tasted")


@dataclass(frozen=True, slots=True)
class Ballots:
    """Every answer of a tasting, and what is wrong with them."""

    marks: tuple[Mark, ...] = ()
    choices: tuple[Choice, ...] = ()
    scales: Mapping[str, WrittenScale] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()

    def tasters(self, tasting: Tasting) -> tuple[str, ...]:
        """Who answered, in the order of the file."""
        there = {mark.taster for mark in self.marks if mark.value is not None}
        there |= {choice.taster for choice in self.choices}
        return tuple(str(taster) for taster in tasting.tasters if taster in there)


def read_ballots(tasting: Tasting, rows: Sequence[Branch] = ()) -> Ballots:
    """Read all answers; whatever is wrong with one is a problem at its place."""
    if tasting.is_discrimination:
        chosen = ChoiceReader(tasting, rows)
        chosen.choose()
        return Ballots(choices=tuple(chosen.choices.values()), problems=tuple(chosen.problems))
    marked = _MarkReader(tasting, rows)
    marked.scores() if tasting.test == SCORES else marked.ranks()
    return Ballots(tuple(marked.marks.values()), (), marked.scales, tuple(marked.problems))


class _MarkReader(AnswerReader):
    """Reads scores and ranks."""

    def scores(self) -> None:
        """Every score, from the file's own key and from its CSV."""
        for name, served in self.tasting.scores.items():
            for sample, marks in served.items():
                self.attempt(self.score, name, sample, marks.node)
        for row in self.rows_of(list(self.tasting.attributes), ["scale", *self.attributes]):
            self.attempt(self.score_row, row)
        self.complete()

    @cached_property
    def attributes(self) -> dict[str, tuple[str, Attribute]]:
        """The attributes by their folded names."""
        found = self.tasting.attributes.items()
        return {tidy_key(name): (str(name), attribute) for name, attribute in found}

    def score_row(self, row: Branch) -> None:
        """One row of the CSV: a taster's scores on one sample."""
        cells = {tidy_key(key): value for key, value in row.items()}
        taster = self.taster(cells.get("taster"), row.place)
        if isinstance(stated := cells.get("scale"), Text) and stated:
            self.declare(taster, as_scale(stated))
        marks = Branch(row.place)
        for key, value in row.items():
            if tidy_key(key) in self.attributes:
                marks[key] = value
        self.note(taster, self.sample(self.what(cells, row), taster), row.place, marks)

    def declare(self, taster: str, scale: WrittenScale) -> None:
        """A ballot has one scale on all its rows."""
        held = self.scales.setdefault(taster, scale)
        if (held.low, held.high, held.step) != (scale.low, scale.high, scale.step):
            raise refuse(
                tr(
                    "{taster} has the scale {held} at {place}",
                    taster=taster,
                    held=held.name,
                    place=held.place,
                ),
                "",
                scale.place,
            )

    def score(self, name: Text, sample: Text, marks: Node) -> None:
        """One entry of the file's own key: a taster's scores on one sample."""
        taster = self.taster(name, name.place)
        found = self.sample(sample, taster)
        if isinstance(marks, Row):
            marks = self.in_order(marks)
        elif isinstance(marks, Text):
            marks = self.alone(marks)
        self.note(taster, found, sample.place, marks)

    def in_order(self, marks: Row) -> Branch:
        """Scores in the order of the attributes."""
        names = list(self.tasting.attributes)
        if len(marks) != len(names):
            about = ntr(
                "{count} score for {names} attributes",
                "{count} scores for {names} attributes",
                len(marks),
                names=len(names),
            )
            raise refuse(about, tr("in order: {names}", names=", ".join(names)), marks.place)
        branch = Branch(marks.place)
        branch.update(zip(names, marks, strict=True))
        return branch

    def alone(self, mark: Text) -> Branch:
        """A lone score, or a dash for all of them."""
        names = list(self.tasting.attributes)
        if len(names) != 1 and not _is_dash(mark):
            raise refuse(
                tr("one score for {names} attributes", names=len(names)), tr(_DASH), mark.place
            )
        branch = Branch(mark.place)
        branch.update((name, mark) for name in names)
        return branch

    def note(self, taster: str, sample: str, place: Place, marks: Branch) -> None:
        """Keep a taster's scores on a sample, each checked against its scale."""
        self.once(taster, sample, place)
        given = {tidy_key(key): (key, value) for key, value in marks.items()}
        for unknown in given.keys() - self.attributes.keys():
            key, _ = given[unknown]
            hint = did_you_mean(unknown, self.attributes) or ", ".join(self.attributes)
            self.refuse(key.place, tr('"{key}" is not scored here', key=key), hint)
        for tidy, (name, attribute) in self.attributes.items():
            if tidy not in given:
                self.refuse(place, _no_score(taster, sample, name), tr(_DASH))
                continue
            self.attempt(self.mark, taster, sample, name, attribute, given[tidy][1])

    def mark(self, taster: str, sample: str, name: str, attribute: Attribute, node: Node) -> None:
        """Keep one score."""
        if not isinstance(node, Text) or isinstance(node, Blank):
            raise refuse(_no_score(taster, sample, name), tr(_DASH), node.place)
        if _is_dash(node):
            value = None
        elif attribute.words:
            value = _right(node, attribute)
        else:
            value = _score(node, self.scale(taster, attribute), name, attribute)
        self.marks[taster, sample, name] = Mark(taster, sample, name, value, str(node), node.place)

    def scale(self, taster: str, attribute: Attribute) -> Scale:
        """The scale on a taster's ballot."""
        written = self.scales.get(taster) or attribute.scale
        assert written is not None
        return scale_of(written, attribute.half_points, attribute.best == "low")

    # Ranks

    def ranks(self) -> None:
        """Every order, from the file's own key and from its CSV."""
        for name, order in self.tasting.ranks.items():
            self.attempt(self.rank, name, order.node)
        for row in self.rows_of(["rank"], ["rank"]):
            self.attempt(self.rank_row, row)
        self.complete()

    def rows_of(self, asked: Sequence[str], columns: Sequence[str]) -> Iterator[Branch]:
        """The rows of the CSV, one for each taster and sample, whichever way it is laid out."""
        if not is_wide(self.rows):
            if self.rows and self.columns_fit(["sample", "code", *columns]):
                yield from self.rows
            return
        names = {str(name): str(name) for name in self.tasting.samples}
        codes = {} if self.tasting.codes_by_taster else self.plan.scored_codes
        layout = FormLayout({**names, **codes}, [str(each) for each in asked])
        wrong = list(layout.problems(self.rows[0]))
        self.problems += wrong
        if not wrong:
            yield from layout.rows(self.rows)

    def rank(self, name: Text, order: Node) -> None:
        """One taster's samples, the highest first; `a = b` where neither is higher."""
        taster = self.taster(name, name.place)
        if not isinstance(order, Row):
            raise refuse(
                tr("a list of samples is wanted here"), tr("such as [a, b, c]"), order.place
            )
        dashes = [group for group in order if _is_dash(group)]
        groups = [group for group in order if not _is_dash(group)]
        for place, group in enumerate(groups, start=1):
            if not isinstance(group, Text):
                raise refuse(
                    tr("one sample, or a = b, is wanted here"),
                    tr("such as [a, b = c]"),
                    group.place,
                )
            for part in str(group).split("="):
                text = Text(part.strip(), group.file, group.line, group.column)
                self.attempt(self.ranked, taster, text, place, str(place))
        self.dashed(taster, dashes)

    def dashed(self, taster: str, dashes: Sequence[Node]) -> None:
        """Keep a dash as one sample that was not tasted; with too few, one has no answer."""
        missing = self.missing(taster)
        if len(dashes) > len(missing):
            raise refuse(
                tr("{taster} has more dashes than samples left", taster=taster),
                tr("write one dash for each sample that was not tasted"),
                dashes[-1].place,
            )
        for sample in missing if len(missing) == len(dashes) else ():
            self.not_ranked(taster, sample, dashes[0].place)

    def rank_row(self, row: Branch) -> None:
        """One row of the CSV: the place that a taster gave a sample, 1 for the highest."""
        cells = {tidy_key(key): value for key, value in row.items()}
        taster = self.taster(cells.get("taster"), row.place)
        rank = cells.get("rank")
        if isinstance(rank, Text) and _is_dash(rank):
            self.not_ranked(taster, self.sample(self.what(cells, row), taster), row.place)
            return
        if not isinstance(rank, Text) or not (rank.isascii() and rank.isdigit()):
            at = rank.place if isinstance(rank, Text) else row.place
            raise refuse(tr("a rank is 1, 2, 3 ..."), tr("1 for the highest"), at)
        most = len(self.tasting.samples)
        if not 1 <= int(rank) <= most:
            raise refuse(
                tr("rank {rank} of {most} samples", rank=rank, most=most),
                tr("1 to {most}", most=most),
                rank.place,
            )
        self.ranked(taster, self.what(cells, row), int(rank), str(rank))

    def ranked(self, taster: str, text: Text, place: int, shown: str) -> None:
        """Keep one rank as a score that is higher the earlier the sample comes."""
        sample = self.sample(text, taster)
        self.once(taster, sample, text.place)
        value = float(len(self.tasting.samples) - place)
        asked = self.tasting.asked
        self.marks[taster, sample, asked] = Mark(taster, sample, asked, value, shown, text.place)

    def not_ranked(self, taster: str, sample: str, place: Place) -> None:
        """Keep that a taster did not taste a sample."""
        self.once(taster, sample, place)
        asked = self.tasting.asked
        self.marks[taster, sample, asked] = Mark(taster, sample, asked, None, "–", place)

    def missing(self, taster: str) -> list[str]:
        """The samples that a taster was served and has no answer on."""
        answered = {sample for who, sample in self.seen if who == taster}
        served = list(self.by_code[taster].values())
        enough = len(answered) >= len(served)
        return [] if enough else [sample for sample in served if sample not in answered]

    def complete(self) -> None:
        """Report every sample that a taster was served and has no answer on."""
        wrong = bool(self.problems)
        for taster, place in self.first.items():
            if (missing := self.missing(taster)) and not wrong:
                self.refuse(
                    place,
                    tr(
                        "{taster} has no answer on {missing}",
                        taster=taster,
                        missing=", ".join(missing),
                    ),
                    tr(_DASH),
                )


def _is_dash(node: Node) -> bool:
    return isinstance(node, Text) and node.lower() in _NOT_TASTED


def _no_score(taster: str, sample: str, name: str) -> str:
    return tr("{taster} gave {sample} no score for {name}", taster=taster, sample=sample, name=name)


def _score(text: Text, scale: Scale, name: str, attribute: Attribute) -> float:
    if not _NUMBER.fullmatch(text):
        raise refuse(
            tr('"{text}" is no score', text=text), clauses([scale.answers, tr(_DASH)]), text.place
        )
    value = float(text.replace(",", "."))
    if not scale.holds(value):
        hint = f"{scale.answers}{_halves(value, scale, name, attribute)}"
        raise refuse(
            tr("{text} is off the {scale} scale", text=text, scale=scale.name), hint, text.place
        )
    return value


def _halves(value: float, scale: Scale, name: str, attribute: Attribute) -> str:
    """How to allow a half point, where a score is one."""
    if attribute.half_points or not replace(scale, step=scale.step / 2).holds(value):
        return ""
    written = attribute.scale.name if attribute.scale else scale.name
    return tr(
        "; for half points write {{{name}: {{scale: {written}, half points: yes}}}}",
        name=name,
        written=written,
    )


def _right(text: Text, attribute: Attribute) -> float:
    """An answer on a just-about-right scale: −2 to 2, or its words, also as the ballot has them."""
    low, high = (end.lower() for end in attribute.ends)
    word = " ".join(text.lower().split())
    strong = 2.0 if word.startswith("much ") else 1.0
    word = word.removeprefix("much ")
    known = {low: -strong, high: strong}
    known |= dict.fromkeys(("right", "just right", "just about right", tr("right")), 0.0)
    if word in known:
        return known[word]
    if re.fullmatch(r"[+-]?[0-2]", text):
        return float(text)
    hint = did_you_mean(word, known) or tr("{low}, right, {high}, or -2 to 2", low=low, high=high)
    raise refuse(tr('"{text}" is no answer here', text=text), hint, text.place)


def unanswered(tasting: Tasting, ballots: Ballots) -> Iterator[Text]:
    """The tasters who were listed and gave no answer, where others did."""
    there = set(ballots.tasters(tasting))
    return (taster for taster in tasting.tasters if there and taster not in there)
