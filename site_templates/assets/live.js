"use strict";
/* A page's figures, alive: press a number to see how it is made, move what somebody has written
   down and every number follows. The state is in the address and goes along from page to page. */
globalThis.Live = (() => {
  const page = document.documentElement;
  const root = page.dataset.root;
  const scripts = ["numbers.js", "figures.js", "intervals.js", "panel.js", "live/model.js"];
  /* No value that a kitchen writes is larger. */
  const MOST = 1e9;
  /* A chance as high as this is not said (builder/pages/menu.py has the same number). */
  const SURE = 0.95;
  const tried = new Map();
  const waiting = new Map();
  let book = null;
  let numbers = null;
  let started = null;
  let written = null;
  let moved = null;

  const start = () => (started ??= Promise.all(scripts.map(Page.script)));

  function begin(model, index, style) {
    book = new Figures.Book(model, index);
    numbers = Numbers.make(style);
    written = moved = new Figures.Values(book);
  }

  function shard(number) {
    if (!waiting.has(number)) waiting.set(number, Page.script(`live/rows-${number}.js`));
    return waiting.get(number);
  }

  /* Run what needs rows; where some are not there yet, load them and run it again. */
  async function withRows(run) {
    await start();
    for (;;) {
      try {
        return run();
      } catch (error) {
        if (!(error instanceof Figures.Wanted)) throw error;
        await Promise.all(error.shards.map(shard));
      }
    }
  }

  /* What is tried: inputs by a name that outlives a build, "table:page.figure". */
  const parsed = (name) => [name.slice(0, name.lastIndexOf(".")), name.slice(name.lastIndexOf(".") + 1)];
  const named = (table, figure, row) => `${book.name(book.row(table, row))}.${figure}`;

  function rowOf(name) {
    if (!book.named.has(name)) {
      const number = book.shardOfPage(`${name.slice(name.indexOf(":") + 1).split("#")[0]}.html`);
      if (!book.loaded.has(number)) throw new Figures.Wanted([number]);
    }
    return book.named.get(name);
  }

  function isInput([table, figure]) {
    const figures = book.model[table].figures;
    if (!Object.hasOwn(figures, figure)) return false;
    const { of, lookup, total, running, methods } = figures[figure];
    return !(of || lookup || total || running || methods);
  }

  function inputs() {
    const found = new Map();
    for (const [name, value] of tried) {
      const [rowName, figure] = parsed(name);
      const row = rowOf(rowName);
      const node = row && [row.table, figure, row.row];
      if (row && isInput(node) && !book.model[row.table].figures[figure].fixed && allowed(node, value)) found.set(node.join("."), value);
      else tried.delete(name);
    }
    return found;
  }

  /* The address: ?try=cut:cuts/chuck.FIGURE*16.3,... */
  function read() {
    tried.clear();
    for (const part of (new URLSearchParams(location.search).get("try") ?? "").split(",")) {
      const [name, value] = [part.slice(0, part.lastIndexOf("*")), Number(part.slice(part.lastIndexOf("*") + 1))];
      if (name.includes(".") && Number.isFinite(value)) tried.set(name, value);
    }
  }

  /* Whether somebody can write such a value: a share that is left lies above nothing and up to
     all, a weight, a price or a time is no less than nothing. */
  function allowed([table, figure], value) {
    const { unit } = book.model[table].figures[figure];
    if (!Number.isFinite(value) || Math.abs(value) > MOST) return false;
    return unit.startsWith("share") ? value > 0 && value <= 1 : value >= 0;
  }

  const packed = () => [...tried].map(([name, value]) => `${name}*${value}`).join(",");

  function addressed(url) {
    const query = new URLSearchParams(url.search);
    if (tried.size) query.set("try", packed());
    else query.delete("try");
    url.search = query.toString();
    return url;
  }

  /* An address of this site with what is tried; any other as it is. */
  function carried(address) {
    const url = new URL(address, location.href);
    const here = url.href.startsWith(new URL(root || "./", location.href).href);
    return here && url.pathname.endsWith(".html") ? addressed(url).href : address;
  }

  function carry() {
    for (const link of document.querySelectorAll("a[href]"))
      if (!link.getAttribute("href").startsWith("#")) link.href = carried(link.href);
  }

  function write() {
    history.replaceState(null, "", addressed(new URL(location.href)).href);
    carry();
  }

  /* Every number of the page that leads to its figure follows. */
  const FIGURE = "a[href*='methods/'][href*='#']";
  const cells = () => document.querySelectorAll(`main ${FIGURE}`);
  const node = (text) => text.split(".").map((part, n) => (n === 2 ? Number(part) : part));
  /* A number leads to its figure's method, its row behind the "#". */
  const reference = (cell) => [...book.methods.get(/([^/]+)\.html$/.exec(cell.pathname)[1]), Number(cell.hash.slice(1))];
  const shown = (values, ...node) => Intervals.shown(numbers, values, ...node);

  function follow(wanted = () => true) {
    const news = [];
    for (const cell of [...cells()].filter(wanted)) {
      const node = reference(cell);
      const [before, after] = [written, moved].map((values) => shown(values, ...node));
      news.push([cell, before, after, moved.value(...reference(cell)) - written.value(...reference(cell))]);
    }
    for (const each of news) mark(...each);
    for (const chance of document.querySelectorAll(`main .chance ${FIGURE}`))
      chance.closest(".chance").hidden = moved.value(...reference(chance)) >= SURE;
    for (const figure of document.querySelectorAll("figure[data-kind]")) redraw(figure);
  }

  /* A number in words that follow nothing stays as it is: they are marked as written. */
  function mark(cell, before, after, change) {
    if (cell.querySelector(".written") || cell.closest("table.written")) return;
    const text = cell.firstChild;
    cell.dataset.text ??= text.textContent;
    const follows = cell.dataset.text === before;
    text.textContent = follows ? after : cell.dataset.text;
    cell.classList.toggle("moved", before !== after);
    cell.classList.toggle("more", before !== after && change > 0);
    cell.querySelector(":scope > .now")?.remove();
    if (before === after) return cell.removeAttribute("title");
    cell.title = follows ? say("as written: {before}", { before }) : say("now {after}", { after });
    // Of an amount the one that is written is read beside it.
    if (!follows || cell.closest(".made")) cell.append(Object.assign(document.createElement("span"), { className: "now", textContent: ` ${cell.title}` }));
  }

  /* Rows of a picture follow where the page says which figures they are made of. */
  function redraw(figure) {
    const data = Pictures.data(figure);
    const changes = Object.entries(data.live ?? {});
    for (const [row, change] of changes) {
      const one = change instanceof Element ? reference(change).join(".") : change;
      const { adds, ...fields } = typeof one === "string" ? { adds: [[1, one]], text: `{${one}}` } : one;
      if (adds) addOn(data.rows, Number(row), adds);
      for (const [field, terms] of Object.entries(fields))
        data.rows[row][field] = lively(terms, data.rows[row][field]);
    }
    figure.classList.toggle("as-written", tried.size > 0 && !changes.length);
    if (changes.length) figure.dispatchEvent(new CustomEvent("rows", { detail: data.rows }));
  }

  /* A waterfall's bar. */
  function addOn(rows, n, terms) {
    const amount = lively(terms, rows[n].end - rows[n].start);
    rows[n].start = Pictures.startOf(rows, n);
    rows[n].end = rows[n].start + amount;
  }

  /* What a field of a row becomes: words with the texts of figures, or the sum of terms. */
  function lively(terms, before) {
    if (typeof terms === "string") return terms.replace(/\{(.*?)\}/g, (_, figure) => shown(moved, ...node(figure)));
    const total = (value, start) => terms.reduce((sum, [factor, term]) => sum + factor * value(node(term)), start);
    if (typeof before === "string") return numbers.signed(total((term) => moved.value(...term), 0));
    return total(change, before);
  }

  const change = (term) => moved.value(...term) - written.value(...term);

  async function apply() {
    await withRows(() => {
      moved = tried.size ? new Figures.Values(book, inputs()) : written;
      follow();
    });
    page.classList.toggle("trying", tried.size > 0);
    Panel.bar([...tried.keys()].map((name) => described(name)));
    write();
    document.dispatchEvent(new Event("tried"));
  }

  function described(name) {
    const [rowName, figure] = parsed(name);
    return { name, node: [rowOf(rowName).table, figure, rowOf(rowName).row] };
  }

  /* Try a value for an input; null takes it back. */
  function attempt([table, figure, row], value) {
    const name = named(table, figure, row);
    if (value === null || value === written.value(table, figure, row)) tried.delete(name);
    else tried.set(name, value);
    return apply();
  }

  function reset() {
    tried.clear();
    return apply();
  }

  /* A limit: its input moved to where it says, "1-" where what is left is the input of a loss. */
  function attemptLimit(button) {
    const [input, turned] = button.dataset.attempt.split(" ");
    const limit = button.parentElement.querySelector(FIGURE);
    return withRows(() => moved.value(...reference(limit))).then((value) => attempt(node(input), turned ? 1 - value : value));
  }

  document.addEventListener("click", (event) => {
    const button = event.target.closest("[data-attempt]");
    if (button) attemptLimit(button);
    const cell = event.target.closest(FIGURE);
    if (!cell || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    event.preventDefault();
    withRows(() => Panel.open(reference(cell), cell)).catch(() => location.assign(cell.href));
  });

  for (const strip of document.querySelectorAll("details:is(.try, .made)"))
    strip.addEventListener("toggle", () => strip.open && withRows(() => Panel.fill(strip)));

  /* Paper shows what is written, and nothing of what was tried on the screen, but for amounts: a
     batch made to size is printed as it is made. */
  const asWritten = (cell) => !["scale", "scaled"].includes(reference(cell)[0]);
  const printed = (values) => {
    if (!tried.size || !book) return;
    const now = moved;
    moved = values ?? now;
    follow(asWritten);
    moved = now;
  };
  window.addEventListener("beforeprint", () => printed(written));
  window.addEventListener("afterprint", () => printed());

  read();
  if (tried.size) start().then(apply);

  return {
    begin,
    add: (number, rows) => book.add(number, rows),
    withRows,
    carry,
    carried,
    reference,
    allowed,
    isInput,
    attempt,
    reset,
    shown: (node, values = moved) => shown(values, ...node),
    value: (node, values = moved) => values.value(...node),
    /* A box for an input, showing the value of the figure that it stands in for. */
    box: ([table, figure, row], now, values = moved) =>
      numbers.box(book.model[table].figures[figure].unit, values.value(...now), book.row(table, row).unit),
    isTried: (node) => tried.has(named(...node)),
    get book() { return book; },
    get written() { return written; },
    get moved() { return moved; },
  };
})();
