"""Sections VI to XVII of the 1950s single's service manual."""

CONTROLS = """
== SECTION VI

!centre **ELEVATOR AND TRIM CONTROLS**

# 6-1. GENERAL.

The elevators are moved by two cables from the stick. The tab on the left elevator is moved by a screw and a
cable from the crank in
the roof.

# 6-2. RIGGING.

Set the stick upright with a block and the elevators in line with the stabilizer. Draw the turnbuckles up to
a cable tension of 20 to
25 lb. at 70 degrees. Up travel, 28 degrees; down travel, 22 degrees. Set the stops at the stick, not at the
tail.

WARNING: PULL THE STICK BACK AND LOOK AT THE ELEVATOR. IT MUST GO UP. TWO AIRPLANES HAVE BEEN LOST AFTER THE
CABLES WERE
CROSSED.

# 6-3. TRIM.

Turn the crank to the middle of its travel; the tab must be in line with the elevator. More than one eighth
inch of play at
the trailing edge calls for a new nut in the trim screw.
"""

ENGINE = """
== SECTION XII

!centre **ENGINE AND MOUNT**

# 12-1. REMOVING THE ENGINE.

Shut off the fuel, take the battery out (H-14B), take the propeller off, and mark all lines and cables with
tags. Put a sling on the
lifting eye. Take out the four mount bolts, lower ones first.

# 12-2. MOUNT.

Clean the paint from the welds and look with a glass. A crack may be welded by a certificated shop; then the
mount must be
normalized and checked on a flat plate.

# 12-3. MOUNT RUBBERS.

Replace the rubbers at each engine overhaul. Draw the bolts up to 180 to 200 in.-lb. The large washer goes
to the
rubber.

# 12-4. CARBURETOR HEAT.

The drop with full heat at 2000 r.p.m. must be 75 to 150 r.p.m. Less means a leaking valve; look at the pin
of the flapper.

# 12-5. EXHAUST.

Take the heater muff off at each 100 hours. Replace a collector that is cracked or thin. Gas that leaks into
the heater
muff comes into the cabin and can kill.
"""

FUEL = """
== SECTION XIII

!centre **FUEL SYSTEM**

# 13-1. GENERAL.

Two tanks in the wings feed by gravity thru a selector valve at the left of the pilot. The positions are
OFF, LEFT and RIGHT.
There is no position for both tanks.

# 13-2. SELECTOR VALVE.

A cone with one hole turns in a bronze body. A detent plate with three notches lies under the cover, with a
ball and a spring.

!figure detent | Figure 13-1. Detent of the selector valve: 1 detent plate, 2 notch, 3 ball, 4 spring

# 13-3. TAKING THE VALVE APART.

Drain both tanks. Take off the handle, four screws and the cover plate. Mark the plate. Lift the cone with a
puller; do not pry.
Lap the cone with fine compound if it leaks and wash every trace of it away. Grease the cone with fuel-proof
grease, very
thinly.

# 13-4. TEST.

Put 5 lb. of air on one port at a time under water, in each position. No bubbles may come. Turn the handle:
it must click
into OFF, LEFT and RIGHT and must not stay between. See Service Bulletin No. 27.

# 13-5. TANKS.

To solder a leak the tank must be out of the airplane, washed with live steam for two hours, and filled with
water to the place of
the leak.

WARNING: A TANK THAT SMELLS OF GASOLINE WILL EXPLODE UNDER A SOLDERING TORCH. STEAM IT AGAIN.

# 13-6. STRAINER.

Clean the bowl and screen at 25 hours. Safety the thumb nut with wire.
"""

PROPELLER = """
== SECTION XIV

!centre **PROPELLER**

# 14-1. GENERAL.

A wood propeller with a metal leading edge is standard. Track the blades within one sixteenth inch. Draw the
hub bolts up evenly to
200 to 230 in.-lb., at 1 hour, at 10 hours and with each change of season.

# 14-2. METAL TIPS.

Look for loose screws and for cracks across the metal. Lines of rust at a screw mean that it works. Keep the
drain holes at the tip open:
water in a blade throws it out of balance.

# 14-3. BALANCE.

Put the propeller on a mandrel on level knife edges. Correct with solder on the metal tip, not more than one
ounce.
"""

ELECTRICAL = """
== SECTION XVII

!centre **ELECTRICAL SYSTEM, MODEL H-14B**

# 17-1. GENERAL.

A 12-volt battery, a 20-ampere generator driven by a belt, a starter and a voltage regulator. The pitot tube
has a heating element
as special equipment.

# 17-2. GENERATOR.

The belt is right when it can be pressed in one half inch by the thumb. Look at the brushes at 100 hours. A
brush shorter than one
half inch must be replaced. Polish the commutator with fine sandpaper, never with emery.

# 17-3. REGULATOR.

Set the voltage to 14.0 to 14.4 at 1500 engine r.p.m. with the cover on and the regulator warm.

# 17-4. HEATED PITOT TUBE.

Turn the switch on for one minute. Touch the tube with a wet finger: it must hiss. The element takes 6
amperes. When it takes none,
look for a broken wire at the wing root first.

# 17-5. BATTERY.

Add distilled water to three eighths inch above the plates. Wash the box with soda and paint it with
acid-proof paint.
"""
