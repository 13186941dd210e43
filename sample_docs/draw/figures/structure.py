"""Cabin, propeller and structural figures of the twin."""

from math import pi, sin

from sample_docs.draw.figures.pen import Figure, bolt, callout, centre_line, curve


def _seat_track(canvas, items) -> None:
    canvas.rect(50, 70, 360, 40)
    canvas.line(50, 82, 410, 82)
    canvas.line(50, 98, 410, 98)
    for x in range(80, 400, 40):
        canvas.circle(x, 90, 6)
    canvas.ellipse(154, 83, 173, 97)
    curve(canvas, (240, 84), (246, 78), (243, 74), (250, 70))
    canvas.setLineWidth(0.5)
    canvas.line(175, 130, 205, 130)
    curve(canvas, (199, 133), (205, 130), (199, 127))
    canvas.setLineWidth(1)
    canvas.rect(314, 90, 12, 60)
    canvas.circle(370, 122, 12)
    callout(canvas, items["1"], (40, 140), (60, 110))
    callout(canvas, items["2"], (120, 140), (121, 96))
    callout(canvas, items["3"], (190, 150), (190, 131))
    callout(canvas, items["4"], (260, 40), (247, 76))
    callout(canvas, items["5"], (320, 172), (320, 150))
    callout(canvas, items["6"], (400, 160), (377, 131))


def _door(canvas, items) -> None:
    curve(canvas, (110, 20), (330, 20), (330, 110), (280, 190), (150, 190), (110, 120), (110, 20))
    curve(canvas, (160, 110), (290, 110), (260, 170), (175, 170), (160, 110))
    canvas.rect(210, 190, 10, 18)
    canvas.rect(92, 70, 18, 10)
    canvas.rect(210, 6, 10, 14)
    canvas.rect(185, 206, 60, 6)
    canvas.roundRect(195, 66, 70, 10, 4)
    canvas.circle(200, 71, 8)
    canvas.circle(235, 182, 6)
    canvas.line(205, 75, 214, 190)
    canvas.line(195, 71, 110, 75)
    canvas.line(203, 64, 214, 20)
    callout(canvas, items["1"], (370, 150), (318, 130))
    callout(canvas, items["2"], (160, 215), (210, 200))
    callout(canvas, items["3"], (50, 90), (92, 76))
    callout(canvas, items["4"], (160, 8), (210, 12))
    callout(canvas, items["5"], (300, 50), (262, 68))
    callout(canvas, items["6"], (290, 216), (245, 209))
    callout(canvas, items["7"], (370, 190), (241, 183))


def _blade(canvas, items) -> None:
    curve(canvas, (40, 60), (300, 40), (420, 60), (430, 80), (420, 100), (320, 118))
    curve(
        canvas,
        (320, 118),
        (282, 117),
        (262, 108),
        (250, 92),
        (238, 108),
        (218, 117),
        (180, 118),
        (40, 100),
        (40, 60),
    )
    canvas.setDash(2, 2)
    points = [(150 + step * 5, 117 - 28 * sin(pi * step / 40) ** 2) for step in range(41)]
    curve(canvas, *points)
    canvas.setDash()
    canvas.line(150, 140, 350, 140)
    canvas.line(150, 134, 150, 146)
    canvas.line(350, 134, 350, 146)
    callout(canvas, items["1"], (225, 165), (242, 104))
    callout(canvas, items["2"], (270, 62), (251, 90))
    callout(canvas, items["3"], (330, 75), (295, 102))
    callout(canvas, items["4"], (90, 140), (100, 110))
    callout(canvas, items["5"], (380, 150), (350, 140))


def _patch(canvas, items) -> None:
    canvas.rect(60, 30, 320, 150)
    canvas.roundRect(130, 55, 180, 100, 10)
    canvas.roundRect(185, 85, 70, 40, 14)
    for x in range(145, 310, 25):
        for y in (65, 145):
            canvas.circle(x, y, 3)
    for y in (85, 105, 125):
        for x in (145, 170, 270, 295):
            canvas.circle(x, y, 3)
    canvas.setDash(4, 3)
    canvas.line(60, 45, 380, 45)
    canvas.line(60, 168, 380, 168)
    canvas.setDash()
    callout(canvas, items["1"], (30, 120), (60, 110))
    callout(canvas, items["2"], (410, 110), (310, 105))
    callout(canvas, items["3"], (220, 200), (220, 125))
    callout(canvas, items["4"], (340, 200), (297, 148))
    callout(canvas, items["5"], (410, 40), (380, 46))


def _stringer(canvas, items) -> None:
    canvas.rect(40, 80, 380, 12)
    for x in (40, 260):
        canvas.rect(x, 92, 160, 26)
    canvas.rect(140, 98, 180, 14)
    for x in range(150, 320, 20):
        canvas.circle(x, 105, 2.5)
    bolt(canvas, 60, 60, 24)
    centre_line(canvas, 230, 60, 230, 140)
    callout(canvas, items["1"], (60, 145), (70, 118))
    callout(canvas, items["2"], (230, 155), (220, 112))
    callout(canvas, items["3"], (330, 150), (311, 107))
    callout(canvas, items["4"], (390, 50), (380, 80))


FIGURES = {
    "seat_track": Figure(440, 185, _seat_track),
    "door": Figure(400, 228, _door),
    "blade": Figure(450, 180, _blade),
    "patch": Figure(430, 215, _patch),
    "stringer": Figure(440, 170, _stringer),
}
