"""The few calls that differ from one operating system to the next."""

from __future__ import annotations

import ctypes
import errno
import os
import re
import sys
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
_RENAME_SWAP = 2
_UNSUPPORTED = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP}


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change names in one step that nobody can see half done.

    Returns False where the system or the file system has no such call; raises OSError when the
    call itself fails. Uses renameat2(RENAME_EXCHANGE) on Linux (man 2 rename) and
    renamex_np(RENAME_SWAP) on macOS (man 2 renamex_np).
    """
    code = _exchange(os.fsencode(one), os.fsencode(other))
    if code == 0:
        return True
    if code in _UNSUPPORTED:
        return False
    raise OSError(code, os.strerror(code), str(one), None, str(other))


def _exchange(one: bytes, other: bytes) -> int:
    if sys.platform == "win32":
        return errno.ENOSYS
    libc = ctypes.CDLL(None, use_errno=True)
    try:
        if sys.platform == "darwin":
            failed = libc.renamex_np(one, other, _RENAME_SWAP)
        else:
            failed = libc.renameat2(_AT_FDCWD, one, _AT_FDCWD, other, _RENAME_EXCHANGE)
    except AttributeError:
        return errno.ENOSYS
    return ctypes.get_errno() if failed else 0


def flush(folder: Path) -> None:
    """Ask for everything written to the folder's file system to reach the disk before going on."""
    if sys.platform == "win32":
        return
    if not sys.platform.startswith("linux"):
        os.sync()
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        libc = ctypes.CDLL(None, use_errno=True)
        if libc.syncfs(handle):
            code = ctypes.get_errno()
            raise OSError(code, os.strerror(code), str(folder))
    finally:
        os.close(handle)


def try_lock(handle: int) -> bool:
    """Take the lock on an open file, or return False at once when another process has it."""
    try:
        if sys.platform == "win32":
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True


def is_mount(folder: Path) -> bool:
    """Tell whether a folder is a mount point, bind mounts of the same disk included."""
    if os.path.ismount(folder):
        return True
    try:
        table = Path("/proc/self/mountinfo").read_bytes()
    except OSError:
        return False
    points = (line.split(b" ")[4] for line in table.splitlines())
    return os.fsencode(folder) in {re.sub(rb"\\([0-7]{3})", _octal, point) for point in points}


def _octal(escape: re.Match[bytes]) -> bytes:
    return bytes([int(escape[1], 8)])
