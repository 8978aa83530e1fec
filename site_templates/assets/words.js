"use strict";
/* The scripts' own words in the language of the page: a template, its {names} filled in. */
const say = (template, values = {}) =>
  (globalThis.WORDS?.[template] ?? template).replace(/\{(\w+)\}/g, (_, name) => values[name]);
