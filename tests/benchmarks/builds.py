"""Build times against the floor: `python -m tests.benchmarks.builds [plates ...]`.

The floor renders and writes the same pages with the same templates from view
models that are ready: what no builder of these pages could go below. Whole
builds and floors run in turn, each in a process of its own, so that their ratio
holds when the machine's speed drifts. With `--against FOLDER`, a checkout of another
commit, its whole build runs in turn with them, too.

Where others work on the machine, seconds by the clock say little; those of computing, of
all processes of a build with their start, drift by a fifth.
"""

from __future__ import annotations

import argparse
import json
import resource
import sys
import tempfile
from collections.abc import Callable
from datetime import date
from pathlib import Path
from time import perf_counter

from builder.build import build, cache_folder, compute_content
from builder.pages.rendering import render
from builder.pages.site import frame, site_pages
from builder.pages.view import View
from tests.benchmarks import memory
from tests.benchmarks.kitchens import generate

DAY = date(2026, 10, 1)
Result = dict[str, float]


def whole(content: Path, output: Path) -> Result:
    """A build as the command line does it."""
    start = perf_counter()
    outcome = build(content, output, DAY, DAY)
    assert outcome.report is not None, outcome.problems[:3]
    return {"seconds": perf_counter() - start}


def floor(content: Path, output: Path) -> Result:
    """Only the rendering and the writing of the pages are timed; making the models is not."""
    costed, problems = compute_content(content, DAY, DAY)
    assert costed is not None
    view = View.of(costed, problems)
    site = frame(view)
    spent = {"render": 0.0, "write": 0.0, "models": 0.0, "pages": 0.0, "bytes": 0.0}
    start = perf_counter()
    for page in site_pages(view):
        made = perf_counter()
        data = render(page, site)
        rendered = perf_counter()
        target = output / page.path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
        written = perf_counter()
        spent["models"] += made - start
        spent["render"] += rendered - made
        spent["write"] += written - rendered
        spent["pages"] += 1
        spent["bytes"] += len(data)
        start = perf_counter()
    return {"seconds": spent["render"] + spent["write"], **spent}


def computed(content: Path, _: Path) -> Result:
    """Reading, checking and computing alone."""
    start = perf_counter()
    compute_content(content, DAY, DAY)
    return {"seconds": perf_counter() - start}


JOBS: dict[str, Callable[[Path, Path], Result]] = {
    "whole": whole,
    "floor": floor,
    "computed": computed,
}


def measured(job: str, content: Path, checkout: Path | None = None) -> Result:
    """Run one job in a process of its own; peak memory is that process's."""
    before = _computing()
    with tempfile.TemporaryDirectory() as output:
        command = [sys.executable, "-m", __spec__.name, "--job", job, str(content), output]
        printed, together = memory.run(command, checkout)
    result: Result = json.loads(printed)
    return {**result, "together_mb": together, "computing": _computing() - before}


def _computing() -> float:
    """Seconds of computing of all processes that were waited for."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def report(plates: int, runs: int, against: Path | None) -> None:
    """Build a kitchen of so many plates in turn with its floor, and print the medians."""
    with tempfile.TemporaryDirectory() as folder:
        content = Path(folder) / "content"
        generate(content, plates)
        taken: dict[str, list[Result]] = {job: [] for job in JOBS}
        for _ in range(runs):
            for job in JOBS:
                taken[job].append(measured(job, content))
            if against is not None:
                taken.setdefault("before", []).append(measured("whole", content, against))
    middle = {
        job: sorted(results, key=lambda r: r["seconds"])[len(results) // 2]
        for job, results in taken.items()
    }
    ratios = sorted(
        a["seconds"] / b["seconds"] for a, b in zip(taken["whole"], taken["floor"], strict=True)
    )
    if against is not None:
        _print_against(taken["whole"], taken["before"])
    low = middle["floor"]
    middling, best, worst = ratios[len(ratios) // 2], ratios[0], ratios[-1]
    size = low["bytes"] / low["pages"] / 1000
    print(
        f"{plates} plates, {low['pages']:.0f} pages of {size:.0f} kB\n"
        f"  whole build      {middle['whole']['seconds']:8.1f} s, "
        f"{middle['whole']['computing']:.1f} s of computing, "
        f"peak {middle['whole']['peak_mb']:.0f} MB in the main process, "
        f"{middle['whole']['worker_mb']:.0f} MB in a worker, "
        f"{middle['whole']['together_mb']:.0f} MB all together\n"
        f"  floor            {low['seconds']:8.1f} s "
        f"(render {low['render']:.1f}, write {low['write']:.1f})\n"
        f"  whole / floor    {middling:8.2f} ({best:.2f} to {worst:.2f})\n"
        f"  of the whole: read and compute {middle['computed']['seconds']:.1f} s, "
        f"view models {low['models']:.1f} s",
        flush=True,
    )


def _print_against(now: list[Result], before: list[Result]) -> None:
    """Times of both commits, and the median of the ratios of their pairs."""
    for what, words in (("seconds", "by the clock"), ("computing", "of computing")):
        pairs = zip(now, before, strict=True)
        ratios = sorted(one[what] / other[what] for one, other in pairs)
        seconds = sorted(result[what] for result in before)[len(before) // 2]
        print(
            f"the other commit builds it in {seconds:.1f} s {words}; "
            f"now / then {ratios[len(ratios) // 2]:.2f} ({ratios[0]:.2f} to {ratios[-1]:.2f})"
        )


def main() -> None:
    """Run the benchmark, or one job of it in this process."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("plates", type=int, nargs="*", default=[1000, 10000])
    parser.add_argument("--runs", type=int, default=1)
    parser.add_argument("--job", nargs=3, help=argparse.SUPPRESS)
    parser.add_argument("--against", type=Path, help="a checkout of another commit")
    options = parser.parse_args()
    if options.job is None:
        cache_folder().mkdir(parents=True, exist_ok=True)
        for plates in options.plates:
            report(plates, options.runs, options.against)
        return
    job, content, output = options.job
    result = JOBS[job](Path(content), Path(output) / "site")
    scale = 1e6 if sys.platform == "darwin" else 1e3
    result["peak_mb"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / scale
    result["worker_mb"] = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / scale
    print(json.dumps(result))


if __name__ == "__main__":
    main()
