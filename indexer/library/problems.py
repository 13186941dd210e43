"""Errors that only the library's own rooms raise; the tree of all others is in indexer/errors.py.

HangarleafError
`- LibraryProblem
   |- AlreadyHeld              already-held
   |- PassageUnknown           passage-unknown
   |- EntryRefused             entry-refused
   |- SecondPersonRefused      second-person-refused
   |- EntryUnknown             entry-unknown
   |- ItemUnknown              item-unknown
   |- CheckUnknown             check-unknown
   |- PartUnknown              part-unknown
   |- FigureUnknown            figure-unknown
   |- OcrAtWork                ocr-at-work
   |- PersonUnknown            person-unknown
   |- CodeRefused              code-refused
   `- NotEmpty                 not-empty
"""

from indexer.errors import LibraryProblem


class AlreadyHeld(LibraryProblem):
    """The same bytes are in the library; nothing was added but the place they were seen at."""

    slug = "already-held"

    def __init__(self, file: str, copy_id: str):
        super().__init__(f"{file}: this file is already in the library (copy {copy_id}).", "")
        self.copy_id = copy_id


class PassageUnknown(LibraryProblem):
    slug = "passage-unknown"

    def __init__(self, given: str):
        super().__init__(f"No passage «{given}» in this library.", "Search again: the library has changed.")


class PartUnknown(LibraryProblem):
    slug = "part-unknown"

    def __init__(self, given: str):
        super().__init__(
            f"No row «{given}» in the parts lists of this library.",
            "Look for the part again: its publication was taken out, or read again.",
        )


class FigureUnknown(LibraryProblem):
    slug = "figure-unknown"

    def __init__(self, given: str):
        super().__init__(
            f"No figure «{given}» in the parts lists of this library.",
            "Look for it again by its catalogue and figure number.",
        )


class OcrAtWork(LibraryProblem):
    """Scanned pages are being read by another run, of this process or of another."""

    slug = "ocr-at-work"

    def __init__(self, folder: str):
        super().__init__(
            f"{folder}: the scanned pages of this library are being read already.",
            "Let that run go on, or stop it. How far it is: hangarleaf ocr --status",
        )


class EntryRefused(LibraryProblem):
    """What a person wants to enter is not complete, or is none of its kind; nothing was kept."""

    slug = "entry-refused"

    def __init__(self, problem: str, remedy: str, where: str = ""):
        """`problem` without its full stop; `where` names the place when the sentence does not."""
        super().__init__(f"{where}: {problem}." if where else f"Not entered: {problem}.", remedy)


class SecondPersonRefused(LibraryProblem):
    """What raises standing takes two persons, and these may be one."""

    slug = "second-person-refused"

    def __init__(self, first: str, second: str):
        super().__init__(
            f"{second} cannot be the second person where {first} was the first.",
            "Ask another person to look at it. Where two persons have like names, write both in full.",
        )


class EntryUnknown(LibraryProblem):
    slug = "entry-unknown"

    def __init__(self, what: str, given: int):
        super().__init__(
            f"There is no {what} with the number {given} that could be changed.", "Look at the list again."
        )


class PersonUnknown(LibraryProblem):
    """A name that nobody has who may change this library."""

    slug = "person-unknown"

    def __init__(self, given: str):
        super().__init__(
            f"«{given}» is none of the persons named for this library.",
            "Write the name as the list has it: hangarleaf person list",
        )


class CodeRefused(LibraryProblem):
    """A device gave another code than the shop's."""

    slug = "code-refused"

    def __init__(self) -> None:
        super().__init__(
            "This is not the shop's code.",
            "It stands on the page /tablet of the machine that serves the library; hangarleaf tablet code.",
        )


class AircraftUnknown(LibraryProblem):
    """A registration that the shop's fleet list does not have."""

    slug = "aircraft-unknown"

    def __init__(self, given: str, alike: tuple[str, ...] = ()):
        """`alike` = registrations that differ by I and 1 or O and 0 alone, which are never taken for it."""
        near = f"The list has {', '.join(alike)}: I and 1, O and 0 are kept apart. " if alike else ""
        super().__init__(
            f"«{given}» is not in the shop's fleet list.",
            f"{near}Choose one of the list, or add it on the page /fleet or with: hangarleaf fleet add",
        )


class ItemUnknown(LibraryProblem):
    """The librarian's question is not asked: it was answered, or the library has changed since."""

    slug = "item-unknown"

    def __init__(self, given: str):
        super().__init__(
            f"The question «{given}» is not open: it was answered, or the library has changed since.",
            "Look at the queue again.",
        )


class CheckUnknown(LibraryProblem):
    """No check with this number stands in the trail of source checks."""

    slug = "check-unknown"

    def __init__(self, given: int):
        super().__init__(
            f"There is no source check with the number {given}.", "Look at the list of checks again."
        )


class NotEmpty(LibraryProblem):
    """A library that holds something is never made a demonstration: its answers would be of a wrong day."""

    slug = "not-empty"

    def __init__(self, folder: str):
        super().__init__(
            f"{folder}: this library holds something already and keeps its own day.",
            "Make the demonstration in a new folder.",
        )


class PacketUnknown(LibraryProblem):
    slug = "packet-unknown"

    def __init__(self, given: str):
        super().__init__(
            f"No job packet «{given}» in this library.", "Open it from the list of packets, /packets."
        )


class PacketClosed(LibraryProblem):
    """A closed packet can be read, and is not changed."""

    slug = "packet-closed"

    def __init__(self, given: str):
        super().__init__(
            f"Job packet {given} is closed: nothing in it is changed any more.",
            "Open it again on its page, or begin another one.",
        )


class PacketFull(LibraryProblem):
    slug = "packet-full"

    def __init__(self, given: str, most: int):
        super().__init__(
            f"Job packet {given} holds {most} items, as many as a packet may.",
            "Take out what the job does not need, or begin another packet.",
        )


class PacketItemUnknown(LibraryProblem):
    slug = "packet-item-unknown"

    def __init__(self, packet: str, item: int):
        super().__init__(
            f"Job packet {packet} has no item {item}.",
            "Load the packet's page again: another tablet may have taken it out.",
        )


class PacketRefused(LibraryProblem):
    """What was given for a packet cannot be kept."""

    slug = "packet-refused"

    def __init__(self, what: str, remedy: str):
        super().__init__(what, remedy)
