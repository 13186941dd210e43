"""Service bulletin QZ62-24-0102: printed MANDATORY, no directive behind it, approval not applicable."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.bulletins import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_BULLETIN

BULLETIN = PublicationFacts(
    file="sb-qz62-24-0102.pdf",
    type="service-bulletin",
    number="QZ62-24-0102",
    title="Electrical Power - Alternator - Inspection of the Adjusting Arm and Drive Belt",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="original",
    date=datetime.date(2030, 8, 19),
)

TEXT = """
!big MANDATORY

!ruled [2 2]
| Service Bulletin No. QZ62-24-0102 | Original issue
| Subject: alternator adjusting arm and drive belt | Date: August 19, 2030

== ELECTRICAL POWER - ALTERNATOR - INSPECTION OF THE ADJUSTING ARM AND DRIVE BELT

!centre ATA Chapter 24

# 1. PLANNING INFORMATION

A. Effectivity

(1) QZ62 airplanes, serial numbers QZ-001 through QZ-162.

(2) QZ62S airplanes, serial numbers QZS-001 and on, that have the 120-ampere alternator, QZ24-3101-5,
installed.

B. Reason

(1) The adjusting arm, QZ24-3112-1, can crack at the end of its slot. The alternator then moves toward the
engine, the
drive belt comes off, and the belt can cut the wires of the propeller governor. Seven arms were found
cracked at
inspections. There was no loss of an airplane.

C. Description

(1) This bulletin gives an inspection of the adjusting arm and of the drive belt of both alternators, and
the replacement
of a cracked arm by the thicker arm, QZ24-3112-3.

D. Compliance

(1) MANDATORY. Aldermoor Aircraft Corporation considers this bulletin mandatory. Do the inspection within 50
hours time in
service after receipt, and at each 100 hours after that.

(2) The installation of the arm QZ24-3112-3 ends the inspections.

E. Approval

(1) Not applicable. The new arm has the same form and fit, and this bulletin does not change the type design.

F. Manpower

(1) Inspection: 1.0 hour for both engines. Replacement: 1.5 hours for each engine.

G. References

(1) Maintenance Manual QZM-62-2, 24-31-00, Page 401 and Page 501.

# 2. MATERIAL INFORMATION

!ruled [3 1 4 3]
| New part number | Qty | Name | Replaces
| QZ24-3112-3 | 2 | Arm, adjusting | QZ24-3112-1
| QZ24-3120-2 | 2 | Belt, drive | QZ24-3120-1

# 3. ACCOMPLISHMENT INSTRUCTIONS

A. Disconnect the battery and remove the upper cowlings.

B. Clean the adjusting arm with solvent. Examine the end of the slot on both faces with a 10-power glass. If
you are not
sure, do a dye penetrant inspection.

!figure alternator | Figure 1. Place of the crack: 1 alternator, 2 drive belt, 3 engine pulley, 4 adjusting
arm (crack at
the end of the slot), 5 pivot bolt, 6 adjusting bolt

C. If there is a crack, replace the arm before further flight. If there is no crack, measure the slip torque
of the belt:
11 to 13 foot-pounds for a used belt, 13 to 15 for a new one.

WARNING: TURN THE PROPELLER BY HAND ONLY WITH BOTH MAGNETOS OFF AND THE MIXTURE AT CUT-OFF. STAY OUT OF THE
ARC.

D. Examine the belt over its full length while a second person turns the propeller. Replace a belt that has
cracks, frayed
cords or glazed sides.

E. To replace the arm, remove the adjusting bolt and the bolt at the engine boss. Install the new arm and
torque the boss
bolt to 190 to 210 inch-pounds and the adjusting bolt to 110 to 125 inch-pounds. Lockwire both.

F. Install the cowlings, connect the battery, and make an entry in the airplane records.
"""


def topics() -> list[Topic]:
    return form.topics(
        BULLETIN,
        [(TEXT, {})],
        TWIN_BULLETIN,
        number="24",
        data_standing="acceptable",
        note="printed MANDATORY; Approval: Not applicable (acceptable at most); no directive names it",
    )
