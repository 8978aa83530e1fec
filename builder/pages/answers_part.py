"""How a tasting's answers are laid out in a CSV file: both layouts, with examples."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from builder.language import Deferred, tr
from builder.pages.components import Part, Prose
from builder.pages.parts import paragraph
from builder.records.base import Written
from builder.records.tastings import Tasting

LONG = """\
Taster,Sample,Liking,Texture
T1,ribeye,7,right
T1,chuck-24,5,too firm
T2,ribeye,6,right
T2,chuck-24,–,–
"""
WIDE = """\
Timestamp,Taster,ribeye liking,ribeye texture,chuck-24 liking,chuck-24 texture
2026-08-25 15:10,T1,7,right,5,too firm
2026-08-25 15:12,T2,6,right,–,–
"""
CHOICES = """\
Taster,Answer
T1,correct
T2,wrong
T3,547
"""
HALVES = Deferred("attributes: {liking: {scale: 0-5, half points: yes}}")


def answers_parts(model: type[Written]) -> Iterator[Part]:
    """The part on answers, on the page of tastings."""
    if model is Tasting:
        yield Part(
            "answers",
            tr("Answers in a CSV file"),
            (
                paragraph(
                    tr(
                        "Answers go into the YAML file, or into tastings/ID.csv beside it. The "
                        "CSV has one of two layouts; a column Timestamp is passed over, and "
                        "nothing personal belongs in either. A dash is an answer too: not tasted."
                    )
                ),
                paragraph(
                    tr(
                        "A row for each taster and sample. Sample holds the sample's name; a "
                        "column Code may hold the blind code instead. A test of ranks has a "
                        "column Rank."
                    )
                ),
                _code(LONG),
                paragraph(
                    tr(
                        "A row for each taster, as a web form exports it. A heading names the "
                        "sample (or its blind code) and what is asked: A liking, Liking of A, "
                        "Liking [A]. Where one thing is asked, or samples are ranked, the "
                        "sample's name is enough. A sample that a taster was not served stays "
                        "empty."
                    )
                ),
                _code(WIDE),
                paragraph(
                    tr(
                        "A test of difference has one answer a taster: correct, wrong, or the "
                        "code of the cup that was chosen."
                    )
                ),
                _code(CHOICES),
                paragraph(
                    tr("Scores go in the steps of their scale. To take half points, say so:")
                ),
                _code(tr(HALVES)),
            ),
        )


def _code(text: str) -> Prose:
    return Prose(Markup("<pre><code>{}</code></pre>").format(text.rstrip()))
