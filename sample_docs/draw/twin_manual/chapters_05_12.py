"""Chapters 05, time limits and checks, and 12, servicing."""

from sample_docs.draw.twin_manual.section import Section

LIMITS = """
== TIME LIMITS - DESCRIPTION

# 1. General

A. This topic gives the overhaul and replacement times that the maker recommends. They are not airworthiness
limitations. The times that must not be passed are in chapter 04 only.

B. A calendar time begins on the date of installation of a new part, or on the cure date for a rubber part.

!ruled Table 1. Recommended overhaul and replacement times [4 2 3 3]
| Component | Chapter | Overhaul | Replace
| Engine, Torrisk TK-360-D | 71 | 2,000 hours or 12 years | -
| Propeller | 61 | 2,400 hours or 6 years | -
| Propeller governor | 61 | With the engine | -
| Alternator | 24 | - | 1,500 hours
| Alternator drive belt | 24 | - | 500 hours or 3 years
| Brake hose | 32 | - | 6 years
| Fuel hose forward of the firewall | 28 | - | 7 years
| Shimmy damper | 32 | 1,000 hours | -
| Oxygen cylinder, hydrostatic test | 35 | 5 years | 15 years
| Oxygen regulator | 35 | 6 years | -
| Emergency locator transmitter battery | 25 | - | Date on the battery
| Vacuum pump | 37 | - | 600 hours
"""

CHECKS = """
== SCHEDULED MAINTENANCE CHECKS

# 1. General

A. Do the checks of Table 1 at the intervals that are marked. Each interval includes all the shorter ones. A
tolerance
of 10 hours is permitted on the 50-hour and 100-hour checks; the next check is counted from the planned time.

B. The procedure of each check is in the topic that the second column names. When a limit is given in two
places, the
topic governs and not this table.

!ruled Table 1. Scheduled checks [5 2 1 1 1]
| Check | Topic | 50 | 100 | 500
| Engine oil and filter: change, cut the filter open and look for metal | 12-10-00 | X | X | X
| Propeller blades: nicks, erosion, grease leaks | 61-10-00 | X | X | X
| Alternator drive belt: tension and condition | 24-31-00 |  | X | X
| Battery: water level, vent, cable ends | 24-30-00 | X | X | X
| Brake linings and discs: wear and cracks | 32-42-00 |  | X | X
| Brake hoses: chafing, leaks, date | 32-42-00 |  | X | X
| Nose gear shimmy damper: play and fluid level | 32-21-00 |  | X | X
| Tires: cuts, flat spots, pressure | 12-10-00 | X | X | X
| Cabin door: latch engagement and pins | 52-11-00 |  | X | X
| Crew and passenger seat tracks: cracks, worn holes | 25-11-00 |  | X | X
| Fuel selector valve: detents and leaks | 28-22-00 |  | X | X
| Fuel strainers: clean | 28-22-00 | X | X | X
| Elevator cables: tension and broken strands | 27-31-00 |  | X | X
| Pitot heat: current draw | 30-31-00 |  | X | X
| Oxygen: leaks, masks, date of the cylinder | 35-10-00 |  | X | X
| Exhaust: cracks and leaks | 71-00-00 | X | X | X
| Wing attach bolts: torque stripe in line | 04-00-00 |  |  | X

C. Lubricate as given in 12-20-00 at each 100-hour check.

D. After the check do an engine run-up and make the entry in the airplane records. The entry must say which
check was
done and name the revision of this manual.
"""

UNSCHEDULED = """
== UNSCHEDULED MAINTENANCE CHECKS

# 1. Hard or overweight landing

A. A landing is hard when the descent rate at touchdown is reported as more than 8 feet a second, or when
the crew says
so. Do the checks in the order given and stop at the first one that finds damage.

(1) Nose gear: examine the drag link, the trunnion lugs and the shimmy damper bracket for bends and cracked
paint.

(2) Main gear: measure the distance between the torque link pin and the axle on both sides. A difference of
more than
0.12 inch is cause for the removal of the leg.

(3) Examine the wheel rims with dye penetrant. Replace the tire if the sidewall shows cords.

(4) Brakes: examine the torque plate and the tie bolts. Do the operational check of 32-42-00, Page 201.

(5) Wing: look for wrinkles in the upper skin between wing stations 22 and 60 and for smoking rivets.

(6) Cabin door: open and close it. A door that binds after a hard landing is a sign that the frame has moved.

# 2. Lightning strike

A. Find the points where the current came in and went out. They look like small burn spots or melted rivet
heads.

B. Do a compass swing, and check the bonding of the control surfaces and of the pitot mast. The resistance
to the
structure must be not more than 0.003 ohm.

# 3. Propeller strike or sudden stop of the engine

WARNING: A PROPELLER THAT HAS STRUCK AN OBJECT CAN BREAK IN FLIGHT WITH NO WARNING. DO NOT TURN THE ENGINE
WITH
THE STARTER UNTIL THIS CHECK IS COMPLETE.

A. Remove the propeller (61-10-00) and send it to a propeller repair station with a report of the event.

B. Measure the runout of the crankshaft flange. Examine the engine mount and its bolts with dye penetrant.

C. Get the instructions of the engine maker for the engine. This manual does not give the limits of the
engine.
"""

REPLENISH = """
== REPLENISHING - SERVICING

# 1. Fuel

WARNING: BOND THE AIRPLANE TO THE TRUCK BEFORE YOU OPEN A FILLER CAP. DO NOT FUEL WITH THE OXYGEN SYSTEM OPEN.

A. Use aviation gasoline, grade 100LL, only. Each main tank holds 58 U.S. gallons and each auxiliary tank 24.

B. Drain 4 ounces from each of the six drains after fueling. Wait 10 minutes so that water can settle.

# 2. Engine oil

A. The sump holds 9 quarts. Do not fly with less than 6. Use ashless dispersant oil after the first 50 hours
of an
engine.

B. To change the oil, warm the engine, drain it into a clean pan, replace the filter, and torque the filter
to 16 to
18 foot-pounds. Cut the old filter open and wash the paper in clean solvent.

# 3. Tires and struts

!ruled Table 301. Pressures [3 3 3]
| Item | QZ62 | QZ62S
| Main wheel tire, 6.50-8 | 58 to 62 psi | 62 to 66 psi
| Nose wheel tire, 5.00-5 | 38 to 42 psi | 38 to 42 psi
| Main strut, extension with full fuel | 3.10 to 3.40 inches | 3.30 to 3.60 inches
| Nose strut, extension with full fuel | 2.60 to 2.90 inches | 2.60 to 2.90 inches

# 4. Brake reservoir

A. The reservoir is on the forward face of the firewall bulkhead, behind the nose baggage door. Fill it with
red mineral
base fluid to 1.0 inch below the filler opening. Do not fill it while the brake linings are new and the
pedals are
pushed: the fluid comes out through the vent when the pedals are released.

# 5. Oxygen

A. The filling of the oxygen cylinder is given in 35-10-00, Page 301.
"""

LUBRICATION = """
== LUBRICATION - SERVICING

# 1. General

A. Wipe each point clean before you lubricate it. Wipe off what comes out. More grease is not better: it
collects sand.

!ruled Table 301. Lubrication points [4 2 4]
| Point | Lubricant | Method and note
| Main gear trunnions, both sides | G1 | Grease gun, until clean grease comes out
| Nose gear steering collar | G1 | Grease gun, weight off the wheel
| Wheel bearings | G2 | Pack by hand at each tire change
| Brake anchor bolts | D1 | Dry-film only. Never grease
| Elevator hinges | O1 | Two drops on each hinge
| Control cable pulleys | None | The bearings are sealed
| Cabin door latch pins | D1 | Wipe off the old film first
| Seat tracks | None | Clean with a vacuum and a dry brush
| Throttle and propeller control ends | O1 | One drop
| Fuel selector shaft | F1 | At overhaul of the valve only

!plain Lubricant codes [1 5]
| Code | Lubricant
| G1 | Lithium grease, general purpose
| G2 | Wheel bearing grease, clay base
| O1 | General-purpose oil, low temperature
| D1 | Dry-film lubricant, graphite, air-drying
| F1 | Fuel-resistant grease

WARNING: DO NOT LET OIL OR GREASE TOUCH ANY PART OF THE OXYGEN SYSTEM. OIL AND HIGH-PRESSURE OXYGEN CAN
EXPLODE.
"""

SECTIONS = (
    Section("05-10-00", "1", "Time limits", "Mar 14/2031", LIMITS),
    Section("05-20-00", "1", "Scheduled maintenance checks", "Mar 14/2031", CHECKS),
    Section("05-50-00", "1", "Unscheduled maintenance checks", "Nov 08/2029", UNSCHEDULED),
    Section("12-10-00", "301", "Replenishing", "Nov 08/2029", REPLENISH),
    Section("12-20-00", "301", "Lubrication", "Jun 02/2028", LUBRICATION),
)
