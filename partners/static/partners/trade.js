// Help for the pages of trades; both work without it.
(() => {
  "use strict";

  // How many plain items the larger number and the spares come to, while typing.
  const told = document.querySelector("[data-plain-count]");
  if (told) {
    const form = told.closest("form");
    const number = (name) => Number.parseInt(form.elements[name]?.value, 10) || 0;
    const count = () => {
      const most = Math.max(number("at_least"), number("at_most"));
      const own = number("plain_quantity");
      told.hidden = !most || own > 0;
      told.textContent = told.dataset.words.replace("%s", Math.ceil((most * (100 + number("spare_percent"))) / 100));
    };
    form.addEventListener("input", count);
    count();
  }

  // Counting: every tap is sent, one after another, each with a token of its own, so that none is lost or counts twice.
  let last = Promise.resolve();
  let waiting = 0;

  const token = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");

  // What was tapped stays under the finger, whatever is said above it: else the next tap meets another button.
  function renew(text, tapped) {
    const before = tapped.getBoundingClientRect().top;
    const page = new DOMParser().parseFromString(text, "text/html");
    for (const id of [...document.querySelectorAll("[data-live]")].map((part) => part.id).concat("messages")) {
      const [here, there] = [document.getElementById(id), page.getElementById(id)];
      if (here && there) here.replaceChildren(...there.childNodes);
    }
    window.scrollBy({ top: tapped.getBoundingClientRect().top - before, behavior: "instant" });
  }

  async function send(form, body, again) {
    try {
      const answer = await fetch(form.action, { method: "POST", body, credentials: "same-origin" });
      if (!answer.ok) throw new Error(answer.statusText);
      const text = await answer.text();
      form.reset();
      if (waiting === 1) renew(text, form);
    } catch {
      again();
    } finally {
      waiting -= 1;
    }
  }

  function failed() {
    const messages = document.getElementById("messages");
    const box = document.createElement("div");
    box.className = "message error";
    box.append(Object.assign(document.createElement("p"), { textContent: document.body.dataset.failed }));
    messages.replaceChildren(box);
    messages.scrollIntoView({ block: "nearest" });
  }

  document.addEventListener(
    "submit",
    (event) => {
      const form = event.target;
      if (!form.hasAttribute("data-tap")) return;
      event.preventDefault();
      event.stopPropagation();
      const body = new FormData(form, event.submitter);
      body.set("once", token());
      waiting += 1;
      last = last.then(() => send(form, body, failed));
    },
    true,
  );
})();
