"""The twin's structural repair manual: approval page, covered chapters, and pages outside the approval."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_MANUAL
from sample_docs.draw.twin_books.repair_chapters import (
    ALLOWABLE_51,
    CAMERA_HATCH,
    DOOR_SKIN,
    GENERAL_51,
    SKIN_DAMAGE,
    SKIN_IDENTITY,
    SKIN_REPAIR,
    STRINGER_REPAIR,
    WING_DAMAGE,
    WING_REPAIR,
)

REPAIR_MANUAL = PublicationFacts(
    file="qz62-structural-repair-manual.pdf",
    type="structural-repair-manual",
    number="QZM-62-3",
    title="Structural Repair Manual",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="2",
    date=datetime.date(2030, 5, 17),
)

TITLE = """
!gap 90

!big STRUCTURAL REPAIR MANUAL

!gap 20

!centre **QZ62 OUZEL** and **QZ62S OUZEL SURVEY**

!gap 30

!centre Manual number **QZM-62-3**

!centre Original issue: August 22, 2028

!centre **Revision 2: May 17, 2030**

!gap 150

!centre Aldermoor Aircraft Corporation

!centre Publications, Hangar Row, Northlake
"""

APPROVAL = """
== APPROVAL PAGE

A. The repairs and the allowable damage limits on the pages of this manual that are listed below are

!gap 6

!big FAA APPROVED

!gap 6

!ruled Structural Repair Manual QZM-62-3, Revision 2 [3 4 3]
| Chapter | Pages | Date of approval
| 51 | All pages | May 17/2030
| 53 | All pages of 53-10-00 and 53-20-00 | May 17/2030
| 57 | All pages | May 17/2030

!gap 14

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office, Federal Aviation
Administration |
May 17, 2030

!gap 14

B. A page that is not in this list is outside this approval. Such a page says so at its top.

C. The approval is for damage inside the printed limits, on structure that has not been repaired before. For
other damage
ask the maker.
"""

COVERED = "covered by the approval page (AP-1), which lists this chapter"

PAGES = (
    ("51-00-00", "1", "General repair practices", "Identification", "May 17/2030", GENERAL_51, True, ""),
    (
        "51-10-00",
        "101",
        "Allowable damage, general",
        "Allowable damage",
        "May 17/2030",
        ALLOWABLE_51,
        True,
        "",
    ),
    (
        "52-10-00",
        "201",
        "Cabin door skin",
        "Repairs",
        "Aug 22/2028",
        DOOR_SKIN,
        False,
        "not in the approval list",
    ),
    ("53-10-00", "1", "Fuselage skin", "Identification", "Aug 22/2028", SKIN_IDENTITY, True, ""),
    ("53-10-00", "101", "Fuselage skin", "Allowable damage", "Aug 22/2028", SKIN_DAMAGE, True, ""),
    ("53-10-00", "201", "Fuselage skin", "Repairs", "May 17/2030", SKIN_REPAIR, True, ""),
    ("53-20-00", "201", "Stringers", "Repairs", "May 17/2030", STRINGER_REPAIR, True, ""),
    (
        "53-60-00",
        "201",
        "Camera hatch frame",
        "Repairs",
        "May 17/2030",
        CAMERA_HATCH,
        False,
        "says that it is not FAA approved and that approval is pending",
    ),
    ("57-10-00", "101", "Wing leading edge", "Allowable damage", "Aug 22/2028", WING_DAMAGE, True, ""),
    ("57-10-00", "201", "Wing leading edge", "Repairs", "May 17/2030", WING_REPAIR, True, ""),
)


def topics() -> list[Topic]:
    date = "May 17/2030"
    approved = {"data_standing": "approved", "note": "the approval page itself"}
    made = [
        Topic(PageFacts(REPAIR_MANUAL, "T-1", page_date=date), TITLE, TWIN_MANUAL, (1, "Title page")),
        Topic(
            PageFacts(REPAIR_MANUAL, "AP-1", page_date=date, **approved),
            APPROVAL,
            TWIN_MANUAL,
            (1, "Approval page"),
        ),
    ]
    for number, start, title, block, page_date, text, covered, note in PAGES:
        facts = PageFacts(
            REPAIR_MANUAL,
            printed_page=start,
            number=number,
            scheme="ATA",
            page_block=block,
            page_date=page_date,
            title=title,
            effectivity="QZS-001 AND ON" if number == "53-60-00" else "ALL",
            data_standing="approved" if covered else "undetermined",
            note=COVERED if covered else note,
        )
        made.append(Topic(facts, text, TWIN_MANUAL, (1, f"{number} {title} - {block}")))
    return made
