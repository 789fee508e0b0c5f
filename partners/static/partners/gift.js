// A thing's name may tell that it needs a look before children use it: that is proposed until somebody chooses.
(() => {
  "use strict";

  document.addEventListener("input", ({ target }) => {
    const box = target.closest("[data-proposes]");
    const line = box && target.closest(".gift-line");
    if (!line) return;
    const risk = line.querySelector('[name$="-risk"]');
    const chosen = line.querySelector('[name$="-chosen"]');
    if (target === risk) {
      chosen.value = "1";
    } else if (target.name.endsWith("-description") && !chosen.value) {
      const known = Object.entries(JSON.parse(box.dataset.proposes));
      const [found] = known.find(([, words]) => new RegExp(words, "i").test(target.value)) || [""];
      if (risk.value === found) return;
      risk.value = found;
      risk.dispatchEvent(new Event("input", { bubbles: true }));
      chosen.value = "";
    }
  });
})();
