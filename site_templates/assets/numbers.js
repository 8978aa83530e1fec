"use strict";
/* Writes values as the builder writes them: the locale's signs, the kitchen's currency and units
   come from STYLE, which the builder packs; rounding is of the shortest decimal, a half
   away from zero (the twin of rounding.py). */
globalThis.Numbers = (() => {
  const NBSP = "\u00a0";
  const MINUS = "\u2212";
  const MISSING = "\u2013";

  /* The digits of the shortest decimal that reads back as x: [digits, power of ten of the last]. */
  function decimal(x) {
    const [mantissa, exponent = "0"] = Math.abs(x).toExponential().split("e");
    const [whole, part = ""] = mantissa.split(".");
    return [BigInt(whole + part), Number(exponent) - part.length];
  }

  /* A number with so many decimals as "1234.50", no sign; `scale` moves the point. */
  function fixed(x, places, scale = 0) {
    let [digits, power] = decimal(x);
    const drop = -places - power - scale;
    if (drop > 0) digits = half(digits, 10n ** BigInt(drop));
    else digits *= 10n ** BigInt(-drop);
    const text = digits.toString().padStart(places + 1, "0");
    return places ? `${text.slice(0, -places)}.${text.slice(-places)}` : text;
  }

  function half(digits, unit) {
    const whole = digits / unit;
    const rest = 2n * (digits % unit);
    return whole + (rest >= unit ? 1n : 0n);
  }

  const sign = (x) => (x < 0 ? -1 : 1);
  const nearestWhole = (x) => sign(x) * Number(fixed(x, 0));

  /* A converted number without the digits that converting alone gives it. */
  const withoutNoise = (x) => Number(x.toPrecision(14));

  function grouped(whole, [first, later]) {
    const parts = [];
    for (let size = first; whole.length > size && size > 0; size = later) {
      parts.unshift(whole.slice(-size));
      whole = whole.slice(0, -size);
    }
    return [whole, ...parts];
  }

  function written(x, format, places, { trim = false, plus = false } = {}) {
    if (!Number.isFinite(x)) return MISSING;
    let text = fixed(x, places, format.scale);
    const nothing = !/[1-9]/.test(text);
    const below = x < 0 && !nothing ? 1 : 0;
    if (trim && places) text = text.replace(/0+$/, "").replace(/\.$/, "");
    const [whole, part] = text.split(".");
    const body = grouped(whole, format.grouping).join(format.group) + (part === undefined ? "" : format.point + part);
    return (plus && !below && !nothing ? "+" : "") + format.before[below] + body + format.after[below];
  }

  function make(style) {
    const number = (x, places = 2, how) => written(x, style.numerals, places, how);
    const percent = (x, places = 1, how) => written(x, style.percents, places, how);
    const money = (x) => written(x, style.amounts, style.places);
    const convert = (x, unit) => {
      const { up, down, zero } = style.scales[unit];
      return (x * up) / down + zero;
    };

    function rate(x, unit) {
      if (!Number.isFinite(x)) return MISSING;
      const price = withoutNoise(x * style.scales[unit].factor);
      let places = style.places;
      if (Math.abs(price) < (unit === "kWh" ? 1 : 10 ** (1 - style.places))) {
        const decimals = (fixed(price, style.places + 2).split(".")[1] ?? "").replace(/0+$/, "");
        places = Math.max(places, decimals.length);
      }
      return perUnit(written(price, style.amounts, places), unit);
    }

    const inUnit = (x, unit, places = 2, how) =>
      Number.isFinite(x) ? `${number(withoutNoise(convert(x, unit)), places, how)}${NBSP}${unit}` : MISSING;

    function sized(x, dimension) {
      if (!Number.isFinite(x)) return MISSING;
      const [, unit, places, trim] = style.steps[dimension].find(([below]) => below === null || Math.abs(x) < below);
      return inUnit(x, unit, places, { trim });
    }

    const unitName = (unit) => (unit === "each" ? say("each") : unit);
    const perUnit = (amount, unit) => (unit === "each" ? say("{amount} each", { amount }) : `${amount}/${unit}`);

    function weight(kg) {
      if (Number.isFinite(kg) && style.pounds) {
        const tenths = nearestWhole(withoutNoise(Math.abs(convert(kg, "oz"))) * 10);
        if (tenths >= 160 && tenths < 16000) return pounds(tenths, kg < 0 ? MINUS : "");
      }
      return sized(kg, "mass");
    }

    /* The most that a weight may be: never written above itself. */
    function weightDown(kg) {
      if (!Number.isFinite(kg)) return MISSING;
      let [, unit, places] = style.steps.mass.find(([below]) => below === null || Math.abs(kg) < below);
      if (unit === "lb" && Math.abs(convert(kg, unit)) < 100) [unit, places] = ["oz", 1];
      const size = 10 ** places;
      return weight(Math.floor(withoutNoise(convert(kg, unit)) * size + HAIR) / size / convert(1, unit));
    }

    function pounds(tenths, sign) {
      const rest = tenths % 160;
      const whole = `${sign}${(tenths - rest) / 160}${NBSP}lb`;
      return rest ? `${whole}${NBSP}${number(rest / 10, 1, { trim: true })}${NBSP}oz` : whole;
    }

    function duration(hours) {
      if (!Number.isFinite(hours)) return MISSING;
      const sign = hours < 0 ? MINUS : "";
      const seconds = nearestWhole(withoutNoise(Math.abs(hours) * 3600));
      const minutes = nearestWhole(withoutNoise(Math.abs(hours) * 60));
      if (seconds > 0 && seconds < 120) return `${sign}${seconds}${NBSP}s`;
      const rest = minutes % 60;
      const whole = (minutes - rest) / 60;
      const parts = whole ? [`${number(whole, 0)}${NBSP}h`] : [];
      if (whole && rest && style.minutesAlone) parts.push(String(rest).padStart(2, "0"));
      else if (rest || !whole) parts.push(`${rest}${NBSP}min`);
      return (minutes ? sign : "") + parts.join(NBSP);
    }

    /* A time [min] from a model: no finer than the model knows, and never across a limit. */
    const STEPS = [[2, 1 / 6], [20, 1], [120, 5], [240, 15], [720, 30], [Infinity, 60]];
    const HAIR = 1e-9;
    const sameSide = (x, found, limit, way) =>
      (x > limit === found > limit || way === "down") && (x < limit === found < limit || way === "up");

    function stepped(x, step, way) {
      const count = { up: () => Math.ceil(x / step - HAIR), down: () => Math.floor(x / step + HAIR), near: () => nearestWhole(x / step) }[way]();
      return step >= 1 ? count * step : count / nearestWhole(1 / step);
    }

    function rounded(x, way, limit) {
      const first = STEPS.findIndex(([upTo]) => Math.abs(x) <= upTo);
      const steps = [...STEPS.slice(0, first + 1).reverse().map(([, step]) => step), 1 / 60];
      const found = steps.map((step) => stepped(x, step, way));
      return found.find((each) => !Number.isFinite(limit) || sameSide(x, each, limit, way)) ?? x;
    }

    function estimated(hours, way, limit) {
      const found = rounded(hours * 60, way, limit * 60);
      const size = Math.abs(found);
      const words = size >= 2 && size < 120 ? `${number(found, 0)}${NBSP}min` : duration(found / 60);
      return found ? say("about {words}", { words }) : words;
    }

    const whole = (mm) => (style.pounds ? 2.54 : 1) * Math.floor(mm / (style.pounds ? 2.54 : 1) + HAIR);

    const wholePortions = (x) => number(Math.floor(x + HAIR), 0);

    function amount(x, per) {
      if (per === "kg") return weight(x);
      if (per === "L") return sized(x, "volume");
      if (per === "whole portions") return wholePortions(x);
      if (per === "portions") return number(x, Number.isInteger(x) ? 0 : 2);
      const counted = number(x, 2, { trim: true });
      return counted === number(1, 0) ? say("{counted} piece", { counted }) : say("{counted} pieces", { counted });
    }

    const chance = (x) => (x < 0.001 ? `p < ${number(0.001, 3)}` : `p = ${number(x, x >= 0.1 ? 2 : 3)}`);

    /* A rise or a fall to the whole per cent; steady up to 5 of them. */
    function changeWords(x) {
      if (Math.abs(x) < 0.055) return say("→ steady");
      const share = percent(Math.abs(x), 0);
      return x > 0 ? say("↑ up {share}", { share }) : say("↓ down {share}", { share });
    }

    /* What a test of a tasting is about: the row says in what it is counted. */
    function tested(x, of) {
      if (of === "points apart") return number(x, 1, { plus: true });
      if (of === "share") return percent(x);
      if (of === "rank sums") return number(x, Number.isInteger(x) ? 0 : 1);
      return of === "h" ? duration(x) : number(x, ["points", "ranks"].includes(of) ? 1 : 2);
    }

    /* The ends of an interval: no finer than it is wide; of decimals below 0, to tens and more. */
    function places(width, most) {
      if (!Number.isFinite(width) || width <= 0) return most;
      return Math.min(most, 1 - Number(width.toExponential(9).split("e")[1]));
    }

    const amountNear = (rounded) => (x, _, other) => {
      const found = places(Math.abs(x - other), style.places);
      return written(rounded(x, found), style.amounts, found > 0 ? style.places : 0);
    };

    const moneyNear = amountNear((x, found) => {
      const step = 10 ** -found;
      return found < 0 ? nearestWhole(x / step) * step : found > 0 ? Math.sign(x) * Number(fixed(x, found)) : x;
    });

    const moneyUp = amountNear((x, found) => {
      const size = 10 ** Math.abs(found);
      return found > 0 ? Math.ceil(x * size - HAIR) / size : Math.ceil(x / size - HAIR) * size;
    });

    const rateNear = (x, unit, other) => perUnit(moneyNear(x * style.scales[unit].factor, "", other * style.scales[unit].factor), unit);

    function asRead(x, found) {
      const step = 10 ** -found;
      return found > 0 ? Math.sign(x) * Number(fixed(x, found)) : nearestWhole(x / step) * step;
    }

    const tens = (x) => (x ? Number(Math.abs(x).toExponential().split("e")[1]) : 0);
    const finestOf = (x) => (tens(x) < 1 ? style.places : Math.min(2 - tens(x), 0));
    /* A year, a week or an hour: three figures, no finer than its interval is wide, but for its first digit. */
    const yearPlaces = (x, width) => Math.max(places(width, finestOf(x)), Math.min(-tens(x), style.places));

    function moneyAYear(x, _, other = NaN) {
      const found = yearPlaces(x, Math.abs(x - other));
      return written(asRead(x, found), style.amounts, found > 0 ? style.places : 0);
    }

    const moneyAnHour = (x, _, other = NaN) => `${moneyAYear(x, _, other)}/${unitName("h")}`;

    /* A wage at which something ends: three figures, no finer than its interval is wide. */
    function wageLimit(x, _, other = NaN) {
      const found = Math.min(places(Math.abs(x - other), style.places), 2 - tens(x));
      return perUnit(written(asRead(x, found), style.amounts, found > 0 ? style.places : 0), "h");
    }

    /* To three figures, without coins from ten up, and no finer than its interval is wide, but for
       the digits without which twelve of it would not be the year that is written beside it. */
    function moneyAMonth(x, _, other = NaN) {
      const finest = finestOf(x);
      const width = Math.abs(x - other);
      const year = yearPlaces(12 * x, 12 * width);
      const sameYear = (each) => Math.abs(asRead(12 * asRead(x, each), year) - asRead(12 * x, year)) < HAIR;
      let found = places(width, finest);
      while (Number.isFinite(width) && found < finest && !sameYear(found)) found += 1;
      return written(asRead(x, found), style.amounts, found > 0 ? style.places : 0);
    }

    function weeksNear(x, _, other) {
      const found = places(Math.abs(x - other), 1);
      const step = 10 ** -found;
      return say("{x} weeks", { x: number(found > 0 ? x : nearestWhole(x / step) * step, Math.max(found, 0)) });
    }

    const shareNear = (x, _, other) => percent(x, Math.max(places(100 * Math.abs(x - other), 1), 0));

    /* The most that a share may be: never written above itself. */
    const shareDown = (x, _, other) => {
      const found = Number.isFinite(other) ? Math.max(places(100 * Math.abs(x - other), 1), 0) : 1;
      const steps = 10 ** (2 + found);
      return percent(Math.floor(x * steps + HAIR) / steps, found);
    };

    const factorNear = (x, _, other) => number(x, Math.max(places(Math.abs(x - other), 2 - tens(x)), 0));

    function timesInTen(x) {
      const rare = (n) => {
        const of = number(n, 0);
        return x > 0.5 ? say("more than {times} times in {of}", { times: number(n - 1, 0), of }) : say("less than once in {of}", { of });
      };
      if (x >= 0.995 || x < 0.005) return rare(100);
      if (x >= 0.95 || x < 0.05) return rare(10);
      const times = nearestWhole(x * 10);
      const of = number(10, 0);
      return times === 1 ? say("once in {of}", { of }) : say("{times} times in {of}", { times: number(times, 0), of });
    }

    /* So many decimals; three figures below a power of ten, and nothing below five of 1e-10. */
    const small = (x, least, found) => (Math.abs(x) < 5e-10 ? number(0, 0) : number(x, tens(x) < least ? 2 - tens(x) : found));

    const per = (unit) => style.per[unit] ?? unit;
    const rules = {
      "money near": moneyNear,
      "money up near": moneyUp,
      "money/week near": moneyAYear,
      "money/year near": moneyAYear,
      "money/month near": moneyAMonth,
      "week near": weeksNear,
      "money/kg near": (x, _, other) => rateNear(x, style.per.kg, other),
      "money/h near": (x, _, other) => rateNear(x, "h", other),
      "money/h earned near": moneyAnHour,
      "money/h limit near": wageLimit,
      "money/unit near": (x, unit, other) => rateNear(x, per(unit), other),
      "share near": shareNear,
      "share down near": shareDown,
      "factor near": factorNear,
      "portion factor near": (x, _, other) => factorNear(convert(x, style.per.kg), "", convert(other, style.per.kg)),
      "times in 10": timesInTen,
      money,
      "money whole": (x) => written(x, style.amounts, 0),
      "money up": money,
      "money/kg": (x) => rate(x, style.per.kg),
      "money/h": (x) => rate(x, "h"),
      "money/kWh": (x) => rate(x, "kWh"),
      "money/h earned": moneyAnHour,
      "money/h limit": (x) => wageLimit(x),
      "money/week": moneyAYear,
      "money/month": moneyAMonth,
      "money/year": moneyAYear,
      share: (x) => percent(x),
      "share stated": (x) => percent(x, [1, 2].find((digits) => Math.abs(Number((100 * x).toFixed(digits)) - 100 * x) < HAIR) ?? 3),
      "share change": changeWords,
      "share down": (x) => shareDown(x),
      factor: (x) => small(x, 0, 2),
      week: (x) => say("{x} weeks", { x: number(x, 1) }),
      "°C": (x) => sized(x, "temperature"),
      mm: (x) => sized(style.pounds || x < 10 ? x : nearestWhole(x), "length"),
      "mm down": (x) => sized(whole(x), "length"),
      "h up": (x, _, limit) => estimated(x, "up", limit),
      "h down": (x, _, limit) => estimated(x, "down", limit),
      "h near": (x, _, limit) => estimated(x, "near", limit),
      kg: weight,
      "kg down": weightDown,
      L: (x) => sized(x, "volume"),
      h: duration,
      kWh: (x) => inUnit(x, "kWh"),
      kW: (x) => (Math.abs(x) < 0.9995 ? inUnit(x, "W", 0) : inUnit(x, "kW")),
      flag: (x) => (x ? say("yes") : say("no")),
      kg2: (x) => `${small(convert(convert(x, style.per.kg), style.per.kg), -4, 5)} ${style.per.kg}²`,
      count: (x) => number(x, Number.isInteger(x) ? 0 : 2),
      "count down": (x) => {
        const step = 10 ** Math.max(tens(x) - 2, 0);
        return number(Math.floor(x / step + HAIR) * step, 0);
      },
      "whole portions": wholePortions,
      plates: (x) => number(x, 0),
      portions: (x) => number(x, Number.isInteger(x) ? 0 : 1),
      "count/week": (x) => number(x, 1, { trim: true }),
      "portion factor": (x) => small(convert(x, style.per.kg), 0, 2),
      "money/unit": (x, unit) => rate(x, per(unit)),
      "h/unit": (x, unit) => {
        const amount = duration(x / convert(1, per(unit)));
        return per(unit) === "each" ? say("{amount} each", { amount }) : `${amount} / ${per(unit)}`;
      },
      unit: amount,
      chance,
      points: (x) => number(x, 1),
      tested,
    };
    /* The unit that somebody types a value in, and its size in the base unit of the rule. */
    function typed(rule, x, unit) {
      const sized = (dimension) => style.steps[dimension].find(([below]) => below === null || Math.abs(x) < below)[1];
      const amountUnit = { kg: () => sized("mass"), L: () => sized("volume"), h: () => (Math.abs(x) < 3 ? "min" : "h") }[rule === "unit" ? unit : rule]?.();
      if (amountUnit) return [amountUnit, style.scales[amountUnit].factor];
      if (rule.startsWith("share")) return ["%", 0.01];
      const by = { "money/kg": style.per.kg, "money/h": "h", "money/kWh": "kWh", "money/unit": per(unit) }[rule];
      if (by) return [`${style.currency}/${unitName(by)}`, 1 / style.scales[by].factor];
      return [rule.startsWith("money") ? style.currency : { kW: "kW", kWh: "kWh" }[rule] ?? "", 1];
    }

    /* What a box for a value shows, and what a text in it means; NaN where it is no number. */
    function box(rule, x, unit = "kg") {
      const [label, size] = typed(rule, x, unit);
      const text = Number.isFinite(x) ? plain(x / size) : "";
      return { label, text, size, parse: (typed) => read(typed) * size, written: plain };
    }

    const plain = (x) => String(sign(x) * Number(fixed(x, Math.abs(x) < 1 ? 3 - tens(x) : 2))).replace(".", style.numerals.point);

    function ungrouped(whole, group) {
      const [first, ...later] = whole.split(group);
      return later.every((part) => /^\d{2,3}$/.test(part)) && /^\d{3}$/.test(later.at(-1)) ? first + later.join("") : "?";
    }

    function read(text) {
      const { point, group } = style.numerals;
      const bare = text.trim().replace(/[\s\u00a0\u202f]/g, "").replace(MINUS, "-");
      const [whole, ...parts] = bare.split(point);
      // A sign between groups is read only where groups are whole: 16,32 is no 1632.
      const digits = /^\s$/.test(group) || !whole.includes(group) ? whole : ungrouped(whole, group);
      const number = [digits, ...parts].join(".");
      return /^-?(\d+\.?\d*|\.\d+)$/.test(number) ? Number(number) : NaN;
    }

    /* A value in its unit; `unit` is what the row of an item is priced by, `limit` what an
       estimate is never written across. */
    const isNear = (unit) => unit !== "h" && `${unit} near` in rules;
    return { isNear, shown: (rule, x, unit = "kg", limit = NaN) => (Number.isFinite(x) ? rules[rule](x, unit, limit) : MISSING), signed: (x) => number(x, style.places, { plus: true }), box };
  }

  return { make };
})();
