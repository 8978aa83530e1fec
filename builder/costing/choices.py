"""Answers of discrimination tests: correct, wrong, or the code of the cup that was chosen."""

from __future__ import annotations

from builder.costing.answers import BLIND, AnswerReader, Choice
from builder.costing.panels import pair_of, protocol_of
from builder.language import tr
from builder.problems import did_you_mean
from builder.reading.tree import Blank, Node, Text
from builder.records.fields import refuse
from builder.tasting.protocols import Question

_YES = {"correct", "right", "yes", "true", "1"}
_NO = {"wrong", "incorrect", "no", "false", "0"}


class ChoiceReader(AnswerReader):
    """Reads one choice of each taster."""

    def choose(self) -> None:
        """Every choice, from the file's own key and from its CSV."""
        for name, answer in self.tasting.answers.items():
            self.attempt(self.choice, name, answer.node)
        if self.rows and self.columns_fit(["answer"]):
            for row in self.rows:
                self.attempt(self.choice, row["taster"], row.get("answer") or row)

    def choice(self, name: Node, answer: Node) -> None:
        """Keep one taster's choice."""
        taster = self.taster(name, name.place)
        if not isinstance(answer, Text) or isinstance(answer, Blank):
            raise refuse(
                tr("{taster} has no answer", taster=taster),
                tr("correct, wrong, or a code"),
                answer.place,
            )
        if taster in self.choices:
            raise refuse(
                tr("{taster} has answered already", taster=taster),
                tr("at {place}", place=self.choices[taster].place),
                name.place,
            )
        self.choices[taster] = Choice(taster, self.hit(answer, taster), str(answer), answer.place)

    def hit(self, answer: Text, taster: str) -> bool:
        """Whether an answer is the correct one (either way: the first sample)."""
        word, protocol = answer.lower(), protocol_of(self.tasting)
        by_choice = protocol.question is Question.CHOICE
        if not protocol.two_sided and word in _YES | _NO:
            return word in _YES
        if by_choice and answer in self.tasting.samples:
            return self.wanted(str(answer))
        if not BLIND.fullmatch(answer):
            fits = ["a cup's code"]
            fits += [] if protocol.two_sided else ["correct", "wrong"]
            fits += list(self.tasting.samples) if by_choice else []
            hint = did_you_mean(answer, fits) or tr("one of: {fits}", fits=", ".join(fits))
            raise refuse(tr('"{answer}" is no answer here', answer=answer), hint, answer.place)
        chosen = self.decoded(answer, taster)
        if by_choice:
            return self.wanted(chosen)
        return self.odd_or_like(answer, chosen, taster)

    def wanted(self, sample: str) -> bool:
        """Whether a choice fell on the sample that counts."""
        first, second = pair_of(self.tasting)
        return sample == (second if self.tasting.expected else first)

    def odd_or_like(self, answer: Text, chosen: str, taster: str) -> bool:
        """Whether a cup is the odd one of a triangle, or like the reference of a duo-trio."""
        tray = [self.by_code[taster][cup] for cup in self.trays[taster]]
        if protocol_of(self.tasting).question is Question.TRIANGLE:
            return tray.count(chosen) == 1
        if answer == self.trays[taster][0]:
            raise refuse(
                tr("{answer} is the reference itself", answer=answer),
                tr("one of the other two"),
                answer.place,
            )
        return chosen == tray[0]
