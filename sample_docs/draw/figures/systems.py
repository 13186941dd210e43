"""System figures of the twin: alternator, fuel selector, pitot mast, oxygen."""

from math import cos, pi, sin

from sample_docs.draw.figures.pen import Figure, bolt, callout, centre_line, curve, spring


def _alternator(canvas, items) -> None:
    canvas.circle(120, 95, 55)
    canvas.circle(120, 95, 40)
    canvas.circle(120, 95, 8)
    canvas.circle(290, 95, 80)
    canvas.circle(290, 95, 14)
    canvas.line(117, 151, 286, 175)
    canvas.line(117, 39, 286, 15)
    canvas.line(117, 146, 288, 169)
    canvas.line(117, 44, 288, 21)
    curve(canvas, (60, 175), (150, 196), (160, 186), (70, 166), (60, 175))
    canvas.circle(110, 183, 4)
    bolt(canvas, 40, 60, 30)
    centre_line(canvas, 40, 95, 400, 95)
    callout(canvas, items["1"], (40, 110), (70, 100))
    callout(canvas, items["2"], (200, 205), (200, 160))
    callout(canvas, items["3"], (400, 150), (365, 120))
    callout(canvas, items["4"], (165, 215), (140, 192))
    callout(canvas, items["5"], (30, 25), (52, 58))
    callout(canvas, items["6"], (90, 215), (109, 187))


def _selector(canvas, items) -> None:
    canvas.rect(150, 50, 150, 80)
    canvas.circle(225, 90, 32)
    canvas.circle(225, 90, 12)
    for angle in (0, 120, 240):
        x, y = 225 + 32 * cos(angle * pi / 180), 90 + 32 * sin(angle * pi / 180)
        canvas.circle(x, y, 6)
    canvas.rect(300, 82, 46, 16)
    canvas.rect(104, 82, 46, 16)
    canvas.rect(217, 14, 16, 36)
    canvas.rect(221, 130, 8, 34)
    curve(canvas, (190, 164), (262, 164), (280, 176), (262, 188), (190, 188), (190, 164))
    canvas.circle(280, 122, 4)
    spring(canvas, 285, 122, 30, 5, 7)
    callout(canvas, items["1"], (150, 190), (190, 178))
    callout(canvas, items["2"], (130, 150), (160, 130))
    callout(canvas, items["3"], (345, 50), (252, 76))
    callout(canvas, items["4"], (110, 40), (208, 66))
    callout(canvas, items["5"], (350, 150), (312, 124))
    callout(canvas, items["6"], (370, 90), (346, 90))
    callout(canvas, items["7"], (80, 90), (104, 90))
    callout(canvas, items["8"], (260, 12), (233, 24))


def _pitot(canvas, items) -> None:
    canvas.roundRect(60, 60, 230, 26, 12)
    curve(canvas, (250, 86), (275, 160), (335, 160), (310, 60), (290, 60))
    spring(canvas, 75, 73, 60, 9, 12)
    spring(canvas, 190, 73, 45, 7, 12)
    canvas.circle(212, 60, 2)
    canvas.rect(290, 160, 24, 20)
    canvas.line(322, 160, 322, 190)
    canvas.line(328, 160, 328, 190)
    canvas.line(240, 160, 380, 160)
    callout(canvas, items["1"], (40, 105), (70, 82))
    callout(canvas, items["2"], (110, 115), (105, 80))
    callout(canvas, items["3"], (190, 115), (205, 80))
    callout(canvas, items["4"], (212, 30), (212, 57))
    callout(canvas, items["5"], (360, 110), (322, 115))
    callout(canvas, items["6"], (270, 190), (290, 175))
    callout(canvas, items["7"], (370, 190), (330, 185))


def _oxygen(canvas, items) -> None:
    canvas.roundRect(40, 50, 130, 60, 28)
    canvas.rect(170, 68, 16, 24)
    canvas.rect(186, 60, 40, 40)
    canvas.circle(206, 80, 12)
    canvas.line(206, 100, 206, 140)
    canvas.rect(196, 140, 20, 14)
    canvas.circle(260, 140, 18)
    curve(canvas, (260, 122), (260, 80), (226, 80))
    canvas.line(260, 80, 440, 80)
    for x in (310, 360, 410):
        canvas.line(x, 80, x, 100)
        canvas.rect(x - 6, 100, 12, 10)
    curve(canvas, (410, 110), (410, 150), (430, 160))
    canvas.ellipse(425, 150, 465, 190)
    callout(canvas, items["1"], (80, 140), (90, 110))
    callout(canvas, items["2"], (190, 30), (200, 60))
    callout(canvas, items["3"], (170, 175), (198, 154))
    callout(canvas, items["4"], (260, 185), (260, 158))
    callout(canvas, items["5"], (330, 130), (314, 110))
    callout(canvas, items["6"], (400, 190), (427, 178))


FIGURES = {
    "alternator": Figure(430, 225, _alternator),
    "selector": Figure(400, 205, _selector),
    "pitot": Figure(400, 205, _pitot),
    "oxygen": Figure(475, 200, _oxygen),
}
