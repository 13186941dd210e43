"""What one call took, of the processor and of the clock, and many of them in words."""

import statistics
import time
from collections.abc import Callable
from typing import Any, NamedTuple


class Times(NamedTuple):
    """Milliseconds of the processor and of the clock; on a shared machine the clock also counts others."""

    processor: float
    clock: float


def timed(work: Callable, *given: object, **more: object) -> tuple[Times, Any]:
    """What a piece of work took, and what came of it."""
    clock, processor = time.perf_counter(), time.process_time()
    answer = work(*given, **more)
    spent = Times((time.process_time() - processor) * 1000, (time.perf_counter() - clock) * 1000)
    return spent, answer


def shown(times: list[Times]) -> str:
    words = ""
    for name in Times._fields:
        ordered = sorted(getattr(each, name) for each in times)
        high = ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))]
        words += f"  {name} p50 {statistics.median(ordered):6.1f} p95 {high:6.1f} worst {ordered[-1]:6.1f} ms"
    return f"{words}   of {len(times)}"
