"""A plate may be named in the plural: no sentence has its name before a verb of one."""

from __future__ import annotations

import re

from tests.catalogue import collected

NAMED = r"\{(?:plate|benchmark|challenger|cut|menu|buffet|dish)\}"
OF_ONE = (
    "is has was does brings comes costs earns gives goes has holds keeps leaves loses makes "
    "needs pays puts saves sells serves stays takes uses wants weighs"
)
# What stands before the name makes the name no subject: "the cost of {plate} is".
SUBJECT = re.compile(rf"(?:^|[.:;,] |\bwhat |\bthat ){NAMED} (?:{'|'.join(OF_ONE.split())})\b")


def test_no_name_of_what_is_sold_is_before_a_verb_of_one() -> None:
    forms = {form for text in collected() for form in ((text,) if isinstance(text, str) else text)}
    assert {form for form in forms if SUBJECT.search(form)} == set()
    assert SUBJECT.search("{plate} earns {amount}")
    assert not SUBJECT.search("the cost of {plate} is in doubt")
