"""A shelf to write on: the small library and a manual with an order of its own; how its desk is asked."""

import small_library
from small_library import UNDETERMINED, passage, tag

from indexer.library.catalogue import Catalogue
from indexer.tagging.tags import Identity, TaggedPassage, TaggedPublication
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType

WHO = {"who": "R. Quill", "why_quick": "Read on the page"}
SAYS = {"who": "R. Quill", "printed": "The cover prints: K-9 Manual"}  # what two persons answer for


def worked_out(text, chapter, sure, section, ordinal, pdf_page):
    """A passage of a manual with its own order, and the chapter inference gives it ("" = none)."""
    made = passage(ordinal, pdf_page, text, heading=(f"SECTION {section}",))
    numbers = []
    if chapter:
        why = Evidence(Basis.INFERRED, "words of the passage", confidence=sure)
        numbers.append(Tag(ChapterNumber(chapter), why))
    numbers.append(tag(ChapterNumber(section, scheme=Scheme.OWN), f"SECTION {section}", pdf_page))
    return TaggedPassage(made.passage, tuple(numbers), None, UNDETERMINED)


def own_manual():
    """Section V: three passages of brakes, one of which the machine gives no chapter. Section VI: one."""
    kind = PublicationType.SERVICE_MANUAL
    identity = Identity(
        tag(kind, "x"), tag("K-9 SM", "x"), tag("K-9 Manual", "x"), None, (), tag("2", "x"), None
    )
    passages = (
        worked_out("The shoes press on the drum when the pedal is pushed.", "32", 0.95, "V", 0, 2),
        worked_out("Zinnober paint marks the drum that was turned.", "", 0.0, "V", 1, 2),
        worked_out("Bleed until no bubbles come.", "32", 0.9, "V", 2, 3),
        worked_out("Charge the battery each month.", "24", 0.9, "VI", 3, 4),
    )
    return TaggedPublication(1, 4, identity, passages, ())


def make(folder, files):
    """A new library in `folder`; gives the id of the manual with an order of its own."""
    small_library.make(folder, files)
    with Catalogue.open(folder) as catalogue:
        return small_library.take(catalogue, files, "k-9-sm", own_manual())


def questions(client, **more):
    query = "&".join(f"{name}={value}" for name, value in more.items())
    return client.get(f"/api/desk?limit=100&{query}").json()["items"]


def of_section(client, section):
    return next((item for item in questions(client) if item["section"] == section), None)


def chapters_found(client, word):
    return [group["chapter"] for group in client.get(f"/api/search?q={word}").json()["groups"]]


def post(client, address, **form):
    return client.request("POST", address, data=form)
