"use strict";
// A link may lead into a part that is folded away: open it before the eye arrives.
(() => {
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
})();
