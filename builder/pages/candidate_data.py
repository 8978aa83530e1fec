"""Candidates as open data: a row for each cut that might take a plate's place."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred
from builder.pages.doubt_data import doubt_of_plate
from builder.pages.reader import MONEY
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import View


def _candidates(view: View) -> Iterator[tuple[int, Texts]]:
    found = view.costed.candidates
    for trial in found.trials:
        cut, candidate = trial.cut, trial.cut.candidate
        yield (
            found.rows[cut.id],
            (
                cut.id,
                cut.title,
                cut.id if trial.has_file else None,
                trial.benchmark.id,
                str(cut.muscle) if cut.muscle else None,
                str(trial.muscle.grade) if trial.muscle else None,
                trial.published.words if trial.published else None,
                trial.published.source if trial.published else None,
                str(candidate.shape) if candidate and candidate.shape else None,
                trial.like.id if trial.like else None,
                trial.tasting.id if trial.tasting else None,
                " ".join(f"{hours:g}" for hours in trial.hours),
            ),
        )


CANDIDATE_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "candidates",
        Deferred("Cuts on no plate yet in the place of a benchmark, by published yields"),
        "candidate",
        (
            Field("id", "Id of the candidate: of its cut, or of its item in a price list"),
            Field("name", "What it is called"),
            Field("cut", "Its cut, where it has a file", refers="cuts"),
            Field("benchmark", "Plate that it might take the place of", refers="plates"),
            Field("muscle", "Beef muscle that most of it is"),
            Field("grade", "Published grade of the muscle's tenderness"),
            Field("published", "Published cooking yield used instead"),
            Field("published_source", "Where that was published"),
            Field("shape", "Shape of a piece"),
            Field("like", "Cook of the kitchen that is most like it", refers="cooks"),
            Field("tasting", "Tasting that durations are taken from", refers="tastings"),
            Field("durations", "Hours to be tried first, the costs are of the middle one"),
        ),
        _candidates,
        (*MONEY, "cooking", "weights"),
        doubt=doubt_of_plate("benchmark"),
    ),
)
