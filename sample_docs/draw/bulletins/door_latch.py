"""Cabin door latch: QZ62-52-0087, superseded by QZ62-52-0093 Revision A."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.bulletins import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_BULLETIN

OLD = PublicationFacts(
    file="sb-qz62-52-0087.pdf",
    type="service-bulletin",
    number="QZ62-52-0087",
    title="Doors - Cabin Door - Inspection of the Latch Pins",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="original",
    date=datetime.date(2029, 7, 11),
)
NEW = PublicationFacts(
    file="sb-qz62-52-0093-rev-a.pdf",
    type="service-bulletin",
    number="QZ62-52-0093",
    title="Doors - Cabin Door - Installation of the Long Upper Latch Pin",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="A",
    date=datetime.date(2031, 11, 14),
)

OLD_TEXT = """
!ruled [2 2]
| Service Bulletin No. QZ62-52-0087 | Original issue
| | Date: July 11, 2029

== DOORS - CABIN DOOR - INSPECTION OF THE LATCH PINS

!centre ATA Chapter 52

# 1. PLANNING INFORMATION

A. Effectivity

(1) QZ62 airplanes, serial numbers QZ-001 through QZ-140. QZ62S airplanes, serial numbers QZS-001 through
QZS-019.

B. Reason

(1) Two cabin doors came open at lift-off. The upper latch pin was in its plate by less than 0.25 inch.

C. Compliance

(1) RECOMMENDED: within 100 hours time in service, and at each annual inspection after that.

D. Manpower

(1) 1.5 hours for each airplane.

# 2. ACCOMPLISHMENT INSTRUCTIONS

A. Put a thin layer of clay on the upper, aft and lower striker plates. Close the door, turn the handle to
closed and open
it again.

B. Measure the engagement of each pin. The minimum is 0.30 inch for the upper and lower pins and 0.28 inch
for the aft pin.

C. If the engagement is less than the minimum, adjust the rod ends. If it cannot be adjusted, replace the
striker plate.

D. Examine the roll pin of the inside handle. Replace it when it can be moved by hand.

E. Make an entry in the airplane records with the three measured values.
"""

NEW_TEXT = """
!ruled [2 2]
| Service Bulletin No. QZ62-52-0093 | Revision A
| Original issue: September 30, 2031 | Revision A: November 14, 2031

== DOORS - CABIN DOOR - INSTALLATION OF THE LONG UPPER LATCH PIN

!centre ATA Chapter 52

!centre This bulletin supersedes Service Bulletin QZ62-52-0087, dated July 11, 2029.

# 1. PLANNING INFORMATION

A. Effectivity

(1) QZ62 airplanes, serial numbers QZ-001 through QZ-188. QZ62S airplanes, serial numbers QZS-001 through
QZS-034.

B. Reason

(1) The inspection of Service Bulletin QZ62-52-0087 did not find a worn cam. One door came open after the
inspection. The
long upper pin and a new cam keep the door closed when one rod is out of adjustment.

C. Description

(1) This bulletin replaces the latch assembly QZ52-1120-1 by QZ52-1120-5 and gives larger values of
engagement.

D. Compliance

(1) Within 100 hours time in service or six months after receipt, whichever occurs first.

E. Approval

(1) FAA approval has been obtained on technical data in this publication that affects type design.

F. Manpower

(1) 5.0 hours for each airplane.

G. Publications affected

(1) Maintenance Manual QZM-62-2, 52-11-00. Illustrated Parts Catalog QZM-62-4, 52-11-00.

# 2. MATERIAL INFORMATION

!ruled [3 1 4 3]
| New part number | Qty | Name | Replaces
| QZ52-1120-5 | 1 | Latch assembly, cabin door | QZ52-1120-1
| QZ52-1151-3 | 1 | Plate, striker, upper | QZ52-1151-1
| MS16562-33 | 1 | Pin, roll, handle | Same
"""

NEW_INSTRUCTIONS = """
# 3. ACCOMPLISHMENT INSTRUCTIONS

A. Remove the door upholstery and disconnect the three rods (Maintenance Manual, 52-11-00, Page 401).

B. Remove the latch assembly QZ52-1120-1 and install the latch assembly QZ52-1120-5 with four screws. Torque
the screws to
35 to 40 inch-pounds.

C. Replace the upper striker plate. Do not file the hole of the new plate.

!figure door | Figure 1. Cabin door: 1 door, 2 long upper latch pin, 3 aft latch pin, 4 lower latch pin, 5
inside handle, 6
new striker plate, 7 window with green mark

WARNING: DO NOT FLY WITH A DOOR WHOSE UPPER PIN IS IN ITS PLATE BY LESS THAN 0.50 INCH. THE DOOR CAN OPEN AT
LIFT-OFF AND
THE LOSS OF ATTENTION HAS KILLED CREWS.

D. Connect and adjust the rods. The engagement of the upper pin must be 0.50 to 0.62 inch, of the aft pin
0.38 to 0.50 inch,
and of the lower pin 0.42 to 0.55 inch.

E. Measure the force of the handle at its end: 20 to 28 pounds to go past center.

F. Move the green mark of the window to the new position of the pin.

G. Install the upholstery and make an entry in the airplane records. Discard the old latch assembly.
"""


def old() -> list[Topic]:
    return form.topics(
        OLD,
        [(OLD_TEXT, {})],
        TWIN_BULLETIN,
        number="52",
        directive="2029-22-08 required it; that directive is superseded by 2032-03-05",
        note="superseded by QZ62-52-0093; no Approval paragraph",
    )


def new() -> list[Topic]:
    return form.topics(
        NEW,
        [
            (NEW_TEXT, {"directive": "incorporated by 2032-03-05"}),
            (NEW_INSTRUCTIONS, {"directive": "required by 2032-03-05 (paragraphs 3.B through 3.D)"}),
        ],
        TWIN_BULLETIN,
        number="52",
        data_standing="approved",
        note="Approval paragraph: FAA approval has been obtained on technical data",
    )
