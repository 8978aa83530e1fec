"""The files of a trial as a cook would write them: the cut, its cooks, and the tasting."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping

from builder.costing.trials import USUAL_WAY, Trial
from builder.language import tr
from builder.reading.yaml_text import parse_yaml
from builder.records.base import read_record
from builder.records.kinds import Cook
from builder.records.tastings import Tasting

_TASTERS, _MARGIN = 12, "12 %"


def trial_files(trial: Trial) -> dict[str, str]:
    """The YAML of a trial by its path in the content folder; what is there already is left out."""
    files = {} if trial.has_file else {f"cuts/{trial.cut.id}.yaml": _lines(_cut(trial))}
    for hours in trial.hours:
        files[f"cooks/{cook_id(trial, hours)}.yaml"] = _lines(_cook(trial, hours))
    files[f"tastings/{trial.cut.id}-durations.yaml"] = _lines(_tasting(trial))
    return files


def cook_id(trial: Trial, hours: float) -> str:
    """The id of the trial's cook of so many hours."""
    return f"{trial.cut.id}-{hours:g}h".replace(".", "-")


def cook_record(trial: Trial) -> Cook | None:
    """The middle cook of a trial as the record that its file makes."""
    text = _lines(_cook(trial, trial.middle))
    tree, _ = parse_yaml("trial.yaml", text.encode())
    cook, _ = read_record(Cook, tree, "trial.yaml", {})
    return None if cook is None else cook.named(cook_id(trial, trial.middle), "trial.yaml")


def _lines(lines: Iterator[str]) -> str:
    return "".join(f"{line}\n" for line in lines)


def _cut(trial: Trial) -> Iterator[str]:
    cut = trial.cut
    yield f"species: {cut.species}"
    if cut.muscle:
        yield f"muscle: {cut.muscle}"
    if cut.supplier:
        yield f"supplier: {_quoted(cut.supplier)}"
    yield f"candidate: {trial.benchmark.id}"
    once = tr("once it has been trimmed and weighed; its price is in the list")
    yield f"# trim: {{tests: [...]}}  {once}"


def _cook(trial: Trial, hours: float) -> Iterator[str]:
    like, piece = trial.like, _piece(trial)
    yield f"cut: {trial.cut.id}"
    yield f"how: {like.how if like else USUAL_WAY}"
    yield f"at: {trial.at}"
    yield f"for: {hours:g} h"
    if piece:
        yield f"piece: {{{piece}}}"
    if like and like.equipment:
        yield f"equipment: {like.equipment}"
    yield f"load: {trial.load}"
    if like and like.hands_on:
        yield f"hands-on: {like.hands_on.text}"
    if trial.published:
        until = tr("until the first one is weighed")
        yield f"published: {_published(trial)}  # {until}"


def _piece(trial: Trial) -> str:
    candidate = trial.cut.candidate
    written: Mapping[str, object] = {
        "shape": candidate.shape if candidate else None,
        "thickness": candidate.thickness.text if candidate and candidate.thickness else None,
    }
    return ", ".join(f"{key}: {value}" for key, value in written.items() if value)


def _published(trial: Trial) -> str:
    found = trial.published
    assert found is not None
    if found.table:
        return found.table
    return f"{{yield: {100 * found.value:g} %, source: {_quoted(found.source)}}}"


def _tasting(trial: Trial) -> Iterator[str]:
    name, benchmark = trial.cut.title, str(trial.benchmark.cook)
    question = tr(
        "Which duration of {name} eats most like {benchmark}?",
        name=name,
        benchmark=trial.benchmark.title,
    )
    like = trial.tasting
    yield "test: scores"
    yield f"question: {_quoted(question)}"
    yield "samples:"
    for cook in (benchmark, *(cook_id(trial, hours) for hours in trial.hours)):
        yield f"  {cook}: {cook}"
    yield f"benchmark: {benchmark}"
    yield f"tasters: {len(like.tasters) if like else _TASTERS}"
    yield "attributes:"
    yield from (_attributes(like) if like and like.attributes else _usual_attributes())
    yield f"margin: {like.margin.text if like and like.margin else _MARGIN}"
    yield f"# date: {tr('the day of the tasting')}"
    seed = tr("words of your own that nobody guesses; no ballots are printed without them")
    yield f"# seed: {seed}"


def _usual_attributes() -> Iterator[str]:
    """What is asked where no tasting is like it, in the words that its ballots will have."""
    yield f"  {tr('tenderness')}: 9-point"
    yield f"  {tr('flavour')}: 9-point"
    yield f"  {tr('texture')}: [{tr('too firm')}, right, {tr('falling apart')}]"


def _attributes(tasting: Tasting) -> Iterator[str]:
    """The questions of the tasting that durations are taken from, so that both can be compared."""
    for name, asked in tasting.attributes.items():
        if asked.scale is not None:
            yield f"  {_quoted(name)}: {_quoted(asked.scale.name)}"
        else:
            low, high = asked.ends
            yield f"  {_quoted(name)}: [{_quoted(low)}, right, {_quoted(high)}]"


def _quoted(text: str) -> str:
    """A text as YAML keeps it: plain where it is words, else in quotes."""
    plain = text.replace(" ", "").replace("-", "").replace("'", "")
    return text if plain.isalnum() and text[0].isalnum() else json.dumps(text, ensure_ascii=False)
