"use strict";
/* Draws the pictures: the kind's specification from chart-kinds.js, the rows from the page. The
   library is large, so it is fetched when the page itself has been painted. */
globalThis.Pictures = (() => {
  const page = document.documentElement;
  const NS = "http://www.w3.org/2000/svg";
  /* Pixels: a screen that is narrow, what the margins leave of A4 (182 mm at 96 to the inch),
     and a letter of a label, widely taken. */
  const NARROW = 480;
  const SHEET = 688;
  /* Beside its table. */
  const COLUMN = 400;
  const LETTER = 6.3;

  function element(name, attributes, parent) {
    const node = document.createElementNS(NS, name);
    for (const key in attributes) node.setAttribute(key, attributes[key]);
    parent.append(node);
    return node;
  }

  /* Fills that stay told apart without colour: each by its ground and its lines. */
  const HATCHES = { "hatch-gain": ["var(--part-5)", "var(--hatch)"], "hatch-clash": ["var(--paper)", "var(--accent)"] };
  function hatch() {
    const svg = element("svg", { width: 0, height: 0, "aria-hidden": "true", class: "defs" }, document.body);
    // Behind the last sheet of paper it would ask for one more.
    document.body.prepend(svg);
    const size = { width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" };
    for (const [id, [ground, lines]] of Object.entries(HATCHES)) {
      const pattern = element("pattern", { id, ...size }, svg);
      element("rect", { width: 6, height: 6, fill: ground }, pattern);
      element("rect", { width: 2, height: 6, fill: lines }, pattern);
    }
  }

  /* Put the page's words for the axes where the specification names them. */
  function worded(node, units) {
    if (typeof node === "string") {
      const name = /^\{([\w-]+)\}$/.exec(node);
      return name ? units[name[1]] ?? null : node;
    }
    if (Array.isArray(node)) return node.map((item) => worded(item, units));
    if (node === null || typeof node !== "object") return node;
    return Object.fromEntries(Object.entries(node).map(([key, value]) => [key, worded(value, units)]));
  }

  /* The title of an axis is as long as its language makes it: beside names a plot is narrow. */
  function broken(node, letters) {
    if (Array.isArray(node)) node.forEach((item) => broken(item, letters));
    else if (node !== null && typeof node === "object") {
      if (typeof node.x?.title === "string") node.x.title = lines(node.x.title, letters);
      Object.values(node).forEach((item) => broken(item, letters));
    }
  }

  const lines = (words, letters) =>
    words.split(" ").reduce((found, word) => {
      const longer = found.length ? `${found.at(-1)} ${word}` : word;
      return longer.length > letters || !found.length ? [...found, word] : [...found.slice(0, -1), longer];
    }, []);

  const longest = (rows, field) => Math.max(0, ...rows.map((row) => String(row[field] ?? "").length));

  /* What follows the width of the picture: letters of a line of a name and its pixels, names
     side by side in the legend, pixels of these, pixels for the words behind bars. */
  function measures(spec, rows, width) {
    const colours = spec.layer.map((layer) => layer.encoding?.color).filter((color) => color?.field && color.legend !== null);
    const most = Math.max(0, ...colours.map((color) => longest(rows, color.field)));
    const symbol = 22 + Math.sqrt(colours[0]?.legend?.symbolSize ?? CHARTS.config.legend.symbolSize);
    /* The legend begins where the lanes do, right of their names. */
    const free = width - LETTER * Math.min(letters(width), longest(rows, spec.usermeta?.lane));
    return {
      letters: letters(width),
      names: 7.3 * letters(width),
      across: Math.max(1, Math.floor(free / (most * LETTER + symbol))),
      legend: free - symbol,
      room: 12 + 1.2 * LETTER * longest(rows, spec.usermeta?.ends),
      /* Names as long as they are, until they are found to have no room. */
      numbered: false,
    };
  }

  /* The names of days and of months in the language of the page; 1 Oct 2023 is a Sunday. */
  const named = (part, length, count, day) => {
    const words = new Intl.DateTimeFormat(page.lang, { [part]: length, timeZone: "UTC" });
    return Array.from({ length: count }, (_, n) => words.format(day(n)));
  };
  const weekdays = (length) => named("weekday", length, 7, (n) => Date.UTC(2023, 9, n + 1));
  const months = (length) => named("month", length, 12, (n) => Date.UTC(2023, n, 1));

  /* Days and months in the language of the pages, the clock as the kitchen reads it. */
  function times() {
    const periods = page.dataset.periods?.split("|");
    const time = periods ? "%-I:%M %p" : "%H:%M";
    return {
      dateTime: `%x, ${time}`, date: "%x", time, periods: periods ?? ["AM", "PM"],
      days: weekdays("long"), shortDays: weekdays("short"),
      months: months("long"), shortMonths: months("short"),
    };
  }

  const letters = (width) => (width < 360 ? 17 : width < NARROW ? 22 : 26);
  /* Pixels for the lanes of a picture, each with room for the name of most lines. */
  function high(rows, { lane, step, air = 8 }, width) {
    const names = [...new Set(rows.map((row) => String(row[lane])))];
    const line = new RegExp(`.{1,${letters(width)}}(\\s+|$)`, "g");
    const lines = Math.max(...names.map((name) => name.match(line)?.length ?? 1));
    return names.length * Math.max(step, air + 13 * lines);
  }

  function options(width) {
    const config = structuredClone(CHARTS.config);
    config.axis.labelLimit = { expr: "names" };
    Object.assign(config.legend, { columns: { expr: "across" }, labelLimit: { expr: "legend" } });
    if (width < NARROW) {
      config.axisQuantitative.tickCount = 4;
      config.axisTemporal.tickCount = 3;
    }
    return {
      config,
      mode: "vega-lite",
      renderer: "svg",
      actions: false,
      ast: true,
      defaultStyle: false,
      tooltip: { disableDefaultStyle: true },
      formatLocale: {
        decimal: page.dataset.decimal ?? ".",
        thousands: page.dataset.group ?? ",",
        grouping: [3],
        currency: ["", ""],
        percent: new Intl.NumberFormat(page.lang, { style: "percent" }).format(0).replace("0", ""),
      },
      timeFormatLocale: times(),
    };
  }

  const meet = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  const shifted = ({ left, right, top, bottom }, [across, down]) =>
    ({ left: left + across, right: right + across, top: top + down, bottom: bottom + down });

  /* Where a name may go: where it is drawn, a little above or below, the same at the other side of
     its point, and over or under the point. */
  function ways(label) {
    const { width, height } = label.getBoundingClientRect();
    const side = label.getAttribute("text-anchor") === "end" ? 1 : -1;
    const [other, middle, little] = [side * (width + 16), side * (width / 2 + 8), 0.7 * height];
    return [[0, 0], [0, -little], [0, little], [other, 0], [other, -little], [other, little], [middle, -height], [middle, height]];
  }

  /* Of labels that would cover each other only the first is shown, and none that would leave
     the picture or cover its axis; the table has them all. The names of points, where the kind has
     them, move out of each other's way. Whether every label is shown. */
  function thin(plot, named) {
    const shown = [];
    const frame = plot.querySelector(".role-frame .background").getBoundingClientRect();
    const edge = plot.getBoundingClientRect().right;
    const points = named ? [...plot.querySelectorAll(".mark-symbol.role-mark path")].map((point) => point.getBoundingClientRect()) : [];
    const names = named ? [...plot.querySelectorAll(".mark-text.role-mark")].at(-1) : null;
    const inside = (box) => box.left >= frame.left - 1 && box.right <= edge + 1;
    const between = (box) => box.top >= frame.top - 2 && box.bottom <= frame.bottom + 2 && !points.some((point) => meet(box, point));
    let all = true;
    for (const label of plot.querySelectorAll(".mark-text.role-mark text")) {
      if (label.getAttribute("opacity") === "0") continue;
      const moves = label.parentNode === names;
      label.style.translate = "";
      const drawn = label.getBoundingClientRect();
      const way = (moves ? ways(label) : [[0, 0]]).find((found) => {
        const box = shifted(drawn, found);
        return inside(box) && !shown.some((other) => meet(box, other)) && (!moves || between(box));
      });
      label.setAttribute("visibility", way ? "visible" : "hidden");
      all &&= Boolean(way);
      if (!way) continue;
      if (moves) label.style.translate = `${way[0]}px ${way[1]}px`;
      shown.push(shifted(drawn, way));
    }
    return all;
  }

  /* The names of points by number, under a picture without room for them all. */
  function keyOf(figure, rows, named) {
    const key = document.createElement("ol");
    Object.assign(key, { className: "key", hidden: true });
    for (const row of rows.filter((row) => row.number)) key.append(Object.assign(document.createElement("li"), { textContent: row[named] }));
    figure.querySelector(".plot").after(key);
    return key;
  }

  /* What a picture shows. Rows are packed: the names of fields once, then the values of every
     row that has these fields, [] where a value is that of the row above, [n] where it heads row n
     of the picture's own table. */
  function data(figure) {
    const packed = JSON.parse(figure.querySelector("script").textContent);
    const own = figure.querySelector("details tbody")?.rows;
    const said = (value, over) => !Array.isArray(value) ? value : value.length ? heading(own[value[0]]) : over;
    const rows = packed.rows.flatMap(([names, ...values]) => {
      let above = [];
      return values.map((row) => {
        above = row.map((value, n) => said(value, above[n]));
        return Object.fromEntries(names.map((name, n) => [name, above[n]]));
      });
    });
    return packed.beside ? { ...packed, rows, live: readOff(packed, rows) } : { ...packed, rows };
  }

  /* What heads a row of a table, without a note. */
  const heading = (row) => (row.cells[0].querySelector("a") ?? row.cells[0]).firstChild.textContent;

  /* A bar of a waterfall begins where the one before it ends, a total at nothing. */
  const startOf = (rows, n) => (n && rows[n].kind !== "total" ? rows[n - 1].end : 0);

  /* Bars whose names, texts and figures are in the table beside them. The links to their figures. */
  function readOff({ beside, at }, rows) {
    const lines = document.getElementById(beside).tBodies[0].rows;
    return rows.map((row, n) => {
      const way = lines[at[n]].cells[1].querySelector("a");
      Object.assign(row, { step: heading(lines[at[n]]), start: startOf(rows, n), text: way.dataset.text ?? way.firstChild.textContent });
      return way;
    });
  }

  /* The sentence of a picture, for who has no scripts, becomes its name. */
  function describe(figure) {
    const plot = figure.querySelector(".plot");
    plot.setAttribute("role", "img");
    plot.setAttribute("aria-label", plot.textContent);
    plot.textContent = "";
  }

  /* Where a picture can't be drawn its rows are shown, or what it says in a sentence. */
  function undrawn(figure, error) {
    figure.dataset.drawn = "no";
    const rows = figure.querySelector("details");
    if (rows) rows.open = true;
    else figure.querySelector(".plot").textContent = figure.querySelector(".plot").getAttribute("aria-label");
    console.error(error);
  }

  /* Marks over the rows of a role of which there are none would warn of an axis without an end,
     and their legend, without an entry, leave the picture no height. */
  function filled(layers, rows) {
    const roles = new Set(rows.map((row) => row.role));
    const roleOf = ({ filter }) => /^datum\.role == '([\w-]+)'$/.exec(filter)?.[1];
    const rolesOf = ({ transform = [] }) => transform.map(roleOf).filter(Boolean);
    return layers.filter((layer) => rolesOf(layer).every((role) => roles.has(role)));
  }

  async function draw(figure) {
    const plot = document.createElement("div");
    plot.setAttribute("aria-hidden", "true");
    figure.querySelector(".plot").append(plot);
    const { rows, units, options: more } = data(figure);
    const spec = worded(CHARTS.kinds[figure.dataset.kind], units);
    spec.layer = filled(spec.layer, rows);
    const { lane, named } = spec.usermeta ?? {};
    broken(spec, ((lane ? 0.6 : 0.8) * plot.clientWidth) / LETTER);
    const key = named ? keyOf(figure, rows, named) : null;
    if (lane) spec.height = high(rows, spec.usermeta, plot.clientWidth);
    const measured = (width) => Object.entries(measures(spec, rows, width));
    spec.params = measured(plot.clientWidth).map(([name, value]) => ({ name, value }));
    spec.datasets = { rows };
    Object.assign(spec, more);
    try {
      const { view } = await drawChart(plot, spec, options(plot.clientWidth));
      const settle = async () => {
        const whole = thin(plot, named);
        if (!named) return;
        const numbered = !whole || view.signal("numbered");
        key.hidden = !numbered;
        if (whole) return;
        await view.signal("numbered", true).runAsync();
        thin(plot, named);
      };
      await settle();
      view.addResizeListener(() => requestAnimationFrame(settle));
      const fit = (width, lanes = spec.usermeta) => {
        for (const [name, value] of measured(width)) view.signal(name, value);
        if (lane && !more?.height) view.height(high(rows, lanes, width));
        return view.signal("width", width).runAsync().then(settle);
      };
      /* Its height follows from the width, and moves it no more. */
      let wide = plot.clientWidth;
      const refit = () => plot.clientWidth && fit((wide = plot.clientWidth));
      new ResizeObserver(() => plot.clientWidth !== wide && refit()).observe(plot);
      /* Paper is as wide as it is, whatever the screen that it is printed from. */
      const beside = { lane, step: 26, air: 4 };
      window.addEventListener("beforeprint", () => (figure.closest(".pair") ? fit(COLUMN, beside) : fit(SHEET)));
      window.addEventListener("afterprint", refit);
      figure.dataset.drawn = "yes";
      const show = (moved) => view.data("rows", moved).runAsync().then(settle);
      figure.addEventListener("rows", ({ detail }) => show(detail));
      if (newest.has(figure)) show(newest.get(figure));
    } catch (error) {
      undrawn(figure, error);
    }
  }

  /* Rows may be moved before there is a picture of them. */
  const newest = new Map();
  const figures = [...document.querySelectorAll("figure[data-kind]")];
  for (const figure of figures) {
    describe(figure);
    figure.addEventListener("rows", ({ detail }) => newest.set(figure, detail));
  }

  /* A picture in a part that is folded away has no room yet: it is drawn once it has. */
  const room = new ResizeObserver((changed) => {
    for (const { target: figure, contentRect } of changed) {
      if (!contentRect.width) continue;
      room.unobserve(figure);
      draw(figure);
    }
  });

  async function start() {
    try {
      await Promise.all(["chart-bundle.js", "chart-kinds.js"].map(Page.script));
    } catch (error) {
      return figures.forEach((figure) => undrawn(figure, error));
    }
    hatch();
    for (const figure of figures) room.observe(figure);
  }

  /* The frame after the next one: the first has been painted by then. */
  requestAnimationFrame(() => requestAnimationFrame(start));

  return { data, startOf };
})();
