"""What an hour and a kilowatt-hour cost: each in its currency, against each other, for nothing."""

from __future__ import annotations

from collections.abc import Iterator

from builder.data import plausible_ranges
from builder.language import tr
from builder.problems import Problem
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.slips import slip, slip_into
from builder.records.written import Doubted, Value, times, warning

# Gas costs about a third of what electricity does by the kilowatt-hour, and hardly ever more.
# Common practice, no published source.
GAS_USUAL, GAS_MOST = 0.35, 1.5


def check_currency(content: Content, _reported: Doubted) -> Iterator[Problem]:
    """Warn of a wage, tariffs and a tax that are far from what the kitchen's currency has."""
    kitchen, known = content.kitchen, plausible_ranges()
    rates: dict[str, Measure | None] = {
        "loaded wage": kitchen.loaded_wage,
        "energy": kitchen.energy,
        "gas": kitchen.gas,
        "tax": kitchen.tax,
    }
    for key, rate in rates.items():
        for limits in known.get(f"kitchen.{key} ({kitchen.currency})", ()):
            if rate and rate.value and not limits.low <= rate.value <= limits.high:
                value = Value(f"kitchen.{key}", rate, kitchen, kitchen.path)
                message = tr(
                    "{rate} is far outside what is usual here ({reason})",
                    rate=rate.text,
                    reason=limits.reason,
                )
                hint = slip_into(rate, rate.value, limits.low, limits.high)
                yield from warning(value, message, hint)


def check_tariffs(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of work or energy that costs nothing, and of gas far dearer than electricity."""
    kitchen = content.kitchen
    energy, gas = kitchen.energy, kitchen.gas
    for key, measure in (("loaded wage", kitchen.loaded_wage), ("energy", energy), ("gas", gas)):
        if measure is not None and measure.value == 0:
            value = Value(f"kitchen.{key}", measure, kitchen, kitchen.path)
            message = tr("{measure} counts {key} as free everywhere", measure=measure.text, key=key)
            yield from warning(value, message, tr("take {key} out where it is not known", key=key))
    if energy is None or gas is None or {energy.place, gas.place} & reported:
        return
    if gas.value > GAS_MOST * energy.value > 0:
        ratio = gas.value / energy.value
        value = Value("kitchen.gas", gas, kitchen, kitchen.path)
        message = tr(
            "{gas} for gas is {times} what electricity costs", gas=gas.text, times=times(ratio, 2)
        )
        yield from warning(value, message, slip(gas, GAS_USUAL / ratio))
