"use strict";
/* Two to five rows of a list side by side; which ones is kept in the address: ?cuts.pick=shank,neck */
(() => {
  const MOST = 5;

  function make(name, properties, ...children) {
    const node = Object.assign(document.createElement(name), properties);
    node.append(...children);
    return node;
  }

  class Picks {
    constructor(table) {
      this.table = table;
      this.key = `${table.id}.pick`;
      this.heads = Array.from(table.tHead.rows[0].cells);
      this.boxes = new Map();
      for (const row of table.tBodies[0].rows) this.offer(row);
      this.status = make("span", {});
      this.status.setAttribute("role", "status");
      this.clear = make("button", { type: "button", textContent: say("Pick none") });
      this.clear.addEventListener("click", () => this.take([]));
      this.place = make("div", { className: "beside" });
      const line = make("p", { className: "picks" }, this.status, " ", this.clear);
      table.closest(".table").prepend(line, this.place);
      window.addEventListener("popstate", () => this.read());
      this.read();
    }

    offer(row) {
      const link = row.cells[0].querySelector("a[href]");
      const name = /([^/]+)\.html/.exec(link?.getAttribute("href") ?? "")?.[1];
      if (!name) return;
      const box = make("input", { type: "checkbox", className: "pick" });
      box.setAttribute("aria-label", say("Side by side: {name}", { name: link.textContent }));
      box.addEventListener("change", () => {
        const others = this.picked.filter((each) => each !== name);
        this.take(box.checked ? [...others, name] : others);
      });
      row.cells[0].prepend(box);
      this.boxes.set(name, { box, row, link });
    }

    read() {
      const asked = new URLSearchParams(location.search).get(this.key) ?? "";
      this.show(asked.split(",").filter((name) => this.boxes.has(name)).slice(0, MOST));
    }

    take(names) {
      this.show(names);
      const query = new URLSearchParams(location.search);
      if (names.length) query.set(this.key, names.join(","));
      else query.delete(this.key);
      const search = query.toString();
      history.replaceState(null, "", `${location.pathname}${search && `?${search}`}${location.hash}`);
    }

    show(names) {
      this.picked = names;
      for (const [name, { box }] of this.boxes) {
        box.checked = names.includes(name);
        box.disabled = !box.checked && names.length >= MOST;
      }
      const more = names.length === 1 ? say("1 picked; pick one more.") : say("{count} side by side.", { count: names.length });
      this.status.textContent = names.length ? more : say("Pick 2 to {most} to see them side by side.", { most: MOST });
      this.clear.hidden = !names.length;
      this.place.replaceChildren(...(names.length > 1 ? [this.compared(names)] : []));
    }

    /* The rows as columns: every head with the cells below it, as the list writes them. */
    compared(names) {
      const picked = names.map((name) => this.boxes.get(name));
      const heads = picked.map(({ link }) => this.head(link.cloneNode(true), "col"));
      const lines = this.heads.slice(1).map((head, n) => {
        const cells = picked.map(({ row }) => {
          const copies = Array.from(row.cells[n + 1].childNodes, (node) => node.cloneNode(true));
          return make("td", { className: head.className }, ...copies);
        });
        return make("tr", {}, this.head(head.textContent.trim(), "row"), ...cells);
      });
      const caption = make("caption", { textContent: say("{table}, side by side", { table: this.table.caption.textContent }) });
      const top = make("thead", {}, make("tr", {}, make("td", {}), ...heads));
      const table = make("table", {}, caption, top, make("tbody", {}, ...lines));
      const scroll = make("div", { className: "scroll", tabIndex: 0 }, table);
      scroll.setAttribute("role", "group");
      scroll.setAttribute("aria-label", caption.textContent);
      return scroll;
    }

    head(content, scope) {
      return make("th", { scope }, content);
    }
  }

  for (const table of document.querySelectorAll("table.picks-rows")) new Picks(table);
})();
