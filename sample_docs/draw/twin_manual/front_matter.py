"""Front matter of the twin's maintenance manual: title page, records, effective pages, contents,
introduction."""

from sample_docs.draw.facts import PageFacts

TITLE = """
!gap 90

!big MAINTENANCE MANUAL

!gap 20

!centre **QZ62 OUZEL** and **QZ62S OUZEL SURVEY**

!centre Serial numbers QZ-001 and on; QZS-001 and on

!gap 30

!centre Manual number **QZM-62-2**

!centre Original issue: June 2, 2028

!centre **Revision 6: March 14, 2031**

!gap 120

!centre Aldermoor Aircraft Corporation

!centre Publications, Hangar Row, Northlake

!gap 20

!small The company, the airplanes and all part numbers, limits and names in this manual are invented. The
manual was
drawn to show how a library of publications works.
"""

RECORD = """
== RECORD OF REVISIONS

A. Put each revision in the manual when it arrives. Write the date and your initials.

!ruled [2 3 3 3]
| Revision | Date of revision | Date inserted | By
| Original | Jun 02/2028 | 12 Jun 2028 | R.A.
| 1 | Sep 15/2028 | 2 Oct 2028 | R.A.
| 2 | Feb 20/2029 | 11 Mar 2029 | R.A.
| 3 | Jun 11/2029 | 30 Jun 2029 | L.O.
| 4 | Nov 08/2029 | 1 Dec 2029 | L.O.
| 5 | Jul 19/2030 | 8 Aug 2030 | L.O.
| 6 | Mar 14/2031 | 2 Apr 2031 | L.O.
| 7 | | |
| 8 | | |
"""

TEMPORARY = """
== RECORD OF TEMPORARY REVISIONS

A. Temporary revisions are printed on yellow paper. Put each one so that it faces the page that it changes.

!ruled [2 3 3 3 2]
| Number | Date | Page changed | Incorporated or cancelled | By
| 24-03 | Jan 10/2029 | 24-31-00, Page 501 | Revision 4 | L.O.
| 52-05 | Oct 02/2029 | 52-11-00, Page 501 | Revision 6 | L.O.
| 32-07 | Jun 30/2031 | 32-42-00, Page 402 | | L.O.
"""

HIGHLIGHTS = """
== HIGHLIGHTS OF REVISION 6

A. This revision changes the pages below. A black line at the edge shows the changed text. Pages that are
not listed keep
their date and stay in force.

!ruled [3 2 6]
| Number | Page | Change
| 04-00-00 | 1, 2 | Adds the camera hatch frame of the QZ62S
| 05-10-00 | 1 | Adds the replacement time of the alternator drive belt
| 05-20-00 | 1 | Adds the seat track check at 100 hours
| 24-31-00 | 501 | Adds the load test of the 120-ampere alternator
| 30-31-00 | 501 | Adds the stall vane plate to the table
| 32-42-00 | 201 | Adds a taxi check to the operational check
| 32-42-00 | 401 thru 403 | Torque of the tie bolt QZ32-4421-5
| 52-11-00 | 501 | Incorporates temporary revision 52-05
"""

INTRODUCTION = """
== INTRODUCTION

# 1. Arrangement

A. The manual is divided into chapters that follow the chapter numbers of ATA Specification 100. Each number
has three
elements: chapter, section and subject. The last element is 00 when a topic covers the whole section.

B. The pages of one subject are arranged in blocks by the kind of work:

!ruled Table 1. Page blocks [2 5]
| Pages | Contents
| 1 to 99 | Description and operation
| 101 to 199 | Troubleshooting
| 201 to 299 | Maintenance practices
| 301 to 399 | Servicing
| 401 to 499 | Removal/installation
| 501 to 599 | Adjustment/test
| 601 to 699 | Inspection/check

C. A short subject has all its work in one block. When a block is absent, look in the block of maintenance
practices.

D. Figures and tables have the number of their block: Figure 401 is the first figure of the block that
begins with page
401.

# 2. Warnings, cautions and notes

A. A WARNING tells of something that can injure or kill a person. A CAUTION tells of something that can
damage the airplane.
A NOTE makes the work easier. A WARNING or CAUTION is printed before the step that it is about.

# 3. Effectivity

A. The box at the foot of each page gives the serial numbers for which the page is correct. ALL means QZ-001
and on, and
QZS-001 and on.

# 4. Use

A. Measure in the units that are printed. Torque values are for dry, clean threads when the table does not
say different,
and do not include the torque that is necessary to turn a self-locking nut.

B. Ask the maker when a page and a bulletin do not agree. A page of chapter 04 can be changed only by a
revision of that
chapter.
"""


def effective_pages(pages: list[PageFacts]) -> str:
    """The list of effective pages, one line for each run of pages of one number and date."""
    runs: list[list] = []
    for page in pages:
        number = page.number or "Front matter"
        if (
            runs
            and runs[-1][0] == number
            and runs[-1][2] == page.page_date
            and _same_block(runs[-1][1][-1], page)
        ):
            runs[-1][1].append(page)
        else:
            runs.append([number, [page], page.page_date])
    lines = [f"| {number} | {_span(run)} | {date}" for number, run, date in runs]
    intro = "A. All pages of this list are in force. Compare the date in the foot of a page with this list."
    table = "\n".join(["!ruled Revision 6, Mar 14/2031 [3 3 3]", "| Number | Page | Date", *lines])
    return f"== LIST OF EFFECTIVE PAGES\n\n{intro}\n\n{table}\n"


def contents(pages: list[PageFacts]) -> str:
    """The table of contents: one line for each subject and page block."""
    lines = []
    for before, page in zip([None, *pages], pages, strict=False):
        first = before is None or (before.number, before.page_block) != (page.number, page.page_block)
        if page.number and first:
            lines.append(f"| {page.number} | {page.title} | {page.page_block} | {page.printed_page}")
    return "\n".join(["== CONTENTS", "", "!plain [2 5 4 1]", "| Number | Subject | Block | Page", *lines])


def _same_block(one: PageFacts, other: PageFacts) -> bool:
    return one.page_block == other.page_block and _stem(one) == _stem(other)


def _stem(page: PageFacts) -> str:
    return page.printed_page.rstrip("0123456789")


def _span(run: list[PageFacts]) -> str:
    first, last = run[0].printed_page, run[-1].printed_page
    return first if first == last else f"{first} thru {last}"
