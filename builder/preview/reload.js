"use strict";
(() => {
  const shown = new URL(document.currentScript.src).searchParams.get("v");
  let note = null;
  let events = null;
  const tell = (failed) => {
    if (!failed) { note?.remove(); note = null; return; }
    if (note) return;
    note = document.createElement("div");
    note.setAttribute("role", "alert");
    note.textContent = "%FAILED%";
    Object.assign(note.style, {
      position: "fixed", insetInline: "0", bottom: "0", padding: "0.75rem 1rem",
      background: "#6b1d1d", color: "#fff", font: "1rem/1.4 system-ui", zIndex: "2147483647",
    });
    document.body.append(note);
  };
  const listen = () => {
    if (document.hidden) { events?.close(); events = null; return; }
    if (events) return;
    events = new EventSource("/__reload");
    events.addEventListener("message", (event) => {
      const state = JSON.parse(event.data);
      if (state.version !== shown) { events.close(); location.reload(); return; }
      tell(state.failed);
    });
  };
  // A browser opens six connections to one server: pages in the background give theirs up.
  document.addEventListener("visibilitychange", listen);
  listen();
})();
