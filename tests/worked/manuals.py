"""Manuals of invented makers: without approval words, with an older page that is still in force, and
others.
"""

from worked.bulletins import BRACKENFELL, STANNARD, WENSLEY
from worked.paper import manual, publication

from sample_docs.draw.book import Topic

TITLE = """
!gap 90

!big {title}

!gap 20

!centre **MODEL {model} AIRPLANES**

!centre Manual number **{number}**

!centre **Revision {revision}: {date}**

!gap 120

!centre {maker}
"""


def spar_splice() -> list[Topic]:
    """A maintenance manual whose block 801 is titled "Approved repairs": a title, no approval."""
    of = publication(
        "xj9-maintenance-manual.pdf",
        "maintenance-manual",
        "XJM-9-2",
        "Maintenance Manual",
        BRACKENFELL,
        "XJ9",
        "4",
        "2098-06-15",
    )
    title = TITLE.format(
        title="MAINTENANCE MANUAL",
        model="XJ9",
        number="XJM-9-2",
        revision="4",
        date="June 15, 2098",
        maker=BRACKENFELL,
    )
    splice = """
== WING FRONT SPAR - APPROVED REPAIRS

# 1. Splice of the lower cap

A. Cut the damaged length of the lower cap square, at least 2 inches from the nearest fastener.

B. Fit the splice angle, XJ57-1180-3, with two rows of rivets, MS20470DD5, at 0.75 inch.

C. Prime the faying surfaces before the angle is riveted.
"""
    return manual(of, title, ("57-10-00", "801", "Jun 15/2098", splice))


def flap_tracks() -> list[Topic]:
    """A manual at Revision 6; a register says that Revision 7 has been announced."""
    of = publication(
        "wm-80-2.pdf",
        "maintenance-manual",
        "WM-80-2",
        "Maintenance Manual",
        WENSLEY,
        "B80",
        "6",
        "2098-02-02",
    )
    title = TITLE.format(
        title="MAINTENANCE MANUAL",
        model="B80",
        number="WM-80-2",
        revision="6",
        date="February 2, 2098",
        maker=WENSLEY,
    )
    tracks = """
== FLAP TRACKS - ADJUSTMENT/TEST

A. Set the flaps at 15 degrees.

B. Turn the eccentric bushing until the roller touches the track at both ends.
"""
    return manual(of, title, ("27-50-00", "501", "Feb 02/2098", tracks))


def older_page() -> list[Topic]:
    """Revision 12 of 2009 with a page of 1998 that the list of effective pages still lists as of 1998."""
    of = publication(
        "wm-20-2.pdf",
        "maintenance-manual",
        "WM-20-2",
        "Maintenance Manual",
        WENSLEY,
        "B20",
        "12",
        "2009-05-04",
    )
    title = TITLE.format(
        title="MAINTENANCE MANUAL",
        model="B20",
        number="WM-20-2",
        revision="12",
        date="May 4, 2009",
        maker=WENSLEY,
    )
    effective = """
== LIST OF EFFECTIVE PAGES

A. All pages listed are active.

!ruled [3 2 3]
| Chapter-section-subject | Page | Date
| Title | T-1 | May 04/2009
| List of effective pages | LEP-1 | May 04/2009
| 32-10-00 | 201 | Mar 16/1998
| 51-30-00 | 201 | May 04/2009
"""
    strut = """
== MAIN GEAR STRUT - MAINTENANCE PRACTICES

A. Fill the strut with fluid, MIL-PRF-5606, to the level of the filler hole.

B. Inflate the strut until 2.5 inches of the piston show.
"""
    fabric = """
== FABRIC COVERING - MAINTENANCE PRACTICES

# 1. Repair of a tear in the fabric of wing or aileron

A. Repair a tear up to 4 inches long with a doped patch of the covering fabric, 3 inches wider than the tear
on each
side. A sewn repair is not permitted on this airplane.
"""
    return manual(
        of,
        title,
        ("", "LEP-1", "May 04/2009", effective),
        ("32-10-00", "201", "Mar 16/1998", strut),
        ("51-30-00", "201", "May 04/2009", fabric),
    )


def silent_on_fabric() -> list[Topic]:
    """A manual that says nothing of fabric."""
    of = publication(
        "stannard-s-2-service-manual.pdf",
        "service-manual",
        "SM-2",
        "Service Manual",
        STANNARD,
        "S-2",
        "3",
        "1958-08-01",
    )
    title = TITLE.format(
        title="SERVICE MANUAL",
        model="S-2",
        number="SM-2",
        revision="3",
        date="August 1, 1958",
        maker=STANNARD,
    )
    wheels = """
== WHEELS AND BRAKES - MAINTENANCE PRACTICES

A. Adjust the brake shoes until they just drag on the drum, then back off two clicks.
"""
    return manual(of, title, ("32-40-00", "201", "Aug 01/1958", wheels))
