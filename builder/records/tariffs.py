"""What an hour and a kilowatt-hour cost: against each other, and a cost of nothing."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.problems import Problem
from builder.records.content import Content
from builder.records.slips import slip
from builder.records.written import Doubted, Value, times, warning

# Gas costs about a third of what electricity does by the kilowatt-hour, and hardly ever more.
# Common practice, no published source.
GAS_USUAL, GAS_MOST = 0.35, 1.5


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
