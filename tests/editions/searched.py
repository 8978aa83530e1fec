"""What must be in no byte of an edition: names of what is withheld, and values in every form."""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterator, Mapping

from builder.pages.reader import Reader, reads_files
from builder.pages.view import View
from builder.records.content import Content

_AMOUNT = re.compile(rb"(?:\$|&#36;|CAD\s?)\s?[0-9][0-9.,]*")
_LONG = re.compile(rb"[0-9]+(?:[.,][0-9]+)*(?:e-?[0-9]+)?")
_PLAIN = re.compile(rb"[0-9]+(?:\.[0-9]+)?")
_DIGITS = re.compile(r"[0-9]")
# Shorter ones are in every page: years, hours, addresses.
_TELLING = 5


def names_withheld(content: Content, reader: Reader, paths: Collection[str]) -> Iterator[str]:
    """Titles and ids of records, suppliers and remarks that are not granted.

    Those of a tasting whose ballots are among the `paths` are.
    """
    for record in content.records():
        has_ballots = f"forms/{record.id}-ballots.html" in paths
        if record.folder not in reader.kinds and not has_ballots:
            yield from {record.title, record.id}
        note = getattr(record, "note", None)
        if note and "notes" not in reader.parts:
            yield from filter(lambda part: len(part) > 24, re.split(r"[.\n;:\[\]]+ ?", str(note)))
        if "notes" not in reader.parts:
            for entry in getattr(record, "log", ()):
                yield from (str(entry.what), str(entry.why))
    if "notes" not in reader.parts:
        yield from (name for page in content.pages.values() for name in (page.title, page.path))
        yield from (str(swap.decided.why) for swap in content.swaps.values() if swap.decided)
    if "suppliers" not in reader.groups:
        yield from {str(row.supplier) for row in content.prices if row.supplier}
    if not reads_files(reader):
        yield from (path for path in content.files if path.startswith(("prices/", "sales/")))


def amounts_in(data: bytes) -> set[bytes]:
    """Amounts of money, as pages write them."""
    return set(_AMOUNT.findall(data))


def forms_of(view: View, reader: Reader) -> set[str]:
    """Every withheld value of a kitchen as a page, a script or a table writes it.

    Only those of at least so many digits; what a granted figure happens to read as, too, is no
    sign of anything.
    """
    model, hidden = view.costed.figures.model, reader.hidden(view.costed.figures.model)
    forms: dict[bool, set[str]] = {True: set(), False: set()}
    for node in model.needs:
        for row in range(view.costed.figures.size(node[0])):
            forms[node in hidden].update(_forms(view, *node, row))
    return {form for form in forms[True] - forms[False] if len(_DIGITS.findall(form)) >= _TELLING}


def _forms(view: View, table: str, figure: str, row: int) -> Iterator[str]:
    value = view.number(table, figure, row)
    if math.isfinite(value):
        yield view.text(table, figure, row)
        yield from (repr(value), f"{value:.10g}", f"{value:.7g}")
        origin = view.costed.figures.origin
        try:
            yield origin((table, figure), row).text
        except KeyError:
            return


def holding(files: Mapping[str, bytes], words: Collection[str]) -> dict[str, set[str]]:
    """The files that hold any of some words, in their name or bytes, with those."""
    found = {}
    for path, data in files.items():
        text = f"{path}\n".encode() + data
        if hits := {word for word in words if word.encode() in text}:
            found[path] = hits
    return found


def numbers(forms: Collection[str]) -> set[bytes]:
    """The numbers with many digits in some forms of values."""
    found = {number for form in forms for number in _LONG.findall(form.encode())}
    return {number for number in found if len(_DIGITS.findall(number.decode())) >= _TELLING}


def with_numbers(files: Mapping[str, bytes], sought: Collection[bytes]) -> dict[str, set[bytes]]:
    """The files that hold any of some numbers, each as far as it goes, with those."""
    found = {}
    for path, data in files.items():
        here = {*_LONG.findall(data), *_PLAIN.findall(data)}
        if hits := here.intersection(sought):
            found[path] = hits
    return found
