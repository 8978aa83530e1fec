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

  /* Every input with a spread that a figure rests on, each [node, spread]; kept with the book. */
  function inputs(values, node) {
    const kept = (values.book.uncertain ??= new Map());
    if (!kept.has(keyOf(node))) kept.set(keyOf(node), found(values, node));
    return kept.get(keyOf(node));
  }

  function found(values, node) {
    const seen = new Set();
    const uncertain = [];
    const waiting = [values.source(...node)];
    while (waiting.length) {
      const next = waiting.pop();
      if (!next || seen.has(keyOf(next))) continue;
      seen.add(keyOf(next));
      const spread = values.book.row(next[0], next[2]).spreads?.[next[1]];
      if (spread) uncertain.push([next, spread]);
      waiting.push(...values.madeFrom(...next));
    }
    return uncertain;
  }

  /* Both ends of an input's own interval, about what is written or tried. */
  function ends(values, [table, figure, row], [reach, relative, low, high, stands]) {
    const own = values.value(table, figure, row);
    const center = Number.isNaN(own) ? values.value(table, stands, row) : own;
    const moved = (way) => (relative ? center * Math.exp(way * reach) : center + way * reach);
    return [-1, 1].map((way) => Math.max(low ?? -Infinity, Math.min(high ?? Infinity, moved(way))));
  }

  function swing(values, node, input, spread) {
    const [low, high] = ends(values, input, spread).map((end) =>
      new Figures.Values(values.book, new Map([...values.moved, [keyOf(input), end]])).value(...node));
    return high - low;
  }

  /* How wide a figure's interval of 90 % is; what prices of one list do together adds up first. */
  function width(values, node) {
    const together = new Map();
    let squares = 0;
    for (const [input, spread] of inputs(values, node)) {
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

  /* What an end or a chance, as it was drawn, becomes where inputs are tried. */
  function followed(values, table, figure, row, drawn) {
    const { follows, needs } = values.book.model[table].figures[figure];
    const node = values.source(table, needs[0], row);
    const written = (values.book.written ??= new Figures.Values(values.book));
    const [before, now] = [written, values].map((each) => each.value(...node));
    const [was, is] = [written, values].map((each) => width(each, node));
    if (before === now && was === is) return drawn;
    if (follows === "end") return was > 0 ? now + ((drawn - before) * is) / was : NaN;
    const chance = Math.min(1 - 0.5 / DRAWS, Math.max(0.5 / DRAWS, drawn));
    return normal(quantile(chance) + 2 * Z * (now / is - before / was));
  }

  return { followed, width };
})();
