"""Service letter SL-0219: care of brakes. The directive on brakes only mentions it."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.bulletins import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_BULLETIN

LETTER = PublicationFacts(
    file="sl-0219.pdf",
    type="service-letter",
    number="SL-0219",
    title="Care of Brakes in Wet and Salty Conditions",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="",
    date=datetime.date(2031, 4, 3),
)

TEXT = """
!ruled [2 2]
| Service Letter No. SL-0219 | Date: April 3, 2031
| To: owners and operators of QZ62 and QZ62S airplanes | Subject: brakes

== CARE OF BRAKES IN WET AND SALTY CONDITIONS

Several operators who survey coasts have asked why the brakes of their airplanes chatter on the first taxi
after a week
outdoors. We have looked at their discs and linings. This letter tells what we saw and what helps.

# What we saw

The discs have a thin film of rust on the worn band. The lining rubs it off in the first three stops. When
the airplane
stays outdoors for more than ten days the rust makes small pits, and the pits tear the lining. The linings
then wear two
or three times as fast as those of airplanes in a hangar.

Salt makes it worse. We found white powder between the pressure plate and the anchor bolts. The plate does
not slide back
and one lining drags. The pilot feels that the airplane pulls to one side.

# What helps

(1) After a flight over the sea, wash the brakes with fresh water at low pressure. Then taxi and make two
stops, so that the
heat dries the linings.

(2) Do not set the parking brake on wet brakes overnight. Use chocks. A lining that stays on a wet disc can
rust to it.

(3) Once a month, move the airplane 50 feet and stop it firmly, also when it does not fly.

(4) At each 100-hour inspection clean the anchor bolts and renew the dry-film lubricant, as the Maintenance
Manual gives in
32-42-00, Page 401.

(5) Measure the disc at the bottom of the pits and not beside them. The limit is in 32-42-00, Page 601.

# Tie bolts

Bulletin QZ62-32-0114 tells about the tie bolts. Washing does not cause the cracks of the old bolts and does
not prevent
them. This letter does not replace that bulletin.

If you have questions, call your service representative at Northlake.

!gap 14

!sign P. Quenneville-Stott | Product Support, Aldermoor Aircraft Corporation | April 3, 2031
"""


def topics() -> list[Topic]:
    return form.topics(
        LETTER,
        [(TEXT, {})],
        TWIN_BULLETIN,
        filed_under="32",
        directive="only mentioned by 2031-07-11",
        note="prints no chapter of its own; refers to 32-42-00",
    )
