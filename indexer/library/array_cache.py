"""Arrays kept for as long as there is room."""

from collections import OrderedDict
from collections.abc import Hashable

import numpy as np

Array = np.ndarray


class ArrayCache:
    """The arrays used last, up to so many bytes. Not safe for threads."""

    def __init__(self, room: int):
        self._room = room
        self._held: OrderedDict[Hashable, tuple[Array, ...]] = OrderedDict()
        self.bytes = 0

    def get(self, key: Hashable) -> tuple[Array, ...] | None:
        arrays = self._held.get(key)
        if arrays is not None:
            self._held.move_to_end(key)
        return arrays

    def put(self, key: Hashable, arrays: tuple[Array, ...]) -> None:
        size = _size(arrays)
        if size > self._room:
            return
        self._held[key] = arrays
        self.bytes += size
        while self.bytes > self._room:
            _, dropped = self._held.popitem(last=False)
            self.bytes -= _size(dropped)


def _size(arrays: tuple[Array, ...]) -> int:
    return sum(array.nbytes for array in arrays)
