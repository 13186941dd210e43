"""Service bulletin QZ62-32-0114, brake tie bolts: Rev B (named by a directive) and the later Rev C."""

import datetime
from dataclasses import replace

from sample_docs.draw.book import Topic
from sample_docs.draw.bulletins import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_BULLETIN

REV_B = PublicationFacts(
    file="sb-qz62-32-0114-rev-b.pdf",
    type="service-bulletin",
    number="QZ62-32-0114",
    title="Landing Gear - Brakes - Replacement of Brake Tie Bolts",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="B",
    date=datetime.date(2031, 2, 20),
)
REV_C = replace(REV_B, file="sb-qz62-32-0114-rev-c.pdf", revision="C", date=datetime.date(2031, 10, 6))

HEAD = """
!ruled [2 2]
| Service Bulletin No. QZ62-32-0114 | Revision {revision}
| Original issue: September 2, 2030 | Revision {revision}: {date}

== LANDING GEAR - BRAKES - REPLACEMENT OF BRAKE TIE BOLTS

!centre ATA Chapter 32
"""

PLANNING = """
# 1. PLANNING INFORMATION

A. Effectivity

(1) QZ62 airplanes, serial numbers QZ-001 through QZ-188, except QZ-151.

(2) QZ62S airplanes, serial numbers QZS-001 through QZS-034.

(3) Brake assemblies QZ32-4410-1 and QZ32-4410-3 held as spares.

B. Concurrent Requirements

(1) None.

C. Reason

(1) Four operators have found a tie bolt of the brake assembly broken under the head. The laboratory found
hydrogen
embrittlement from the plating process in bolts, part number QZ32-4421-3, of lots made before June 2029.
When one tie
bolt breaks, the back plate tilts and the linings wear in a wedge. When two break, the back plate can turn
with the
disc, cut the brake hose and take away all braking on that side.

D. Description

(1) Part 1 gives a repeated inspection of the tie bolts. Part 2 gives the replacement of all four tie bolts
of each
brake assembly, which ends the repeated inspection.

E. Compliance

(1) Part 1: within 25 hours time in service or 30 landings after receipt of this bulletin, whichever occurs
first, and
then at intervals of 50 landings until Part 2 is done.

(2) Part 2: within 100 hours time in service or at the next lining replacement, whichever occurs first. The
maker
classes Part 2 as MANDATORY.

F. Approval

(1) The technical content of this service bulletin is FAA approved.

G. Manpower

(1) Part 1: 0.5 hour for each airplane. Part 2: 3.0 hours for each airplane.

H. Weight and Balance

(1) No change.

I. Electrical Load Data

(1) No change.

J. References

(1) Maintenance Manual QZM-62-2, 32-42-00, Page 201 and Page 401.

(2) Illustrated Parts Catalog QZM-62-4, 32-42-00, Figure 1.

# 2. MATERIAL INFORMATION

A. Material necessary for each airplane:

!ruled [3 1 4 3]
| New part number | Qty | Name | Replaces
{materials}

B. Order kits from the maker's spares office at Northlake. Bolts of the old part number are to be cut in two
and
returned: the maker gives credit for them until December 31, 2031.
"""

MATERIALS_B = """| QZ32-4421-5 | 8 | Tie bolt, brake, vacuum-melted steel | QZ32-4421-3
| QZ32-4423-1 | 8 | Washer, hardened | QZ32-4422-1
| MS20995C32 | A/R | Lockwire | -"""

MATERIALS_C = MATERIALS_B.replace(
    "| QZ32-4423-1",
    "| QZ32-4421-7 | 8 | Tie bolt, brake, dry-film coated (alternative) | QZ32-4421-3 or -5\n| QZ32-4423-1",
)

INSTRUCTIONS = """
# 3. ACCOMPLISHMENT INSTRUCTIONS

# PART 1 - REPEATED INSPECTION OF THE TIE BOLTS

A. Chock the nose wheel and release the parking brake.

B. Wipe the heads of the four tie bolts of each brake assembly clean. Use a mirror and a light to look at
each head.

C. Push on the edge of the back plate with a force of 20 pounds. The back plate must not move away from the
cylinder
housing.

D. If a bolt head is missing, if a head can be turned with the fingers, or if the back plate moves, do Part
2 before
further flight.

E. Write the number of landings in the airplane records with the result of the inspection.

# PART 2 - REPLACEMENT OF THE TIE BOLTS

WARNING: THE PARTS OF A BRAKE THAT WAS USED IN THE LAST HOUR CAN BE HOT ENOUGH TO BURN YOU. LET THE BRAKE
COOL BEFORE YOU
TOUCH IT.

A. Remove the back plate as given in Maintenance Manual QZM-62-2, 32-42-00, Page 401, steps 2.A.(1) through
(4).

B. Discard all four tie bolts, QZ32-4421-3, and their washers, even when they look good.

C. Examine the holes of the cylinder housing and of the back plate for cracks with dye penetrant. A crack is
cause for
replacement of the part.

!figure brake | Figure 1. Place of the tie bolts: 1 disc, 2 cylinder housing, 3 piston, 4 pressure plate, 5
lining,
6 back plate, 7 tie bolt (four)

D. Put one new washer, QZ32-4423-1, under each bolt head with the chamfer toward the head.

{torque}

F. Lockwire the bolts in pairs so that the wire pulls in the direction of tightening.

G. Bleed the brake only if the hose was disconnected. Do the operational check of 32-42-00, Page 201,
paragraph 2.

H. Write "SB QZ62-32-0114 Part 2" on the identification plate of the brake assembly with a vibrating pencil.

I. Make an entry in the airplane records. State the revision of this bulletin that was used.
"""

TORQUE_B = """E. Install four new tie bolts, QZ32-4421-5. Torque them in a diagonal sequence to 92 to 98
inch-pounds."""

TORQUE_C = """^ E. Install four new tie bolts of one and the same part number. Torque them in a diagonal
sequence, in two passes:
QZ32-4421-5 (gold) to 92 to 98 inch-pounds, or QZ32-4421-7 (grey, coated) to 70 to 75 inch-pounds."""

CHANGES_C = """
^ Summary of Revision C: adds the coated tie bolt QZ32-4421-7 as an alternative and its torque. Airplanes on
which Part 2
was done with the original issue, Revision A or Revision B need no more work.
"""


def _topics(
    publication: PublicationFacts, changes: str, materials: str, torque: str, directive: str
) -> list[Topic]:
    date = form.long_date(publication)
    text = (
        HEAD.format(revision=publication.revision, date=date) + changes + PLANNING.format(materials=materials)
    )
    part_1, part_2 = INSTRUCTIONS.format(torque=torque).split("# PART 2", 1)
    return form.topics(
        publication,
        [
            (text + part_1, {"directive": directive and f"incorporated by {directive}"}),
            ("# PART 2" + part_2, {"directive": directive and f"required by {directive}"}),
        ],
        TWIN_BULLETIN,
        number="32",
        data_standing="approved",
        note="Approval paragraph: technical content is FAA approved",
    )


def revision_b() -> list[Topic]:
    return _topics(REV_B, "", MATERIALS_B, TORQUE_B, "2031-07-11")


def revision_c() -> list[Topic]:
    return _topics(REV_C, CHANGES_C, MATERIALS_C, TORQUE_C, "")
