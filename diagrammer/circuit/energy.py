"""Energy by the day: what the loads of a bank take, what the sun brings, how long the bank lasts."""

from __future__ import annotations

from diagrammer.circuit.charging import Charge, charging
from diagrammer.circuit.demand import Part, demand
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.view import View
from diagrammer.electrics import battery, solar
from diagrammer.frozen import frozen

DAY = 24.0  # [h]
FULL = 0.98  # share of the capacity that counts as charged (common practice)
SUN = ("solar charger", "dc charger")  # kinds that may have modules


@frozen(eq=False)
class Household:
    """House banks that can feed the same loads, and those loads that say how many hours a day they run."""

    banks: tuple[Store, ...]
    parts: tuple[Part, ...]

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(name for store in self.banks for name in store.names)

    @property
    def use(self) -> float:
        """Energy [Wh] that its loads take out of the banks each day, losses of converters included."""
        return sum(part.watts * part.factor * part.load["hours"] for part in self.parts)

    @property
    def draw(self) -> float:
        """The average power [W] behind that."""
        return self.use / DAY

    @property
    def capacity(self) -> float:
        """Energy [Wh] from full down to what the chemistry bears, at the average power and 25 °C."""
        full = sum(store.nominal * store.capacity for store in self.banks)
        return sum(_usable(store, self.draw * store.capacity / full) for store in self.banks)

    @property
    def lasts(self) -> float:
        """Hours [h] from full without any charge."""
        return self.capacity / self.draw if self.draw else float("inf")


def _usable(store: Store, amps: float) -> float:
    """Energy [Wh] of one bank at `amps` [A]."""
    first = store.first.node
    return store.nominal * battery.usable(first["chemistry"], store.capacity, amps, exponent=first.get("peukert"))


def households(view: View) -> tuple[Household, ...]:
    """The house banks grouped by the loads that they share, in file order."""
    asked, groups = demand(view), []
    for store in stores(view).all:
        if not store.starter:
            parts = {part.load.name: part for part in asked.behind(store.tops) if part.load.get("hours") is not None}
            shared = [group for group in groups if set(group[1]) & set(parts)]
            for group in shared:
                groups.remove(group)
            groups.append((
                tuple(one for group in shared for one in group[0]) + (store,),
                {name: part for found in (*(group[1] for group in shared), parts) for name, part in found.items()},
            ))
    return tuple(Household(banks, tuple(parts.values())) for banks, parts in groups)


def chargers(view: View, household: Household) -> tuple[Charge, ...]:
    """What can charge any of its banks, each node once."""
    found = {one.node.name: one for store in household.banks for one in charging(view).of(store)}
    return tuple(found.values())


def charging_hours(household: Household, given: tuple[Charge, ...], missing: float) -> float | None:
    """Hours that these chargers need together, at their full output, to give `missing` [Wh] back to a bank and have it
    charged again, its acceptance falling towards the end; None of several banks, or where it is more than a bank holds.
    """
    store = household.banks[0]
    first, share = store.first.node, missing / (store.nominal * store.capacity)
    row = battery.chemistry_of(first["chemistry"])
    if len(household.banks) > 1 or not given or share >= float(row["depth"]):
        return None
    amps = min(sum(one.amps for one in given), battery.charge_limit(first["chemistry"], store.capacity))
    return battery.charge_time(first["chemistry"], store.capacity, amps, FULL - share, FULL)


def sun(view: View, household: Household, hours: float) -> float:
    """Energy [Wh] that the modules bring into its banks on an average day of `hours` [h] of full sun, losses of the
    controllers and of charging taken off: the most that can be hoped for, with nothing dirty or shaded."""
    volts = household.banks[0].nominal
    efficiency = float(battery.chemistry_of(household.banks[0].first.node["chemistry"])["efficiency"])
    solar_ones = [one for one in chargers(view, household) if one.array]
    watts = sum(min(one.array.power * solar.EFFICIENCY, one.amps * volts) for one in solar_ones)
    return watts * hours * efficiency
