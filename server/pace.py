"""How often each device may ask for something within a while. Kept in memory; safe for threads."""

import math
import threading
import time
from collections import deque
from collections.abc import Callable

_DEVICES = 500  # whose last times are remembered; the one that asked longest ago is forgotten first


class Pace:
    """most    times that a device may ask within `in_s` seconds
    clock   seconds that only grow
    """

    def __init__(self, most: int, in_s: float, clock: Callable[[], float] = time.monotonic):
        self.most, self.in_s = most, in_s
        self._clock = clock
        self._asked: dict[str, deque[float]] = {}
        self._lock = threading.Lock()

    def take(self, device: str) -> int:
        """Count one time; or the whole seconds to wait, and then nothing is counted. 0 = go on."""
        now = self._clock()
        with self._lock:
            asked = self._asked.pop(device, deque())
            while asked and now - asked[0] >= self.in_s:
                asked.popleft()
            self._asked[device] = asked  # the last to ask stands last
            while len(self._asked) > _DEVICES:
                del self._asked[next(iter(self._asked))]
            if len(asked) >= self.most:
                return max(1, math.ceil(self.in_s - (now - asked[0])))
            asked.append(now)
            return 0
