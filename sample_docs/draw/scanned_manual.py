"""A component manual that the shop holds only as a scan: two pages of pictures without any text.

The pictures in scans/ are the input of the drawing. `python -m sample_docs.draw.scan_paper` makes them anew
from
the sheets that this file describes.
"""

import datetime
from dataclasses import replace

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.looks_of import SCANNED, SCANNED_PAPER

MANUAL = PublicationFacts(
    file="brake-component-manual-scan.pdf",
    type="component-maintenance-manual",
    number="32-42-08",
    title="Component Maintenance Manual",
    maker="Marrable Wheel and Brake Works",
    models=("M40-88",),
    revision="1",
    date=datetime.date(2029, 10, 1),
)

DISASSEMBLY = """
== DISASSEMBLY OF THE BRAKE ASSEMBLY M40-88

!centre Component Maintenance Manual 32-42-08, Revision 1, October 1, 2029

# 1. General

A. Disassemble the brake on a clean bench. Keep the linings away from oil and fluid.

# 2. Procedure

WARNING: HOLD THE PISTONS WITH A BLOCK OF WOOD WHEN YOU USE AIR. A PISTON THAT COMES OUT CAN BREAK A HAND.

(1) Remove the four tie bolts and take the back plate off.

(2) Slide the pressure plate from the anchor bolts.

(3) Put a block of wood in front of the pistons. Apply air, not more than 20 psi, at the fluid port until
the pistons come
out.

(4) Remove the packings with a brass hook. Do not scratch the grooves.

(5) Remove the bleeder valve and the elbow.

!figure brake | Figure 3001. Brake assembly: 1 disc, 2 cylinder housing, 3 piston, 4 pressure plate, 5
lining, 6 back plate,
7 tie bolt
"""

CHECK = """
== INSPECTION OF THE BRAKE PARTS

# 1. Housing

A. Examine the bores with a light. Corrosion that can be felt with a fingernail is cause for rejection of
the housing.

B. Measure the bores and the pistons at three places.

!ruled Table 5001. Limits [4 2 2]
| Part | Limit, inch | Action
| Bore, inside diameter | 1.507 | Reject
| Piston, outside diameter | 1.494 | Reject
| Anchor bolt, outside diameter | 0.4350 | Replace
| Tie bolt, length over head | 2.318 | Replace
| Back plate, bow | 0.010 | Reject

# 2. Tie bolts

A. Put a straight edge on the thread. A thread that shows light has been stretched: replace all four bolts.

B. Do a magnetic particle inspection of each bolt. No crack is permitted.

# 3. Plates

A. Examine the plates round the rivet holes with dye penetrant. No crack is permitted.
"""


def paper() -> list[Topic]:
    """The sheets before they are scanned."""
    base = PageFacts(MANUAL, number="32-42-08", scheme="ATA", page_date="Oct 1/29")
    sheets = (("3001", "Disassembly", DISASSEMBLY), ("5001", "Inspection/check", CHECK))
    return [
        Topic(replace(base, printed_page=page, page_block=block), text, SCANNED_PAPER)
        for page, block, text in sheets
    ]


def topics() -> list[Topic]:
    """The scan: the same pages, as pictures."""
    note = "picture only; the other columns are what a person reads on it"
    return [Topic(replace(sheet.facts, text_state="no text", note=note), "", SCANNED) for sheet in paper()]
