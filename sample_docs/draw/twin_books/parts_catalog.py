"""The twin's illustrated parts catalog: figure pages, ruled and unruled lists, numerical index."""

import datetime
from dataclasses import replace

from sample_docs.draw.book import CONTINUES, Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import PARTS_CATALOG
from sample_docs.draw.twin_books.parts_figures import FIGURES, PartsFigure

CATALOG = PublicationFacts(
    file="qz62-parts-catalog.pdf",
    type="parts-catalog",
    number="QZM-62-4",
    title="Illustrated Parts Catalog",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="4",
    date=datetime.date(2031, 1, 20),
)
DATE = "Jan 20/2031"

TITLE = """
!gap 90

!big ILLUSTRATED PARTS CATALOG

!gap 20

!centre **QZ62 OUZEL** and **QZ62S OUZEL SURVEY**

!centre Serial numbers QZ-001 and on; QZS-001 and on

!gap 30

!centre Catalog number **QZM-62-4**

!centre Original issue: July 10, 2028

!centre **Revision 4: January 20, 2031**

!gap 40

!centre **THIS CATALOG IS NOT A MAINTENANCE MANUAL.**

!centre Do not use its figures for assembly or disassembly. Use the Maintenance Manual, QZM-62-2, for all
work.

!gap 90

!centre Aldermoor Aircraft Corporation

!centre Publications, Hangar Row, Northlake
"""

INTRODUCTION = """
== INTRODUCTION

# 1. Arrangement

A. The figures follow the chapter, section and subject numbers of the Maintenance Manual. A part is named by
its figure and
item: 32-42-00-01-15 is item 15 of figure 1 of 32-42-00.

B. An item number with a dash before it is not illustrated. A letter after an item number shows a part that
was added, or
an alternate.

# 2. Columns

A. Nomenclature. The dots show how parts belong together. A part with one dot belongs to the assembly above
it with no
dot, and so on. Parts that attach an item follow it under ATTACHING PARTS and end with a line of marks.
Their quantity is
for one item.

!plain Indenture [1 5]
| Dots | Meaning
| (none) | Assembly of the figure
| . | Detail or subassembly
| . . | Detail of the subassembly
| . . . | Part of the detail

B. Usage. Letters tie a part to the assemblies of the same figure that have the same letter. No letter: the
part is used in
all of them.

C. Units. The number is for the next higher assembly and not for the airplane. AR: as required. REF: listed
elsewhere. NP:
not procured alone, order the next higher assembly.

# 3. Words

!plain [2 5]
| Word | Meaning
| SUPSD BY | Superseded by: use the new part when the old one is used up or prohibited
| SUPSDS | Supersedes
| OPT | Optional part
| NHA | Next higher assembly
| V0QX7 | Supplier code: Marrable Wheel and Brake Works
| V3ZK1 | Supplier code: Torrisk Engines
| V8LW4 | Supplier code: Deverne Electric

# 4. Eligibility

A. A part number in this catalog does not show alone that the part can be installed on an airplane. Compare
the serial
number, the service bulletins done and the airworthiness directives in force.
"""


def topics() -> list[Topic]:
    made = [
        _topic(PageFacts(CATALOG, printed_page="T-1", page_date=DATE), TITLE, (1, "Title page")),
        _topic(PageFacts(CATALOG, printed_page="INT-1", page_date=DATE), INTRODUCTION, (1, "Introduction")),
    ]
    for figure in FIGURES:
        facts = PageFacts(
            CATALOG,
            printed_page="1",
            number=figure.number,
            scheme="ATA",
            page_date=figure.date,
            figure=figure.figure,
            note=f"{figure.figure}, illustration",
        )
        picture = f"!gap 60\n\n!figure {figure.drawing} | {figure.figure}. {figure.title}"
        made.append(_topic(facts, picture, (1, f"{figure.number} {figure.title}")))
        kind = "ruled" if figure.ruled else "unruled"
        listed = replace(facts, printed_page=CONTINUES, note=f"{figure.figure}, {kind} parts list")
        made.append(_topic(listed, figure.list_text, None))
    facts = PageFacts(CATALOG, printed_page="NI-1", page_date=DATE, note="numerical index: part numbers only")
    made.append(_topic(facts, numerical_index(FIGURES), (1, "Numerical index")))
    return made


def _topic(facts: PageFacts, text: str, bookmark: tuple[int, str] | None) -> Topic:
    return Topic(facts, text, PARTS_CATALOG, bookmark)


def numerical_index(figures: tuple[PartsFigure, ...]) -> str:
    """Every part number with its figure-items and the total of its units, in order of part number."""
    found: dict[str, list[tuple[str, str]]] = {}
    for figure in figures:
        number = figure.figure.split()[-1].zfill(2)
        for item, part, units in figure.parts:
            found.setdefault(part, []).append((f"{figure.number}-{number}-{item.lstrip('-')}", units))
    lines = []
    for part in sorted(found):
        places = found[part]
        units = [count for _, count in places if count.isdigit()]
        total = str(sum(map(int, units))) if len(units) == len(places) else places[0][1]
        lines.append(f"| {part} | {', '.join(place for place, _ in places)} | {total}")
    return "\n".join(
        ["== NUMERICAL INDEX", "", "!plain [3 5 2]", "| Part number | Figure and item | Total", *lines]
    )
