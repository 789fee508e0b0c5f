// The page of what is kept on this device: what waits, what was refused and why, what is saved.
(() => {
  "use strict";

  const phone = self.Phone;
  if (!phone) return;
  const shape = document.getElementById("kept-entry");
  const byId = (id) => document.getElementById(id);

  function item(tag, text) {
    const made = document.createElement(tag);
    made.textContent = text;
    return made;
  }

  function line(entry) {
    const made = shape.content.cloneNode(true);
    const part = (name) => made.querySelector(`[data-${name}]`);
    const refused = entry.state === "refused";
    part("title").textContent = entry.title;
    part("when").textContent = phone.spelled(entry.at);
    part("state").textContent = shape.dataset[entry.reason] || shape.dataset.signal;
    part("why").replaceChildren(...entry.why.map((words) => item("li", words)));
    part("typed").hidden = entry.told.length === 0;
    part("typed").open = refused;
    part("typed").querySelector("dl").append(
      ...entry.told.flatMap(([label, value]) => [item("dt", label), item("dd", value)]),
    );
    const elsewhere = entry.program !== phone.program || entry.begun !== phone.begun;
    if (elsewhere && phone.program) part("why").append(item("li", phone.said(shape.dataset.elsewhere, entry.programName)));
    if (!entry.page || elsewhere) part("open").remove();
    else part("open").href = `${entry.reason === "gone" ? entry.address : entry.page}#kept=${entry.token}`;
    part("again").hidden = !refused;
    part("again").addEventListener("click", () => again(entry));
    part("throw").addEventListener("click", () => away(entry));
    return made;
  }

  async function again(entry) {
    await Kept.put({ ...entry, state: "waiting" });
    await phone.sync();
  }

  async function away(entry) {
    await Kept.drop(entry.token);
    await phone.show();
    await show();
    byId("main").focus();
  }

  async function show() {
    const mine = (entry) => entry.who === phone.who;
    const entries = (await Kept.all()).filter(mine);
    const saved = (await Kept.sent()).filter(mine).reverse();
    byId("kept-entries").replaceChildren(...entries.map(line));
    byId("kept-done").replaceChildren(
      ...saved.map((entry) => {
        const place = Object.assign(item("a", entry.words || entry.title), { href: entry.url });
        const row = document.createElement("li");
        row.append(place, " ", Object.assign(item("span", phone.spelled(entry.at)), { className: "soft" }));
        return row;
      }),
    );
    byId("kept-here").hidden = entries.length === 0;
    byId("kept-saved").hidden = saved.length === 0;
    if (byId("kept-none")) byId("kept-none").hidden = entries.length > 0;
    for (const entry of saved) if (!entry.seen) await Kept.noteSent({ ...entry, seen: true });
  }

  document.querySelector("[data-send]")?.addEventListener("click", () => phone.sync());
  document.addEventListener("kept:changed", show);
  show();
})();
