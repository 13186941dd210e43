"""Which of the pages that OCR read stop the reading of their copy. Pure but for what is asked."""

from collections.abc import Callable, Sequence


def pages_at_fault(
    fails: Callable[[Sequence[int]], bool], doubtful: Sequence[int], sure: Sequence[int] = ()
) -> list[int]:
    """The pages without which reading works; [] when it fails without any of them: they are not at fault.

    fails     whether reading with these pages fails; the last call that does not is with all the good ones
    doubtful  pages (pdf_page) of which some are at fault, `sure` = with which it worked before
    Halves are tried and halved again, so that one bad page among a thousand costs about twenty readings.
    """
    good = list(sure)
    if fails(good):
        if not good or fails([]):
            return []
        good, doubtful = [], sorted({*doubtful, *sure})
    bad: list[int] = []
    waiting = _halves(doubtful) if len(doubtful) > 1 else [doubtful]
    while waiting:
        group = waiting.pop()
        if group and not fails(sorted([*good, *group])):
            good += group
        elif len(group) == 1:
            bad += group
        elif group:
            waiting += _halves(group)
    return sorted(bad)


def _halves(group: Sequence[int]) -> list[Sequence[int]]:
    """The second half and then the first: the last is taken first."""
    middle = len(group) // 2
    return [group[middle:], group[:middle]]
