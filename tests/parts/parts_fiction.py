"""What the drawn parts lists say: invented figures of invented aircraft, row by row. This is the truth.

A row: item | part number | nomenclature | usage codes | units | airline stock number. The dots before a name
are its indenture. What stands in braces is printed and does not name the part: notes, supplier codes. A row
of one word is a mark: ATTACHING begins the attaching parts of the row above, END ends them. Common forms of
the trade (iSpec 2200 lists and older makers' lists), no source; AN, MS and NAS numbers have the form of such
standards.
"""

from dataclasses import dataclass

MARKS = ("ATTACHING", "END")


@dataclass(frozen=True)
class FigureText:
    """One figure. number: its chapter-section-subject."""

    number: str
    figure: str
    title: str
    rows: str


FUEL_SELECTOR = FigureText(
    "28-22-00",
    "1",
    "Fuel Selector Valve Installation",
    """
1 | KT28-1400-1 | VALVE INSTALLATION, FUEL SELECTOR{ (SEE 28-20-00-01 FOR NHA)} | | REF | 28-110-4471
2 | KT28-1401-3 | .VALVE ASSEMBLY, FUEL SELECTOR{ V7K2Q4} | A | 1 | 28-110-4472
2A | KT28-1401-5 | .VALVE ASSEMBLY, FUEL SELECTOR{ V7K2Q4} | B | 1 | 28-110-4473
ATTACHING
-3 | AN3-5A | .BOLT | | 4 | 53-001-0305
-4 | AN960-10L | .WASHER | | 8 | 53-001-9602
-5 | MS21042-3 | .NUT, SELF-LOCKING | | 4 | 53-001-2142
END
6 | KT28-1402-1 | ..BODY, VALVE | | 1 | 28-110-4474
7 | KT28-1403-1 | ..ROTOR, SELECTOR | | 1 | 28-110-4475
8 | MS29513-110 | ..PACKING, PREFORMED | | 3 | 53-004-0110
-9 | KT28-1404-7 | ..SPRING, DETENT | | 1 | 28-110-4476
10 | KT28-1405-1 | ..BALL, DETENT | | 1 | 28-110-4477
11 | KT28-1406-1 | ..COVER, VALVE, WITH PLACARD AND LOCKING TAB FOR THE OFF POSITION | | 1 | 28-110-4478
ATTACHING
-12 | MS24693S28 | ..SCREW, COUNTERSUNK | | 6 | 53-002-4693
END
13 | KT28-1410-1 | .HANDLE, FUEL SELECTOR{, SUPSD BY KT28-1410-3} | | 1 | 28-110-4480
13A | KT28-1410-3 | .HANDLE, FUEL SELECTOR{, SUPSDS KT28-1410-1} | | 1 | 28-110-4481
-14 | MS16562-35 | .PIN, SPRING | | 1 | 53-006-1635
15 | KT28-1422-9 | .SHAFT ASSEMBLY, TORQUE, SELECTOR TO COCKPIT PEDESTAL, UPPER | A,B | 1 | 28-110-4490
16 | KT28-1423-1 | ..JOINT, UNIVERSAL | | 2 | 28-110-4491
-17 | AN415-3 | ..PIN, LOCK | | 2 | 53-006-0415
18 | KT28-1430-1 | .PLACARD, FUEL SELECTOR | C | 1 | 28-110-4499
""",
)

MAIN_WHEEL = FigureText(
    "32-41-00",
    "2",
    "Main Wheel and Tire",
    """
-1 | 51-2040-2 | WHEEL ASSEMBLY, MAIN, 6.00-6{ V3R8N1} | | 2 | 32-400-2040
2 | 51-2041-1 | .HALF ASSEMBLY, OUTER | | 1 | 32-400-2041
3 | 51-2042-1 | ..CUP, BEARING | | 1 | 32-400-2042
4 | 51-2043-1 | .HALF ASSEMBLY, INNER | | 1 | 32-400-2043
5 | 51-2042-1 | ..CUP, BEARING | | 1 | 32-400-2042
6 | 51-2044-3 | ..INSERT, DRIVE KEY | A | 6 | 32-400-2044
6A | 51-2044-5 | ..INSERT, DRIVE KEY{, POST SB KT-32-0011} | B | 6 | 32-400-2045
7 | 51-2045-1 | .CONE, BEARING | | 2 | 32-400-2046
8 | 51-2046-2 | .SEAL, GREASE, FELT | | 2 | 32-400-2047
9 | 51-2047-1 | .RING, GREASE SEAL, RETAINING | | 4 | 32-400-2048
10 | AN5-20A | .BOLT, TIE | | 6 | 53-001-0520
11 | NAS1149F0563P | .WASHER | | 12 | 53-001-1149
12 | MS21044N5 | .NUT, SELF-LOCKING | | 6 | 53-001-2144
-13 | 51-2050-6 | TIRE, 6.00-6, 6 PLY | | 2 | 32-400-2050
-14 | 51-2051-6 | TUBE, 6.00-6 | | 2 | 32-400-2051
15 | 51-2060-1 | DISC, BRAKE{ (SEE 32-42-00-03 FOR DETAILS)} | | REF | 32-400-2060
-16 | MIL-G-81322 | GREASE, WHEEL BEARING | | A/R | 38-000-1322
""",
)

BRAKE = FigureText(
    "32-42-00",
    "3",
    "Brake Assembly",
    """
1 | 51-3100-1 | BRAKE ASSEMBLY, LEFT{ V3R8N1} | A | 1 | 32-420-3100
1A | 51-3100-2 | BRAKE ASSEMBLY, RIGHT{ V3R8N1} | B | 1 | 32-420-3101
ATTACHING
-2 | AN4-12A | BOLT | | 4 | 53-001-0412
-3 | AN960-416 | WASHER | | 4 | 53-001-9604
END
4 | 51-3101-1 | .CYLINDER ASSEMBLY, BRAKE | | 1 | 32-420-3102
5 | 51-3102-1 | ..BODY, CYLINDER{ (NP)} | | 1 | 32-420-3103
6 | 51-3103-5 | ..PISTON | | 2 | 32-420-3104
7 | MS28775-222 | ..PACKING, PREFORMED | | 2 | 53-004-0222
8 | 51-3104-1 | ..FITTING, INLET | | 1 | 32-420-3105
9 | 51-3105-1 | ..SEAT, BLEEDER | | 1 | 32-420-3106
10 | 51-3106-1 | ...SCREW, BLEEDER | | 1 | 32-420-3107
-11 | 51-3107-1 | ...CAP, DUST | | 1 | 32-420-3108
12 | 51-3110-1 | .PLATE ASSEMBLY, PRESSURE | | 1 | 32-420-3110
13 | 51-3111-4 | ..LINING, BRAKE, ORGANIC | | 2 | 32-420-3111
13A | 51-3111-6 | ..LINING, BRAKE, METALLIC{ (OPT TO 51-3111-4)} | | 2 | 32-420-3112
-14 | 51-3112-1 | ..RIVET, LINING | | 4 | 32-420-3113
15 | 51-3115-1 | .PLATE, BACKING | | 2 | 32-420-3115
16 | 51-3120-1 | .PLATE, TORQUE | | 1 | 32-420-3120
17 | 51-3121-1 | .BOLT, ANCHOR | | 2 | 32-420-3121
-18 | 51-3122-1 | .SHIM | | A/R | 32-420-3122
19 | MS20995C32 | .LOCKWIRE | | AR | 53-009-2032
""",
)

ALTERNATOR = FigureText(
    "24-31-00",
    "1",
    "Alternator Installation",
    """
1 | KT24-0101-1 | ALTERNATOR, 60 AMPERE{ V9D4S2} | A | 1 | 24-310-0101
1A | KT24-0101-2 | ALTERNATOR, 100 AMPERE{ V9D4S2} | B | 1 | 24-310-0102
ATTACHING
2 | AN5-44A | BOLT, PIVOT | | 1 | 53-001-0544
3 | AN960-516 | WASHER | | 2 | 53-001-9605
-4 | MS20995C41 | LOCKWIRE | | AR | 53-009-2041
END
5 | KT24-0110-1 | .PULLEY, ALTERNATOR | | 1 | 24-310-0110
6 | KT24-0111-1 | .FAN, ALTERNATOR COOLING | | 1 | 24-310-0111
-7 | KT24-0112-1 | .BRUSH AND SPRING SET | | 1 | 24-310-0112
8 | KT24-0120-5 | BELT, ALTERNATOR DRIVE | | 1 | 24-310-0120
9 | KT24-0130-1 | ARM, ADJUSTING{, PRE SB KT-24-0003} | A | 1 | 24-310-0130
9A | KT24-0130-3 | ARM, ADJUSTING{, POST SB KT-24-0003} | A,B | 1 | 24-310-0131
ATTACHING
-10 | AN4-6A | BOLT | | 1 | 53-001-0406
END
11 | KT24-0140-1 | BRACKET, ALTERNATOR MOUNT | | 1 | 24-310-0140
-12 | KT24-0150-1 | SHIELD, HEAT | | 1 | 24-310-0150
""",
)

PITOT = FigureText(
    "34-11-00",
    "4",
    "Pitot Tube and Lines",
    """
1 | KT34-1001-1 | MAST ASSEMBLY, PITOT | | 1 | 34-110-1001
2 | KT34-1002-1 | .TUBE, PITOT, HEATED, 28 VOLT{ V1M6T9} | A | 1 | 34-110-1002
2A | KT34-1002-3 | .TUBE, PITOT, UNHEATED | B | 1 | 34-110-1003
3 | KT34-1003-1 | .MAST | | 1 | 34-110-1004
-4 | KT34-1004-1 | .GASKET | | 1 | 34-110-1005
ATTACHING
5 | MS27039-1-09 | SCREW | | 4 | 53-002-1109
-6 | NAS1149FN832P | WASHER | | 4 | 53-001-0832
END
7 | KT34-1010-2 | LINE ASSEMBLY, PITOT PRESSURE, WING ROOT TO INSTRUMENT PANEL | | 1 | 34-110-1010
8 | AN818-4D | .NUT, COUPLING | | 2 | 53-005-0818
9 | MS20819-4D | .SLEEVE | | 2 | 53-005-0819
10 | KT34-1015-1 | VALVE, DRAIN | | 2 | 34-110-1015
-11 | KT34-1016-1 | PLACARD, PITOT DRAIN | | 2 | 34-110-1016
""",
)

DOOR = FigureText(
    "52-11-00",
    "5",
    "Cabin Door",
    """
-1 | KT52-2000-1 | DOOR ASSEMBLY, CABIN, LEFT | | 1 | 52-110-2000
-1A | KT52-2000-2 | DOOR ASSEMBLY, CABIN, RIGHT | | 1 | 52-110-2001
2 | KT52-2010-1 | .HINGE, UPPER | | 1 | 52-110-2010
3 | KT52-2011-1 | .HINGE, LOWER | | 1 | 52-110-2011
ATTACHING
4 | AN23-17 | .BOLT, CLEVIS | | 2 | 53-001-2317
5 | AN320-3 | .NUT, CASTLE | | 2 | 53-001-0320
-6 | MS24665-134 | .PIN, COTTER | | 2 | 53-006-4665
END
7 | KT52-2020-1 | .LATCH ASSEMBLY | A | 1 | 52-110-2020
7A | KT52-2020-3 | .LATCH ASSEMBLY{ (REPLS KT52-2020-1)} | B | 1 | 52-110-2021
8 | KT52-2021-1 | ..BOLT, LATCH | | 1 | 52-110-2022
9 | KT52-2022-1 | ..SPRING, LATCH BOLT | | 2 | 52-110-2023
10 | KT52-2023-1 | ..HANDLE, INSIDE | | 1 | 52-110-2024
-11 | KT52-2024-1 | ...ESCUTCHEON | | 1 | 52-110-2025
12 | KT52-2025-1 | ..HANDLE, OUTSIDE | | 1 | 52-110-2026
13 | KT52-2030-11 | .SEAL, DOOR | | 1 | 52-110-2030
14 | KT52-2040-1 | .WINDOW, DOOR{ (SEE 56-20-00-01 FOR DETAILS)} | | REF | 52-110-2040
15 | KT52-2050-1 | .STOP, DOOR | C | 1 | 52-110-2050
""",
)

ELEVATOR = FigureText(
    "27-31-00",
    "6",
    "Elevator Control",
    """
1 | KT27-3100-1 | BELLCRANK ASSEMBLY, ELEVATOR, FORWARD | | 1 | 27-310-3100
2 | KT27-3101-1 | .BELLCRANK | | 1 | 27-310-3101
3 | KP6A | .BEARING | | 2 | 53-007-0006
4 | KT27-3110-3 | CABLE ASSEMBLY, ELEVATOR, UP | | 1 | 27-310-3110
5 | KT27-3110-5 | CABLE ASSEMBLY, ELEVATOR, DOWN | | 1 | 27-310-3111
6 | MS21251-B5S | .BARREL, TURNBUCKLE | | 1 | 53-008-1251
7 | MS21255-5LS | .EYE, TURNBUCKLE, LEFT-HAND THREAD | | 1 | 53-008-1255
-8 | MS21256-1 | .CLIP, LOCKING | | 2 | 53-008-1256
9 | KT27-3120-1 | PULLEY, CONTROL CABLE | | 4 | 27-310-3120
ATTACHING
10 | AN4-14A | BOLT | | 1 | 53-001-0414
-11 | AN960-416L | WASHER | | 2 | 53-001-9614
12 | MS21044N4 | NUT | | 1 | 53-001-2104
END
-13 | KT27-3125-1 | GUARD, CABLE | | 4 | 27-310-3125
14 | KT27-3130-1 | PUSHROD ASSEMBLY, ELEVATOR | | 1 | 27-310-3130
15 | KT27-3131-1 | .TUBE, PUSHROD | | 1 | 27-310-3131
16 | KT27-3132-2 | .END, ROD, ADJUSTABLE | | 2 | 27-310-3132
17 | AN316-5R | .NUT, CHECK | | 2 | 53-001-0316
18 | KT27-3140-1 | HORN, ELEVATOR | | 1 | 27-310-3140
""",
)

FIGURES = (FUEL_SELECTOR, MAIN_WHEEL, BRAKE, ALTERNATOR, PITOT, DOOR, ELEVATOR)

USAGE_NOTES = (
    ("A", "S/N KT-0001 THRU KT-0140"),
    ("B", "S/N KT-0141 AND ON"),
    ("C", "S/N KT-0200 THRU KT-0255, PRE SB KT-11-0002"),
)

# The typed list of an old single: model words in a column, names set in by two blanks and no dots.
OLD_TAIL = FigureText(
    "Group 7",
    "7-1",
    "Tail wheel and fork",
    """
1 | 7-1100 | Tail wheel assembly | | 1 |
2 | 7-1101 | .Wheel, rubber tired | | 1 |
3 | 7-1102 | ..Bushing, bronze | | 2 |
- | 7-1103 | ..Fitting, grease | H-14 | 1 |
4 | 7-1110 | .Fork, welded | H-14 | 1 |
4 | 7-1112 | .Fork, forged | H-14B | 1 |
5 | 7-1115 | .Axle | | 1 |
- | AN4-31 | .Bolt, axle | | 1 |
- | AN310-4 | .Nut, castle | | 1 |
6 | 7-1120 | Spring, leaf, main | | 1 |
7 | 7-1121 | Spring, leaf, second | | 1 |
8 | 7-1122 | Spring, leaf, third | H-14B | 1 |
9 | 7-1130 | Clamp assembly, spring | | 2 |
- | AN5-21 | .Bolt, clamp | | 4 |
10 | 7-1140 | Chain, steering | | 2 |
11 | 7-1141 | .Spring, chain tension | | 2 |
""",
)
OLD_CONTROLS = FigureText(
    "Group 9",
    "9-4",
    "Rudder pedals",
    """
1 | 9-4000 | Pedal assembly, left | | 2 |
2 | 9-4001 | Pedal assembly, right | | 2 |
3 | 9-4002 | .Pad, rubber | | 4 |
4 | 9-4010 | Torque tube assembly | | 1 |
5 | 9-4011 | .Bearing block | | 4 |
- | 9-4012 | ..Shim, brass | | A/R |
6 | 9-4020 | Spring, return | H-14 | 2 |
7 | 9-4021 | Cable, rudder, front | | 2 |
- | AN100-4 | .Thimble | | 4 |
8 | 9-4025 | Turnbuckle, long | H-14B | 2 |
""",
)
