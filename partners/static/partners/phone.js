// The book on a phone: keeps the forms ready for a place without a signal, and says what is kept here.
self.Phone = (() => {
  "use strict";

  const note = document.getElementById("kept");
  const worker = navigator.serviceWorker;
  if (!note || !worker || !self.indexedDB || !self.Kept) return null;

  const { dataset } = document.body;
  const words = note.dataset;
  // The third says which book it is: another one can stand at the same address, with the same numbers.
  const [who, program, begun] = (dataset.owner || "--").split("-");
  const keeps = () => Boolean(worker.controller && dataset.keeps);

  // The day where the program is, whatever the device takes for its own place.
  const today = () =>
    new Intl.DateTimeFormat("en-CA", { timeZone: words.zone, dateStyle: "short" }).format(new Date());
  const spelled = (time) =>
    new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" }).format(time);
  const said = (sentence, value) => sentence.replace("%s", value);

  // Only who may write keeps pages.
  // Where somebody has to sign in, maybe because this device was signed out from another, the pages go.
  function keepFresh(anew) {
    const signedOut = !dataset.owner && document.querySelector("form[data-sign-in]");
    if (!worker.controller || dataset.keptAt || !(dataset.owner || signedOut)) return;
    worker.controller.postMessage({ keep: dataset.keeps ? dataset.owner : "", anew });
  }

  function paragraph(text, more) {
    const line = document.createElement("p");
    line.append(text, ...(more ? [" ", more] : []));
    return line;
  }

  function link() {
    // Who belongs to no book any more has the list on that page.
    if (document.getElementById("kept-entries")) return "";
    const found = document.createElement("a");
    found.href = words.list;
    found.textContent = words.look;
    return found;
  }

  // Of somebody else nothing is shown, not even that it is here.
  const own = (entries) => (dataset.owner ? entries.filter((entry) => entry.who === who) : entries);

  async function show() {
    const entries = own(await Kept.all());
    const refused = entries.filter((entry) => dataset.owner && entry.state === "refused");
    const waiting = entries.length - refused.length;
    const saved = dataset.owner ? own(await Kept.sent()).filter((entry) => !entry.seen).length : 0;
    const lines = [];
    if (dataset.keptAt) {
      const asked = location.pathname === words.list || document.querySelector("form[data-keeps], #today");
      const sentence = asked ? said(words.noSignal, spelled(Number(dataset.keptAt))) : words.elsewhere;
      lines.push(paragraph(sentence));
    }
    if (waiting) lines.push(paragraph(said(words.waiting, waiting), dataset.owner ? link() : words.signIn));
    if (refused.length) lines.push(paragraph(said(words.refused, refused.length), link()));
    if (saved && !document.getElementById("kept-saved")) lines.push(paragraph(said(words.saved, saved), link()));
    // What is read aloud already is not read again.
    const before = note.textContent;
    if (before !== lines.map((line) => line.textContent).join("")) note.replaceChildren(...lines);
    note.hidden = lines.length === 0;
    note.classList.toggle("wrong", refused.length > 0);
  }

  let timer = 0;
  async function sync() {
    clearTimeout(timer);
    const entries = await Kept.all();
    if (entries.some(Kept.toSend)) {
      const saved = navigator.onLine ? await Kept.sendAll(words.state, told) : 0;
      if (saved && worker.controller) worker.controller.postMessage({ weak: false });
      if (saved) keepFresh(true);
      timer = setTimeout(sync, 30000);
    }
    await told();
  }

  async function told() {
    await show();
    document.dispatchEvent(new Event("kept:changed"));
  }

  // Why the book did not take a form stands above it when it is mended, as a refused form says it itself.
  function sayWhy(form, why) {
    if (why.length === 0) return;
    const summary = document.getElementById("kept-why").content.firstElementChild.cloneNode(true);
    const item = (text) => Object.assign(document.createElement("li"), { textContent: text });
    const list = document.createElement("ul");
    list.append(...why.map(item));
    summary.append(list);
    form.before(summary);
    summary.focus();
  }

  // The browser is asked not to clear this away, and, where it can, to send it also after the page is closed.
  async function later() {
    if (navigator.storage && navigator.storage.persist) await navigator.storage.persist().catch(() => {});
    const registration = await worker.ready;
    if (registration.sync) await registration.sync.register("send").catch(() => {});
  }

  // Signing out takes everything off this device but what is not sent yet; that is asked about.
  window.addEventListener(
    "submit",
    (event) => {
      const form = event.target;
      if (!form.hasAttribute("data-sign-out") || form.dataset.sure || !worker.controller) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      leave(form).catch(() => leaving(form));
    },
    true,
  );

  async function leave(form) {
    if (!navigator.onLine) {
      worker.controller.postMessage({ keep: "" });
      note.replaceChildren(paragraph(words.leaveLater));
      note.hidden = false;
      note.scrollIntoView({ block: "center" });
      return;
    }
    if (own(await Kept.all()).length === 0) {
      await Kept.forgetSent();
      leaving(form);
      return;
    }
    const asked = document.getElementById("kept-leave").content.cloneNode(true);
    asked.querySelector("[data-leave]").addEventListener("click", () => Kept.forgetSent().finally(() => leaving(form)));
    note.replaceChildren(asked);
    note.hidden = false;
    note.scrollIntoView({ block: "center" });
    note.querySelector("a").focus();
  }

  function leaving(form) {
    form.dataset.sure = "yes";
    form.requestSubmit();
  }

  window.addEventListener("online", sync);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && sync());
  window.addEventListener("load", async () => {
    await worker.register(dataset.worker).catch(() => {});
    await sync().catch(() => {});
    keepFresh(false);
  });
  worker.addEventListener("controllerchange", () => keepFresh(false));

  return { who, program, begun, words, keeps, today, spelled, said, show, sayWhy, sync, later, keepFresh };
})();
