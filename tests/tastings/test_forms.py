"""A web form's export, a row a taster, is read like a row a taster and sample."""

from __future__ import annotations

import pytest

from builder.costing.panels import blind_plan
from builder.pages.answers_part import CHOICES, HALVES, LONG, WIDE
from tests.tastings.kitchens import ROWS, SCORES, TRIANGLE, result_of, trial
from tests.tastings.test_mistakes import CSV, FORM, only, reported

NAMES = ("ribeye", "short", "long")
NO_TASTER = 'the column "taster" is missing'
HEADER = "Timestamp,Taster," + ",".join(f"{n} tenderness,{n} texture" for n in NAMES)
WIDE_ROWS = f"""{HEADER}
2026-09-20 15:10,T1,7,right,5,too firm,8,right
2026-09-20 15:11,T2,6,right,5,right,7,falling apart
"""
LIKING = SCORES.partition("attributes:")[0] + "attributes: {liking: 9-point}\n"
RANKED = "test: ranks\nsamples: {ribeye: ribeye-grill, short: chuck-24h}\ntasters: 2\n"


def tables(yaml: str, rows: str) -> list[list[list[float]]]:
    """The answers to each attribute, tasters by samples."""
    result = result_of(yaml, rows)
    scored, right = [a.table for a in result.attributes], [r.table for r in result.rights]
    return [table.tolist() for table in (*scored, *right)]


def test_both_layouts_give_the_same_answers() -> None:
    assert tables(FORM, WIDE_ROWS) == tables(FORM, CSV)


@pytest.mark.parametrize("pattern", ["{a} {s}", "{a} [{s}]", "{s}: {a}", "{a} of {s}", "{s}_{a}"])
def test_a_heading_may_be_put_in_many_ways(pattern: str) -> None:
    heads = [pattern.format(s=n, a=a) for n in NAMES for a in ("tenderness", "texture")]
    assert tables(FORM, WIDE_ROWS.replace(HEADER, f"Timestamp,Taster,{','.join(heads)}")) == tables(
        FORM, CSV
    )


def test_headings_may_be_blind_codes() -> None:
    rows = WIDE_ROWS
    for line in blind_plan(result_of(SCORES).tasting).key:
        rows = rows.replace(f"{line.sample} ", f"{line.code} ")
    assert rows != WIDE_ROWS
    assert tables(FORM, rows) == tables(FORM, CSV)


def test_where_one_thing_is_asked_the_sample_s_name_is_enough() -> None:
    rows = "taster,ribeye,short,long\nT1,9,5,1\nT2,7,5,3\n"
    assert tables(LIKING, rows) == [[[100, 50, 0], [75, 50, 25]]]


def test_ranks_come_a_row_a_taster_too() -> None:
    by_row = "taster,sample,rank\nT1,ribeye,1\nT1,short,2\nT2,ribeye,2\nT2,short,1\n"
    assert tables(RANKED, "taster,ribeye,short\nT1,1,2\nT2,2,1\n") == tables(RANKED, by_row)


@pytest.mark.parametrize(
    ("old", "new", "place", "message", "hint"),
    [
        ("7,falling", "10,falling", "3:37", "10 is off the 9-point scale", "1 to 9"),
        ("short texture", "shrt texture", "1:68", '"shrt texture" means nothing', "short texture"),
        ("Timestamp", "Email", "1:1", '"email" means nothing here', "nothing personal"),
        (",long texture", "", "1:1", "no column for long texture", "first row"),
        ("5,right,7", ",right,7", "3:29", "no score for tenderness", "dash"),
        ("5,right,7", ",,7", "3:18", "T2 has no answer on short", "dash"),
        ("T2,6", "T1,6", "3:21", "T1 has answered on ribeye already", "2:21"),
        ("T2,6", "Bob,6", "3:18", '"Bob" is no private code', "T1"),
    ],
)
def test_a_mistake_in_a_form(old: str, new: str, place: str, message: str, hint: str) -> None:
    rows = WIDE_ROWS.replace(old, new, 1)
    if old == ",long texture":
        rows = "\n".join(line.rpartition(",")[0] for line in WIDE_ROWS.splitlines())
    _, problems = trial(FORM, rows)
    found = [p for p in problems if str(p.place) == f"{ROWS}:{place}"]
    assert found, reported(problems)
    assert message in found[0].message
    assert hint in found[0].hint


@pytest.mark.parametrize(
    "heading", ["Name", "Your code", "Which guest are you?", "A number on your sheet"]
)
def test_a_form_without_a_column_of_tasters_says_which_to_rename(heading: str) -> None:
    _, problems = trial(FORM, WIDE_ROWS.replace("Taster", heading))
    found = only(problems)
    assert found.message == NO_TASTER
    assert f'write Taster in place of "{heading.lower()}"' in found.hint
    assert "no names" in found.hint


def test_a_question_that_names_a_sample_gets_its_heading() -> None:
    rows = "Taster,How did you like ribeye?,How tender was short?\nT1,9,5\nT2,7,5\n"
    _, problems = trial(LIKING, rows)
    hints = {p.place.column: p.hint for p in problems if "means nothing" in p.message}
    assert hints == {
        8: 'write "ribeye liking" as its heading', 33: 'write "short liking" as its heading',
    }  # fmt: skip


@pytest.mark.parametrize(("who", "first"), [("Name", "T1"), ("Your number", "T1")])
def test_a_form_of_questions_is_mended_in_one_round(who: str, first: str) -> None:
    """Everything that is to be renamed is said at once, with the first row to write."""
    asked = [f"How did you like {name}?" for name in NAMES]
    rows = f"{{}}\n1 Sept 12:00,{first},9,5,6\n1 Sept 12:01,T2,7,5,8\n"
    _, problems = trial(LIKING, rows.format(",".join(["Timestamp", who, *asked])))
    errors = [problem for problem in problems if problem.is_error]
    hints = [problem.hint for problem in errors if problem.message != NO_TASTER]
    [taster] = [problem.hint for problem in errors if problem.message == NO_TASTER]
    assert f'write Taster in place of "{who.lower()}"' in taster
    assert set(hints) == {
        "write as the first row: timestamp,taster,ribeye liking,short liking,long liking",
        *(f'write "{name} liking" as its heading' for name in NAMES),
    }
    line = next(hint for hint in hints if "first row: " in hint).partition("first row: ")[2]
    assert tables(LIKING, rows.format(line)) == [[[100, 50, 62.5], [75, 50, 87.5]]]


def test_names_of_guests_and_headings_are_reported_together() -> None:
    rows = "Name,How did you like ribeye?,short,long\nAnn,9,5,6\n"
    _, problems = trial(LIKING, rows)
    found = "\n".join(f"{p.message}: {p.hint}" for p in problems if p.is_error)
    assert 'in place of "name"' in found
    assert 'write "ribeye liking" as its heading' in found
    assert "write as the first row: taster,ribeye liking,short,long" in found


def test_without_a_column_that_could_hold_tasters_answers_are_not_taken_for_them() -> None:
    _, problems = trial(LIKING, "ribeye,short,long\n9,5,6\n")
    assert only(problems).message == NO_TASTER


def test_a_question_that_could_be_any_of_several_gets_them_all() -> None:
    _, problems = trial(FORM, WIDE_ROWS.replace("short tenderness", "How was short?"))
    hints = [p.hint for p in problems if "means nothing" in p.message]
    assert hints == ['write "short tenderness" or "short texture" as its heading']


def test_a_heading_twice_in_other_words() -> None:
    rows = "taster,ribeye,short,long,ribeye liking\nT1,9,5,1,9\n"
    _, problems = trial(LIKING, rows)
    assert only(problems).message == '"ribeye liking" asks the same as "ribeye"'


def test_columns_without_any_sample_are_reported_once() -> None:
    _, problems = trial(LIKING, "taster,a,b\nT1,9,5\nT2,9,5\n")
    reported_first = [p for p in problems if p.message == "no column names a sample"]
    assert len(reported_first) == 1
    assert "Taster,ribeye liking,short liking" in reported_first[0].hint


@pytest.mark.parametrize("rows", ["tster,ribeye\nT1,9\n", "taster,a\nT1,9\n"])
def test_an_unread_file_is_not_called_no_answers(rows: str) -> None:
    _, problems = trial(f"{LIKING}date: 2026-09-01\n", rows)
    assert not [p for p in problems if "no answers yet" in p.message]


def test_half_a_point_says_how_to_allow_it() -> None:
    _, problems = trial(LIKING.replace("9-point", "0-5"), "taster,ribeye,short,long\nT1,3.5,1,2\n")
    assert "write {liking: {scale: 0-5, half points: yes}}" in only(problems).hint
    allowed = LIKING.replace("9-point", "{scale: 0-5, half points: yes}")
    assert tables(allowed, "taster,ribeye,short,long\nT1,2.5,1,2\n") == [[[50, 20, 40]]]


@pytest.mark.parametrize(
    ("old", "new", "hint"),
    [
        (
            "margin: 10 %",
            "half points: yes",
            '"half points" goes one level down, within "attributes"',
        ),
        ("9-point}", "9-point, half points: yes}", '"half points" is a key of each entry'),
        ("long: chuck-36h", "long: {cook: chuck-36h, seed: x}", 'one level up, beside "samples"'),
    ],
)
def test_a_key_of_another_level_says_which(old: str, new: str, hint: str) -> None:
    _, problems = trial(LIKING.replace("9-point}", "9-point}\nmargin: 10 %").replace(old, new, 1))
    assert hint in only(problems).hint


def test_the_documented_examples_are_read() -> None:
    head = "samples: {ribeye: ribeye-grill, chuck-24: chuck-24h}\ntasters: 2\n"
    scored = "attributes: {liking: 9-point, texture: [too firm, right, falling apart]}\n"
    yaml = f"test: scores\n{head}{scored}"
    assert tables(yaml, WIDE)[0][0] == tables(yaml, LONG)[0][0] == [75, 50]
    halves = yaml.replace(scored, f"{HALVES}\nscores: {{T1: {{ribeye: 3.5, chuck-24: 4}}}}\n")
    assert result_of(halves).attributes[0].table[0, 0] == pytest.approx(70)
    triangle = TRIANGLE.replace("correct: 8\n", "").replace("tasters: 12", "tasters: 3")
    served = blind_plan(result_of(triangle).tasting).trays[2].codes[0]
    result = result_of(triangle, CHOICES.replace("547", served))
    assert result.choice is not None
    assert result.choice.difference.tasters == 3


RANKED_THREE = RANKED.replace("}", ", long: chuck-36h}").replace("tasters: 2", "tasters: 3")
DASHED = """ranks:
  T1: [long, ribeye, short]
  T2: [long, short, –]
  T3: [–, ribeye = long]
"""


@pytest.mark.parametrize(
    ("yaml", "rows"),
    [
        (RANKED_THREE + DASHED, ""),
        (
            RANKED_THREE,
            "Taster,ribeye,short,long\nT1,2,3,1\nT2,–,2,1\nT3,1,-,1\n",
        ),
        (
            RANKED_THREE,
            "taster,sample,rank\nT1,ribeye,2\nT1,short,3\nT1,long,1\n"
            "T2,ribeye,n/a\nT2,short,2\nT2,long,1\nT3,ribeye,1\nT3,short,–\nT3,long,1\n",
        ),
    ],
)
def test_a_dash_among_ranks_is_a_sample_that_was_not_tasted(yaml: str, rows: str) -> None:
    """Rank sums of those who ranked all; ranks of the others among what they tasted."""
    result = result_of(yaml, rows)
    (found,) = result.attributes
    assert [mark.value is None for mark in result.ballots.marks].count(True) == 2
    assert found.sums is not None
    assert (found.sums.tasters, list(found.sums.sums)) == (1, [2.0, 1.0, 3.0])


@pytest.mark.parametrize("order", ["[long, short]", "[long, –]", "[long, ribeye, short, –]"])
def test_a_dash_is_one_sample(order: str) -> None:
    """With fewer dashes than are missing a name was left out, and with more there is one twice."""
    _, problems = trial(f"{RANKED_THREE}ranks:\n  T1: {order}\n")
    messages = [problem.message for problem in problems if problem.is_error]
    assert len(messages) == 1
    assert ("T1 has no answer on" in messages[0]) is ("short, –" not in order)
