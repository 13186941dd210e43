"""Chapters 52, doors, 61, propellers, 71, power plant, and 79, oil."""

from sample_docs.draw.twin_manual.section import Section

DOOR = """
== CABIN DOOR - DESCRIPTION AND OPERATION

# 1. General

A. The cabin door is on the right side over the wing. It has three latch pins: one up, one aft and one down.
The outside
handle and the inside handle turn the same shaft.

B. A small window in the upholstery shows the upper pin. When the pin is fully in its plate, a green mark is
in the center
of the window.

!figure door | Figure 1. Cabin door: 1 door, 2 upper latch pin, 3 aft latch pin, 4 lower latch pin, 5 inside
handle, 6
striker plate, 7 window with green mark

# 2. Operation

A. Close the door by its arm rest, not by the handle. Turn the handle forward until the detent is felt. The
cam goes past
center so that air loads cannot open the door.

B. The light DOOR comes on when the upper pin is not in its plate. It does not tell about the aft and lower
pins.
"""

DOOR_LATCH = """
== CABIN DOOR LATCH - REMOVAL/INSTALLATION

# 1. Removal

A. Remove the door upholstery: nine screws and the arm rest.

B. Remove the lockwire from the three rod ends. Count and write down the threads that show, then disconnect
the rods.

C. Drive out the roll pin of the inside handle and remove the handle.

D. Remove the four screws of the latch and take it out through the opening of the door.

# 2. Installation

A. Lubricate the latch pins with dry-film lubricant. Install the latch with four screws, torque 35 to 40
inch-pounds.

WARNING: USE A NEW ROLL PIN. A HANDLE THAT TURNS ON ITS SHAFT SHOWS "CLOSED" WITH THE PINS STILL OUT, AND
THE DOOR OPENS AT
LIFT-OFF.

B. Install the inside handle with a new roll pin, MS16562-33. The ends of the pin must be below the surface.

C. Connect the rods with the same number of threads. Adjust the latch (52-11-00, Page 501) before you put
the upholstery
back.
"""

DOOR_TEST = """
== CABIN DOOR LATCH - ADJUSTMENT/TEST

# 1. Engagement of the pins

A. Put a thin layer of clay on each striker plate, close the door, turn the handle to closed and open it
again.

B. Measure the depth of the marks. The engagement must be as in Table 501.

!ruled Table 501. Engagement of the latch pins [3 2 2]
| Pin | Inch, minimum | Inch, maximum
| Upper | 0.42 | 0.55
| Aft | 0.38 | 0.50
| Lower | 0.42 | 0.55

C. Adjust the rod ends one half turn at a time. At least five threads of each rod must be in its end: put a
piece of wire
in the witness hole, it must not go through.

# 2. Handle and cam

A. The force to turn the handle past center must be 18 to 26 pounds at its end. A lower force means that the
cam does not
go past center.

B. With the door closed, push from inside on the aft edge with 60 pounds. The door must not move more than
0.08 inch and the
handle must not move at all.

# 3. Light

A. With the door closed and not latched the light DOOR must be on. It must go out when the upper pin is in
by 0.30 inch or
more.
"""

PROPELLER = """
== PROPELLER - REMOVAL/INSTALLATION

# 1. Removal

WARNING: TREAT THE PROPELLER AS IF THE ENGINE COULD START. PUT THE MAGNETO SWITCHES OFF, DISCONNECT THE
BATTERY, AND STAY
OUT OF THE ARC.

A. Remove the spinner: twelve screws. Mark it so that it goes back in the same position.

B. Put a sling round two blades. Cut the lockwire and loosen the six studs of the hub one quarter turn at a
time.

C. Pull the propeller straight forward. Have a pan ready for the oil.

# 2. Installation

A. Lubricate a new packing with engine oil and put it on the crankshaft pilot.

B. Put the propeller on the flange with blade number 1 in line with the TC mark. Torque the studs evenly to
60 to 70
foot-pounds and lockwire them in pairs.

C. Install the spinner. Its runout at the tip must be not more than 0.06 inch.

D. Run the engine. Move the propeller control three times from high to low rpm. Look for oil leaks.
"""

BLADES = """
== PROPELLER BLADES - INSPECTION/CHECK

# 1. Nicks and erosion

A. Examine each blade in good light. A nick in the outer half of the leading edge is a place where a fatigue
crack can
start. Blend it before the next flight.

!figure blade | Figure 601. Blending of a nick: 1 nick, 2 bottom of the nick, 3 blended contour, 4 leading
edge,
5 length at least ten times the depth

B. Blend with a fine file along the blade, then polish with 320-grit cloth. The blend must be at least ten
times as long as
it is deep (Figure 601). Do not use a power tool.

!ruled Table 601. Limits of blending [3 2 2]
| Place | Depth, inch | Number in one blade
| Leading edge, outer half | 0.100 | 3
| Leading edge, inner half | 0.060 | 2
| Face or camber side | 0.030 | 4
| Shank, inboard of the 14-inch station | None permitted | -

C. Paint the bare metal. Replace the erosion tape if its edge is loose.

D. A blade with a bend, a crack or damage over the limits must go to a propeller repair station.

# 2. Grease leaks

A. A trace of grease at a blade root in the first 10 hours is normal. A leak that throws grease on the blade
after that is
cause for removal of the propeller.
"""

POWER_PLANT = """
== POWER PLANT - MAINTENANCE PRACTICES

# 1. Engine run-up after maintenance

A. Point the airplane into the wind on a clean surface. Chock the main wheels and hold the brakes.

B. Start, and let the oil get to 75 degrees F before the speed goes over 1,200 rpm.

C. Check in turn: magnetos at 1,700 rpm (drop not more than 150 rpm, difference not more than 50), propeller
governor,
alternator output, vacuum 4.8 to 5.4 inches, fuel pressure, idle mixture rise 25 to 50 rpm.

!ruled Table 201. Run-up limits [3 2 2]
| Indication | Minimum | Maximum
| Oil pressure at 2,000 rpm | 55 psi | 90 psi
| Oil pressure at idle | 25 psi | -
| Oil temperature | 75 degrees F | 245 degrees F
| Cylinder head temperature | - | 475 degrees F
| Static rpm, full throttle | 2,560 | 2,700

# 2. Exhaust system

A. Look for white or grey powder at the joints: it is the sign of a leak. Look inside the heater shroud with
a light.

WARNING: A CRACK UNDER THE HEATER SHROUD LETS CARBON MONOXIDE INTO THE CABIN. REMOVE THE SHROUD AT EACH
100-HOUR CHECK.

B. Weld repairs of the collector are not permitted. Replace it.
"""

COWLING = """
== COWLING - REMOVAL/INSTALLATION

# 1. Removal

A. Open the eight fasteners on the upper cowling. Lift it at the front first so that its lip clears the
baffle seals.

B. Disconnect the landing light wire at the lower cowling. Support the lower cowling and remove the ten
screws.

# 2. Installation

A. Look at the baffle seals. They must point forward and up, against the flow of the air. A seal that is
folded back lets the
cylinders run hot.

B. Install the lower cowling, connect the wire, install the upper cowling. Close the fasteners until the
slots line up.

C. Each cowl flap must open to 2.5 inches and close flush to 0.1 inch.
"""

OIL_COOLER = """
== OIL COOLER - REMOVAL/INSTALLATION

# 1. Removal

A. Drain the oil (12-10-00). Remove the lower cowling (71-10-00).

B. Disconnect the two hoses. Hold the fitting of the cooler with a second wrench: the boss of the cooler
cracks easily.

C. Remove the four bolts and the cooler.

# 2. Installation

A. Flush a cooler that comes from an engine with metal in the oil, or replace it. A cooler keeps metal in
its corners.

B. Install the cooler and torque the bolts to 50 to 60 inch-pounds. Connect the hoses and torque the nuts to
270 to 300
inch-pounds.

C. Fill with oil, run the engine for 3 minutes at 1,200 rpm, and look for leaks. Fill again to the mark.
"""

SECTIONS = (
    Section("52-10-00", "1", "Cabin door", "Jun 02/2028", DOOR),
    Section("52-11-00", "401", "Cabin door latch", "Nov 08/2029", DOOR_LATCH),
    Section("52-11-00", "501", "Cabin door latch", "Mar 14/2031", DOOR_TEST),
    Section("61-10-00", "401", "Propeller", "Jun 02/2028", PROPELLER),
    Section("61-10-00", "601", "Propeller blades", "Jun 02/2028", BLADES),
    Section("71-00-00", "201", "Power plant", "Nov 08/2029", POWER_PLANT),
    Section("71-10-00", "401", "Cowling", "Jun 02/2028", COWLING),
    Section("79-20-00", "401", "Oil cooler", "Jun 02/2028", OIL_COOLER),
)
