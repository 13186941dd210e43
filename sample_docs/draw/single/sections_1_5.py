"""Sections I to V of the 1950s single's service manual, with its own order and paragraph numbers."""

GENERAL = """
== SECTION I

!centre **GENERAL DESCRIPTION**

# 1-1. THE AIRPLANE.

The Hedgeling is a two-place, high-wing cabin airplane with a tail wheel. The fuselage and tail are welded
steel tube covered
with fabric. The wing has two spruce spars, aluminum alloy ribs and fabric cover. The engine is a Torrisk
four-cylinder,
air-cooled engine of 115 horsepower.

# 1-2. SERIAL NUMBERS.

Model H-14 has serial numbers H-101 thru H-240. Model H-14B, with the electric starter and the generator,
has serial numbers
H-241 and up, and those earlier airplanes that were changed by the factory.

# 1-3. PRINCIPAL DIMENSIONS.

!plain [4 3]
| Item | Value
| Span | 34 ft. 10 in.
| Length | 22 ft. 3 in.
| Height, tail down | 6 ft. 8 in.
| Gross weight | 1500 lb.
| Fuel, two wing tanks | 24 gal.
| Oil | 6 qt.

# 1-4. LEVELING.

Hang a plumb bob from the hole in the upper door frame on the right side. The airplane is level lengthwise
when the point of
the bob is over the center punch mark in the door sill. For leveling across, lay a straight edge on the two
front seat rails.

# 1-5. WHAT THIS MANUAL IS.

The manual tells an experienced mechanic how to take the airplane apart, adjust it and put it together. It
does not tell what
every mechanic knows. Fabric work and the repair of wood are done by the methods of the trade.
"""

SERVICING = """
== SECTION II

!centre **GROUND HANDLING, SERVICING AND INSPECTION**

# 2-1. TOWING AND LIFTING.

Push at the wing struts close to the wing and at the handle on the fuselage. Do not push at the trailing
edge, the propeller
spinner or the tail surfaces. To raise one wheel, put a padded jack under the axle.

# 2-2. TYING DOWN.

Tie ropes to the rings on the struts and to the tail wheel spring. Lock the stick with the seat belt.

# 2-3. FUEL.

Use aviation gasoline of 80 octane. Each tank holds 12 gallons. Strain all fuel from cans thru a chamois skin.

# 2-4. OIL.

Fill to 6 quarts. Summer, SAE 50. Winter, SAE 30. Change at 25 hours.

# 2-5. TIRES.

Size 6.00-6, 18 lb. pressure. Tail wheel, solid rubber.

# 2-6. BRAKE FLUID.

Fill each master cylinder to the bottom of the filler hole with mineral brake fluid. The filler plugs are
reached thru the
floor plate before the rudder pedals. If the level is low, look for a leak at the wheel before you fill it.

# 2-7. LUBRICATION.

!plain [4 3 3]
| Point | Lubricant | When
| Wheel bearings | Wheel bearing grease | 100 hours
| Tail wheel swivel | Chassis grease | 25 hours
| Control pulleys | Light oil, one drop | 50 hours
| Aileron and elevator hinges | Light oil | 25 hours
| Trim screw | Graphite grease | 100 hours
| Door hinges and latch | Powdered graphite | 50 hours

# 2-8. DAILY INSPECTION.

Look at the fabric for cuts. Look at the struts for dents. Move every control to its stop. Drain both tanks
at the sump. Press
both brake pedals; they must be hard.

# 2-9. PERIODIC INSPECTION, 100 HOURS.

Take off the cowl, the inspection covers, the wheel fairings and the floor plates.

!plain [1 7]
| No. | Look at
| 1 | Engine mount, for cracks at the welds
| 2 | Fuel selector, for a clean click at OFF, LEFT and RIGHT
| 3 | Brake shoes, for linings worn to the rivets and for oil
| 4 | Brake drums, for scores and cracks
| 5 | Landing gear bungee cords, for fluffed or broken strands
| 6 | Tail wheel spring leaves, for a broken leaf
| 7 | Control cables at the pulleys, for broken strands
| 8 | Wing strut ends, lower, for rust inside
| 9 | Fabric, by the punch test
| 10 | Generator belt, H-14B

# 2-10. WING STRUT ENDS.

Take the lower end plug out and look inside with a light. Water in the strut rusts it from the inside. A
strut that rings dull
when tapped with a coin must be opened.

# 2-11. STORAGE.

For more than 30 days, fog the cylinders with oil thru the plug holes, plug the exhaust, fill the tanks, and
raise the weight from
the tires.

# 2-12. JACKING.

Jack under both axles, one after the other. Put a trestle under the tail at the lift handle. Never jack at
the fuselage
bottom.

# 2-13. WEIGHING.

Weigh with the airplane level, all oil in, and no fuel but the trapped fuel of one half gallon in each tank.

# 2-14. CLEANING.

Wash the fabric with mild soap. Keep gasoline and paint thinner from dope. Clean windows with water and the
bare hand.
"""

FUSELAGE = """
== SECTION III

!centre **FUSELAGE AND CABIN**

# 3-1. FRAME.

The frame is of steel tube. Small dents away from the ends of a tube may be left when not deeper than one
tenth of its diameter
and not within one third of its length from the middle. For all other damage write to the factory.

# 3-2. CABIN DOOR.

The door hangs from two hinges with pins. The latch has one bolt that goes aft. A spring holds it out. To
adjust the door, bend
no part of it; put shims of 0.032 in. under the hinges until the gap is even.

# 3-3. DOOR LATCH.

The bolt must go into the frame by one half inch. If the door has come open in flight, look first for a
stretched hinge
pin, then for a worn bolt. Replace the spring when the bolt can be pushed in by the little finger.

# 3-4. DOOR WINDOW.

The pane is held by a rubber retainer. See Service Bulletin No. 24.

# 3-5. SEATS.

The seats slide on two tubes and are held by a pin on the left. Make sure that the pin snaps into the hole.
Replace a pin
whose end is rounded.

# 3-6. SAFETY BELTS.

Belts are bolted to the frame with AN bolts. Replace a belt that is cut, frayed, or bleached by the sun.
"""

GEAR = """
== SECTION V

!centre **LANDING GEAR, WHEELS AND BRAKES**

# 5-1. MAIN GEAR.

Each side has a vee of steel tube hinged to the fuselage and a shock unit with rubber cords. The shock unit
is inside the
fuselage behind a cover.

# 5-2. REPLACING THE SHOCK CORDS.

Raise the airplane until the wheels are free. Hook the stretching tool over the upper bar, stretch each
cord, and lift it off.
Work from the outside to the middle. Wear gloves and keep your face away: a cord that slips hits hard.

# 5-3. ALIGNMENT.

Toe-in is zero to one quarter inch, measured between the tires at axle height, front and rear. Set it with
the washers at the
forward hinge.

# 5-4. TAIL WHEEL.

The tail wheel steers thru two springs and is free to swivel beyond 30 degrees. If it shimmies, tighten the
swivel nut to a drag
of 8 to 10 lb. at the axle, and look for a loose spring leaf.

!figure tail_wheel | Figure 5-1. Tail wheel: 1 wheel, 2 fork, 3 spring leaves, 4 swivel, 5 steering spring

# 5-5. TAIL WHEEL SPRING.

Three leaves. The clip bolts are drawn up to 15 ft.-lb. Replace the whole spring when a leaf is broken; the
other leaves have had
the same life.

# 5-6. WHEELS.

Take off the hub cap, cotter and nut. Pull the wheel. It carries the brake drum. Pack the bearings and draw
the nut up until
the wheel drags, then back it off one sixth of a turn.

# 5-7. BRAKES, GENERAL.

The brakes are of the drum type with two shoes in each wheel. A hydraulic cylinder spreads the shoes at the
bottom. There is one
master cylinder for each brake, on the left rudder pedals only. The parking brake pulls both pedals by a
cable.

!figure drum_brake | Figure 5-2. Wheel brake: 1 drum, 2 shoe, 3 lining, 4 return spring, 5 wheel cylinder, 6
brake line,
7 anchor pin

# 5-8. TAKING THE BRAKE APART.

Take the wheel off (par. 5-6). Mark the shoes upper and lower. Unhook the return spring with the spring
hook, lift the shoes from
the anchor pin, and tie the wheel cylinder with a piece of wire so that the pistons stay in.

CAUTION: DO NOT PRESS THE PEDAL WITH THE DRUM OFF. THE PISTONS COME OUT AND THE FLUID RUINS THE LININGS.

# 5-9. RELINING THE SHOES.

Reline both shoes of a wheel, and both wheels, at one time. Set the rivets from the middle outward. The
heads must lie at least
1/32 inch below the face. Bevel both ends of the lining over one quarter inch.

# 5-10. WHEEL CYLINDER.

Take the boots off and push the pistons out. Wash all parts in alcohol; no gasoline may touch the rubber
cups. A bore with pits
that a light honing does not take out must be replaced. Put it together wet with brake fluid.

# 5-11. BRAKE DRUM.

A drum that is scored deeper than 0.010 in. may be turned to not more than 6.060 in. inside diameter. A drum
with a crack of any
length must be replaced. Small heat checks that do not reach the edge do no harm.

# 5-12. ADJUSTMENT OF THE BRAKES.

Raise the wheel. Turn the adjusting cam until the shoe just touches the drum, then back it until the wheel
is free. Do the same
with the other shoe. The pedal must become hard within one and one half inches of travel. Adjust both sides
alike, so that the
airplane does not pull.

# 5-13. BLEEDING THE BRAKES.

Put a hose on the bleeder screw at the wheel and its other end in a jar with fluid. Open the screw half a
turn. Press the pedal
slowly and let it back slowly until no more bubbles come. Close the screw before the last stroke ends. Keep
the master
cylinder full all the time.

!plain Brake measurements [4 3]
| Item | Value
| Lining, new | 3/16 in.
| Drum, inside diameter, new | 6.000 in.
| Drum, largest after turning | 6.060 in.
| Shoe to drum, free | 0.008 in.
| Bleeder screw | 45 to 55 in.-lb.
| Brake line nuts | 70 to 80 in.-lb.

# 5-14. PARKING BRAKE.

With the handle in, the cable must have one eighth inch of slack. Pull the handle to the third notch: the
airplane must
stand on a slope of one in ten.
"""
