"""AD 2029-22-08 on the cabin door, and AD 2032-03-05, which supersedes it."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.directives import form
from sample_docs.draw.facts import PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, OFFICE, TWIN, TWIN_SURVEY


def _facts(number: str, effective: datetime.date) -> PublicationFacts:
    return PublicationFacts(
        file=f"ad-{number}.pdf",
        type="airworthiness-directive",
        number=number,
        title=f"Airworthiness Directives; {MAKER_TWIN} Airplanes",
        maker=MAKER_TWIN,
        models=(TWIN, TWIN_SURVEY),
        revision="",
        date=effective,
    )


OLD = form.Directive(
    publication=_facts("2029-22-08", datetime.date(2029, 12, 3)),
    docket="FAA-2029-9308",
    project="AD-2029-00951-A",
    amendment="39-28814",
    subject_chapter="52",
    subject_scheme="ATA",
    office=OFFICE,
    in_force=False,
    replaced_by="2032-03-05",
    note="superseded: history only",
    summary="""
The FAA is adopting a new airworthiness directive (AD) for certain Aldermoor Aircraft Corporation Model QZ62
and QZ62S
airplanes. This AD was prompted by two cabin doors that came open at lift-off. This AD requires repetitive
inspections of
the engagement of the cabin door latch pins.
""",
    effective="December 3, 2029",
    incorporated="""
The Director of the Federal Register approved the incorporation by reference of a certain publication listed
in this AD as
of December 3, 2029.
""",
    discussion="""
Two cabin doors came open at lift-off. In both, the upper latch pin was in its striker plate by less than
one quarter of an
inch. An open door in flight takes the attention of the crew, and one of the two airplanes came back to the
ground outside
the runway. No comment was received on the proposal, and the rule is adopted as proposed.
""",
    rule="""
# (a) Effective Date

This AD is effective December 3, 2029.

# (b) Affected ADs

None.

# (c) Applicability

This AD applies to Aldermoor Aircraft Corporation Model QZ62 airplanes, serial numbers QZ-001 through
QZ-140, and Model
QZ62S airplanes, serial numbers QZS-001 through QZS-019, certificated in any category.

# (d) Subject

Air Transport Association (ATA) of America Code 52, Doors.

# (e) Unsafe Condition

This AD was prompted by two cabin doors that came open at lift-off. The unsafe condition, if not addressed,
could result in
the loss of attention of the crew and loss of control of the airplane.

# (f) Compliance

Comply with this AD within the compliance times specified, unless already done.

# (g) Repetitive Inspections

Within 100 hours time-in-service after the effective date of this AD, and thereafter at intervals not to
exceed 12 months,
inspect the engagement of the latch pins in accordance with the Accomplishment Instructions of Aldermoor
Service Bulletin
QZ62-52-0087, original issue, dated July 11, 2029.

# (h) Corrective Action

If the engagement of a pin is less than the minimum given in the bulletin, before further flight adjust it
or replace the
striker plate.

# (i) Alternative Methods of Compliance (AMOCs)

The Manager, Northlake Aircraft Certification Office, has the authority to approve AMOCs for this AD, if
requested using the
procedures found in 14 CFR 39.19.

# (j) Related Information

For more information about this AD, contact Emeric Vandersluys-Tate, Aviation Safety Engineer, Northlake
Aircraft
Certification Office.

# (k) Material Incorporated by Reference

(1) The Director of the Federal Register approved the incorporation by reference of the material listed in
this paragraph
under 5 U.S.C. 552(a) and 1 CFR part 51.

(2) You must use this material as applicable to do the actions required by this AD, unless this AD specifies
otherwise.

(i) Aldermoor Service Bulletin QZ62-52-0087, original issue, dated July 11, 2029.

!gap 10

Issued on October 19, 2029.

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office | October 19, 2029
""",
)

NEW = form.Directive(
    publication=_facts("2032-03-05", datetime.date(2032, 3, 15)),
    docket="FAA-2031-9922",
    project="AD-2031-01207-A",
    amendment="39-30126",
    subject_chapter="52",
    subject_scheme="ATA",
    office=OFFICE,
    summary="""
The FAA is superseding Airworthiness Directive (AD) 2029-22-08, which applied to certain Aldermoor Aircraft
Corporation Model
QZ62 and QZ62S airplanes. AD 2029-22-08 required repetitive inspections of the engagement of the cabin door
latch pins. This
AD requires installing a latch assembly with a long upper pin, and applies to more airplanes. The
installation ends the
inspections.
""",
    effective="March 15, 2032",
    incorporated="""
The Director of the Federal Register approved the incorporation by reference of a certain publication listed
in this AD as
of March 15, 2032.
""",
    discussion="""
Since the FAA issued AD 2029-22-08, one cabin door came open six hours after an inspection with good
results. The cam of the
latch was worn, and the inspection does not find a worn cam. The maker has designed a latch assembly with a
long upper pin
and a new cam.

One commenter asked to keep the inspections as an option. The FAA does not agree, because the inspections
did not find the
defect. The rule is adopted as proposed.
""",
    rule="""
# (a) Effective Date

This AD is effective March 15, 2032.

# (b) Affected ADs

This AD replaces AD 2029-22-08, Amendment 39-28814 (AD 2029-22-08).

# (c) Applicability

This AD applies to Aldermoor Aircraft Corporation Model QZ62 airplanes, serial numbers QZ-001 through
QZ-188, and Model
QZ62S airplanes, serial numbers QZS-001 through QZS-034, certificated in any category.

# (d) Subject

Air Transport Association (ATA) of America Code 52, Doors.

# (e) Unsafe Condition

This AD was prompted by a cabin door that came open after an inspection with good results. The unsafe
condition, if not
addressed, could result in the loss of attention of the crew and loss of control of the airplane.

# (f) Compliance

Comply with this AD within the compliance times specified, unless already done.

# (g) Installation of the Latch Assembly

Within 100 hours time-in-service or 6 months after the effective date of this AD, whichever occurs first,
install the latch
assembly QZ52-1120-5 in accordance with paragraphs 3.B through 3.D of the Accomplishment Instructions of
Aldermoor Service
Bulletin QZ62-52-0093, Revision A, dated November 14, 2031.

# (h) Credit for Previous Actions

This paragraph provides credit for the actions required by paragraph (g) of this AD, if those actions were
performed before
the effective date of this AD using Aldermoor Service Bulletin QZ62-52-0093, original issue, dated September
30, 2031.

# (i) Alternative Methods of Compliance (AMOCs)

(1) The Manager, Northlake Aircraft Certification Office, has the authority to approve AMOCs for this AD, if
requested using
the procedures found in 14 CFR 39.19.

(2) AMOCs approved previously for AD 2029-22-08 are not approved as AMOCs for this AD.

# (j) Related Information

(1) For more information about this AD, contact Emeric Vandersluys-Tate, Aviation Safety Engineer, Northlake
Aircraft
Certification Office.

(2) Aldermoor Maintenance Manual QZM-62-2, 52-11-00, has further information on the adjustment of the latch.

# (k) Material Incorporated by Reference

(1) The Director of the Federal Register approved the incorporation by reference of the material listed in
this paragraph
under 5 U.S.C. 552(a) and 1 CFR part 51.

(2) You must use this material as applicable to do the actions required by this AD, unless this AD specifies
otherwise.

(i) Aldermoor Service Bulletin QZ62-52-0093, Revision A, dated November 14, 2031.

!gap 10

Issued on January 30, 2032.

!sign Odalys T. Brannigan-Rook | Manager, Northlake Aircraft Certification Office | January 30, 2032
""",
)


def old() -> list[Topic]:
    return form.topics(OLD)


def new() -> list[Topic]:
    return form.topics(NEW)
