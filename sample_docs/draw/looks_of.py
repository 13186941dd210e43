"""The look of each kind of publication in the sample library."""

from reportlab.lib.enums import TA_CENTER

from sample_docs.draw import furniture
from sample_docs.draw.looks import Look

TWIN_MANUAL = Look("Helvetica", "Helvetica-Bold", 10, furniture.twin_manual, title_align=TA_CENTER)
PARTS_CATALOG = Look(
    "Helvetica", "Helvetica-Bold", 9.5, furniture.twin_manual, title_align=TA_CENTER, table_size=8.5
)
FLIGHT_SUPPLEMENT = Look(
    "Times-Roman",
    "Times-Bold",
    10,
    furniture.flight_supplement,
    page_size=(396, 612),
    left=48,
    right=40,
    top=56,
    bottom=72,
)
TEMPORARY_REVISION = Look("Helvetica", "Helvetica-Bold", 10, furniture.temporary_revision)
TWIN_BULLETIN = Look("Helvetica", "Helvetica-Bold", 9.5, furniture.twin_bulletin, left=60, top=76, bottom=78)
DIRECTIVE = Look("Times-Roman", "Times-Bold", 11, furniture.directive, left=72, right=72, top=64, bottom=72)
TYPEWRITER = Look(
    "Courier", "Courier-Bold", 10, furniture.typewriter, left=80, right=60, top=70, bottom=76, leading=1.3
)
SHOP_BOOK = Look(
    "Times-Roman", "Times-Bold", 10.5, furniture.shop_book, left=72, right=60, top=72, bottom=72, leading=1.3
)
SINGLE_BULLETIN = Look(
    "Courier",
    "Courier-Bold",
    10,
    furniture.single_bulletin,
    left=80,
    right=60,
    top=100,
    bottom=76,
    leading=1.3,
)
REGISTER = Look(
    "Times-Roman",
    "Times-Bold",
    10,
    furniture.register,
    left=48,
    right=48,
    top=60,
    bottom=52,
    columns=3,
    gutter=14,
    leading=1.2,
)
LETTER_PAPER = Look(
    "Times-Roman", "Times-Bold", 11, furniture.letter_paper, left=84, right=72, top=104, bottom=72
)
HANDBOOK = Look(
    "Times-Roman",
    "Times-Bold",
    11,
    furniture.handbook,
    left=54,
    right=54,
    top=62,
    first_top=162,
    bottom=66,
    columns=2,
    gutter=22,
)
SCANNED = Look("Times-Roman", "Times-Bold", 12, furniture.scanned)
SCANNED_PAPER = Look(
    "Times-Roman", "Times-Bold", 12, furniture.scanned_paper, left=70, right=56, top=82, bottom=90
)
