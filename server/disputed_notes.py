"""The notes of a kept finding, parted: disputed points, each with both positions, and the rest. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.trade.disputed import Disputed, disputed_point

_ABOUT = {
    Disputed.MANUAL_FOR_MAJOR_WORK: "maintenance data for a major repair",
    Disputed.REPAIR_MANUAL_STAMP: "the stamp of a structural repair manual",
    Disputed.BULLETIN_IN_A_MANUAL: "a bulletin that a manual names",
    Disputed.CURRENT_PROGRAM: "which inspection program is current",
    Disputed.WORK_ORDER_DATA: "the data of a repair station's work order",
}
_WORK = {
    Disputed.MANUAL_FOR_MAJOR_WORK: "major",
    Disputed.REPAIR_MANUAL_STAMP: "major",
    Disputed.CURRENT_PROGRAM: "inspection",
    Disputed.WORK_ORDER_DATA: "major",
}


@dataclass(frozen=True, slots=True)
class DisputedNotes:
    """about  what the positions are on; work: the class of work it bears on, "" = any"""

    about: str
    work: str
    sentences: tuple[str, ...]

    def bears_on(self, asked: str) -> bool:
        """Whether it bears on the class of work asked for; "" = none, so all were answered."""
        return not asked or not self.work or self.work == asked


def is_asked(work: str, asked: str) -> bool:
    """Whether the answer for a class of work belongs in sight: minor and major only where they were asked
    for, or where no class was said; work for a directive and an inspection wherever they were answered."""
    return not asked or work == asked or work not in ("minor", "major")


def parted(notes: Sequence[str]) -> tuple[tuple[str, ...], tuple[DisputedNotes, ...]]:
    """Notes -> (the other notes in their order, the disputed points).

    A point is taken out only where all its sentences stand there as they are worded today: the notes of a
    check kept in other words stay as they are.
    """
    points = []
    taken: set[str] = set()
    for point, about in _ABOUT.items():
        sentences = disputed_point(point).sentences
        if all(each in notes for each in sentences):
            points.append(DisputedNotes(about, _WORK.get(point, ""), sentences))
            taken.update(sentences)
    return tuple(each for each in notes if each not in taken), tuple(points)
