"""The published examples as the files that a kitchen would write.

Weights, prices and portions are the sources' own (see values.csv for who they
are). A menu price is not part of any yield test and stands in as 20.00.
"""

from __future__ import annotations

from collections.abc import Mapping

Files = Mapping[str, str]


def kitchen(more: str = "", currency: str = "USD") -> Files:
    """A kitchen.yaml with nothing in it but what must be."""
    return {"kitchen.yaml": f"name: Published example\ncurrency: {currency}\n{more}"}


def plate(cook: str, portion: str) -> str:
    return f"menu: mains\ncook: {cook}\nportion: {portion}\nprice: 20.00\n"


def bare_cook(cut: str, load: str) -> str:
    """A cook that changes nothing: the yield of the trimming alone is looked at."""
    return f"cut: {cut}\nhow: as bought\nyield: 100 %\nload: {load}\n"


def trimmed(price: str, test: str, species: str = "beef") -> str:
    """A cut with one trimming test."""
    return (
        f"species: {species}\nprice: {price}\ntrim:\n  tests:\n    - {{date: 2026-09-01, {test}}}\n"
    )


RIB_PARTS = (
    "in: 38 lb 12 oz, out: 22 lb, loss: 4 oz, parts: {fat: [6 lb 8 oz, 0/lb], "
    "bones: [4 lb 4 oz, 0.32/lb], short ribs: [3 lb 4 oz, 1.49/lb], "
    "chopped beef: [2 lb 8 oz, 1.59/lb]}"
)


def rib(price: str) -> Files:
    """A rib of beef, boned raw, then roasted and carved."""
    return {
        **kitchen(),
        "cuts/rib.yaml": trimmed(price, RIB_PARTS),
        "cooks/raw.yaml": bare_cook("rib", "22 lb"),
        "cooks/roast.yaml": """\
cut: rib
how: oven
tests:
  - {date: 2026-09-01, in: 22 lb, out: 20 lb 4 oz}
carve:
  tests:
    - date: 2026-09-01
      in: 20 lb 4 oz
      out: 19 lb
      parts: {bones and trim: [1 lb 4 oz, 0/lb]}
      loss: 0 oz
""",
        "plates/raw.yaml": plate("raw", "10 oz"),
        "plates/roast.yaml": plate("roast", "10 oz"),
    }


def lamb_loin(servable: str) -> Files:
    """A lamb loin, trimmed and cooked; the source's own servable weight does not balance."""
    test = (
        "in: 12 lb, out: 6 lb, loss: 8 oz, parts: "
        "{fat: [3 lb, 0/lb], kidneys: [1 lb, 6.10/lb], flanks: [1 lb 8 oz, 4.60/lb]}"
    )
    return {
        **kitchen(),
        "cuts/loin.yaml": trimmed("6.65/lb", test, "lamb"),
        "cooks/raw.yaml": bare_cook("loin", "6 lb"),
        "cooks/roast.yaml": f"""\
cut: loin
how: oven
tests:
  - {{date: 2026-09-01, in: 6 lb, out: 5 lb 8 oz}}
carve:
  tests:
    - {{date: 2026-09-01, in: 5 lb 8 oz, out: {servable}, parts: {{bones: [1 lb 0 oz, 0/lb]}}}}
""",
        "plates/raw.yaml": plate("raw", "5 oz"),
        "plates/roast.yaml": plate("roast", "5 oz"),
    }


def rib_103() -> Files:
    test = (
        "in: 28 lb, out: 16 lb, parts: "
        "{fat: [3 lb, 0.10/lb], bone: [4 lb, 0.30/lb], usable trim: [5 lb, 1.30/lb]}"
    )
    return {
        **kitchen(),
        "cuts/rib-103.yaml": trimmed("1.30/lb", test),
        "cooks/rib-109.yaml": bare_cook("rib-103", "16 lb"),
    }


def yields_and_factors() -> Files:
    """Three yields from two weighings each, and a leg of lamb with its yield stated."""
    return {
        **kitchen(currency="CAD"),
        "cuts/tenderloin.yaml": trimmed(
            "30.00/kg", "in: 2.5 kg, out: 1.75 kg, parts: {trimmings: [750 g, 0/kg]}"
        ),
        "cuts/sockeye.yaml": trimmed("20.00/kg", "in: 7.75 kg, out: 5.0 kg", "fish"),
        "cuts/tuna.yaml": trimmed("10.00/kg", "in: 750 g, out: 400 g", "fish"),
        "cuts/leg-of-lamb.yaml": "species: lamb\nprice: 16.00/kg\ntrim: {yield: 42.648 %}\n",
        "cooks/tenderloin.yaml": bare_cook("tenderloin", "1.75 kg"),
        "cooks/sockeye.yaml": bare_cook("sockeye", "5 kg"),
        "cooks/tuna.yaml": bare_cook("tuna", "400 g"),
        "cooks/leg-of-lamb.yaml": bare_cook("leg-of-lamb", "3 kg"),
        "plates/leg-of-lamb.yaml": plate("leg-of-lamb", "125 g"),
    }


def pork_loin() -> Files:
    return {
        **kitchen("covers: [27]\n"),
        "cuts/pork-loin.yaml": trimmed(
            "1.37/lb", "in: 15 lb 11 oz, out: 13 lb 7 oz, parts: {bones: 2 lb 4 oz}", "pork"
        ),
        "cooks/roast-loin.yaml": """\
cut: pork-loin
how: oven
load: 13 lb 7 oz
piece: {weight: 13 lb 7 oz}
loss: 18 %
carve:
  tests:
    - {date: 2026-09-01, in: 176.3 oz, out: 167.3 oz, loss: 9 oz}
""",
        "plates/roast-loin.yaml": plate("roast-loin", "6 oz"),
    }


def ribeye_with_labour() -> Files:
    """1.00 of labour for each lb as purchased: half an hour at 20.00 on 10 lb."""
    sizes = {"pound": "1 lb", "six": "6 oz", "eight": "8 oz", "fourteen": "14 oz"}
    return {
        **kitchen("portions: by weight\nloaded wage: 20.00/h\n"),
        "cuts/ribeye.yaml": trimmed("4.50/lb", "in: 10 lb, out: 6 lb, loss: 4 lb"),
        "cooks/ribeye.yaml": bare_cook("ribeye", "6 lb") + "hands-on: 30 min\n",
        **{f"plates/{name}.yaml": plate("ribeye", size) for name, size in sizes.items()},
    }


def striploin() -> Files:
    """The batch is the very weight that 85 portions take, so the formula can be turned round."""
    return {
        **kitchen("covers: [85]\nportions: by weight\n", "GBP"),
        "cuts/striploin.yaml": trimmed("11.95/kg", "in: 5.2 kg, out: 4.6 kg"),
        "cooks/striploin.yaml": bare_cook("striploin", "14.45 kg"),
        "plates/striploin.yaml": plate("striploin", "170 g"),
    }


def joint(name: str, price: str, cook: tuple[str, str], carve: tuple[str, str, str]) -> Files:
    """A joint cooked as bought and then freed of bone and waste; old pence stand as the number."""
    raw, cooked = cook
    into, eatable, waste = carve
    return {
        f"cuts/{name}.yaml": f"species: beef\nprice: {price}/lb\n",
        f"cooks/{name}.yaml": f"""\
cut: {name}
how: as the book has it
tests:
  - {{date: 2026-09-01, in: {raw}, out: {cooked}}}
carve:
  tests:
    - date: 2026-09-01
      in: {into}
      out: {eatable}
      parts: {{bone and waste: {waste}}}
      loss: 0 oz
""",
    }


def household_joints() -> Files:
    return {
        **kitchen(currency="GBP"),
        **joint(
            "brisket", "5.5", ("4 lb 13 oz", "3 lb 9 oz"), ("3 lb 9 oz", "2 lb 13 oz", "12 oz")
        ),
        **joint(
            "silverside", "9", ("6 lb 5 oz", "5 lb 13 oz"), ("5 lb 13 oz", "5 lb 2 oz", "11 oz")
        ),
        **joint("fore-ribs", "11", ("7 lb 8 oz", "6 lb 4 oz"), ("6 lb 4 oz", "4 lb 4 oz", "2 lb")),
        **joint(
            "rump-steak", "14", ("1 lb 8 oz", "1 lb 7.5 oz"), ("1 lb 7.5 oz", "1 lb 7.5 oz", "0 oz")
        ),
        **joint(
            "middle-ribs",
            "9",
            ("8 lb 4 oz", "6 lb 14 oz"),
            ("6 lb 14 oz", "4 lb 13 oz", "2 lb 1 oz"),
        ),
    }


# Count, cost, price. Of the last three the source prints only the mix and the margin, or only
# their part in the totals: their costs are ours, chosen so that every printed total holds.
ENTREES = {
    "strip-steak": (73, "6.50", "18.90"),
    "fried-chicken": (90, "3.90", "12.75"),
    "lamb-chops": (55, "7.00", "20.35"),
    "scallops": (92, "5.90", "18.50"),
    "haddock": (85, "4.50", "15.65"),
    "turkey": (92, "5.00", "14.00"),
    "shrimp": (77, "6.10", "17.90"),
    "eighth-entree": (65, "4.38", "16.63"),
}


def entree(name: str, cost: str, price: str, more: str = "") -> Files:
    """A plate whose food cost is printed as one figure."""
    return {
        f"pantry/{name}.yaml": f"price: {cost}/each\n",
        f"plates/{name}.yaml": (f"menu: entrees\nwith: {{{name}: 1 each}}\nprice: {price}\n{more}"),
    }


def menu() -> Files:
    files = dict(kitchen())
    for name, (sold, cost, price) in ENTREES.items():
        files.update(entree(name, cost, price, f"sold: {{2026-09: {sold}}}\n"))
    return files


def two_entrees() -> Files:
    return {
        **kitchen(),
        **entree("strip-steak", "7.50", "23.65"),
        **entree("fried-chicken", "5.20", "16.45"),
        "swaps/strip-for-chicken.yaml": (
            "benchmark: fried-chicken\nchallengers: [strip-steak]\nforecast: 100\n"
        ),
    }


def forequarter() -> Files:
    """The rib of a forequarter, with garnish and seasoning; a second plate has its own, ours."""
    parts = (
        "ground beef: [18 lb, 1.89/lb], stew meat: [13 lb, 2.25/lb], fat: [10 lb, 0.20/lb], "
        "briskets: [12 lb, 1.95/lb], scrap: [4 lb, 0/lb]"
    )
    test = f"in: 81 lb, out: 24 lb, parts: {{{parts}}}"
    return {
        **kitchen("portions: by weight\nseasoning: 10 %\ntargets: {food cost: 30.5 %}\n"),
        "cuts/forequarter.yaml": trimmed("4.50/lb", test),
        "cooks/rib.yaml": bare_cook("forequarter", "24 lb"),
        "plates/rib.yaml": plate("rib", "7 oz") + "garnish: 1.40\n",
        "plates/plain-rib.yaml": plate("rib", "7 oz") + "garnish: 20 %\nseasoning: 5 %\n",
    }


def steak_with_cover() -> Files:
    """A main of 6 at 18.00, with what its guest gets beside it at 1; a side bears none of it."""
    return {
        **kitchen("cover cost: {money: 1.00, on: [entrees]}\n"),
        **entree("steak", "6.00", "18.00"),
        **entree("to-go", "6.00", "18.00", "cover cost: none\n"),
        "plates/side.yaml": "menu: sides\nwith: {steak: 1 each}\nprice: 18.00\n",
    }


def fixed_price() -> Files:
    """Seven dishes of a fixed-price menu; what each costs alone stands in as its price."""
    dishes = {
        "soup": "0.78", "salad": "0.65", "chicken": "3.78", "vegetable": "0.53", "starch": "0.39",
        "roll-and-butter": "0.32", "dessert": "1.15",
    }  # fmt: skip
    files = dict(kitchen("targets: {food cost: 35 %}\n"))
    for name, cost in dishes.items():
        files.update(entree(name, cost, cost))
    plates = f"plates: [{', '.join(dishes)}]\n"
    files["menus/dinner.yaml"] = f"price: 25.00\n{plates}"
    files["menus/early.yaml"] = f"price: 20.00\n{plates}"
    return files


EXAMPLES: Mapping[str, Files] = {
    "rib of beef": rib("3.19/lb"),
    "rib of beef, cost to the cent": rib("123.61/38.75 lb"),
    "lamb loin": lamb_loin("4 lb 8 oz"),
    "rib 103": rib_103(),
    "yields and factors": yields_and_factors(),
    "pork loin": pork_loin(),
    "ribeye with labour": ribeye_with_labour(),
    "striploin": striploin(),
    "household joints": household_joints(),
    "menu of entrees": menu(),
    "two entrees": two_entrees(),
    "fixed price": fixed_price(),
    "forequarter": forequarter(),
    "steak with its cover": steak_with_cover(),
}
