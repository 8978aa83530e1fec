"use strict";
/* Intervals and chances while something is tried. The builder drew them; here they follow by
   first-order propagation: each input that is not known for sure is moved to both ends of its
   own interval, and how far a figure moves between them, together, is how wide it is. */
globalThis.Intervals = (() => {
  /* The 95 % point of the normal distribution: half the width of an interval of 90 %. */
  const Z = 1.6448536269514722;
  /* A chance in so many draws is known no finer. */
  const DRAWS = 4000;

  const keyOf = (node) => node.join(".");

  /* Every input with a spread that a value rests on, [node, spread] by key; kept with the book. */
  function inputs(values, node) {
    const kept = (values.book.uncertain ??= new Map());
    const key = keyOf(node);
    if (!kept.has(key)) kept.set(key, found(values, node));
    return kept.get(key);
  }

  function found(values, node) {
    const from = values.source(...node);
    if (!from) return new Map();
    if (keyOf(from) !== keyOf(node)) return inputs(values, from);
    const spread = values.book.row(node[0], node[2]).spreads?.[node[1]];
    const own = spread ? [[keyOf(node), [node, spread]]] : [];
    return new Map([...own, ...values.madeFrom(...node).flatMap((part) => [...inputs(values, part)])]);
  }

  /* Values with one input moved: only what rests on it is computed again. */
  class Moved extends Figures.Values {
    constructor(values, input, end) {
      super(values.book, new Map([...values.moved, [keyOf(input), end]]));
      this.base = values;
      this.input = keyOf(input);
    }

    value(...node) {
      const rests = keyOf(node) === this.input || inputs(this, node).has(this.input);
      return rests ? super.value(...node) : this.base.value(...node);
    }
  }

  /* Both ends of an input's own interval, about what is written or tried. */
  function ends(values, [table, figure, row], [reach, relative, low, high, stands]) {
    const own = values.value(table, figure, row);
    const center = Number.isNaN(own) ? values.value(table, stands, row) : own;
    const moved = (way) => (relative ? center * Math.exp(way * reach) : center + way * reach);
    const least = low === null || low === undefined ? -Infinity : low * center;
    const most = high === null || high === undefined ? Infinity : relative ? high * center : high;
    return [-1, 1].map((way) => Math.max(least, Math.min(most, moved(way))));
  }

  /* The values with one input at an end of its own interval; kept, for many figures ask for them. */
  function at(values, input, end) {
    values.ends ??= new Map();
    const key = `${keyOf(input)} ${end}`;
    if (!values.ends.has(key)) values.ends.set(key, new Moved(values, input, end));
    return values.ends.get(key);
  }

  /* How far a figure moves between an input's ends; where it has no value at one of them, twice
     as far as it moves on the other side. */
  function swing(values, node, input, spread) {
    const [low, high] = ends(values, input, spread).map((end) => at(values, input, end).value(...node));
    if (Number.isFinite(low) === Number.isFinite(high)) return high - low;
    const plain = values.value(...node);
    return 2 * (Number.isFinite(low) ? plain - low : high - plain);
  }

  /* How wide a figure's interval of 90 % is; what prices of one list do together adds up first. */
  function width(values, node) {
    const together = new Map();
    let squares = 0;
    for (const [input, spread] of inputs(values, node).values()) {
      const reached = swing(values, node, input, spread);
      if (!Number.isFinite(reached)) return NaN;
      for (const [factor, part] of spread[5] ?? [])
        together.set(factor, (together.get(factor) ?? 0) + reached * part);
      if (!spread[5]) squares += reached ** 2;
    }
    for (const total of together.values()) squares += total ** 2;
    return Math.sqrt(squares);
  }

  /* Abramowitz & Stegun 26.2.17 [from memory]: the normal distribution function within 1e-7. */
  function normal(z) {
    const t = 1 / (1 + 0.2316419 * Math.abs(z));
    const tail = [1.330274429, -1.821255978, 1.781477937, -0.356563782, 0.31938153].reduce((sum, c) => (sum + c) * t, 0);
    const above = (tail * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
    return z > 0 ? 1 - above : above;
  }

  function quantile(chance) {
    let [low, high] = [-9, 9];
    for (let n = 0; n < 60; n += 1) {
      const middle = (low + high) / 2;
      if (normal(middle) < chance) low = middle;
      else high = middle;
    }
    return low;
  }

  const line = ([x0, z0], [x1, z1], x) => z0 + ((z1 - z0) * (x - x0)) / (x1 - x0);
  const within = (chance) => Math.min(1 - 0.5 / DRAWS, Math.max(0.5 / DRAWS, chance));

  /* The point of the normal distribution that a figure, as it was drawn, stays below x with: lines
     through some of its points [x, z]. With one point alone it is as steep as the first order. */
  function point(points, x, steep) {
    const known = points.filter(([a], n) => !n || a > points[n - 1][0]);
    if (known.length < 2) return known.length ? known[0][1] + steep * (x - known[0][0]) : NaN;
    const after = known.findIndex(([a], n) => n && (a >= x || n === known.length - 1));
    return line(known[after - 1], known[after], x);
  }

  /* What is known of how a figure was drawn: both ends of its interval, and how often it was
     above nothing. That no draw lay beyond nothing says only how steep it is at the least. */
  function drawnPoints(low, high, above, steep) {
    const points = [[low, -Z], [high, Z]].filter(([x]) => Number.isFinite(x));
    const z = -quantile(within(above));
    const seen = above > 0 && above < 1;
    const found = seen || !points.length ? z : Math[above ? "min" : "max"](z, point(points, 0, steep));
    return [...points, [0, found]].sort(([a, c], [b, d]) => a - b || c - d);
  }

  /* A chance follows the very distribution that the ends follow: each drawn value lies as far from
     the plain one as before, times how much wider the interval is. */
  function chance(values, written, [over, ranged], drawn) {
    const [before, now] = [written, values].map((each) => each.value(...over));
    const [was, is] = [written, values].map((each) => width(each, over));
    if (!(is > 0)) return Number.isNaN(now) || Number.isNaN(is) ? NaN : Number(now > 0);
    const shift = before - written.value(...ranged);
    const [low, high] = ["low", "high"].map((end) => written.value(ranged[0], `${ranged[1]}_${end}`, ranged[2]) + shift);
    const steep = (2 * Z) / was;
    return normal(-point(drawnPoints(low, high, drawn, steep), before - (now * was) / is, steep));
  }

  /* The shares of the draws at which the builder says how far a plate lay beyond a line. */
  const BELOW = [0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.99].map(quantile);

  /* The chance that a plate stays in its class: the drawn one, as much more or less often as each
     of the two distributions, moved and made wider as in `chance`, lies on the same side. */
  function classChance(values, written, sides, points, drawn) {
    const [was, is] = [written, values].map((each) =>
      sides.reduce((product, side, n) => product * onSide(each, written, side, points?.[n] ?? []), 1));
    return was > 0 ? Math.min(1, (drawn * is) / was) : is;
  }

  function onSide(values, written, [flag, over], points) {
    const [side, now] = [written.value(...flag), values.value(...flag)];
    if (Number.isNaN(now)) return NaN;
    const [was, is] = [written, values].map((each) => width(each, over));
    const wider = was > 0 && is > 0 ? is / was : 1;
    const known = points.map((x, n) => [x, BELOW[n]]).filter(([x]) => x !== null);
    const z = point(known, written.value(...over) - values.value(...over) / wider, NaN);
    return Number.isNaN(z) ? Number(now === side) : normal(side ? -z : z);
  }

  /* Units of what is never below zero: prices, wages, shares. A straight line may go there. */
  const FLOORED = new Set(["money/kg", "money/h", "money/unit", "money up", "share", "share down", "factor"]);

  /* What an end or a chance, as it was drawn, becomes where inputs are tried. */
  function followed(values, table, figure, row, drawn) {
    const { follows, needs } = values.book.model[table].figures[figure];
    if (!Number.isFinite(drawn)) return drawn;
    const nodes = needs.map((need) => values.source(table, need, row));
    const written = (values.book.written ??= new Figures.Values(values.book));
    const rests = follows === "class" ? nodes.slice(2) : nodes.slice(0, 1);
    if (rests.every((node) => written.value(...node) === values.value(...node) && width(written, node) === width(values, node))) return drawn;
    if (follows === "class") return classChance(values, written, [[nodes[0], nodes[2]], [nodes[1], nodes[3]]], values.book.row(table, row).points, drawn);
    if (follows === "chance") return chance(values, written, [nodes[0], nodes.at(-1)], drawn);
    const [before, now] = [written, values].map((each) => each.value(...nodes[0]));
    const [was, is] = [written, values].map((each) => width(each, nodes[0]));
    const end = was > 0 ? now + ((drawn - before) * is) / was : NaN;
    return FLOORED.has(values.book.model[table].figures[figure].unit.replace(" near", "")) && now >= 0 ? Math.max(0, end) : end;
  }

  /* A value in its unit, no finer than its interval is wide where it has one. */
  function shown(numbers, values, table, figure, row) {
    const { unit } = values.book.model[table].figures[figure];
    const value = values.value(table, figure, row);
    const apart = numbers.isNear(unit) ? wide(values, table, figure, row) : NaN;
    if (Number.isFinite(apart)) return numbers.shown(`${unit} near`, value, values.book.row(table, row).unit, value + apart);
    return numbers.shown(unit, value, values.book.row(table, row).unit, limitOf(values, table, figure, row));
  }

  /* How wide the interval of a figure is, or of the one it looks up or is as sure as, or of its
     parts together; with one end open twice as far as the other is, with both so wide that two digits are left. */
  function wide(values, ...node) {
    const [table, figure, row] = values.source(...node) ?? node;
    const { figures } = values.book.model[table];
    if (figures[`${figure}_low`]?.follows !== "end") return derived(values, figures[figure], table, figure, row);
    const value = values.value(table, figure, row);
    const [low, high] = ["low", "high"].map((end) => values.value(table, `${figure}_${end}`, row));
    const known = [low, high].filter(Number.isFinite);
    if (known.length === 2) return high - low;
    if (Number.isNaN(low) && Number.isNaN(high)) return NaN;
    return (known.length ? 2 * Math.abs(value - known[0]) : 0) || Math.abs(value) || NaN;
  }

  function derived(values, { asSureAs, total }, table, figure, row) {
    if (asSureAs) {
      const other = values.value(table, asSureAs, row);
      return other ? wide(values, table, asSureAs, row) * Math.abs(values.value(table, figure, row) / other) : NaN;
    }
    if (total?.[0] !== "sum") return NaN;
    const parts = values.madeFrom(table, figure, row).map((part) => wide(values, ...part)).filter(Number.isFinite);
    return parts.reduce((sum, part) => sum + part, 0) || NaN;
  }

  /* What a figure is not written across; of the only end of an interval the plain value. */
  function limitOf(values, table, figure, row) {
    const { limit, follows, needs } = values.book.model[table].figures[figure];
    const found = limit && values.value(table, limit, row);
    if (follows !== "end" || Number.isFinite(found)) return found;
    return values.value(table, figure, row) + wide(values, table, needs[0], row);
  }

  return { followed, shown };
})();
