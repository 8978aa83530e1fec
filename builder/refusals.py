"""What the operating system says where it refuses a file, in the language of the command."""

from __future__ import annotations

import errno

from builder.language import Deferred, tr

# The usual ones, in the words that Linux has for them [from memory]; any other stays as it comes.
_REASONS = {
    errno.ENOENT: Deferred("No such file or directory"),
    errno.EACCES: Deferred("Permission denied"),
    errno.EPERM: Deferred("Operation not permitted"),
    errno.EEXIST: Deferred("File exists"),
    errno.ENOTDIR: Deferred("Not a directory"),
    errno.EISDIR: Deferred("Is a directory"),
    errno.ENOTEMPTY: Deferred("Directory not empty"),
    errno.ENOSPC: Deferred("No space left on device"),
    errno.EDQUOT: Deferred("Disk quota exceeded"),
    errno.EROFS: Deferred("Read-only file system"),
    errno.EFBIG: Deferred("File too large"),
    errno.ENAMETOOLONG: Deferred("File name too long"),
    errno.ELOOP: Deferred("Too many levels of symbolic links"),
    errno.EMFILE: Deferred("Too many open files"),
    errno.EIO: Deferred("Input/output error"),
    errno.EBUSY: Deferred("Device or resource busy"),
    errno.EXDEV: Deferred("Invalid cross-device link"),
    errno.EADDRINUSE: Deferred("Address already in use"),
    errno.EADDRNOTAVAIL: Deferred("Cannot assign requested address"),
}


def refusal(error: OSError) -> str:
    """Why the system refuses, in words.

    >>> refusal(OSError(errno.EROFS, "?")), refusal(OSError("a fault of its own"))
    ('Read-only file system', 'a fault of its own')
    """
    if error.errno in _REASONS:
        return tr(_REASONS[error.errno])
    return error.strerror or str(error) or type(error).__name__
