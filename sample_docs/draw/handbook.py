"""A two-column handbook whose title notice blocks its use as data: for reference only."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.looks_of import HANDBOOK

BOOK = PublicationFacts(
    file="hangar-handbook-two-column.pdf",
    type="order-or-handbook",
    number="HSH-3",
    title="Hangar Handbook of Light Airplane Care",
    maker="Heronsgate Technical Circle",
    models=(),
    revision="3",
    date=datetime.date(2030, 2, 1),
)

NOTICE = "the notice on page 1 blocks the whole document"

TEXT = """
# Brakes: what the pedal tells you

A pedal that is soft and becomes hard after three strokes has air in its line. A pedal that is hard and then
goes down slowly under
a steady foot has a leak inside the master cylinder. A pedal that is hard with no braking has oil on the
linings. You can find which
of the three it is before you take a wheel off, and you should, because each has another cure.

Air does not come into a line by itself. Somebody has opened it, or the reservoir was empty, or a packing
lets air in when the pedal
comes back. If you bleed the brake and the air comes again within a month, stop bleeding and look for the
packing.

Linings wear faster at a field with a short runway, and faster again with a pilot who taxies with power
against the brake. Write
the thickness in the log at each inspection. Three numbers in a row tell you when the next lining is due,
better than any table.

# Discs and rust

A film of rust after rain is normal and goes away in the first stops. Pits are not normal. Put a straight
edge on the worn band and
look for light below it. Always measure at the thinnest place that you can find.

When you see a blue color on a disc, ask who landed last. Blue is heat. Look at the packing of the pistons,
which has been as
hot as the disc.

# Doors that come open

Most doors that come open in flight were not latched. The rest were latched and not adjusted. Put clay on
the striker plate and
measure the mark. It takes five minutes and it tells you the truth, which the feel of the handle does not.

A door open in flight makes a great noise and very little else. Accidents come from trying to close it. Tell
your pilots so
when you give the airplane back.

# Alternators and belts

A belt that squeals is loose or glazed. Tightening a glazed belt quiets it for ten hours and then breaks the
adjusting arm. Change
the belt.

Measure the voltage at the bus and not at the alternator. The difference is in a bad joint, and a bad joint
gets hot.

# Oxygen and clean hands

Oil and oxygen do not go together. That is known to all, and still people open a filler valve with the hands
that just greased a
wheel. Wash your hands. Use tools that are kept in a bag for this work only. Open every valve as if it were
stuck and you had all
day.

The gauge tells pressure and not quantity. A hot cylinder shows more than it has. Fill it slowly, let it
cool, and read it again
the next morning.

# Pitot heat

The pilot tests the heat with a finger and a checklist. You should test it with an ammeter. A mast with one
dead element is warm
to the finger and freezes in cloud. Half the current is half the mast.

# Fuel selectors

Turn the handle and feel. A good detent can be felt with two fingers. When the handle can be left between
two ports,
some day it will be left there. There are few faults that stop an engine so surely with the tanks full.

Do not put grease on the rotor to make it turn easier. The seal that makes it hard to turn is swollen, and
it will tear.

# Seat tracks

A worn hole in a seat track looks round from above. Put the pin in and move the seat: if it clicks, measure
the hole. The accidents
happened at take-off, when the nose came up and the seat went back.

# Nose gear shimmy

Balance the tire, take the play out of the torque links, and then service the damper. In that order. Nine
dampers in ten that were
sent away had nothing wrong with them.

If the shimmy comes at one speed only, look at the tire. If it comes at all speeds, look at the links. If it
came after the last
inspection, look at what was done.

# Tires

A tire that loses two pounds a week has a leak in its valve core, and a new core costs less than the time to
fill it. Write the
pressure on the wheel fairing with a grease pencil. Nobody fills a tire that he has not measured.

A flat spot on one main tire and not on the other tells of a brake that grabs. Look at the linings on that
side before you order the
tire.

# Batteries

A battery that is charged every Saturday and flown on Sunday is a sick battery. Measure it an hour after the
charge and again the
next day. The difference is the answer.

# Writing it down

Write the number of the manual, its revision, and the page. The next person will be you in two years, in a
hurry, with poor light.
"in accordance with the manual" tells that person nothing.
"""


def topics() -> list[Topic]:
    facts = PageFacts(
        BOOK,
        printed_page="1",
        filed_under="24;25;28;30;32;35;52",
        data_standing="blocked",
        note="two columns; " + NOTICE,
    )
    return [Topic(facts, TEXT, HANDBOOK, later_pages=((1, {"filed_under": "24;32"}),))]
