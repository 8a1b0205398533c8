/* The service worker: opens the pages without the house, from what this phone keeps. It holds scripts and
   the shell; answers are kept by assets/away.js, entries in a store of their own. Whoever leaves, or is put
   out, leaves no answer behind: SHELL and ANSWERS go, the entries stay. */
"use strict";
const ANSWERS = "croftbook-answers", SHELL = "croftbook-shell", SCRIPTS = "croftbook-scripts";
const WAIT_MS = 4000, KEPT_DAYS = 30, DAY_MS = 86400e3;
const GATE = /^\/(enter|leave|devices|trust|files|health|position|sample|waiting|worker\.js)/;
const STARTS = /^\/_dash-(layout|dependencies)$/;
const SCRIPT = /^\/(_dash-component-suites|assets|sign)[/.]/, LARGE = /plotly\.min\.js/;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

async function forget() {
  await Promise.all([caches.delete(ANSWERS), caches.delete(SHELL)]);
  for (const one of await self.clients.matchAll()) one.postMessage({ forgotten: true });
}

self.addEventListener("message", (event) => {
  if (event.data && event.data.keep) event.waitUntil(keep(event.data.keep));
  if (event.data && event.data.forget) event.waitUntil(forget());
  if (event.data && event.data.stand) event.waitUntil(self.clients.claim());
});

/* What a page loaded before this worker was there, and its shell; scripts of an earlier version go. */
async function keep(addresses) {
  const scripts = await caches.open(SCRIPTS), wanted = new Set(addresses.filter((one) => isScript(new URL(one))));
  for (const old of await scripts.keys()) if (!wanted.has(old.url)) await scripts.delete(old);
  for (const one of wanted) if (!(await scripts.match(one))) await scripts.add(one).catch(() => {});
  const shell = await caches.open(SHELL);
  for (const one of ["/", "/_dash-layout", "/_dash-dependencies"])
    if (!(await shell.match(one))) await fromHouse(new Request(one, { headers: { Accept: "text/html" } }), one).catch(() => {});
}
const isScript = (to) => to.origin === self.location.origin && SCRIPT.test(to.pathname) && !LARGE.test(to.pathname);

self.addEventListener("fetch", (event) => {
  const asked = event.request, to = new URL(asked.url);
  if (to.origin !== self.location.origin) return;
  if (asked.method === "POST" && to.pathname === "/leave") event.waitUntil(forget());
  if (asked.method !== "GET") return;
  if (isScript(to)) event.respondWith(script(asked));
  else if (STARTS.test(to.pathname)) event.respondWith(shell(asked, to.pathname));
  else if (asked.mode === "navigate" && !GATE.test(to.pathname)) event.respondWith(shell(asked, "/"));
});

async function script(asked) {
  const kept = await (await caches.open(SCRIPTS)).match(asked);
  if (kept) return kept;
  const answer = await fetch(asked);
  if (answer.ok) await (await caches.open(SCRIPTS)).put(asked, answer.clone());
  return answer;
}

/* The house is asked first: a shell of an earlier language or version is only for when it is away. */
async function shell(asked, name) {
  const kept = await keptShell(name);
  try { return await (kept ? Promise.race([fromHouse(asked, name), late()]) : fromHouse(asked, name)); }
  catch (error) { if (kept) return kept; throw error; }
}
const late = () => new Promise((_, fail) => setTimeout(() => fail(new TypeError("no answer")), WAIT_MS));

async function keptShell(name) {
  const kept = await (await caches.open(SHELL)).match(name);
  if (!kept) return undefined;
  if (Date.now() - Date.parse(kept.headers.get("X-Kept-At")) < KEPT_DAYS * DAY_MS) return kept;
  await forget(); // a session that slept so long has ended
  return undefined;
}

/* What came drawn for one page is not for another, nor for another day: answers are kept by themselves. */
const FIRST = /<!--first-->[^]*?<!--\/first-->/;
async function dated(answer) {
  const headers = new Headers(answer.headers);
  headers.set("X-Kept-At", new Date().toISOString());
  headers.delete("Content-Encoding"); // it was unpacked on the way
  const isPage = /text\/html/.test(headers.get("Content-Type") || "");
  return new Response(isPage ? (await answer.text()).replace(FIRST, "") : await answer.blob(), { status: 200, headers });
}

async function fromHouse(asked, name) {
  const answer = await fetch(asked);
  if (answer.status === 401 || answer.type === "opaqueredirect" || answer.redirected) await forget();
  else if (answer.status === 200) await (await caches.open(SHELL)).put(name, await dated(answer.clone()));
  else if ([502, 504].includes(answer.status)) throw new TypeError("the house does not answer"); // a proxy does
  return answer;
}
