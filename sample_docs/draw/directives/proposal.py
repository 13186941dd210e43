"""A proposed directive on nose gear shimmy, in three columns; a letter on an alternative method."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import LETTER_PAPER, REGISTER

PROPOSAL = PublicationFacts(
    file="nprm-faa-2032-9127.pdf",
    type="proposed-directive",
    number="FAA-2032-9127",
    title=f"Airworthiness Directives; {MAKER_TWIN} Airplanes",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="",
    date=datetime.date(2032, 4, 22),
)

PROPOSAL_TEXT = """
**DEPARTMENT OF TRANSPORTATION**

**Federal Aviation Administration**

**14 CFR Part 39**

[Docket No. FAA-2032-9127; Project Identifier AD-2032-00214-A]

== Airworthiness Directives; Aldermoor Aircraft Corporation Airplanes

**AGENCY:** Federal Aviation Administration (FAA), DOT.

**ACTION:** Notice of proposed rulemaking (NPRM).

**SUMMARY:** The FAA proposes to adopt a new airworthiness directive (AD) for all Aldermoor Aircraft
Corporation Model QZ62
and QZ62S airplanes. This proposed AD was prompted by the collapse of a nose landing gear after a strong
shimmy. This
proposed AD would require measuring the play of the nose gear torque links and servicing the shimmy damper.

**DATES:** The FAA must receive comments on this proposed AD by June 7, 2032. This notice was published
April 22, 2032.

**ADDRESSES:** Send comments to the docket office of the Northlake Aircraft Certification Office. The office
is invented and
no comment can reach it.

**SUPPLEMENTARY INFORMATION:**

# Background

A QZ62S airplane that returned from a survey flight had a strong shimmy at 55 knots. The drag link broke and
the nose landing
gear folded. The shimmy damper held less than half of its fluid, and the play of the torque links was three
times the limit
in the maintenance manual.

Eleven other airplanes of the same operator were examined. In six of them the damper had a soft place in its
stroke. The
maker's schedule has the damper in the 100-hour check, but many operators use a progressive program that
leaves it out.

# FAA's Determination

The FAA is issuing this NPRM after determining that the unsafe condition described previously is likely to
exist or develop
on other products of the same type design.

# Proposed AD Requirements

This proposed AD would require the actions given in the maintenance manual, 32-21-00, with a shorter
interval. The manual
would not be incorporated by reference; the limits are in the text of the proposal.

# Costs

The FAA estimates 1.5 work-hours for each inspection and 120 dollars for the parts of a damper kit.

# The Proposed Amendment

**Aldermoor Aircraft Corporation:** Docket No. FAA-2032-9127; Project Identifier AD-2032-00214-A.

# (a) Comments Due Date

The FAA must receive comments on this airworthiness directive (AD) by June 7, 2032.

# (b) Affected ADs

None.

# (c) Applicability

This AD applies to all Aldermoor Aircraft Corporation Model QZ62 and QZ62S airplanes, certificated in any
category.

# (d) Subject

Joint Aircraft System Component (JASC)/Air Transport Association (ATA) of America Code 32, Landing Gear.

# (e) Unsafe Condition

This AD was prompted by the collapse of a nose landing gear after a strong shimmy. The unsafe condition, if
not addressed,
could result in loss of control of the airplane on the ground.

# (f) Compliance

Comply with this AD within the compliance times specified, unless already done.

# (g) Inspection

Within 50 hours time-in-service after the effective date of this AD, and thereafter at intervals not to
exceed 100 hours,
measure the play of the torque links. If the play is more than 0.030 inch, before further flight replace the
bushings.

# (h) Servicing

At each inspection required by paragraph (g) of this AD, fill the shimmy damper and move its rod from stop
to stop. If the
stroke has a soft or dead place after filling, replace the damper.

# (i) Alternative Methods of Compliance (AMOCs)

The Manager, Northlake Aircraft Certification Office, has the authority to approve AMOCs for this AD, if
requested using the
procedures found in 14 CFR 39.19.

# (j) Related Information

Aldermoor Maintenance Manual QZM-62-2, 32-21-00, describes the servicing of the damper.

Issued on April 15, 2032.

Odalys T. Brannigan-Rook, Manager, Northlake Aircraft Certification Office.
"""

LETTER = PublicationFacts(
    file="amoc-letter-2031-07-11.pdf",
    type="amoc-letter",
    number="",
    title="Alternative Method of Compliance (AMOC) to Airworthiness Directive (AD) 2031-07-11, paragraph (g)",
    maker="",
    models=(TWIN,),
    revision="",
    date=datetime.date(2031, 11, 3),
)

LETTER_TEXT = """
November 3, 2031

Heronsgate Air Survey and Training

Attention: Director of Maintenance

**Subject: Alternative Method of Compliance (AMOC) to Airworthiness Directive (AD) 2031-07-11, paragraph (g)**

Dear Mx. Oduya-Lindqvist:

This letter answers your request of October 14, 2031. You ask to use Aldermoor Service Bulletin
QZ62-32-0114, Revision C,
dated October 6, 2031, in place of Revision B, for the airplane Model QZ62, serial number QZ-077, because
the gold tie bolts
are not to be had.

We have looked at your request. For the airplane with serial number QZ-077 only, and as long as Heronsgate
Air Survey and
Training operates it, we approve the installation of four coated tie bolts, QZ32-4421-7, with the torque
given in Part 2 of
the Accomplishment Instructions of Revision C, as an AMOC to paragraph (g) of AD 2031-07-11.

(1) This AMOC cannot be transferred to another airplane or another operator.

(2) All the other provisions of AD 2031-07-11 stay in force, also the prohibition of paragraph (h).

(3) Before you use this AMOC, notify your appropriate principal inspector.

(4) This AMOC ends when AD 2031-07-11 is superseded.

Sincerely,

!gap 20

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office | November 3, 2031
"""


def topics() -> list[Topic]:
    facts = PageFacts(
        PROPOSAL,
        printed_page="90117",
        number="32",
        scheme="ATA",
        data_standing="information",
        note="a proposal is not a rule",
    )
    return [Topic(facts, PROPOSAL_TEXT, REGISTER)]


def amoc_letter() -> list[Topic]:
    facts = PageFacts(
        LETTER,
        directive="alternative to 2031-07-11 for QZ-077 and one operator only",
        note="approves Revision C for one airplane and operator; never for others",
    )
    return [Topic(facts, LETTER_TEXT, LETTER_PAPER)]
