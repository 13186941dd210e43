"""A library for job packets: a manual made by hand and an aircraft, over a plain engine; our own fiction."""

from plain_engine import PlainEngine
from revision_shelf import WHEELS, Manual

from indexer.library.catalogue import Catalogue
from indexer.library.fleet import add
from indexer.library.relations import relate
from indexer.settings import Settings
from server.opened import OpenedLibrary
from server.render import PagePictures

PAGES = [(WHEELS, "401", "2031-03-14"), (WHEELS, "402", "2028-06-02"), (WHEELS, "403", "2031-03-14")]
FIRST = Manual("6", "2031-03-14", PAGES)
SECOND = Manual("7", "2031-12-01", PAGES)
REGISTRATION = "QX-7NP"


def opened(place):
    """The library, to be used as a context manager; gives it and the id of the manual."""
    (place / "files").mkdir()
    with Catalogue.open(place / "library", create=True) as catalogue:
        manual = FIRST.take(catalogue, place / "files")
        add(catalogue, REGISTRATION, "D44", "R. Quill", serial="44-019", maker="Corvane Aircraft")
        relate(catalogue)
    folder = place / "library"
    pictures = PagePictures(folder / "cache" / "pages", Settings())
    return OpenedLibrary(folder, Catalogue.open(folder), PlainEngine(), pictures, Settings()), manual
