"""How long the search takes in a browser with many records: `python -m tests.benchmarks.search`.

It makes the gallery's site with invented records as long as a kitchen's, asks what people ask,
and prints the time from the key that opens the box until it takes a question and until the first
results are shown, in fresh browsers (cold) and in the same one (warm), and of each question until
its results are shown. What a plain loop of the same browser takes is beside it: on a machine that
has other work, all of them take longer alike.
"""

from __future__ import annotations

import random
import statistics
import sys
import tempfile
import time
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from builder.data.synonyms import groups
from builder.pages.rendering import search_data
from tests.browser import ARGUMENTS, chromium
from tests.pages import gallery

KINDS = ("plate", "cook", "cut", "pantry item", "swap", "method")
ASKED = ("b", "be", "beef", "beef shank", "brisquet", "tenderlion muschrooms", "over target",
         "sous vide short rib", "mlik", "gluten free", "12345", "nothing like it")  # fmt: skip
RUNS = 5
# From the key to the results in the page, the layout included.
ONE = """(words) => {
    const input = document.getElementById("search-input");
    const start = performance.now();
    input.value = words;
    input.dispatchEvent(new Event("input"));
    document.querySelector("dialog").getBoundingClientRect();
    return performance.now() - start;
}"""
# Twenty million steps of plain arithmetic.
LOOP = """() => {
    const start = performance.now();
    let sum = 0;
    for (let n = 0; n < 2e7; n++) sum = (Math.imul(sum, 31) + n) | 0;
    return performance.now() - start + (sum === 1 ? 1 : 0);
}"""
# From the key that opens the box until it takes questions, and the first of them.
OPENED = """() => new Promise((done) => {
    const start = performance.now();
    const look = new MutationObserver(() => {
        const status = document.querySelector("dialog [role=status]");
        if (!status || status.textContent) return;
        look.disconnect();
        const ready = performance.now() - start;
        const input = document.getElementById("search-input");
        input.value = "beef";
        input.dispatchEvent(new Event("input"));
        document.querySelector("dialog").getBoundingClientRect();
        done([ready, performance.now() - start - ready]);
    });
    document.body.dispatchEvent(new KeyboardEvent("keydown", { key: "/", bubbles: true }));
    look.observe(document.querySelector("dialog"), { childList: true, subtree: true });
})"""


def records(count: int) -> list[tuple[str, str, str, str]]:
    """Records of a title of some four words and thirty more to be found by."""
    dice = random.Random(count)
    words = [word for group in groups() for word in group]
    made = ["beef", "with", "sauce", "mushrooms", *(f"supplier{n}" for n in range(count // 50))]

    def some(least: int, most: int) -> str:
        return " ".join(dice.choices(words + made, k=dice.randint(least, most)))

    return [
        (f"{some(2, 4)} {n}", KINDS[n % len(KINDS)], f"plates/p-{n}.html", some(12, 24))
        for n in range(count)
    ]


def measured(page: Page, words: str) -> float:
    """The middle of some runs, in milliseconds; the first of them warms the engine."""
    return statistics.median(float(page.evaluate(ONE, words)) for _ in range(RUNS))


def opened(page: Page, home: str, what: str) -> None:
    """Print how long a page takes from the key to its first results, beside a plain loop."""
    page.goto(home)
    loop = statistics.median(float(page.evaluate(LOOP)) for _ in range(RUNS))
    ready, first = page.evaluate(OPENED)
    print(
        f"{what}: ready after {ready:.0f} ms, first results {first:.0f} ms later, together "
        f"{(ready + first) / loop:.1f} times a plain loop of {loop:.0f} ms"
    )


def main(count: int) -> None:
    """Print the times for so many records."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        home = gallery.write(Path(folder), Path(folder, "scripts")).as_uri()
        start = time.perf_counter()
        data = search_data(records(count))
        made = time.perf_counter() - start
        Path(folder, "assets", "search-data.js").write_bytes(data)
        print(f"{count} records, {len(data) / 1e6:.1f} MB, made in {made:.1f} s")
        for _ in range(RUNS):
            with driver.chromium.launch(executable_path=chromium(), args=ARGUMENTS) as browser:
                page = browser.new_page()
                opened(page, home, "cold")
                opened(page, home, "warm")
        with driver.chromium.launch(executable_path=chromium(), args=ARGUMENTS) as browser:
            page = browser.new_page()
            opened(page, home, "cold")
            for words in ASKED:
                print(f"  {words:24} {measured(page, words):6.1f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
