"""Chapters 27, flight controls, 28, fuel, and 30, ice and rain protection."""

from sample_docs.draw.twin_manual.section import Section

ELEVATOR = """
== ELEVATOR CONTROL - DESCRIPTION AND OPERATION

# 1. General

A. The two control columns are joined by a torque tube below the floor. Push-pull rods go from the torque
tube to a
sector at fuselage station 92, and two 1/8-inch cables go aft to the bellcrank in the tail cone.

B. A bobweight on the bellcrank and a downspring give the pilot the feel of speed. Do not disconnect the
downspring with
the elevator free: the surface falls against its stop.

# 2. Trim

A. The trim tab is on the right elevator half. A wheel on the pedestal turns an actuator with a screw jack
through a
cable. The electric trim, when installed, drives the same cable with a clutch that slips at 25 pounds at the
rim of the
wheel.

!ruled Table 1. Travels of the elevator and its tab [3 2 2]
| Surface | Up, degrees | Down, degrees
| Elevator | 24 to 26 | 14 to 16
| Trim tab, elevator neutral | 9 to 11 | 21 to 23
"""

RIGGING = """
== ELEVATOR CONTROL - ADJUSTMENT/TEST

# 1. Rigging

A. Level the airplane (08-10-00). Install the rig pin, QZT-2702, in the sector at station 92.

B. Set the elevator to neutral with the rigging board. Adjust the turnbuckles so that the surface stays in
neutral and
the tension of both cables is the same, to Table 501.

!ruled Table 501. Cable tension [3 3]
| Temperature, degrees F | Tension, pounds
| 30 | 22 to 26
| 50 | 26 to 30
| 70 | 30 to 34
| 90 | 35 to 39

C. Remove the rig pin. Move the column to both stops and measure the travel with a protractor. Adjust the
stop bolts in
the tail cone, not the cables.

WARNING: AFTER RIGGING, A SECOND PERSON WHO DID NOT DO THE WORK MUST LOOK AT THE MOVEMENT: COLUMN BACK,
ELEVATOR UP. A
CABLE CROSSED IN THE TAIL CONE CANNOT BE FELT AT THE COLUMN.

D. Safety the turnbuckles. Not more than three threads may show at each end.

# 2. Test

A. Measure the friction with a spring scale at the top of the control wheel. It must be not more than 5
pounds from stop
to stop with the bobweight balanced by hand.

B. Trim: turn the wheel from stop to stop. The tab must have no more than 0.06 inch of free play at its
trailing edge.
"""

FUEL = """
== FUEL DISTRIBUTION - DESCRIPTION AND OPERATION

# 1. General

A. Each wing has a main tank outboard of the nacelle and an auxiliary tank inboard of it. A selector valve
for each
engine, between the seats, has the positions OFF, MAIN, AUX and CROSSFEED.

B. In CROSSFEED an engine takes fuel from the main tank of the opposite wing. Vapor from the engine pump
always goes
back to the main tank of the same side, so the main tank must have room: use 1 hour of fuel from it before
AUX.

# 2. Components

A. Selector valve. A rotor with nylon seals turns in an aluminum body. A ball and spring give a detent at each
position. The handle goes on a square shaft with one corner cut away so that it fits in one position only.

!figure selector | Figure 1. Fuel selector valve: 1 handle, 2 body, 3 rotor, 4 nylon seal, 5 detent ball and
spring,
6 MAIN port, 7 AUX port, 8 CROSSFEED port

B. Strainer. A strainer with a quick drain is below each valve. It is the lowest point of its line.

C. Auxiliary pumps. An electric pump in each wing root supplies 6 to 8 psi for starting and in case the
engine pump
fails.
"""

SELECTOR = """
== FUEL SELECTOR VALVE - REMOVAL/INSTALLATION

# 1. Removal

WARNING: FUEL VAPOR IN THE CABIN BURNS AT ONCE. OPEN BOTH DOORS, DISCONNECT THE BATTERY, AND KEEP A FIRE
EXTINGUISHER
WITHIN REACH.

A. Drain the tanks of both wings (12-10-00) or close the shutoff cock at each wing root.

B. Remove the cover between the seats. Remove the screw and lift the selector handle from its shaft.

C. Disconnect the five lines. Put caps on the lines and on the ports.

D. Remove the three bolts and lift the valve out.

# 2. Installation

A. Before you install a valve, turn its shaft through all the positions. You must feel each detent. A valve
with a weak
detent can stop between two ports and starve the engine: send it to overhaul.

B. Install the valve with three bolts and torque them to 50 to 55 inch-pounds.

C. Connect the lines with new seals. Torque the nuts to 135 to 150 inch-pounds.

CAUTION: DO NOT USE THREAD SEALANT ON FLARED FITTINGS. PIECES OF IT BLOCK THE INJECTOR NOZZLES.

D. Put the handle on the shaft. With the handle at MAIN, the cut corner of the shaft points forward.

E. Put 10 gallons in each tank. Move the selector through all its positions with the auxiliary pump on, and
look for
leaks for 5 minutes in each.

F. Run the engine at 1,700 rpm for 2 minutes in each position. Turn the selector to OFF: the engine must
stop in 15 to 45
seconds.

# 3. Cleaning of the strainer

A. Close the selector valve, cut the lockwire and remove the bowl. Wash the screen in solvent. Install a new
gasket and
lockwire the bowl.
"""

QUANTITY = """
== FUEL QUANTITY INDICATION - ADJUSTMENT/TEST

# 1. General

A. Each tank has two float transmitters in series. The resistance is 0 ohms when empty and 90 ohms when full.

# 2. Calibration

A. Level the airplane and drain all tanks. Put in the unusable fuel: 1.5 gallons in each main and 0.5 in
each auxiliary.

B. With the bus at 28 volts adjust the EMPTY screw of each indicator until the pointer is in the center of
the zero
mark.

C. Add fuel in steps of 10 gallons from a calibrated pump. Write the indication at each step. The error must
not be more
than the width of the pointer below half and twice the width above half.

D. Put the correction card in the airplane when the error of a step is more than one gallon.
"""

PITOT = """
== PITOT AND STALL VANE HEAT - DESCRIPTION AND OPERATION

# 1. General

A. The heated pitot mast is below the left wing. The QZ62S has a second one below the right wing for the
survey
computer. One switch and one 15-ampere circuit breaker are for each mast.

# 2. Description

A. Two heater elements are molded in the mast, one in the tip and one in the drain. A current sensor in the
circuit
puts the amber light PITOT HEAT on when the switch is off or when the current is less than 4 amperes.

!figure pitot | Figure 1. Pitot mast: 1 pitot tube, 2 tip heater, 3 drain heater, 4 drain hole, 5 mast, 6
connector,
7 pressure line

B. The stall warning vane of the left wing has a heated mounting plate, on the same switch as the left mast.

# 3. Operation

A. On the ground the heater must not be on for more than 2 minutes with no air flow. There is no squat
switch: the
pilot's checklist is the only protection.
"""

PITOT_TEST = """
== PITOT HEAT - ADJUSTMENT/TEST

# 1. Test of the heater

WARNING: THE PITOT MAST GETS HOT ENOUGH TO BURN SKIN IN 30 SECONDS. REMOVE THE COVER BEFORE THE TEST AND DO
NOT HOLD THE
MAST TO FEEL THE HEAT. USE A DROP OF WATER.

A. Connect a ground power unit set to 28 volts. Put a clamp ammeter on the wire at the circuit breaker.

B. Put the PITOT HEAT switch on for 30 seconds. Compare the current with Table 501.

!ruled Table 501. Heater current at 28 volts, mast cold [4 3 3]
| Circuit | Amperes after 5 seconds | Amperes after 30 seconds
| Left pitot mast | 9.0 to 11.5 | 6.0 to 8.0
| Right pitot mast (QZ62S) | 9.0 to 11.5 | 6.0 to 8.0
| Stall vane plate | 2.5 to 3.5 | 2.0 to 3.0

C. A current of about one half means that one of the two elements is open. Replace the mast: the elements
cannot be
repaired.

# 2. Test of the light

A. With the switch off the light must be on. With the switch on it must go off in 3 seconds. Open the
circuit breaker: the
light must come on.

# 3. Insulation

A. Disconnect the mast and measure from each pin to the mast with a 500-volt tester: not less than 2
megohms. Moisture
gives a low value. Heat the mast for 1 minute and measure again.
"""

SECTIONS = (
    Section("27-30-00", "1", "Elevator control", "Jun 02/2028", ELEVATOR),
    Section("27-31-00", "501", "Elevator control", "Jun 02/2028", RIGGING),
    Section("28-20-00", "1", "Fuel distribution", "Jun 02/2028", FUEL),
    Section("28-22-00", "401", "Fuel selector valve", "Nov 08/2029", SELECTOR),
    Section("28-41-00", "501", "Fuel quantity indication", "Jun 02/2028", QUANTITY),
    Section("30-31-00", "1", "Pitot and stall vane heat", "Jun 02/2028", PITOT),
    Section("30-31-00", "501", "Pitot heat", "Mar 14/2031", PITOT_TEST),
)
