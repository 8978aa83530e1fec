"""Checks of weighings: every stage balances, and says how far it can be trusted."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from builder.data import cooking_yields
from builder.language import Deferred, tr
from builder.problems import Place, Problem, Severity, did_you_mean
from builder.quantities import written_like
from builder.records.chains import kind_of_stage, stages_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut
from builder.records.portions import check_pieces_served
from builder.records.pricing import STALE
from builder.records.stages import PublishedYield, Stage, WeighingTest
from builder.records.unpriced import also_on
from builder.records.uses import Uses

MAY_GAIN = {"cure"}
# Rounding excuses no more than this share of the weight in.
MOST_SLACK = 0.01
BITS = 1e-9
MISSED_BY = Deferred("out{parts}{loss} is {written_like} {more} than in")


def check_weights(content: Content) -> Iterator[Problem]:
    """Every problem of the stages of cuts and cooks, and of portions of pieces without a weight."""
    uses = Uses.of(content)
    for plate in content.plates.values():
        yield from check_pieces_served(content, plate)
    for owner in content.weighed:
        for name, stage in stages_of(owner):
            if not owner.unread.isdisjoint(_written_as(name)):
                continue
            yield from _check_stage(content, owner, name, stage)
            # What was weighed after the day is reported with its days.
            if not stage.has_figure and name not in content.unweighed.get(owner.path, ()):
                yield replace(_nothing_known(owner, name), also=also_on(content, uses, owner))


def _written_as(stage: str) -> Collection[str]:
    """The keys that state a stage; a cook's own stand at the top of its file."""
    return Stage.model_fields if stage == "cook" else {stage.replace(" ", "_")}


def _check_stage(content: Content, owner: Cut | Cook, name: str, stage: Stage) -> Iterator[Problem]:
    for test in stage.tests:
        yield from _check_balance(owner, name, test)
        if test.date.day > content.as_of:
            yield Problem(
                test.date.place,
                tr(
                    "{day} comes after {as_of}, the day of the build",
                    day=test.date.day,
                    as_of=content.as_of,
                ),
            )
    yield from _check_stated(name, stage)
    yield from check_published(stage.published)
    yield from _check_trust(content, owner, name, stage)


def _check_balance(owner: Cut | Cook, name: str, test: WeighingTest) -> Iterator[Problem]:
    """Refuse weights that no scale can have shown; a gain is left to a cure."""
    if test.in_.value <= 0:
        yield Problem(test.in_.place, tr("nothing went into this stage"), tr("such as in: 8.42 kg"))
        return
    if test.out.value <= 0:
        yield Problem(
            test.out.place, tr("nothing went on from this stage"), tr("such as out: 7.10 kg")
        )
        return
    gone = test.in_.value - test.out.value - sum(part.weight.value for part in test.parts.values())
    off = gone - (test.loss.value if test.loss else 0.0)
    nothing = BITS * max(test.in_.value, 1.0)
    gained = gone < -nothing and name not in MAY_GAIN
    # Without a written loss it is what is left, so only a gain can be wrong.
    if gained or (test.loss is not None and abs(off) > _slack(test, test.loss) + nothing):
        yield Problem(
            test.out.place,
            tr("does not balance: {difference}", difference=_difference(test, off)),
            tr("in = out + parts + loss, and in is {in_words}", in_words=test.in_.text),
        )
    elif test.loss is not None and abs(off) > nothing:
        message = tr("balances only by rounding: {difference}", difference=_difference(test, off))
        yield _warn(
            owner, test.out.place, message, tr("write one more place, or correct one of them")
        )


def _slack(test: WeighingTest, loss: Measure) -> float:
    """What rounding excuses [kg]: half the last place of every weight, capped."""
    places = sum(weight.resolution for weight in (test.in_, loss, *_after(test)))
    return min(places, MOST_SLACK * test.in_.value)


def _after(test: WeighingTest) -> list[Measure]:
    return [test.out, *(part.weight for part in test.parts.values())]


def _difference(test: WeighingTest, off: float) -> str:
    """How far the weights miss each other, in the finest unit that the cook weighed in."""
    parts = " + parts" if test.parts else ""
    loss = " + loss" if test.loss else ""
    more = tr("less") if off > 0 else tr("more")
    written = [*_after(test), test.in_, *([test.loss] if test.loss else [])]
    finest = min(written, key=lambda weight: weight.resolution)
    return tr(
        MISSED_BY,
        parts=parts,
        loss=loss,
        written_like=written_like(finest.text, abs(off)),
        more=more,
    )


def _check_stated(name: str, stage: Stage) -> Iterator[Problem]:
    stated, share = stage.stated, stage.stated_yield
    if stated is not None and share is not None:
        if share > 1 and name not in MAY_GAIN:
            yield Problem(
                stated.place,
                tr("{name} can't gain weight", name=name),
                tr("only a cure or marinade can"),
            )
            return
        if share <= 0:
            yield Problem(stated.place, tr("nothing would be left of this stage"))
            return
    if not stage.tests:
        yield from _check_stated_parts(name, stage)


def _check_stated_parts(name: str, stage: Stage) -> Iterator[Problem]:
    """Without a test, by-products are part of what does not go on; a cure may take up more."""
    kept_of = 1.0 if name in MAY_GAIN else 1 - _untested_yield(stage)
    shares = [part.share for part in stage.parts.values() if part.share is not None]
    if shares and sum(part.value for part in shares) > kept_of + 1e-9:
        yield Problem(
            shares[0].place, tr("the parts are heavier than the loss"), tr("parts are part of it")
        )


def _untested_yield(stage: Stage) -> float:
    """The yield that counts without a test: stated, published, or all of it."""
    if stage.stated_yield is not None:
        return stage.stated_yield
    published = stage.published
    if published is None:
        return 1.0
    if published.table is not None:
        found = cooking_yields().get(published.table)
        return found.value if found else 0.0  # an entry that is not there is reported by itself
    return published.yield_.value if published.yield_ else 1.0


def check_published(published: PublishedYield | None) -> Iterator[Problem]:
    """A published yield that is no entry of those that come with the tool."""
    table = published.table if published else None
    if table is not None and table not in cooking_yields():
        hint = did_you_mean(table, cooking_yields()) or tr(
            "or a yield with its source, such as {yield: 69 %, source: ...}"
        )
        yield Problem(
            table.place, tr('no published yield "{table}" comes with the tool', table=table), hint
        )


def _check_trust(content: Content, owner: Cut | Cook, name: str, stage: Stage) -> Iterator[Problem]:
    place = _first_place(owner, stage)
    if len(stage.tests) == 1:
        why = _one_test_words(content, owner, name, stage)
        yield _warn(
            owner, place, tr("{name}: one test only{why}", name=name, why=why), tr("weigh it again")
        )
    newest = max((test.date.day for test in stage.tests), default=None)
    if newest is not None and content.as_of - newest > STALE:
        yield _warn(
            owner,
            place,
            tr("{name}: the newest test is of {newest}, over a year old", name=name, newest=newest),
            tr("weigh it again"),
        )


def _one_test_words(content: Content, owner: Cut | Cook, name: str, stage: Stage) -> str:
    """What the interval of a stage with one test comes from."""
    kind = kind_of_stage(owner, name)
    if any(
        kind_of_stage(other, each) == kind and _tests_differ(like)
        for other in content.weighed
        for each, like in stages_of(other)
    ):
        return tr("; its interval comes from like stages in this kitchen")
    given = stage.give_or_take and stage.give_or_take.loss
    return (
        tr("; its interval is what the kitchen gives or takes") if given else tr(", so no interval")
    )


def _tests_differ(stage: Stage) -> bool:
    """Whether a stage's tests leave unlike shares, so that they say how far one may lie off."""
    shares = [test.out.value / test.in_.value for test in stage.tests if test.in_.value > 0]
    return len(shares) > 1 and max(shares) - min(shares) > BITS


def _nothing_known(owner: Cut | Cook, stage: str) -> Problem:
    message = tr(
        "{stage}: nothing weighed, stated or published; it is counted as no loss", stage=stage
    )
    hint = tr("weigh it and write tests:, or write loss: 0 % where nothing is lost")
    return _warn(owner, Place(owner.file), message, hint)


def _first_place(owner: Cut | Cook, stage: Stage) -> Place:
    measure: Measure | None = stage.tests[0].in_ if stage.tests else stage.stated
    return measure.place if measure else Place(owner.file)


def _warn(owner: Cut | Cook, place: Place, message: str, hint: str) -> Problem:
    # The interval of one test comes from the stages of all cuts and cooks.
    needs = ("cuts", "cooks", "weights")
    return Problem(place, message, hint, Severity.WARNING, owner.path, needs=needs)
