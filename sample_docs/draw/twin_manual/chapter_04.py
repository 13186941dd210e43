"""Chapter 04, Airworthiness Limitations. The opening sentence is that of 14 CFR part 23, A23.4 (public
text)."""

from sample_docs.draw.twin_manual.section import Section

LIMITATIONS = """
== AIRWORTHINESS LIMITATIONS

# 1. General

A. The Airworthiness Limitations section is FAA approved and specifies maintenance required under 43.16 and
91.403 of
Title 14 of the Code of Federal Regulations unless an alternative program has been FAA approved.

B. This section holds all the mandatory replacement times, structural inspection intervals and related
inspection
procedures of the QZ62 and QZ62S airplanes. Time is time in service of the part. A part that moves from one
airplane to
another keeps the time and landings it has.

C. A change to this section needs the approval of the FAA. It is sent to holders as a numbered revision of
this chapter
and is listed below.

!ruled Table 1. Approved revisions of chapter 04 [2 3 3]
| Revision of chapter | Approved for the FAA by | Date of approval
| Original | Odalys T. Brannigan-Rook, Northlake Aircraft Certification Office | Jun 02/2028
| 1 | Odalys T. Brannigan-Rook, Northlake Aircraft Certification Office | Mar 14/2031

# 2. Mandatory replacement times

!ruled Table 2. Parts with a mandatory replacement time [4 3 3]
| Part | Part number | Replace before
| Wing attach bolt, front spar, upper and lower | QZ57-1120-9 | 6,000 hours
| Wing attach bolt, rear spar | QZ57-1121-5 | 6,000 hours
| Main landing gear trunnion pin | QZ32-1017-3 | 12,000 landings
| Main landing gear side brace bolt | QZ32-1044-1 | 8,000 landings
| Nose landing gear drag link | QZ32-2215-7 | 10,000 landings
| Elevator trim actuator rod end | QZ27-3308-2 | 3,500 hours
| Camera hatch frame, lower sill fitting (QZ62S only) | QZ53-6604-1 | 9,000 hours

!break

# 3. Structural inspection intervals

A. Do these inspections at or before the times in Table 3. The first column is the threshold for a part with
no
inspection before; the second is the interval that follows.

!ruled Table 3. Structural inspections [4 2 2 3]
| Structure | Threshold, hours | Interval, hours | Method
| Front spar lower cap, wing stations 22 to 60 | 4,000 | 800 | Eddy current, bolt holes
| Wing attach fitting, fuselage side | 5,000 | 1,000 | Visual with 10-power glass
| Horizontal stabilizer rear attach bracket | 3,000 | 500 | Dye penetrant
| Nose gear trunnion lugs | 2,500 landings | 500 landings | Dye penetrant
| Cabin door frame, upper latch cutouts | 6,000 | 1,500 | Visual, door open
| Camera hatch frame, all corners (QZ62S only) | 2,000 | 400 | Eddy current, surface probe

B. A crack in a part of Table 3 must be repaired before further flight with data that is approved for the
repair. The
operator must tell the maker the length and place of the crack within 10 days.

C. Special procedure for the front spar lower cap: remove the fasteners one at a time, examine each hole
with a rotating
probe, and install a new fastener of the same diameter before the next one is removed. If a hole must be
enlarged, stop
the work and ask the maker for instructions.
"""

SECTIONS = (
    Section(
        "04-00-00",
        "1",
        "Airworthiness limitations",
        "Mar 14/2031",
        LIMITATIONS,
        data_standing="approved",
        note="Airworthiness Limitations: approved and required by 43.16 and 91.403",
    ),
)
