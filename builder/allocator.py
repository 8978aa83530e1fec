"""What the C library holds beyond what is in use, given back where it can be asked (glibc)."""

from __future__ import annotations

import ctypes
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache

# M_ARENA_MAX of glibc's malloc.h, and its value for as many heaps as the library likes.
_ARENA_MAX, _AS_USUAL = -8, 0


@contextmanager
def one_heap() -> Iterator[None]:
    """Let threads that are started within share one heap; at the end give back what of it is free.

    By default every thread takes memory from a heap of its own. Draws are made in threads: what
    they keep lies among arrays that are soon gone, and most of those heaps would stay
    held, though free, in this process and in all that are forked from it. With another C
    library nothing is done.
    """
    library = _glibc()
    if library is None:
        yield
        return
    library.mallopt(_ARENA_MAX, 1)
    try:
        yield
    finally:
        library.mallopt(_ARENA_MAX, _AS_USUAL)
        library.malloc_trim(0)


@cache
def _glibc() -> ctypes.CDLL | None:
    """The C library of this process, where it is glibc."""
    if sys.platform != "linux":
        return None
    library = ctypes.CDLL(None)
    return library if hasattr(library, "gnu_get_libc_version") else None
