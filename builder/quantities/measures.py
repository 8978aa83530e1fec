"""Reading a number with its unit."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from builder.language import tr
from builder.quantities.errors import QuantityError, one_short_line, quoted
from builder.quantities.refusals import explain, unclear_number, wrong_dimension
from builder.quantities.units import Dimension, Unit, find_unit

_VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5),
    "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅛": (1, 8),
    "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
_V = "".join(_VULGAR)

# A number, then a unit: everything up to the next number or the end.
_PART = re.compile(
    rf"""\s*(?P<minus>[-−])?
    (?:
      (?:(?P<whole>[0-9]+)(?:\s+(?=[0-9])|\s*(?=[{_V}])))?
      (?:(?P<top>[0-9]+)[/⁄](?P<bottom>[0-9]+)|(?P<vulgar>[{_V}]))
    | (?P<digits>[0-9]*)(?:\.(?P<decimals>[0-9]+))?
    )
    \s*(?P<unit>[^0-9{_V}\s.,;:/⁄+\-−–—_’](?:[^0-9{_V}]*[^0-9{_V}\s])?)
    \s*(?=[0-9{_V}]|$)""",
    re.VERBOSE,
)
# A number that is padded with zeros, which may lack its decimal point.
_PADDED = re.compile(r"[-−]?0[0-9]")
PACK_WORDS = (
    "case|box|carton|crate|bag|sack|pack|tray|flat|tin|can|jar|bottle|tub|bunch|keg|barrel|drum"
)
_PACK = re.compile(
    rf"""(?:(?P<packs>[1-9][0-9]*)\s+)?
    (?P<word>{PACK_WORDS})(?:s|es)?\s+of\s+
    (?:(?P<inner>[1-9][0-9]*)\s*[x×]\s*)?(?P<content>.+)""",
    re.VERBOSE | re.IGNORECASE,
)

# A word that may be meant for a pack, and packs of several without a word.
_LIKE_PACK = re.compile(r"(?P<word>[^\W\d_]+)\s+of\s+(?P<content>.+)")
_NO_WORD = re.compile(r"[1-9][0-9]*\s*[x×]\s*(?P<content>.+)")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A written number with its unit, as a value in the base unit of its dimension.

    `value` [kg, L, each, mm, °C, h, 1, kWh or kW]; `unit` as written, the largest one
    of a compound; `resolution` [base unit] is half the last written place, that of the
    decimal which a fraction is ("8 1/2" as of "8.5"), or of the smallest part of a compound.
    """

    value: float
    dimension: Dimension
    unit: str
    text: str
    resolution: float


@dataclass(frozen=True, slots=True)
class Exact:
    """A quantity before its value is rounded to a float."""

    value: Fraction
    step: Fraction
    unit: Unit
    written: str

    def times(self, count: int) -> Exact:
        """Multiply by a number of packs."""
        return Exact(self.value * count, self.step * count, self.unit, self.written)


def _fraction(match: re.Match[str]) -> tuple[Fraction, Fraction]:
    top, bottom = _VULGAR.get(match["vulgar"]) or (int(match["top"]), int(match["bottom"]))
    # "6/5 lb" is the trade's way of writing six packs of five pounds, no fraction.
    if not 0 < top < bottom:
        hint = _not_a_fraction(int(match["whole"] or 0), top, bottom, match["unit"])
        raise QuantityError(
            tr("{top}/{bottom} is not a proper fraction", top=top, bottom=bottom), hint
        )
    part = Fraction(top, bottom)
    return int(match["whole"] or 0) + part, _last_place(part)


def _last_place(part: Fraction) -> Fraction:
    """The last place of a fraction's decimal; the second where the decimal never ends."""
    places = next((n for n in range(1, 10) if 10**n % part.denominator == 0), 2)
    return Fraction(1, 10**places)


def _not_a_fraction(whole: int, top: int, bottom: int, unit: str) -> str:
    """The number that such a fraction comes to, or the packs that it may have meant."""
    if not (top and bottom):
        return ""
    more, rest = divmod(top, bottom)
    number = " ".join(filter(None, (str(whole + more), f"{rest}/{bottom}" if rest else "")))
    return tr(
        "write {number} {unit} for a fraction or case of {top} x {bottom} {unit} for packs",
        number=number,
        unit=unit,
        top=top,
        bottom=bottom,
    )


def _amount(match: re.Match[str]) -> tuple[Fraction, Fraction] | None:
    """Return the number and the step of its last place."""
    if match["vulgar"] or match["top"]:
        return _fraction(match)
    decimals = match["decimals"] or ""
    if not (match["digits"] or decimals):
        return None
    scale = 10 ** len(decimals)
    return Fraction(int(match["digits"] + decimals), scale), Fraction(1, scale)


def _part(match: re.Match[str], text: str) -> Exact | None:
    unit, amount = find_unit(match["unit"]), _amount(match)
    if unit is None or amount is None:
        return None
    number, step = amount
    if match["minus"]:
        if unit.dimension is not Dimension.TEMPERATURE:
            raise QuantityError(
                tr("{text} is negative", text=quoted(text)), tr("only a temperature may be below 0")
            )
        number = -number
    return Exact((number - unit.zero) * unit.factor, step * unit.factor, unit, match["unit"])


def _parts(text: str) -> list[Exact]:
    """Read every number with its unit; nothing when any stretch of the text is neither."""
    parts: list[Exact] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        part = match and _part(match, text)
        if not match or not part or (parts and match["minus"]):
            return []
        parts.append(part)
        at = match.end()
    return parts


def _check_compound(parts: list[Exact], text: str) -> None:
    """Refuse "8 oz 5 lb", "5.5 lb 8 oz" and "5 lb 20 oz"; a slip is likelier than a meaning."""
    if unclear := unclear_number(text):
        raise unclear
    for large, small in pairwise(parts):
        same = small.unit.dimension is large.unit.dimension
        if not same or small.unit.dimension is Dimension.TEMPERATURE:
            raise QuantityError(tr("{text} mixes units that do not add up", text=quoted(text)))
        if small.unit.factor >= large.unit.factor:
            raise QuantityError(
                tr("{text} has its units out of order", text=quoted(text)), "largest unit first"
            )
        if large.step != large.unit.factor:
            raise QuantityError(
                tr("only the last number of {text} may have decimals", text=quoted(text))
            )
        if small.value >= large.unit.factor:
            raise QuantityError(
                tr(
                    "{text} holds more {written} than 1 {written2}",
                    text=quoted(text),
                    written=small.written,
                    written2=large.written,
                )
            )


def pack_word(text: str) -> str:
    """What a pack is called, such as "case" of "case of 6 x 2.5 kg"; empty of another text.

    >>> pack_word("2 Kegs of 30 L"), pack_word("20 kg")
    ('keg', '')
    """
    found = _PACK.fullmatch(one_short_line(text))
    return found["word"].lower() if found else ""


def _pack(match: re.Match[str]) -> Exact | None:
    content = match["content"]
    each = exact(f"{content} each" if content.isdecimal() else content)
    if each and not each.value > 0:
        raise QuantityError(tr("{match} holds nothing", match=quoted(match[0])))
    return each.times(int(match["packs"] or 1) * int(match["inner"] or 1)) if each else None


@lru_cache(maxsize=1 << 12)
def exact(text: str) -> Exact | None:
    """Read a quantity of any dimension without rounding; None when it is not one."""
    line = one_short_line(text)
    if " of " in line and (pack := _PACK.fullmatch(line)):
        return _pack(pack)
    line = line.replace("m3", "m³").replace("ft3", "ft³").replace("in3", "in³")
    parts = [] if _PADDED.match(line) else _parts(line)
    if len(parts) > 1:
        _check_compound(parts, line)
    if not parts:
        return None
    total = sum((part.value for part in parts), Fraction(0))
    return Exact(total, parts[-1].step, parts[0].unit, parts[0].written)


@lru_cache(maxsize=1 << 12)
def _quantity(text: str) -> Quantity | None:
    found = exact(text)
    if found is None:
        return None
    return Quantity(
        value=float(found.value),
        dimension=found.unit.dimension,
        unit=found.written,
        text=text.strip(),
        resolution=float(found.step / 2),
    )


def no_pack(text: str, wanted: tuple[Dimension, ...], before: str = "") -> QuantityError | None:
    """Explain a pack that can't be read: its content, or what it is called; None of other texts.

    The hint writes the whole value, with what is in front of the text, such as "12.00/".

    >>> no_pack("pail of 18 lb", (Dimension.MASS,), "21.40/").hint
    'write 21.40/case of 18 lb'
    """
    if unclear_number(text):
        return None
    if pack := _PACK.fullmatch(text):
        return explain(pack["content"], wanted)
    found = _LIKE_PACK.fullmatch(text) or _NO_WORD.fullmatch(text)
    if found is None or _quantity(meant := f"case of {text[found.start('content') :]}") is None:
        return None
    if found.re is _NO_WORD:
        message, meant = tr("{text} has no word for its pack", text=quoted(text)), f"case of {text}"
    else:
        message = tr("{word} is not known as a pack", word=quoted(found["word"]))
    return QuantityError(message, tr("write {meant}", meant=before + meant))


def parse_quantity(text: str, *dimensions: Dimension) -> Quantity:
    """Read a number with its unit; with no dimensions named, of any dimension.

    Whole numbers, decimals with a point, fractions ("5 1/2 lb", "½ lb"), compounds
    ("5 lb 8 oz", "1 h 30 min") and packs ("case of 12", "2 cases of 6 x 500 g") are
    read. Refused, with QuantityError: a number without a unit, a comma, grouped
    digits, a power of ten, a range, a clock time, a leading zero, a negative value
    other than a temperature, and a unit of another dimension.

    >>> parse_quantity("5 lb 8 oz", Dimension.MASS).value
    2.494758035
    >>> parse_quantity("131 °F", Dimension.TEMPERATURE).value
    55.0
    >>> parse_quantity("12", Dimension.MASS)
    Traceback (most recent call last):
    builder.quantities.errors.QuantityError: "12" has no unit; units that fit: kg, g, lb, oz
    """
    wanted = dimensions or tuple(Dimension)
    found = _quantity(text)
    if found is None:
        raise no_pack(one_short_line(text), wanted) or explain(text.strip(), wanted)
    if found.dimension not in wanted:
        raise wrong_dimension(found.text, found.dimension, wanted)
    return found


def written_down(text: str, value: float) -> str:
    """Write a value as `written_like`, down by half a per cent at the most: a weighing's fineness.

    >>> written_down("200 g", 0.15246), written_down("0.2 kg", 0.15246), written_down("1 kg", 2.0)
    ('152 g', '0.152 kg', '2 kg')
    >>> written_down("170 g", 0.1698)
    '169 g'
    """
    factor = _parts(one_short_line(text))[-1].unit.factor
    size = Fraction(value) / factor + Fraction(1, 10**9)
    downs = [Fraction(int(size * 10**places), 10**places) for places in range(5)]
    place = next((n for n, down in enumerate(downs) if size - down <= size / 200), 4)
    return written_like(text, float(downs[place] * factor), place)


def written_like(text: str, value: float, places: int = 4) -> str:
    """Write a value in the units of a quantity as its file writes it.

    `value` [base unit] is not below zero, written to `places` decimals at the most. A
    compound's first unit is left out where the value holds none of it; of a pack the units
    of its content count.

    >>> written_like("5 lb 8 1/2 oz", 0.68038855), written_like("6.20 kg", 1.0)
    ('1 lb 8 oz', '1 kg')
    >>> written_like("5 lb 8 oz", 0.2267961850)
    '8 oz'
    """
    line = one_short_line(text)
    pack = _PACK.fullmatch(line)
    *large, last = _parts(pack["content"] if pack else line)
    left = round(Fraction(value) / last.unit.factor, places) * last.unit.factor
    written = []
    for part in large:
        whole, left = divmod(left, part.unit.factor)
        written += [f"{whole} {part.written}"] if whole else []
    rest = f"{float(left / last.unit.factor):.{places}f}".rstrip("0").rstrip(".")
    return " ".join([*written, *([f"{rest} {last.written}"] if left or not written else [])])
