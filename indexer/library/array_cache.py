"""Arrays kept for as long as there is room."""

from collections import OrderedDict
from collections.abc import Callable, Hashable

import numpy as np

Array = np.ndarray
ENTRY_BYTES = 1000  # of one entry beside its numbers, about: key, tuple, array objects


class ArrayCache:
    """The arrays used last, up to so many bytes. Not safe for threads."""

    def __init__(self, room: int):
        self._room = room
        self._held: OrderedDict[Hashable, tuple[Array, ...]] = OrderedDict()
        self.bytes = 0

    def of(self, key: Hashable, read: Callable[[], tuple[Array, ...]]) -> tuple[Array, ...]:
        """The arrays of `key`, read when they are not held. `read` may ask for other keys on its way."""
        arrays = self._held.get(key)
        if arrays is None:
            arrays = read()
            self._keep(key, arrays)
        else:
            self._held.move_to_end(key)
        return arrays

    def empty(self) -> None:
        self._held.clear()
        self.bytes = 0

    def _keep(self, key: Hashable, arrays: tuple[Array, ...]) -> None:
        """What is larger than all the room is not kept. An array must own its memory, or more is held than
        is counted."""
        size = _size(arrays)
        if size > self._room:
            return
        self._held[key] = arrays
        self.bytes += size
        while self.bytes > self._room:
            _, dropped = self._held.popitem(last=False)
            self.bytes -= _size(dropped)


def _size(arrays: tuple[Array, ...]) -> int:
    return ENTRY_BYTES + sum(array.nbytes for array in arrays)
