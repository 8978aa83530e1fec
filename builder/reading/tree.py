"""Trees of positioned text: what a file says and where, with no type guessed.

Every scalar stays exactly as written (`12:30`, `no`, `010`, `1e3`, `~`); what it
means is decided later by the record that asks for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Self

from builder.problems import Place

Plain = str | dict[str, "Plain"] | list["Plain"]


class Text(str):
    """A scalar as written that knows its place.

    Equal to and hashed like the same `str`. The place is kept as three slots
    because a kitchen holds half a million of these and a Place each would double it.

    >>> price = Text("13.60/kg", "cuts/chuck.yaml", 3, 8)
    >>> price == "13.60/kg", str(price.place)
    (True, 'cuts/chuck.yaml:3:8')
    """

    __slots__ = ("column", "file", "line")

    file: str
    line: int
    column: int

    def __new__(cls, value: str = "", file: str = "", line: int = 0, column: int = 0) -> Self:
        """A text with its place; a text made by the program may have none."""
        self = str.__new__(cls, value)
        self.file = file
        self.line = line
        self.column = column
        return self

    def __reduce__(self) -> tuple[type[Text], tuple[str, str, int, int]]:
        """Let a pickled or copied text keep its place."""
        return type(self), (str(self), self.file, self.line, self.column)

    @property
    def place(self) -> Place:
        """Where the text begins."""
        return Place(self.file, self.line, self.column)


class Blank(Text):
    """An empty value: `price:` with nothing after it, or an empty cell.

    >>> bool(Blank("", "kitchen.yaml", 2, 7)), isinstance(Text(""), Blank)
    (False, False)
    """

    __slots__ = ()


class Branch(dict[Text, "Node"]):
    """A mapping in the order written, found by plain keys, that knows its place."""

    __slots__ = ("place",)

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place

    if TYPE_CHECKING:  # keys are Text when iterated, and found by any equal str

        def __getitem__(self, key: str, /) -> Node: ...
        def get(  # type: ignore[override]  # noqa: D102
            self, key: str, default: Node | None = None, /
        ) -> Node | None: ...

    def __reduce__(self) -> tuple[type[Branch], tuple[Place], None, None, object]:
        """Let a pickled or copied branch keep its place."""
        return Branch, (self.place,), None, None, iter(self.items())

    def key(self, name: str) -> Text:
        """The key `name` as written, with its place; KeyError if there is none."""
        for key in self:
            if key == name:
                return key
        raise KeyError(name)


class Row(list["Node"]):
    """A list in the order written that knows its place."""

    __slots__ = ("place",)

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place

    def __reduce__(self) -> tuple[type[Row], tuple[Place], None, object]:
        """Let a pickled or copied row keep its place."""
        return Row, (self.place,), None, iter(self)


Node = Text | Branch | Row


def plain(node: Node) -> Plain:
    """The same tree as ordinary dict, list and str, without places.

    >>> branch = Branch(Place("kitchen.yaml", 1, 1))
    >>> branch[Text("name")] = Text("Ferrystone")
    >>> plain(branch)
    {'name': 'Ferrystone'}
    """
    if isinstance(node, Branch):
        return {str(key): plain(value) for key, value in node.items()}
    if isinstance(node, Row):
        return [plain(value) for value in node]
    return str(node)
