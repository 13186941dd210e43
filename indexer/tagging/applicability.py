"""Which models and serials a text says it reaches: ranges, lists, exceptions, conditions. Three-valued."""

from dataclasses import dataclass

from indexer.trade.applies import ApplicabilityAnswer, Applies


@dataclass(frozen=True, slots=True)
class Applicability:
    """What a printed applicability says, as read. `text` as given."""

    text: str

    def applies(self, model: str, serial: str) -> ApplicabilityAnswer:
        """Whether it reaches this model and serial; "" = not known."""
        return ApplicabilityAnswer(Applies.CANNOT_TELL, "Read the words as printed.", self.text)


def read_applicability(text: str) -> Applicability:
    """Take a printed applicability apart."""
    return Applicability(text)
