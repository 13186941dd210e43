"""Landing gear figures of the twin."""

from sample_docs.draw.figures.pen import Figure, bolt, callout, centre_line, curve, disc, spring


def _brake(canvas, items) -> None:
    disc(canvas, 110, 110, 85, 6)
    canvas.roundRect(225, 62, 60, 96, 12)
    canvas.circle(255, 132, 15)
    canvas.circle(255, 88, 15)
    canvas.rect(300, 66, 12, 88)
    canvas.rect(322, 66, 10, 88)
    canvas.rect(348, 62, 20, 96)
    bolt(canvas, 385, 132, 44)
    bolt(canvas, 385, 88, 44)
    centre_line(canvas, 195, 110, 225, 110)
    centre_line(canvas, 285, 110, 440, 110)
    callout(canvas, items["1"], (40, 205), (70, 182))
    callout(canvas, items["2"], (255, 190), (255, 158))
    callout(canvas, items["3"], (225, 25), (248, 75))
    callout(canvas, items["4"], (306, 190), (306, 154))
    callout(canvas, items["5"], (330, 25), (327, 66))
    callout(canvas, items["6"], (362, 190), (358, 158))
    callout(canvas, items["7"], (420, 25), (405, 84))


def _shimmy(canvas, items) -> None:
    canvas.rect(120, 70, 150, 46)
    canvas.rect(195, 116, 14, 10)
    canvas.rect(270, 88, 90, 10)
    canvas.rect(185, 76, 10, 34)
    canvas.circle(372, 93, 13)
    canvas.circle(372, 93, 5)
    canvas.circle(395, 93, 46)
    canvas.circle(395, 93, 30)
    for y in (60, 126):
        canvas.rect(100, y - 6, 20, 12)
        canvas.circle(110, y, 3)
    centre_line(canvas, 60, 93, 450, 93)
    callout(canvas, items["1"], (150, 165), (160, 116))
    callout(canvas, items["2"], (310, 160), (315, 98))
    callout(canvas, items["3"], (350, 25), (372, 88))
    callout(canvas, items["4"], (430, 165), (415, 134))
    callout(canvas, items["5"], (60, 30), (104, 56))
    callout(canvas, items["6"], (205, 165), (202, 126))


def _wheel(canvas, items) -> None:
    for x, width in ((60, 46), (150, 46)):
        canvas.roundRect(x, 40, width, 130, 14)
        canvas.line(x, 105, x + width, 105)
    canvas.ellipse(230, 15, 330, 195)
    canvas.ellipse(258, 65, 302, 145)
    canvas.rect(350, 92, 18, 26)
    canvas.rect(378, 96, 12, 18)
    bolt(canvas, 398, 105, 40)
    spring(canvas, 112, 105, 30, 4)
    curve(canvas, (20, 98), (52, 98), (52, 112), (20, 112))
    callout(canvas, items["1"], (83, 190), (83, 170))
    callout(canvas, items["2"], (173, 190), (173, 170))
    callout(canvas, items["3"], (300, 205), (292, 188))
    callout(canvas, items["4"], (359, 60), (359, 92))
    callout(canvas, items["5"], (384, 140), (384, 114))
    callout(canvas, items["6"], (430, 70), (420, 102))
    callout(canvas, items["7"], (30, 60), (36, 98))


FIGURES = {
    "brake": Figure(450, 215, _brake),
    "shimmy": Figure(460, 180, _shimmy),
    "wheel": Figure(460, 215, _wheel),
}
