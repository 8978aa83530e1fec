"""What the files say of allergens, held against each other."""

from __future__ import annotations

from collections.abc import Iterator

from builder.data.allergens import vocabulary
from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.allergens import NONE, AllergenList, in_full
from builder.records.contained import Holder, contained, in_words, own_kinds, own_row, parts_of
from builder.records.content import Content
from builder.records.kinds import Cut
from builder.records.tree_paths import tidy_key


def check_allergens(content: Content) -> Iterator[Problem]:
    """Lists that name nothing, words that mean two things, none where something is stated."""
    if content.kitchen.allergens is not None:
        yield from _check_list(content.kitchen.allergens)
    for kind in (content.cuts, content.pantry, content.plates):
        for record in kind.values():
            yield from _check_empty(record)
            yield from _check_none(content, record)


def _check_list(chosen: AllergenList) -> Iterator[Problem]:
    if chosen.law == NONE and not chosen.own:
        hint = tr("name a law, such as eu, or write own: [milk, eggs]")
        yield Problem(chosen.law.place, tr("this lists no allergen at all"), hint)
    meant: dict[str, str] = {}
    for name, words in chosen.own.items():
        row = own_row(name)
        for word in (name, *words):
            tidy = tidy_key(word)
            known = vocabulary().meanings.get(tidy)
            other = (known[1] or known[0]) if known else meant.get(tidy, row)
            if other != row:
                hint = tr("take it out here, or list {other} by itself", other=other)
                yield Problem(
                    word.place, tr('"{word}" means {other}', word=word, other=other), hint
                )
            meant.setdefault(tidy, row)


def _check_empty(record: Holder) -> Iterator[Problem]:
    for key, stated in (("allergens", record.allergens), ("may contain", record.may_contain)):
        if stated is not None and not stated.is_known:
            yield Problem(
                stated.place,
                tr("an empty list states nothing: what is in it is not known"),
                tr("write {key}: none if somebody looked and there is none", key=key),
                Severity.WARNING,
                record.path,
                needs=(record.folder, "allergens"),
            )


def _check_none(content: Content, record: Holder) -> Iterator[Problem]:
    """None is written of what contains something by its parts, or by its species."""
    of_itself, traces = (
        stated if stated is not None and stated.none else None
        for stated in (record.allergens, record.may_contain)
    )
    if of_itself is None and traces is None:
        return
    parts = contained(content, *parts_of(content, record))
    if of_itself is not None and isinstance(record, Cut) and (own := list(own_kinds(record))):
        hint = tr("write [{in_full}]", in_full=in_full(*own[0]))
        yield Problem(of_itself.place, tr("none is written, but its species is fish"), hint)
    both = ((of_itself, parts.contains, "contains"), (traces, parts.may, "may contain"))
    for stated, found, verb in both:
        if stated is None:
            continue
        for kind, holders in list(found.items())[:1]:
            yield Problem(
                stated.place,
                tr(
                    "none is written, but {holders} {verb} {in_words}",
                    holders=holders[0].title,
                    verb=verb,
                    in_words=in_words([kind]),
                ),
                tr("take the line out: what goes in counts by itself"),
            )
