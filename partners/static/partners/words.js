// A press on a blank puts it where the cursor is; without this it is typed.
(() => {
  "use strict";

  document.addEventListener("click", (event) => {
    const button = event.target.closest("[data-blank]");
    const field = button && document.getElementById("id_words");
    if (!field) return;
    field.setRangeText(button.dataset.blank, field.selectionStart, field.selectionEnd, "end");
    field.focus();
    field.dispatchEvent(new Event("input", { bubbles: true }));
  });
})();
