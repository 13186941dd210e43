"""Turns at work that many may ask for at once: the tiles of a foldout, hits for every key typed, PDFs.

Who waits for a turn holds no thread, so that the rest of the service answers meanwhile; and whose asker has
gone by then, as a browser does that needs the answer no more, is not worked for.
"""

from collections.abc import Callable

from anyio import CapacityLimiter, WouldBlock, fail_after, to_thread
from anyio.lowlevel import RunVar
from fastapi import Request
from fastapi.responses import Response

from indexer.errors import HangarleafError

RETRY_AFTER_S = 30  # of who is turned away
_GONE = 503  # read by nobody


class TooManyAtOnce(HangarleafError):
    """So much is asked for that a turn would not come soon."""

    slug = "too-many-at-once"

    def __init__(self, name: str):
        super().__init__(
            f"The machine is busy with {name} for others; this was not begun.",
            f"Try again in {RETRY_AFTER_S} seconds. Searching and reading go on meanwhile.",
        )


class Turns:
    """most     at work at the same time, each in a thread
    waiting  may wait for a turn; whoever comes beyond is told to come again. None = all may
    wait_s   how long each may wait, then likewise. None = as long as it takes
    """

    def __init__(self, name: str, most: int, waiting: int | None = None, wait_s: float | None = None):
        self._name, self._most, self._waiting, self._wait_s = name, most, waiting, wait_s
        self._held: RunVar[CapacityLimiter] = RunVar(name)  # one for each event loop

    async def take(self, request: Request, work: Callable[[], Response]) -> Response:
        """Wait for a turn, then work. For a GET: it may read the body.

        Raises what `work` raises, and TooManyAtOnce.
        """
        limiter = self._limiter()
        await self._turn(limiter)
        try:
            if await request.is_disconnected():
                return Response(status_code=_GONE)
            return await to_thread.run_sync(work, limiter=CapacityLimiter(1))
        finally:
            limiter.release()

    async def _turn(self, limiter: CapacityLimiter) -> None:
        try:
            limiter.acquire_nowait()
        except WouldBlock:
            if self._waiting is not None and limiter.statistics().tasks_waiting >= self._waiting:
                raise TooManyAtOnce(self._name) from None
            try:
                with fail_after(self._wait_s):
                    await limiter.acquire()
            except TimeoutError:
                raise TooManyAtOnce(self._name) from None

    def _limiter(self) -> CapacityLimiter:
        limiter = self._held.get(None)
        if limiter is None:
            limiter = CapacityLimiter(self._most)
            self._held.set(limiter)
        return limiter


DRAWING = Turns("drawing", 12)  # a few for each worker, whose pictures are mostly on the drive already
TYPING = Turns("typing", 4)
# A packet takes seconds of a worker and of our own processor: one at a time leaves the other to searches.
PRINTING = Turns("making PDFs of packets", 1, waiting=3, wait_s=RETRY_AFTER_S)
