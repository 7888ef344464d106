"""Work on many things in several processes: in order, and never far ahead of what is being used."""

from __future__ import annotations

import gc
import os
import threading
import time
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from itertools import islice
from typing import Any, TypeVar

from fieldnotes.errors import FieldnotesError

CHUNK = 16
"""Things handed to a process at once."""
AHEAD = 3
"""Chunks that may wait for each process."""

_work: Callable[[Any], Any]
T = TypeVar("T")
R = TypeVar("R")


def in_order(work: Callable[[T], R], items: Iterable[T], processes: int) -> Iterator[tuple[T, R]]:
    """Each item with `work(item)`, in the order of the items, worked out by this many processes.

    Items are drawn only as they are needed, so memory stays flat however many there are. `work` is handed over once.

    Raises:
        FieldnotesError: a process was ended from outside.
    """
    if processes < 2:
        for item in items:
            yield item, work(item)
        return
    from concurrent.futures import Future, ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    source = iter(items)
    waiting: deque[tuple[list[T], Future[list[R]]]] = deque()
    gc.freeze()  # what stands in memory now is left alone by the collectors of all processes, so that they share it
    with ProcessPoolExecutor(processes, initializer=_begin, initargs=(work, os.getpid())) as pool:
        try:
            while True:
                while len(waiting) < processes * AHEAD and (chunk := list(islice(source, CHUNK))):
                    waiting.append((chunk, pool.submit(_each, chunk)))
                if not waiting:
                    return
                done, future = waiting.popleft()
                yield from zip(done, future.result(), strict=True)
        except BrokenProcessPool:
            raise FieldnotesError("A reading process was ended from outside. Do it once more.") from None
        finally:
            pool.shutdown(wait=False, cancel_futures=True)
            gc.unfreeze()


def _each(chunk: list[Any]) -> list[Any]:
    return [_work(item) for item in chunk]


def _begin(work: Callable[[Any], Any], parent: int) -> None:
    global _work
    _work = work
    threading.Thread(target=_leave_with, args=(parent,), daemon=True).start()


def _leave_with(parent: int) -> None:
    """End this process when the one it works for is gone, as after a kill -9."""
    while os.getppid() == parent:
        time.sleep(1.0)
    os._exit(1)
