"""Property tests repeat: the same examples on every run, whatever else the machine does."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("tasting", deadline=None, derandomize=True)
settings.load_profile("tasting")
