"""What a page calls the row that a figure looks into, where a record has none such."""

from __future__ import annotations

from builder.engine.tables import in_words
from builder.language import Deferred, tr

# By the link's name among the figures; any other is the name of the table that it leads to.
LINK_WORDS = {
    "batch": Deferred("batch"),
    "benchmark": Deferred("benchmark"),
    "buffet": Deferred("buffet"),
    "challenger": Deferred("challenger"),
    "choice": Deferred("choice"),
    "course": Deferred("course"),
    "cover_item": Deferred("item of the cover"),
    "cut": Deferred("cut"),
    "equipment": Deferred("equipment"),
    "finish": Deferred("finish"),
    "further_portion": Deferred("further portion"),
    "ingredient": Deferred("ingredient"),
    "item": Deferred("pantry item"),
    "kitchen": Deferred("kitchen"),
    "like": Deferred("cook that it goes by"),
    "line": Deferred("ingredient"),
    "loaded": Deferred("load"),
    "loading": Deferred("load"),
    "main_portion": Deferred("main portion"),
    "menu": Deferred("set menu"),
    "menu_sale": Deferred("sale of a set menu"),
    "order": Deferred("order"),
    "output": Deferred("cook counted"),
    "plate": Deferred("plate"),
    "portion": Deferred("portion"),
    "raw": Deferred("piece to buy"),
    "raw_further": Deferred("further piece to buy"),
    "raw_main": Deferred("main piece to buy"),
    "recipe": Deferred("recipe"),
    "sale": Deferred("plate counted"),
    "scale": Deferred("scale"),
    "section": Deferred("section"),
    "served": Deferred("servable piece"),
    "serving": Deferred("serving"),
    "side": Deferred("side"),
    "stage": Deferred("stage"),
    "swap": Deferred("swap"),
    "test": Deferred("test"),
    "trimmed": Deferred("trim"),
    "usage": Deferred("cut counted"),
    "within": Deferred("recipe that it goes into"),
}


def no_link(link: str) -> str:
    """That a record has no row to look a figure up in, in words; the link by its name.

    >>> no_link("cover_item")
    'no item of the cover'
    """
    return tr("no {link}", link=tr(LINK_WORDS.get(link) or in_words(link)))
