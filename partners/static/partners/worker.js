// Keeps the forms of a visit and of what arrived, so that they open without a signal. SITE stands above this line.
// Only what was fetched for the person who is signed in is kept, apart for each; signing in or out forgets it.
"use strict";

importScripts(SITE.store);

const FILES = `files-${SITE.version}`;
const PAGES = "pages";
const OWNER = "/~owner";
const [SLOW_PAGE, SLOW_FILE, FRESH_FOR, DEAD_FOR] = [5000, 3000, 10 * 60 * 1000, 20000];
const { visit, gift, today, kept, pages, state, signIn, signOut, join } = SITE.addresses;
// Until when the line is taken for dead: a page that came from here need not wait for each of its files.
let dead = 0;
// Grows when somebody signs in or out: what was being fetched for the one before is not kept any more.
let turn = 0;

function forget() {
  turn += 1;
  return caches.delete(PAGES);
}

self.addEventListener("install", (event) => {
  const files = SITE.files.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(FILES).then((cache) => cache.addAll(files)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => event.waitUntil(begin()));

async function begin() {
  for (const name of await caches.keys()) if (name.startsWith("files-") && name !== FILES) await caches.delete(name);
  await self.clients.claim();
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (address.origin !== self.location.origin) return;
  const path = address.pathname;
  if (request.method === "POST" && (path === signIn || path === signOut || path.endsWith("/choose/") || path.startsWith(join))) {
    event.waitUntil(forget());
  }
  if (request.method !== "GET") return;
  if (SITE.files.includes(path)) event.respondWith(file(request, path));
  else if (request.mode === "navigate") event.respondWith(page(request, address));
  else if (path === visit && request.headers.has("HX-Request")) event.respondWith(part(request, address));
});

const late = (time) => new Promise((_done, fail) => setTimeout(() => fail(new Error("late")), time));

async function soon(answering, time) {
  const answer = await (time ? Promise.race([answering, late(time)]) : answering);
  dead = 0;
  return answer;
}

async function file(request, path) {
  try {
    if (Date.now() < dead) throw new Error("dead");
    return await soon(fetch(request), SLOW_FILE);
  } catch (lost) {
    const found = await caches.match(path, { cacheName: FILES });
    if (found) return found;
    throw lost;
  }
}

// A page that is late while nothing is kept in its place is waited for: a slow book is not a lost signal.
async function page(request, address) {
  let answering = null;
  const known = [visit, gift, today, kept].includes(address.pathname);
  try {
    if (address.pathname === kept && Date.now() < dead) throw new Error("dead");
    answering = fetch(request);
    const answer = await soon(answering, known ? SLOW_PAGE : 0);
    // The server in front answers, the book behind it does not.
    if (known && answer.status >= 502 && answer.status <= 504) throw new Error(answer.statusText);
    return answer;
  } catch (lost) {
    const instead = await found(address);
    if (!instead && lost.message === "late") {
      const answer = await answering.catch(() => null);
      if (answer) return answer;
    }
    dead = Date.now() + DEAD_FOR;
    return instead || (await found(new URL(kept, address))) || nothing();
  }
}

// What a picked place brings along (see visits/_where.html), from the page that is kept for it.
async function part(request, address) {
  try {
    return await soon(fetch(request), SLOW_PAGE);
  } catch (lost) {
    const known = await caches.match(keyed(visit, "partner_pk", address.searchParams), { cacheName: PAGES });
    if (known) return known;
    throw lost;
  }
}

const keyed = (path, name, asked) => `${path}?${name}=${asked.get(name)}`;
const at = (address) => caches.match(address, { cacheName: PAGES });

// The kept page that answers this address; never one about another place than was asked for.
async function found(address) {
  const [path, asked] = [address.pathname, address.searchParams];
  if (path === visit) {
    if (asked.has("stop")) return (await at(keyed(path, "stop", asked))) || at(`${path}?anywhere`);
    if (asked.has("partner")) asked.set("partner_pk", asked.get("partner"));
    if (asked.has("partner_pk")) return (await at(keyed(path, "partner_pk", asked))) || at(`${path}?anywhere`);
    return (!asked.has("anywhere") && (await next())) || at(`${path}?anywhere`);
  }
  if (path === gift && asked.has("promise")) return (await at(keyed(path, "promise", asked))) || at(path);
  return [gift, today, kept].includes(path) ? at(path) : undefined;
}

// The next place of the outing: the book does not know yet where one has been without a signal.
async function next() {
  const been = new Set((await Kept.all()).map((entry) => new URLSearchParams(entry.data).get("stop")));
  const cache = await caches.open(PAGES);
  for (const { url } of await cache.keys()) {
    const { pathname, search, searchParams } = new URL(url);
    if (pathname === visit && searchParams.has("stop") && !been.has(searchParams.get("stop"))) return at(visit + search);
  }
  return undefined;
}

function nothing() {
  const styles = SITE.styles.map((style) => `<link rel="stylesheet" href="${style}">`).join("");
  const text = `<!DOCTYPE html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
    <title>${SITE.title}</title>${styles}
    <main class="wrap"><h1>${SITE.title}</h1><p>${SITE.words}</p></main></html>`;
  return new Response(text, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

self.addEventListener("message", (event) => {
  const { keep, anew, weak } = event.data || {};
  if (weak !== undefined) dead = weak ? Date.now() + DEAD_FOR : 0;
  if (keep) event.waitUntil(keeping(keep, anew));
  if (keep === "") event.waitUntil(forget());
});

// One at a time; who asks meanwhile gets what the running one brings.
let running = null;
function keeping(owner, anew) {
  running = running || keepPages(owner, anew).finally(() => (running = null));
  return running;
}

// Each page is put away as it comes, the two forms first: the signal may be gone before the last of them.
async function keepPages(owner, anew) {
  const told = await at(OWNER);
  const [before, since] = told ? await told.json() : ["", 0];
  const mine = turn;
  if (before !== owner) await caches.delete(PAGES);
  else if (!anew && Date.now() - since < FRESH_FOR) return;
  const noted = (time) => new Response(JSON.stringify([owner, time]));
  try {
    const answer = await fetch(pages, { redirect: "error", cache: "no-store" });
    if (!answer.ok) return;
    const list = (await answer.json()).pages;
    for (const address of list) {
      const one = await fetched(address, owner);
      if (mine !== turn) return;
      const cache = await caches.open(PAGES);
      await cache.put(OWNER, noted(0));
      if (one) await cache.put(address, one);
    }
    const cache = await caches.open(PAGES);
    for (const request of await cache.keys()) {
      const { pathname, search } = new URL(request.url);
      if (pathname !== OWNER && !list.includes(pathname + search)) await cache.delete(request);
    }
    await cache.put(OWNER, noted(Date.now()));
  } catch {
    // The signal is gone again: what was kept before stays.
  }
}

async function fetched(address, owner) {
  const answer = await fetch(address, { headers: { "Keep-For-Later": "yes" }, redirect: "error", cache: "no-store" });
  if (!answer.ok) return null;
  const text = await answer.text();
  if (!text.includes(`data-owner="${owner}"`)) throw new Error("somebody else's");
  const headers = new Headers();
  for (const name of ["Content-Type", "Content-Security-Policy", "Referrer-Policy", "X-Frame-Options"]) {
    if (answer.headers.has(name)) headers.set(name, answer.headers.get(name));
  }
  headers.set("Kept-At", String(Date.now()));
  return new Response(text.replace("<body ", `<body data-kept-at="${Date.now()}" `), { headers });
}

// Where the browser can, what waits goes out also after the page was closed.
self.addEventListener("sync", (event) => event.waitUntil(Kept.sendAll(state)));
