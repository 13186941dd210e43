"""Sections 11 to 20 of the shop manual of the retractable single: power plant, systems, repair."""

ENGINE_CONTROLS = """
== SECTION 11. ENGINE CONTROLS

# 11-1. Throttle and Mixture.

Push-pull wires in housings. The arm on the carburetor must touch its stop before the knob touches the
panel, with 1/8 inch of spring back at both ends.

# 11-2. Propeller Control.

The governor arm must touch its high r.p.m. stop with the knob full in.

# 11-3. Friction and Replacement.

The friction nut must hold the throttle against the engine's shake. Replace a wire that is kinked. Oil no
housing: oil gathers dust and the wire binds in the cold.
"""

ENGINE = """
== SECTION 12. ENGINE

# 12-1. Cowling.

Open the six fasteners a side, lift the top cowl, then take the nose bowl off. Replace rubbers and chafing
strips that are hard. Baffles must lie tight to the cylinders; a cylinder that runs hot often has a bent
baffle.

# 12-2. Removing the Engine.

Shut off the gas, take the battery cable off, and take the propeller off. Mark and disconnect wires, hoses
and controls. Sling the engine at the two lift eyes. Take the four mount bolts out, lower ones first.

# 12-3. Engine Mount.

The mount is of welded steel tube. Cracks stand beside welds. Weld none in the airplane. Draw the mount
bolts up to 450 to 500 inch-pounds and fit new rubbers at each overhaul.

!break

# 12-4. Cylinder Barrels.

A compression below 60 over 80 calls for a look. Listen where the air goes: at the stack, the exhaust
valve; at the carburetor, the intake valve; at the breather, the rings. To take a cylinder off, remove the
plugs, push rods and stacks, put the piston on top center, and take off the hold-down nuts last. Never lay
a cylinder on its fins.

# 12-5. Pistons, Rings and Valves.

Ring gaps go 120 degrees apart. A valve that sticks in its guide, cold, is reamed free with the rope in the
cylinder. Set the dry tappet clearance to 0.060 to 0.105 in. with the hydraulic unit empty.

# 12-6. Magnetos.

Points open at 0.016 in. Time both magnetos to 25 degrees before top center with the light. A drop of more
than 125 r.p.m. on one magneto is a fouled plug, a bad lead or late timing. The left magneto has the
impulse coupling; it must snap on starting.

# 12-7. Spark Plugs and Harness.

Gap 0.016 in. Turn plugs from bottom to top at each cleaning. Torque 360 inch-pounds. Replace a lead that
leaks more than 10 microamperes at the tester.

!break

# 12-8. Carburetor.

Set idle to 600 r.p.m., then the mixture so that the engine gains 25 r.p.m. as it is cut. Clean the inlet
screen every 50 hours. A float that is set wrong floods the engine and drips gas at the air box.

# 12-9. Induction Air Box and Carburetor Heat.

The flap valve must close tight. Full heat must drop 75 r.p.m. or more at 2000. Oil the air filter and let
it drip.

# 12-10. Oil System.

The cooler is behind the right front cylinder. Pressure is 65 to 85 pounds; set it with washers under the
relief spring. Metal in the suction screen means that the engine must be opened.

# 12-11. Exhaust Stacks and Muffler.

Take the heater shroud off every 100 hours and look at the can with a light, or blow air in and use soap
water. A can with a pin hole is replaced, because the cabin is heated thru it.

# 12-12. Starter.

The drive throws in by itself. If it grinds, wash the screw with kerosene. Brushes shorter than one half
are replaced.
"""

FUEL = """
== SECTION 13. FUEL SYSTEM

# 13-1. Description.

A 25-gallon aluminum tank is in the leading edge of each wing. Gas goes to the selector on the left wall,
thru the strainer to the electric pump and the engine pump. The vents are under the wing.

# 13-2. Tanks.

Take out the screws around the tank and slide it forward. Find a leak with 1 1/2 pounds of air and soap
water, no more. Seal rivets from the inside by sloshing; weld only after steaming for eight hours.

# 13-3. Selector Valve.

The handle must click at LEFT, RIGHT and OFF. A click that is weak comes from a worn detent plate. Take
the valve out from behind the panel and fit new rings.

# 13-4. Strainer and Screens.

Take the bowl off every 50 hours. Water or rust in it means that the tank sumps were not drained.

# 13-5. Pumps.

The electric pump gives 4 to 6 pounds. If the engine pump fails, the light stays on with the electric pump
off.

# 13-6. Quantity Transmitters.

A float and a wire-wound resistance. Bend the wire so that the gage shows empty with no usable gas.
"""

PROPELLER = """
== SECTION 14. PROPELLER AND GOVERNOR

# 14-1. Removal.

Turn the magneto switch off and take one plug lead off each cylinder. Take the spinner off, cut the
safety, and back the six nuts off in turn. Catch the oil.

# 14-2. Installation.

Put a new ring in the hub. Torque 60 foot-pounds, dry, and safety. Track of the tips within 1/16 inch.

# 14-3. Blades.

Dress nicks out with a file and crocus cloth, deepest in a smooth dish ten times as long as deep. A bent
blade goes to a propeller shop. Look for grease or red dye at the blade roots: the hub seal leaks.

# 14-4. Governor.

One turn of the high r.p.m. screw changes 25 r.p.m. Hunting comes from air in the oil or a sticky pilot
valve.
"""

UTILITY = """
== SECTION 15. UTILITY SYSTEMS

# 15-1. Cabin Heat.

Air goes thru the muff on the exhaust can to a box on the firewall and to the floor outlets. The knob
moves a flap. Fumes in the cabin mean a cracked can; see 12-11.

# 15-2. Defroster.

A duct leads from the heat box to the windshield. Close leaks at its joints with tape.

# 15-3. Fresh Air.

Two scoops at the wing roots lead to the outlets at the seats. The flap in each scoop must close. A wet
floor after rain comes from a plugged scoop drain.
"""

INSTRUMENTS = """
== SECTION 16. INSTRUMENTS

# 16-1. Panel.

The shock mounted panel comes out after the four mounts are unscrewed. Replace mounts that sag.

# 16-2. Pitot and Static Lines.

The mast is under the left wing. Drain the low point at the root. Test the static line with a drop of 1000
feet on the altimeter: in one minute it may lose 100 feet. Never blow into an instrument.

# 16-3. Altimeter, Air Speed and Rate of Climb.

They are replaced, not repaired, in the field. Set the altimeter and compare it with the field height: no
more than 75 feet may be wrong.

# 16-4. Compass.

Swing it with the engine running and the radio on, on twelve headings. Deviation over 10 degrees calls for
compensation with a brass screw driver.

# 16-5. Gyro Instruments and Vacuum System.

A pump on the engine draws air thru the filter, the artificial horizon and the directional gyro. The
relief valve is set to 4.0 to 5.0 in. of mercury at 2000 r.p.m. A slow gyro has a dirty filter more often
than a bad bearing.

# 16-6. Engine Gages.

Oil pressure and fuel pressure come by tube, oil and cylinder temperature by wire, and the tachometer by a
flexible shaft. A pointer that swings means a dry or kinked shaft.
"""

ELECTRICAL = """
== SECTION 17. ELECTRICAL SYSTEM

# 17-1. Description.

A 12-volt battery, a 35-ampere belt-driven generator and a three-unit regulator. The battery is behind the
baggage bulkhead in a vented box.

# 17-2. Generator.

The belt goes down one half inch under the thumb. Brushes shorter than one half inch are replaced; turn a
rough commutator and undercut the mica.

# 17-3. Regulator.

Set it hot: voltage 13.8 to 14.2, current 35 amperes, cut-in at 12.8 volts. If the meter shows a discharge
in flight, flash the field before the regulator is blamed.

# 17-4. Battery and Solenoid.

Clean the posts. A solenoid that chatters points to a weak battery. Neutralize the box with soda water and
paint it.

# 17-5. Landing Light and Navigation Lights.

The landing light is in the nose bowl. Its bulb is replaced from the front, after the ring is off. A bulb
that burns out again and again has a loose mount.

# 17-6. Stall Warning.

A vane on the left leading edge closes a switch and lights the red lamp. Set the vane after a flight test
only, 1/16 inch at a time: up warns later.

# 17-7. Radio.

The radio is on a rack with one plug. Noise that follows the engine speed comes from the generator or from
a loose bonding strap.
"""

REPAIR = """
== SECTION 18. STRUCTURAL REPAIR

# 18-1. Skin.

Smooth dents without creases, away from ribs, may stay. Round out a hole and rivet a patch inside, same
alloy, one gage heavier, two rows of rivets, pitch four diameters, edge distance two.

# 18-2. Stringers and Bulkheads.

Splice a stringer with a formed angle of the same gage, five rivets on each side of the break. Cracks in a
flange of a bulkhead are drilled at the end and covered by a plate.

# 18-3. Spars.

No repair of the main spar is given here. Write to the factory with a sketch of the damage.

# 18-4. Glass Cloth Parts.

Tips, fairings and the nose bowl are patched with cloth and resin. Sand back to sound laminate two inches
around the hole, lay three plies, let it cure, and sand smooth.

# 18-5. Rivets.

AD rivets up to 1/8 inch may be replaced by the next size when the hole is torn. Use no soft rivets.
"""

PAINTING = """
== SECTION 19. PAINTING

# 19-1. Cleaning and Stripping.

Wash with mild soap. Keep stripper off acrylic panes and glass cloth parts.

# 19-2. Priming.

Treat bare alloy with acid etch, rinse, then spray a thin coat of zinc chromate.

# 19-3. Enamel.

Two coats, the second within a day. Balance all control surfaces after paint: section 4-6.

# 19-4. Corrosion.

White powder at lap joints is corrosion. Brush it off, treat the place, and prime it. A skin eaten by more
than a tenth of its thickness is replaced.
"""

WIRING = """
== SECTION 20. WIRING DIAGRAMS

# 20-1. How to Read Them.

Each wire has a letter and a number. Letters name the circuit, the last figures the gage of the wire.

# 20-2. Wire Table.

!plain [2 5 2]
| Wire | From and to | Gage
| P1 | Battery to solenoid | 2
| P4 | Generator to regulator, armature | 8
| P5 | Generator to regulator, field | 16
| L2 | Bus to landing light switch | 12
| L7 | Navigation light switch to tail light | 18
| W3 | Gear handle switch to warning horn | 18
| Q1 | Fuel quantity transmitter to gage, left | 20
| E6 | Starter button to starter solenoid | 16
"""
