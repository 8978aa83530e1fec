"use strict";
/* The figures of the kitchen, computed again on the page: MODEL holds the formulas, which the
   builder writes out from its own, shards of rows what somebody has written down. */
globalThis.Figures = (() => {
  const FOLDS = {
    sum: [0, (a, b) => a + b],
    count: [0, (a, b) => a + (Number.isNaN(b) ? 0 : 1)],
    product: [1, (a, b) => a * b],
    smallest: [Infinity, (a, b) => (Number.isNaN(b) ? a : Math.min(a, b))],
    largest: [-Infinity, (a, b) => (Number.isNaN(b) ? a : Math.max(a, b))],
  };

  /* Thrown where rows are asked for that have not been loaded: the shards to load. */
  class Wanted extends Error {
    constructor(shards) {
      super(`rows of ${shards.join(", ")} are wanted`);
      this.shards = shards;
    }
  }

  /* What was written: rows with their links and given values, loaded shard by shard. */
  class Book {
    constructor(model, index) {
      this.model = model;
      this.index = index;
      this.tables = Object.fromEntries(Object.keys(model).map((name) => [name, new Map()]));
      this.loaded = new Set();
      this.grouped = new Map();
      this.named = new Map();
      this.files = new Map();
      /* Tables and figures by the names of their method pages. */
      this.methods = new Map();
      for (const [table, { figures }] of Object.entries(model))
        for (const figure in figures) this.methods.set(`${table}-${figure.replaceAll("_", "-")}`, [table, figure]);
    }

    add(shard, { pages, files, rows }) {
      if (this.loaded.has(shard)) return;
      for (const [file, ...way] of files) this.files.set(file, way);
      this.loaded.add(shard);
      this.grouped.clear();
      for (const [table, { at, homes, given, links, origins, spreads, points }] of Object.entries(rows))
        at.forEach((row, n) => {
          const [page, key = "", label = "", unit = "kg"] = homes[n];
          const [path, title] = pages[page];
          const found = { row, table, key, label, unit, path, title, given: {}, links: {}, origins: {} };
          for (const name in given) if (given[name][n] !== null) found.given[name] = Number(given[name][n]);
          for (const name in links) found.links[name] = links[name][n];
          for (const name in origins) {
            const [file, ...rest] = origins[name][n] ?? [];
            if (file !== undefined) found.origins[name] = [files[file]?.[0], ...rest];
          }
          for (const name in spreads ?? {}) if (spreads[name][n]) (found.spreads ??= {})[name] = spreads[name][n];
          if (points?.[n]) found.points = points[n];
          this.tables[table].set(row, found);
          this.named.set(this.name(found), found);
        });
    }

    shardOf(table, row) {
      const runs = this.index.runs[table];
      let low = 0;
      for (let high = runs.length - 1; low < high; ) {
        const middle = (low + high + 1) >> 1;
        if (runs[middle][0] <= row) low = middle;
        else high = middle - 1;
      }
      return runs[low][1];
    }

    /* Shards follow the order of their pages' paths. */
    shardOfPage(path) {
      return Math.max(0, this.index.first.findLastIndex((first) => first <= path));
    }

    row(table, row) {
      const found = this.tables[table].get(row);
      if (!found) throw new Wanted([this.shardOf(table, row)]);
      return found;
    }

    /* A row's name that outlives a build: its table, page and key. */
    name({ table, path, key }) {
      return `${table}:${path.replace(/\.html$/, "")}${key && `#${key}`}`;
    }

    children(table, link, parent) {
      const key = `${table}.${link}`;
      if (!this.index.local.includes(key)) this.all(table);
      if (!this.grouped.has(key)) this.grouped.set(key, this.group(table, link));
      return this.grouped.get(key).get(parent) ?? [];
    }

    all(table) {
      const missing = [...new Set(this.index.runs[table].map(([, shard]) => shard))].filter((s) => !this.loaded.has(s));
      if (missing.length) throw new Wanted(missing);
    }

    group(table, link) {
      const groups = new Map();
      for (const row of [...this.tables[table].keys()].sort((a, b) => a - b)) {
        const parent = this.tables[table].get(row).links[link];
        if (parent < 0) continue;
        if (!groups.has(parent)) groups.set(parent, []);
        groups.get(parent).push(row);
      }
      return groups;
    }
  }

  /* The values that follow from a book, some of its inputs moved. */
  class Values {
    constructor(book, moved = new Map()) {
      this.book = book;
      this.moved = moved;
      this.kept = new Map();
    }

    value(table, figure, row) {
      const key = `${table}.${figure}.${row}`;
      if (!this.kept.has(key)) this.kept.set(key, this.compute(table, figure, row, key));
      return this.kept.get(key);
    }

    compute(table, figure, row, key) {
      const how = this.book.model[table].figures[figure];
      const found = this.book.row(table, row);
      if (how.of) return how.of(...how.needs.map((need) => this.value(table, need, row)));
      if (how.lookup) return this.lookup(found, how.lookup);
      if (how.total) return this.total(row, how.total);
      if (how.running) return this.running(found, how.running);
      const given = this.moved.get(key) ?? found.given[figure] ?? NaN;
      const follows = how.follows && this.moved.size && !Number.isNaN(given);
      return follows ? Intervals.followed(this, table, figure, row, given) : given;
    }

    lookup(found, [link, table, figure, missing]) {
      const parent = found.links[link];
      return parent < 0 ? missing ?? NaN : this.value(table, figure, parent);
    }

    total(row, [fold, table, link, figure]) {
      return this.folded(fold, this.book.children(table, link, row).map((child) => this.value(table, figure, child)));
    }

    running({ table, row, links }, [fold, link, figure]) {
      if (links[link] < 0) return NaN;
      const before = this.book.children(table, link, links[link]).filter((sibling) => sibling < row);
      const [start, step] = FOLDS[fold];
      return before.map((sibling) => this.value(table, figure, sibling)).reduce(step, start);
    }

    folded(fold, values) {
      const [start, step] = FOLDS[fold];
      const result = values.reduce(step, start);
      return Number.isFinite(result) ? result : NaN;
    }

    /* Where lookups lead: the value's own table, figure and row; null where a link is to no row. */
    source(table, figure, row) {
      const { lookup } = this.book.model[table].figures[figure];
      if (!lookup) return [table, figure, row];
      const parent = this.book.row(table, row).links[lookup[0]];
      return parent < 0 ? null : this.source(lookup[1], lookup[2], parent);
    }

    /* The values that one was made from, lookups followed. */
    madeFrom(table, figure, row) {
      const { needs, total, running } = this.book.model[table].figures[figure];
      if (needs) return needs.map((need) => this.source(table, need, row)).filter(Boolean);
      if (total) return this.book.children(total[1], total[2], row).map((child) => this.source(total[1], total[3], child)).filter(Boolean);
      if (!running) return [];
      const { links } = this.book.row(table, row);
      const before = this.book.children(table, running[1], links[running[1]]).filter((sibling) => sibling < row);
      return before.map((sibling) => this.source(table, running[2], sibling)).filter(Boolean);
    }
  }

  return { Book, Values, Wanted };
})();
