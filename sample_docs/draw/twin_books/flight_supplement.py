"""Flight manual supplement 4 of the survey twin: dated pages that say FAA APPROVED, and one that does not."""

import datetime

from sample_docs.draw.book import CONTINUES, Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import FLIGHT_SUPPLEMENT

SUPPLEMENT = PublicationFacts(
    file="qz62s-flight-manual-supplement-4.pdf",
    type="flight-manual-supplement",
    number="QZF-62-S4",
    title="Camera Hatch and Survey Oxygen",
    maker=MAKER_TWIN,
    models=(TWIN_SURVEY,),
    revision="1",
    date=datetime.date(2030, 4, 2),
)

TITLE = """
!gap 20

!centre Aldermoor Aircraft Corporation

!big AIRPLANE FLIGHT MANUAL SUPPLEMENT No. 4

!centre **Camera Hatch and Survey Oxygen**

!centre QZ62S Ouzel Survey, serial numbers QZS-001 and on

!centre Supplement number QZF-62-S4, Revision 1

!gap 12

This supplement must be in the airplane with the Airplane Flight Manual QZF-62 when the camera hatch, part
number
QZ53-6600-1, is installed. For limitations, procedures and performance that are not in this supplement, use
the
Airplane Flight Manual.

!gap 16

FAA APPROVED

!gap 16

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office | April 2, 2030
"""

LOG = """
== LOG OF REVISIONS

!ruled [2 2 4 3]
| Rev | Pages | Description | Date approved
| Original | All | First issue | Nov 15, 2028
| 1 | 3, 4 | Adds the limit for ice and pitot heat | Apr 2, 2030

!gap 12

Each approval in this log was made by the Northlake Aircraft Certification Office.
"""

LIMITATIONS = """
== SECTION 2 - LIMITATIONS

# Airspeed

Do not open the camera hatch above 130 knots. Maximum speed with the hatch open: 150 knots.

# Flight conditions

Do not open the hatch in icing conditions or in rain. Pitot heat of both masts must be on before the
airplane goes into
visible moisture below 5 degrees C.

# Oxygen

With the hatch open above 10,000 feet the camera operator must use oxygen from outlet 5 and must wear a
harness.

# Placard

On the hatch lever: OPEN BELOW 130 KNOTS - HARNESS ON.
"""

PROCEDURES = """
== SECTION 3 - EMERGENCY PROCEDURES

# Hatch does not close

1. Airspeed: 110 knots.

2. Flaps: 15 degrees. This changes the flow at the hatch.

3. Crank: turn by hand, 22 turns.

4. If it stays open, land as soon as practical. Use flaps 15 for the landing. Brake gently: the open hatch
shakes the tail
on the ground.

# Pitot heat light on in flight

1. PITOT HEAT switches: both on. Circuit breakers: check once.

2. Leave visible moisture. Compare the two airspeed indicators.

== SECTION 4 - NORMAL PROCEDURES

Before take-off: hatch closed and locked, green light on. Oxygen pressure 1,500 psi or more for a survey of
4 hours.
"""

DESCRIPTION = """
== SECTION 7 - DESCRIPTION

!small The maker gives this section for information. It is not part of the approved supplement.

The hatch is a sliding panel of 26 by 31 inches in the floor. A motor moves it in 9 seconds. A crank below
the camera
seat moves it when the motor fails. The frame is inspected at the intervals of Maintenance Manual chapter 04.

The second pitot mast, below the right wing, supplies the survey computer and the second airspeed indicator.
"""


def topics() -> list[Topic]:
    old, new = "Nov 15, 2028", "Apr 2, 2030"
    pages = (
        ("1", new, TITLE, "", "approved", "title page with the approval words, name and date"),
        (CONTINUES, new, LOG, "", "approved", "approval words in the foot"),
        (CONTINUES, new, LIMITATIONS, "11;25;30;35;52", "approved", "approval words in the foot"),
        (CONTINUES, new, PROCEDURES, "30;34;35;52", "approved", "approval words in the foot"),
        (
            CONTINUES,
            old,
            DESCRIPTION,
            "34;52",
            "undetermined",
            "no approval words; says that it is not part of the approved text",
        ),
    )
    return [
        Topic(
            PageFacts(
                SUPPLEMENT,
                printed_page=page,
                page_date=date,
                filed_under=chapters,
                data_standing=standing,
                note=note,
            ),
            text,
            FLIGHT_SUPPLEMENT,
        )
        for page, date, text, chapters, standing, note in pages
    ]
