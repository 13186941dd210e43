"""Chapters 24, electrical power, and 25, equipment and furnishings."""

from sample_docs.draw.twin_manual.section import Section

GENERATION = """
== DC GENERATION - DESCRIPTION AND OPERATION

# 1. General

A. Two belt-driven alternators, one on each engine, supply 28 volts to the main bus. A 24-volt, 17
ampere-hour battery in
the nose starts the engines and supplies the essential bus when both alternators are off.

B. Each alternator is rated at 85 amperes. On the QZ62S, which carries survey cameras, the right alternator
is rated at
120 amperes and has its own cooling duct.

# 2. Description

A. Alternator. The alternator (Figure 1) is bolted to a bracket at the front of the engine crankcase, with a
slotted
arm for the tension of the belt. Its field is fed through a 5-ampere circuit breaker.

!figure alternator | Figure 1. Alternator and drive: 1 alternator, 2 drive belt, 3 engine pulley, 4
adjusting arm,
5 pivot bolt, 6 adjusting bolt

B. Control unit. One control unit for each alternator keeps the voltage between 28.2 and 28.6 volts, shares
the load to
10 amperes, and opens the field at 31.5 volts in less than 0.2 second.

C. Indication. One ammeter with a selector switch shows the output of either alternator or the battery
current. A
light, L ALT or R ALT, comes on when the output is less than 2 amperes.

# 3. Operation

A. With one alternator off, the other one carries the essential loads and one radio. The pilot must turn off
the cabin
heater fan and the landing lights. Pitot heat stays on.

B. After an overvoltage trip, the field can be reset once by turning the alternator switch off and on.
"""

TROUBLES = """
== DC GENERATION - TROUBLESHOOTING

# 1. General

A. Before you replace a part, measure the voltage of the battery with all switches off (24.6 volts or more)
and look at
the tension of the drive belts.

CAUTION: DO NOT DISCONNECT THE BATTERY OR THE ALTERNATOR OUTPUT CABLE WITH THE ENGINE RUNNING. THE VOLTAGE
SPIKE
DESTROYS THE DIODES AND THE CONTROL UNIT.

!ruled Table 101. Faults of the alternator system [3 4 4]
| Fault | Probable cause | Correction
| ALT light on, no output | Field circuit breaker open | Reset once. If it opens again, measure the
resistance of the
field: 3.0 to 4.5 ohms.
| | Broken drive belt | Replace the belt (24-31-00, Page 401). Look for a pulley out of line.
| | Brushes worn | Replace the alternator.
| Output low, belt squeals | Belt loose or glazed | Adjust or replace the belt (24-31-00, Page 501).
| Ammeter needle swings | Loose connection of the field wire | Clean the terminal and torque the nut to 20
to 25 inch-pounds.
| | Control unit defective | Put the left unit in the right place. If the fault moves, replace the unit.
| Voltage high, field trips | Sense wire open | Repair the wire between the bus and terminal S.
| Loads not shared | Units not set to the same voltage | Adjust both units (24-31-00, Page 501).
| Whine in the headset | Open diode | Look at the output with an oscilloscope. Replace the alternator.
"""

ALTERNATOR = """
== ALTERNATOR - REMOVAL/INSTALLATION

# 1. Removal

A. Put the battery switch off, disconnect the battery, and hang a tag on the switch.

B. Remove the upper and lower cowlings (71-10-00).

C. Mark the cables, then disconnect the output cable, the field wire and the ground strap from the alternator.

D. Loosen the adjusting bolt and the pivot bolt. Push the alternator toward the engine and lift the drive
belt from the
pulley.

NOTE: The propeller must come off to replace a drive belt that is not the split type. See 61-10-00, Page 401.

E. Hold the alternator, remove both bolts, and take the alternator out downward.

# 2. Installation

WARNING: A LOOSE OUTPUT CABLE CAN ARC AND START A FIRE BEHIND THE COWLING. TORQUE THE OUTPUT NUT AND PUT THE
BOOT BACK.

A. Put the alternator in its bracket with the pivot bolt, QZ24-3108-2. Make sure that the spacer is at the
aft lug.

B. Put the drive belt over the pulleys and adjust its tension (24-31-00, Page 501).

C. Connect the cables and torque the nuts to Table 401. Slide the boot over the output terminal.

D. Connect the battery, install the cowlings, and do the test of 24-31-00, Page 501, paragraph 2.

!ruled Table 401. Torque values, alternator [4 2 2]
| Fastener | Inch-pounds | Note
| Pivot bolt, QZ24-3108-2 | 190 to 210 | Lockwire
| Adjusting bolt, QZ24-3109-4 | 110 to 125 | Lockwire
| Output terminal nut | 45 to 50 | New lockwasher
| Field terminal nut | 20 to 25 | -
"""

BELT = """
== ALTERNATOR - ADJUSTMENT/TEST

# 1. Tension of the drive belt

A. Measure with the engine cold. Put a torque wrench on the nut of the alternator pulley and turn it in the
direction of
rotation. The belt must slip at the torque in Table 501.

!ruled Table 501. Slip torque of the drive belt [4 2]
| Belt | Foot-pounds
| New belt, first installation | 13 to 15
| Belt with 10 hours or more | 11 to 13

B. To adjust, loosen the pivot bolt and the adjusting bolt, move the alternator in the slot, and torque the
bolts to the
values of 24-31-00, Page 401. Measure again after 10 hours and after 25 hours.

C. A belt with cracks across its back, glazed sides, or frayed cords must be replaced.

# 2. Voltage and load sharing

A. Run both engines at 1,800 rpm with a load of 50 amperes. Connect a digital meter to the main bus.

B. With the left alternator only, adjust the left control unit to 28.40 volts, then turn it off. Do the same
with the
right one.

C. With both alternators on, the difference between the two output currents must be not more than 10 amperes.

^ D. QZ62S only: run the camera load bank at 60 amperes for 10 minutes. The temperature label on the right
alternator
must not be darker than the 230-degree mark.
"""

SEATS = """
== SEAT TRACKS - INSPECTION/CHECK

# 1. General

A. A pilot seat that slides aft at take-off takes the pilot away from the controls. Examine the tracks of
all seats at
each 100-hour check and after each removal of a seat.

# 2. Inspection

A. Remove the seats: lift the locking bar, slide each seat forward past the stops, and lift it out.

B. Clean the tracks with a vacuum and a dry brush. Do not lubricate.

C. Measure each pin hole with a go/no-go gauge, QZT-2511. Replace the track when:

(1) a hole is worn to more than 0.290 inch in the direction of the travel,

(2) a crack in the vertical web goes from a hole to the edge, or two cracks are within 1.0 inch of each other,

(3) the lip of the track is bent by more than 0.030 inch in 3 inches.

!figure seat_track | Figure 601. Seat track: 1 track, 2 pin hole, 3 wear direction, 4 crack in the web, 5
locking pin,
6 roller

D. Examine the locking pin. It must go through the track by at least 0.150 inch with the seat in each hole.

E. Examine the four rollers for flat spots. A roller that does not turn wears the lip of the track.

# 3. Installation of the seat

CAUTION: INSTALL THE FORWARD AND AFT SEAT STOPS BEFORE ANYBODY SITS IN THE SEAT. WITH NO STOP THE SEAT CAN
COME OFF THE
TRACK.

A. Install the seat, then the stops. Torque the stop screws to 20 to 25 inch-pounds.

B. Sit in the seat and try to move it with the feet against the pedals. The seat must not move when the bar
is down.
"""

SECTIONS = (
    Section("24-30-00", "1", "DC generation", "Jun 02/2028", GENERATION),
    Section("24-30-00", "101", "DC generation", "Jun 02/2028", TROUBLES),
    Section("24-31-00", "401", "Alternator", "Nov 08/2029", ALTERNATOR),
    Section("24-31-00", "501", "Alternator", "Mar 14/2031", BELT),
    Section("25-11-00", "601", "Seat tracks", "Nov 08/2029", SEATS),
)
