"""Whether a task that a reference names stands where its number leads."""

import re
from dataclasses import replace

from indexer.library.catalogue import Catalogue
from indexer.library.records import ReferenceState
from indexer.tagging.tags import Citation
from server.checking.places import Place

# Chapter-section-subject, function, sequence: "32-41-00-400-801" (ATA iSpec 2200 as used, common practice).
_TASK = re.compile(
    r"(?<![\w-])[0-9]{2}-[0-9]{2}-[0-9]{2}[ ]?-[ ]?[0-9][0-9A-Z]{2}-[0-9]{2}[0-9A-Z](?![0-9A-Z])"
)
NO_TASK = "The document is here; the task named was not found in it."


def task_found(catalogue: Catalogue, citation: Citation, place: Place) -> Place:
    """The place, or that it is not there: a task's number covers its subject; the task must be printed."""
    named = _TASK.search(citation.text)
    if named is None or place.state is not ReferenceState.RESOLVED or not place.passages:
        return place
    wanted = _bare(named[0])
    for each in catalogue.passages(place.passages).values():
        if wanted in _bare(" ".join((*each.heading_path, each.text))):
            return place
    return replace(place, state=ReferenceState.NO_SUCH_PLACE, reason=NO_TASK)


def _bare(text: str) -> str:
    return re.sub(r"\s", "", text)
