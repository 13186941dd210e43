"""Chapter 32, wheels and brakes."""

from sample_docs.draw.twin_manual.section import Section

REV6 = "Mar 14/2031"
REV5 = "Nov 08/2029"
REV3 = "Jun 02/2028"

DESCRIPTION = """
== WHEELS AND BRAKES - DESCRIPTION AND OPERATION

# 1. General

A. Each main wheel has one hydraulic disc brake. The left rudder pedals work the left brake and the right
rudder
pedals work the right brake, so that the pilot can steer with the brakes at low speed. The nose wheel has no
brake.

B. The brake system has four master cylinders (one on each pedal), a shuttle valve for each side, a parking
brake
valve, a reservoir on the forward face of the firewall bulkhead, and the flexible hoses that go down each
main gear
leg. The system is independent of the landing gear hydraulic power pack.

# 2. Description

A. Brake assembly. The assembly (Figure 1) has a magnesium cylinder housing with two pistons, a pressure
plate, a
torque plate fastened to the axle flange, and a back plate. Three linings are riveted to the pressure plate
and
three to the back plate. The disc is bolted to the inboard wheel half and turns between the linings.

B. Disc. The disc is plated steel. When new it is 0.490 inch thick. The minimum serviceable thickness is
stamped on
the hub of the disc and is given in 32-42-00, Page 601.

C. Master cylinder. When the pilot pushes the upper part of the pedal, the piston closes the compensating
port and
fluid goes through the shuttle valve to the brake. When the pedal is released, a spring opens the port and the
reservoir makes up the fluid that the worn linings need.

!figure brake | Figure 1. Brake assembly, exploded view: 1 disc, 2 cylinder housing, 3 piston, 4 pressure
plate,
5 lining, 6 back plate, 7 tie bolt

# 3. Operation

A. The two pilots can brake at the same time. The shuttle valve passes the higher of the two pressures; the
pressures
do not add together.

B. To set the parking brake, push both pedals and pull the parking brake handle. The parking brake valve
keeps the
fluid in the lines. A rise in temperature of the air raises the pressure and a fall in temperature lowers
it: do not
rely on the parking brake for more than two hours. Use chocks.

!ruled Table 1. Leading data of the brake system [3 2]
| Item | Value
| Brake fluid | MIL-PRF-87257 type, red
| Reservoir capacity | 0.42 U.S. quart
| System pressure, pedal fully applied | 410 to 470 psi
| Disc thickness, new | 0.490 inch
| Lining thickness, new | 0.260 inch
"""

TROUBLES = """
== BRAKES - TROUBLESHOOTING

# 1. General

A. Use Table 101 to find the probable cause of a brake fault. Do the checks in the order given. After each
correction
do the operational check of 32-42-00, Page 201, before you go on to the next line.

WARNING: DO NOT PUT YOUR HANDS OR TOOLS BETWEEN THE DISC AND THE LININGS WHILE ANOTHER PERSON IS AT THE
PEDALS. THE
BRAKE CLOSES WITH ENOUGH FORCE TO CRUSH FINGERS.

!ruled Table 101. Brake faults [2 3 4]
| Fault | Probable cause | Correction
| Pedal feels soft or spongy | Air in the lines | Bleed the brake (32-42-00, Page 201).
| | Swollen flexible hose | Replace the hose. Bleed the brake.
| Pedal goes slowly to the floor | Worn packing in the master cylinder | Replace the master cylinder.
| | Leak at a fitting or piston | Find the wet fitting with a clean cloth. Tighten or replace it. If fluid
comes from
behind a piston, remove the brake assembly (Page 401).
| Brake drags, wheel gets hot | Parking brake valve not fully open | Adjust the control cable (32-43-00,
Page 201).
| | Piston seized in its bore | Remove the brake assembly and replace the piston and packing.
| | Pressure plate does not slide on the anchor bolts | Clean the bolts and bushings. Apply dry-film
lubricant only.
| Airplane pulls to one side | Fluid or grease on the linings of the other side | Replace the linings in
pairs. Find
the leak first.
| | Unequal lining wear | Measure the linings (Page 601).
| Chatter or shudder | Disc warped or scored | Measure the disc runout (Page 601).
| | Loose tie bolts | Remove the brake assembly, examine the bolts, install with the torque of Table 401.
"""

PRACTICES = """
== BRAKES - MAINTENANCE PRACTICES

# 1. Bleeding the brakes

A. General

(1) Bleed the brakes after a line has been opened, when the pedal is spongy, or when the fluid is
discolored. Pressure
bleeding from the brake upward is the preferred method, because air rises with the fluid.

CAUTION: USE ONLY RED MINERAL-BASE FLUID. A SPOON OF AUTOMOTIVE BRAKE FLUID WILL SWELL EVERY PACKING IN THE
SYSTEM,
AND ALL PACKINGS AND HOSES MUST THEN BE REPLACED.

B. Procedure

(1) Release the parking brake and chock the wheels.

(2) Remove the filler plug of the reservoir and install the overflow hose. Put its end in a clear container.

(3) Remove the dust cap from the bleeder valve at the bottom of the brake assembly. Connect the pressure pot
with a
clear hose.

(4) Open the bleeder valve one turn and apply 15 to 25 psi. Let the fluid flow until no bubbles go through the
overflow hose.

NOTE: Work the pedals slowly during the flow. This moves the air that is caught in the shuttle valve.

(5) Close the bleeder valve and torque it to 28 to 34 inch-pounds. Disconnect the hose and install the dust
cap.

(6) Do the same steps on the other side.

(7) Adjust the fluid level in the reservoir to 1.0 inch below the filler opening.

# 2. Operational check

A. Push each pedal of the two positions in turn. The travel from the rest position to a hard stop must be
not more than
1.40 inches at the top of the pedal.

B. Push the pedal hard for 30 seconds. The pedal must not move down more than 0.15 inch. Look for leaks at
every fitting
from the master cylinder to the brake.

C. Set the parking brake. Try to move the airplane with a tow bar and a force of 150 pounds: the main wheels
must not
turn. Release the parking brake: each wheel must turn freely by hand when the gear leg is jacked.

^ D. Taxi check. Make three stops from a fast walking speed on a dry, level surface. The airplane must stop
straight
and without chatter. Conditioning of new linings is given in 32-42-00, Page 401, paragraph 3.C.
"""

REMOVAL = """
== BRAKE ASSEMBLY - REMOVAL/INSTALLATION

# 1. General

A. This topic gives the removal and installation of the brake assembly, and the replacement of the linings
with the
brake assembly removed. The left and right assemblies are the same except for the position of the bleeder
valve.

B. Special tools: lining rivet set QZT-3204 and a torque wrench with a range of 20 to 150 inch-pounds.

# 2. Removal

A. Remove the wheel only if the disc must come off. The brake assembly can be removed with the wheel
installed.

(1) Make sure that the parking brake is released and that the wheels are chocked.

(2) Put a cap on the vent of the reservoir to keep the loss of fluid small.

(3) Disconnect the brake hose from the elbow of the cylinder housing. Install plugs in the hose and in the
elbow.

(4) Remove the lockwire and the four tie bolts that hold the back plate to the cylinder housing. Catch the
back plate
and the insulating shims.

(5) Slide the cylinder housing outboard until the anchor bolts are clear of the torque plate. Remove the
housing.

!figure brake | Figure 401. Brake assembly removal: 1 disc, 2 cylinder housing, 3 piston, 4 pressure plate,
5 lining, 6 back plate, 7 tie bolt

!bottom

WARNING: THE DUST OF SOME OLD BRAKE LININGS HOLDS ASBESTOS. DO NOT BLOW IT AWAY WITH COMPRESSED AIR. WEAR A
MASK AND
WIPE THE PARTS WITH A WET CLOTH BEFORE YOU DO STEP (6).

!break

(6) Clean the pressure plate, the back plate and the torque plate. Put the wet cloths in a bag and close it.

(7) If the linings are less than 0.100 inch thick at any point, replace them:

(a) Drive the old rivets out with the lining rivet set. Do not drill them: a drill makes the holes oval.

(b) Examine the plates for cracks round the rivet holes. Replace a cracked plate.

(c) Put the new lining in position and set the rivets from the center to the ends. A feeler gauge of 0.005
inch must
not go in between the lining and the plate.

# 3. Installation

A. Preparation

(1) Lubricate the anchor bolts with dry-film lubricant. Do not use grease: it collects dust and stops the
sliding motion.

(2) Push the pistons fully into the cylinder housing. If a piston is stiff, replace its packing, QZ32-4417-2.

B. Procedure

CAUTION: DO NOT REUSE TIE BOLTS THAT HAVE A STRETCHED OR DAMAGED THREAD. A BROKEN TIE BOLT LETS THE BACK
PLATE TURN
WITH THE DISC.

(1) Slide the anchor bolts of the cylinder housing into the torque plate.

(2) Put the back plate and the insulating shims in position behind the disc. Install the four tie bolts,
QZ32-4421-5,
with a washer under each head.

^ (3) Torque the tie bolts in a diagonal sequence to the value of Table 401. Lockwire the bolts in pairs.

(4) Connect the brake hose. Hold the elbow with a second wrench while you tighten the hose nut.

(5) Remove the cap from the reservoir vent and bleed the brake (32-42-00, Page 201).

!ruled Table 401. Torque values, brake assembly [4 2 2]
| Fastener | Inch-pounds, dry | Note
| Tie bolt, QZ32-4421-5 | 92 to 98 | Diagonal sequence
| Torque plate bolt, QZ32-4409-3 | 140 to 150 | Lockwire
| Brake hose nut at elbow | 85 to 100 | Two wrenches
| Bleeder valve | 28 to 34 | -
| Disc to wheel half, QZ32-4430-7 | 118 to 125 | See 32-41-00, Page 401

C. Conditioning of new linings

(1) Taxi for 1,500 feet with the engines at 1,500 rpm and drag the brakes to keep the speed at a walking pace.

(2) Let the brakes cool for 15 minutes. Do not set the parking brake while they cool.

(3) Do a full-power static run-up. If the brakes hold, the conditioning is complete. If they do not, do
steps (1)
and (2) again.

D. Close-up. Do the operational check of 32-42-00, Page 201, paragraph 2. Make an entry in the airplane
records.
"""

INSPECTION = """
== BRAKES - INSPECTION/CHECK

# 1. General

A. Do this inspection at each 100-hour inspection, and before the next flight after a rejected take-off
above 60 knots
or a landing with smoke from a brake.

# 2. Linings

A. With the parking brake set, measure the thickness of each lining through the slot in the back plate. Use
a wire
gauge. Replace all six linings of an assembly when one of them is at the limit of Table 601.

B. Look for broken edges. A chip deeper than 0.060 inch or longer than 0.75 inch is cause for replacement.

# 3. Disc

A. Measure the thickness of the disc at four places 90 degrees apart, on the worn band, with a micrometer.

B. Turn the wheel against a dial indicator. The runout must not be more than the limit of Table 601.

C. Light scratches are permitted. A groove that catches a fingernail must be measured. Rust that stays after
three taxi
stops is cause for cleaning with a fine abrasive cloth in the direction of the rotation.

NOTE: Do not machine the disc. The plating is only 0.002 inch thick and the base metal corrodes in one night.

!ruled Table 601. Wear limits, wheels and brakes [4 2 2]
| Item | New, inch | Limit, inch
| Lining | 0.260 | 0.100
| Disc thickness | 0.490 | 0.430
| Disc runout | 0.005 | 0.015
| Anchor bolt diameter | 0.4370 | 0.4350
| Torque plate bushing, inside diameter | 0.4385 | 0.4425
| Piston to bore clearance | 0.003 | 0.008

# 4. Hoses and lines

A. Bend each hose by hand and look for cracks in the cover. Wire braid that can be seen through the cover is
cause for
replacement. Replace the hoses at the times given in 05-10-00.

B. Examine the lines along the gear leg for chafing at the clips. A mark deeper than 10 percent of the wall
is cause for
replacement of the line.
"""

PARKING = """
== PARKING BRAKE - MAINTENANCE PRACTICES

# 1. Adjustment of the parking brake control

A. Push the parking brake handle fully in. The lever on the valve must rest against its open stop with a
cable slack of
0.03 to 0.06 inch.

B. If it does not, loosen the jam nut on the cable housing below the instrument panel and turn the adjuster.
Tighten the
jam nut to 35 to 45 inch-pounds.

C. Pull the handle to the first detent. The lever must pass the center of its travel. Pull the handle to the
second
detent: the lever must be against the closed stop.

CAUTION: A VALVE THAT IS NOT FULLY OPEN TRAPS PRESSURE AND LETS THE BRAKES DRAG IN FLIGHT AND AT TOUCHDOWN.
ALWAYS CHECK
THAT EACH WHEEL TURNS FREELY BEFORE YOU CLOSE THE PANEL.

D. Set and release the parking brake five times. Jack one gear leg at a time and turn each wheel by hand.
The force at
the tread must not be more than 8 pounds.
"""

WHEELS = """
== MAIN WHEEL - REMOVAL/INSTALLATION

# 1. Removal

A. Jack the gear leg at the jack pad (07-10-00). Release the parking brake.

WARNING: LET ALL THE AIR OUT OF THE TIRE BEFORE YOU LOOSEN A WHEEL THROUGH BOLT. WHEEL HALVES THAT COME
APART UNDER
PRESSURE CAN KILL.

B. Remove the valve core and make sure that the tire is flat.

C. Remove the tie bolts of the back plate (32-42-00, Page 401) and take the back plate off.

D. Remove the hub cap, the cotter pin and the axle nut. Pull the wheel from the axle with the bearing cones.

# 2. Installation

A. Pack the bearings with grease (12-20-00) and install the wheel on the axle.

B. Turn the wheel by hand while you tighten the axle nut to 150 to 200 inch-pounds. This seats the bearings.
Loosen the
nut, then tighten it to 25 inch-pounds and continue to the next cotter pin hole.

C. Install a new cotter pin and the hub cap. Install the back plate of the brake (32-42-00, Page 401).

D. Inflate the tire to the pressure given in 12-10-00.
"""

SECTIONS = (
    Section("32-41-00", "401", "Main wheel", REV3, WHEELS),
    Section("32-42-00", "1", "Wheels and brakes", REV5, DESCRIPTION),
    Section("32-42-00", "101", "Brakes", REV3, TROUBLES),
    Section("32-42-00", "201", "Brakes", REV6, PRACTICES),
    Section(
        "32-42-00",
        "401",
        "Brake assembly",
        REV6,
        REMOVAL,
        note="WARNING at the foot; its step (6) is on the next page",
        later_pages=((1, {"note": "begins with the step that the WARNING on the page before guards"}),),
    ),
    Section("32-42-00", "601", "Brakes", REV5, INSPECTION),
    Section("32-43-00", "201", "Parking brake", REV3, PARKING, effectivity="QZ-001 THRU QZ-140"),
)
