"use strict";
/* Search from every page: "/" opens it; the records come with search-data.js on first use.
   What is searched is in the address while the box is open, ?search=milk&search.kind=Plate, so
   that it can be sent on, and Back from a page that was found leads to the results again. */
(() => {
  const root = document.documentElement.dataset.root;
  const LIMIT = 30;
  const KIND_OF = 1;
  /* Of a word in a title, in the rest, in the kind of page; twin of `builder/pages/search_words.py`. */
  const WEIGHTS = [0, 0.5, 1];
  const EXACT = 0, PLURAL = 0.25, PREFIX = 1, TYPO = 3;
  /* What a method costs more than a record that is as near, and words that are together less. */
  const METHOD = 2, TOGETHER = -1;
  /* Of so many of the nearest it is looked whether words are together. */
  const CLOSE = 200;

  const LIGATURES = { œ: "oe", æ: "ae", ß: "ss" };

  /* Words without accents, capitals and ligatures; most have no accent, and the rest of the work takes long. */
  const split = (text) => {
    if (/^[ -~]*$/.test(text)) return text.toLowerCase().match(/[a-z0-9]+/g) ?? [];
    return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase()
      .replace(/[œæß]/g, (letter) => LIGATURES[letter]).match(/[\p{L}\p{N}]+/gu) ?? [];
  };
  const stem = (word) => (word.length > 3 ? word.replace(/(?<=o)es$|[sx]$/, "") : word);
  const allowed = (word) => (/\d/.test(word) || word.length < 4 ? 0 : word.length < 6 ? 1 : 2);

  /* Fewest insertions, deletions, changes and swaps of neighbours that turn the word into the
     token or, at half a step more, into its beginning; Infinity beyond the limit. */
  function distance(word, token, limit) {
    if (token.length < word.length - limit) return Infinity;
    const end = Math.min(token.length, word.length + limit);
    let before = [], above = Array.from({ length: end + 1 }, (_, n) => n);
    for (let i = 1; i <= word.length; i++) {
      const row = [i];
      let least = i;
      for (let j = 1; j <= end; j++) {
        const same = word[i - 1] === token[j - 1];
        let cost = Math.min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0 : 1));
        if (i > 1 && j > 1 && word[i - 1] === token[j - 2] && word[i - 2] === token[j - 1])
          cost = Math.min(cost, before[j - 2] + 1);
        row.push(cost);
        if (cost < least) least = cost;
      }
      if (least > limit) return Infinity;
      before = above;
      above = row;
    }
    const whole = end === token.length ? above[end] : Infinity;
    const start = Math.min(...above);
    const best = Math.min(whole, start + 0.5);
    return best > limit + 0.5 ? Infinity : best;
  }

  /* The builder has listed every word with the records that have it, so that nothing is built
     here: what a word is found in is read off once it is asked for. */
  class Index {
    constructor(records, words, places, small) {
      this.records = records;
      this.words = words.split(" ");
      this.places = places.split(" ");
      this.small = new Set(small);
      this.kinds = new Map();
      for (const [, kind] of records) if (!this.kinds.has(kind)) this.kinds.set(kind, this.kinds.size);
    }

    get stems() {
      return (this.stemmed ??= this.words.map(stem));
    }

    /* The records that have a word, by rising number, each with its weight. */
    found(n) {
      if (typeof this.places[n] !== "string") return this.places[n];
      let id = 0;
      return (this.places[n] = this.places[n].split(",").map((step) => {
        const code = parseInt(step, 36);
        id += Math.floor(code / WEIGHTS.length);
        return [id, WEIGHTS[code % WEIGHTS.length]];
      }));
    }

    /* The record's cost for one word of the question: the nearest of its tokens. A word that is
       on some page is no typing mistake. */
    matches(word) {
      const found = new Map();
      const limit = this.words.includes(word) ? 0 : allowed(word);
      const base = stem(word);
      this.words.forEach((token, n) => {
        const cost = this.cost(word, base, token, this.stems[n], limit);
        if (cost === Infinity) return;
        for (const [id, weight] of this.found(n)) if (!(found.get(id) <= cost + weight)) found.set(id, cost + weight);
      });
      return found;
    }

    cost(word, base, token, tokenBase, limit) {
      if (token === word) return EXACT;
      if (tokenBase === base) return PLURAL;
      if (token.startsWith(word)) return PREFIX + (token.length - word.length) / 100;
      return limit ? TYPO * distance(word, token, limit) : Infinity;
    }

    /* What is asked, without the words that are in too many names. */
    asked(words) {
      const large = words.filter((word) => !this.small.has(word));
      return large.length ? large : words;
    }

    /* The records that have most words of the question, all of them if any record has. */
    find(question) {
      const all = split(question);
      const words = this.asked(all);
      const totals = new Map();
      for (const word of words)
        for (const [id, cost] of this.matches(word)) {
          const [count, total] = totals.get(id) ?? [0, 0];
          totals.set(id, [count + 1, total + cost]);
        }
      let most = 0;
      for (const [count] of totals.values()) most = Math.max(most, count);
      const together = words.length > 1 ? ` ${all.join(" ")} ` : null;
      return { found: this.sorted(totals, most, together), every: most === words.length };
    }

    has(id, together) {
      const [title, , , extra] = this.records[id];
      return [title, extra].some((text) => ` ${split(text).join(" ")} `.includes(together));
    }

    /* Of equally near ones the kinds come as the records do, and short names first. */
    sorted(totals, most, together) {
      const scored = [];
      for (const [id, [count, total]] of totals) {
        if (count < most) continue;
        const [title, kind, path] = this.records[id];
        scored.push([total + (path.startsWith("methods/") ? METHOD : 0), this.kinds.get(kind), title.length, id]);
      }
      const nearer = (a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3];
      scored.sort(nearer);
      if (!together) return scored.map(([, , , id]) => this.records[id]);
      const first = scored.splice(0, CLOSE);
      for (const each of first) if (this.has(each[3], together)) each[0] += TOGETHER;
      first.sort(nearer);
      return [...first, ...scored].map(([, , , id]) => this.records[id]);
    }
  }

  function make(name, attributes, ...children) {
    const node = document.createElement(name);
    for (const key in attributes) node.setAttribute(key, attributes[key]);
    node.append(...children);
    return node;
  }

  const input = make("input", {
    id: "search-input", type: "text", role: "combobox", autocomplete: "off", spellcheck: "false",
    enterkeyhint: "go", "aria-expanded": "false", "aria-controls": "search-results", "aria-autocomplete": "list",
  });
  const label = make("label", { for: "search-input" }, say("Search by name, cut number, supplier or ingredient"));
  const close = make("button", { type: "button" }, `${say("Close")} `, make("kbd", { "aria-hidden": "true" }, "Esc"));
  const only = make("select", { "aria-label": say("Kind of page") });
  const list = make("ul", { id: "search-results", role: "listbox", "aria-label": say("Results") });
  const status = make("p", { role: "status" });
  const dialog = make("dialog", { class: "search", "aria-label": say("Search") },
    make("div", { class: "ask" }, label, input, close), only, list, status);
  let index = null;
  let active = -1;
  /* Enter came before the records: it is obeyed as soon as they are here. */
  let waiting = false;
  let loading = false;
  /* The kind that alone is shown; "" shows all. */
  let kind = "";

  function read() {
    const query = new URLSearchParams(location.search);
    input.value = query.get("search") ?? "";
    kind = query.get("search.kind") ?? "";
    if (input.value) open();
    else if (dialog.open) dialog.close();
  }

  function write() {
    const query = new URLSearchParams(location.search);
    for (const [name, value] of [["search", input.value.trim()], ["search.kind", kind]]) {
      if (value && dialog.open) query.set(name, value);
      else query.delete(name);
    }
    const search = query.toString();
    history.replaceState(history.state, "", `${location.pathname}${search && `?${search}`}${location.hash}`);
  }

  function load() {
    return new Promise((done, failed) => {
      const script = make("script", { src: `${root}assets/search-data.js` });
      script.onload = done;
      script.onerror = failed;
      document.head.append(script);
    });
  }

  async function open() {
    if (!dialog.isConnected) document.body.append(dialog);
    if (!dialog.open) dialog.showModal();
    input.select();
    if (index) show();
    if (index || loading) return;
    loading = true;
    status.textContent = say("Reading the list of pages …");
    try {
      await load();
      index = new Index(SEARCH_RECORDS, SEARCH_WORDS, SEARCH_PLACES, SEARCH_SMALL);
      show();
      if (waiting && dialog.open) go(list.children[active]);
    } catch {
      status.textContent = say("The list of pages could not be read.");
    }
    loading = waiting = false;
  }

  function option([title, kind, url], n) {
    const item = make("li", { role: "option", id: `search-${n}`, "aria-selected": "false", "data-url": root + url });
    item.append(make("span", { class: "title" }, title), " ", make("span", { class: "kind" }, kind));
    return item;
  }

  function show() {
    if (!index) return;
    const { found: all, every } = index.find(input.value);
    offer(all);
    const found = all.filter((record) => !kind || record[KIND_OF] === kind);
    list.replaceChildren(...found.slice(0, LIMIT).map(option));
    input.setAttribute("aria-expanded", String(found.length > 0));
    list.hidden = !found.length;
    status.textContent = input.value.trim() ? report(found.length, every) : "";
    choose(found.length ? 0 : -1);
  }

  /* Only kinds that were found are offered, and the chosen one, so that it can be taken back. */
  function offer(found) {
    const counts = new Map(kind ? [[kind, 0]] : []);
    for (const record of found) counts.set(record[KIND_OF], (counts.get(record[KIND_OF]) ?? 0) + 1);
    const each = Array.from(counts, ([name, count]) => make("option", { value: name }, `${name} (${count})`));
    only.replaceChildren(make("option", { value: "" }, say("All kinds")), ...each);
    only.value = kind;
    only.hidden = counts.size < 2 && !kind;
  }

  function report(count, every) {
    if (!count) return say("Nothing found. Try fewer letters.");
    const limit = LIMIT;
    if (every && count > LIMIT) return say("{count} pages, the nearest {limit} shown", { count, limit });
    if (every) return count === 1 ? say("1 page") : say("{count} pages", { count });
    if (count > LIMIT) return say("No page has all of these words. {count} pages with most of them, the nearest {limit} shown", { count, limit });
    return count === 1 ? say("No page has all of these words. 1 page with most of them") : say("No page has all of these words. {count} pages with most of them", { count });
  }

  function choose(n) {
    list.children[active]?.setAttribute("aria-selected", "false");
    active = n;
    const item = list.children[n];
    if (!item) return input.removeAttribute("aria-activedescendant");
    item.setAttribute("aria-selected", "true");
    item.scrollIntoView({ block: "nearest" });
    return input.setAttribute("aria-activedescendant", item.id);
  }

  function go(item) {
    if (!item) return;
    location.href = globalThis.Live?.carried(item.dataset.url) ?? item.dataset.url;
  }

  function key(event) {
    const last = list.children.length - 1;
    const moves = { ArrowDown: active < last ? active + 1 : 0, ArrowUp: active > 0 ? active - 1 : last };
    if (event.key in moves && last >= 0) choose(moves[event.key]);
    else if (event.key === "Enter" && !event.isComposing) {
      waiting = !index;
      go(list.children[active]);
    }
    else return;
    event.preventDefault();
  }

  /* Just after Escape the box of the closed dialog still has the keys. */
  const typing = (node) => (node === input ? dialog.open : node.closest("input, textarea, select, [contenteditable]"));

  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey || typing(event.target)) return;
    event.preventDefault();
    open();
  });
  document.querySelectorAll("[data-search]").forEach((button) => button.addEventListener("click", open));
  input.addEventListener("input", () => {
    waiting = false;
    kind = "";
    show();
    write();
  });
  only.addEventListener("change", () => {
    kind = only.value;
    show();
    write();
  });
  input.addEventListener("keydown", key);
  close.addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => {
    waiting = false;
    write();
  });
  window.addEventListener("popstate", read);
  list.addEventListener("click", (event) => go(event.target.closest("[role=option]")));
  dialog.addEventListener("click", (event) => event.target === dialog && dialog.close());
  read();
})();
