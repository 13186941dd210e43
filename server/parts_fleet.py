"""Which aircraft of the fleet a row of a parts list applies to: three answers for each."""

from collections import Counter
from typing import Any

from indexer.library.fleet import fleet
from indexer.library.parts_records import PartRecord
from indexer.trade.applies import Applies
from server.opened import OpenedLibrary
from server.parts_applying import RowApplying
from server.parts_row import answer_fields

MOST_AIRCRAFT = 200  # that are answered one by one


def fleet_fields(library: OpenedLibrary, record: PartRecord) -> dict[str, Any]:
    """The answer for every aircraft that the publication may cover; others are counted. Inside `reading`."""
    publication = library.publication(record.publication_id)
    held = sorted(fleet(library.catalogue), key=lambda each: each.registration)
    answers: list[dict[str, Any]] = []
    not_covered = not_answered = 0
    for aircraft in held:
        applying = RowApplying(library, aircraft)
        if applying.of_publication(publication).answer is Applies.DOES_NOT_APPLY:
            not_covered += 1
        elif len(answers) >= MOST_AIRCRAFT:
            not_answered += 1
        else:
            answer = answer_fields(applying.of_row(record), aircraft.registration)
            answers.append({"registration": aircraft.registration, "model": aircraft.model, **answer})
    counts = Counter(each["answer"] for each in answers)
    return {
        "fleet": answers,
        "fleet_counts": {
            **{each.value: counts[each.value] for each in Applies},
            "not covered by the publication": not_covered,
            "not answered here": not_answered,
        },
    }
