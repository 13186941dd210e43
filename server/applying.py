"""Whether publications and their passages reach one aircraft of the fleet: three answers, with the words."""

from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Aircraft
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.trade.applies import ApplicabilityAnswer, Applies


class Applying:
    """Reads the catalogue, each thing once; make one for each answer, inside `reading`."""

    def __init__(self, catalogue: Catalogue, aircraft: Aircraft):
        self._catalogue = catalogue
        self.aircraft = aircraft

    def of_publication(self, publication: PublicationRecord) -> ApplicabilityAnswer:
        return ApplicabilityAnswer(Applies.CANNOT_TELL, "Read the applicability as printed.")

    def of_passage(self, publication: PublicationRecord, passage: PassageRecord) -> ApplicabilityAnswer:
        return self.of_publication(publication)

    def of_page(self, publication: PublicationRecord, pdf_page: int) -> ApplicabilityAnswer:
        return self.of_publication(publication)
