"""Sections 1 to 10 of the shop manual of the retractable single: airframe, gear and flight controls."""

GENERAL = """
== SECTION 1. GENERAL

# 1-1. The Airplane.

The Whinchat is a four-place, low-wing airplane of all-metal construction with a tricycle gear that is
drawn up by hand. The engine is a Torrisk six-cylinder, air-cooled engine of 180 horsepower with a
constant speed propeller.

# 1-2. Leading Particulars.

!plain [4 3]
| Item | Value
| Span | 32 ft. 6 in.
| Length | 24 ft. 1 in.
| Height | 8 ft. 2 in.
| Gross weight | 2450 lb.
| Fuel, two tanks | 50 gal.
| Oil | 10 qt.

# 1-3. Leveling and Weighing.

Two screws in the left side of the aft fuselage are the leveling points. Partly withdraw them and lay a
spirit level on the heads. Let air out of the nose tire until the bubble is centered. Weigh with full oil
and no usable fuel, on three scales, with the doors closed and no wind.

# 1-4. Station Diagram.

Stations are in inches aft of the firewall face. Wing stations are in inches from the center line of the
airplane. The access holes and their covers are lettered on the diagram in the back of the owner's handbook.

# 1-5. Placards.

Replace a placard that cannot be read. The stall speed placard is on the panel in front of the pilot, the
gear placard is beside the handle, and the fuel grade is marked at each filler.
"""

HANDLING = """
== SECTION 2. GROUND HANDLING, SERVICING, LUBRICATION AND INSPECTION

# 2-1. Towing.

Tow by the nose wheel with the tow bar only. Do not turn it past the red marks: the stops on the strut
housing break. Do not push on the spinner or on the stabilator tips.

# 2-2. Jacking.

Place a jack under the fitting of each main spar, and hang a 250-pound weight from the tail tie-down ring
before the nose comes up. The gear handle must be pinned in the DOWN hook.

# 2-3. Mooring.

Tie ropes to the rings under the wings and the tail. Lock the wheel with the belt. Close the cowl openings
with the covers.

# 2-4. Filling the Fuel Tanks.

Use 80 octane aviation gasoline. Ground the hose nozzle. Drain the sump of each tank and the strainer bowl
before the first flight of the day.

# 2-5. Engine Oil.

Drain the oil while it is warm, every 25 hours. Clean the suction screen. Refill to 10 quarts, SAE 50 above
60 degrees, SAE 30 below.

# 2-6. Tires.

Nose, 24 lb. Mains, 28 lb. Keep oil and grease off the rubber.

# 2-7. Brake Fluid.

The reservoir is on the firewall, upper left. Fill it to one half inch below the cap with petroleum base
fluid (red). Do not mix it with castor base fluid.

# 2-8. Oleo Struts.

The nose strut must show 3 in. of bright tube with the airplane empty, the mains 2 1/2 in. To fill one,
let the air out, take the valve core out, push the strut shut, and add fluid thru the valve until it runs
clear of air.

# 2-9. Battery.

Look at the fluid level every 25 hours. Wash spilled acid off with soda water.

!break

# 2-10. Lubrication Chart.

!plain [5 4 2]
| Point | Lubricant | Hours
| Nose gear torque link bushings | General purpose grease | 50
| Main gear pivots, side brace pins | General purpose grease | 50
| Wheel bearings | Wheel bearing grease | 100
| Gear push rods and latch | Light oil | 50
| Aileron and flap hinges | Light oil | 100
| Stabilator trunnion bearings | None, sealed |
| Control wheel shaft and chain | Light oil | 100
| Trim drum screw | Graphite grease | 100
| Door latches and hinges | Powdered graphite | 100
| Propeller hub | Low temperature grease, two shots a blade | 100

# 2-11. Daily Inspection.

Look for leaks at the brake lines and at the oleo struts, for loose cowl fasteners, for nicks in the
propeller, and for water in the gas. Move all controls to their stops.

# 2-12. Inspection Every 100 Hours.

!plain [1 8]
| No. | Look at
| 1 | Compression of all cylinders; hot and cold plugs, gap
| 2 | Magneto points; timing; ignition harness
| 3 | Engine mount welds and rubbers; exhaust stacks and heater muff
| 4 | Gear retraction on jacks, latch and warning horn
| 5 | Brake disks and linings, lines and hoses
| 6 | Cables for broken strands; pulleys, turnbuckles and stops
| 7 | Stabilator hinge bolts, wing attach bolts, aft bulkhead for cracks
| 8 | Landing light, navigation lights, stall warning

# 2-13. Storage.

For more than 30 days fly or turn the engine each week. For longer, put preservative oil in the cylinders
and moisture absorbing plugs in the holes, and close all openings.
"""

FUSELAGE = """
== SECTION 3. FUSELAGE

# 3-1. Structure.

The fuselage is a shell of alloy sheet on bulkheads and stringers. The cabin section has two keel beams
that carry the spar box. The tail cone is riveted to bulkhead 7 with a double row.

# 3-2. Cabin Door.

The door has an upper hook latch and a lower bolt latch. To fit a door, loosen the hinge screws, push the
door forward until the gap is even, and tighten. Adjust the striker so that the lower bolt enters by five
eighths inch. A door that whistles needs a new weather seal.

# 3-3. Baggage Door.

A piano hinge and a lock with a key. Replace the hinge wire when it is worn to half its thickness.

# 3-4. Windshield and Windows.

The panes are of acrylic sheet in a channel of felt and sealer. Stop a crack by drilling its end with a
1/8 inch bit. Replace the pane when a crack is longer than 3 inches or stands in front of the pilot.

# 3-5. Seats.

The front seats slide on rails. A stop pin drops in a hole of the rail; see that it drops fully. Replace a
rail whose holes are worn oval. The rear bench lifts out after two bolts are removed.

# 3-6. Safety Belts and Upholstery.

Replace frayed belts. Side panels come off after the screws along the window line are out. The
soundproofing is glass wool in bags; a bag that is soaked with oil must be thrown away.
"""

WINGS = """
== SECTION 4. WINGS AND EMPENNAGE

# 4-1. Wing Removal.

Drain the tank. Disconnect the fuel line, the vent, the pitot hose (left), the aileron and balance cables
and the flap rod. Support the wing in two cradles. Take out the bolts of the fore, main and aft spar
fittings, in that order.

# 4-2. Wing Installation.

Line the main spar up first. The eighteen bolts of the main spar get 360 to 390 inch-pounds. Shim washers
at the aft fitting set the incidence; two washers change it by a quarter of a degree.

# 4-3. Wing Tips.

The tip is glass cloth and resin, held by screws. Small cracks are filled as given in section 18.

# 4-4. Stabilator.

The stabilator is one moving surface with a balance weight on an arm inside the tail cone. Remove the tail
cone cover, mark the weight, take off the trim tab rods and the two trunnion bolts, and lift the surface
off. Play at the tip of more than one eighth inch calls for new trunnion bearings.

# 4-5. Fin.

The fin is bolted to bulkheads 9 and 10. The forward bolts are reached thru the fairing. Look at the
radius of the spar for cracks while the rudder is off.

# 4-6. Balance of Surfaces.

After paint or repair, hang each surface by its hinges. The ailerons must balance with the trailing edge
level or low; the stabilator must be nose heavy by 4 to 8 inch-pounds.
"""

GEAR = """
== SECTION 5. LANDING GEAR, WHEELS AND BRAKES

# 5-1. Description.

The gear is drawn up by the long handle between the seats. Push-pull tubes turn a cross shaft under the
floor, which moves all three legs at once. Springs carry most of the weight. The handle hooks under the
panel when the gear is down and into the floor when it is up.

# 5-2. Rigging the Gear.

Put the airplane on jacks. With the handle in the DOWN hook, each side brace must be past its center by
one quarter inch. Set the length of the push rod at its fork end, half a turn at a time. Retract, and look
that the doors close with no more than 40 pounds at the handle.

# 5-3. Down Latch.

The hook must drop of its own weight. A hook whose lip is rounded can let go; file nothing, replace it.
Safety the pin with a new cotter each time.

# 5-4. Oleo Strut, Taking Apart.

Let all air out at the valve. Take the torque links off. Push out the pin of the gland, and draw the tube
down. Fit new packing rings and a new wiper. Dip all parts in clean fluid as they are put together.

WARNING: A STRUT WITH AIR IN IT COMES APART WITH GREAT FORCE. SEE THAT THE VALVE CORE IS OUT BEFORE THE
GLAND IS LOOSENED.

# 5-5. Torque Links.

Bushings with more than 0.010 in. of play let the nose wheel shake. Ream new bushings in line.

# 5-6. Shimmy Dampener.

Fill it out of the airplane, with the port up, moving the shaft until no bubbles come. A dampener that moves
freely by more than 1/16 inch needs new rings.

!break

# 5-7. Wheels.

Each wheel is two halves held by three thru bolts. Let all air out of the tire before the bolts are touched.
Torque them to 150 inch-pounds, evenly. Cups that are brinelled or blue must be replaced with their cones.

# 5-8. Brake Assembly.

Each main wheel has a steel disk and a caliper with two cylinders. The caliper slides on two anchor pins.
Linings are riveted. Replace them when a rivet is nearer than 1/32 inch to the face, both sides of the
airplane together.

# 5-9. Relining.

Take out the two back plate bolts; the caliper and the pressure plate then come off without raising the
wheel. Punch the rivets out, clean the plates with alcohol, and set new rivets with the brass tool.

# 5-10. Disks.

Replace a disk that is thinner than 0.205 in., coned more than 0.015 in., or cracked. Light rust is taken
off with fine cloth.

# 5-11. Master Cylinders.

One hand lever works both brakes from the single master cylinder under the panel. To take it apart, remove
the snap ring and push the rod out. Lap no bore; replace a scratched cylinder.

# 5-12. Bleeding the Brakes.

Bleed from the bottom. Put a pressure pot on the bleeder of one caliper and push fluid up until the
reservoir shows no more bubbles. Do the same on the other side. The lever must have at least 1 inch left
before the panel.

# 5-13. Parking Brake.

The button on the lever holds the pressure with a ratchet. If it lets go overnight, the ratchet spring is
weak, or a caliper leaks.

# 5-14. Gear Warning.

A horn and a red light come on when a throttle is closed and the handle is out of the DOWN hook. Set the
throttle switch to close at 12 inches of manifold pressure.
"""

AILERON = """
== SECTION 6. AILERON CONTROL SYSTEM

# 6-1. Description.

Wheels, a chain and cables turn a bell crank in each wing, from which a rod goes to the aileron.

# 6-2. Rigging.

Tie the wheels level. Set the cables to 40 pounds. Set the rod until the trailing edge of the aileron is
even with the flap. Travel is 25 degrees up and 12 1/2 degrees down; set the stops at the bell crank.

WARNING: TURN THE WHEEL LEFT AND SEE THAT THE LEFT AILERON GOES UP. CROSSED CABLES HAVE KILLED.

# 6-3. Bell Crank.

The bearing is pressed in. Replace the crank when the rod bolt hole is oval.
"""

FLAP = """
== SECTION 7. FLAP CONTROL SYSTEM

# 7-1. Description.

A lever between the seats pulls the flaps down by a cable against springs; a ratchet holds them at 10, 25
and 40 degrees.

# 7-2. Rigging.

With the lever on the floor, the flap step must be locked up. Turn the rod ends until both flaps leave the
wing together. The lock must carry the weight of a man who steps on the flap.

# 7-3. Ratchet and Springs.

A flap that blows back has a worn pawl. Replace the return springs in pairs.
"""

STABILATOR = """
== SECTION 8. STABILATOR CONTROL SYSTEM

# 8-1. Description.

Cables go from the tee bar under the panel to the balance arm in the tail cone.

# 8-2. Rigging.

Lock the tee bar upright. Cable tension is 40 pounds, plus or minus 5. Travel is 18 degrees up and 2
degrees down, measured at the root.

# 8-3. Cables.

Run a rag along each cable. Replace a cable with a broken strand at a pulley, or with two broken strands
anywhere in three inches.
"""

TRIM = """
== SECTION 9. TRIM CONTROL SYSTEM

# 9-1. Description.

The crank in the roof turns a drum and a screw in the tail by a cable. The tab moves against the
stabilator and serves as trim.

# 9-2. Rigging.

Turn the screw to the middle of its thread. The tab must be in line with the stabilator. Set the indicator
to neutral. Play at the tab of more than 0.10 in. means a worn screw or loose rod ends.
"""

RUDDER = """
== SECTION 10. RUDDER AND NOSE WHEEL STEERING

# 10-1. Description.

Pedals move the rudder by cables and steer the nose wheel by two rods. The steering lets go by itself when
the nose gear comes up.

# 10-2. Rigging the Rudder.

Clamp the pedals even. Set the cables to 40 pounds and the rudder to the middle. Travel is 27 degrees each
way.

# 10-3. Rigging the Steering.

With the pedals clamped and the nose wheel straight ahead, set the rods so that the rollers touch both
sides of the steering arm. The wheel turns 22 degrees each way. A pull to one side on the runway with the
rudder straight means that one rod is long. """
