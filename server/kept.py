"""What follows from one state of the library, kept for the answers after the first.

Only what is read inside `reading` is shared: there the state cannot change on the way. Elsewhere everything
is worked out anew. What is kept is bounded, and lost with the state it follows from.
"""

import threading
from collections.abc import Callable, Hashable, Iterable
from typing import Any, TypeVar
from weakref import WeakKeyDictionary

from indexer.library.catalogue import Catalogue

Value = TypeVar("Value")
_NOTHING = object()


class Kept:
    """Values by key, at most `most` of them: then it begins anew, which costs time and changes no answer."""

    def __init__(self, most: int):
        self._most = most
        self._held: dict[Hashable, Any] = {}

    def once(self, key: Hashable, make: Callable[[], Value]) -> Value:
        found = self._held.get(key, _NOTHING)
        if found is _NOTHING:
            found = make()
            self.keep(key, found)
        return found

    def keep(self, key: Hashable, value: Any) -> None:
        if len(self._held) >= self._most:
            self._held = {}
        self._held[key] = value

    def missing(self, keys: Iterable[Hashable]) -> list[Any]:
        """Those that are not held, each once."""
        return [key for key in dict.fromkeys(keys) if key not in self._held]


class KeptByState:
    """For each catalogue, what is kept of its newest state.

    most    values of one state
    states  kept side by side, such as days or aircraft; of a state gone by none is
    """

    def __init__(self, most: int, states: int = 1):
        self._most = most
        self._states = states
        self._held: WeakKeyDictionary[Catalogue, dict[tuple, Kept]] = WeakKeyDictionary()
        self._lock = threading.Lock()

    def of(self, catalogue: Catalogue, generation: int, *beside: Hashable) -> Kept:
        """What is kept of one state: a generation, and whatever else the values follow from."""
        if not catalogue.database.is_reading:
            return Kept(self._most)
        state = (generation, *beside)
        with self._lock:
            held = self._held.get(catalogue, {})
            found = held.pop(state, None)
            if found is None:
                found = Kept(self._most)
                if any(each[0] > generation for each in held):
                    return found  # a reader of an older state must not push out the newer one
                held = {each: kept for each, kept in held.items() if each[0] == generation}
                while len(held) >= self._states:
                    del held[next(iter(held))]
            held[state] = found  # last = used last
            self._held[catalogue] = held
        return found
