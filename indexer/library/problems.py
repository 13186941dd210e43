"""Errors that only the library's own rooms raise; the tree of all others is in indexer/errors.py.

HangarleafError
`- LibraryProblem
   |- AlreadyHeld              already-held
   `- PassageUnknown           passage-unknown
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
