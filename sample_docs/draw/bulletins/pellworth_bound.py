"""Three short bulletins of the 1950s single bound in one file; a directive requires the last of them."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.bulletins import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_SINGLE, SINGLE, SINGLE_B
from sample_docs.draw.looks_of import SINGLE_BULLETIN

FILE = "pellworth-service-bulletins-bound.pdf"


def _facts(number: str, title: str, date: datetime.date, models: tuple[str, ...]) -> PublicationFacts:
    return PublicationFacts(FILE, "service-bulletin", number, title, MAKER_SINGLE, models, "", date)


BRAKES = _facts("21", "Brake Shoe Lining Rivets", datetime.date(1955, 9, 12), (SINGLE,))
WINDOW = _facts("24", "Cabin Door Window Retainer", datetime.date(1956, 4, 3), (SINGLE, SINGLE_B))
SELECTOR = _facts("27", "Fuel Selector Valve Detent Plate", datetime.date(1957, 5, 6), (SINGLE, SINGLE_B))

BRAKES_TEXT = """
!big SERVICE BULLETIN No. 21

!centre September 12, 1955

SUBJECT: Brake shoe lining rivets

MODELS AFFECTED: Hedgeling Model H-14, serial numbers H-101 thru H-176

REASON: Tubular rivets have been found loose in the linings of the wheel brakes. A loose rivet scores the
drum and the brake
grabs without notice on a wet field.

COMPLIANCE: At the next periodic inspection. Optional after that.

INSTRUCTIONS:

(1) Jack the airplane under the axle and take the wheel off. See Service Manual, Section V.

(2) Blow no dust. Wipe the drum and shoes with a damp rag.

(3) Try each rivet with a scriber. If one is loose, take the shoe off and set new brass rivets, part number
5-1180, from the
middle of the shoe outward.

(4) The head of each rivet must be at least 1/32 inch below the face of the lining. If it is not, fit a new
lining.

(5) Put the wheel back, adjust the brake, and try it at a walking pace before the airplane is flown.

PARTS: 16 rivets for each wheel, no charge.
"""

WINDOW_TEXT = """
!big SERVICE BULLETIN No. 24

!centre April 3, 1956

SUBJECT: Cabin door window retainer

MODELS AFFECTED: Hedgeling Models H-14 and H-14B, serial numbers H-101 thru H-240

REASON: The rubber retainer of the door window gets hard in the sun and lets go of the pane. A pane was lost
in flight. There
was no other damage.

COMPLIANCE: Recommended. At owner's convenience.

INSTRUCTIONS:

(1) Push on each corner of the pane with the thumb. If a corner moves out of the retainer, change the
retainer.

(2) Cut the old rubber away. Clean the edge of the door with naphtha.

(3) Start the new retainer, part number 3-2215, at the middle of the bottom edge. Pull the lip over the edge
with a cord laid in
the groove. Soap and water help; oil does not, it spoils the rubber.

(4) Leave a gap of not more than 1/16 inch where the ends meet and fill it with window cement.

PARTS: Retainer 3-2215, two for each airplane. Price on request.
"""

SELECTOR_TEXT = """
!big SERVICE BULLETIN No. 27

!centre May 6, 1957

SUBJECT: Fuel selector valve detent plate

MODELS AFFECTED: Hedgeling Models H-14 and H-14B, serial numbers H-101 thru H-262

REASON: The detent plate of the selector valve wears until the handle can be left between LEFT and RIGHT.
The engine then stops
for lack of fuel with both tanks full.

COMPLIANCE: Within the next 25 hours of flying.

INSTRUCTIONS:

(1) Drain both tanks below the outlet, or plug the lines.

(2) Take the handle and the cover plate off. Lift the detent plate out and measure the three notches. A
notch that is less
than 3/64 inch deep is worn out.

(3) Fit a new detent plate, part number 13-1407, with the mark L at the left. Fit a new spring, part number
13-1409.

(4) Put the cover plate on with four screws. Draw them up evenly, 15 to 18 inch-pounds, and stake them.

(5) Turn the handle thru all the positions. It must click and stay in OFF, LEFT and RIGHT. It must not stay
at any place
between them.

(6) Fill the tanks, look for leaks, and run the engine three minutes on each tank. Turn to OFF; the engine
must stop within
40 seconds.

PARTS: Detent plate 13-1407, one; spring 13-1409, one.
"""


def topics() -> list[Topic]:
    parts = (
        (BRAKES, BRAKES_TEXT, "32", "", "brakes, no chapter number printed; no directive names it"),
        (WINDOW, WINDOW_TEXT, "52;56", "", "no chapter number printed; no directive names it"),
        (
            SELECTOR,
            SELECTOR_TEXT,
            "28",
            "required by 2030-19-04",
            "no Approval paragraph; the directive alone makes it approved",
        ),
    )
    made = []
    for publication, text, chapters, directive, note in parts:
        final = "approved" if directive else ""
        made += form.topics(
            publication,
            [(text, {})],
            SINGLE_BULLETIN,
            filed_under=chapters,
            final_standing=final,
            directive=directive,
            note=note,
        )
    return made
