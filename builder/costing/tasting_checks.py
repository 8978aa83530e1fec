"""What is wrong with a tasting's file: ids, numbers out of range, keys of another test, answers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from builder.costing.ballots import Ballots, read_ballots, unanswered
from builder.costing.blind import check_seed
from builder.costing.odd_scores import check_odd_scores
from builder.costing.panels import MOST_PER_TASTER, session_rules
from builder.display.words import listed
from builder.language import tr
from builder.problems import Place, Problem, Severity, did_you_mean
from builder.reading.tree import Text
from builder.records.checks import unknown_id
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.method_names import method_name
from builder.records.tasting_values import PAIRED, RANKS, SCORES, TESTS
from builder.records.tastings import Tasting
from builder.tasting.designs import MOST_SAMPLES

Check = Callable[[Content, Tasting], Iterator[Problem]]
_Keys = tuple[str, ...]


def check_tastings(content: Content) -> Iterator[Problem]:
    """Every problem of every tasting, and of the swaps and plates that lean on one."""
    for tasting in content.tastings.values():
        yield from _check_samples(content, tasting)
        first, beside = (_found(content, tasting, checks) for checks in (_FIRST, _BESIDE))
        yield from (*first, *beside)
        if not (first or beside or tasting.unread):
            yield from _check_answers(content, tasting)
        elif not first:
            yield from _check_what_is_read(content, tasting)
    for swap in content.swaps.values():
        yield from _check_link(content, swap.tasting)
    for plate in content.plates.values():
        yield from _check_link(content, plate.evidence)


def _check_link(content: Content, tasting: Text | None) -> Iterator[Problem]:
    if tasting is not None and tasting not in content.tastings:
        yield from unknown_id(content, tasting, content.tastings, "tasting", "tastings")


def _check_samples(content: Content, tasting: Tasting) -> Iterator[Problem]:
    for sample in tasting.samples.values():
        if sample.cook is not None and sample.cook not in content.cooks:
            if sample.cook in content.plates:
                hint = tr("for the whole plate write {{plate: {cook}}}", cook=sample.cook)
                yield Problem(
                    sample.cook.place, tr('"{cook}" is a plate, not a cook', cook=sample.cook), hint
                )
            else:
                yield from unknown_id(content, sample.cook, content.cooks, "cook", "cooks")
        if sample.plate is not None and sample.plate not in content.plates:
            yield from unknown_id(content, sample.plate, content.plates, "plate", "plates")


def _found(content: Content, tasting: Tasting, checks: Mapping[Check, _Keys]) -> list[Problem]:
    """What checks find that lean on no key which can't be read."""
    fit = (check for check, keys in checks.items() if tasting.unread.isdisjoint(keys))
    return [problem for check in fit for problem in check(content, tasting)]


def _check_what_is_read(content: Content, tasting: Tasting) -> Iterator[Problem]:
    """What is wrong with the answers of a file in which something else is wrong, too."""
    if not tasting.unread.isdisjoint(_READ_BY):
        return
    has_benchmark = tasting.benchmark in tasting.samples
    kept = {"benchmark": tasting.benchmark if has_benchmark else None}
    readable = tasting.model_copy(update={**kept, "portion": None, "spare": None})
    if len(tasting.samples) > session_rules(readable).per_taster and not has_benchmark:
        return  # who was served what hangs on it
    yield from read_ballots(readable, content.ballots.get(tasting.id, ())).problems


def _check_benchmark(_content: Content, tasting: Tasting) -> Iterator[Problem]:
    yield from _no_sample(tasting, tasting.benchmark)


def _no_sample(tasting: Tasting, name: Text | None) -> Iterator[Problem]:
    if name is not None and name not in tasting.samples:
        known = tr("samples: {samples}", samples=", ".join(tasting.samples))
        hint = did_you_mean(name, tasting.samples) or known
        yield Problem(name.place, tr('there is no sample "{name}"', name=name), hint)


def _check_names(_content: Content, tasting: Tasting) -> Iterator[Problem]:
    yield from _no_sample(tasting, tasting.warm_up)
    yield from _no_sample(tasting, tasting.expected)
    for taster in tasting.scales:
        if taster not in tasting.tasters:
            hint = did_you_mean(taster, tasting.tasters) or tr("add the code to tasters")
            yield Problem(
                taster.place, tr("taster {taster} is not one of this tasting", taster=taster), hint
            )


def _of_test(tasting: Tasting) -> str:
    return tr("a {test}", test=method_name(tasting.test))


def _check_count(_content: Content, tasting: Tasting) -> Iterator[Problem]:
    count = len(tasting.samples)
    if tasting.is_discrimination and count != 2:
        yield Problem(
            _samples_at(tasting),
            tr("{of_test} takes two samples, not {count}", of_test=_of_test(tasting), count=count),
            tr("scores or ranks take more"),
        )
    elif not 1 <= count <= MOST_SAMPLES:
        yield Problem(
            _samples_at(tasting),
            tr("{count} samples", count=count),
            tr("1 to {most_samples} are planned", most_samples=MOST_SAMPLES),
        )
    if tasting.expected is None and str(tasting.test).endswith("-afc"):
        yield Problem(
            tasting.test.place,
            tr("{of_test} asks which sample has more of something", of_test=_of_test(tasting)),
            tr("write expected: and the sample that should have more"),
        )


def _samples_at(tasting: Tasting) -> Place:
    return next((name.place for name in tasting.samples), Place(tasting.file))


def _check_keys(content: Content, tasting: Tasting) -> Iterator[Problem]:
    """Keys that another kind of test has."""
    test = str(tasting.test)
    if test == SCORES and not tasting.attributes:
        yield Problem(
            tasting.test.place,
            tr("scores need attributes"),
            tr("such as attributes: {flavour: 0-5}"),
        )
    for key, takers in _TAKEN_BY.items():
        written = getattr(tasting, key)
        if written and tasting.test not in takers:
            place = written.place if hasattr(written, "place") else next(iter(written)).place
            yield Problem(
                place,
                tr("a test of {test} has no {key}", test=test, key=key.replace("_", " ")),
                tr("take it out: tests that have it are {takers}", takers=listed(takers))
                if len(takers) > 1
                else tr("take it out: only a test of {test} has it", test=takers[0]),
            )
    yield from _check_correct(content, tasting)


_CHOICES = tuple(test for test in TESTS if test not in (SCORES, RANKS))
_DIRECTED = tuple(test for test in TESTS if test == PAIRED or test.endswith("-afc"))
# Keys that only some tests take; elsewhere they would be passed over unseen.
_TAKEN_BY: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("attributes", "scores", "scales", "margin", "off_texture"), (SCORES,)),
    "ranks": (RANKS,),
    **dict.fromkeys(("answers", "correct", "can_tell"), _CHOICES),
    "expected": _DIRECTED,
    "asks": (RANKS, *_DIRECTED),
    **dict.fromkeys(("warm_up", "most_samples"), (SCORES, RANKS)),
}


def _check_correct(content: Content, tasting: Tasting) -> Iterator[Problem]:
    correct, most = tasting.correct, len(tasting.tasters)
    if correct is None:
        return
    if correct.value > most:
        yield Problem(
            correct.place,
            tr("{correct} correct answers of {most} tasters", correct=correct.text, most=most),
        )
    if tasting.answers or content.ballots.get(tasting.id):
        yield Problem(
            correct.place,
            tr("the answers are counted from each taster's own"),
            tr("leave correct out"),
        )


def _check_numbers(_content: Content, tasting: Tasting) -> Iterator[Problem]:
    margins = [tasting.margin, *(found.margin for found in tasting.attributes.values())]
    for margin in margins:
        yield from _within(margin, "a margin", 0.5)
    yield from _within(tasting.alpha, "alpha", 0.4)
    yield from _within(tasting.beta, "beta", 0.4)
    yield from _within(tasting.can_tell, tr("the share who can tell"), 0.95)
    yield from _within(tasting.off_texture, tr("the share who may find texture off"), 0.45)
    if tasting.portion is not None and tasting.portion.value <= 0:
        yield Problem(tasting.portion.place, tr("a portion weighs more than nothing"))


def _check_most(_content: Content, tasting: Tasting) -> Iterator[Problem]:
    most = tasting.most_samples
    if most is not None and not 2 <= most.value <= MOST_PER_TASTER:
        yield Problem(
            most.place,
            tr("{most} samples to a mouth", most=most.text),
            tr("2 to {most_per_taster} can be borne", most_per_taster=MOST_PER_TASTER),
        )


def _within(share: Measure | None, what: str, most: float) -> Iterator[Problem]:
    if share is not None and not 0 < share.value <= most:
        yield Problem(
            share.place,
            tr("{what} of {share}", what=what, share=share.text),
            tr("above 0 %, at most {value:g} %", value=100 * most),
        )


# What answers are read by; of a key that only what is found rests on they are read all the same.
_READ_BY: _Keys = (
    "test", "samples", "tasters", "attributes", "scales", "expected", "codes", "seed", "warm_up",
    "most_samples",
)  # fmt: skip
# Each check with the keys that it leans on, so that one which can't be read is no fault twice.
_FIRST: Mapping[Check, _Keys] = {
    _check_names: ("samples", "tasters"),
    _check_count: ("samples", "test", "expected"),
    _check_keys: ("test", "attributes", "tasters"),
    _check_most: (),
}
_BESIDE: Mapping[Check, _Keys] = {_check_benchmark: ("samples",), _check_numbers: ()}


def _check_answers(content: Content, tasting: Tasting) -> Iterator[Problem]:
    ballots = read_ballots(tasting, content.ballots.get(tasting.id, ()))
    yield from ballots.problems
    held = bool(ballots.marks or ballots.choices or tasting.correct is not None)
    if tasting.date is not None and held and tasting.date.day > content.as_of:
        yield Problem(
            tasting.date.place,
            tr(
                "answers of {day} come after {as_of}, the day of the build",
                day=tasting.date.day,
                as_of=content.as_of,
            ),
        )
    unread = ballots.problems or _has_unread_rows(content, tasting)
    if tasting.date is not None and not (held or unread) and tasting.date.day < content.as_of:
        yield _warning(
            tasting,
            tasting.date.place,
            tr("planned for {day}, and no answers yet", day=tasting.date.day),
            tr("write them in, or move the date"),
        )
    yield from check_seed(content, tasting, held or bool(unread))
    if not unread:  # else whoever's answer could not be read would count as absent
        yield from _check_panel(tasting, ballots)
    yield from check_odd_scores(tasting, ballots.marks)


def _has_unread_rows(content: Content, tasting: Tasting) -> bool:
    """Whether answers lie in a CSV that could not be read."""
    path = f"{Tasting.folder}/{tasting.id}.csv"
    there = path in content.files or path in content.refused
    return there and tasting.id not in content.ballots


def _check_panel(tasting: Tasting, ballots: Ballots) -> Iterator[Problem]:
    absent = list(unanswered(tasting, ballots))
    if absent:
        listed = ", ".join(absent)
        yield _warning(
            tasting,
            absent[0].place,
            tr("no answers from {listed}", listed=listed),
            tr("who does not answer counts as absent"),
        )
    if ballots.tasters(tasting) and len(ballots.tasters(tasting)) == 1:
        yield _warning(
            tasting, tasting.tasters[0].place, tr("one taster is no panel"), tr("ask five or more")
        )


def _warning(tasting: Tasting, place: Place, message: str, hint: str) -> Problem:
    needs = ("tastings", "tasting answers", "personal codes")
    return Problem(place, message, hint, Severity.WARNING, tasting.path, needs=needs)
