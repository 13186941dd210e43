"""The shop manual of the retractable single of 1961: twenty sections of its own, pages counted by section."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_RETRACTABLE, RETRACTABLE, RETRACTABLE_NAME
from sample_docs.draw.looks_of import SHOP_BOOK
from sample_docs.draw.retractable import sections_1_10 as early
from sample_docs.draw.retractable import sections_11_20 as late

MANUAL = PublicationFacts(
    file="wt-5-shop-manual.pdf",
    type="service-manual",
    number="",
    title="Shop Manual",
    maker=MAKER_RETRACTABLE,
    models=(RETRACTABLE,),
    revision="",
    date=datetime.date(1961, 6, 1),
)

TITLE = f"""
!gap 120

!big SHOP MANUAL

!gap 20

!big {RETRACTABLE_NAME.upper()}

!centre Model {RETRACTABLE}

!gap 60

!centre Issued June 1, 1961

!gap 160

!centre {MAKER_RETRACTABLE}
"""

# Title, text, and page by page the chapters that a person would file the page under, best first; a servicing
# page also under the systems that are serviced on it.
SECTIONS = (
    ("General", early.GENERAL, ("00;06;08;11",)),
    (
        "Ground handling, servicing, lubrication and inspection",
        early.HANDLING,
        ("12;07;09;10;24;28;32;79", "12;05;10"),
    ),
    ("Fuselage", early.FUSELAGE, ("53;52;56;25",)),
    ("Wings and empennage", early.WINGS, ("57;55",)),
    ("Landing gear, wheels and brakes", early.GEAR, ("32", "32")),
    ("Aileron control system", early.AILERON, ("27",)),
    ("Flap control system", early.FLAP, ("27",)),
    ("Stabilator control system", early.STABILATOR, ("27",)),
    ("Trim control system", early.TRIM, ("27",)),
    ("Rudder and nose wheel steering", early.RUDDER, ("27;32",)),
    ("Engine controls", late.ENGINE_CONTROLS, ("76",)),
    ("Engine", late.ENGINE, ("71", "72;74", "73;71;79;78;80")),
    ("Fuel system", late.FUEL, ("28",)),
    ("Propeller and governor", late.PROPELLER, ("61",)),
    ("Utility systems", late.UTILITY, ("21",)),
    ("Instruments", late.INSTRUMENTS, ("34;37;31;77",)),
    ("Electrical system", late.ELECTRICAL, ("24;33;27;23",)),
    ("Structural repair", late.REPAIR, ("51;53;57",)),
    ("Painting", late.PAINTING, ("51;20",)),
    ("Wiring diagrams", late.WIRING, ("24;91;33",)),
)


def topics() -> list[Topic]:
    listed = "\n\n".join(
        f"Section {number}. {title} {'. ' * max(4, 34 - len(title) // 2)} {number}-1"
        for number, (title, _, _) in enumerate(SECTIONS, start=1)
    )
    made = [
        Topic(PageFacts(MANUAL, note="title page"), TITLE, SHOP_BOOK),
        Topic(PageFacts(MANUAL, note="contents"), f"== CONTENTS\n\n{listed}", SHOP_BOOK),
    ]
    for number, (_, text, chapters) in enumerate(SECTIONS, start=1):
        facts = PageFacts(
            MANUAL,
            printed_page=f"{number}-1",
            number=str(number),
            scheme="OWN",
            filed_under=chapters[0],
            note="own order; pages counted by section",
        )
        later = tuple((place, {"filed_under": under}) for place, under in enumerate(chapters) if place)
        made.append(Topic(facts, text, SHOP_BOOK, later_pages=later))
    return made
