"""Figures of the 1950s single: drum brake, tail wheel, selector plate."""

from math import cos, pi, sin

from sample_docs.draw.figures.pen import Figure, bolt, callout, centre_line, curve, spring


def _drum_brake(canvas, items) -> None:
    canvas.circle(150, 105, 88)
    canvas.circle(150, 105, 80)
    for start in (25, 205):
        points = [
            (150 + radius * cos(angle * pi / 180), 105 + radius * sin(angle * pi / 180))
            for radius, angles in (
                (76, range(start, start + 131, 5)),
                (66, range(start + 130, start - 1, -5)),
            )
            for angle in angles
        ]
        curve(canvas, *points, points[0])
    canvas.rect(132, 30, 36, 16)
    canvas.circle(150, 178, 6)
    spring(canvas, 110, 150, 80, 10, 8)
    canvas.circle(150, 105, 16)
    canvas.line(168, 38, 300, 38)
    canvas.rect(300, 32, 40, 12)
    callout(canvas, items["1"], (60, 200), (92, 170))
    callout(canvas, items["2"], (270, 150), (216, 130))
    callout(canvas, items["3"], (280, 90), (228, 100))
    callout(canvas, items["4"], (250, 200), (185, 153))
    callout(canvas, items["5"], (90, 15), (136, 34))
    callout(canvas, items["6"], (370, 70), (330, 44))
    callout(canvas, items["7"], (150, 210), (150, 184))


def _tail_wheel(canvas, items) -> None:
    canvas.circle(150, 55, 42)
    canvas.circle(150, 55, 14)
    curve(canvas, (150, 55), (180, 120), (230, 140), (230, 150), (172, 130), (150, 70))
    for step in range(4):
        curve(canvas, (200 + 12 * step, 150 + 6 * step), (360, 160 + 6 * step))
    canvas.rect(222, 120, 18, 60)
    spring(canvas, 240, 110, 100, 12, 8)
    bolt(canvas, 330, 150, 30)
    callout(canvas, items["1"], (80, 90), (118, 80))
    callout(canvas, items["2"], (130, 160), (185, 128))
    callout(canvas, items["3"], (290, 205), (290, 176))
    callout(canvas, items["4"], (215, 200), (228, 178))
    callout(canvas, items["5"], (310, 85), (300, 108))


def _detent(canvas, items) -> None:
    canvas.circle(160, 100, 70)
    canvas.circle(160, 100, 12)
    for angle, name in ((90, "OFF"), (210, "LEFT"), (330, "RIGHT")):
        x, y = 160 + 70 * cos(angle * pi / 180), 100 + 70 * sin(angle * pi / 180)
        canvas.circle(x, y, 7)
        canvas.setFont("Courier", 8)
        canvas.drawCentredString(160 + 48 * cos(angle * pi / 180), 97 + 48 * sin(angle * pi / 180), name)
    canvas.rect(300, 92, 70, 16)
    canvas.circle(292, 100, 7)
    spring(canvas, 375, 100, 40, 6, 10)
    centre_line(canvas, 240, 100, 430, 100)
    callout(canvas, items["1"], (60, 170), (100, 136))
    callout(canvas, items["2"], (250, 170), (222, 138))
    callout(canvas, items["3"], (300, 140), (293, 107))
    callout(canvas, items["4"], (400, 140), (395, 106))


FIGURES = {
    "drum_brake": Figure(400, 225, _drum_brake),
    "tail_wheel": Figure(390, 220, _tail_wheel),
    "detent": Figure(440, 190, _detent),
}
