"use strict";
/* Sorts, filters and pages the lists; the view is kept in the address, so that it can be sent on. */
(() => {
  /* A list of up to so many rows is whole; a longer one is turned in short pages. */
  const WHOLE = 40, PAGE = 25;
  const words = new Intl.Collator(document.documentElement.lang, { numeric: true, sensitivity: "base" });
  const { decimal = "." } = document.documentElement.dataset;
  const notOfANumber = new RegExp(`[^-0-9${decimal}]`, "g");
  const LIGATURES = { œ: "oe", æ: "ae", ß: "ss" };
  const plain = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase()
    .replace(/[œæß]/g, (letter) => LIGATURES[letter]);

  function make(name, properties, ...children) {
    const node = Object.assign(document.createElement(name), properties);
    node.append(...children);
    return node;
  }

  class List {
    constructor(table) {
      this.table = table;
      this.body = table.tBodies[0];
      this.rows = Array.from(this.body.rows);
      this.heads = Array.from(table.tHead.rows[0].cells);
      this.input = document.getElementById(`${table.id}-filter`);
      this.count = this.input?.parentElement.querySelector(".count");
      this.texts = null;
      this.state = { sort: "", q: "", page: 1 };
      this.listen();
      this.addPager();
      this.read();
    }

    listen() {
      for (const head of this.heads)
        head.querySelector("button")?.addEventListener("click", () => this.turn(head));
      this.input?.addEventListener("input", () => this.change({ q: this.input.value, page: 1 }));
      window.addEventListener("beforeprint", () => this.body.replaceChildren(...this.view));
      window.addEventListener("afterprint", () => this.show());
      window.addEventListener("popstate", () => this.read());
    }

    addPager() {
      this.back = make("button", { type: "button", textContent: say("Previous") });
      this.next = make("button", { type: "button", textContent: say("Next") });
      this.where = make("span", { className: "where" });
      this.where.setAttribute("role", "status");
      this.pager = make("nav", { className: "pager" }, this.back, this.where, this.next);
      this.pager.setAttribute("aria-label", say("Pages of {table}", { table: this.table.caption.textContent }));
      this.table.closest(".scroll").after(this.pager);
      this.back.addEventListener("click", () => this.change({ page: this.state.page - 1 }));
      this.next.addEventListener("click", () => this.change({ page: this.state.page + 1 }));
    }

    /* The address: ?menu.sort=-margin&menu.q=chuck&menu.page=2 */
    read() {
      const query = new URLSearchParams(location.search);
      const value = (name) => query.get(`${this.table.id}.${name}`) ?? "";
      this.state = { sort: value("sort"), q: value("q"), page: Number(value("page")) || 1 };
      if (this.input) this.input.value = this.state.q;
      this.apply();
    }

    write() {
      const query = new URLSearchParams(location.search);
      for (const name of ["sort", "q", "page"]) {
        const value = this.state[name];
        const key = `${this.table.id}.${name}`;
        if (!value || value === 1) query.delete(key);
        else query.set(key, value);
      }
      const search = query.toString();
      history.replaceState(null, "", `${location.pathname}${search && `?${search}`}${location.hash}`);
    }

    change(part) {
      Object.assign(this.state, part);
      this.apply();
      this.write();
    }

    /* Figures first go from high to low, words from A to Z; the third press restores the order. */
    turn(head) {
      const key = head.dataset.key;
      const order = head.classList.contains("num") ? [`-${key}`, key, ""] : [key, `-${key}`, ""];
      this.change({ sort: order[(order.indexOf(this.state.sort) + 1) % 3], page: 1 });
    }

    apply() {
      this.view = this.sorted(this.matching());
      this.size = this.view.length > WHOLE ? PAGE : WHOLE;
      const pages = Math.max(1, Math.ceil(this.view.length / this.size));
      this.state.page = Math.min(Math.max(1, this.state.page), pages);
      this.mark();
      this.show();
    }

    matching() {
      const asked = plain(this.state.q).split(/\s+/).filter(Boolean);
      if (!asked.length) return this.rows.slice();
      this.texts ??= this.rows.map((row) => plain(row.textContent));
      return this.rows.filter((_, n) => asked.every((word) => this.texts[n].includes(word)));
    }

    sorted(rows) {
      const down = this.state.sort.startsWith("-");
      const column = this.heads.findIndex((head) => head.dataset.key === this.state.sort.replace(/^-/, ""));
      if (column < 0) return rows;
      const numeric = this.heads[column].classList.contains("num");
      const keyed = rows.map((row) => [this.key(row.cells[column], numeric), row]);
      keyed.sort(([a], [b]) => (numeric ? this.byFigure(a, b, down) : words.compare(a, b) * (down ? -1 : 1)));
      return keyed.map(([, row]) => row);
    }

    key(cell, numeric) {
      const { s } = cell.dataset;
      if (numeric) return s === undefined ? this.figure(cell) : s === "" ? NaN : Number(s);
      return s ?? cell.textContent.trim();
    }

    /* The number that a cell shows, in a column whose numbers are all in one unit. */
    figure(cell) {
      const text = (cell.querySelector("a") ?? cell).firstChild?.textContent ?? "";
      const digits = text.replace(/\u2212/g, "-").replace(notOfANumber, "").replace(decimal, ".");
      return digits === "" ? NaN : Number(digits);
    }

    /* A row without a figure comes last whichever way the list is sorted. */
    byFigure(a, b, down) {
      if (Number.isNaN(a) || Number.isNaN(b)) return Number.isNaN(a) - Number.isNaN(b);
      return down ? b - a : a - b;
    }

    mark() {
      for (const head of this.heads) {
        const key = head.dataset.key;
        if (!key) continue;
        const way = { [key]: "ascending", [`-${key}`]: "descending" }[this.state.sort];
        if (way) head.setAttribute("aria-sort", way);
        else head.removeAttribute("aria-sort");
      }
    }

    show() {
      const from = (this.state.page - 1) * this.size;
      const part = this.view.slice(from, from + this.size);
      this.body.replaceChildren(...(part.length ? part : [this.nothing()]));
      this.table.classList.add("ready");
      const total = this.view.length;
      this.pager.hidden = total <= WHOLE;
      this.back.disabled = from === 0;
      this.next.disabled = from + this.size >= total;
      this.where.textContent = say("{first}–{last} of {total}", { first: from + 1, last: from + part.length, total });
      const all = this.rows.length === 1 ? say("1 row") : say("{count} rows", { count: this.rows.length });
      if (this.count)
        this.count.textContent = total === this.rows.length ? all : say("{total} of {all}", { total, all });
    }

    nothing() {
      const words = say("No row has all of these words. Clear the box to see all {count}.", { count: this.rows.length });
      const cell = make("td", { colSpan: this.heads.length, textContent: words });
      return make("tr", { className: "none" }, cell);
    }
  }

  document.querySelectorAll("table.list").forEach((table) => new List(table));
})();
