// What was filled in on this device and is not in the book yet. Pages and the service worker use it alike.
self.Kept = (() => {
  "use strict";

  const [BOOK, WAITING, SENT] = ["partner-book", "kept", "sent"];
  // A line that is too weak to answer a small question in eight seconds will not take the form.
  const [ASKED_FOR, SENT_FOR, MOST_SENT] = [8000, 15000, 20];

  function opened() {
    return new Promise((done, fail) => {
      const asked = indexedDB.open(BOOK, 1);
      asked.onupgradeneeded = () => {
        for (const name of [WAITING, SENT]) asked.result.createObjectStore(name, { keyPath: "token" });
      };
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
    });
  }

  // "strict": it is on the device's own storage, not only in memory, before anybody reads "kept here".
  async function within(store, mode, act) {
    const book = await opened();
    try {
      return await new Promise((done, fail) => {
        const change = book.transaction(store, mode, { durability: "strict" });
        const asked = act(change.objectStore(store));
        change.oncomplete = () => done(asked.result);
        change.onerror = change.onabort = () => fail(change.error);
      });
    } finally {
      book.close();
    }
  }

  const earliest = (entries) => entries.sort((one, other) => one.at - other.at);
  const all = async () => earliest(await within(WAITING, "readonly", (store) => store.getAll()));
  const get = (token) => within(WAITING, "readonly", (store) => store.get(token));
  const put = (entry) => within(WAITING, "readwrite", (store) => store.put(entry));
  const drop = (token) => within(WAITING, "readwrite", (store) => store.delete(token));
  const sent = async () => earliest(await within(SENT, "readonly", (store) => store.getAll()));
  const noteSent = (entry) => within(SENT, "readwrite", (store) => store.put(entry));
  const forgetSent = () => within(SENT, "readwrite", (store) => store.clear());

  const token = () =>
    Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");

  // The server's word on one form. Null where nobody is signed in.
  async function ask(state, entry, said) {
    const address = new URL(state, self.location.origin);
    address.searchParams.set("program", entry.program);
    address.searchParams.append("once", entry.token);
    if (said) address.searchParams.set("said", "yes");
    const answer = await fetch(address, { redirect: "manual", cache: "no-store", signal: AbortSignal.timeout(ASKED_FOR) });
    if (answer.type === "opaqueredirect") return null;
    if (!answer.ok) throw new Error(answer.statusText);
    return answer.json();
  }

  function post(entry, csrf) {
    const body = new URLSearchParams(entry.data);
    const headers = { "X-CSRFToken": csrf, "Kept-User": entry.who, "Kept-Program": entry.program };
    // A form that goes out at once is one of today as the book counts it; the clock of a phone may be wrong.
    if (entry.kept) headers["Kept-Day"] = entry.day;
    return fetch(entry.address, {
      method: "POST",
      body,
      headers,
      redirect: "manual",
      signal: AbortSignal.timeout(SENT_FOR),
    });
  }

  // What the page of an answer complains about; a worker cannot read pages.
  function complaints(text) {
    if (typeof DOMParser === "undefined") return [];
    const page = new DOMParser().parseFromString(text, "text/html");
    const found = (where) => [...page.querySelectorAll(where)].map((one) => one.textContent.trim().replace(/\s+/g, " "));
    const named = found("main .summary li");
    return [...new Set(named.length ? named : found("main .summary h2, main .errorlist li, #messages .message p"))];
  }

  const REFUSED = { 403: "role", 404: "gone", 409: "changed" };

  // Sends one form. It ends "saved" only where the server says that its token is in the book.
  async function attempt(entry, state) {
    let known = await ask(state, entry);
    if (known === null) return { state: "waiting", reason: "signIn" };
    if (known.saved[entry.token]) return { state: "saved", ...known.saved[entry.token] };
    if (known.who !== entry.who || (known.begun && known.begun !== entry.begun)) return { state: "waiting", reason: "other" };
    if (!known.writes) return { state: "refused", reason: "role" };
    const answer = await post(entry, known.csrf);
    if (answer.status >= 500 || answer.status === 429) return { state: "waiting", reason: "trouble" };
    if (answer.type === "opaqueredirect") {
      known = await ask(state, entry);
      if (known === null) return { state: "waiting", reason: "signIn" };
      if (known.saved[entry.token]) return { state: "saved", ...known.saved[entry.token] };
      known = await ask(state, entry, true);
      return { state: "refused", reason: "said", why: known ? known.said : [] };
    }
    const page = await answer.text();
    return { state: "refused", reason: REFUSED[answer.status] || "form", why: complaints(page), page };
  }

  async function finish(entry, result) {
    if (result.state === "saved") {
      const { token: key, title, who, program, begun, data } = entry;
      await noteSent({ token: key, title, who, program, begun, data, at: Date.now(), words: result.words, url: result.url });
      await drop(entry.token);
      for (const old of (await sent()).slice(0, -MOST_SENT)) {
        await within(SENT, "readwrite", (store) => store.delete(old.token));
      }
    } else {
      const why = result.why || [];
      const unknown = typeof DOMParser !== "undefined" && why.length === 0;
      await put({ ...entry, kept: true, state: result.state, reason: result.reason, why, unknown });
    }
    return result;
  }

  // One at a time, in all tabs and the worker together: nothing is sent by two at once.
  const alone = (act) => (navigator.locks ? navigator.locks.request(BOOK, act) : act());

  async function tried(entry, state) {
    try {
      return await attempt(entry, state);
    } catch {
      return { state: "waiting", reason: "signal" };
    }
  }

  // A worker could not read why it was refused: a page sends it once more, and reads it.
  const unread = (entry) =>
    entry.reason === "form" && entry.why.length === 0 && typeof DOMParser !== "undefined" && !entry.unknown;
  const toSend = (entry) => entry.state !== "refused" || unread(entry);

  // Everything that waits, the earliest first. What is found half sent was being sent by a tab that is gone.
  // `after` is called with each, so that a page can show how far it is.
  const sendAll = (state, after) =>
    alone(async () => {
      let saved = 0;
      for (const entry of await all()) {
        if (!toSend(entry)) continue;
        const result = await finish({ ...entry, kept: true }, await tried(entry, state));
        if (result.state === "saved") saved += 1;
        if (after) await after();
        if (result.reason === "signal" || result.reason === "signIn") break;
      }
      return saved;
    });

  // A form that is being sent by a hand: written down first, so that a battery that dies loses nothing.
  const sendOne = (entry, state) =>
    alone(async () => {
      await put({ ...entry, state: "trying" });
      const result = await tried(entry, state);
      if (result.state === "refused" && result.reason === "form" && !entry.kept) {
        // It is refused before the eyes of who typed it, on the page where it stands.
        await drop(entry.token);
        return result;
      }
      return finish(entry, result);
    });

  return { all, get, put, drop, sent, noteSent, forgetSent, token, toSend, sendAll, sendOne };
})();
