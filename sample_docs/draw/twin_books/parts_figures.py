"""The figures of the twin's parts catalog. A row: item, part number, dots and name, usage, units."""

from dataclasses import dataclass

HEAD = "| Item | Part number | Nomenclature~~1 2 3 4 5 6 7 | Usage | Units"


@dataclass(frozen=True)
class PartsFigure:
    number: str
    figure: str
    title: str
    drawing: str  # name of the figure, then the item numbers of its callouts
    date: str
    ruled: bool
    rows: str

    @property
    def list_text(self) -> str:
        rules = "ruled" if self.ruled else "plain"
        head = "" if self.ruled else f"# {self.figure}. {self.title}\n\n"
        caption = f"{self.figure}. {self.title} " if self.ruled else ""
        return f"{head}!{rules} {caption}[2 4 9 2 2]\n{HEAD}\n{self.rows.strip()}"

    @property
    def parts(self) -> list[tuple[str, str, str]]:
        """(item, part number, units) of every row that has a part number."""
        cells = [[cell.strip() for cell in row.split("|")[1:]] for row in self.rows.strip().splitlines()]
        return [(row[0], row[1], row[4]) for row in cells if row[1]]


BRAKE = """
| -1 | QZ32-4410-1 | BRAKE ASSEMBLY, LEFT (M40-88L) V0QX7 | A | 1
| -1A | QZ32-4410-3 | BRAKE ASSEMBLY, RIGHT (M40-88R) V0QX7 | B | 1
|  |  | ATTACHING PARTS | |
| -2 | QZ32-4409-3 | BOLT, TORQUE PLATE | | 6
| -3 | NAS1149F0463P | WASHER | | 6
| -4 | MS20995C32 | LOCKWIRE | | AR
|  |  | ---*--- | |
| 5 | QZ32-4412-1 | . HOUSING ASSEMBLY, CYLINDER | A | 1
| 5A | QZ32-4412-3 | . HOUSING ASSEMBLY, CYLINDER | B | 1
| 6 | QZ32-4416-1 | . . PISTON | | 2
| 7 | QZ32-4417-2 | . . PACKING, PISTON | | 2
| 8 | QZ32-4418-1 | . . VALVE, BLEEDER | | 1
| -9 | QZ32-4418-9 | . . . CAP, DUST | | 1
| 10 | QZ32-4413-1 | . PLATE ASSEMBLY, PRESSURE | | 1
| 11 | QZ32-4414-5 | . . LINING, BRAKE | | 3
| 12 | QZ32-4415-1 | . . RIVET, LINING | | 9
| 13 | QZ32-4419-1 | . PLATE ASSEMBLY, BACK | | 1
| 14 | QZ32-4414-5 | . . LINING, BRAKE | | 3
|  |  | ATTACHING PARTS | |
| 15 | QZ32-4421-5 | . BOLT, TIE, POST SB QZ62-32-0114, SUPSDS QZ32-4421-3 | | 4
| -15A | QZ32-4421-3 | . BOLT, TIE, PRE SB QZ62-32-0114, SUPSD BY QZ32-4421-5 | | 4
| 16 | QZ32-4423-1 | . WASHER, HARDENED | | 4
|  |  | ---*--- | |
| 17 | QZ32-4430-7 | DISC, BRAKE (SEE 32-41-00-01 FOR WHEEL) | | REF
| -18 | QZ32-4440-1 | KIT, BRAKE LINING (SIX LININGS AND RIVETS) | | AR
"""

WHEEL = """
| -1 | QZ32-4100-1 | WHEEL ASSEMBLY, MAIN V0QX7 | | 1
| 2 | QZ32-4101-1 | . HALF ASSEMBLY, WHEEL, OUTBOARD | | 1
| 3 | QZ32-4102-1 | . HALF ASSEMBLY, WHEEL, INBOARD | | 1
| 4 | QZ32-4103-2 | . CONE, BEARING | | 2
| 5 | QZ32-4104-1 | . SEAL, GREASE | | 2
| 6 | QZ32-4106-7 | . BOLT, THROUGH | | 8
| 7 | QZ32-4430-7 | . DISC, BRAKE | | 1
|  |  | ATTACHING PARTS | |
| -8 | QZ32-4431-1 | . BOLT, DISC | | 6
|  |  | ---*--- | |
| -9 | QZ32-4110-1 | TIRE, 6.50-8, 8 PLY | | 1
| -10 | QZ32-4111-1 | TUBE, 6.50-8 | | 1
"""

SHIMMY = """
| -1 | QZ32-2150-1 | DAMPER ASSEMBLY, SHIMMY | | 1
|  |  | ATTACHING PARTS | |
| -2 | AN4-12A | BOLT | | 2
| 3 | NAS1149F0432P | WASHER, SPACER | | 4
| 4 | AN4H-11 | BOLT, ROD END | | 1
| -5 | MS24665-132 | PIN, COTTER | | 1
|  |  | ---*--- | |
| 6 | QZ32-2151-1 | . HOUSING | | 1
| 7 | QZ32-2152-1 | . ROD, PISTON | | 1
| 8 | QZ32-2153-2 | . . PACKING | | 2
| 9 | QZ32-2154-1 | . PLUG, FILLER | | 1
| 10 | QZ32-2160-1 | COLLAR, STEERING (SEE 32-20-00-01 FOR NHA) | | REF
"""

ALTERNATOR = """
| 1 | QZ24-3101-1 | ALTERNATOR, 85 AMPERE V8LW4 | A | 1
| 1A | QZ24-3101-5 | ALTERNATOR, 120 AMPERE V8LW4 | B | 1
|  |  | ATTACHING PARTS | |
| 2 | QZ24-3108-2 | BOLT, PIVOT | | 1
| 3 | QZ24-3109-4 | BOLT, ADJUSTING | | 1
| -4 | QZ24-3110-1 | SPACER, AFT LUG | | 1
|  |  | ---*--- | |
| 5 | QZ24-3104-1 | . PULLEY | | 1
| -6 | QZ24-3105-1 | . FAN | A | 1
| -6A | QZ24-3105-3 | . FAN, WITH COOLING DUCT | B | 1
| 7 | QZ24-3120-2 | BELT, DRIVE | | 1
| 8 | QZ24-3112-3 | ARM, ADJUSTING, POST SB QZ62-24-0102, SUPSDS QZ24-3112-1 | | 1
| -8A | QZ24-3112-1 | ARM, ADJUSTING, PRE SB QZ62-24-0102 | | 1
"""

SELECTOR = """
| 1 | QZ28-2201-1 | HANDLE, FUEL SELECTOR, LEFT ENGINE | A | 1
| 1A | QZ28-2201-2 | HANDLE, FUEL SELECTOR, RIGHT ENGINE | B | 1
| 2 | QZ28-2210-1 | VALVE ASSEMBLY, FUEL SELECTOR | | 1
|  |  | ATTACHING PARTS | |
| -3 | AN4-7A | BOLT | | 3
|  |  | ---*--- | |
| 4 | QZ28-2211-1 | . BODY (NP, ORDER QZ28-2210-1) | | 1
| 5 | QZ28-2212-1 | . ROTOR AND SHAFT | | 1
| 6 | QZ28-2213-2 | . . SEAL, NYLON | | 4
| 7 | QZ28-2214-1 | . BALL, DETENT | | 1
| 8 | QZ28-2215-1 | . SPRING, DETENT | | 1
| -9 | QZ28-2220-1 | STRAINER ASSEMBLY | | 1
| -10 | QZ28-2221-1 | . GASKET, BOWL | | 1
"""

PITOT = """
| 1 | QZ30-3101-3 | MAST ASSEMBLY, PITOT, HEATED, LEFT WING | | 1
| 2 | QZ30-3101-4 | MAST ASSEMBLY, PITOT, HEATED, RIGHT WING (QZ62S) | S | 1
|  |  | ATTACHING PARTS | |
| -3 | MS27039-1-08 | SCREW | | 4
|  |  | ---*--- | |
| 4 | QZ30-3105-1 | . CONNECTOR, HEATER | | 1
| 5 | QZ30-3110-1 | SENSOR, HEATER CURRENT | | 1
"""

LATCH = """
| -1 | QZ52-1120-1 | LATCH ASSEMBLY, CABIN DOOR, PRE SB QZ62-52-0093 | A | 1
| -1A | QZ52-1120-5 | LATCH ASSEMBLY, CABIN DOOR, POST SB QZ62-52-0093 | B | 1
|  |  | ATTACHING PARTS | |
| -2 | MS27039-1-10 | SCREW | | 4
|  |  | ---*--- | |
| 3 | QZ52-1121-1 | . PIN, LATCH, UPPER | A | 1
| 3A | QZ52-1121-3 | . PIN, LATCH, UPPER, LONG | B | 1
| 4 | QZ52-1122-1 | . PIN, LATCH, AFT | | 1
| 5 | QZ52-1123-1 | . PIN, LATCH, LOWER | | 1
| 6 | QZ52-1130-1 | . CAM AND SHAFT | | 1
| 7 | MS16562-33 | . . PIN, ROLL, HANDLE | | 1
| 8 | QZ52-1140-1 | HANDLE, INSIDE | | 1
| 9 | QZ52-1151-1 | PLATE, STRIKER, UPPER | | 1
"""

FIGURES = (
    PartsFigure(
        "24-31-00",
        "Figure 1",
        "Alternator Installation",
        "alternator 1 7 REF 8 2 3",
        "Jul 10/2028",
        True,
        ALTERNATOR,
    ),
    PartsFigure(
        "28-22-00",
        "Figure 1",
        "Fuel Selector Valve",
        "selector 1 4 5 6 7 4 4 4",
        "Jul 10/2028",
        False,
        SELECTOR,
    ),
    PartsFigure("30-31-00", "Figure 1", "Pitot Mast", "pitot 1 1 1 1 1 4 REF", "Jan 20/2031", True, PITOT),
    PartsFigure("32-21-00", "Figure 1", "Shimmy Damper", "shimmy 6 7 4 10 3 9", "Jul 10/2028", False, SHIMMY),
    PartsFigure("32-41-00", "Figure 1", "Main Wheel", "wheel 3 2 1 4 4 6 5", "Jul 10/2028", True, WHEEL),
    PartsFigure(
        "32-42-00", "Figure 1", "Brake Assembly", "brake 17 5 6 10 11 13 15", "Jan 20/2031", True, BRAKE
    ),
    PartsFigure(
        "52-11-00", "Figure 1", "Cabin Door Latch", "door REF 3 4 5 8 9 REF", "Jan 20/2031", False, LATCH
    ),
)
