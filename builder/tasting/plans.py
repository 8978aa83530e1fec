"""Serving plans: ballots, tray map, key, what to cook and when."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import repeat

from builder.engine.methods import method
from builder.language import Deferred
from builder.tasting.codes import blind_codes, codes_by_taster
from builder.tasting.designs import MOST_SAMPLES, Balance, order_balance, serving_orders
from builder.tasting.protocols import Protocol
from builder.tasting.trials import most_cups, trial_sentence, trial_sequence
from builder.tasting.weights_to_cook import tasting_weight_to_cook

_IN, _IN_UNTIMED = Deferred("start the cook"), Deferred("be ready with it: its file states no time")
_OUT, _OUT_NOW = Deferred("out, finish and rest"), Deferred("out, into portions")


@dataclass(frozen=True, slots=True)
class PlannedSample:
    """A sample as the kitchen has to make it.

    cook_time: in the bath or oven [min], 0 where not known; finish_time: sear, rest and carve
    after it [min];
    servable_yield: servable weight / raw weight [1], above 0, at most 1.5.
    """

    name: str
    cook_time: float
    finish_time: float
    servable_yield: float

    def __post_init__(self) -> None:
        if self.cook_time < 0 or self.finish_time < 0:
            raise ValueError(f"{self.name}: cook_time and finish_time must be 0 min or more")
        if not 0 < self.servable_yield <= 1.5:
            raise ValueError(f"{self.name}: servable_yield must be above 0, at most 1.5")


@dataclass(frozen=True, slots=True)
class SessionRules:
    """How a session runs.

    per_taster: samples a mouth can bear [1]; portion: servable weight of one serving [g];
    spare: share cooked on top for breakage and second looks [1]; tasting_time: for one
    sample [min]; palate_break: water and bread between samples [min].
    """

    per_taster: int = 6
    portion: float = 20.0
    spare: float = 0.1
    tasting_time: float = 2.0
    palate_break: float = 1.5

    def __post_init__(self) -> None:
        if self.per_taster < 1:
            raise ValueError(f"per_taster must be 1 sample or more, not {self.per_taster}")
        if not (self.portion > 0 and 0 <= self.spare <= 1):
            raise ValueError("portion must be above 0 g and spare from 0 to 1")
        if self.tasting_time < 0 or self.palate_break < 0:
            raise ValueError("tasting_time and palate_break must be 0 min or more")


@dataclass(frozen=True, slots=True)
class Serving:
    """One cup or plate: what the taster and the server see.

    place: 0 is the warm-up, scored samples count from 1; starts: minutes after service.
    """

    place: int
    code: str
    starts: float

    @property
    def warm_up(self) -> bool:
        """Whether it only sets the palate and is not scored."""
        return self.place == 0


@dataclass(frozen=True, slots=True)
class Ballot:
    """One taster's servings in order; it names no sample."""

    taster: str
    servings: tuple[Serving, ...]


@dataclass(frozen=True, slots=True)
class Tray:
    """What the server sets down at one seat, left to right; it names no sample."""

    seat: int
    taster: str
    codes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KeyLine:
    """What a code stands for; kept apart from ballots and trays until all is scored.

    taster: whose code it is; "" for everybody's.
    """

    code: str
    sample: str
    warm_up: bool
    taster: str = ""


@dataclass(frozen=True, slots=True)
class CookLine:
    """How much of one sample to cook.

    servings [1]; servable: weight on the plates with the spare [g]; raw: weight to start
    from [g]; start, out: minutes before service.
    """

    sample: str
    servings: int
    servable: float
    raw: float
    start: float
    out: float

    @property
    def timed(self) -> bool:
        """Whether its time in the cook is known."""
        return self.start > self.out


@dataclass(frozen=True, slots=True)
class TimetableLine:
    """One step of the timetable, at minutes before service."""

    before: float
    sample: str
    action: str


@dataclass(frozen=True)
class ServingPlan:
    """Everything a session needs; `key` is to be printed apart.

    `balance` is None for discrimination tests, whose `sentence` counts orders instead.
    """

    ballots: tuple[Ballot, ...]
    trays: tuple[Tray, ...]
    key: tuple[KeyLine, ...]
    cooking: tuple[CookLine, ...]
    timetable: tuple[TimetableLine, ...]
    balance: Balance | None
    sentence: str
    session: float

    def meaning(self, taster: str, code: str) -> KeyLine:
        """What a code on a taster's tray stands for; KeyError where it is none of the tray's."""
        return self._by_tray[taster, code]

    @cached_property
    def _by_tray(self) -> Mapping[tuple[str, str], KeyLine]:
        lines = {(line.taster, line.code): line for line in self.key}
        return {
            (tray.taster, code): lines.get((tray.taster, code)) or lines["", code]
            for tray in self.trays
            for code in tray.codes
        }

    @property
    def scored_codes(self) -> dict[str, str]:
        """The sample of each code that is everybody's, the warm-up's left out."""
        return {c.code: c.sample for c in self.key if not (c.warm_up or c.taster)}


def _check_names(what: str, names: Sequence[str]) -> None:
    if not names or len(set(names)) < len(names):
        raise ValueError(f"{what} must be at least 1, each named once")


def _ballot(taster: str, codes: Sequence[str], first_place: int, rules: SessionRules) -> Ballot:
    pace = rules.tasting_time + rules.palate_break
    servings = (
        Serving(first_place + index, code, index * pace) for index, code in enumerate(codes)
    )
    return Ballot(taster, tuple(servings))


def _tray(seat: int, ballot: Ballot) -> Tray:
    return Tray(seat, ballot.taster, tuple(serving.code for serving in ballot.servings))


def _cook_line(sample: PlannedSample, servings: int, rules: SessionRules) -> CookLine:
    return CookLine(
        sample=sample.name,
        servings=servings,
        servable=servings * rules.portion * (1 + rules.spare),
        raw=tasting_weight_to_cook(servings, rules.portion, rules.spare, sample.servable_yield),
        start=sample.cook_time + sample.finish_time,
        out=sample.finish_time,
    )


def _timetable(cooking: Sequence[CookLine]) -> tuple[TimetableLine, ...]:
    """Steps in the order of the day: the longest lead first, service last."""
    served = [line for line in cooking if line.servings]
    steps = [
        TimetableLine(line.start, line.sample, _IN if line.timed else _IN_UNTIMED)
        for line in served
    ]
    steps += [
        TimetableLine(line.out, line.sample, _OUT if line.out else _OUT_NOW)
        for line in served
        if line.timed
    ]
    ordered = sorted(steps, key=lambda step: (-step.before, step.sample, step.action))
    return (*ordered, TimetableLine(0.0, "", Deferred("serve everything")))


def _assemble(
    ballots: Sequence[Ballot],
    key: Sequence[KeyLine],
    samples: Sequence[PlannedSample],
    rules: SessionRules,
    balance: Balance | None,
    sentence: str,
) -> ServingPlan:
    sample_of = {(line.taster, line.code): line.sample for line in key}
    served = Counter(
        sample_of.get((ballot.taster, cup.code)) or sample_of["", cup.code]
        for ballot in ballots
        for cup in ballot.servings
    )
    cooking = [_cook_line(sample, served[sample.name], rules) for sample in samples]
    seats = {ballot.taster: seat for seat, ballot in enumerate(ballots)}
    last = max(ballot.servings[-1].starts for ballot in ballots)
    return ServingPlan(
        ballots=tuple(ballots),
        trays=tuple(_tray(seat, ballot) for seat, ballot in enumerate(ballots, start=1)),
        key=tuple(sorted(key, key=lambda line: (seats.get(line.taster, 0), line.code))),
        cooking=tuple(cooking),
        timetable=_timetable(cooking),
        balance=balance,
        sentence=sentence,
        session=last + rules.tasting_time,
    )


@method(unit="1", source="common practice, no published source", title="Serving plan")
def plan_scoring_session(
    samples: Sequence[PlannedSample],
    tasters: Sequence[str],
    seed: str,
    rules: SessionRules,
    warm_up: str | None = None,
    benchmark: str | None = None,
    by_taster: bool = False,
) -> ServingPlan:
    """Plan a session in which tasters score samples one after another.

    Orders after the serving orders, one code per sample, the warm-up under a code of its own
    before everything else; cooks are started backwards from one service. A sample added at
    the end moves no code, nor does a warm-up.

    Parameters: samples: 1 to 12, named once. tasters: private codes, 1 to 200, each once. seed: any
    text. warm up: name of the sample served first and not scored, or none. benchmark: name of the
    sample that everybody gets where not all get all, or none. by taster: whether each taster has
    codes of his or her own.
    Errors: ValueError outside those ranges and for a name that is no sample.

    >>> shank = PlannedSample("shank 24 h", 1440, 20, 0.6)
    >>> fillet = PlannedSample("fillet", 90, 15, 0.9)
    >>> plan = plan_scoring_session([shank, fillet], ["T1", "T2"], "demo", SessionRules())
    >>> [step.action for step in plan.timetable][-1], plan.timetable[0].before
    ('serve everything', 1460)
    """
    names = [sample.name for sample in samples]
    _check_names("samples", names)
    _check_names("tasters", tasters)
    for name in {warm_up, benchmark} - {None}:
        if name not in names:
            raise ValueError(f"{name} is none of the samples: {', '.join(names)}")
    always = None if benchmark is None else names.index(benchmark)
    orders = serving_orders(len(names), len(tasters), rules.per_taster, seed, always)
    # The code after those of the most samples there can be is the warm-up's, however many stand.
    count = MOST_SAMPLES + 1
    sets = codes_by_taster(count, tasters, seed) if by_taster else [blind_codes(count, seed)]
    ballots = [
        _ballot(taster, _cups(codes, order, warm_up), 0 if warm_up else 1, rules)
        for taster, order, codes in zip(tasters, orders, _for_each(sets, tasters), strict=True)
    ]
    owners = tasters if by_taster else [""]
    key = [
        line
        for owner, codes in zip(owners, sets, strict=True)
        for line in _key_lines(codes, names, warm_up, owner)
    ]
    balance = order_balance(orders, len(names))
    return _assemble(ballots, key, samples, rules, balance, balance.sentence)


def _for_each(sets: Sequence[Sequence[str]], tasters: Sequence[str]) -> Iterable[Sequence[str]]:
    """Each taster's codes, where one set is everybody's."""
    return sets if len(sets) == len(tasters) else repeat(sets[0], len(tasters))


def _cups(codes: Sequence[str], order: Sequence[int], warm_up: str | None) -> list[str]:
    warm = [codes[MOST_SAMPLES]] if warm_up else []
    return warm + [codes[sample] for sample in order]


def _key_lines(
    codes: Sequence[str], names: Sequence[str], warm_up: str | None, owner: str
) -> Iterator[KeyLine]:
    for code, name in zip(codes, names, strict=False):
        yield KeyLine(code, name, False, owner)
    if warm_up:
        yield KeyLine(codes[MOST_SAMPLES], warm_up, True, owner)


@method(
    unit="1",
    source="ISO 4120:2021, ISO 10399:2017, ISO 5495:2005 (all arrangements equally often; codes"
    " that differ by assessor) [from memory]",
    title="Serving plan for a discrimination test",
)
def plan_discrimination_session(
    samples: tuple[PlannedSample, PlannedSample],
    tasters: Sequence[str],
    protocol: Protocol,
    seed: str,
    rules: SessionRules,
    by_taster: bool = True,
) -> ServingPlan:
    """Plan a triangle, duo-trio, paired or m-AFC session.

    Every arrangement equally often, in random order; each sample has as many codes as a
    taster meets cups of it, so equal codes never give equal cups away. Each taster has codes
    of his or her own, so that talk at the table gives nothing away either.

    Parameters: samples: two, in m-AFC the second is the one with more of the attribute. tasters:
    private codes, 1 or more, each once. seed: any text. by taster: no gives all tasters the same
    codes.
    Errors: ValueError outside those ranges.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> a, b = PlannedSample("shank", 1440, 20, 0.6), PlannedSample("fillet", 90, 15, 0.9)
    >>> plan = plan_discrimination_session((a, b), ["T1"], TRIANGLE, "demo", SessionRules())
    >>> len(set(plan.trays[0].codes))
    3
    """
    names = [sample.name for sample in samples]
    _check_names("samples", names)
    _check_names("tasters", tasters)
    rows = trial_sequence(protocol, len(tasters), seed)
    most = most_cups(protocol)
    sets = (
        codes_by_taster(sum(most), tasters, seed) if by_taster else [blind_codes(sum(most), seed)]
    )
    ballots = []
    for taster, row, drawn in zip(tasters, rows, _for_each(sets, tasters), strict=True):
        codes = drawn[: most[0]], drawn[most[0] :]
        nth = [row[:place].count(sample) for place, sample in enumerate(row)]
        cups = [codes[sample][index] for sample, index in zip(row, nth, strict=True)]
        ballots.append(_ballot(taster, cups, 1, rules))
    key = [
        KeyLine(code, names[int(place >= most[0])], False, owner)
        for owner, drawn in zip(tasters if by_taster else [""], sets, strict=True)
        for place, code in enumerate(drawn)
    ]
    return _assemble(ballots, key, samples, rules, None, trial_sentence(protocol, rows))
