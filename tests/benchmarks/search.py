"""How long the search takes in a browser with many records: `python -m tests.benchmarks.search`.

It makes the gallery's site with invented records as long as a kitchen's, asks what people ask,
and prints the time to read the records once, and of each question until its results are shown.
"""

from __future__ import annotations

import random
import statistics
import sys
import tempfile
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


def main(count: int) -> None:
    """Print the times for so many records."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        home = gallery.write(Path(folder), Path(folder, "scripts"))
        data = search_data(records(count))
        Path(folder, "assets", "search-data.js").write_bytes(data)
        browser = driver.chromium.launch(executable_path=chromium(), args=ARGUMENTS)
        page = browser.new_page()
        page.goto(home.as_uri())
        ready, first = page.evaluate(OPENED)
        print(
            f"{count} records, {len(data) / 1e6:.1f} MB: the box is ready after {ready:.0f} ms; "
            f"a first question, asked at once, takes {first:.0f} ms"
        )
        for words in ASKED:
            print(f"  {words:24} {measured(page, words):6.1f} ms")
        browser.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
