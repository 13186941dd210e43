"""Chapters 32 (nose gear), 33, lights, and 35, oxygen. The oxygen topics print task numbers."""

from sample_docs.draw.twin_manual.section import Section

NOSE_GEAR = """
== NOSE GEAR AND SHIMMY DAMPER - MAINTENANCE PRACTICES

# 1. General

A. A shimmy that starts at one speed and stops at another is most often caused by play, not by a bad damper.
Find the
play first, then service the damper. Worn torque link bushings, a loose steering collar, and a nose tire
that is out of
balance give the same complaint.

# 2. Removal of the shimmy damper

A. Put the weight of the airplane on the main gear and a tail stand.

B. Remove the cotter pin and bolt at the rod end, then the two bolts at the housing. Keep the spacer washers
together:
they center the damper.

!figure shimmy | Figure 201. Shimmy damper: 1 damper housing, 2 piston rod, 3 rod end bolt, 4 steering
collar, 5 spacer
washer, 6 filler plug

# 3. Servicing of the damper

A. Hold the damper with the filler plug up. Move the rod from stop to stop under the surface of clean red
fluid until no
bubbles come out. Install the plug and torque it to 40 to 50 inch-pounds.

B. Move the rod by hand. The resistance must be even over the full stroke. A soft place is air; a dead place
is a worn
bore.

# 4. Installation

A. Install the damper with the same spacer washers. Torque the housing bolts to 75 to 85 inch-pounds.

CAUTION: DO NOT TIGHTEN THE ROD END BOLT SO THAT THE ROD END CANNOT TURN. THE ROD BENDS AT THE FIRST FULL
TURN OF THE
NOSE WHEEL.

B. Torque the rod end bolt to 30 to 40 inch-pounds and install a new cotter pin.

C. Turn the nose wheel from stop to stop. The rod must not touch the bottom of the housing at either stop.
"""

NOSE_CHECK = """
== NOSE GEAR - INSPECTION/CHECK

# 1. Play

A. Lift the nose wheel clear of the ground. Hold the tire at the front and back and push left and right. The
play at the
tread must be not more than Table 601.

!ruled Table 601. Limits of the nose gear [4 2]
| Item | Limit
| Side play at the tread | 0.25 inch
| Play of the torque links, up and down | 0.030 inch
| Collar to strut tube, clearance | 0.008 inch
| Damper rod end, radial play | 0.004 inch
| Nose tire unbalance | 0.5 ounce

B. Examine the drag link and the trunnion lugs for cracks. The mandatory inspection is in 04-00-00.

# 2. Steering

A. The steering rods must be free of bends. With the pedals in neutral the nose wheel must be straight to 1
degree.
"""

STROBES = """
== ANTICOLLISION LIGHTS - REMOVAL/INSTALLATION

# 1. Removal of the power supply

WARNING: THE POWER SUPPLY HOLDS 450 VOLTS FOR SOME MINUTES AFTER IT IS SWITCHED OFF. WAIT 10 MINUTES BEFORE
YOU OPEN A
CONNECTOR.

A. Put the STROBE switch off, open the circuit breaker, and hang a tag on it. Wait 10 minutes.

B. Remove the wing tip (six screws). Disconnect the two connectors and remove the four nuts.

# 2. Installation

A. Clean the mounting plate to bare metal. The resistance from the case to the structure must be not more
than 0.003 ohm.

B. Install the power supply. Put the long cable on the outlet marked A: a lamp on the wrong outlet flashes
at half power.

C. Do not touch the flash tube with bare fingers. Clean it with alcohol if it was touched.

D. Close the circuit breaker. The three lights must flash 45 to 55 times in a minute and together within one
flash.
"""

OXYGEN = """
== OXYGEN - DESCRIPTION AND OPERATION

# 1. General

A. The oxygen system supplies six outlets from one cylinder of 76.5 cubic feet in the tail cone. The pilot
opens it with a
cable control on the left side panel. It is a continuous-flow system for altitudes up to 25,000 feet.

!figure oxygen | Figure 1. Oxygen system: 1 cylinder, 2 shutoff valve and regulator, 3 filler valve, 4
pressure gauge,
5 outlet, 6 mask with flow indicator

# 2. Description

A. The regulator lowers the pressure to 65 to 75 psi and changes it with altitude. A relief disc of the
cylinder opens at
2,775 psi to the outside; a green disc on the left side of the tail cone shows that it has not opened.

B. Each mask has a flow indicator in its line. The two pilot masks have microphones.
"""

OXYGEN_FILL = """
== OXYGEN - SERVICING

# 1. Filling of the cylinder

!centre TASK 35-10-00-610-801

WARNING: OXYGEN UNDER PRESSURE AND OIL, GREASE, LIP BALM OR SOLVENT CAN EXPLODE. WASH YOUR HANDS, USE CLEAN
TOOLS, AND
KEEP FLAMES AND SPARKS 50 FEET AWAY.

CAUTION: USE AVIATOR'S BREATHING OXYGEN ONLY. WELDING AND MEDICAL OXYGEN CAN HOLD WATER THAT FREEZES IN THE
REGULATOR.

A. Move the airplane out of the hangar. Do not fill the cylinder during fueling or with electrical power on.

B. Open the access door on the left side of the tail cone. Make sure that the green disc is in place.

C. Blow out the hose of the supply cart for 2 seconds, then connect it to the filler valve.

D. Open the cart valve slowly. Take not less than 6 minutes to fill an empty cylinder. A cylinder that is
filled fast
gets hot and has less oxygen in it than the gauge says.

E. Stop at the pressure of Table 301 for the temperature of the air.

!ruled Table 301. Filling pressure [2 2]
| Air temperature, degrees F | Pressure, psi
| 20 | 1,650
| 50 | 1,775
| 70 | 1,850
| 90 | 1,925
| 110 | 2,000

F. Close the cart valve, bleed the hose, disconnect it and install the cap. Do the leak check of 35-10-00,
Page 601.
"""

OXYGEN_CHECK = """
== OXYGEN - INSPECTION/CHECK

# 1. Leak check

!centre TASK 35-10-00-790-802

A. Open the shutoff valve with no mask connected. Write the gauge pressure and the temperature. After 2
hours at the same
temperature the pressure must not be more than 20 psi lower.

B. To find a leak, put leak-test fluid made for oxygen on each fitting. Soap is not permitted: it can hold
oil.

C. Wipe the fitting dry. Tighten a leaking fitting with the pressure off.

# 2. Masks and outlets

A. Connect each mask in turn. The flow indicator must show flow at each outlet with all six masks connected.

B. Replace a mask when its bag is torn, sticky or cracked at a fold. Clean the masks with mild soap and
water, never with
alcohol.

# 3. Cylinder

A. Read the dates stamped on the cylinder. The cylinder must not be filled when the time since the last
hydrostatic test is
more than 5 years.
"""

SECTIONS_NOSE = (
    Section("32-21-00", "201", "Nose gear and shimmy damper", "Nov 08/2029", NOSE_GEAR),
    Section("32-21-00", "601", "Nose gear", "Nov 08/2029", NOSE_CHECK),
)
SECTIONS = (
    Section("33-40-00", "401", "Anticollision lights", "Jun 02/2028", STROBES),
    Section("35-10-00", "1", "Oxygen", "Jun 02/2028", OXYGEN),
    Section("35-10-00", "301", "Oxygen", "Nov 08/2029", OXYGEN_FILL),
    Section("35-10-00", "601", "Oxygen", "Nov 08/2029", OXYGEN_CHECK),
)
