"""Invented directives in the forms of every era, each with what a person reads in it.

Forms: the opening words of AD 47-51-08, AD 89-24-09 and of directives of 1999 to 2004, the lettered form
since
about 2005, and those that carry over another authority's directive, as the published texts have them. Makers,
numbers and aircraft are fiction.
"""

import datetime
from dataclasses import dataclass

D = datetime.date


@dataclass(frozen=True)
class Form:
    """A text and its truth. Documents are (document, revision, date); credit has the bound as well."""

    name: str
    text: str
    number: str = ""
    amendment: str = ""
    effective: datetime.date | None = None
    supersedes: tuple[str, ...] = ()
    chapters: tuple[str, ...] = ()
    applicability: str = ""  # its opening words
    ends: str = ""  # its last words
    incorporated: tuple = ()
    required: tuple = ()
    credit: tuple = ()
    is_rule: bool = True
    emergency: bool = False
    proposal: bool = False


FORTIES = Form(
    "1940s, a bulletin that only covers the same subject",
    """47-51-09 CORVANE: Applies to All Model CV-3 Aircraft.
Compliance required not later than March 1, 1948.
To prevent failure of the propeller hub, replace the hub nut with Part No. 3-0177.
(Service Bulletin No. 5 also covers this same subject.)
""",
    number="47-51-09",
    applicability="Applies to All Model CV-3 Aircraft",
    ends="All Model CV-3 Aircraft.",
)
FORTIES_NOTE = Form(
    "1940s, with the note it was before",
    """46-24-03 DELLMORE: (Was Mandatory Note 12 of AD-691-8.) Applies Only to D4C-65 Aircraft Serial
Numbers 4600 to
5100, Inclusive.
Compliance required prior to next periodic inspection.
Inspect the landing gear fittings in accordance with Dellmore Service Bulletin No. 12 and replace cracked
fittings.
""",
    number="46-24-03",
    applicability="Applies Only to D4C-65 Aircraft",
    ends="5100, Inclusive.",
    required=(("12", "", None),),
)
FORTIES_SUPERSEDES = Form(
    "1940s, superseding an earlier one",
    """49-18-02 CORVANE: Applies to Models 11A and 11C Aircraft Serial Numbers 1 to 900.
Compliance required by October 1, 1949.
Install a drain hole in the lower longeron.
This supersedes AD 47-33-06.
""",
    number="49-18-02",
    supersedes=("47-33-06",),
    applicability="Applies to Models 11A and 11C",
    ends="1 to 900.",
)
SIXTIES = Form(
    "1960s, an amendment of part 507",
    """62-26-01 PELLWORTH: Amdt. 516 Part 507 Federal Register December 19, 1962. Applies to All Model PW-23
Aircraft
Serial Numbers 23-1 Through 23-2100.
Compliance required within the next 50 hours' time in service after the effective date of this directive.
Inspect the control cable in accordance with Pellworth Service Letter No. 391, dated October 2, 1962.
This directive effective December 19, 1962.
""",
    number="62-26-01",
    amendment="516",
    effective=D(1962, 12, 19),
    applicability="Applies to All Model PW-23 Aircraft",
    ends="23-1 Through 23-2100.",
    required=(("391", "", D(1962, 10, 2)),),
)
SEVENTIES = Form(
    "1970s, amended once, supersedes at its foot",
    """78-05-06 CORVANE: Amendment 39-3153 as amended by Amendment 39-3207. Applies to Models C-110 (Serial
Numbers 10001
through 17445) airplanes certificated in all categories.
COMPLIANCE: Required within the next 100 hours' time in service after the effective date of this AD, unless
already
accomplished.
To detect cracks in the door post, accomplish the following:
(A) Inspect the door post in accordance with Corrigan Service Letter SE78-9, Revision 1, dated February 20,
1978, or
later approved revisions.
(B) Any equivalent method of compliance with this AD must be approved by the Chief, Engineering Branch, FAA.
This supersedes AD 75-20-05, Amendment 39-2370.
Amendment 39-3153 became effective March 15, 1978.
This Amendment 39-3207 becomes effective May 3, 1978.
""",
    number="78-05-06",
    amendment="39-3207",
    effective=D(1978, 5, 3),
    supersedes=("75-20-05",),
    applicability="Applies to Models C-110",
    ends="in all categories.",
    required=(("SE78-9", "1", D(1978, 2, 20)),),
)
EIGHTIES = Form(
    "1980s, the form of AD 89-24-09",
    """89-24-10 DELLMORE: Amendment 39-6391. Docket No. 89-CE-24-AD.
Applicability: The airplanes listed below, certificated in any category:
MODELS SERIAL NUMBERS
D58 and D58A MB-1 through MB-816, except MB-814
D58P MC-1 through MC-300
Compliance: Required as indicated after the effective date of this AD, unless already accomplished.
To prevent failure of the wing attach bolts, accomplish the following:
(a) Within the next 100 hours time-in-service after the effective date of this AD, inspect the bolts in
accordance
with the instructions in Dellmore Service Bulletin No. 2198, dated April 1989.
(b) If cracks are found, prior to further flight, replace the bolt.
(c) Airplanes may be flown in accordance with FAR 21.197 to a location where this AD can be done.
(d) An alternate method of compliance, which provides an equivalent level of safety, may be used if approved
by the
Manager, Wichita Aircraft Certification Office.
All persons affected by this directive may obtain copies of the documents from Dellmore.
This amendment (39-6391, AD 89-24-10) becomes effective on December 8, 1989.
""",
    number="89-24-10",
    amendment="39-6391",
    effective=D(1989, 12, 8),
    applicability="The airplanes listed below, certificated in any category",
    ends="D58P MC-1 through MC-300",
    required=(("2198", "", None),),
)
EIGHTIES_R1 = Form(
    "1980s, a revision of itself",
    """82-27-14 R1 CORVANE: Amendment 39-4536 as revised by Amendment 39-5000. Applies to Model C-300
(serial numbers
300-1 through 300-99) airplanes.
Compliance: Required as indicated.
(a) Within 25 hours, inspect the spar.
This amendment revises AD 82-27-14, Amendment 39-4536.
This amendment becomes effective January 10, 1985.
""",
    number="82-27-14R1",
    amendment="39-5000",
    effective=D(1985, 1, 10),
    supersedes=("82-27-14",),
    applicability="Applies to Model C-300",
    ends="300-99) airplanes.",
)
NINETIES = Form(
    "1990s, to all persons but those warned before",
    """96-12-02 Pellworth Turbines: Amendment 39-9640. Docket No. 96-ANE-11. Supersedes priority letter AD
96-10-51.
Applicability: Pellworth Turbines Model PT-14 turbofan engines, installed on Corvane C-220 airplanes.
NOTE 1: This AD applies to each engine identified in the preceding applicability provision.
Compliance: Required as indicated, unless accomplished previously.
To prevent uncontained failure, accomplish the following:
(a) Within 50 cycles, unless accomplished previously, replace the disk in accordance with Pellworth Alert
Service
Bulletin A72-338, Revision 2, dated May 1, 1996.
(b) Disks replaced prior to the effective date of this AD in accordance with Pellworth Alert Service
Bulletin A72-338,
Revision 1, dated April 2, 1996, are considered acceptable for compliance with paragraph (a) of this AD.
(c) An alternative method of compliance may be used if approved by the Manager, Engine Certification Office.
(d) The actions required by this AD shall be done in accordance with Pellworth Alert Service Bulletin
A72-338, Revision
2, dated May 1, 1996. This incorporation by reference was approved by the Director of the Federal Register in
accordance with 5 U.S.C. 552(a) and 1 CFR part 51. Copies may be obtained from Pellworth Turbines.
(e) This amendment becomes effective July 5, 1996, to all persons except those persons to whom it was made
immediately effective by priority letter AD 96-10-51, issued May 10, 1996.
""",
    number="96-12-02",
    amendment="39-9640",
    effective=D(1996, 7, 5),
    applicability="Pellworth Turbines Model PT-14 turbofan engines",
    ends="on Corvane C-220 airplanes.",
    supersedes=("96-10-51",),
    incorporated=(("A72-338", "2", D(1996, 5, 1)),),
    required=(("A72-338", "2", D(1996, 5, 1)),),
    credit=(("A72-338", "1", D(1996, 4, 2), D(1996, 7, 5)),),
)
REGISTER_2001 = Form(
    "2001, from the register, with two sentences of incorporation",
    """[Federal Register: October 30, 2001 (Volume 66, Number 210)]
DEPARTMENT OF TRANSPORTATION
Federal Aviation Administration
14 CFR Part 39
[Docket No. 99-NM-77-AD; Amendment 39-12164; AD 2001-22-08]
Airworthiness Directives; Corvane Model C-737 Series Airplanes
AGENCY: Federal Aviation Administration, DOT.
ACTION: Final rule.
SUMMARY: This amendment supersedes an existing airworthiness directive (AD), applicable to certain Corvane
Model C-737
series airplanes, that currently requires inspections. This amendment adds a terminating action.
DATES: Effective December 4, 2001.
The incorporation by reference of Corvane Alert Service Bulletin C737-53A1177, Revision 3, dated August 3,
2000, as
listed in the regulations, is approved by the Director of the Federal Register as of December 4, 2001.
The incorporation by reference of Corvane Service Bulletin C737-53-1179, dated June 22, 1998, as listed in the
regulations, was approved previously by the Director of the Federal Register as of July 5, 1999 (64 FR
29783, June 3,
1999).
SUPPLEMENTARY INFORMATION: A proposal to amend part 39 by superseding AD 98-25-06, amendment 39-10930 (63 FR
67769,
December 9, 1998), was published in the Federal Register on March 2, 2001 (66 FR 13227).
Adoption of the Amendment
2. Section 39.13 is amended by removing amendment 39-10930 (63 FR 67769, December 9, 1998), and by adding a
new
airworthiness directive (AD), amendment 39-12164, to read as follows:
2001-22-08 Corvane: Amendment 39-12164. Docket 99-NM-77-AD. Supersedes AD 98-25-06, Amendment 39-10930.
Applicability: Model C-737 series airplanes having line numbers 1 through 2552 inclusive; certificated in any
category.
Note 1: This AD applies to each airplane identified in the preceding applicability provision.
Compliance: Required as indicated, unless accomplished previously.
To find and fix cracking of the fuselage skin, accomplish the following:
Inspections
(a) Within 4,500 flight cycles, do an inspection per Corvane Service Bulletin C737-53-1179, dated June 22,
1998.
(b) Do the modification per Part 2 of the Accomplishment Instructions of Corvane Alert Service Bulletin
C737-53A1177,
Revision 3, dated August 3, 2000.
Alternative Methods of Compliance
(c) An alternative method of compliance that provides an acceptable level of safety may be used if approved
by the
Manager, Seattle Aircraft Certification Office.
Special Flight Permits
(d) Special flight permits may be issued in accordance with 14 CFR 21.197.
Effective Date
(e) This amendment becomes effective on December 4, 2001.
Issued in Renton, Washington, on October 23, 2001.
""",
    number="2001-22-08",
    amendment="39-12164",
    effective=D(2001, 12, 4),
    supersedes=("98-25-06",),
    applicability="Model C-737 series airplanes",
    ends="certificated in any category.",
    incorporated=(("C737-53A1177", "3", D(2000, 8, 3)), ("C737-53-1179", "", D(1998, 6, 22))),
    required=(("C737-53-1179", "", D(1998, 6, 22)), ("C737-53A1177", "3", D(2000, 8, 3))),
)
UNLETTERED_2003 = Form(
    "2003, several documents in one list of the rule",
    """2003-14-05 Dellmore Aviation, Inc.: Amendment 39-13222. Docket No. 2001-CE-14-AD.
Applicability: Model D58 airplanes, serial numbers MB-1 through MB-816, certificated in any category.
Compliance: Required as indicated, unless accomplished previously.
(a) Replace the hinge in accordance with Dellmore Service Bulletin SB 27-3398, Revision 1, dated February 4,
2002.
Incorporation by Reference
(b) The actions must be done in accordance with Dellmore Service Bulletin SB 27-3398, Revision 1, dated
February 4,
2002; and Dellmore Service Bulletin No. 17, Supplement No. 2, dated March 3, 1999. This incorporation by
reference was
approved by the Director of the Federal Register.
Effective Date
(c) This amendment becomes effective on September 2, 2003.
""",
    number="2003-14-05",
    amendment="39-13222",
    effective=D(2003, 9, 2),
    applicability="Model D58 airplanes",
    ends="certificated in any category.",
    incorporated=(("SB 27-3398", "1", D(2002, 2, 4)), ("17, Supplement No. 2", "", D(1999, 3, 3))),
    required=(("SB 27-3398", "1", D(2002, 2, 4)), ("17, Supplement No. 2", "", D(1999, 3, 3))),
)
LETTERED_2005 = Form(
    "2005, headings above their letters",
    """Airworthiness Directives; Corvane Model C-220 Airplanes
AGENCY: Federal Aviation Administration (FAA), DOT.
ACTION: Final rule.
DATES: This AD becomes effective January 5, 2006.
2005-25-11 Corvane Aircraft Company: Amendment 39-14480. Docket No. FAA-2005-23006; Directorate Identifier
2002-NM-51-AD.
Effective Date
(a) This AD becomes effective January 5, 2006.
Affected ADs
(b) This AD supersedes AD 2000-15-17, Amendment 39-11849, and AD 99-08-21.
Applicability
(c) This AD applies to Corvane Model C-220 airplanes, serial numbers 001 through 410; certificated in any
category.
Unsafe Condition
(d) This AD results from cracks.
Compliance
(e) You are responsible for having the actions done.
Modification
(f) Within 6 months, modify the pylon in accordance with Corvane Service Bulletin C220-54-0031, Revision 2,
dated
June 1, 2005.
Material Incorporated by Reference
(g) You must use Corvane Service Bulletin C220-54-0031, Revision 2, dated June 1, 2005, to do the actions,
unless the
AD specifies otherwise.
""",
    number="2005-25-11",
    amendment="39-14480",
    effective=D(2006, 1, 5),
    supersedes=("2000-15-17", "99-08-21"),
    applicability="This AD applies to Corvane Model C-220 airplanes",
    ends="certificated in any category.",
    incorporated=(("C220-54-0031", "2", D(2005, 6, 1)),),
    required=(("C220-54-0031", "2", D(2005, 6, 1)),),
)
LETTERED = Form(
    "2030s, lists of several documents, credit with two bounds",
    """Federal Aviation Administration
14 CFR Part 39
[Docket No. FAA–2032–0224; Amendment 39–31007; AD 2033–05–11]
ACTION: Final rule.
SUMMARY: The FAA is superseding Airworthiness Directive (AD) 2030–02–09, which applied to certain Corvane
airplanes.
AD 2028–19–28 required inspections.
DATES: This AD is effective June 1, 2033.
The Director of the Federal Register approved the incorporation by reference of certain publications as of
June 1, 2033.
2033–05–11 Corvane Aircraft Company: Amendment 39–31007; Docket No. FAA–2032–0224.
(a) Effective Date
This AD is effective June 1, 2033.
(b) Affected ADs
This AD replaces the ADs identified in paragraphs (b)(1) and (2) of this AD.
(1) AD 2030–02–09, Amendment 39–28000 (95 FR 33823, May 25, 2030).
(2) AD 2029–01–03 R1, Amendment 39–27111.
(c) Applicability
This AD applies to Corvane Model C–88 airplanes, certificated in any category, serial numbers 88–001 and on.
(d) Subject
Air Transport Association (ATA) of America Code 32, Landing gear; 53, Fuselage.
(e) Unsafe Condition
This AD was prompted by cracks.
(f) Compliance
Comply with this AD within the compliance times specified, unless already done.
(g) Inspection
Within 30 days, inspect the fork in accordance with Part 3 of the Accomplishment Instructions of Corvane
Alert Service
Bulletin 32A0012, Revision 3, dated August 3, 2032.
(h) Exceptions to Service Information
Where Corvane Alert Service Bulletin 32A0012, Revision 3, specifies to send a report, this AD does not
require it.
(i) Credit for Previous Actions
(1) This paragraph provides credit for the actions required by paragraph (g) of this AD, if those actions were
performed before the effective date of this AD using Corvane Alert Service Bulletin 32A0012, Revision 2, dated
May 2, 2031.
(2) This paragraph provides credit for the actions required by paragraph (g) of this AD, if those actions were
performed before May 12, 2030 (the effective date of AD 2030–02–09), using Corvane Alert Service Bulletin
32A0012,
Revision 1, dated March 3, 2029.
(j) Alternative Methods of Compliance (AMOCs)
(1) The Manager, AIR–520, FAA, has the authority to approve AMOCs for this AD.
(k) Additional Information
For more information see Corvane Service Letter SL–40, dated May 2, 2031.
(l) Material Incorporated by Reference
(1) The Director of the Federal Register approved the incorporation by reference (IBR) of the material
listed in this
paragraph under 5 U.S.C. 552(a) and 1 CFR part 51.
(2) You must use this material as applicable to do the actions required by this AD, unless this AD specifies
otherwise.
(i) Corvane Alert Service Bulletin 32A0012, Revision 3, dated August 3, 2032.
(ii) Corvane Service Bulletin 53–0077, Part 1, Original Issue, dated June 4, 2031.
(iii) Corvane C–88 Airworthiness Limitations Section, Revision 06, dated February 27, 2032.
(3) For Corvane Alert Service Bulletin 32A0012, contact Corvane Aircraft Company.
(4) You may view this material at the FAA.
Issued on April 2, 2033.
""",
    number="2033-05-11",
    amendment="39-31007",
    effective=D(2033, 6, 1),
    supersedes=("2030-02-09", "2029-01-03R1"),
    chapters=("32", "53"),
    applicability="This AD applies to Corvane Model C–88 airplanes",
    ends="88–001 and on.",
    incorporated=(
        ("32A0012", "3", D(2032, 8, 3)),
        ("53-0077", "original", D(2031, 6, 4)),
        ("Corvane C-88 Airworthiness Limitations Section", "06", D(2032, 2, 27)),
    ),
    required=(("32A0012", "3", D(2032, 8, 3)),),
    credit=(
        ("32A0012", "2", D(2031, 5, 2), D(2033, 6, 1)),
        ("32A0012", "1", D(2029, 3, 3), D(2030, 5, 12)),
    ),
)
CARRIED_OVER = Form(
    "2030s, another authority's directive carried over",
    """Federal Aviation Administration (FAA)
ACTION: Final rule.
2034-02-06 Dellmore Aviation SE: Amendment 39-32001; Docket No. FAA-2033-1409; Project Identifier
MCAI-2033-00736-R.
(a) Effective Date
This AD is effective March 4, 2034.
(b) Affected ADs
None.
(c) Applicability
This AD applies to Dellmore Aviation SE Model D-120 helicopters, certificated in any category, as identified
in
European Union Aviation Safety Agency (EASA) AD 2033-0237, dated November 3, 2033 (EASA AD 2033-0237).
(d) Subject
Joint Aircraft System Component (JASC) Code 6700, Rotorcraft Flight Control.
(e) Unsafe Condition
This AD was prompted by a report.
(f) Compliance
Comply with this AD within the compliance times specified, unless already done.
(g) Requirements
Except as specified in paragraphs (h) and (i) of this AD: Comply with all required actions and compliance
times
specified in, and in accordance with, EASA AD 2033-0237, dated November 3, 2033.
(h) Exceptions to EASA AD 2033-0237
(1) Where EASA AD 2033-0237 refers to its effective date, this AD requires using the effective date of this
AD.
(2) This AD does not adopt the Remarks section of EASA AD 2033-0237.
(i) No Reporting Requirement
Although the service information referenced in EASA AD 2033-0237 specifies to submit information, this AD
does not
require that action.
(j) Additional AD Provisions
(1) Alternative Methods of Compliance (AMOCs): The Manager, FAA, has the authority to approve AMOCs for this
AD.
(k) Material Incorporated by Reference
(1) The Director of the Federal Register approved the incorporation by reference of the material listed below.
(2) You must use this material as applicable to do the actions required by this AD.
(i) European Union Aviation Safety Agency (EASA) AD 2033-0237, dated November 3, 2033.
(ii) [Reserved]
(3) For EASA AD 2033-0237, contact EASA.
""",
    number="2034-02-06",
    amendment="39-32001",
    effective=D(2034, 3, 4),
    chapters=("6700",),
    applicability="This AD applies to Dellmore Aviation SE Model D-120 helicopters",
    ends="(EASA AD 2033-0237).",
    incorporated=(("2033-0237", "", D(2033, 11, 3)),),
    required=(("2033-0237", "", D(2033, 11, 3)),),
)
EMERGENCY = Form(
    "an emergency directive, effective upon receipt",
    """EMERGENCY AIRWORTHINESS DIRECTIVE
DATE: December 20, 2034
AD #: 2034-25-51
Emergency Airworthiness Directive (AD) 2034-25-51 is sent to owners and operators of Corvane Model C-44
helicopters.
This emergency AD was prompted by an accident. The Federal Aviation Administration issued AD 2033-11-02
before.
2034-25-51 Corvane Helicopters: Project Identifier AD-2034-00722-R.
(a) Effective Date
This Emergency AD is effective upon receipt.
(b) Affected ADs
None.
(c) Applicability
This AD applies to Corvane Helicopters Model C-44 helicopters, all serial numbers, certificated in any
category.
(d) Subject
Joint Aircraft System Component (JASC) Code 6710, Main Rotor Control.
(e) Unsafe Condition
This AD was prompted by an accident.
(f) Compliance
Comply with this AD within the compliance times specified, unless already done.
(g) Required Actions
Before further flight, inspect the swashplate.
""",
    number="2034-25-51",
    chapters=("6710",),
    applicability="This AD applies to Corvane Helicopters Model C-44 helicopters",
    ends="certificated in any category.",
    emergency=True,
)
REVISION_2020 = Form(
    "a revision R1 of a lettered directive",
    """Federal Aviation Administration
ACTION: Final rule.
2020-11-12R1 Pellworth Aircraft: Amendment 39-22019; Docket No. FAA-2021-1001.
(a) Effective Date
This airworthiness directive (AD) is effective July 19, 2022.
(b) Affected ADs
This AD revises AD 2020-11-12, Amendment 39-19929 (85 FR 33523, June 2, 2020). This AD affects AD 2018-01-02.
(c) Applicability
This AD applies to Pellworth Aircraft Model PW-9 gliders, certificated in any category.
(d) Subject
Joint Aircraft System Component (JASC)/Air Transport Association (ATA) of America Code 27, Flight controls.
(e) Unsafe Condition
This AD was prompted by corrosion.
(f) Actions and Compliance
Unless already done, within 10 hours do paragraph 3.A of Pellworth Service Instruction SI-27-04, Revision B,
dated
May 4, 2020, or later FAA-approved revision.
""",
    number="2020-11-12R1",
    amendment="39-22019",
    effective=D(2022, 7, 19),
    supersedes=("2020-11-12",),
    chapters=("27",),
    applicability="This AD applies to Pellworth Aircraft Model PW-9 gliders",
    ends="certificated in any category.",
    required=(("SI-27-04", "B", D(2020, 5, 4)),),
)
_RULE = """(a) Effective Date
This AD is effective June 1, 2033.
(b) Affected ADs
This AD replaces AD 2030-02-09, Amendment 39-28000.
(c) Applicability
This AD applies to Corvane Model C-88 airplanes.
(d) Subject
Air Transport Association (ATA) of America Code 32, Landing gear.
(g) Required Actions
Do the inspection in accordance with Corvane Service Bulletin 32-0012, Revision 3, dated August 3, 2032.
"""
_OF_RULE = {
    "chapters": ("32",),
    "applicability": "This AD applies to Corvane Model C-88 airplanes",
    "ends": "C-88 airplanes.",
    "required": (("32-0012", "3", D(2032, 8, 3)),),
}
CORRECTION = Form(
    "a correction that prints the rule again",
    f"""Federal Aviation Administration
Airworthiness Directives; Corvane Airplanes
ACTION: Final rule; correction.
DATES: This correction is effective July 2, 2033.
2033-05-11 Corvane Aircraft Company: Amendment 39-31007; Docket No. FAA-2032-0224.
{_RULE}""",
    number="2033-05-11",
    amendment="39-31007",
    effective=D(2033, 6, 1),
    supersedes=("2030-02-09",),
    is_rule=False,
    **_OF_RULE,
)
DELAYED = Form(
    "a rule put off",
    f"""Federal Aviation Administration
Airworthiness Directives; Corvane Airplanes
ACTION: Final rule; delay of effective date.
2033-05-11 Corvane Aircraft Company: Amendment 39-31007; Docket No. FAA-2032-0224.
{_RULE}""",
    number="2033-05-11",
    amendment="39-31007",
    effective=D(2033, 6, 1),
    supersedes=("2030-02-09",),
    is_rule=False,
    **_OF_RULE,
)
WITHDRAWN = Form(
    "a withdrawal of a directive",
    """Federal Aviation Administration
Airworthiness Directives; Corvane Airplanes
ACTION: Final rule; removal.
SUMMARY: The FAA is removing Airworthiness Directive (AD) 2030-02-09, which applied to Corvane Model C-88
airplanes. AD
2030-02-09 required inspections and superseded AD 2028-01-04.
DATES: This rule is effective August 9, 2033.
""",
    effective=D(2033, 8, 9),
    supersedes=("2030-02-09",),
    is_rule=False,
)
PROPOSAL = Form(
    "a proposal that quotes a rule and names many days",
    """Federal Aviation Administration
14 CFR Part 39
[Docket No. FAA-2032-0686; Product Identifier 2030-NM-035-AD]
Airworthiness Directives; Corvane Airplanes
ACTION: Notice of proposed rulemaking (NPRM).
SUMMARY: The FAA proposes to supersede Airworthiness Directive (AD) 2030-02-09, which applies to Corvane
airplanes.
DATES: The FAA must receive comments on this proposed AD by March 28, 2032.
Background: The FAA issued AD 2030-02-09, Amendment 39-28000 (95 FR 33823, May 25, 2030), effective June 29,
2030. AD
2005-19-28 required inspections.
The Proposed Amendment
2. The FAA amends 39.13 by removing Airworthiness Directive (AD) 2030-02-09, Amendment 39-28000, and adding:
Corvane Aircraft Company: Docket No. FAA-2032-0686; Product Identifier 2030-NM-035-AD.
(a) Comments Due Date
The FAA must receive comments on this AD action by March 28, 2032.
(b) Affected ADs
This AD replaces AD 2030-02-09, Amendment 39-28000 (95 FR 33823, May 25, 2030).
(c) Applicability
This AD applies to Corvane Model C-88 airplanes.
(d) Subject
Air Transport Association (ATA) of America Code 32, Landing gear.
(g) Required Actions
Do the inspection in accordance with Corvane Service Bulletin 32-0012, Revision 3, dated August 3, 2032.
""",
    supersedes=("2030-02-09",),
    is_rule=False,
    proposal=True,
    **_OF_RULE,
)
ABSTRACT = Form(
    "a summary is information",
    "The FAA is superseding Airworthiness Directive (AD) 2030-02-09, which applied to Corvane airplanes. AD "
    "2030-02-09 required inspections. This AD was prompted by cracks and requires Corvane Service Bulletin "
    "32-0012, Revision 3.",
    supersedes=("2030-02-09",),
    is_rule=False,
)
NUMBERS_IN_A_LIST = Form(
    "a list of directives complied with",
    """Directives complied with
2033-05-11 Corvane Aircraft: Amendment 39-31007
2033-06-02 Corvane Aircraft: Amendment 39-31020
""",
    is_rule=False,
)
WORK_CARD = Form(
    "a work card with numbers and days of the same shape",
    "Done 2021-03-01 per MM 32-41-00 page 201; AD 2005-19-28 required this inspection, next due 2022-03-01.",
    is_rule=False,
)
FOREIGN = Form(
    "another authority's directive",
    """AIRWORTHINESS DIRECTIVE
European Union Aviation Safety Agency
AD No.: 2033-0101
Issued: 03 May 2033
Required action: inspect in accordance with Corvane Service Bulletin 32-0012, Revision 3.""",
    number="2033-0101",
    is_rule=False,
)
NEIGHBOUR = Form(
    "a rule whose preamble is full of other directives' numbers, amendments and days",
    f"""Federal Aviation Administration
[Docket No. FAA-2032-0224; Amendment 39-31007; AD 2033-05-11]
Airworthiness Directives; Corvane Airplanes
ACTION: Final rule; request for comments.
DATES: This AD becomes effective June 1, 2033. We must receive comments by July 26, 2033.
We issued AD 2005-19-28, Amendment 39-14293 (70 FR 57493, October 3, 2005), which superseded AD 2001-02-03. On
April 30, 2013, EASA issued AD 2013-0101, dated April 30, 2013, in place of AD 2012-0092.
2. The FAA amends 39.13 by removing Airworthiness Directive (AD) 2030-02-09, Amendment 39-28000, and adding:
2033-05-11 Corvane Aircraft Company: Amendment 39-31007; Docket No. FAA-2032-0224.
{_RULE}""",
    number="2033-05-11",
    amendment="39-31007",
    effective=D(2033, 6, 1),
    supersedes=("2030-02-09",),
    **_OF_RULE,
)
NONE_AFFECTED = Form(
    "none affected, although the preamble tells of a supersession",
    """Federal Aviation Administration
ACTION: Final rule.
SUMMARY: EASA issued a directive superseding AD 2012-11-09 of its own state.
2033-07-02 Corvane Aircraft Company: Amendment 39-31044; Docket No. FAA-2032-0300.
(a) Effective Date
This AD is effective July 1, 2033.
(b) Affected ADs
None.
(c) Applicability
This AD applies to Corvane Model C-88 airplanes.
(e) Unsafe Condition
This AD was prompted by cracks.
(g) Required Actions
Replace the bolt. Guidance can be found in Corvane Service Bulletin 32-0012, Revision 3, dated August 3, 2032.
(h) Material Incorporated by Reference
None.
""",
    number="2033-07-02",
    amendment="39-31044",
    effective=D(2033, 7, 1),
    applicability="This AD applies to Corvane Model C-88 airplanes",
    ends="C-88 airplanes.",
)

QUESTIONS_2001 = Form(
    "2001, headings that are questions, run in",
    """2001-09-05 Dellmore Aircraft Corporation: Amendment 39-12214; Docket No. 2000-CE-60-AD; Supersedes AD
2000-05-14, Amendment 39-11621.

    (a) What airplanes are affected by this AD? This AD affects Models D58 and D58A airplanes, serial
numbers MB-1 through MB-816, that are certificated in any category.
    (b) Who must comply with this AD? Anyone who wishes to operate any of the above airplanes must comply
with this AD.
    (c) What problem does this AD address? The actions specified by this AD are intended to prevent cracks.
    (d) What actions must I accomplish to address this problem? To address this problem, you must
accomplish the following: Inspect the spar in accordance with Dellmore Service Bulletin SB 57-3329,
Revision 1, dated January 5, 2001.
    (e) Can I comply with this AD in any other way? You may use an alternative method of compliance or
adjust the compliance time if the Manager, Wichita ACO, approves your alternative.
    (f) Where can I get information about any already-approved alternative methods of compliance? Contact
the FAA.
    (g) What if I need to fly the airplane to another location to comply with this AD? The FAA can issue a
special flight permit.
    (h) Are any service bulletins incorporated into this AD by reference? Actions required by this AD must
be done in accordance with Dellmore Service Bulletin SB 57-3329, Revision 1, dated January 5, 2001. The
Director of the Federal Register approved this incorporation by reference under 5 U.S.C. 552(a) and 1 CFR
part 51.
    (i) Does this AD action affect any existing AD actions? This amendment supersedes AD 2000-05-14,
Amendment 39-11621.
    (j) When does this amendment become effective? This amendment becomes effective on June 18, 2001.
""",
    number="2001-09-05",
    amendment="39-12214",
    effective=D(2001, 6, 18),
    supersedes=("2000-05-14",),
    applicability="This AD affects Models D58 and D58A airplanes",
    ends="certificated in any category.",
    incorporated=(("SB 57-3329", "1", D(2001, 1, 5)),),
    required=(("SB 57-3329", "1", D(2001, 1, 5)),),
)
QUESTIONS_2004 = Form(
    "2004, headings that are questions, above their letters",
    """2004-04-09 Dellmore Aircraft Corporation: Amendment 39-13490; Docket No. 2003-CE-50-AD.

When Does This AD Become Effective?

    (a) This AD becomes effective on April 12, 2004.

What Other ADs Are Affected by This Action?

    (b) This AD supersedes AD 2001-09-05, Amendment 39-12214.

What Airplanes Are Affected by This AD?

    (c) This AD affects Model D58 airplanes, serial numbers MB-1 through MB-816, that are certificated in
any category.

What Is the Unsafe Condition Presented in This AD?

    (d) This AD is the result of cracks.

What Must I Do To Address This Problem?

    (e) To address this problem, you must do the following: Replace the spar bolt following Dellmore
Mandatory Service Bulletin 57-3400, dated June 2, 2003.

May I Request an Alternative Method of Compliance?

    (f) You may request a different method of compliance by following the procedures in 14 CFR 39.19.

Does This AD Incorporate Any Material by Reference?

    (g) You must do the actions required by this AD following the instructions in Dellmore Mandatory
Service Bulletin 57-3400, dated June 2, 2003. The Director of the Federal Register approved the
incorporation by reference of this service bulletin.

Is There Other Information That Relates to This Subject?

    (h) None.
""",
    number="2004-04-09",
    amendment="39-13490",
    effective=D(2004, 4, 12),
    supersedes=("2001-09-05",),
    applicability="This AD affects Model D58 airplanes",
    ends="certificated in any category.",
    incorporated=(("57-3400", "", D(2003, 6, 2)),),
    required=(("57-3400", "", D(2003, 6, 2)),),
)
PREVIOUS_ISSUE_2006 = Form(
    "2006, work done by earlier issues of the bulletin",
    """Airworthiness Directives; Corvane Airplanes
AGENCY: Federal Aviation Administration (FAA), DOT.
ACTION: Final rule.
2006-07-12 Corvane: Amendment 39-14543. Docket No. FAA-2005-22529; Directorate Identifier 2005-NM-067-AD.

Effective Date

    (a) This AD becomes effective May 11, 2006.

Affected ADs

    (b) None.

Applicability

    (c) This AD applies to Corvane Model C737-100 airplanes, certificated in any category; as identified in
Corvane Service Bulletin C737-53-1187, Revision 2, dated May 9, 2002.

Unsafe Condition

    (d) This AD results from cracks.

Compliance

    (e) You are responsible for having the actions required by this AD performed within the compliance
times specified, unless the actions have already been done.

Repetitive Inspections

    (f) Do the inspections in accordance with the Accomplishment Instructions of Corvane Service Bulletin
C737-53-1187, Revision 2, dated May 9, 2002.

Actions Accomplished According to Previous Issue of Service Bulletin

    (g) Actions accomplished before the effective date of this AD according to Corvane Service Bulletin
C737-53-1187, dated June 22, 1998; or Revision 1, dated May 27, 1999; are considered acceptable for
compliance with the corresponding action specified in this AD.

Alternative Methods of Compliance (AMOCs)

    (h)(1) The Manager, Seattle ACO, FAA, has the authority to approve AMOCs for this AD, if requested.

Related Information

    (i) French airworthiness directive F-2005-078, dated May 11, 2005, also addresses the subject of this
AD.

Material Incorporated by Reference

    (j) You must use Corvane Service Bulletin C737-53-1187, Revision 2, dated May 9, 2002; and Corvane
Alert Service Bulletin C737-53A1177, Revision 6, dated May 31, 2001; as applicable; to perform the actions
that are required by this AD, unless the AD specifies otherwise. The Director of the Federal Register
approved the incorporation by reference of these documents in accordance with 5 U.S.C. 552(a) and 1 CFR
part 51. Contact Corvane for a copy of this service information.
""",
    number="2006-07-12",
    amendment="39-14543",
    effective=D(2006, 5, 11),
    applicability="This AD applies to Corvane Model C737-100 airplanes",
    ends="dated May 9, 2002.",
    incorporated=(("C737-53-1187", "2", D(2002, 5, 9)), ("C737-53A1177", "6", D(2001, 5, 31))),
    required=(("C737-53-1187", "2", D(2002, 5, 9)),),
    credit=(
        ("C737-53-1187", "", D(1998, 6, 22), D(2006, 5, 11)),
        ("C737-53-1187", "1", D(1999, 5, 27), D(2006, 5, 11)),
    ),
)
TABLE_2007 = Form(
    "2007, incorporated material in a table",
    """2007-10-10 Corvane: Amendment 39-15051. Docket No. FAA-2006-25391; Directorate Identifier
2006-NM-095-AD.
Effective Date
(a) This AD becomes effective June 21, 2007.
Affected ADs
(b) None.
Applicability
(c) This AD applies to Corvane Model C-340 airplanes.
Unsafe Condition
(d) This AD results from leaks.
Compliance
(e) You are responsible.
Modification
(f) Modify the tank in accordance with the service information in Table 1 of this AD.
Material Incorporated by Reference
(g) You must use the service information identified in Table 1 of this AD to perform the actions. The
Director of the Federal Register approved the incorporation by reference of these documents.
Table 1.--Material Incorporated by Reference
Corvane Service Bulletin    Revision level      Date
Corvane Service Bulletin C340-28-4123
1
October 25, 2006.
Corvane Service Bulletin C340-28-4124
Original
June 6, 2006.
Corvane Alert Service Bulletin C340-28A4125........  02..........  July 7, 2006.
""",
    number="2007-10-10",
    amendment="39-15051",
    effective=D(2007, 6, 21),
    applicability="This AD applies to Corvane Model C-340 airplanes",
    ends="C-340 airplanes.",
    incorporated=(
        ("C340-28-4123", "1", D(2006, 10, 25)),
        ("C340-28-4124", "original", D(2006, 6, 6)),
        ("C340-28A4125", "02", D(2006, 7, 7)),
    ),
)
ENGINE_2019 = Form(
    "2019, an engine, material approved on two days",
    """Federal Aviation Administration
ACTION: Final rule.
2019-12-01 Pellworth Turbines S.A.: Amendment 39-19663; Docket No. FAA-2019-0445; Product Identifier
2019-NE-13-AD.

(a) Effective Date

This AD is effective July 1, 2019.

(b) Affected ADs

This AD supersedes AD 2018-25-09, Amendment 39-19522 (83 FR 64441, December 17, 2018).

(c) Applicability

This AD applies to Pellworth Turbines S.A. LP-1B21 turbofan engines.

(d) Subject

Joint Aircraft System Component (JASC) Code 7261, Turbine Engine Oil System; 7321, Fuel Control/Turbine
Engines.

(e) Unsafe Condition

This AD was prompted by shutdowns.

(f) Compliance

Comply with this AD within the compliance times specified, unless already done.

(g) Required Actions

(1) Within 25 hours, do the following in accordance with the Accomplishment Instructions, paragraph 3.B.,
of Pellworth Service Bulletin LP-1B-72-00-0282-01A-930A-D, Issue 002, dated May 1, 2019.
(2) Use Part B of PT LP-1B Technical Manual.

(h) Definitions

For the purpose of this AD, a "part" is a part.

(i) Material Incorporated by Reference

(1) The Director of the Federal Register approved the incorporation by reference (IBR) of the service
information listed in this paragraph under 5 U.S.C. 552(a) and 1 CFR part 51.

(2) You must use this service information as applicable to do the actions required by this AD, unless the
AD specifies otherwise.

(3) The following service information was approved for IBR on July 1, 2019.

(i) Pellworth Service Bulletin LP-1B-72-00-0282-01A-930A-D, Issue 002, dated May 1, 2019.

(4) The following service information was approved for IBR on January 2, 2019 (83 FR 64441, December 17,
2018).

(i) Pellworth Service Bulletin (SB) LP-1B-73-00-0013-01A-930A-D, Issue 001, dated November 5, 2018; and

(ii) Reserved.

(5) For Pellworth service information identified in this AD, contact Pellworth.
""",
    number="2019-12-01",
    amendment="39-19663",
    effective=D(2019, 7, 1),
    supersedes=("2018-25-09",),
    chapters=("7261", "7321"),
    applicability="This AD applies to Pellworth Turbines S.A. LP-1B21 turbofan engines",
    ends="turbofan engines.",
    incorporated=(
        ("LP-1B-72-00-0282-01A-930A-D", "002", D(2019, 5, 1)),
        ("LP-1B-73-00-0013-01A-930A-D", "001", D(2018, 11, 5)),
    ),
    required=(("LP-1B-72-00-0282-01A-930A-D", "002", D(2019, 5, 1)),),
)

FORMS = (
    FORTIES, FORTIES_NOTE, FORTIES_SUPERSEDES, SIXTIES, SEVENTIES, EIGHTIES, EIGHTIES_R1, NINETIES,
    REGISTER_2001, UNLETTERED_2003, LETTERED_2005, LETTERED, CARRIED_OVER, EMERGENCY, REVISION_2020,
    CORRECTION, DELAYED, WITHDRAWN, PROPOSAL, ABSTRACT, NUMBERS_IN_A_LIST, WORK_CARD, FOREIGN, NEIGHBOUR,
    NONE_AFFECTED, QUESTIONS_2001, QUESTIONS_2004, PREVIOUS_ISSUE_2006, TABLE_2007, ENGINE_2019,
)  # fmt: skip
