"""AD 2030-19-04 on the 1950s single: makes Pellworth Service Bulletin No. 27 mandatory. JASC code only."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.directives import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_SINGLE, OFFICE, SINGLE, SINGLE_B

DIRECTIVE = form.Directive(
    publication=PublicationFacts(
        file="ad-2030-19-04.pdf",
        type="airworthiness-directive",
        number="2030-19-04",
        title=f"Airworthiness Directives; {MAKER_SINGLE} Airplanes",
        maker=MAKER_SINGLE,
        models=(SINGLE, SINGLE_B),
        revision="",
        date=datetime.date(2030, 10, 21),
    ),
    docket="FAA-2030-9541",
    project="AD-2030-00710-A",
    amendment="39-29455",
    subject_chapter="28-23",
    subject_scheme="JASC",
    office=OFFICE,
    note="JASC code 2823, no ATA code printed",
    summary="""
The FAA is adopting a new airworthiness directive (AD) for certain Pellworth Aeroplane Company Model H-14
and H-14B
airplanes. This AD was prompted by engine stoppage with fuel in both tanks. This AD requires replacing the
detent plate and
the spring of the fuel selector valve.
""",
    effective="October 21, 2030",
    incorporated="""
The Director of the Federal Register approved the incorporation by reference of a certain publication listed
in this AD as
of October 21, 2030.
""",
    discussion="""
Three airplanes made forced landings with fuel in both tanks. The handle of the fuel selector valve stood
between two
positions. The maker told owners of the worn detent plate in 1957, but many airplanes were never changed.

The type has a service manual with its own order of sections; Section XIII of that manual describes the fuel
system. The FAA
received no comments.
""",
    rule="""
# (a) Effective Date

This AD is effective October 21, 2030.

# (b) Affected ADs

None.

# (c) Applicability

This AD applies to Pellworth Aeroplane Company Model H-14 and H-14B airplanes, serial numbers H-101 through
H-262, except
H-144 and H-145, certificated in any category.

# (d) Subject

Joint Aircraft System Component (JASC) Code 2823, Fuel Selector/Shut-off Valve.

# (e) Unsafe Condition

This AD was prompted by engine stoppage with fuel in both tanks. The unsafe condition, if not addressed,
could result in a
forced landing.

# (f) Compliance

Comply with this AD within the compliance times specified, unless already done.

# (g) Replacement

Within 25 hours time-in-service after the effective date of this AD, replace the detent plate and the spring
of the fuel
selector valve in accordance with Pellworth Service Bulletin No. 27, dated May 6, 1957.

# (h) Placard

Before further flight, install a placard beside the selector handle with the words: HANDLE MUST CLICK IN
PLACE. The owner or
operator holding at least a private pilot certificate may do this action.

# (i) Alternative Methods of Compliance (AMOCs)

The Manager, Northlake Aircraft Certification Office, has the authority to approve AMOCs for this AD, if
requested using the
procedures found in 14 CFR 39.19.

# (j) Related Information

(1) For more information about this AD, contact Sunniva Halloran-Pryce, Aviation Safety Engineer, Northlake
Aircraft
Certification Office.

(2) The Hedgeling Service Manual, revised November 1, 1958, shows the parts of the valve. It is not required
by this AD.

# (k) Material Incorporated by Reference

(1) The Director of the Federal Register approved the incorporation by reference of the material listed in
this paragraph
under 5 U.S.C. 552(a) and 1 CFR part 51.

(2) You must use this material as applicable to do the actions required by this AD, unless this AD specifies
otherwise.

(i) Pellworth Service Bulletin No. 27, dated May 6, 1957.

!gap 10

Issued on September 12, 2030.

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office | September 12, 2030
""",
)


def topics() -> list[Topic]:
    return form.topics(DIRECTIVE)
