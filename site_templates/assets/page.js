"use strict";
/* What every page does by itself, and what its other scripts share. */
globalThis.Page = (() => {
  /* A link may lead into a part that is folded away: open it before the eye arrives. */
  const open = () => {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    const folded = target && target.closest("details:not([open])");
    if (folded) {
      folded.open = true;
      target.scrollIntoView();
    }
  };
  addEventListener("hashchange", open);
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[href^='#']");
    // The same place asked for twice changes no hash.
    if (link && link.hash === location.hash) open();
  });
  open();

  /* A box is a stop for the keyboard only while there is more in it than it shows. */
  const boxes = new ResizeObserver((changed) => {
    for (const { target: box } of changed) {
      if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
      else box.removeAttribute("tabindex");
    }
  });
  for (const box of document.querySelectorAll(".scroll")) boxes.observe(box);

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
