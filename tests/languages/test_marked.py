"""A site in a language that marks every text: nothing of the builder's own stays English.

Each template is written between ⟦ and ⟧. What a page shows outside of them is what the kitchen
wrote itself, a number with its unit, or one of the few words below.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Mapping
from html.parser import HTMLParser
from pathlib import Path

import pytest
import yaml
from babel.dates import get_day_names, get_month_names

from builder import language
from builder.build import build
from builder.language import Catalogue
from tests.catalogue import collected
from tests.golden import HERE, NO_DAY

# Any other language than the source's will do: its catalogue is not read.
# No page of another test is in it: templates are kept by language.
OTHER = "it"
CONTENT = HERE / "customary" / "content"
START, END = "⟦", "⟧"
# A label that a docstring sets apart is looked for at the start of its text.
_LABEL = re.compile(
    r"^((?:Formula|Parameters|Returns|Valid range|Errors|Departs from the source|Departure|Draws)"
    r":\s)"
)
SAID = ("aria-label", "title", "alt", "placeholder", "data-label")
# Pages of what files may hold (keys, spellings, examples) and of licences' texts.
# Of a source a page shows its status apart, cut out of its text.
NOT_READ = ("writing/", "writing.html", "notices.html", "sources.html")
NOT_SHOWN = ("script", "style", "pre", "code")
# Units and currencies.
UNITS = {"kg", "lb", "oz", "each", "min", "kWh", "USD", "gal", "qt", "fl", "cup", "lb²"}
# Titles of what was published and ways to write a unit, the same in every language.
PUBLICATION = re.compile(r"\b(?:19|20)\d\d\b|^(?:NIST|SI) ")
UNIT_WORDS = {"each, dozen, case of 12", "ratio"}
# Names of publications and of the code's own parts; both are the same in every language.
NAMES = {"US", "USDA", "FDA", "Food", "Code", "model", "and", "later", "builder", "NAMP", "IMPS"}
# Days and months come from Babel, in the kitchen's locale or in the language of the pages.
CALENDAR = {
    word
    for locale in (OTHER, "en_US")
    for names in (get_day_names, get_month_names)
    for width in ("wide", "abbreviated")
    for name in names(width, locale=locale).values()
    for word in re.findall(r"\w+", str(name))
}
# Parts of the code, ids of rule sets, files of data: names that programs read.
CODE = re.compile(r"\s*(?:builder(?:\.\w+)+|[a-z]{2}-[\w-]+(?:\.\d[\w-]*)?|datapackage\.json)\s*")
# Columns of the tables that are given out, on the page that lists them.
COLUMN = re.compile(r"\s*[a-z]\w*\s*")
FILE = re.compile(r"[\w./-]+\.(?:yaml|csv|md)\b[:\d]*")
WORD = re.compile(r"[^\W\d_]{3,}")


class _Marked(Mapping[str, tuple[str, ...]]):
    """A catalogue of everything, in which every template is between marks; keeps what is asked."""

    def __init__(self) -> None:
        self.asked: set[str] = set()

    def __contains__(self, template: object) -> bool:
        return True

    def __getitem__(self, template: str) -> tuple[str, ...]:
        self.asked.add(str(template))
        return (_marked(template),)

    def get(self, one: str, default: object = None) -> tuple[str, ...]:
        self.asked.add(str(one))
        forms = default if isinstance(default, tuple) else (one,)
        return tuple(_marked(form) for form in forms)

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 1


def _marked(template: str) -> str:
    if not template:
        return ""
    label = _LABEL.match(template)
    head = label[1] if label else ""
    return f"{head}{START}{template[len(head) :]}{END}"


class _Page(HTMLParser):
    """A page's tags with their attributes, and what its readers see outside of any mark."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, tuple[tuple[str, str | None], ...]]] = []
        self.outside: list[str] = []
        self._depth = 0
        self._hidden = 0
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        kept = tuple((name, value) for name, value in attrs if name not in _FREE)
        self.tags.append((tag, kept))
        self.outside += [_outside(value or "", 0)[0] for name, value in attrs if name in SAID]
        self._hidden += tag in NOT_SHOWN

    def handle_endtag(self, tag: str) -> None:
        self._hidden -= tag in NOT_SHOWN

    def handle_data(self, data: str) -> None:
        found, self._depth = _outside(data, self._depth)
        if not self._hidden:
            self.outside.append(found)


# Words for filters and the values that columns are sorted by follow the language.
_FREE = {*SAID, "content", "data-text", "data-filter", "data-s", "lang"}


def _outside(text: str, depth: int) -> tuple[str, int]:
    """What of a text is outside of marks, and how many are open after it."""
    kept = []
    for part in re.split(f"([{START}{END}])", text):
        if part in (START, END):
            depth += 1 if part == START else -1
        elif depth <= 0:
            kept.append(part)
    return " ".join(kept), depth


def _own_words(content: Path) -> re.Pattern[str]:
    """Whatever a kitchen's own files hold, the longest first."""
    found: set[str] = set()
    for path in content.rglob("*"):
        found.add(re.sub(r"[-_]", " ", path.stem))
        if path.suffix == ".yaml":
            found.update(_scalars(yaml.load(path.read_text("utf-8"), yaml.BaseLoader)))
        elif path.suffix == ".csv":
            found.update(cell for row in csv.reader(path.open(encoding="utf-8")) for cell in row)
        elif path.suffix == ".md":
            found.update(re.split(r"[\n*`\[\]|#>]+", path.read_text("utf-8")))
    return _any_of(word.strip() for word in found if len(word.strip()) > 2)


def _any_of(words: Iterable[str]) -> re.Pattern[str]:
    longest_first = sorted(set(words), key=len, reverse=True)
    return re.compile("|".join(map(re.escape, longest_first)), re.IGNORECASE)


def _scalars(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        for key, item in value.items():
            yield str(key)
            yield from _scalars(item)
    elif isinstance(value, list):
        for item in value:
            yield from _scalars(item)
    elif value is not None:
        yield str(value)


# The page of a French site has its space before a sign in the kitchen's own lines too.
SIGN_SPACE = re.compile("[\u00a0\u202f](?=[:;!?])")


def _site(output: Path) -> dict[str, _Page]:
    outcome = build(CONTENT, output, None, NO_DAY)
    assert outcome.report is not None
    pages = sorted(output.rglob("*.html"))
    return {str(page.relative_to(output)): _Page(page.read_text("utf-8")) for page in pages}


Sites = tuple[dict[str, _Page], dict[str, _Page], set[str]]


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> Sites:
    """The site in English, the marked one, and the templates that its build asked for."""
    english = _site(tmp_path_factory.mktemp("english") / "site")
    with pytest.MonkeyPatch.context() as patch:
        texts = _Marked()
        catalogue = Catalogue(OTHER, texts)
        patch.setattr(language, "catalogue", lambda _language: catalogue)
        return english, _site(tmp_path_factory.mktemp("marked") / "site"), texts.asked


def test_a_page_is_built_alike_in_every_language(sites: Sites) -> None:
    english, marked, _ = sites
    assert english.keys() == marked.keys()
    differ = [path for path in english if english[path].tags != marked[path].tags]
    assert not differ


def test_no_text_of_the_builder_stays_english(sites: Sites) -> None:
    own = _own_words(CONTENT)
    left: dict[str, str] = {}
    for path, page in sites[1].items():
        if not path.startswith(NOT_READ):
            columns = COLUMN.fullmatch if path == "data.html" else CODE.fullmatch
            for text in (text for text in page.outside if not columns(text)):
                for word in _strange(text, own):
                    left.setdefault(f"{word}: {text.strip()[:80]}", path)
    assert not left


def test_no_sentence_of_the_builder_stays_english_on_a_page_about_files(sites: Sites) -> None:
    """These pages show keys and examples as they are written, so only sentences are looked for."""
    sentences = {text for text in _collected() if text.endswith(".") and " " in text}
    left = {
        path: text
        for path, page in sites[1].items()
        for text in page.outside
        if path.startswith("writing/") and text.strip() in sentences
    }
    assert not left


def _collected() -> set[str]:
    return {each for text in collected() for each in ([text] if isinstance(text, str) else text)}


def test_every_template_that_a_build_asks_for_is_in_the_catalogues(sites: Sites) -> None:
    """A text that no call names (put together, or a default) is never collected, so never
    translated. Texts that hold a mark are made already; keys of files are in none."""
    own = _own_words(CONTENT)
    missed = [text for text in sites[2] - _collected() if START not in text and _strange(text, own)]
    assert not [text for text in missed if not PUBLICATION.search(text) and text not in UNIT_WORDS]


def _strange(text: str, own: re.Pattern[str]) -> list[str]:
    """Words that the kitchen did not write and that no list above holds."""
    if CODE.fullmatch(text):
        return []
    as_typed = SIGN_SPACE.sub("", text)
    rest = own.sub(" ", FILE.sub(" ", as_typed))
    known = UNITS | NAMES | CALENDAR
    return [word for word in WORD.findall(rest) if word not in known]


def test_text_without_a_mark_is_found() -> None:
    page = _Page("<p>⟦Sold by ⟧<a title='Shank'>Shank</a>⟦ a <b>kilo</b>⟧ today</p>")
    assert [word for text in page.outside for word in _strange(text, _any_of(["Shank"]))] == [
        "today"
    ]
