"""Text of the twin's structural repair manual."""

GENERAL_51 = """
== GENERAL REPAIR PRACTICES

# 1. Use of this manual

A. Find the damaged part with the identification page of its chapter. Compare the damage with the allowable
damage page. If
the damage is over the limit, use the repair page. If no repair page fits, ask the maker before you cut.

B. The limits and repairs are for structure that was not repaired before. When an old repair is within 4.0
inches of the
damage, this manual gives no limit.

# 2. Materials

!ruled Table 1. Sheet and rivets [3 3 3]
| Use | Material | Note
| Fuselage skin | 2024-T3 clad, 0.025 to 0.040 | Replace with the same or the next thickness
| Wing skin | 2024-T3 clad, 0.032 to 0.050 | Same
| Ribs and bulkheads | 2024-T42, 0.025 | Form in the soft state, then heat-treat
| Rivets, skins | MS20470AD or MS20426AD | Drive as received
| Rivets, spar caps | NAS1097DD | Keep cold until driven

# 3. Rivet spacing

A. Edge distance: twice the diameter of the rivet, and 2.5 times for flush rivets. Pitch: four to six
diameters. Rows: not
less than three diameters apart.

B. Remove all sharp corners. The radius of a cutout must be 0.5 inch or more. Polish the edges in the
direction of the
edge.

# 4. Corrosion protection

A. Clean the bare metal, apply conversion coating, and prime both faces before you join them. Put wet
sealant between the
faces of a repair to the outer skin.
"""

ALLOWABLE_51 = """
== ALLOWABLE DAMAGE - GENERAL

# 1. Definitions

A. Scratch: a line with a sharp bottom. Nick: a small loss of material at an edge. Dent: a smooth change of
shape with no
sharp line and no stretched rivet. Crease: a dent with a line; it is damage, not a dent.

# 2. Rework of scratches

A. Blend a scratch to a smooth bottom with 320-grit cloth. The width of the blend must be 20 times its depth.

!ruled Table 101. Depth after blending [4 3]
| Structure | Maximum, percent of thickness
| Skin between stringers | 15
| Skin over stringers and frames | 10
| Stringers and frames, free flange | 10
| Spar caps and attach fittings | 0

B. Measure the thickness with an ultrasonic gauge when the depth is not sure.

# 3. Dents

A. A dent in skin with a depth of not more than 1/40 of its smallest width and no more than 0.10 inch is
allowable when it is
2.0 inches or more from a rivet row. Examine each dent for cracks with dye penetrant.
"""

DOOR_SKIN = """
== CABIN DOOR SKIN - REPAIRS

!small This page is outside the approval of page AP-1.

# 1. General

A. This repair is for a hole or a crack in the outer skin of the cabin door, not more than 1.5 inches long,
and not less than
3.0 inches from a latch pin.

# 2. Procedure

A. Cut the damage out to a round hole. Deburr and polish the edge.

B. Make a doubler of 2024-T3 clad, 0.032 inch, with a diameter three times that of the hole.

C. Join the doubler inside with two rows of MS20426AD-3 rivets, wet with sealant. Put a filler of the skin's
thickness in the
hole and rivet it to the doubler.

D. Close the door and measure the engagement of the latch pins (Maintenance Manual, 52-11-00, Page 501). A
door skin that is
pulled by rivets moves the pins.
"""

SKIN_IDENTITY = """
== FUSELAGE SKIN - IDENTIFICATION

# 1. General

A. The skins of the fuselage from station 38 to station 208 are listed in Table 1. The stringers are
numbered from the top,
left and right.

!ruled Table 1. Fuselage skins [2 3 3 2]
| Skin | Stations | Stringers | Thickness
| 1 | 38 to 92 | 1 to 4, both sides | 0.025
| 2 | 38 to 92 | 4 to 9, both sides | 0.032
| 3 | 92 to 148 | 1 to 5, both sides | 0.025
| 4 | 92 to 148 | 5 to 9, both sides | 0.032
| 5 | 148 to 208 | 1 to 9, both sides | 0.025
| 6 | 66 to 92, belly | 9 left to 9 right | 0.040

B. Skins 2 and 4 are shear skins. Do not take out more than one panel of them at a time and support the
fuselage at station
92 and station 148.
"""

SKIN_DAMAGE = """
== FUSELAGE SKIN - ALLOWABLE DAMAGE

# 1. Limits

A. Table 101 gives the limits for damage that can stay, after cleaning up, with no reinforcement.

!ruled Table 101. Allowable damage of the fuselage skin [3 3 4]
| Damage | Limit | Condition
| Scratch | 10 percent of thickness | Blend 20 to 1
| Nick at a free edge | 0.05 inch | Blend to a radius of 0.5 inch
| Dent | 0.10 inch deep, 4 inches wide | 2 inches clear of rivet rows
| Round hole, cleaned up | 0.25 inch | One in each bay; plug with a rivet or a seal
| Crack | None | Repair before flight
| Corrosion, cleaned up | 10 percent of thickness | Treat and prime

B. Damage to the belly skin 6 in front of the camera hatch (QZ62S) is not covered by this page.
"""

SKIN_REPAIR = """
== FUSELAGE SKIN - REPAIRS

# 1. Flush patch, one bay

A. Use this repair for a hole or a crack in skins 1 to 5 that after clean-up is not larger than 3.0 by 5.0
inches and lies
between two stringers and two frames.

!figure patch | Figure 201. Flush patch: 1 skin, 2 doubler, 3 filler, 4 rivet, 5 stringer

B. Cut the damage out to a rectangle with corners of 0.5 inch radius. Stop a crack by cutting it away; do
not only drill its
end.

C. Make the doubler of the same material, one gauge thicker than the skin, with two rows of rivets outside
the cutout.

D. Make the filler of the same thickness as the skin with a gap of 0.02 to 0.04 inch all round.

E. Drill through the pattern, countersink or dimple, deburr, prime, and join wet with sealant. Use
MS20426AD-4 rivets at a
pitch of 0.75 inch.

CAUTION: DO NOT DIMPLE 0.032 SKIN OVER A COUNTERSUNK DOUBLER. THE SKIN CRACKS AT THE EDGE OF THE DIMPLE.

# 2. Limits of the repair

A. Not more than two patches in one skin and not less than 12.0 inches apart. Not less than 4.0 inches from
a door or window
frame.

B. Record the place, the size and the page of this manual in the airplane records.

# 3. Inspection after the repair

A. Examine the rivets for gaps and tilted heads. Examine the edge of the doubler at each 500-hour check.
"""

STRINGER_REPAIR = """
== STRINGERS - REPAIRS

# 1. Splice of a cracked stringer

A. Use this repair for one crack or cut through a stringer at a place at least 2.0 inches from a frame.

!figure stringer | Figure 201. Splice: 1 stringer, 2 splice angle, 3 rivet, 4 skin

B. Cut the stringer square on both sides of the damage. Make a filler of the same section for the gap.

C. Make a splice angle of 2024-T3, 0.040 inch, long enough for five rivets on each side of the cut.

D. Use the rivet holes in the skin. Add rivets in the free flange, MS20470AD-4, at a pitch of 0.62 inch.

E. Do not splice two neighboring stringers in the same bay. Move one splice to the next bay.
"""

CAMERA_HATCH = """
== CAMERA HATCH FRAME - REPAIRS

!centre **THIS PAGE IS NOT FAA APPROVED. APPROVAL IS PENDING.**

!centre Before you use this page on an airplane, submit the repair to the FAA for approval.

# 1. Corner doubler

A. This page shows the doubler that the maker proposes for cracks of not more than 0.60 inch at a corner of
the camera hatch
frame, station 112 to 128, QZ62S only.

B. Stop-drill the crack with a 0.191 inch drill. Examine the hole with an eddy current probe.

C. Make a corner doubler of 7075-T6, 0.063 inch, with legs of 4.0 inches. Join it with 22 NAS1097DD-5 rivets.

D. The lower sill fitting has a mandatory replacement time (Maintenance Manual, 04-00-00). The doubler does
not change it.
"""

WING_DAMAGE = """
== WING LEADING EDGE - ALLOWABLE DAMAGE

# 1. Limits

!ruled Table 101. Allowable damage of the leading edge [3 3 4]
| Damage | Limit | Condition
| Dent | 0.12 inch deep, 3 inches wide | 1.5 inches clear of a rib
| Dent with a crease | None | Repair
| Scratch | 10 percent of thickness | Blend 20 to 1
| Erosion | 0.004 inch | Smooth and paint
| Crack | None | Repair

A. Not more than three dents in one bay and not more than seven in one wing. Fill dents with aerodynamic
filler and paint.

B. These limits are not for the stall vane panel or for the panel of the pitot mast.
"""

WING_REPAIR = """
== WING LEADING EDGE - REPAIRS

# 1. Partial replacement of the nose skin

A. Use this repair for damage to the leading edge skin between two ribs.

B. Drill out the rivets of the bay. Support the nose ribs so that they do not twist.

C. Make a new piece of skin from 2024-T3 clad, 0.032 inch. It overlaps the old skin at the two ribs by 1.25
inches.

D. Join with MS20426AD-4 rivets in two rows at each rib. Use blind rivets, NAS1738B4, only where a bar
cannot be held.

E. Smooth the joint with filler. The step must not be more than 0.010 inch against the flow.

# 2. After the repair

A. Check the stall warning. It must come on 5 to 10 knots before the stall. A test flight is necessary when
the repair is
longer than 20 inches.
"""
