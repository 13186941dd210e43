"""Temporary Revision 32-07 of the twin's maintenance manual: one yellow page."""

import datetime
from dataclasses import replace

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PageFacts
from sample_docs.draw.looks_of import TEMPORARY_REVISION
from sample_docs.draw.twin_manual.manual import MANUAL

REVISION = replace(
    MANUAL,
    file="qz62-temporary-revision-32-07.pdf",
    type="temporary-revision",
    number="32-07",
    title="Temporary Revision No. 32-07",
    revision="",
    date=datetime.date(2031, 6, 30),
)

TEXT = """
!big TEMPORARY REVISION No. 32-07

!centre Maintenance Manual QZM-62-2, Revision 6

A. Put this page in the manual so that it faces 32-42-00, Page 402, dated Mar 14/2031. Write the number of
this temporary
revision in the Record of Temporary Revisions. Keep it until a revision of the manual incorporates it or a
notice of the
maker cancels it.

B. Reason: the tie bolts of the brake assembly are now supplied with a dry-film coating. The coating changes
the torque
for the same clamping force. Bolts without the coating (bare cadmium plate, gold color) must not be mixed
with coated
bolts (dark grey) in one brake assembly.

C. On 32-42-00, Page 402, paragraph 3.B.(3) is changed to read:

^ (3) Examine the color of the tie bolts. Torque the tie bolts in a diagonal sequence to the value below, in
two passes:
first to half of the value and then to the full value. Lockwire the bolts in pairs.

!ruled Table 401 (changed lines only). Torque values, brake assembly [4 2 2]
| Fastener | Inch-pounds | Note
| Tie bolt, QZ32-4421-5, gold, no coating | 92 to 98, dry | Diagonal sequence
| Tie bolt, QZ32-4421-7, grey, coated | 70 to 75, dry | Diagonal sequence

WARNING: DO NOT TORQUE A COATED TIE BOLT TO THE VALUE OF AN UNCOATED ONE. THE BOLT WILL STRETCH AND CAN
BREAK AT THE
NEXT HARD STOP.

D. All the other steps on the page stay as they are.
"""


def topics() -> list[Topic]:
    facts = PageFacts(
        REVISION,
        printed_page="402",
        number="32-42-00",
        scheme="ATA",
        page_block="Removal/installation",
        page_date="Jun 30/2031",
        effectivity="ALL",
        note="yellow; overrides page 402 of 32-42-00 in QZM-62-2",
    )
    return [Topic(facts, TEXT, TEMPORARY_REVISION)]
