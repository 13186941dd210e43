"""Invented maintenance text for the drawn layouts: jobs, parts, limits and wires that do not exist."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

FICTITIOUS = "Fictitious page. Not for flight."


@dataclass(frozen=True)
class Job:
    """One invented job. `guarded` is the index in `removal` of the step that the warning stands above;
    `careful` the index in `installation` of the step that the caution stands above."""

    chapter: str  # chapter-section-subject as printed
    title: str
    general: tuple[str, ...]  # paragraphs
    removal: tuple[str, ...]  # steps
    installation: tuple[str, ...]
    test: tuple[str, ...]
    warning: str
    guarded: int
    caution: str
    careful: int
    note: str


_TOLD = tomllib.loads((Path(__file__).parent / "fiction.toml").read_text(encoding="utf-8"))
BRAKES, DOOR, ALTERNATOR, OXYGEN, PITOT, FLAPS, GOVERNOR, SELECTOR = JOBS = tuple(
    Job(**{name: tuple(value) if isinstance(value, list) else value for name, value in told.items()})
    for told in _TOLD.values()
)


_LETTERS = tomllib.loads((Path(__file__).parent / "letters.toml").read_text(encoding="utf-8"))
DIRECTIVE: list[list[str]] = _LETTERS["directive"]
BULLETIN: list[list] = _LETTERS["bulletin"]


@dataclass(frozen=True)
class Part:
    item: str
    number: str
    name: str  # with its indenture dots in front
    usage: str
    quantity: str


PARTS = (
    Part("1", "40T3241-1", "BRAKE ASSEMBLY, LEFT", "A", "1"),
    Part("2", "40T3241-2", "BRAKE ASSEMBLY, RIGHT", "A", "1"),
    Part("3", "40T3243-5", ".CYLINDER ASSEMBLY", "", "1"),
    Part("4", "40T3244-1", "..PISTON", "", "2"),
    Part("5", "QS28775-219", "..PACKING, PREFORMED", "", "2"),
    Part("-6", "40T3244-9", "..PLUG, BLEEDER PORT", "B", "1"),
    Part("7", "40T3245-3", ".PLATE, PRESSURE", "", "1"),
    Part("8", "40T3245-11", ".PLATE, BACKING", "", "2"),
    Part("9", "QL66-106", ".LINING", "A", "2"),
    Part("9A", "QL66-112", ".LINING, METALLIC", "B", "2"),
    Part("10", "QR4-7", ".RIVET, BRASS", "", "12"),
    Part("11", "40T3246-1", ".PLATE, TORQUE", "", "1"),
    Part("12", "40T3246-21", ".BOLT, ANCHOR", "", "2"),
    Part("13", "40T3247-1", "DISC, BRAKE", "A", "1"),
    Part("14", "40T3247-7", "DISC, BRAKE, CHROMED", "B", "1"),
    Part("15", "40T3250-1", "HOSE ASSEMBLY", "", "1"),
    Part("16", "QF815-4D", "UNION", "", "1"),
    Part("17", "QF818-4D", "NUT", "", "2"),
    Part("18", "40T3251-3", "RESERVOIR ASSEMBLY", "", "1"),
    Part("19", "40T3251-15", ".CAP, FILLER", "", "1"),
    Part("20", "40T3252-1", "VALVE, PARKING", "", "1"),
    Part("21", "40T3253-1", "CYLINDER, MASTER", "", "2"),
    Part("22", "40T3253-9", ".ROD, PUSH", "", "1"),
    Part("23", "QP24665-132", "PIN, COTTER", "", "2"),
)

INDEX_TERMS = (
    ("Access plates", ("wing", "6-11"), ("tail", "6-14")),
    ("Ailerons", ("balance", "27-11"), ("rigging", "27-12")),
    ("Alternator", ("belt", "24-31"), ("removal", "24-31"), ("test", "24-32")),
    ("Anchor bolts", ("torque", "32-41")),
    ("Antenna, marker", ("bonding", "34-33")),
    ("Battery", ("box", "24-33"), ("capacity check", "24-34")),
    ("Bleeding, brakes", ("pressure method", "32-42")),
    ("Blast tube", ("alternator", "24-31")),
    ("Cabin door", ("adjustment", "52-11"), ("seal", "52-12")),
    ("Circuit breakers", ("table", "24-51")),
    ("Compass", ("swing", "34-21")),
    ("Control cables", ("tension", "27-02"), ("wear", "27-03")),
    ("Cowling", ("latches", "71-11")),
    ("Drain, belly", ("fuel", "28-21")),
    ("Dye penetrant", ("use of", "20-31")),
    ("Elevator", ("trim", "27-31"), ("travel", "27-32")),
    ("Exhaust", ("pressure test", "78-11")),
    ("Firewall", ("sealing", "71-31")),
    ("Flaps", ("actuator", "27-51"), ("rigging", "27-52")),
    ("Fuel", ("drains", "28-11"), ("selector", "28-21"), ("quantity", "28-41")),
    ("Gascolator", ("cleaning", "28-22")),
    ("Governor", ("removal", "61-21"), ("screen", "61-22")),
    ("Grommets", ("leading edge", "57-41")),
    ("Heater", ("overhaul", "21-41")),
    ("Hinges", ("cabin door", "52-11")),
    ("Induction filter", ("life", "71-61")),
    ("Jacking", ("points", "7-11"), ("precautions", "7-10")),
    ("Landing light", ("aim", "33-41")),
    ("Leak test", ("pitot", "34-11"), ("static", "34-12")),
    ("Lubrication", ("chart", "12-21")),
    ("Magneto", ("timing", "74-11")),
    ("Mooring", ("rings", "10-21")),
    ("Nose gear", ("shimmy damper", "32-21"), ("steering", "32-51")),
    ("Oil cooler", ("flushing", "79-21")),
    ("Oxygen", ("bottle", "35-11"), ("masks", "35-12")),
    ("Parking valve", ("adjustment", "32-43")),
    ("Pitot heat", ("current check", "30-31")),
    ("Placards", ("list", "11-21")),
    ("Propeller", ("balance", "61-11"), ("dressing", "61-12")),
    ("Regulator, voltage", ("setting", "24-35")),
    ("Rudder", ("pedals", "27-21"), ("travel", "27-22")),
    ("Seat rails", ("wear limits", "25-11")),
    ("Serial plate", ("place of", "11-01")),
    ("Spar caps", ("inspection", "57-11")),
    ("Stall warning", ("vane", "27-36")),
    ("Tires", ("pressures", "12-11"), ("wear", "32-44")),
    ("Torque values", ("general", "20-11"), ("propeller", "61-13")),
    ("Towing", ("limits", "9-11")),
    ("Universal joints", ("selector", "28-21")),
    ("Vacuum pump", ("life", "37-11")),
    ("Weighing", ("level points", "8-11")),
    ("Windows", ("crazing", "56-11"), ("polish", "56-12")),
)

LIMITS = (  # item, part number, new minimum, new maximum, worn, remark
    ("Piston bore", "40T3243-5", "1.5005", "1.5015", "1.5030", "replace"),
    ("Piston, diameter", "40T3244-1", "1.4985", "1.4995", "1.4970", "replace"),
    ("Anchor bolt", "40T3246-21", "0.4355", "0.4365", "0.4330", "replace"),
    ("Hole in torque plate", "40T3246-1", "0.4370", "0.4385", "0.4410", "bush"),
    ("Lining, thickness", "QL66-106", "0.245", "0.255", "0.100", "replace"),
    ("Disc, thickness", "40T3247-1", "0.330", "0.340", "0.285", "replace"),
    ("Disc, run-out", "40T3247-1", "0.000", "0.006", "0.015", "turn"),
    ("Master rod", "40T3253-9", "0.2480", "0.2490", "0.2465", "replace"),
    ("Pedal shaft", "40T2721-4", "0.4990", "0.4998", "0.4960", "replace"),
    ("Pedal bush", "40T2721-7", "0.5000", "0.5010", "0.5040", "replace"),
    ("Hinge pin", "40T5211-9", "0.3110", "0.3120", "0.3080", "replace"),
    ("Hinge bush", "40T5211-12", "0.3125", "0.3135", "0.3160", "replace"),
    ("Crank pin", "40T5214-1", "0.2485", "0.2495", "0.2460", "replace"),
    ("Bolt guide", "40T5215-3", "0.3760", "0.3780", "0.3830", "bush"),
    ("Actuator nut", "40T2751-6", "0.0010", "0.0030", "0.0080", "overhaul"),
    ("Trunnion", "40T2751-8", "0.4360", "0.4370", "0.4340", "replace"),
)


def wires(first: int, count: int) -> list[tuple[str, ...]]:
    """Rows of an invented wiring list: wire, gauge, color, from, pin, to, pin, length (inches), note."""
    systems = ("24P", "27F", "28Q", "30H", "33L", "34N", "35X", "61G")
    ends = ("CB-PANEL", "TB-104", "J2401", "J2753", "SW-311", "GND-12", "P3031", "SPL-18")
    colors = ("WHT", "RED", "BLU", "GRN", "YEL", "BLK")
    rows = []
    for n in range(first, first + count):
        gauge = ("22", "20", "18", "12")[n % 4]
        rows.append((
            f"{systems[n * 3 % 8]}{10 + n}{'ABCD'[n % 4]}{gauge}", gauge, colors[n % 6], ends[n % 8],
            str(1 + n * 7 % 24), ends[(n + 3) % 8], str(1 + n * 5 % 19), str(14 + n * 11 % 160),
            "SHLD" if n % 5 == 0 else "TWST" if n % 7 == 0 else "-",
        ))  # fmt: skip
    return rows
