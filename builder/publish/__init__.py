"""Putting a site on the disk: whole, or not at all.

What is guaranteed
- The same pages give the same bytes: no clock, no random name, no machine path in what is left.
- A build stages the complete new site in a work folder beside the output, then swaps. Killed at
  any point (kill -9 included), it leaves the old site whole or the new site whole, wherever the
  file system can exchange two names in one step (Linux: ext4, XFS, Btrfs, tmpfs and most others;
  macOS: APFS). A failed build - an exception, a full disk, a missing permission - leaves the old
  site. The next build, or `recover`, removes what a killed one left.
- Elsewhere the swap is two renames. A kill exactly between them leaves no output folder; `recover`
  or the next build puts the old site back.
- Where the output cannot change its name (a mount point, a parent folder without write
  permission) the new site is staged inside it and moved in file by file: every file is whole at
  any time, but a kill during the moves leaves a mixture until `recover` or the next build
  completes the new site. `Report.swap` says which of the three it was.
- Freshness is by content, never by date: each page is compared with what the output really holds,
  so a page that was edited or deleted by hand comes back. Nothing to change, nothing touched.
- Only files that our own manifest lists are deleted. A folder with files and no manifest is
  refused (a lone `.gitkeep` is not). Files that others put into a published folder stay, under the
  same inode where the file system has hard links; a page that would need their place is refused.
  Should one arrive in the instant of the swap under the name of a new page, it gets ".kept" added.
- No symbolic link is followed below the output. The output itself may not be one.
- No path is written twice, leaves the output, or depends on the case of a letter.
- One build at a time: the second one is refused at once.

Power cuts: with `durable` (the default) the staged site is flushed to the disk as a whole before
the swap (syncfs on Linux, sync elsewhere on POSIX, nothing on Windows), and a journalling file
system keeps the swap before the removal of the old site. No file is flushed on its own.

Not covered: another program that changes the output while we publish, beyond what is said above.
"""

from builder.publish.links import (
    BrokenLink,
    LinkCheck,
    OpenLinks,
    Scan,
    broken_links,
    check_scans,
    open_links,
    scan_page,
)
from builder.publish.manifest import MANIFEST, Manifest, read_manifest
from builder.publish.site import Known, Page, Report, Swap, publish, recover

__all__ = [
    "MANIFEST",
    "BrokenLink",
    "Known",
    "LinkCheck",
    "Manifest",
    "OpenLinks",
    "Page",
    "Report",
    "Scan",
    "Swap",
    "broken_links",
    "check_scans",
    "open_links",
    "publish",
    "read_manifest",
    "recover",
    "scan_page",
]
