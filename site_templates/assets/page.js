"use strict";
/* What every page does by itself, and what its other scripts share. */
globalThis.Page = (() => {
  /* A link may lead to or into a part that is folded away: open it before the eye arrives. */
  const open = () => {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!target) return;
    const folded = [];
    for (let node = target.closest("details"); node; node = node.parentElement.closest("details"))
      if (!node.open) folded.push(node);
    for (const node of folded) node.open = true;
    if (folded.length) target.scrollIntoView();
  };
  addEventListener("hashchange", open);
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[href^='#']");
    // The same place asked for twice changes no hash.
    if (link && link.hash === location.hash) open();
  });
  open();

  /* All parts at once, to read through or to print. */
  const parts = [...document.querySelectorAll("details.part")];
  if (parts.some((part) => !part.open)) {
    const all = Object.assign(document.createElement("button"), { type: "button", className: "all" });
    const name = () => (all.textContent = parts.every((part) => part.open) ? say("Close all parts") : say("Open all parts"));
    all.addEventListener("click", () => {
      const opened = parts.every((part) => part.open);
      for (const part of parts) part.open = !opened;
    });
    for (const part of parts) part.addEventListener("toggle", name);
    name();
    document.querySelector("main > .title").append(all);
  }

  /* A box is a stop for the keyboard only while there is more in it than it shows; browsers that
     make it one by themselves need no script. */
  const boxes = new ResizeObserver((changed) => {
    for (const { target: box } of changed) {
      if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
      else box.removeAttribute("tabindex");
    }
  });
  for (const box of document.querySelectorAll(".scroll")) {
    const caption = box.querySelector(":scope > table > caption") ?? box.parentElement.querySelector(":scope > figcaption");
    if (caption && !box.hasAttribute("role")) {
      box.setAttribute("role", "group");
      box.setAttribute("aria-label", caption.textContent);
    }
    box.tabIndex = 0;
    boxes.observe(box);
  }

  /* Load a script of the site; scripts run in the order in which they were asked for. */
  const script = (path) =>
    new Promise((done, failed) => {
      const node = Object.assign(document.createElement("script"), { src: `${document.documentElement.dataset.root}assets/${path}`, async: false });
      node.addEventListener("load", done);
      node.addEventListener("error", () => failed(new Error(`${path} is not there`)));
      document.head.append(node);
    });

  return { script };
})();
