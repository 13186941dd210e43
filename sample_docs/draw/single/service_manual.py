"""The 1950s single's service manual: its own order of sections, no chapter numbers anywhere."""

import datetime

from sample_docs.draw.book import CONTINUES, Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_SINGLE, SINGLE, SINGLE_B
from sample_docs.draw.looks_of import TYPEWRITER
from sample_docs.draw.single import sections_1_5, sections_6_17

MANUAL = PublicationFacts(
    file="h-14-service-manual.pdf",
    type="service-manual",
    number="",
    title="Service Manual",
    maker=MAKER_SINGLE,
    models=(SINGLE, SINGLE_B),
    revision="",
    date=datetime.date(1958, 11, 1),
)

TITLE = """
!gap 90

!big SERVICE MANUAL

!gap 14

!centre for the

!big HEDGELING

!centre Models H-14 and H-14B

!gap 40

!centre Issued March 1, 1954

!centre Revised November 1, 1958

!gap 110

!centre PELLWORTH AEROPLANE COMPANY

!centre Engineering Department
"""

CONTENTS = """
== CONTENTS

!plain [2 6 1]
| Section | Subject | Page
| I | General description | 3
| II | Ground handling, servicing and inspection | 4
| III | Fuselage and cabin | 6
| V | Landing gear, wheels and brakes | 7
| VI | Elevator and trim controls | 10
| XII | Engine and mount | 11
| XIII | Fuel system | 12
| XIV | Propeller | 14
| XVII | Electrical system, Model H-14B | 15

Section IV (Wings and empennage), Sections VII to XI (other controls) and Sections XV and XVI are in Volume
2, sold
separately.
"""

# Page by page the chapters that a person would file the page under; a servicing page also under the systems
# that are serviced on it.
SECTIONS = (
    ("Section I", ("00;06;08",), sections_1_5.GENERAL),
    ("Section II", ("12;05;07;09;10;28;32;79", "05;12;07;08;10;57"), sections_1_5.SERVICING),
    ("Section III", ("25;52;53;56",), sections_1_5.FUSELAGE),
    ("Section V", ("32", "32", "32"), sections_1_5.GEAR),
    ("Section VI", ("27",), sections_6_17.CONTROLS),
    ("Section XII", ("71;78",), sections_6_17.ENGINE),
    ("Section XIII", ("28", "28"), sections_6_17.FUEL),
    ("Section XIV", ("61",), sections_6_17.PROPELLER),
    ("Section XVII", ("24;30",), sections_6_17.ELECTRICAL),
)


def topics() -> list[Topic]:
    front = (("Title page", TITLE, "1"), ("Contents", CONTENTS, CONTINUES))
    made = [Topic(_facts(page, "", "", title), text, TYPEWRITER) for title, text, page in front]
    for section, chapters, text in SECTIONS:
        facts = _facts(CONTINUES, section, chapters[0], "own order")
        later = tuple((place, {"filed_under": under}) for place, under in enumerate(chapters) if place)
        made.append(Topic(facts, text, TYPEWRITER, later_pages=later))
    return made


def _facts(printed_page: str, section: str, filed_under: str, note: str) -> PageFacts:
    return PageFacts(
        MANUAL,
        printed_page=printed_page,
        number=section.removeprefix("Section "),
        scheme="OWN" if section else "",
        page_date=section,
        filed_under=filed_under,
        note=note,
    )
