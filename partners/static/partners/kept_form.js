// A form of a visit, of what arrived, or the tick of a delivery, saved with a signal or without.
(() => {
  "use strict";

  const phone = self.Phone;
  if (!phone) return;
  const { dataset } = document.body;
  const form = () => document.querySelector("form[data-keeps]");
  // What was kept before and stands in the form to be mended.
  let mended = null;

  const plain = (text) => (text || "").trim().replace(/\s+/g, " ");

  function wordsOf(label) {
    const copy = label.cloneNode(true);
    for (const aside of copy.querySelectorAll(".optional")) aside.remove();
    return plain(copy.textContent);
  }

  const labelOf = (field) => (field.labels && field.labels[0] ? wordsOf(field.labels[0]) : "");

  function groupOf(field) {
    const group = field.closest("fieldset");
    const legend = group && group.querySelector("legend");
    return legend ? wordsOf(legend) : "";
  }

  const dayOf = (value) =>
    new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: "full" }).format(new Date(`${value}T12:00`));

  // What was typed, in words: each field by its label. It can be read also where the form does not open any more.
  function told(sent) {
    const names = new Set(sent.map(([name]) => name));
    const lines = [];
    for (const field of form().elements) {
      if (!names.has(field.name) || field.type === "hidden" || !field.value || field.matches(":disabled, button")) continue;
      if (field.type === "radio") {
        if (field.checked) lines.push([groupOf(field), labelOf(field)]);
      } else if (field.type === "checkbox") {
        if (field.checked) lines.push([labelOf(field), "✓"]);
      } else {
        const text = field.tagName === "SELECT" ? field.selectedOptions[0].textContent : field.value;
        lines.push([labelOf(field), field.type === "date" ? dayOf(text) : plain(text)]);
      }
    }
    return lines;
  }

  // The words of each picked button, so that it can be typed where the button is gone.
  function picked() {
    const found = {};
    for (const radio of form().querySelectorAll("input[type=radio]:checked")) {
      const span = radio.nextElementSibling;
      found[radio.name] = plain(span ? span.firstChild.textContent || span.textContent : labelOf(radio));
    }
    const fixed = form().querySelector(".fixed strong");
    if (fixed) found.partner_pk = plain(fixed.textContent);
    return found;
  }

  function titleOf(words, values) {
    const place = words.partner_pk || values.get("partner") || words.source || "";
    const thing = values.get("line-0-description") || words.happened || values.get("amount_cents") || "";
    return [form().dataset.keeps, place, thing].filter(Boolean).join(" · ");
  }

  const own = () => ({
    who: phone.who,
    program: phone.program,
    begun: phone.begun,
    programName: phone.words.programName,
    day: phone.today(),
    at: Date.now(),
    kept: false,
    why: [],
  });

  async function entryOf(button) {
    const values = new FormData(form(), button);
    const sent = [...values].filter(([name]) => name !== "csrfmiddlewaretoken" && name !== "once");
    const words = picked();
    let token = form().elements.once.value;
    const entry = {
      ...own(),
      address: form().dataset.address,
      page: location.pathname + location.search,
      title: titleOf(words, values),
      told: told(sent),
      words,
    };
    if (mended && mended.token === token) {
      // Of the day on which it was filled in, or of the later one that it is said to be about now.
      const about = values.get("day") || "";
      const day = about > mended.day && about <= phone.today() ? about : mended.day;
      Object.assign(entry, { kept: true, day, at: mended.at });
    } else {
      // The same page can be come back to and filled in for another place: that is another form.
      const before = (await Kept.get(token)) || (await Kept.sent()).find((one) => one.token === token);
      const same = before && JSON.stringify(before.data.filter(([name]) => name !== "once")) === JSON.stringify(sent);
      if (before && !same) token = Kept.token();
    }
    return { ...entry, token, data: [...sent, ["once", token]] };
  }

  async function save(button) {
    const entry = await entryOf(button);
    const result = await Kept.sendOne(entry, phone.words.state);
    if (result.state === "saved") {
      await seen(entry.token);
      location.assign(result.url);
    } else if (result.page) {
      renew(result.page);
      if (mended) await phone.show();
    } else {
      await phone.later();
      // The list need not wait for a line that was just found too weak.
      if (result.reason === "signal") navigator.serviceWorker.controller.postMessage({ weak: true });
      location.assign(phone.words.list);
    }
  }

  // It is said on the page that is opened now, and not once more as something that was kept.
  async function seen(token) {
    const found = (await Kept.sent()).find((one) => one.token === token);
    if (found) await Kept.noteSent({ ...found, seen: true });
  }

  // The server's own page, with what is wrong at each field, in place of the one that was sent.
  function renew(text) {
    const page = new DOMParser().parseFromString(text, "text/html");
    const main = document.adoptNode(page.querySelector("main"));
    document.querySelector("main").replaceWith(main);
    document.title = page.title;
    if (self.htmx) self.htmx.process(main);
    document.dispatchEvent(new Event("htmx:afterSettle"));
    const summary = main.querySelector("[data-error-summary]");
    if (summary) summary.focus();
  }

  function pressed(button) {
    if (!button || button.tagName !== "BUTTON") return;
    button.dataset.words = button.innerHTML;
    button.setAttribute("aria-disabled", "true");
    button.textContent = dataset.saving;
  }

  window.addEventListener(
    "submit",
    (event) => {
      if (event.target !== form() || event.target.dataset.plainly || !phone.keeps()) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      if (event.target.dataset.sent) return;
      event.target.dataset.sent = "yes";
      const button = event.submitter;
      save(button).catch(() => {
        // Nothing can be kept in this browser: the form goes its ordinary way.
        delete event.target.dataset.sent;
        event.target.dataset.plainly = "yes";
        event.target.requestSubmit(button);
      });
      pressed(button);
    },
    true,
  );

  // Ticks: the button of a due line that says "done", or of several that stand as one.
  const ofLine = (element) => element.closest(".line.due form");
  const linesOf = (tick) => [...tick.querySelectorAll("input[name=line]")].map((one) => ["line", one.value]);

  async function keepTick(tick) {
    const line = tick.closest(".each li") || tick.closest(".line");
    const token = Kept.token();
    const button = tick.querySelector("button[value=done]");
    const title = `${plain(button.firstChild.textContent)} · ${plain(line.querySelector("p").textContent)}`;
    const data = [[button.name, "done"], ...linesOf(tick), ["once", token]];
    const entry = { ...own(), token, address: tick.getAttribute("action"), title, data, told: [], page: "", words: {} };
    await Kept.put({ ...entry, kept: true, state: "waiting", reason: "signal" });
    ticked(tick);
    await phone.show();
    await phone.later();
  }

  function ticked(tick) {
    const done = document.createElement("p");
    done.className = "done";
    done.tabIndex = -1;
    done.textContent = phone.words.here;
    const each = linesOf(tick).length && tick.closest(".line").querySelector(".each");
    if (each) each.remove();
    tick.closest(".acts").replaceChildren(done);
    done.focus();
  }

  window.addEventListener(
    "submit",
    (event) => {
      const button = event.submitter;
      const done = button && ["act", "do"].includes(button.name) && button.value === "done" && ofLine(button);
      if (!done || !phone.keeps() || (navigator.onLine && !dataset.keptAt)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      keepTick(done);
    },
    true,
  );

  // What a place brings along, and names like the typed one, are missing without a signal; that is no failure.
  window.addEventListener(
    "htmx:sendError",
    (event) => {
      const element = event.target;
      const { verb, parameters } = event.detail.requestConfig;
      const done = verb === "post" && [parameters.act, parameters.do].includes("done") && phone.keeps() && ofLine(element);
      if (!done && !(verb === "get" && element.closest("form[data-keeps]"))) return;
      event.stopPropagation();
      if (done) keepTick(done);
    },
    true,
  );

  // A page from here knows nothing of what was typed before the place was picked.
  document.addEventListener("htmx:afterSettle", (event) => {
    const { xhr, requestConfig } = event.detail || {};
    if (!xhr || !xhr.getResponseHeader("Kept-At") || !form()) return;
    const typed = requestConfig.parameters.what;
    if (typed) form().elements.what.value = typed;
  });

  // A kept page: each filling-in is a form of its own, of the day on which it is filled in.
  function anew() {
    for (const once of document.querySelectorAll("input[name=once]")) once.value = Kept.token();
    if (!form()) return;
    const stale = dataset.keeps !== phone.today();
    for (const field of form().querySelectorAll("input[type=date]")) {
      if (field.name === "day") field.value = phone.today();
      else if (stale) field.value = "";
    }
    if (stale) for (const chip of form().querySelectorAll("[data-fill]")) chip.hidden = true;
  }

  async function markKept() {
    const entries = (await Kept.all()).filter((entry) => entry.who === phone.who && entry.program === phone.program);
    const what = (address, data) => JSON.stringify([address, data.filter(([name]) => name === "line")]);
    const known = new Set(entries.map((entry) => what(entry.address, entry.data)));
    for (const tick of document.querySelectorAll(".line.due form")) {
      if (known.has(what(tick.getAttribute("action"), linesOf(tick))) && tick.isConnected) ticked(tick);
    }
    const promises = new Set(entries.flatMap((entry) => entry.data.filter(([name]) => name === "promise").map(([, pk]) => pk)));
    for (const chip of document.querySelectorAll("a.chip[href^='?promise=']")) {
      if (!promises.has(new URLSearchParams(chip.search).get("promise"))) continue;
      const mark = Object.assign(document.createElement("small"), { className: "detail" });
      mark.textContent = `✓ ${phone.words.here}`;
      chip.firstElementChild.append(mark);
    }
  }

  const TYPED_FOR = { partner_pk: "partner", need: "what", contact: "contact_name" };

  function fill(entry) {
    const fields = form().elements;
    for (const box of form().querySelectorAll("input[type=checkbox], input[type=radio]")) box.checked = false;
    const gone = [];
    for (const [name, value] of entry.data) {
      const found = [...form().querySelectorAll(`[name="${CSS.escape(name)}"]`)].filter((one) => one.type !== "hidden");
      const button = found.find((one) => ["radio", "checkbox"].includes(one.type) && one.value === value);
      const box = found.find((one) => !["radio", "checkbox"].includes(one.type));
      if (button) button.checked = true;
      else if (box) box.value = value;
      else gone.push(name);
    }
    // A button that is gone is typed by its words; a promise that is gone leaves its giver.
    for (const name of gone) {
      const box = fields[TYPED_FOR[name] || (name === "promise" ? "partner" : "")];
      const words = entry.words[name === "promise" ? "partner_pk" : name];
      if (box && words && !box.value) box.value = words;
    }
    fields.once.value = entry.token;
    for (const part of form().querySelectorAll("details")) {
      if ([...part.querySelectorAll("input, select, textarea")].some((one) => entry.data.some(([name, value]) => name === one.name && value)))
        part.open = true;
    }
    form().dispatchEvent(new Event("input", { bubbles: true }));
  }

  async function open() {
    if (dataset.keptAt) anew();
    const found = form() && /^#kept=([0-9a-f]+)$/.exec(location.hash);
    const entry = found && (await Kept.get(found[1]));
    if (entry && entry.who === phone.who && entry.program === phone.program && entry.begun === phone.begun) {
      mended = entry;
      fill(entry);
      phone.sayWhy(form(), entry.why);
    }
    await markKept();
  }
  open().catch(() => {});
})();
