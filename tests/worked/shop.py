"""What the shop of the worked questions wrote down itself: its fleet and its revision register."""

import datetime

from indexer.library import fleet, register
from indexer.library.day import today
from server.opened import OpenedLibrary

WHO = "Isolde Marchbanks"
FLEET = (  # registration, maker, model, serial
    ("N410QZ", "Aldermoor", "QZ62", "QZ-077"),
    ("N901XJ", "Brackenfell", "XJ9", "XJ9-0123"),
    ("N902XJ", "Brackenfell", "XJ9", "XJ9-0241"),
    ("N27ST", "Stannard", "S-2", "127"),
    ("N33WB", "Wensley", "B20", "20-041"),
    ("N814WB", "Wensley", "B80", "QB-814"),
    ("N816WB", "Wensley", "B80", "QB-816"),
    ("N817WB", "Wensley", "B80", "QB-817"),
    ("N3WD", "Wensley", "B80", "QD-3"),
    ("N80WX", "Wensley", "B80", ""),
    ("N7LF", "Lindhavn", "LF7", "7019"),
)
REGISTER = (  # number of the manual, current revision, its date, against what it was checked
    ("QZM-62-2", "6", "2031-03-14", "Aldermoor publications index"),
    ("QZM-62-3", "2", "2030-05-17", "Aldermoor publications index"),
    ("WM-20-2", "12", "2009-05-04", "Wensley status list"),
    ("WM-80-2", "7", "2098-10-01", "Wensley status list"),
)


def confirm_fleet(library: OpenedLibrary) -> None:
    for registration, maker, model, serial in FLEET:
        fleet.add(library.catalogue, registration, model, WHO, serial, maker)


def keep_register(library: OpenedLibrary) -> None:
    """Checks of the library's day, to be made again in a year."""
    held = {record.number: record.id for record in library.publications()}
    day_of_check = today(library.catalogue)
    for number, revision, date, source in REGISTER:
        day = datetime.date.fromisoformat(date)
        register.record_check(library.catalogue, held[number], revision, day, source, day_of_check, WHO, 365)
