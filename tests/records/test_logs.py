"""Logs and decisions: who, when and why; names of people and days to come are refused."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from builder.records.kinds import Swap
from tests.kitchens import costed_from, write
from tests.kitchens.small import SMALL
from tests.records.mistakes import EXTRA, Mistake
from tests.records.test_mistakes import BASE, made, name, reported

SWAP = "swaps/braise-for-chuck.yaml"
SEVERAL = "swaps/chuck-for-ribeye.yaml"
OTHERS = {
    "menus/lunch.yaml": "price: 19.00\nplates: [braise, mash]\n",
    "buffets/counter.yaml": "price: 24.00/kg\ncooks: {chuck-braise: 8 kg}\n",
    "tastings/one.yaml": "test: triangle\nsamples: {a: chuck-30h, b: chuck-braise}\ntasters: 12\n"
    "correct: 6\ndate: 2026-09-02\n",
}
FILES = (
    "kitchen.yaml", "cuts/chuck.yaml", "cooks/chuck-30h.yaml", "pantry/salt.yaml",
    "plates/chuck-steak.yaml", SWAP, *EXTRA, *OTHERS,
)  # fmt: skip
GOOD = "date: 2026-09-02, who: JB, what: Tied, why: it cooks evenly"
BAD = [
    (GOOD.replace("2026-09-02", "§2026-10-02"), "2026-10-02 is still to come", "the day on which"),
    ("§{date: 2026-09-02, who: JB, what: Tied}", '"why" is missing', ""),
    (GOOD.replace("it cooks evenly", "§"), "nothing is written here", "a few words"),
    (GOOD.replace("JB", "§Jane Brown"), "do not belong on a site", "write JB"),
    (GOOD.replace("JB", "§Jane"), "is not initials", "write J"),
    (GOOD.replace("JB", "§jb"), "small letters", "write JB"),
    (GOOD.replace("JB", "§JABCD"), "is not initials", "write J"),
    (GOOD.replace("JB", "§J2"), "is not initials", "write J"),
]
DECIDED = "date: 2026-08-31, who: JB, why: it earns more"
UNDECIDED = [
    (SEVERAL, DECIDED.replace("2026", "§2026"), "which challenger", "chuck-steak, braise"),
    (SEVERAL, f"{DECIDED}, plate: §brase", "no challenger of this swap", '"braise"'),
    (SWAP, DECIDED.replace("JB", "§Jo Brown"), "is not initials", "write JB"),
    (SWAP, DECIDED.replace("2026-", "§2027-"), "is still to come", "the day on which"),
    (SWAP, f"{DECIDED}, margin change: §-1.2x", "", ""),
    (SWAP, f"{DECIDED}, margin change: §1.205", "3 decimals", "CAD"),
    (SWAP, "§{date: 2026-08-31, who: JB}", '"why" is missing', ""),
]
LOGGED = [file for file in FILES if file.endswith(".yaml")]


@pytest.mark.parametrize("file", LOGGED)
def test_every_kind_of_record_has_a_log(tmp_path: Path, file: str) -> None:
    files = {**BASE, **OTHERS}
    files[file] += f"log: [{{{GOOD}}}]\n"
    costed = costed_from(write(tmp_path, files))
    content = costed.content
    record = content.record(file.removesuffix(".yaml")) or content.kitchen
    assert [(each.who, each.what) for each in record.log] == [("JB", "Tied")]


@pytest.mark.parametrize("file", ["kitchen.yaml", "cuts/chuck.yaml", SWAP])
@pytest.mark.parametrize(("entry", "message", "hint"), BAD)
def test_a_wrong_log_is_one_error_at_its_place(
    tmp_path: Path, file: str, entry: str, message: str, hint: str
) -> None:
    is_refused(tmp_path, Mistake(file, "", f"log:\n  - {braced(entry)}\n", message, hint))


@pytest.mark.parametrize(("file", "entry", "message", "hint"), UNDECIDED)
def test_a_wrong_decision_is_one_error_at_its_place(
    tmp_path: Path, file: str, entry: str, message: str, hint: str
) -> None:
    is_refused(tmp_path, Mistake(file, "", f"decided: {braced(entry)}\n", message, hint))


def braced(entry: str) -> str:
    return entry if "{" in entry else f"{{{entry}}}"


def is_refused(root: Path, mistake: Mistake) -> None:
    text, place = made(mistake, BASE[mistake.file])
    [error] = [p for p in reported(root, {mistake.file: text}) if p.is_error]
    assert str(error.place) == place, name(mistake)
    assert mistake.message in error.message
    assert mistake.hint in error.hint


@pytest.mark.parametrize("who", ["JB", "J.B.", "J. B.", "J-B", "J B", "ÅÖ", "JABC"])
def test_initials_are_read_however_they_are_pointed(tmp_path: Path, who: str) -> None:
    files = {**SMALL, "cuts/chuck.yaml": SMALL["cuts/chuck.yaml"]}
    files["cuts/chuck.yaml"] += f"log: [{{{GOOD.replace('JB', who)}}}]\n"
    (entry,) = costed_from(write(tmp_path, files)).content.cuts["chuck"].log
    assert entry.who == "".join(letter for letter in who if letter.isalpha())


def test_a_decision_holds_from_its_day_on(tmp_path: Path) -> None:
    files = {**SMALL, SEVERAL: SMALL[SEVERAL] + f"decided: {{{DECIDED}, plate: braise}}\n"}
    swap = costed_from(write(tmp_path, files)).content.swaps["chuck-for-ribeye"]
    assert isinstance(swap, Swap)
    assert swap.decision("braise", date(2026, 8, 30)) is None
    assert swap.decision("chuck-steak", date(2026, 9, 1)) is None
    decision = swap.decision("braise", date(2026, 8, 31))
    assert decision is not None
    assert (decision.who, decision.taken) == ("JB", True)
