"""Every mistake in a tasting's files is a problem at its line and column."""

from __future__ import annotations

import pytest

from builder.costing.panels import blind_plan
from builder.problems import Problem
from builder.tasting.plans import ServingPlan
from tests.tastings.kitchens import PLACE, ROWS, SCORES, TRIANGLE, computed, result_of, trial

CSV = """taster,sample,tenderness,texture
T1,ribeye,7,right
T1,short,5,too firm
T1,long,8,right
T2,ribeye,6,right
T2,short,5,right
T2,long,7,falling apart
"""
FORM = SCORES.partition("scores:\n")[0]
RANKS = """test: ranks
samples: {ribeye: ribeye-grill, short: chuck-24h, long: chuck-36h}
tasters: 3
ranks:
  T1: [long, ribeye, short]
  T2: [long, ribeye = short]
"""


def reported(problems: list[Problem]) -> list[str]:
    """The errors as a line each."""
    return [f"{p.place}: {p.message}" for p in problems if p.is_error]


def only(problems: list[Problem]) -> Problem:
    """The one error."""
    errors = [problem for problem in problems if problem.is_error]
    assert len(errors) == 1, reported(problems)
    return errors[0]


def test_every_taster_with_a_missing_answer_is_named_at_once() -> None:
    yaml = SCORES.replace(", long: [8, right]}", "}").replace("short: [6, -1], ", "")
    _, problems = trial(yaml)
    assert [str(p.place).rsplit("/")[-1] for p in problems] == ["trial.yaml:8:3", "trial.yaml:10:3"]
    assert [p.message for p in problems] == [
        "T1 has no answer on long",
        "T3 has no answer on short",
    ]


@pytest.mark.parametrize(
    ("old", "new", "place", "message", "hint"),
    [
        ("T1: {ribeye: [7,", "T1: {ribeye: [10,", "8:17", "off the 9-point scale", "1 to 9"),
        ("[6, right]", "[6.5, right]", "9:17", "6.5 is off the 9-point scale", "steps of 1"),
        ("[6, right]", "[six, right]", "9:17", '"six" is no score', "dash"),
        ("[6, right]", "[6, write]", "9:20", '"write" is no answer here', 'mean "right"'),
        ("[6, right]", "[6]", "9:16", "1 score for 2 attributes", "tenderness, texture"),
        ("[6, right]", "[6, 3]", "9:20", '"3" is no answer here', "-2 to 2"),
        ("[6, right]", "{tenderness: 6}", "9:8", "T2 gave ribeye no score for texture", "dash"),
        ("[6, right]", "{tendernes: 6, texture: 0}", "9:17", "is not scored here", "tenderness"),
        (", long: [8, right]}", "}", "8:3", "T1 has no answer on long", "dash"),
        ("long: [8, right]", "lang: [8, right]", "8:50", 'no sample "lang"', 'mean "long"'),
        ("  T2: {", "  T4: {", "9:3", "taster T4 is not one of this tasting", "to tasters"),
        ("  T2: {", "  t1: {", "9:3", "taster T1 is there twice", "8:3"),
        ("  T2: {", "  Maria: {", "9:3", '"Maria" is no private code', "names of tasters"),
        ("[T1, T2, T3]", "[T1, T2, Ann]", "4:19", '"Ann" is no private code', "such as T1"),
        ("[T1, T2, T3]", "[T1, T2, T2]", "4:19", "taster T2 is there twice", "4:15"),
        ("[T1, T2, T3]", "201", "4:10", "no number of tasters", "1 to 200"),
        ("benchmark: ribeye", "benchmark: ribey", "3:12", 'no sample "ribey"', 'mean "ribeye"'),
        ("short: chuck-24h", "short: chuck-42h", "2:40", 'no cook "chuck-42h"', "chuck-24h"),
        ("short: chuck-24h", "short: steak", "2:40", '"steak" is a plate', "{plate: steak}"),
        ("short: chuck-24h", "short: {plate: steek}", "2:48", 'no plate "steek"', 'mean "steak"'),
        ("9-point", "nine", "5:26", '"nine" is not a scale', "9-point"),
        ("9-point", "5-5", "5:26", "first number lies below", ""),
        ("[too firm, right, falling apart]", "[too firm, right]", "5:44", "has two ends", "right"),
        ("margin: 10 %", "margin: 60 %", "6:9", "a margin of 60 %", "at most 50 %"),
        ("margin: 10 %", "margin: 0 %", "6:9", "a margin of 0 %", "above 0 %"),
        ("margin: 10 %", "most samples: 7", "6:15", "7 samples to a mouth", "2 to 6"),
        ("margin: 10 %", "portion: 0 g", "6:10", "weighs more than nothing", ""),
        ("margin: 10 %", "date: 2026-10-02", "6:7", "answers of Oct 2, 2026 come after", ""),
        ("margin: 10 %", "correct: 2", "6:10", "a test of scores has no correct", "duo-trio"),
        ("margin: 10 %", "can tell: 20 %", "6:11", "a test of scores has no can tell", ""),
        ("texture: [too firm, right, falling apart]",
         "texture: {words: [too firm, right, falling apart], best: high}",
         "5:92", "has its best in the middle", "leave best"),
        ("margin: 10 %", "warm up: shrot", "6:10", 'no sample "shrot"', 'mean "short"'),
        ("margin: 10 %", "scales: {T9: 0-5}", "6:10", "taster T9 is not one", "to tasters"),
        ("test: scores", "test: score", "1:7", '"score" is not known here', 'mean "scores"'),
        ("test: scores", "test: ranks", "5:14", "a test of ranks has no attributes", "only a test"),
    ],
)  # fmt: skip
def test_a_mistake_in_scores(old: str, new: str, place: str, message: str, hint: str) -> None:
    _, problems = trial(SCORES.replace(old, new, 1))
    found = [p for p in problems if p.is_error and str(p.place) == f"{PLACE}:{place}"]
    assert found, reported(problems)
    assert message in found[0].message
    assert hint in found[0].hint


def test_a_score_within_its_own_taster_s_scale_is_no_mistake() -> None:
    changed = SCORES.replace("margin: 10 %", "scales: {T1: 0-100}").replace("[7, right]", "[70, 0]")
    assert result_of(changed).attributes[0].table[0, 0] == pytest.approx(70)


@pytest.mark.parametrize(
    ("old", "new", "place", "message"),
    [
        ("T2,long,7,falling apart", "T2,long,0,right", "7:9", "0 is off the 9-point scale"),
        ("T2,long,7,falling apart", "T2,short,7,right", "7:1", "T2 has answered on short already"),
        ("T2,long,7,falling apart\n", "", "5:1", "T2 has no answer on long"),
        ("T2,long,7,falling apart", "T2,long,,right", "7:9", "no score for tenderness"),
        ("T2,long,7", "Bob,long,7", "7:1", '"Bob" is no private code'),
        ("T2,long,7", "T2,longg,7", "7:4", 'no sample "longg"'),
        ("taster,", "tester,", "1:1", 'the column "taster" is missing'),
        ("tenderness", "tendernes", "1:15", 'the column "tendernes" means nothing here'),
    ],
)
def test_a_mistake_in_rows(old: str, new: str, place: str, message: str) -> None:
    _, problems = trial(FORM, CSV.replace(old, new, 1))
    found = only([p for p in problems if str(p.place) == f"{ROWS}:{place}"])
    assert message in found.message


def test_rows_with_a_name_in_them_are_refused() -> None:
    rows = "".join(f"{line},x\n" for line in CSV.replace("texture", "texture,name", 1).splitlines())
    _, problems = trial(FORM, rows.replace("name,x", "name"))
    assert "nothing personal belongs here" in only(problems).hint


def test_rows_without_their_tasting() -> None:
    _, problems = computed({"tastings/triel.csv": CSV, PLACE: SCORES})
    found = only(problems)
    assert (str(found.place), found.hint) == ("tastings/triel.csv", 'did you mean "trial"?')


# Codes


def plan() -> ServingPlan:
    """What the small kitchen serves."""
    return blind_plan(result_of(SCORES).tasting)


def coded(change: dict[str, str]) -> str:
    """The rows with codes in place of samples, some of them changed."""
    codes = {line.sample: line.code for line in plan().key}
    found = CSV.replace("sample", "code")
    for sample, code in codes.items():
        found = found.replace(f",{sample},", f",{change.get(code, code)},")
    return found


def test_codes_are_read_as_their_samples() -> None:
    result = result_of(FORM, coded({}))
    assert result.attributes[0].table.tolist() == [[75, 50, 87.5], [62.5, 50, 75]]


def test_swapped_digits_of_a_code() -> None:
    code = plan().key[0].code
    wrong = code[0] + code[2] + code[1]
    _, problems = trial(FORM, coded({code: wrong}))
    found = [p for p in problems if p.is_error]
    assert len(found) == 2
    assert found[0].message == f"{wrong} is no code of this tasting"
    assert found[0].hint == f"did you mean {code}?"


def test_a_code_of_somebody_else_s_tray() -> None:
    """Four samples, two to a mouth: T1's tray lacks two codes."""
    yaml = FORM.replace("long: chuck-36h", "long: chuck-36h, more: {plate: steak}").replace(
        "margin: 10 %", "most samples: 2"
    )
    tray = blind_plan(result_of(yaml).tasting)
    served = {t.taster: t.codes for t in tray.trays}
    foreign = next(line.code for line in tray.key if line.code not in served["T1"])
    rows = f"taster,code,tenderness,texture\nT1,{foreign},7,right\n"
    _, problems = trial(yaml, rows)
    assert f"T1 was not served {foreign}: are codes swapped?" in only(problems).message


def test_the_warm_up_is_not_scored() -> None:
    yaml = FORM.replace("margin: 10 %", "warm up: short")
    warm = next(line.code for line in blind_plan(result_of(yaml).tasting).key if line.warm_up)
    _, problems = trial(yaml, f"taster,code,tenderness,texture\nT1,{warm},7,right\n")
    assert only(problems).message == f"{warm} is the warm-up, which is not scored"


# Ranks and choices


@pytest.mark.parametrize(
    ("old", "new", "place", "message"),
    [
        ("[long, ribeye, short]", "[long, ribeye]", "5:3", "T1 has no answer on short"),
        ("[long, ribeye, short]", "[long, long, short]", "5:14", "answered on long already"),
        ("[long, ribeye, short]", "long", "5:7", "a list of samples"),
        ("ribeye = short", "ribeye = shirt", "6:14", 'no sample "shirt"'),
    ],
)
def test_a_mistake_in_ranks(old: str, new: str, place: str, message: str) -> None:
    _, problems = trial(RANKS.replace(old, new, 1))
    found = [p for p in problems if p.is_error]
    assert str(found[0].place) == f"{PLACE}:{place}"
    assert message in found[0].message


def test_ranks_as_rows() -> None:
    yaml, _, _ = RANKS.partition("ranks:\n")
    rows = "taster,sample,rank\nT1,long,1\nT1,ribeye,2\nT1,short,4\n"
    _, problems = trial(yaml, rows)
    assert (str(only(problems).place), only(problems).message) == (
        f"{ROWS}:4:10",
        "rank 4 of 3 samples",
    )


@pytest.mark.parametrize(
    ("old", "new", "place", "message"),
    [
        ("correct: 8", "correct: 13", "4:10", "13 correct answers of 12 tasters"),
        ("correct: 8", "answers: {T1: maybe}", "4:15", '"maybe" is no answer here'),
        ("correct: 8", "answers: {T13: correct}", "4:11", "taster T13 is not one"),
        ("correct: 8", "answers: {T1: 111}", "4:15", "111 is no code of this tasting"),
        ("correct: 8", "scores: {T1: {short: 3}}", "4:10", "has no scores"),
        ("correct: 8", "can tell: 100 %", "4:11", "the share who can tell of 100 %"),
        ("correct: 8", "expected: long", "4:11", "a test of triangle has no expected"),
        ("correct: 8", "margin: 10 %", "4:9", "a test of triangle has no margin"),
        ("correct: 8", "warm up: long", "4:10", "a test of triangle has no warm up"),
        ("correct: 8", "most samples: 2", "4:15", "a test of triangle has no most samples"),
        ("correct: 8", "scales: {T1: 0-5}", "4:10", "a test of triangle has no scales"),
        ("correct: 8", "asks: juice", "4:7", "a test of triangle has no asks"),
        ("correct: 8", "off texture: 9 %", "4:14", "a test of triangle has no off texture"),
        ("long: chuck-36h", "long: chuck-36h, r: ribeye-grill", "2:11", "takes two samples, not 3"),
        ("test: triangle", "test: 3-AFC", "1:7", "asks which sample has more"),
    ],
)
def test_a_mistake_in_a_triangle(old: str, new: str, place: str, message: str) -> None:
    _, problems = trial(TRIANGLE.replace(old, new, 1))
    found = only(problems)
    assert str(found.place) == f"{PLACE}:{place}"
    assert message in found.message


# Links


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("swaps/s.yaml", "benchmark: ribeye-steak\nchallengers: [steak]\ntasting: trail\n"),
        ("plates/p.yaml", "menu: mains\nprice: 9.00\nevidence: trail\n"),
    ],
)
def test_a_tasting_that_is_not_there(file: str, text: str) -> None:
    _, problems = computed({PLACE: SCORES, file: text})
    found = only(problems)
    assert found.place.file == file
    assert (found.message, found.hint) == ('there is no tasting "trail"', 'did you mean "trial"?')


@pytest.mark.parametrize(
    ("test", "answers"),
    [
        ("paired", "{T1: short, T2: shrt, T3: long}"),
        ("triangle", "{T1: correct, T2: perhaps, T3: wrong}"),
    ],
)
def test_who_gave_an_answer_that_cannot_be_read_is_not_called_absent(
    test: str, answers: str
) -> None:
    samples = "samples: {short: chuck-24h, long: chuck-36h}\ntasters: [T1, T2, T3]\n"
    _, problems = trial(f"test: {test}\n{samples}answers: {answers}\n")
    assert only(problems).message.endswith("is no answer here")
    assert len(problems) == 1


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("benchmark: ribeye", "benchmark: ribey"),
        ("margin: 10 %", "margin: 10"),
        ("margin: 10 %", "margin: 80 %"),
        ("margin: 10 %", "margin: 10 %\nportion: 0 g"),
        ("margin: 10 %", "margin: 10 %\nbeta: 45 %"),
    ],
)
def test_answers_are_looked_at_where_what_they_are_read_by_is_right(old: str, new: str) -> None:
    """A wrong answer is reported in the same round as a wrong benchmark, margin or portion."""
    yaml = SCORES.replace("T2: {ribeye: [6,", "T2: {ribeye: [16,").replace(old, new, 1)
    _, problems = trial(yaml)
    said = reported(problems)
    assert any("16 is off the 9-point scale" in each for each in said), said
    assert len(said) == 2, said


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("tasters: [T1, T2, T3]", "tasters: three"),
        ("short: chuck-24h,", "short: {cok: chuck-24h},"),
        ("attributes: {tenderness: 9-point,", "attributes: {tenderness: 9 pints,"),
    ],
)
def test_answers_wait_for_what_they_are_read_by(old: str, new: str) -> None:
    """No answer is called wrong for a sample, a taster or a scale that can't be read."""
    _, problems = trial(SCORES.replace(old, new, 1))
    only(problems)
