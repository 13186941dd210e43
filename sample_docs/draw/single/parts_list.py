"""The 1950s single's parts list: groups of its own, typed columns without rules."""

import datetime

from sample_docs.draw.book import CONTINUES, Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_SINGLE, SINGLE, SINGLE_B
from sample_docs.draw.looks_of import TYPEWRITER

LIST = PublicationFacts(
    file="h-14-parts-list.pdf",
    type="parts-catalog",
    number="",
    title="Parts List",
    maker=MAKER_SINGLE,
    models=(SINGLE, SINGLE_B),
    revision="",
    date=datetime.date(1959, 2, 15),
)

TITLE = """
!gap 90

!big PARTS LIST

!gap 14

!centre for the

!big HEDGELING

!centre Models H-14 and H-14B

!gap 40

!centre February 15, 1959

!gap 40

!centre Give the serial number of the airplane and the part number with every order.

!gap 90

!centre PELLWORTH AEROPLANE COMPANY

!centre Parts Department
"""

BRAKE = """
== GROUP 5 - WHEELS AND BRAKES

!figure drum_brake 1 2 3 5 6 9 4 | Plate 5-2. Wheel brake

!plain [1 3 7 2 1]
| No. | Part No. | Name | Model | Qty
| 1 | 5-1140 | Drum, brake | | 2
| 2 | 5-1151 | Shoe assembly, brake | | 4
| 3 | 5-1152 | . Lining, brake shoe | | 4
| - | 5-1180 | . Rivet, brass, lining | | 32
| 4 | 5-1153 | Pin, anchor | | 2
| 5 | 5-1155 | Spring, return | | 4
| 6 | 5-1160 | Cylinder assembly, wheel | | 2
| 7 | 5-1161 | . Cup, rubber | | 4
| 8 | 5-1162 | . Boot | | 4
| - | 5-1163 | . Screw, bleeder | | 2
| 9 | 5-1170 | Line assembly, brake, left | | 1
| 9 | 5-1171 | Line assembly, brake, right | | 1
| 10 | 5-1210 | Cylinder assembly, master | H-14 | 2
| 10 | 5-1212 | Cylinder assembly, master, replaces 5-1210 | H-14B | 2
| - | AN4-12 | Bolt, brake plate to axle | | 8
"""

TAIL_WHEEL = """
== GROUP 5 - TAIL WHEEL

!figure tail_wheel | Plate 5-1. Tail wheel

!plain [1 3 7 2 1]
| No. | Part No. | Name | Model | Qty
| 1 | 5-2010 | Wheel, tail, solid rubber | | 1
| 2 | 5-2014 | Fork | | 1
| 3 | 5-2020 | Spring assembly, three leaves | | 1
| - | 5-2021 | . Leaf, main | | 1
| - | 5-2022 | . Leaf, second | | 1
| - | 5-2023 | . Leaf, third | | 1
| 4 | 5-2030 | Swivel assembly | | 1
| 5 | 5-2041 | Spring, steering | | 2
| - | AN5-14 | Bolt, spring clip | | 2
"""

SELECTOR = """
== GROUP 13 - FUEL SELECTOR VALVE

!figure detent 1 1 3 4 | Plate 13-1. Fuel selector valve, detent

!plain [1 3 7 2 1]
| No. | Part No. | Name | Model | Qty
| - | 13-1400 | Valve assembly, fuel selector | | 1
| - | 13-1401 | . Body | | 1
| - | 13-1402 | . Cone | | 1
| 1 | 13-1407 | . Plate, detent, replaces 13-1406 | | 1
| - | 13-1406 | . Plate, detent (order 13-1407) | | 1
| 3 | 13-1408 | . Ball | | 1
| 4 | 13-1409 | . Spring, replaces 13-1405 | | 1
| - | 13-1410 | . Plate, cover | | 1
| - | 13-1420 | Handle | | 1
"""


def topics() -> list[Topic]:
    pages = (
        ("1", "", TITLE, "", "title page"),
        (CONTINUES, "Group 5", TAIL_WHEEL, "32", "own group number; unruled list with a plate"),
        (CONTINUES, "Group 5", BRAKE, "32", "own group number; brakes; unruled list with a plate"),
        (CONTINUES, "Group 13", SELECTOR, "28", "own group number; unruled list with a plate"),
    )
    return [
        Topic(_facts(page, group, chapters, note), text, TYPEWRITER)
        for page, group, text, chapters, note in pages
    ]


def _facts(printed_page: str, group: str, chapters: str, note: str) -> PageFacts:
    return PageFacts(
        LIST,
        printed_page=printed_page,
        number=group.removeprefix("Group "),
        scheme="OWN" if group else "",
        page_date=group,
        filed_under=chapters,
        note=note,
    )
