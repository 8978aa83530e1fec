"""Which keys of the files whoever is granted a kind of record may read, and what else it takes."""

from __future__ import annotations

from collections.abc import Mapping

# Keys of free words, in whatever record they are; each needs notes.
REMARKS = ("note", "log", "decided")
# Keys that whoever is granted a kind of record may read, by type; the others are barred. Beside
# a key the group of figures, or the part, that has to be granted as well.
FREE = ""
_STAGE: dict[str, str] = {
    "how": FREE, "leave": FREE, "for_": "cooking", "tests": "weights", "loss": "weights",
    "gain": "weights", "yield_": "weights", "published": "weights", "parts": "weights",
    "give_or_take": "weights",
}  # fmt: skip
_CUT_CHAIN = dict.fromkeys(("purge", "trim", "portion_cut"), "weights")
_COOK_CHAIN = dict.fromkeys(("cure", "finish", "rest", "carve", "hold"), "weights")
_ALLERGENS = dict.fromkeys(("allergens", "may_contain"), "allergens")
KEYS: Mapping[str, Mapping[str, str]] = {
    "Kitchen": {  # what holds for every page
        **dict.fromkeys(
            ("name", "about", "currency", "locale", "units", "as_of", "time_zone", "authority",
             "sections", "equipment"), FREE),
        "cover_cost": "plates", "garnish": "prices",
        "allergens": "allergens", "portions": "weights", "covers": "work", "staffed": "work",
        "room": "cooking", "fill_water": "cooking", "running_hours": "cooking",
    },
    "Equipment": {
        "title": FREE, "kind": FREE,
        **dict.fromkeys(
            ("how_many", "volume", "holds", "cover", "covered", "measured_standby", "fuel",
             "turn_round", "pans"), "cooking"),
        "cleaning": "work", "price": "prices", "charge": "prices",
    },
    "AllergenList": {"law": FREE, "own": FREE},
    "Cut": {
        **dict.fromkeys(("name", "imps", "species", "muscle"), FREE), "supplier": "suppliers",
        "price": "prices", "each": "weights", "slices": "weights", **_CUT_CHAIN, **_ALLERGENS,
    },
    "Cook": {
        **_STAGE, **_CUT_CHAIN, **_COOK_CHAIN, **dict.fromkeys(("name", "cut", "equipment"), FREE),
        **dict.fromkeys(
            ("at", "core", "form", "counts_as", "seared", "sealed", "piece", "energy",
             "gas", "hold_at", "hold_source", "cool", "store", "reheat"), "cooking"),
        "load": "weights", "slices": "weights", "hands_on": "work", "consumables": "prices",
        "remainder": "prices", "steps": "steps",
    },
    "PantryItem": {
        "name": FREE, "supplier": "suppliers", "price": "prices", "of": FREE,
        **dict.fromkeys(("makes", "yield_", "each", "litre", "quart"), "weights"),
        **dict.fromkeys(("energy", "fuel", "store"), "cooking"), "hands_on": "work",
        **_ALLERGENS, "steps": "steps",
    },
    "Plate": {
        **dict.fromkeys(("name", "menu", "cook", "cut", "with_", "portions"), FREE),
        "portion": "weights", "price": "menu prices", "hands_on": "work", "sold": "sales",
        "forecast": "sales", "weighed_portions": "weights", **_ALLERGENS,
        "seasoning": "weights", "garnish": "prices", "cover_cost": "prices", "steps": "steps",
        "evidence": "tastings",
    },
    "SetMenu": {
        **dict.fromkeys(("name", "plates", "courses"), FREE), "price": "menu prices",
        "guests": "sales", "cover_cost": "prices",
    },
    "Choice": {"share": "work", "supplement": "menu prices"},
    "Buffet": {
        **dict.fromkeys(("name", "cooks", "items"), FREE), "price": "menu prices",
        "left": "weights", "left_worth": "prices", "sells": "sales", "guests": "sales",
        "give_or_take": "weights",
    },
    "Cover": {"money": "prices", "of": FREE, "on": FREE},
    "Step": {
        **dict.fromkeys(("what", "amounts", "caution", "picture"), FREE),
        "for_": "cooking", "at": "cooking",
    },
    "Picture": {"file": FREE, "shows": FREE},
    "Portion": {"cook": FREE, "cut": FREE, "portion": "weights"},
    "Tasting": {
        **dict.fromkeys(
            ("name", "test", "question", "date", "serve_at", "samples", "benchmark", "tasters",
             "attributes", "asks", "expected", "margin", "can_tell", "alpha", "beta",
             "off_texture", "log_time", "seed", "codes", "most_samples", "portion", "spare",
             "warm_up", "palate_break", "scales"), FREE),
        **dict.fromkeys(("scores", "ranks", "answers", "correct"), "tasting answers"),
    },
    "Sample": {"cook": FREE, "plate": FREE},
    "Attribute": dict.fromkeys(("scale", "words", "half_points", "best", "margin"), FREE),
    "Swap": {
        **dict.fromkeys(("name", "benchmark", "challengers"), FREE), "tasting": "tastings",
        "forecast": "sales", "buys": "margins",
    },
    "Decision": {
        **dict.fromkeys(("date", "who", "why", "plate", "taken"), FREE),
        "margin_change": "margins", "food_saved": "food cost", "forecast": "sales",
    },
    "Count": {
        **dict.fromkeys(("name", "date", "from_", "to", "plates", "cuts", "cooks"), FREE),
        "menus": "sales",
    },
    "CountedPlate": {"sold": "sales", "weighed_portions": "weights"},
    "CountedCut": {
        **dict.fromkeys(("used", "opening", "bought", "closing", "thrown"), "weights"),
        "paid": "prices",
    },
    "CountedCook": dict.fromkeys(("used", "made", "opening", "left", "thrown"), "weights"),
    "Service": {**dict.fromkeys(("name", "day", "at", "plates", "steps"), FREE), "menus": "work",
        "on_hand": "weights", "besides": "weights",
    },
    "LogEntry": dict.fromkeys(("date", "who", "what", "why"), FREE),
    "Serving": {"covers": "work", "ahead": "cooking"},
    "StaffStep": {"what": FREE, "for_": FREE},
    "Stage": _STAGE,
    "StageTolerance": {"loss": FREE},
    "CookTolerance": {"loss": FREE, "hands_on": "work", "energy": "cooking"},
    "WeighingTest": {
        "date": FREE, "in_": FREE, "out": FREE, "parts": FREE, "loss": FREE,
    },
    "WeighedPart": {"weight": FREE, "worth": "prices"},
    "StatedPart": {"share": FREE, "worth": "prices"},
    "PublishedYield": {"table": FREE, "yield_": FREE, "source": FREE},
    "Piece": dict.fromkeys(
        ("shape", "shape_factor", "thickness", "spread", "starts_at", "weight"), FREE),
    "Cooling": {"to": FREE, "within": FREE, "in_": FREE},
    "Reheating": {"at": FREE, "for_": FREE, "in_": FREE},
    "Storing": {"at": FREE, "for_": FREE, "source": FREE},
}  # fmt: skip
# Amounts in a mapping whose names are free.
AMOUNTS = dict.fromkeys(
    (
        ("PantryItem", "of"), ("Plate", "with_"), ("Cover", "of"), ("Step", "amounts"),
        ("Buffet", "cooks"), ("Buffet", "items"),
    ),
    "weights",
)  # fmt: skip
# Values of which all may see that they are there, and what they measure: they say what is on a
# plate, or how something is sold.
THERE = frozenset(
    (
        ("Kitchen", "garnish"), ("Plate", "garnish"), ("Plate", "seasoning"),
        ("Plate", "cover_cost"), ("SetMenu", "cover_cost"), ("Buffet", "price"),
    )
)  # fmt: skip
# What claims nothing where it is absent; of the rest absence would be a statement.
ABSENT: Mapping[str, object] = {
    **dict.fromkeys(("note", "decided", "evidence", "tasting", "candidate")), "log": (),
    "steps": [],
}  # fmt: skip
