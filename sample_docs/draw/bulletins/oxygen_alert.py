"""Alert service bulletin QZ62-35A0031: no Approval paragraph, and no directive names it."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.bulletins import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_BULLETIN

BULLETIN = PublicationFacts(
    file="asb-qz62-35a0031.pdf",
    type="service-bulletin",
    number="QZ62-35A0031",
    title="Oxygen - Filler Valve - Inspection for Contamination",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="original",
    date=datetime.date(2031, 9, 8),
)

TEXT = """
!ruled [2 2]
| ALERT Service Bulletin No. QZ62-35A0031 | Original issue
| | Date: September 8, 2031

== OXYGEN - FILLER VALVE - INSPECTION FOR CONTAMINATION

!centre ATA Chapter 35

# 1. PLANNING INFORMATION

A. Effectivity

(1) All QZ62 and QZ62S airplanes with the filler valve QZ35-1007-1 from a supplier lot marked 3106 to 3109.

B. Reason

(1) A supplier used a mineral oil to test filler valves. Oil in a filler valve can start a fire when the
cylinder is filled
fast. One supply cart hose burned in a hangar.

C. Compliance

(1) Before the next filling of the oxygen cylinder.

# 2. ACCOMPLISHMENT INSTRUCTIONS

WARNING: DO NOT OPEN THE SUPPLY CART OR THE CYLINDER VALVE DURING THIS INSPECTION. WEAR CLEAN COTTON GLOVES.

A. Open the access door on the left side of the tail cone and read the lot number on the body of the filler
valve.

B. If the lot number is not from 3106 to 3109, no more work is necessary.

C. If it is, put a red tag on the filler valve, close the shutoff valve of the cylinder, and let the
pressure out of the line
through one mask outlet.

D. Remove the filler valve and install a cap, AN929-5, on the line. Do not clean the valve: send it to the
maker.

E. Shine an ultraviolet lamp into the open end of the line. Oil shows as a blue or yellow glow. Replace the
line when there
is a glow.

F. Install a filler valve of another lot. Torque it to 110 to 120 inch-pounds. Do the leak check of
Maintenance Manual
QZM-62-2, 35-10-00, Page 601.
"""


def topics() -> list[Topic]:
    return form.topics(
        BULLETIN,
        [(TEXT, {})],
        TWIN_BULLETIN,
        number="35",
        note="alert bulletin; no Approval paragraph; no directive names it",
    )
