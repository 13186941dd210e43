"""Bulletins of invented makers. What they say of approval, and what they do not say, is the point of each."""

from worked.paper import BULLETIN, long_date, pages, publication

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PublicationFacts

BRACKENFELL, WENSLEY, STANNARD = (
    "Brackenfell Aircraft Company",
    "Wensley Aircraft Company",
    "Stannard Aeroplane Works",
)

HEAD = """
!ruled [2 2]
| {kind} No. {number} | {issue}
| | Date: {date}

== {title}

# 1. PLANNING INFORMATION

A. Effectivity

(1) {effectivity}

B. Reason

(1) {reason}

C. Compliance

(1) {compliance}
"""


def _head(of: PublicationFacts, effectivity: str, reason: str, compliance: str, kind: str) -> str:
    issue = "Original issue" if of.revision == "original" else f"Revision {of.revision}"
    return HEAD.format(
        kind=kind,
        number=of.number,
        issue=issue,
        date=long_date(of),
        title=of.title.upper(),
        effectivity=effectivity,
        reason=reason,
        compliance=compliance,
    )


def _bulletin(
    of: PublicationFacts,
    effectivity: str,
    reason: str,
    compliance: str,
    *texts: str,
    approval: str = "",
    kind: str = "Service Bulletin",
) -> list[Topic]:
    first = _head(of, effectivity, reason, compliance, kind)
    if approval:
        first += f"\nD. Approval\n\n(1) {approval}\n"
    return pages(of, BULLETIN, first, *texts)


_FRAME_STEPS = """
# 2. ACCOMPLISHMENT INSTRUCTIONS

# PART 1 - INSPECTION OF THE FRAME

A. Look at the inner flange of the frame at station 141 with a mirror and a 10-power glass.

# PART 2 - REPEATED INSPECTION

A. Do Part 1 again at intervals of 200 hours time in service.

# PART 3 - INSTALLATION OF THE REINFORCING STRAP

A. Remove the three rivets of the inner flange between stations 140 and 142.

B. Install the strap, XJ53-2201-7, with eleven rivets, {rivet}, in the pattern of the strap.

C. Write the number and revision of this bulletin in the airplane records.
"""


def _frame(revision: str, date: str, rivet: str) -> list[Topic]:
    of = publication(
        f"asb-xj9-53a0041-rev-{revision}.pdf",
        "service-bulletin",
        "XJ9-53A0041",
        "Fuselage - Frame at Station 141 - Installation of a Strap",
        BRACKENFELL,
        "XJ9",
        revision,
        date,
    )
    return _bulletin(
        of,
        "Model XJ9 airplanes, serial numbers XJ9-0001 through XJ9-0240.",
        "Cracks were found in the inner flange of the frame.",
        "Part 3: within 300 hours time in service.",
        _FRAME_STEPS.format(rivet=rivet),
        kind="Alert Service Bulletin",
    )


def frame_strap_3() -> list[Topic]:
    return _frame("3", "2098-11-02", "MS20470AD4")


def frame_strap_5() -> list[Topic]:
    return _frame("5", "2099-08-17", "MS20470AD5")


def _spar(revision: str, date: str) -> list[Topic]:
    of = publication(
        f"sb-xj9-57-0012-rev-{revision}.pdf",
        "service-bulletin",
        "XJ9-57-0012",
        "Wings - Rear Spar Web - Installation of a Doubler",
        BRACKENFELL,
        "XJ9",
        revision,
        date,
    )
    steps = """
# 2. ACCOMPLISHMENT INSTRUCTIONS

A. Remove the inspection panel below the rear spar at wing station 66.

B. Install the doubler, XJ57-3310-1, with the rivets of Table 1.
"""
    return _bulletin(
        of,
        "Model XJ9 airplanes, all serial numbers.",
        "The web of the rear spar can crack at the flap bracket.",
        "Within 12 months.",
        steps,
    )


def spar_doubler_3() -> list[Topic]:
    return _spar("3", "2098-04-11")


def spar_doubler_4() -> list[Topic]:
    return _spar("4", "2099-01-19")


def axle_nut() -> list[Topic]:
    of = publication(
        "sb-xj9-32-0020.pdf",
        "service-bulletin",
        "XJ9-32-0020",
        "Landing Gear - Nose Wheel Axle Nut - Replacement",
        BRACKENFELL,
        "XJ9",
        "1",
        "2099-01-08",
    )
    steps = """
# 2. ACCOMPLISHMENT INSTRUCTIONS

A. Jack the nose of the airplane and remove the nose wheel axle nut.

B. Install the new axle nut, XJ32-5507-3.

C. Torque the axle nut to 50 inch-pounds while the wheel is turned by hand.
"""
    return _bulletin(
        of,
        "Model XJ9 airplanes, all serial numbers.",
        "The old nut can back off.",
        "Within 50 hours time in service.",
        steps,
    )


def trim_screw() -> list[Topic]:
    of = publication(
        "sb-xj9-27-0020.pdf",
        "service-bulletin",
        "XJ9-27-0020",
        "Flight Controls - Elevator Trim Actuator - Inspection",
        BRACKENFELL,
        "XJ9",
        "original",
        "2099-02-02",
    )
    steps = """
# 2. ACCOMPLISHMENT INSTRUCTIONS

A. Measure the play of the trim actuator at the tab. It must not exceed 0.020 inch.

B. Additional information: Quillhurst Controls Service Bulletin QC-27-114.
"""
    return _bulletin(
        of,
        "Model XJ9 airplanes, all serial numbers.",
        "Gears of the trim actuator wear.",
        "Within 100 hours time in service.",
        steps,
    )


def vendor_gears() -> list[Topic]:
    of = publication(
        "sb-qc-27-114.pdf",
        "service-bulletin",
        "QC-27-114",
        "Trim Actuator QC-114 - Replacement of the Gears",
        "Quillhurst Controls Incorporated",
        "QC-114",
        "original",
        "2098-12-12",
    )
    steps = """
# 2. ACCOMPLISHMENT INSTRUCTIONS

A. Remove the cover of the actuator and replace both gears with gears of part number QC-114-31.
"""
    return _bulletin(
        of,
        "Trim actuators model QC-114, serial numbers 1001 through 1890.",
        "Gears of soft material were delivered.",
        "At the next overhaul.",
        steps,
    )


def longer_life() -> list[Topic]:
    of = publication(
        "sb-qz62-32-0133.pdf",
        "service-bulletin",
        "QZ62-32-0133",
        "Landing Gear - Side Brace Bolt - Extension of the Replacement Time",
        "Aldermoor Aircraft Corporation",
        "QZ62 QZ62S",
        "original",
        "2031-11-20",
    )
    steps = """
# 2. ACCOMPLISHMENT INSTRUCTIONS

A. This bulletin extends the mandatory replacement time of the main landing gear side brace bolt, QZ32-1044-1,
given in chapter 04 of the Maintenance Manual from 8,000 landings to 10,000 landings.

B. Examine the bolt with magnetic particles at 8,000 landings and write the result in the airplane records.
"""
    return _bulletin(
        of,
        "All QZ62 and QZ62S airplanes.",
        "Experience shows that the bolt lasts longer.",
        "Optional.",
        steps,
    )


def foreign_frame() -> list[Topic]:
    of = publication(
        "sb-lf7-53-0009.pdf",
        "service-bulletin",
        "LF7-53-0009",
        "Fuselage - Tail Frame - Reinforcement",
        "Lindhavn Aircraft Works",
        "LF7",
        "2",
        "2098-09-30",
    )
    steps = """
# 2. ACCOMPLISHMENT INSTRUCTIONS

A. Install the angle, LF53-118-2, on the tail frame with six rivets.
"""
    return _bulletin(
        of,
        "Model LF7 aeroplanes, all serial numbers.",
        "The tail frame can buckle in a hard landing.",
        "Recommended.",
        steps,
        approval="The technical content of this document is approved under the authority of DOA ref. "
        "EASA.21J.999.",
    )


def hinge_brackets() -> list[Topic]:
    of = publication(
        "stannard-sb-5.pdf",
        "service-bulletin",
        "5",
        "Aileron Hinge Brackets",
        STANNARD,
        "S-2",
        "",
        "1951-10-04",
    )
    text = """
!centre Service Bulletin No. 5

!centre October 4, 1951

== AILERON HINGE BRACKETS

A. Airplanes affected: all Model S-2 airplanes.

B. Take the ailerons off and look at the welds of the hinge brackets with a glass. A bracket with a crack is
to be replaced by a bracket of heavier gauge, S2-417.
"""
    return pages(of, BULLETIN, text)
