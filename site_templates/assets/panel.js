"use strict";
/* The panel that shows how a number is made, the strip of inputs to try, and the bar that says
   what is being tried. */
globalThis.Panel = (() => {
  const root = document.documentElement.dataset.root;
  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  const FOLLOWS = say("Drawn when the site was built. Where values are tried it follows by the slopes of the formulas (first-order propagation).");
  const path = [];
  let opener = null;

  function make(name, properties = {}, ...children) {
    const node = document.createElement(name);
    for (const [key, value] of Object.entries(properties))
      if (key in node) node[key] = value;
      else node.setAttribute(key, value);
    node.append(...children.filter((child) => child !== null && child !== ""));
    return node;
  }

  const button = (text, press, properties = {}) => {
    const node = make("button", { type: "button", textContent: text, ...properties });
    node.addEventListener("click", press);
    return node;
  };

  const panel = make("div", { id: "figure-panel", role: "dialog", "aria-labelledby": "figure-panel-title", hidden: true });
  const bar = make("section", { id: "tried", role: "status", "aria-label": say("What is being tried"), hidden: true });
  document.body.append(panel);
  document.querySelector("main").before(bar);

  const definition = ([table, figure]) => Live.book.model[table].figures[figure];
  const rowOf = ([table, , row]) => Live.book.row(table, row);
  const same = (a, b) => a[0] === b[0] && a[2] === b[2];

  /* A figure's name, with its row's where it is another than the reader's. */
  function label(node, from = null) {
    const row = rowOf(node);
    const whose = from && same(node, from) ? [] : [from && rowOf(from).path === row.path ? "" : row.title, row.label].filter(Boolean);
    return capital(whose.length ? say("{label}: {words}", { label: whose.join(", "), words: definition(node).label }) : definition(node).label);
  }

  /* A figure itself; of an input that nobody wrote, what was used in its place: the value of the
     formula that takes it before anything else. */
  function standIn(node) {
    const [table, figure, row] = node;
    const first = Object.entries(Live.book.model[table].figures).find(([, { of, needs }]) => of && needs[0] === figure);
    const written = !Live.isInput(node) || !first || !Number.isNaN(Live.value(node, Live.written));
    return written ? node : [table, first[0], row];
  }

  const asWritten = (node) => Live.shown(standIn(node), Live.written);

  function open(node, from = null) {
    if (from) opener = from;
    const source = Live.written.source(...node) ?? node;
    const drawn = content(source);
    if (!path.length || path.at(-1).join(".") !== source.join(".")) path.push(source);
    panel.replaceChildren(...drawn);
    Live.carry();
    panel.hidden = false;
    panel.querySelector("h2").focus();
  }

  /* The panel again, with the box that is being used left where it is. */
  function redraw() {
    if (panel.hidden || !path.length) return;
    const used = panel.querySelector(".field:focus-within");
    panel.replaceChildren(...content(path.at(-1)));
    if (used) panel.querySelector(".field").replaceWith(used);
    Live.carry();
  }

  function close() {
    panel.hidden = true;
    path.length = 0;
    opener?.focus();
  }

  function back() {
    path.pop();
    const node = path.pop();
    if (node) Live.withRows(() => open(node));
    else close();
  }

  const go = (node) => () => Live.withRows(() => open(node));

  function content(node) {
    const how = definition(node);
    const shown = Live.shown(node);
    const before = Live.isInput(node) && !Live.isTried(node) ? shown : asWritten(node);
    const method = `${root}methods/${node[0]}-${node[1].replaceAll("_", "-")}.html`;
    return [
      make("div", { className: "head" },
        path.length > 1 || (path.length === 1 && path[0].join(".") !== node.join(".")) ? button(say("Back"), back) : "",
        make("h2", { id: "figure-panel-title", tabIndex: -1, textContent: label(node) }),
        button(say("Close"), close)),
      make("p", { className: "value", "aria-live": "polite" }, make("b", { textContent: shown }), before === shown ? "" : make("small", { textContent: ` ${say("as written: {before}", { before })}` })),
      make("p", { className: "about", textContent: how.about }),
      ...(Live.isInput(node) ? given(node) : made(node, how)),
      make("p", { className: "method" }, make("a", { href: method, textContent: say("The method, its source and its range") })),
    ];
  }

  /* The formula in words, then with its numbers, then what went into it. */
  function made(node, how) {
    // What a row's own method, one of several, was not applied to says nothing of its value.
    const parts = Live.moved.madeFrom(...node).filter((part) => !how.methods || Number.isFinite(Live.value(part)));
    // The reason of such a value is the method that the row has of several, or the clause behind it.
    const reason = how.methods ? rowOf(node).origins[node[1]]?.[4] : "";
    const named = how.methods?.includes(reason);
    const words = (named ? reason : how.words).replace(/\{(\w+)\}/g, (_, name) => Live.book.model[node[0]].figures[name].label);
    const figures = how.of ? how.words.replace(/\{(\w+)\}/g, (_, name) => Live.shown([node[0], name, node[2]])) : "";
    const list = make("ul", {}, ...parts.map((part) => make("li", {}, button(`${label(part, node)} `, go(part)), make("b", { textContent: Live.shown(part) }))));
    list.querySelectorAll("li").forEach((item) => item.firstChild.append(item.lastChild));
    return [
      make("p", { className: "how", textContent: words }),
      figures ? make("p", { className: "how", textContent: `= ${figures}` }) : "",
      reason && !named ? make("p", { className: "origin", textContent: capital(reason) }) : "",
      how.methods ? make("p", { className: "about", textContent: how.follows ? FOLLOWS : say("Computed when the site was built; trying other values does not move it.") }) : "",
      parts.length ? list : "",
    ].filter(Boolean);
  }

  function given(node) {
    const { origins } = rowOf(node);
    const [file, line, column, text, reason] = origins[node[1]] ?? [];
    const place = file ? `${file}${line ? `:${line}:${column}` : ""}` : "";
    const why = reason ?? definition(node).reason ?? say("not given");
    return [
      make("p", { className: "origin" }, text ? `${say("Written as {text}", { text })} ` : "", why && !text ? capital(why) + " " : "", place ? make("a", { href: lineHref(file, line), textContent: place }) : ""),
      definition(node).fixed ? make("p", { className: "about", textContent: say("What rests on it was computed when the site was built.") }) : field(node, say("Try another value")),
    ];
  }

  function lineHref(file, line) {
    const [page, prefix] = Live.book.files.get(file);
    return page ? `${root}${page}#${prefix}${line ? `L${line}` : "file"}` : "#";
  }

  /* A box and a slider for one input; both move the page while they are moved. */
  function field(node, words, stand = node) {
    const id = `try-${node.join("-")}-${Math.floor(performance.now() * 1000)}`;
    let { label: unit, text, size, parse } = Live.box(node, stand);
    const named = make("span", { className: "unit", textContent: unit });
    const input = make("input", { id, inputMode: "decimal", autocomplete: "off", value: text, size: 8 });
    const base = Live.value(stand, Live.written);
    const now = Live.value(stand);
    const slider = Number.isFinite(now) && now > 0 ? make("input", { type: "range", "aria-label": say("{name}, slider", { name: words }), ...ends(node, base, now, size), value: now / size }) : "";
    const take = button(say("As written"), () => Live.attempt(node, null).then(refresh), { hidden: !Live.isTried(node) });
    const wrong = make("small", { className: "wrong", role: "alert" });
    const asWritten = Live.box(node, stand, Live.written).text;
    const attempt = (value) => {
      const fits = Live.allowed(node, value);
      input.setAttribute("aria-invalid", String(!fits));
      wrong.textContent = fits ? "" : definition(node).unit.startsWith("share") ? say("Write more than 0, at most 100.") : say("Write a number from 0 up.");
      if (!fits) return;
      // A box put back to what it showed at first tries nothing.
      Live.attempt(node, input.value === asWritten ? null : value).then(() => { take.hidden = !Live.isTried(node); });
    };
    input.addEventListener("change", () => {
      const value = parse(input.value);
      attempt(value);
      if (slider && Number.isFinite(value)) slider.value = value / size;
    });
    if (slider)
      slider.addEventListener("input", () => {
        input.value = Live.box(node, stand).written(Number(slider.value));
        attempt(Number(slider.value) * size);
      });
    const made = make("p", { className: "field" }, make("label", { htmlFor: id, textContent: words }), input, named, slider, take, wrong);
    /* What the box stands in for has followed another box. */
    made.follow = () => {
      if (slider && document.activeElement === slider) return;
      ({ label: unit, text, size, parse } = Live.box(node, stand));
      input.value = text;
      named.textContent = unit;
      const value = Live.value(stand);
      if (slider && value > 0) Object.assign(slider, ends(node, NaN, value, size), { value: value / size });
      take.hidden = !Live.isTried(node);
    };
    return made;
  }

  /* A slider from half of what is written to twice, in steps of a two-hundredth. */
  function ends(node, base, now, size) {
    const middle = Number.isFinite(base) && base > 0 ? base : now;
    const most = definition(node).unit.startsWith("share") ? Math.min(2 * middle, 1) : 2 * middle;
    return { min: middle / 2 / size, max: most / size, step: (most - middle / 2) / size / 200 };
  }

  const refresh = () => {
    if (!panel.hidden && path.length) open(path.at(-1));
    document.querySelectorAll("details:is(.try, .made)[open]").forEach(fill);
  };

  /* Where a table says what all inputs become: a line for each of its rows, whose last figure
     takes the place of the input that is asked for. */
  function listed(strip) {
    const { asked } = strip.dataset;
    if (!asked || strip.querySelector("[data-try]")) return;
    const rows = [...strip.querySelector("tbody").rows].filter((row) => row.lastElementChild.querySelector("a"));
    const list = make("ul", {}, ...rows.map((row) => {
      const [table, figure, n] = Live.reference(row.lastElementChild.querySelector("a"));
      const line = make("li", { textContent: row.cells[0].textContent });
      Object.assign(line.dataset, { try: `${table}.${asked}.${n}`, now: `${table}.${figure}.${n}` });
      return line;
    }));
    strip.querySelector("summary").after(list);
  }

  /* The strip: one field for each input that the page names. */
  function fill(strip) {
    listed(strip);
    const node = (text) => text.split(".").map((part, n) => (n === 2 ? Number(part) : part));
    const fields = [...strip.querySelectorAll("[data-try]")].map((line) => {
      const input = node(line.dataset.try);
      const now = line.dataset.now ? node(line.dataset.now) : standIn(input);
      return [line, field(input, (line.dataset.label ||= line.textContent.trim()), now)];
    });
    for (const [line, made] of fields) line.replaceChildren(made);
  }

  /* What is tried, over the page, with the way back and the lines to change. Its buttons stay the
     same ones while values move, so that no press on one of them is lost. */
  const kept = new Map();
  const values = make("ul");
  const lines = make("ul");
  bar.append(
    make("p", {}, make("b", { textContent: `${say("You are trying other values.")} ` }), make("span", { className: "how-near", textContent: say("Numbers that follow are marked; words, headings and pictures in grey are as written. Ends of intervals and chances follow along straight lines from what was drawn, so they are near, the nearer the smaller the change.") })),
    values,
    make("p", { className: "acts" }, button(say("Reset"), () => Live.reset().then(refresh))),
    make("details", {}, make("summary", { textContent: say("Write this down") }), lines));

  function show(items) {
    bar.hidden = !items.length;
    if (bar.hidden) return;
    const names = items.map(({ node }) => node.join("."));
    for (const name of [...kept.keys()].filter((name) => !names.includes(name))) {
      kept.get(name).remove();
      kept.delete(name);
    }
    items.forEach(({ node }, n) => {
      const item = kept.get(names[n]) ?? make("li", {}, button("", go(node)), make("small"));
      kept.set(names[n], item);
      item.firstChild.textContent = `${label(node)} ${Live.shown(node)}`;
      item.lastChild.textContent = ` ${say("as written: {before}", { before: asWritten(node) })}`;
      if (!item.isConnected) values.append(item);
    });
    lines.replaceChildren(...items.map(({ node }) => lineOf(node)));
  }

  /* The line of a file to change, and what to write there. */
  function lineOf(node) {
    const [file, line, column, text] = rowOf(node).origins[node[1]] ?? [];
    const value = Live.value(node);
    const shown = text ? rewritten(text, Live.value(node, Live.written), value) : null;
    if (!file) return make("li", { textContent: say("{name}: {value}. No line of a file says this by itself.", { name: label(node), value: Live.shown(node) }) });
    return make("li", {}, make("a", { href: lineHref(file, line), textContent: `${file}${line ? `:${line}:${column}` : ""}` }), " ",
      text ? make("del", { textContent: text }) : "", " ", make("ins", { textContent: shown ?? Live.shown(node) }));
  }

  /* The text as written with another number: "13.60/kg" becomes "16.30/kg". */
  function rewritten(text, before, after) {
    const found = /\d[\d,]*\.?\d*/.exec(text);
    if (!found) return null;
    const number = Number(found[0].replaceAll(",", ""));
    const places = Math.max(2, (found[0].split(".")[1] ?? "").length);
    const put = (x) => text.replace(found[0], String(Number(x.toFixed(places))));
    const near = (a, b) => Math.abs(a - b) <= 1e-9 * Math.abs(b);
    // A loss that is written, where its yield is the input.
    if (text.includes("%") && near(1 - number / 100, before) && !near(number / 100, before)) return put(100 * (1 - after));
    return before && number ? put((number * after) / before) : null;
  }

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !panel.hidden && !document.querySelector("dialog[open]")) close();
  });
  document.addEventListener("tried", redraw);
  document.addEventListener("tried", () => {
    for (const box of document.querySelectorAll("details.made[open] .field")) box.follow?.();
  });

  return { open, fill, bar: show };
})();
