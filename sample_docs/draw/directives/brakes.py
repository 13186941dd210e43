"""AD 2031-07-11: brake tie bolts. Requires Part 2 of bulletin QZ62-32-0114 at Revision B only."""

import datetime

from sample_docs.draw.directives import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, OFFICE, TWIN, TWIN_SURVEY

DIRECTIVE = form.Directive(
    publication=PublicationFacts(
        file="ad-2031-07-11.pdf",
        type="airworthiness-directive",
        number="2031-07-11",
        title=f"Airworthiness Directives; {MAKER_TWIN} Airplanes",
        maker=MAKER_TWIN,
        models=(TWIN, TWIN_SURVEY),
        revision="",
        date=datetime.date(2031, 5, 12),
    ),
    docket="FAA-2031-9714",
    project="AD-2031-00388-A",
    amendment="39-29871",
    subject_chapter="32",
    subject_scheme="ATA",
    office=OFFICE,
    summary="""
The FAA is adopting a new airworthiness directive (AD) for certain Aldermoor Aircraft Corporation Model QZ62
and QZ62S
airplanes. This AD was prompted by reports of broken tie bolts in the main wheel brake assemblies. This AD
requires
replacing the brake tie bolts. The FAA is issuing this AD to address the unsafe condition on these products.
""",
    effective="May 12, 2031",
    incorporated="""
The Director of the Federal Register approved the incorporation by reference of a certain publication listed
in this AD
as of May 12, 2031.
""",
    discussion="""
Four operators reported a tie bolt of the brake assembly broken under the head. One airplane left the side
of the
runway at low speed after the back plate turned with the disc and cut the brake hose. An examination found
hydrogen
embrittlement in bolts of several lots. The repeated inspection that the maker recommends as Part 1 of its
bulletin is
not required by this AD, because the FAA finds that the replacement can be done within the time allowed.

The FAA received one comment. An operator asked to permit any later revision of the bulletin. The FAA does
not agree: a
later revision can hold actions on which the public could not comment. Any person may ask for an alternative
method of
compliance as given in paragraph (j) of this AD. The rule is not changed.
""",
    rule="""
# (a) Effective Date

This AD is effective May 12, 2031.

# (b) Affected ADs

None.

# (c) Applicability

This AD applies to the following airplanes, certificated in any category, that have a brake assembly with
part number
QZ32-4410-1 or QZ32-4410-3 installed:

(1) Aldermoor Aircraft Corporation Model QZ62 airplanes, serial numbers QZ-001 through QZ-188, except QZ-151.

(2) Aldermoor Aircraft Corporation Model QZ62S airplanes, serial numbers QZS-001 through QZS-034.

# (d) Subject

Joint Aircraft System Component (JASC)/Air Transport Association (ATA) of America Code 32, Landing Gear.

# (e) Unsafe Condition

This AD was prompted by reports of broken tie bolts in the main wheel brake assemblies. The FAA is issuing
this AD to
prevent the loss of braking on one side, which could lead to loss of directional control on the ground.

# (f) Compliance

Comply with this AD within the compliance times specified, unless already done.

# (g) Replacement of the Tie Bolts

Within 60 hours time-in-service after the effective date of this AD, replace all four tie bolts of each
brake assembly
in accordance with Part 2 of the Accomplishment Instructions of Aldermoor Service Bulletin QZ62-32-0114,
Revision B,
dated February 20, 2031. Where the bulletin says to write on the identification plate, this AD does not
require that
action.

# (h) Parts Installation Prohibition

As of the effective date of this AD, do not install a tie bolt with part number QZ32-4421-3 on any airplane.

# (i) Credit for Previous Actions

This paragraph provides credit for the actions required by paragraph (g) of this AD, if those actions were
performed
before the effective date of this AD using Aldermoor Service Bulletin QZ62-32-0114, original issue, dated
September 2,
2030, or Revision A, dated December 9, 2030.

# (j) Alternative Methods of Compliance (AMOCs)

(1) The Manager, Northlake Aircraft Certification Office, has the authority to approve AMOCs for this AD, if
requested
using the procedures found in 14 CFR 39.19. Send the request to the person named in paragraph (k)(1) of this
AD.

(2) Before using any approved AMOC, notify your appropriate principal inspector, or lacking a principal
inspector, the
manager of the responsible Flight Standards Office.

# (k) Related Information

(1) For more information about this AD, contact Emeric Vandersluys-Tate, Aviation Safety Engineer, Northlake
Aircraft
Certification Office.

(2) Aldermoor Service Letter SL-0219, dated April 3, 2031, gives information on the care of brakes in wet
and salty
conditions. It is not incorporated by reference in this AD and nothing in it is required.

# (l) Material Incorporated by Reference

(1) The Director of the Federal Register approved the incorporation by reference of the material listed in
this
paragraph under 5 U.S.C. 552(a) and 1 CFR part 51.

(2) You must use this material as applicable to do the actions required by this AD, unless this AD specifies
otherwise.

(i) Aldermoor Service Bulletin QZ62-32-0114, Revision B, dated February 20, 2031.

(3) For the material identified in this AD, contact Aldermoor Aircraft Corporation, Publications, Northlake.

!gap 12

Issued on March 31, 2031.

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office | March 31, 2031
""",
)


def topics():
    return form.topics(DIRECTIVE)
