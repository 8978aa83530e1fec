"use strict";
/* Copy a block of text in one click: by the clipboard where the browser gives it to the page,
   else by marking the text, which works without a server, too. */
(() => {
  const mark = (block) => {
    const range = document.createRange();
    range.selectNodeContents(block);
    getSelection().removeAllRanges();
    getSelection().addRange(range);
  };

  const copied = async (block) => {
    try {
      await navigator.clipboard.writeText(block.textContent);
      return true;
    } catch {
      mark(block);
      return document.execCommand("copy");
    }
  };

  for (const button of document.querySelectorAll("button[data-copy]")) {
    const status = button.parentElement.querySelector("[role=status]");
    button.hidden = false;
    button.addEventListener("click", async () => {
      const done = await copied(document.getElementById(button.dataset.copy));
      status.textContent = done ? say("Copied.") : say("Marked: copy it with your keyboard.");
    });
  }
})();
