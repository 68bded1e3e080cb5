"""Conductor sizes a generated system is built of, chosen so that device, load and drop all fit.

These few numbers are the generator's own, so that it does not ask the product what is right:
abyc 33 CFR 183.425 Table 5, 105 °C (read); nec Table 310.16 copper, 60 °C by 110.14(C), which holds for
the larger ones too where a device of 100 A or less stands at an end, with the small-conductor limits of
240.4(D) (read); iso ISO 13297 Table A.1, 85-90 °C (from memory). Sound systems stay below them everywhere,
also where a practice would allow the next made size.
"""

from __future__ import annotations

from dataclasses import dataclass

RHO = 0.0225  # [Ω mm²/m] copper near its limit temperature, IEC 60364-5-52 annex G


@dataclass(frozen=True)
class Size:
    label: str
    amps: float  # [A] the largest device
    area: float  # [mm²]


def awg(rows: str) -> tuple[Size, ...]:
    def area(gauge: str) -> float:  # ASTM B258: d = 0.127 mm x 92^((36 - n) / 39)
        n = 1 - int(gauge[0]) if "/" in gauge else int(gauge)
        return 3.14159265 / 4 * (0.127 * 92 ** ((36 - n) / 39)) ** 2

    return tuple(Size(f"{g} AWG", float(a), area(g)) for g, a in (row.split(":") for row in rows.split()))


ABYC = awg("16:25 14:35 12:45 10:60 8:80 6:120 4:160 2:210 1:245 1/0:285 2/0:330 3/0:385 4/0:445")
NEC = awg("14:15 12:20 10:30 8:40 6:55 4:70 2:95 1:110 1/0:125 2/0:145 3/0:165 4/0:195")
ISO = tuple(
    Size(f"{s} mm²", float(a), float(s))
    for s, a in (
        row.split(":")
        for row in ("1.5:21 2.5:30 4:40 6:50 10:70 16:100 25:140 35:185 50:230 70:285 95:330 120:400 150:430").split()
    )
)
SIZES = {"abyc": ABYC, "nec": NEC, "iso": ISO}
SENSE = {"abyc": "18 AWG", "nec": "14 AWG", "iso": "1 mm²"}
INSULATION = {"abyc": 105, "nec": 75, "iso": 90}  # [°C]
MAINS = {"abyc": 120, "nec": 120, "iso": 230}  # [V]


def ratings(text: str) -> tuple[float, ...]:
    return tuple(float(rating) for rating in text.split())


# steps that class T, strip and blade bodies are made in
LADDER = ratings(
    "1 2 3 5 7.5 10 15 20 25 30 40 50 60 80 100 125 150 200 250 300 350 400 450 500 600 700 800 1000 1200 1600 "
    "2000 2500 3000 4000 5000 6000"
)
# NEC 240.6(A)
STANDARD = ratings(
    "15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 150 175 200 225 250 300 350 400 450 500 600 700 800"
)
BREAKERS = {"abyc": (5, 10, 15, 20, 30, 50), "nec": (15, 20, 30, 50), "iso": (6, 10, 16, 20, 25, 32, 40, 63)}


def step(amps: float, ladder: tuple[float, ...] = LADDER) -> float:
    """The smallest made rating not below `amps` [A]."""
    return next(rating for rating in ladder if rating >= amps)


def derating(practice: str, ambient: float) -> float:
    """What is left of an ampacity above 30 °C: the square-root law of NEC 310.15(B)."""
    limit = INSULATION[practice]
    return 1.0 if ambient <= 30 else ((limit - ambient) / (limit - 30)) ** 0.5


def one_device(practice: str, amps: float, parallel: int) -> float:
    """[A] the largest single device beside an ampacity: ABYC E-11 and NEC 240.4(B) allow the next made size."""
    above = next((r for r in STANDARD if r >= amps), amps)
    small = practice == "nec" and amps < 50 and parallel == 1  # 240.4(D) has no next size
    return amps if practice == "iso" or small or above > 1.5 * amps else above


class NoConductor(ValueError):
    """More than four of the largest conductors carry."""


def pick(
    practice: str, ambient: float, device: float, amps: float, metres: float, drop: float, tight: bool = False
) -> tuple[str, int]:
    """The smallest size that carries `device` [A] and loses at most `drop` [V] there and back.

    `metres` is one way; `tight`: as small as the practice allows beside that one device. Returns the
    label and the number of conductors in parallel.
    """
    factor = derating(practice, ambient)
    for parallel in (1, 2, 3, 4):  # a stud takes four terminals, ABYC E-11
        for size in SIZES[practice]:
            if parallel > 1 and size.area < 53:  # NEC 310.10(G): 1/0 and larger
                continue
            lost = 2 * metres * RHO * amps / (size.area * parallel)
            carried = size.amps * factor * parallel
            allowed = one_device(practice, carried, parallel) if tight else carried
            if allowed >= device and carried >= amps and lost <= drop:
                return size.label, parallel
    raise NoConductor(f"for {device} A over {metres} m")


def area(practice: str, label: str) -> float:
    """[mm²] of a size."""
    return next(size.area for size in SIZES[practice] if size.label == label)


def above(practice: str, label: str) -> float:
    """[A] the table's ampacity of a size."""
    return next(size.amps for size in SIZES[practice] if size.label == label)
