"""Serial numbers as printed: prefix, number and suffix; two compared; ranges within one prefix."""

import re
from collections.abc import Collection
from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Answer

_SERIAL = re.compile(
    r"(?P<prefix>(?:[A-Z0-9][A-Z0-9.-]*?)??)(?P<joint>[-. ]?)(?P<digits>\d+)(?P<suffix>[A-Z]{0,2})"
)
_REGISTRATION = re.compile(r"N[1-9]\d{0,4}[A-Z]{0,2}|[A-Z0-9]{1,2}-[A-Z]{3,4}")
_LOOKALIKES = str.maketrans("OIL", "011")
_YEAR_CODED = 7  # digits: two for the year and five for the sequence, as in 44-7990001


class SerialMatch(StrEnum):
    """How far two written serials agree. Only "exact" may be called the same serial."""

    EXACT = "exact"
    LOOSE = "loose"  # the same after leading zeros, dashes, and O/0 and I/1 are set aside
    DIFFERENT = "different"


@dataclass(frozen=True, slots=True)
class Serial:
    """One serial in its fields.

    prefix  what stands before the last group of digits, in capitals ("QZ", "44", "28R"); "" = none
    joint   "-", "." or "" between prefix and digits
    digits  the last group, leading zeros kept; in year-coded serials the year and the sequence together
    suffix  letters after the digits
    """

    prefix: str
    joint: str
    digits: str
    suffix: str = ""

    @property
    def number(self) -> int:
        return int(self.digits)

    def __str__(self) -> str:
        return f"{self.prefix}{self.joint}{self.digits}{self.suffix}"


def parse_serial(text: str) -> Serial | None:
    """The serial in its fields; None for what has no digits or is no single number."""
    bare = re.sub(r"\s+", " ", plain_dashes(text).strip().upper())
    found = _SERIAL.fullmatch(bare)
    if not found:
        return None
    return Serial(found["prefix"].rstrip("-. "), found["joint"].strip(), found["digits"], found["suffix"])


def is_registration(text: str) -> bool:
    """Whether this is a registration mark (N123AB, G-ABCD), which is never a serial."""
    return bool(_REGISTRATION.fullmatch(text.strip().upper()))


def loose_key(text: str) -> str:
    """What is left of a written serial when separators, leading zeros and lookalike letters are set aside."""
    bare = re.sub(r"[^A-Z0-9]", "", plain_dashes(text).upper().translate(_LOOKALIKES))
    serial = parse_serial(text)
    if serial and serial.digits.lstrip("0") != serial.digits:
        stripped = f"{serial.prefix}{serial.number}{serial.suffix}"
        bare = re.sub(r"[^A-Z0-9]", "", stripped.translate(_LOOKALIKES))
    return re.sub(r"(?<![0-9])0+(?=[0-9])", "", bare)


def compare_serials(a: str, b: str) -> SerialMatch:
    """How two written serials agree; the order of the two does not matter."""
    first, second = parse_serial(a), parse_serial(b)
    if first and first == second:
        return SerialMatch.EXACT
    same = loose_key(a) and loose_key(a) == loose_key(b)
    return SerialMatch.LOOSE if same else SerialMatch.DIFFERENT


@dataclass(frozen=True, slots=True)
class SerialRange:
    """Serials from `low` to `high` within one prefix; a single serial has both ends the same.

    low, high  None = no end is printed on that side
    fault      why it is no range, in words for a person: then it never gives yes or no
    doubtful   True where the upper end was printed without its prefix: then it never gives no
    """

    low: Serial | None
    high: Serial | None
    printed: str
    low_included: bool = True
    high_included: bool = True
    fault: str = ""
    doubtful: bool = False

    @property
    def prefix(self) -> str:
        end = self.low or self.high
        return end.prefix if end else ""

    @property
    def is_open(self) -> bool:
        return self.low is None or self.high is None

    def holds(self, serial: Serial, beside: Collection[str] = ()) -> Answer:
        """Whether a serial lies in the range. NO only when no reading of it would lie inside.

        beside  prefixes known to run beside this one: an open range ends at its own prefix for these. A
                serial of any other prefix may follow an open range, because makers change prefixes by year.
        """
        if self.fault:
            return Answer.CANNOT_TELL
        if self._exactly(serial):
            return Answer.YES
        if self.doubtful or self._loosely(serial):
            return Answer.CANNOT_TELL
        if bool(serial.prefix) != bool(self.prefix):
            return Answer.CANNOT_TELL
        other = serial.prefix != self.prefix
        if other and self.is_open and serial.prefix not in beside:
            return Answer.CANNOT_TELL
        return Answer.CANNOT_TELL if not other and self._other_width(serial) else Answer.NO

    def _ends(self) -> list[Serial]:
        return [end for end in (self.low, self.high) if end]

    def _exactly(self, serial: Serial) -> bool:
        ends = self._ends()
        if any(
            (end.prefix, end.joint, end.suffix) != (serial.prefix, serial.joint, serial.suffix)
            for end in ends
        ):
            return False
        padded = max((len(end.digits) for end in ends if end.digits.startswith("0")), default=0)
        widths = {max(len(str(serial.number)), padded)}
        if self.low is None and self.high is not None:
            widths.add(len(self.high.digits))  # "prior to QZ-100" does not show how a 99 is written
        return len(serial.digits) in widths and not self._other_width(serial) and self._between(serial.number)

    def _between(self, number: int) -> bool:
        above = (
            self.low is None or number > self.low.number or (self.low_included and number == self.low.number)
        )
        below = (
            self.high is None
            or number < self.high.number
            or (self.high_included and number == self.high.number)
        )
        return above and below

    def _other_width(self, serial: Serial) -> bool:
        """Year-coded serials are compared field by field: with a digit more or less there is no year."""
        widths = {len(end.digits) for end in self._ends()}
        return len(widths) == 1 and min(widths) >= _YEAR_CODED and abs(len(serial.digits) - min(widths)) == 1

    def _loosely(self, serial: Serial) -> bool:
        """Whether any reading of the serial lies inside: zeros, dashes and lookalike letters set aside."""
        folded = re.sub(r"[^A-Z0-9]", "", str(serial).translate(_LOOKALIKES))
        prefix = re.sub(r"[^A-Z0-9]", "", self.prefix.translate(_LOOKALIKES))
        numbers = set()
        if re.sub(r"[^A-Z0-9]", "", serial.prefix.translate(_LOOKALIKES)) == prefix:
            numbers.add(serial.number)
        rest = re.fullmatch(r"(\d+)[A-Z]{0,2}", folded.removeprefix(prefix))
        if folded.startswith(prefix) and rest:
            numbers.add(int(rest[1]))
        return any(self._between(number) for number in numbers)


def one_serial(serial: Serial) -> SerialRange:
    """The range that holds a single serial."""
    return SerialRange(serial, serial, str(serial))


def range_between(low: Serial, high: Serial, printed: str) -> SerialRange:
    """The inclusive range between two printed serials. A range across two prefixes is not a range."""
    doubtful = False
    if low.prefix and not high.prefix:
        high, doubtful = Serial(low.prefix, low.joint, high.digits, high.suffix), True
    fault = ""
    if (low.prefix, low.suffix) != (high.prefix, high.suffix):
        fault = f'"{printed}" runs from one prefix to another, which is not a range'
    elif low.number > high.number:
        fault = f'"{printed}" runs backwards'
    elif low.joint != high.joint:
        fault = f'"{printed}" writes its two ends in two ways'
    return SerialRange(low, high, printed, fault=fault, doubtful=doubtful)


@dataclass(frozen=True, slots=True)
class SerialList:
    """Ranges and single serials with what is taken out of them.

    everything  True for "all serial numbers": `included` is then empty
    """

    included: tuple[SerialRange, ...] = ()
    excepted: tuple[SerialRange, ...] = ()
    everything: bool = False

    @property
    def prefixes(self) -> frozenset[str]:
        return frozenset(each.prefix for each in (*self.included, *self.excepted) if each.prefix)

    @property
    def closed(self) -> bool:
        """Whether both ends of every range are printed."""
        return not self.everything and not any(each.is_open for each in self.included)

    def holds(self, serial: Serial, beside: Collection[str] = ()) -> Answer:
        """Whether the list reaches a serial. An exception that names nothing in the list proves nothing."""
        known = {*beside, *self.prefixes}
        inside = Answer.YES if self.everything else _any(self.included, serial, known)
        outside = _any(self.excepted, serial, known) if self.excepted else Answer.NO
        if outside is Answer.YES:
            return Answer.NO if inside is Answer.YES else Answer.CANNOT_TELL
        if outside is Answer.CANNOT_TELL:
            return Answer.NO if inside is Answer.NO else Answer.CANNOT_TELL
        return inside

    def deciding(self, serial: Serial) -> str:
        """The printed words that hold or except the serial; all of them when none does."""
        for each in (*self.excepted, *self.included):
            if each.holds(serial) is Answer.YES:
                return each.printed
        return ", ".join(each.printed for each in self.included)


def _any(ranges: tuple[SerialRange, ...], serial: Serial, beside: Collection[str]) -> Answer:
    answers = [each.holds(serial, beside) for each in ranges]
    if any(answer is Answer.YES for answer in answers):
        return Answer.YES
    return Answer.CANNOT_TELL if any(answer is Answer.CANNOT_TELL for answer in answers) else Answer.NO
