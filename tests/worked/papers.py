"""An authority's papers of the worked questions: a circular, a bulletin that recommends, forms.

The page of AC 43.13-1B gives the words of that circular's paragraph 1 (a work of the US government, 8
September 1998, Change 1): conditions a to c and the limits as printed there, the sentences around them from
memory. The repairs that follow it here are invented, and so is all the rest.
"""

from worked.paper import SHEET, pages, publication

from sample_docs.draw.book import Topic


def circular() -> list[Topic]:
    of = publication(
        "ac-43-13-1b-extract.pdf",
        "advisory-circular",
        "43.13-1B",
        "Acceptable Methods, Techniques, and Practices - Aircraft Inspection and Repair",
        "",
        "",
        "",
        "1998-09-08",
    )
    first = """
!small U.S. Department of Transportation

!small Federal Aviation Administration

!big Advisory Circular

!ruled [5 3 3]
| Subject: ACCEPTABLE METHODS, TECHNIQUES, AND PRACTICES - AIRCRAFT INSPECTION AND REPAIR | Date: 9/8/98 |
AC No: 43.13-1B
| | Initiated by: AFS-640 | Change: 1

**1. PURPOSE.** This advisory circular (AC) contains methods, techniques, and practices acceptable to the
Administrator for the inspection and repair of nonpressurized areas of civil aircraft, only when there are no
manufacturer repair or maintenance instructions. This data generally pertains to minor repairs. The repairs
identified in this AC may only be used as a basis for FAA approval for major repairs. The repair data may
also be
used as approved data, and the AC chapter, page, and paragraph listed in block 8 of FAA form 337 when:

(a) the user has determined that it is appropriate to the product being repaired;

(b) it is directly applicable to the repair being made; and

(c) it is not contrary to manufacturer's data.
"""
    repair = """
# CHAPTER 2. FABRIC COVERING

**2-42. REPAIR OF TEARS IN FABRIC.** Sew a tear with curved needle and waxed thread, then dope a patch of
the same
fabric over the seam, at least 1.5 inches beyond the tear on each side.

# CHAPTER 4. METAL STRUCTURE

**4-58. REPAIR OF STRESSED SKIN.** Fit a flush patch inside the skin and rivet it in two staggered rows.
"""
    return pages(of, SHEET, first, repair)


def information_bulletin() -> list[Topic]:
    of = publication(
        "saib-2098-11.pdf",
        "airworthiness-bulletin",
        "2098-11",
        "Seat Track Pins",
        "",
        "",
        "",
        "2098-07-01",
    )
    text = """
!small Federal Aviation Administration

!big SPECIAL AIRWORTHINESS INFORMATION BULLETIN

!ruled [3 3]
| SAIB: 2098-11 | Date: July 1, 2098
| SUBJ: Seat track pins of Model XJ9 airplanes |

This is information only. Recommendations are not mandatory.

# Introduction

This Special Airworthiness Information Bulletin tells owners of Brackenfell Aircraft Company Model XJ9
airplanes of
worn seat track pins. At this time the concern is not an unsafe condition that would warrant airworthiness
directive
action.

# Recommendations

The FAA recommends inspecting the seat track pins at each annual inspection.
"""
    return pages(of, SHEET, text)


def designee_form() -> list[Topic]:
    of = publication(
        "form-8110-3-vq-0131.pdf",
        "engineering-approval",
        "8110-3",
        "Statement of Compliance with Airworthiness Standards",
        "",
        "",
        "",
        "2099-02-11",
    )
    text = """
!small Federal Aviation Administration

!big STATEMENT OF COMPLIANCE WITH AIRWORTHINESS STANDARDS

!centre FAA Form 8110-3

!ruled [2 4]
| 1. Date | February 11, 2099
| 2. Aircraft make and model | Brackenfell Aircraft Company, XJ9, serial number XJ9-0123
| 3. List of data | Drawing VQ-0131, revision A: doubler for an antenna, fuselage station 180
| 4. Purpose of data | Repair of the skin with a doubler
| 5. Applicable requirements | 14 CFR 23.305, 23.307

Certification: Under authority vested by direction of the Administrator, the data listed above have been
examined
in accordance with established procedures and found to comply with the applicable requirements.

I (we) therefore recommend approval of these data.

!sign Perpetua Ollerenshaw-Vane | Designee number DERT-99999 | February 11, 2099
"""
    return pages(of, SHEET, text)


def field_approval() -> list[Topic]:
    of = publication(
        "form-337-n777xj.pdf",
        "repair-alteration-record",
        "337",
        "Major Repair and Alteration",
        "",
        "",
        "",
        "2098-05-04",
    )
    text = """
!small Federal Aviation Administration

!big MAJOR REPAIR AND ALTERATION (Airframe, Powerplant, Propeller, or Appliance)

!centre FAA Form 337

!ruled [2 5]
| 1. Aircraft | Nationality and registration mark: N777XJ. Make: Brackenfell. Model: XJ9. Serial No.: XJ9-0077
| 2. Owner | Wexcombe Flying Group
| 3. For FAA use only | The data identified herein complies with the applicable airworthiness requirements
and is approved for the above described aircraft, subject to conformity inspection by a person authorized in
14 CFR part 43, section 43.7. Ambrose Fennimore-Dray, FAA inspector, May 4, 2098
| 4. Type | Alteration, airframe
| 8. Description of work | Installed a second antenna with a doubler on the top skin at station 180, drawing
WFG-12.
"""
    return pages(of, SHEET, text)


def parts_approval() -> list[Topic]:
    of = publication(
        "pma-pq0999ce-supplement-3.pdf",
        "parts-approval",
        "3",
        "Parts Manufacturer Approval",
        "Harrowbeck Turnings",
        "",
        "",
        "2097-03-03",
    )
    text = """
!small Federal Aviation Administration

!big PARTS MANUFACTURER APPROVAL

!centre FAA-PMA No. PQ0999CE, Supplement No. 3

!centre Harrowbeck Turnings

In accordance with 14 CFR part 21, subpart K, the parts listed below are approved for installation on the
products
listed.

!ruled [3 3 3 3]
| Part name | Part number | Replaces | Eligible on
| Engine mount bushing | HT-771 | XJ71-1004-3 | Brackenfell XJ9
"""
    return pages(of, SHEET, text)
