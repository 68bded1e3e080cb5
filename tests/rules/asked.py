"""What one rule says of a short netlist."""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.run import in_order


def found(rule: str, text: str):
    """The findings of one rule; the netlist must be readable."""
    system, problems = read(text, "case.yaml")
    assert system is not None, "\n".join(f"{one.at} {one.message}" for one in problems)
    return in_order(RULES[rule].check(Survey(system)))


def van(*lines: str, nodes: str = "", practice: str = "abyc", volts: str = "12 V", bank: str = "", head: str = "",
        main: str = "fuse class-t 200 A 20 kA") -> str:
    """A bank of 200 Ah with a fused main line, a bar and a shunt; `nodes` and `lines` are added as they are."""
    bank = bank or (f"{{kind: bank, chemistry: lifepo4, voltage: {volts}, capacity: 200 Ah, short circuit: 6 kA, "
                    "pair: return-bar}")
    size = {"iso": "70 mm²"}.get(practice, "2/0 AWG" if practice == "abyc" else "3/0 AWG")
    circuits = "\n".join(f"  - {line}" for line in lines)
    return f"""
practice: {practice}
{head}
nodes:
  bank: {bank}
  meter: {{kind: shunt, rating: 300 A}}
  feed-bar: {{kind: bar, rating: 300 A, pair: return-bar}}
  return-bar: {{kind: bar, rating: 300 A}}
{nodes}
circuits:
  - name:   main
    feed:   bank/{main} -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [{size} 0.5 m, 0.5 m]
{circuits}
"""
