"""A small kitchen with a record of every kind, for the proof of editions."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

import yaml

SMALL: Mapping[str, str] = {
    "kitchen.yaml": """
name: Ferrystone Kitchen
currency: CAD
as of: 2026-10-01
tax: 5.7 %
loaded wage: 24.7193/h
energy: 0.148371/kWh
gas: 0.0521937/kWh
targets: {food cost: 31.7 %, margin: 118.91}
weeks open: 47
covers: [20, 60]
sections: [mains, starters]
garnish: 4.31
cover cost: {of: {butter: 13 g, bread: 47 g}, on: [mains]}
authority: us-food-code-2017
log: [{date: 2026-08-21, who: YX, what: Hired the Manxome crew, why: a lilliburlero summer}]
equipment:
  bath-40: {kind: water bath, volume: 40 L, holds: 12 kg, price: 1157.39, service life: 14000}
note: Keep the word zibellino in the office.
""",
    "cuts/chuck-roll.yaml": """
name: Chuck roll
species: beef
supplier: Marrowgate Stores
purge: 1.2 %
sold as: {piece: about 9.173 kg, minimum: 18.346 kg}
log:
  - {date: 2026-09-11, who: YX, what: Changed to Tulgey trim, why: less is lost on slithy days}
  - {date: 2026-09-12, who: XY, what: Tulgey trim stays, why: the mome raths like it}
trim:
  tests:
    - {date: 2026-09-03, in: 8.42 kg, out: 7.10 kg, parts: {grind: [0.74 kg, 8.1379/kg]}}
    - {date: 2026-09-10, in: 8.10 kg, out: 6.90 kg, parts: {grind: [0.70 kg, 8.1379/kg]}}
note: "The word quincunx is for the chef. See [[menus/sunday]], [[Uncommon chowder]]."
""",
    "cuts/ribeye.yaml": "species: beef\nprice: 37.9153/kg\nallergens: none\n",
    "cooks/chuck-30h.yaml": """
cut: chuck-roll
how: water bath
at: 57 °C
for: 30 h
equipment: bath-40
hands-on: 35 min
load: 7.1 kg
piece: {thickness: 70 mm, weight: 1.8 kg}
consumables: {bags: 21.37}
remainder: 3.91573/kg
tests:
  - {date: 2026-09-05, in: 7.10 kg, out: 5.68 kg, parts: {juices: [0.92 kg, 0.617391/kg]}}
finish: {how: sear, loss: 3 %}
store: {at: 3 °C, for: 71 h, source: The Bandersnatch guide}
hold-at: 61 °C
hold: {how: hold, loss: 1 %, for: 3 h}
steps:
  - Bag it frumiously
  - {what: Sear, for: 97 s, at: 231.7 °C, amounts: {chuck-roll: 5.3 kg}, caution: The Jubjub spits}
""",
    "cooks/ribeye-grill.yaml": "cut: ribeye\nhow: grill\nload: 5 kg\nloss: 18 %\n",
    "pantry/bones.yaml": "price: 2.51937/kg\nsupplier: Ossington Bones\nallergens: none\n",
    "pantry/bread.yaml": "price: 5.71937/kg\nallergens: [wheat]\nsold as: steps of 913 g\n",
    "pantry/butter.yaml": (
        "price: 9.31759/kg\nallergens: [milk]\n"
        "sold as: {pack: case of 4.817 kg, minimum: 2 cases, deposit: 61.79}\n"
    ),
    "pantry/stock.yaml": "of: {bones: 5 kg}\nmakes: 4 L\nhands on: 20 min\n",
    "pantry/sauce.yaml": (
        "of: {stock: 2 L, butter: 100 g}\nmakes: 600 ml\nlitre: 1.07 kg\n"
        "store: {at: 4 °C, for: 50 h}\n"
        "steps: [Boil it uffishly, {what: Mount, amounts: {butter: 83 g}}]\n"
    ),
    "plates/chuck-steak.yaml": """
menu: mains
cook: chuck-30h
portion: 180 g
with: {sauce: 60 ml}
hands-on: 3 min
price: 127.37
sold: {2026-08: 4127, 2026-09: 4391}
forecast: 973
steps: [{what: Slice it brilligly, amounts: {chuck-30h: 173 g}}, {what: Sauce, for: 19 s}]
""",
    "plates/ribeye-steak.yaml": """
menu: mains
cook: ribeye-grill
portion: 200 g
price: 141.73
sold: {2026-08: 3719}
cover cost: 14.37
garnish: 3.7 %
seasoning: 1.9 %
note: See [[swaps/chuck-for-ribeye]].
""",
    "plates/broth.yaml": "menu: starters\nwith: {stock: 250 ml}\nprice: 139.17\n",
    "plates/two-cuts.yaml": """
menu: mains
portions: [{cook: chuck-30h, portion: 97 g}, {cook: ribeye-grill, portion: 89 g}]
cover cost: none
price: 151.37
""",
    "menus/sunday.yaml": """
name: The Galumph dinner
price: 163.19
guests: 317
courses:
  first: {broth: equal}
  main: {chuck-steak: {share: 37 %}, ribeye-steak: {share: 23 %, supplement: 17.93}}
""",
    "menus/combo.yaml": "name: Galumph lunch\nprice: 149.73\nplates: [chuck-steak, broth]\n",
    "buffets/counter.yaml": """
name: The Vorpal counter
price: 71.93/kg
cooks: {chuck-30h: 1.1 kg}
items: {sauce: 310 ml}
left: 7.3 %
left worth: 3.17193/kg
sells: 417 kg
""",
    "buffets/party.yaml": """
name: The Vorpal party
price: 173.91
cooks: {chuck-30h: 237 g}
guests: 613
""",
    "swaps/chuck-for-ribeye.yaml": (
        "name: Zuccotto against the ribeye\nbenchmark: ribeye-steak\nchallengers: [chuck-steak]\n"
        "tasting: held-try\n"
        "decided: {date: 2026-08-01, who: YX, why: Snickersnee earns more, margin change: 314.17,\n"
        "  food saved: 713.19, forecast: 977}\n"
    ),
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {chuck-steak: 43, ribeye-steak: 17}\n",
    "notes/opening.md": (
        "# Uncommon chowder\n\nThe Calloh list of [[chuck-roll]], [[The Vorpal counter]],\n"
        "[[plates/broth|the soup]] and [[notes/house/closing]]; [[swaps/chuck-for-ribeye]] led.\n"
        "\n| Callay | [[ribeye-steak\\|steak]] |\n| --- | ---: |\n| first | 17:41 |\n"
    ),
    "notes/house/closing.md": (
        "---\ntitle: Frabjous closing\n---\n\nBeamish words on [[sauce]]. [[notes/opening]].\n"
    ),
    "tastings/blind-try.yaml": """
name: Periwinkle panel
test: scores
date: 2026-11-20
seed: nobody guesses these words
samples: {chuck: chuck-30h, ribeye: {plate: ribeye-steak}}
benchmark: ribeye
tasters: 3
attributes: {tenderness: 9-point}
margin: 10 %
""",
    "tastings/held-try.yaml": """
name: Oubliette panel
test: scores
date: 2026-09-20
samples: {chuck: chuck-30h, ribeye: {plate: ribeye-steak}}
benchmark: ribeye
tasters: [Q71, Q72, Q73]
attributes: {tenderness: 9-point}
margin: 10 %
scores:
  Q71: {chuck: 6, ribeye: 7}
  Q72: {chuck: 7, ribeye: 7}
  Q73: {chuck: 5, ribeye: 7}
""",
    "counts/week-39.yaml": """
name: Jabberwock week
from: 2026-09-21
to: 2026-09-27
plates: {chuck-steak: {sold: 1013, weighed portions: [181.7 g, 179.3 g]}, ribeye-steak: 613}
cuts: {chuck-roll: {opening: 9.4 kg, bought: 374.8 kg, paid: 5193.17, closing: 11.2 kg}}
cooks: {chuck-30h: {used: 261.73 kg, made: 211.19 kg, left: 1.37 kg, thrown: {gimbled: 2.83 kg}}}
""",
    "sales/2026-09.csv": (
        "date,plate,count,price\n"
        "2026-09-02,chuck-steak,2011,126.13\n"
        "2026-09-15,broth,3313,138.71\n"
        "2026-09-16,ribeye-steak,2917,141.73\n"
        "2026-09-28,chuck-steak,2380,127.37\n"
    ),
    "prices/marrowgate.csv": (
        "date,item,price,supplier\n"
        "2026-08-03,chuck-roll,13.6193/kg,Marrowgate Stores\n"
        "2026-09-07,chuck-roll,14.1937/kg,Marrowgate Stores\n"
    ),
}
"""A kitchen with a record of every kind, its amounts odd and its words found nowhere else."""


# What a kitchen may have or not; a file by its name alone, a key with its file.
OPTIONAL: tuple[tuple[str, str], ...] = (
    *((name, "") for name in SMALL if name.startswith(("menus/", "buffets/", "plates/two-cuts"))),
    *(("kitchen.yaml", key) for key in ("garnish", "cover cost", "loaded wage", "energy",
                                        "targets", "covers", "authority", "tax")),
    *(("cooks/chuck-30h.yaml", key) for key in ("hands-on", "piece", "consumables", "remainder",
                                                "finish", "store", "steps")),
    *(("pantry/sauce.yaml", key) for key in ("store", "steps")), ("pantry/bread.yaml", "allergens"),
    *(("plates/chuck-steak.yaml", key) for key in ("hands-on", "sold", "forecast", "steps")),
    *(("plates/ribeye-steak.yaml", key) for key in ("cover cost", "garnish", "seasoning", "sold")),
    *(("buffets/counter.yaml", key) for key in ("left", "left worth", "sells", "items")),
    *(("cuts/chuck-roll.yaml", key) for key in ("sold as", "log")), ("notes/opening.md", ""),
    ("pantry/butter.yaml", "sold as"), ("pantry/bread.yaml", "sold as"),
    ("sales/2026-09.csv", ""), ("buffets/party.yaml", "guests"), ("menus/sunday.yaml", "guests"),
)  # fmt: skip


def without(
    left_out: Collection[tuple[str, str]], *, customary: bool, files: Mapping[str, str] = SMALL
) -> Mapping[str, str]:
    """The small kitchen, or one like it, without some of what is optional, in either system."""
    files = {name: text for name, text in files.items() if (name, "") not in left_out}
    for name, key in left_out:
        if key and name in files:
            tree = yaml.load(files[name], Loader=yaml.BaseLoader)
            tree.pop(key, None)
            files[name] = yaml.safe_dump(tree, allow_unicode=True, sort_keys=False)
    units = "units: US customary\n" if customary else ""
    return {**files, "kitchen.yaml": files["kitchen.yaml"] + units}


def written(files: Mapping[str, str], root: Path) -> Path:
    """Write a kitchen's files."""
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return root
