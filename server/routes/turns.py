"""Turns at work that many may ask for at once, such as the tiles of a foldout, or hits for every key typed.

Who waits for a turn holds no thread, so that the rest of the service answers meanwhile; and whose asker has
gone by then, as a browser does that needs the answer no more, is not worked for.
"""

from collections.abc import Callable

from anyio import CapacityLimiter, to_thread
from anyio.lowlevel import RunVar
from fastapi import Request
from fastapi.responses import Response

_GONE = 503  # read by nobody


class Turns:
    """most   at work at the same time, each in a thread"""

    def __init__(self, name: str, most: int):
        self._most = most
        self._held: RunVar[CapacityLimiter] = RunVar(name)  # one for each event loop

    async def take(self, request: Request, work: Callable[[], Response]) -> Response:
        """Wait for a turn, then work. Raises what `work` raises. For a GET: it may read the body."""
        async with self._limiter():
            if await request.is_disconnected():
                return Response(status_code=_GONE)
            return await to_thread.run_sync(work, limiter=CapacityLimiter(1))

    def _limiter(self) -> CapacityLimiter:
        limiter = self._held.get(None)
        if limiter is None:
            limiter = CapacityLimiter(self._most)
            self._held.set(limiter)
        return limiter


DRAWING = Turns("drawing", 12)  # a few for each worker, whose pictures are mostly on the drive already
TYPING = Turns("typing", 4)
