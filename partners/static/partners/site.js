// Everything here is a help on top of pages that work without it.
(() => {
  "use strict";

  const words = document.body.dataset;

  // A form is sent once. The button says so, and is fresh again when the page is come back to.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.method !== "post" || form.hasAttribute("hx-boost")) return;
    if (form.dataset.sent) {
      event.preventDefault();
      return;
    }
    form.dataset.sent = "yes";
    const button = event.submitter;
    if (button && button.tagName === "BUTTON") {
      button.dataset.words = button.innerHTML;
      button.setAttribute("aria-disabled", "true");
      button.textContent = button.dataset.meanwhile || words.saving;
    }
    keepPlace(form);
  });

  window.addEventListener("pageshow", () => {
    for (const form of document.querySelectorAll("form[data-sent]")) delete form.dataset.sent;
    for (const button of document.querySelectorAll("button[data-words]")) {
      button.innerHTML = button.dataset.words;
      button.removeAttribute("aria-disabled");
      delete button.dataset.words;
    }
  });

  // After something was settled the page comes back where it was, and so does the focus; data-then names another part
  // of the page to go on from, as what was done to many lines is said, and taken back, at the top.
  function keepPlace(form) {
    const { then } = form.dataset;
    try {
      const place = [location.pathname, then ? 0 : window.scrollY, form.getAttribute("action"), then];
      sessionStorage.setItem("place", JSON.stringify(place));
    } catch {
      // Without storage the page opens at its top.
    }
  }

  function findPlace() {
    try {
      const [path, top, action, then] = JSON.parse(sessionStorage.getItem("place") || "[]");
      sessionStorage.removeItem("place");
      if (path !== location.pathname) return;
      if (location.hash) {
        const act = document.getElementById(location.hash.slice(1).replace("line-", "act-"));
        // The browser leaps to the line itself, and lets go of any focus as it does.
        if (act) window.addEventListener("load", () => setTimeout(() => act.focus()));
        return;
      }
      window.scrollTo(0, top);
      const button = action && document.querySelector(`main form[action="${CSS.escape(action)}"] button`);
      const folded = button && button.closest("details:not([open])");
      const next = then ? document.getElementById(then) : folded ? folded.querySelector("summary") : button;
      if (next) next.focus({ preventScroll: true });
    } catch {
      // As above.
    }
  }

  // data-show-when="answer:yes,some" shows a part only for these answers; what is hidden is not sent.
  // "line-*-risk" is any field whose name begins and ends so; "school:,3" also shows it while nothing is chosen.
  function named(name) {
    const [start, end] = name.split("*").map((part) => CSS.escape(part));
    return end === undefined ? `[name="${start}"]` : `[name^="${start}"][name$="${end}"]`;
  }

  function reveal() {
    for (const part of document.querySelectorAll("[data-show-when]")) {
      const [name, values] = part.dataset.showWhen.split(":");
      const form = part.closest("form");
      if (!form) continue;
      const chosen = [...form.querySelectorAll(named(name))]
        .filter((field) => (field.type === "radio" || field.type === "checkbox" ? field.checked : field.value))
        .map((field) => field.value);
      const fits = (value) => (value ? chosen.includes(value) : !chosen.length);
      const shown = values === "*" ? chosen.length > 0 : values.split(",").some(fits);
      part.hidden = !shown;
      if (part.tagName === "FIELDSET") part.disabled = !shown;
    }
  }

  // A name that is typed and a name that is picked do not stand beside each other.
  function typedOrPicked(field) {
    let box = field.closest("[data-typed-or-picked]");
    if (!box) return;
    // A box of its own may stand inside a larger one that has more names to pick from.
    box = box.parentElement.closest("[data-typed-or-picked]") || box;
    const typed = box.querySelector("[data-typed]");
    if (field === typed && field.value) {
      for (const radio of box.querySelectorAll("input[type=radio]:checked")) radio.checked = false;
    } else if (field.type === "radio" && typed) {
      typed.value = "";
    }
  }

  // When somebody filled in a field, by the page's own clock.
  const touched = new WeakMap();
  document.addEventListener("input", (event) => {
    touched.set(event.target, event.timeStamp);
    typedOrPicked(event.target);
    followed(event.target);
    reveal();
    pressed();
  });

  // A choice that data-follows another takes its value, until somebody chooses there.
  function followed(field) {
    if (!field.matches("select[name]")) return;
    for (const other of document.querySelectorAll(`select[data-follows="${CSS.escape(field.name)}"]`)) {
      if (!touched.has(other)) other.value = field.value;
    }
  }

  // A button that fills in a day shows whether that day stands in the field.
  function pressed() {
    for (const button of document.querySelectorAll("[data-fill]")) {
      const field = document.getElementById(button.dataset.fill);
      button.setAttribute("aria-pressed", String(Boolean(field) && field.value === button.dataset.value));
    }
  }

  document.addEventListener("click", (event) => {
    const fill = event.target.closest("[data-fill]");
    if (fill) {
      const field = document.getElementById(fill.dataset.fill);
      field.value = fill.dataset.value;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      field.dispatchEvent(new Event("change", { bubbles: true }));
    }
    if (event.target.closest("[data-print]")) window.print();
    const all = event.target.closest("[data-tick-all]");
    if (all) {
      const boxes = [...document.querySelectorAll(`input[name="${CSS.escape(all.dataset.tickAll)}"]`)];
      const ticked = boxes.every((box) => box.checked);
      for (const box of boxes) box.checked = !ticked;
    }
    const link = event.target.closest(".summary a[href^='#']");
    const spot = link && document.getElementById(link.hash.slice(1));
    if (spot) {
      event.preventDefault();
      for (let fold = spot.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
      const field = spot.matches("input, select, textarea") ? spot : spot.querySelector("input, select, textarea");
      (field || spot).focus();
    }
  });

  // From a typed name an arrow leads down to the names that were found, and Escape back up.
  document.addEventListener("keydown", (event) => {
    const box = event.target.closest("[data-typed-or-picked]");
    const typed = box && box.querySelector("[data-typed]");
    const found = box && box.querySelector(".found input[type=radio]:checked, .found input[type=radio]");
    if (event.key === "ArrowDown" && event.target === typed && found && !typed.list) {
      event.preventDefault();
      found.focus();
    } else if (event.key === "Escape" && event.target.closest(".found")) {
      typed.focus();
    }
  });

  // A press of Escape shuts the "More" of a line and the folded bar.
  document.addEventListener("keydown", (event) => {
    const open = event.key === "Escape" && event.target.closest("details[open].more, details[open].fold");
    if (!open) return;
    open.open = false;
    open.querySelector("summary").focus();
  });

  function scripted(root) {
    for (const element of root.querySelectorAll("[data-needs-script]")) element.hidden = false;
    reveal();
    pressed();
    stops();
  }

  // A wide part is a stop for the keyboard only where there is something to scroll.
  function stops() {
    for (const wide of document.querySelectorAll(".wide[role]")) {
      if (wide.scrollWidth > wide.clientWidth) wide.tabIndex = 0;
      else wide.removeAttribute("tabindex");
    }
  }
  window.addEventListener("resize", stops);

  // What stands in a page from its beginning is not read aloud by itself; put in anew, it is.
  function sayMessages() {
    const messages = document.getElementById("messages");
    if (!messages.querySelector(".message")) return;
    setTimeout(() => {
      if (!messages.contains(document.activeElement)) messages.replaceChildren(...messages.childNodes);
    }, 300);
  }

  // Where a part of the page was swapped and the focus went with it, the line's own button is next, else the message.
  let pressedIn = "";
  let asked = 0;
  document.addEventListener("htmx:beforeRequest", (event) => {
    asked = event.timeStamp;
    const fold = event.target.closest("details.each");
    const line = fold ? fold.querySelector("summary") : event.target.closest("[id^='line-']");
    pressedIn = line ? line.id.replace("line-", "act-") : "";
  });
  // What was unfolded, typed or ticked stays so, while lines are settled one after the other.
  let unfolded = [];
  let typed = [];
  let ticked = new Set();
  document.addEventListener("htmx:beforeSwap", (event) => {
    const { target } = event.detail;
    unfolded = [...target.querySelectorAll("details[open] > summary[id]")].map((fold) => fold.id);
    typed = [...target.querySelectorAll(".acts input[id]")].filter((field) => touched.has(field));
    ticked = new Set([...target.querySelectorAll(".tick :checked")].flatMap((box) => box.value.split(" ")));
  });
  // A part that comes late puts nothing in the place of what was picked or typed meanwhile; what data-stays marks keeps
  // it in any case.
  document.addEventListener("htmx:oobBeforeSwap", (event) => {
    const part = event.detail.target;
    const since = "stays" in part.dataset ? 0 : asked;
    const hand = [...part.querySelectorAll("input, textarea, select")].some((field) => touched.get(field) > since);
    if (hand) event.detail.shouldSwap = false;
  });
  document.addEventListener("htmx:afterSettle", () => {
    scripted(document);
    for (const id of unfolded.splice(0)) document.getElementById(id)?.parentElement.setAttribute("open", "");
    for (const { id, value } of typed.splice(0)) {
      const field = document.getElementById(id);
      if (!field || field.value === value) continue;
      field.value = value;
      touched.set(field, asked);
    }
    for (const box of ticked.size ? document.querySelectorAll(".tick input") : []) {
      box.checked ||= box.value.split(" ").every((key) => ticked.has(key));
    }
    ticked.clear();
    if (document.activeElement !== document.body) return;
    const part = document.getElementById(pressedIn) || document.getElementById("messages");
    // Of several that stood as one the fold is next, and never the button for all of them.
    const fold = part && part.closest("details.each");
    const next = fold && !fold.open ? fold.querySelector("summary") : part;
    if (next) next.focus({ preventScroll: true });
  });

  // Nothing is ever half saved in silence: a refusal or a lost connection is said in the message place.
  function failed() {
    const messages = document.getElementById("messages");
    const box = document.createElement("div");
    box.className = "message error";
    box.append(Object.assign(document.createElement("p"), { textContent: words.failed }));
    messages.replaceChildren(box);
    messages.scrollIntoView({ block: "nearest" });
  }
  document.addEventListener("htmx:responseError", failed);
  document.addEventListener("htmx:sendError", failed);

  scripted(document);
  findPlace();
  sayMessages();
  const summary = document.querySelector("[data-error-summary]");
  if (summary) summary.focus();
})();
