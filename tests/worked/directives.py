"""Directives of the worked questions: two of the lettered form's cases each have one, and two older forms."""

import datetime

from worked.bulletins import BRACKENFELL, STANNARD, WENSLEY
from worked.paper import SHEET, pages, publication

from sample_docs.draw.book import Topic
from sample_docs.draw.directives import form
from sample_docs.draw.fleet import OFFICE

RULE = """
# (a) Effective Date

This AD is effective {effective}.

# (b) Affected ADs

None.

# (c) Applicability

This AD applies to Brackenfell Aircraft Company Model XJ9 airplanes, {serials}, certificated in any category.

# (d) Subject

Joint Aircraft System Component (JASC)/Air Transport Association (ATA) of America Code {code}.

# (e) Unsafe Condition

This AD was prompted by {prompted}.

# (f) Compliance

Comply with this AD within the compliance times specified, unless already done.

{required}

# (j) Alternative Methods of Compliance (AMOCs)

(1) The Manager, Northlake Aircraft Certification Office, has the authority to approve AMOCs for this AD, if
requested using the procedures found in 14 CFR 39.19.

(2) Before using any approved AMOC, notify your appropriate principal inspector.

# (k) Material Incorporated by Reference

(1) The Director of the Federal Register approved the incorporation by reference of the material listed in
this
paragraph under 5 U.S.C. 552(a) and 1 CFR part 51.

(2) You must use this material as applicable to do the actions required by this AD, unless this AD specifies
otherwise.

(i) {incorporated}

Issued on March 2, 2099.

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office | March 2, 2099
"""


def _directive(
    number: str,
    effective: datetime.date,
    code: str,
    prompted: str,
    required: str,
    incorporated: str,
    serials: str,
) -> list[Topic]:
    printed = f"{effective:%B} {effective.day}, {effective.year}"
    of = publication(
        f"ad-{number}.pdf",
        "airworthiness-directive",
        number,
        f"Airworthiness Directives; {BRACKENFELL} Airplanes",
        BRACKENFELL,
        "XJ9",
        "",
        effective.isoformat(),
    )
    tail = number.replace("-", "")
    return form.topics(
        form.Directive(
            publication=of,
            docket=f"FAA-2099-{tail[-4:]}",
            project=f"AD-2099-00{tail[-3:]}-A",
            amendment=f"39-9{tail[-4:]}",
            subject_chapter=code[:2],
            subject_scheme="ATA",
            office=OFFICE,
            summary=f"The FAA is adopting a new airworthiness directive (AD) for certain "
            f"{BRACKENFELL} Model XJ9 airplanes. This AD was prompted by {prompted}.",
            effective=printed,
            incorporated="The Director of the Federal Register approved the incorporation by reference of a "
            f"certain publication listed in this AD as of {printed}.",
            discussion="The FAA received no comments on the proposal.",
            rule=RULE.format(
                effective=printed,
                serials=serials,
                code=code,
                prompted=prompted,
                required=required.strip(),
                incorporated=incorporated,
            ),
        )
    )


def frame_strap() -> list[Topic]:
    return _directive(
        "2099-04-07",
        datetime.date(2099, 4, 20),
        "53, Fuselage",
        "cracks in the inner flange of the frame at station 141",
        """
# (g) Required Actions

Within 300 hours time-in-service after the effective date of this AD, install the reinforcing strap in
accordance
with Part 3 of the Accomplishment Instructions of Brackenfell Alert Service Bulletin XJ9-53A0041, Revision 3,
dated November 2, 2098.
""",
        "Brackenfell Alert Service Bulletin XJ9-53A0041, Revision 3, dated November 2, 2098.",
        "serial numbers XJ9-0001 through XJ9-0240",
    )


def spar_doubler() -> list[Topic]:
    return _directive(
        "2099-05-08",
        datetime.date(2099, 6, 1),
        "57, Wings",
        "cracks in the web of the rear spar",
        """
# (g) Required Actions

Within 12 months after the effective date of this AD, install the doubler in accordance with the
Accomplishment
Instructions of Brackenfell Service Bulletin XJ9-57-0012, Revision 4, dated January 19, 2099.

# (h) Credit for Previous Actions

This paragraph provides credit for the actions required by paragraph (g) of this AD, if those actions were
performed before the effective date of this AD using Brackenfell Service Bulletin XJ9-57-0012, Revision 3,
dated
April 11, 2098.
""",
        "Brackenfell Service Bulletin XJ9-57-0012, Revision 4, dated January 19, 2099.",
        "all serial numbers",
    )


def axle_nut() -> list[Topic]:
    return _directive(
        "2099-06-05",
        datetime.date(2099, 6, 21),
        "32, Landing Gear",
        "loose nose wheel axle nuts",
        """
# (g) Required Actions

Within 50 hours time-in-service after the effective date of this AD, replace the nose wheel axle nut in
accordance
with the Accomplishment Instructions of Brackenfell Service Bulletin XJ9-32-0020, Revision 1, dated January 8,
2099, except as specified in paragraph (h) of this AD.

# (h) Exception to the Service Bulletin

Where Brackenfell Service Bulletin XJ9-32-0020, Revision 1, dated January 8, 2099, specifies a torque of 50
inch-pounds for the axle nut, this AD requires a torque of 60 inch-pounds.
""",
        "Brackenfell Service Bulletin XJ9-32-0020, Revision 1, dated January 8, 2099.",
        "all serial numbers",
    )


def trim_screw() -> list[Topic]:
    return _directive(
        "2099-07-09",
        datetime.date(2099, 7, 30),
        "27, Flight Controls",
        "worn gears of the elevator trim actuator",
        """
# (g) Required Actions

Within 100 hours time-in-service after the effective date of this AD, inspect the trim actuator in
accordance with
the Accomplishment Instructions of Brackenfell Service Bulletin XJ9-27-0020, original issue, dated February 2,
2099.

Note 1 to paragraph (g): Brackenfell Service Bulletin XJ9-27-0020, original issue, references Quillhurst
Controls
Service Bulletin QC-27-114 as an additional source of service information.
""",
        "Brackenfell Service Bulletin XJ9-27-0020, original issue, dated February 2, 2099.",
        "all serial numbers",
    )


def hinge_brackets() -> list[Topic]:
    """The form of the 1940s and 1950s, as AD 47-51-08 is printed: one paragraph and a closing parenthesis."""
    of = publication(
        "ad-52-07-03.pdf",
        "airworthiness-directive",
        "52-07-03",
        "Airworthiness Directive",
        STANNARD,
        "S-2",
        "",
        "",
    )
    text = """
!centre AIRWORTHINESS DIRECTIVE

**52-07-03 STANNARD:** Applies to All Model S-2 Airplanes.

Compliance required not later than June 1, 1952.

To prevent loss of an aileron, remove both ailerons and inspect the welds of the hinge brackets for cracks.
Brackets
with cracks must be replaced before further flight.

(Stannard Service Bulletin No. 5 also covers this same subject.)
"""
    return pages(of, SHEET, text)


def fuel_cap() -> list[Topic]:
    """The form of the 1980s and 1990s: models and serial numbers as AD 89-24-09 lists them."""
    of = publication(
        "ad-91-22-06.pdf",
        "airworthiness-directive",
        "91-22-06",
        "Airworthiness Directive",
        WENSLEY,
        "B80",
        "",
        "1991-11-15",
    )
    text = """
!centre AIRWORTHINESS DIRECTIVE

**91-22-06 WENSLEY AIRCRAFT COMPANY:** Amendment 39-8066. Docket No. 91-CE-31-AD.

Applicability: The airplanes listed below, certificated in any category:

!plain [2 5]
| MODELS | SERIAL NUMBERS
| B80 | QB-1 through QB-816, except QB-814

Compliance: Required within the next 50 hours time-in-service after the effective date of this AD, unless
already
accomplished.

To prevent loss of fuel through the filler cap, accomplish the following:

(a) Inspect the seal of each fuel filler cap for cracks and replace a cracked seal before further flight.

(b) An alternative method of compliance that provides an equivalent level of safety may be used if approved
by the
Manager, Northlake Aircraft Certification Office.

This amendment (39-8066, AD 91-22-06) becomes effective on November 15, 1991.
"""
    return pages(of, SHEET, text)
