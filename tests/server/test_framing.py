"""What of a question only frames it. Common practice, no source."""

import pytest

from server.framing import without_frame
from server.question import parse_question


@pytest.mark.parametrize(
    ("typed", "rest", "left_out"),
    [
        ("brakes on this aircraft", "brakes", ("on this aircraft",)),
        ("brakes of the helicopter", "brakes", ("of the helicopter",)),
        ("tires for my plane, left", "tires left", ("for my plane",)),
        ("lights in our ship", "lights", ("in our ship",)),
        ("brakes on the Hedgeling", "brakes Hedgeling", ("on the",)),
        ("brakes on my Hedgeling", "brakes Hedgeling", ("on my",)),
        ("brakes on N4412K", "brakes N4412K", ("on",)),
        ("how do I bleed the brakes", "bleed the brakes", ("how do I",)),
        ("How do I bleed the brakes on this aircraft?", "bleed the brakes", ("How do I", "on this aircraft")),
        ("how to jack the aircraft", "jack the aircraft", ("how to",)),
        ("where is the gascolator?", "the gascolator?", ("where is",)),
        ("Where\u2019s the gascolator", "the gascolator", ("Where\u2019s",)),
        ("what is the torque of the axle nut", "the torque of the axle nut", ("what is",)),
        ("what are the wear limits", "the wear limits", ("what are",)),
        ("show me everything on 32 please", "32", ("show me", "everything on", "please")),
        ("everything about brakes", "brakes", ("everything about",)),
        ("find 32-41-05", "32-41-05", ("find",)),
        ("please find the tire pressure", "the tire pressure", ("please", "find")),
        ("where can I find the AD list", "the AD list", ("where can I find",)),
        ('find "brake lining" please', '"brake lining"', ("find", "please")),
        ('how do I -"x y" bleed  the brakes', '-"x y" bleed  the brakes', ("how do I",)),
        ("power off on the aircraft", "power off", ("on the aircraft",)),
    ],
)
def test_a_frame_is_left_out_and_the_rest_stands_as_typed(typed, rest, left_out):
    found = without_frame(parse_question(typed))
    assert (found.question.text, found.left_out) == (rest, left_out)
    assert found.question == parse_question(rest)


@pytest.mark.parametrize(
    "typed",
    [
        "turn on the boost pump",  # on or off
        "master switch on",
        "weight on wheels",
        "on the aircraft",  # nothing would be left
        "everything on this aircraft",
        "how do I",
        "please",
        "engine removed, not on the aircraft",
        "before the flight, without tools",
        "removal of the wheel",  # stop words cost nothing
        "jack the aircraft",
        "aircraft maintenance manual",
        "show position",
        '"how do I" bleed',
        '"brakes on this aircraft"',
        "tire -find",
    ],
)
def test_everything_else_stays(typed):
    asked = parse_question(typed)
    found = without_frame(asked)
    assert found.question == asked and found.left_out == ()


def test_what_is_on_an_aircraft_is_told_from_the_aircraft():
    for typed in ("brakes on the Hedgeling", "brakes for my Hedgeling", "find brakes on N4412K"):
        assert without_frame(parse_question(typed)).subject == ("brakes",)
    assert without_frame(parse_question("brake lining")).subject == ("brake", "lining")
