"""What a cut may come from, and what a kitchen may call it."""

from __future__ import annotations

SPECIES = ("beef", "veal", "pork", "lamb", "poultry", "game", "fish", "other")
SPECIES_MEANT = {
    **dict.fromkeys(("chicken", "duck", "turkey", "goose", "hen", "guinea fowl"), "poultry"),
    **dict.fromkeys(("quail", "pigeon", "pheasant"), "poultry if it is farmed, game if it is wild"),
    **dict.fromkeys(("venison", "deer", "boar", "hare"), "game"),
    **dict.fromkeys(("ox", "cow", "bull", "steer"), "beef"),
    **dict.fromkeys(("pig", "ham"), "pork"),
    **dict.fromkeys(("calf",), "veal"),
    **dict.fromkeys(("sheep", "mutton", "hogget"), "lamb"),
    **dict.fromkeys(("salmon", "cod", "tuna", "trout"), "fish"),
}
