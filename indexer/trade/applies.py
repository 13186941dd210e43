"""Whether a publication reaches one aircraft or article: three answers, each with its words."""

from dataclasses import dataclass
from enum import StrEnum


class Applies(StrEnum):
    """ "Does not apply" needs positive proof; a missing match is "cannot tell"."""

    APPLIES = "applies"
    DOES_NOT_APPLY = "does not apply"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class ApplicabilityAnswer:
    """The answer for one model and serial.

    why    in words for a person, naming what decided it or what is missing
    quote  the deciding words as printed; "" when no words decided it
    """

    answer: Applies
    why: str
    quote: str = ""

    @property
    def value(self) -> str:
        return self.answer.value

    def __str__(self) -> str:
        return self.answer.value
