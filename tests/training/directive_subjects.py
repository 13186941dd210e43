"""Which chapter an airworthiness directive's summary is about, by the words that name its subject.

Silver labels: a summary counts only when the words of exactly one chapter are found in what it says was found
wrong. The words are ours, from memory of the trade; no official code is in that data.
"""

import re

_SUBJECTS = {
    "21": r"cabin pressur|air conditioning|outflow valve|pressurization",
    "22": r"autopilot|auto ?flight|flight director|autothrottle",
    "23": r"emergency locator|cockpit voice|radio communication|static dischargers?",
    "24": r"batter(?:y|ies)|generators?\b|alternators?\b|electrical power|bus power",
    "25": r"seats?\b|escape slides?|lavator|galley|cargo liner|oven|seat belts?|restraint",
    "26": r"fire exting|smoke detect|fire detect|halon|fire suppression",
    "27": r"flight control|elevator (?:trim|tab|control|actuator|feel)|ailerons?\b"
    r"|rudder (?:trim|control|pedal|actuator)"
    r"|flaps?\b|slats?\b|spoilers?\b|stabilizer trim|stall warning|stick shaker|control column",
    "28": r"fuel (?:tank|pump|boost|quantity|system|leak|shutoff|line|selector)|center tank|crossfeed",
    "29": r"hydraulic (?:pump|system|leak|pressure|reservoir|accumulator|line|tube|power)",
    "30": r"anti-?ic|de-?ic|pitot heat|wiper|ice protection|window heat|probe heat",
    "32": r"landing gear|brakes?\b|tires?\b|wheel|shock strut|nose gear|steering|antiskid",
    "33": r"emergency light|landing lights?|navigation lights?|floor path",
    "34": r"air data|airspeed|altimeter|radio altimeter|attitude|transponder|navigation system|inertial"
    r"|angle of attack",
    "35": r"oxygen",
    "36": r"bleed air|pneumatic duct|precooler",
    "38": r"potable water|waste tank|drain mast",
    "49": r"auxiliary power unit|\bAPU\b",
    "52": r"doors?\b|hatch",
    "53": r"fuselage|frames?\b|stringers?\b|bulkhead|floor beams?|lap splice|skin panels?",
    "54": r"pylons?\b|nacelle|engine strut",
    "55": r"horizontal stabilizer|vertical stabilizer|vertical fin|empennage|rudder hinge|elevator hinge",
    "56": r"windshields?|windows?\b|canopy",
    "57": r"wing (?:spar|skin|panel|rib|attach|strut|box|plank)|wings?\b|spar caps?",
    "61": r"propellers?",
    "62": r"main rotor (?:blade|hub|head|mast|grip)|swashplate bearing|tension torsion",
    "63": r"main gearbox|main rotor gearbox|main transmission|freewheel|planet gear|\bMGB\b",
    "64": r"tail rotor (?:blade|hub|head|yoke)",
    "65": r"tail rotor (?:drive|gearbox|shaft)|tail gearbox|\bTGB\b",
    "67": r"collective|cyclic|main servo|swashplate assembl",
    "71": r"engine mount|cowl|air filter|alternate air",
    "72": r"turbine (?:blade|disk|rotor|hub)|fan blades?|compressor|crankshaft|cylinder head|connecting rod"
    r"|crankcase|high-pressure turbine|low-pressure turbine|\b[HL]P[TC] ",
    "73": r"fuel (?:control unit|metering|nozzle|injector|manifold|servo)|carburetor|\bFADEC\b|\bEEC\b"
    r"|engine control unit",
    "74": r"magneto|ignition|spark plug|igniter",
    "76": r"throttle|power lever|engine control cable",
    "78": r"thrust revers|exhaust|muffler|tailpipe",
    "79": r"oil (?:leak|pressure|cooler|tank|filter|pump)|lubrication",
    "80": r"starter",
    "81": r"turbocharger|wastegate",
}
_PATTERNS = {chapter: re.compile(words, re.IGNORECASE) for chapter, words in _SUBJECTS.items()}
_CAUSE = re.compile(r"(?:prompted by|results? from|was issued after)[^.]*(?:\.[^.]*){0,1}", re.IGNORECASE)


def subject_of(abstract: str) -> tuple[str, str] | None:
    """(chapter, the sentences on the cause) where the words of one chapter alone are found; else None."""
    cause = _CAUSE.search(abstract)
    if not cause:
        return None
    found = [chapter for chapter, pattern in _PATTERNS.items() if pattern.search(cause[0])]
    return (found[0], cause[0]) if len(found) == 1 else None
