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
