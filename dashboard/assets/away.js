/* Away from the house: pages drawn from their last answers, and entries that wait on this phone until it is
   reached. Read before croft.js, so that every request of the pages passes here. An entry keeps the id that it
   had when it was typed; sent again after an answer that never came, it is written once. */
(function () {
  "use strict";
  const WIRE = "_dash-update-component", WAIT_MS = 20000, AWAY_MS = 4000, DRAWN_MS = 60e3, SEND_EVERY_MS = 15000, ANSWERED_MS = 300, AT_ONCE = 20;
  const ANSWERS = "croftbook-answers", KEPT_DAYS = 30, DAY_MS = 86400e3;
  const net = window.fetch.bind(window);
  const set = (id, props) => { try { if (window.dash_component_api.getLayout(id)) window.dash_clientside.set_props(id, props); } catch (_error) { /* not there */ } };
  const place = () => document.getElementById("waiting");
  let words = null;
  function say(key, values) {
    if (!words && place()) words = JSON.parse(place().dataset.words);
    return String((words || {})[key] || "").replace(/\{(\w+)\}/g, (_, name) => (values || {})[name]);
  }
  function uuid() {
    if (crypto.randomUUID) return crypto.randomUUID();
    const b = crypto.getRandomValues(new Uint8Array(16)); // RFC 9562, version 4, where the page is not encrypted
    b[6] = (b[6] & 0x0f) | 0x40; b[8] = (b[8] & 0x3f) | 0x80;
    const hex = [...b].map((n) => n.toString(16).padStart(2, "0")).join("");
    return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
  }
  const two = (n) => String(n).padStart(2, "0");
  const dayOf = (at) => `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  const lang = () => document.getElementById("main")?.lang || document.documentElement.lang || undefined;
  function whenSaid(at) {
    const then = new Date(at), near = dayOf(then) === dayOf(new Date());
    const clock = then.toLocaleTimeString(lang(), { hour: "2-digit", minute: "2-digit" });
    return near ? clock : `${then.toLocaleDateString(lang(), { weekday: "short", day: "numeric", month: "short" })}, ${clock}`;
  }

  /* -- the queue: a store of the browser's own, in the order in which it was typed ------------------- */
  let opened = null;
  function store() {
    opened = opened || new Promise((done, fail) => {
      const asked = indexedDB.open("croftbook", 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore("waiting", { keyPath: "n", autoIncrement: true });
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
    });
    opened.catch(() => { opened = null; });
    return opened;
  }
  async function within(mode, work) {
    const db = await store();
    return new Promise((done, fail) => {
      const turn = db.transaction("waiting", mode, mode === "readwrite" ? { durability: "strict" } : {});
      const asked = work(turn.objectStore("waiting"));
      turn.oncomplete = () => done(asked && asked.result);
      turn.onerror = turn.onabort = () => fail(turn.error);
    });
  }
  const every = () => within("readonly", (at) => at.getAll());
  const add = (one) => within("readwrite", (at) => at.add(one));
  const change = (one) => within("readwrite", (at) => at.put(one));
  const remove = (n) => within("readwrite", (at) => at.delete(n));
  const told = "BroadcastChannel" in window ? new BroadcastChannel("croftbook-waiting") : null;
  if (told) told.onmessage = () => show();

  /* -- what the pages ask for ------------------------------------------------------------------------ */
  let isAway = false, isOut = false, isStale = false, epoch = 0;
  window.fetch = async function (asked, options) {
    const to = new URL(asked.url || asked, location.href);
    if (to.origin !== location.origin) return net(asked, options);
    if (to.pathname.endsWith(WIRE) && options && typeof options.body === "string") return wire(asked, options);
    if (to.pathname !== "/position") return net(asked, options);
    let answer;
    try { answer = await net(asked, options); } catch (error) { away(); throw error; }
    if ([502, 504].includes(answer.status)) away();
    else if (answer.status === 401) out();
    else if (answer.ok) reached((await answer.clone().json()).position);
    return answer;
  };

  function away() { if (!isAway) { isAway = true; show(); } }
  function out() { if (!isOut) { isOut = true; forget(); show(); } }
  function reached(position) {
    const isNews = isAway || isOut;
    isAway = isOut = false;
    if (isStale) {
      isStale = false;
      if (document.querySelector(".kept-note")) set("moment-note", { children: null });
      seen(position);
    }
    if (isNews) { show(); send(); }
    else if (performance.now() - lastSent > SEND_EVERY_MS) send();
    keepAhead(position);
  }

  /* A page drawn anew while a tap is on its way takes the tap's answer with it: news waits for that answer. */
  let taps = 0, missed = null;
  window.croftIsTapped = () => taps > 0;
  function seen(position) {
    if (taps) missed = position;
    else { missed = null; set("seen", { data: position }); }
  }
  async function wire(asked, options) {
    const body = JSON.parse(options.body), one = meant(body);
    if (!one.waits) return carried(asked, options, body, one);
    taps += 1;
    try { return await carried(asked, options, body, one); }
    finally { setTimeout(() => { taps -= 1; if (!taps && missed !== null) seen(missed); }, ANSWERED_MS); }
  }
  async function carried(asked, options, body, one) {
    let answer;
    if (one.shelf) options = named(options, body); // the id of its tap is made here, as a form's is
    if ((one.form || one.says || one.shelf) && (await anyWaits())) { // what was typed before goes before
      await send();
      if (await anyWaits()) return instead(body, one);
    }
    try {
      // a house that was away may only be slow: what this phone does not keep is waited for
      const soon = isAway && (!one.draws || (await keptPage(body)));
      const limit = one.waits || one.draws || one.why ? AbortSignal.timeout?.(soon ? AWAY_MS : one.waits ? WAIT_MS : DRAWN_MS) : undefined;
      const signal = limit && options.signal && AbortSignal.any ? AbortSignal.any([limit, options.signal]) : limit || options.signal;
      const begun = epoch;
      answer = await net(asked, { ...options, signal });
      if (one.draws && isNow(value(body, "moment", "data"))) drawnLike = body;
      if (one.draws && answer.status === 200 && begun === epoch) keepPage(body, answer.clone(), begun);
    } catch (error) {
      if (options.signal && options.signal.aborted) throw error;
      away();
      const own = await instead(body, one);
      if (own) return own;
      throw error;
    }
    if (answer.status === 401) out();
    return answer;
  }

  /* Which of the callbacks it is, told by what it gives. */
  function meant(body) {
    const given = new Set([body.outputs].flat(3).map((one) => (typeof one.id === "string" ? `${one.id}.${one.property.split("@")[0]}` : "")));
    const has = (name) => given.has(name);
    // buttons that were only just drawn come as taps that nobody made
    const tapped = body.inputs.flat(2).filter((one) => one.value && one.property === "n_clicks").map((one) => `${typeof one.id === "string" ? one.id : spelt(one.id)}.n_clicks`);
    const isTap = (body.changedPropIds || []).some((one) => tapped.includes(one));
    return {
      draws: has("page.children") && has("main.lang"), why: has("why-shown.children"), form: isTap && has("form-id.data"),
      says: isTap && has("happened-text.value") && has("happened-id.data"), reads: has("happened-read.children"),
      card: ["form-said", "happened-said", "said"].find((id) => has(`${id}.children`)) || "said",
      tick: isTap && /^\{"tick":("(?:[^"\\]|\\.)*")\}\.n_clicks$/.exec((body.changedPropIds || [])[0] || "")?.[1],
      shelf: isTap && has("shelving.data") && /^\{"(opens|back|take)":("(?:[^"\\]|\\.)*")\}\.n_clicks$/.exec((body.changedPropIds || [])[0] || ""),
      get waits() { return this.form || this.says || this.tick || this.shelf; }, isTap,
    };
  }
  const value = (body, id, property) => [...body.inputs, ...(body.state || [])].flat(2).find((one) => one.id === id && one.property === property)?.value;
  const json = (response) => new Response(JSON.stringify({ multi: true, response }), { status: 200, headers: { "Content-Type": "application/json" } });
  const part = (type, props) => ({ type, namespace: "dash_html_components", props });

  async function instead(body, one) {
    if (one.draws) return drawn(body);
    if (one.why) return json({ "why-panel": { opened: true }, "why-shown": { children: trouble(say("arithmetic")) } });
    if (one.tick) return keepTick(JSON.parse(one.tick));
    if (one.form) return keepForm(body, one.card);
    if (one.says) return keepSaid(body, one.card);
    if (one.shelf) return keepShelf(body, one.shelf);
    if (one.reads) return json(readLater(body));
    if (one.isTap) { failed(say("needs_house")); return null; }
    return new Response(null, { status: 204 }); // nothing changes on the page
  }
  function failed(text) {
    const line = document.getElementById("failed");
    if (line) setTimeout(() => line.replaceChildren(text), 50); // after what croft.js takes away
  }

  /* -- pages ----------------------------------------------------------------------------------------- */
  const pageAt = (path, search) => `/kept-page?at=${encodeURIComponent(path + (search || ""))}`;
  const isNow = (moment) => !moment || (!moment.as_of && !moment.known_at);
  async function keepPage(body, answer, begun) {
    if (!window.caches || !isNow(value(body, "moment", "data"))) return;
    const text = await answer.text(), address = pageAt(value(body, "url", "pathname"), value(body, "url", "search"));
    const kept = new Response(text, { headers: { "Content-Type": "application/json", "X-Kept-At": new Date().toISOString() } });
    const answers = await caches.open(ANSWERS);
    if (begun === epoch) await answers.put(address, kept);
    if (begun !== epoch) await caches.delete(ANSWERS); // somebody left meanwhile
    await few(answers);
  }
  const MOST_PAGES = 60;
  async function few(answers) {
    const keys = await answers.keys();
    for (const old of keys.slice(0, Math.max(0, keys.length - MOST_PAGES))) await answers.delete(old);
  }
  async function keptPage(body) {
    const path = value(body, "url", "pathname") || "/", search = value(body, "url", "search") || "";
    return window.caches && (await (await caches.open(ANSWERS)).match(pageAt(path, search)));
  }
  async function drawn(body) {
    isStale = true;
    const kept = await keptPage(body);
    const at = kept && Date.parse(kept.headers.get("X-Kept-At"));
    if (!kept || !isNow(value(body, "moment", "data")) || Date.now() - at > KEPT_DAYS * DAY_MS) return json(await lost());
    const found = await kept.json();
    renewed(found, at);
    await ticked(found);
    found.response["moment-note"] = { children: part("P", { children: say("as_of", { when: whenSaid(at) }), className: "kept-note" }) };
    return json(found.response);
  }
  /* In a shop without signal the list goes on ticking; what was ticked is told to the house later. */
  const SHOPPING = "/shopping";
  async function keepTick(item) {
    const button = [...document.querySelectorAll(`#page [id^='{"tick"']`)].find((one) => JSON.parse(one.id).tick === item);
    const is_in = button?.getAttribute("aria-checked") !== "true", now = new Date();
    for (const old of await every()) if (old.tick?.item === item) await remove(old.n);
    await add({ id: uuid(), tick: { item, is_in }, day: dayOf(now), at: now.toISOString(), state: "waits" });
    const kept = window.caches && (await (await caches.open(ANSWERS)).match(pageAt(SHOPPING, "")));
    if (!kept) { button?.setAttribute("aria-checked", String(is_in)); return new Response(null, { status: 204 }); }
    const found = await kept.json();
    await ticked(found);
    return json({ page: found.response.page });
  }
  async function ticked(found) {
    const now = new Map((await every().catch(() => [])).filter((one) => one.tick).map((one) => [one.tick.item, one.tick.is_in]));
    (function walk(node) {
      if (Array.isArray(node)) return node.forEach(walk);
      if (!node || typeof node !== "object") return;
      const item = node.props?.id?.tick;
      if (now.has(item)) {
        const is = now.get(item), [box] = node.props.children;
        Object.assign(node.props, { className: is ? "want got" : "want", "aria-checked": String(is) });
        Object.assign(box.props, { className: is ? "tick on" : "tick", children: is ? part("I", { className: "ic ic-check", "aria-hidden": "true" }) : null });
      }
      Object.values(node).forEach(walk);
    })(found);
  }
  /* An entry written from a page kept here needs an id of its own, and "today" is the phone's today. */
  function renewed(node, at) {
    if (Array.isArray(node)) return node.forEach((one) => renewed(one, at));
    if (!node || typeof node !== "object") return;
    const props = node.props;
    if (node.type === "Graph") Object.assign(node, part("P", { className: "quiet", children: say("no_picture") })); // its script is not kept
    if (props && (props.id === "form-id" || props.id === "happened-id")) props.data = uuid();
    if (props && props.id === "form-when" && Array.isArray(props.data) && props.data.length > 1) {
      const now = new Date(), then = [dayOf(now), dayOf(new Date(now.getFullYear(), now.getMonth(), now.getDate() - 1))];
      const drawn = props.data.slice(0, 2).map((one) => one.value), chosen = drawn.indexOf(props.value);
      then.forEach((day, i) => { props.data[i].value = day; });
      if (chosen === 0) props.value = then[0];
      else if (chosen === 1 && drawn[1] !== then[1]) props.value = drawn[1] === then[0] ? then[0] : props.value;
    }
    Object.values(node).forEach((one) => renewed(one, at));
  }
  async function lost() {
    const pages = await keptPages();
    const links = pages.map(([path, name]) => part("Li", { children: part("A", { children: name, href: path }) }));
    return {
      page: { children: [part("H1", { children: say("lost") }), part("P", { children: links.length ? say("lost_text") : "" }), part("Ul", { children: links })] },
      "moment-note": { children: null }, main: { lang: lang() },
    };
  }
  async function keptPages() {
    if (!window.caches) return [];
    const names = new Map([...document.querySelectorAll(".menu a, nav a")].map((one) => [new URL(one.href).pathname, one.textContent.trim()]));
    const kept = (await (await caches.open(ANSWERS)).keys()).map((one) => new URL(one.url).searchParams.get("at"));
    return [...new Set(kept)].filter((path) => names.has(path)).map((path) => [path, names.get(path)]);
  }
  function forget() {
    epoch += 1;
    if (window.caches) caches.delete(ANSWERS);
    navigator.serviceWorker?.controller?.postMessage({ forget: true });
  }

  /* The pages wanted without the house are asked for ahead, one by one, while nothing else is done. */
  const AHEAD = ["/", "/shelf", "/write", "/shopping"], AHEAD_EVERY_MS = 120e3, FORMS = 8, QUIET_MS = 4000;
  let ahead = null, aheadAt = -Infinity, aheadOf = null;
  function keepAhead(position) {
    if (!window.caches || !drawnLike || ahead || position === aheadOf || navigator.connection?.saveData) return;
    if (performance.now() - aheadAt < AHEAD_EVERY_MS) return;
    ahead = setTimeout(async () => {
      aheadAt = performance.now();
      try { if (await fetchAhead()) aheadOf = position; } finally { ahead = null; }
    }, QUIET_MS);
  }
  async function fetchAhead() {
    const wanted = [...AHEAD];
    for (const address of wanted) {
      if (document.hidden || isAway || isOut) return false;
      const to = new URL(address, location.origin), begun = epoch;
      const is = address.includes("?") && (await (await caches.open(ANSWERS)).match(pageAt(to.pathname, to.search)));
      if (is && Date.now() - Date.parse(is.headers.get("X-Kept-At")) < DAY_MS) continue;
      const body = drawing(to.pathname, to.search);
      const answer = await net(`/${WIRE}`, { method: "POST", headers: { "Content-Type": "application/json", Accept: "application/json" }, body: JSON.stringify(body) });
      if (answer.status !== 200) return false;
      const copy = address === "/write" ? await answer.clone().text() : "";
      await keepPage(body, answer, begun);
      wanted.push(...[...new Set(copy.match(/\/write\?kind=\w+(?!\w|&)/g) || [])].slice(0, FORMS)); // the first forms that Write leads to
    }
    return true;
  }
  /* As the page last asked for itself, with another address. */
  let drawnLike = null;
  function drawing(pathname, search) {
    const body = structuredClone(drawnLike), put = (id, property, given) => {
      const at = [...body.inputs, ...(body.state || [])].find((one) => one.id === id && one.property === property);
      if (at) at.value = given;
    };
    put("url", "pathname", pathname);
    put("url", "search", search);
    put("main", "data-address", null);
    return { ...body, changedPropIds: ["url.pathname"] };
  }

  /* -- entries --------------------------------------------------------------------------------------- */
  const spelt = (id) => JSON.stringify(Object.fromEntries(Object.keys(id).sort().map((key) => [key, id[key]])));
  function boxesOf(body) {
    const lists = [...body.inputs, ...(body.state || [])].filter(Array.isArray).map((one) => one.flat());
    const values = lists.find((one) => one.length && one[0].property === "value" && one[0].id.part === "box") || [];
    return values.map((one) => [one.id, one.value === null || one.value === undefined ? "" : String(one.value)]);
  }
  const waitsCard = () => part("Div", {
    className: "written waits", role: "status",
    children: [part("B", { children: say("kept_title") }), part("P", { children: say("kept") })],
  });
  const trouble = (text) => part("P", { className: "trouble", role: "alert", children: text });
  async function kept(one) {
    const now = new Date();
    await add({ ...one, day: dayOf(now), at: now.toISOString(), state: "waits" });
    told?.postMessage(1);
    navigator.storage?.persist?.();
    await show();
  }

  async function keepForm(body, card) {
    const boxes = boxesOf(body), said = boxes.filter(([id, text]) => text.trim() && id.field !== "day");
    const stay = Object.fromEntries(boxes.map(([id]) => [spelt(id), { error: null }]));
    if (!said.length) return json({ ...stay, [card]: { children: trouble(say("nothing")) } });
    const when = value(body, "form-when", "value"), day = boxes.find(([id]) => id.field === "day");
    const tapped = /^\{"accept":"([^"]+)"\}\.n_clicks$/.exec((body.changedPropIds || [])[0] || "");
    const accepted = [...(value(body, "form-accepted", "data") || []), ...(tapped ? [tapped[1]] : [])];
    const form = {
      kind: value(body, "form-kind", "data"), when: when === "other" ? (day ? day[1].trim() : "") : when || "",
      boxes: boxes.filter(([, text]) => text.trim()).map(([id, text]) => [id.field, id.row, text]),
      by: value(body, "form-by", "value") || null, replaces: value(body, "form-replaces", "data") || null, accepted,
    };
    try { await kept({ id: value(body, "form-id", "data"), form, label: said.map(([, text]) => text.trim()).join(", ") }); }
    catch (_error) { return json({ ...stay, [card]: { children: trouble(say("not_kept")) } }); }
    const left = Object.fromEntries(boxes.map(([id, text]) => [spelt(id), id.field === "day" || !text ? { error: null } : { error: null, value: "" }]));
    return json({
      ...left, [card]: { children: waitsCard() }, "form-id": { data: uuid() }, "form-accepted": { data: [] }, "form-replaces": { data: null },
    });
  }

  const going = (body) => [...(body.state || [])].flat(2).find((one) => one.id === "shelving" && one.property === "data");
  function named(options, body) {
    const at = going(body);
    if (at) at.value = { ...(at.value || {}), next: uuid() };
    return { ...options, body: JSON.stringify(body) };
  }
  /* A jar opened or put back: the board is named, and the house takes the oldest jar when it is told. */
  async function keepShelf(body, [, act, spelled]) {
    const said = JSON.parse(spelled), so_far = going(body)?.value || {}, isAnswer = act === "take";
    if (isAnswer && !so_far.key) { failed(say("needs_house")); return null; }
    const key = isAnswer ? so_far.key : said, accepted = isAnswer ? [...(so_far.accepted || []), said] : [];
    const button = document.getElementById(spelt({ [isAnswer ? "opens" : act]: key }));
    const one = { id: isAnswer ? so_far.id : so_far.next || uuid(), shelf: { act: isAnswer ? "opens" : act, key, accepted } };
    try { await kept({ ...one, label: button?.getAttribute("aria-label") || key.split("\u001f")[0] }); }
    catch (_error) { return json({ said: { children: trouble(say("not_kept")) } }); }
    return json({ said: { children: waitsCard() }, shelving: { data: {} } });
  }

  async function keepSaid(body, card) {
    const text = (value(body, "happened-text", "value") || "").trim();
    if (!text) return json({ [card]: { children: trouble(say("nothing")) } });
    const tapped = /^\{"settle":"([^"]+)"\}\.n_clicks$/.exec((body.changedPropIds || [])[0] || "");
    const settling = [...(value(body, "happened-answers", "data") || []), ...(tapped ? [["door", "", 0, tapped[1]]] : [])];
    try { await kept({ id: value(body, "happened-id", "data"), said: { text, settling }, label: text }); }
    catch (_error) { return json({ [card]: { children: trouble(say("not_kept")) } }); }
    return json({
      [card]: { children: waitsCard() }, "happened-text": { value: "" }, "happened-answers": { data: settling.filter((answer) => answer[0] === "as") }, "happened-id": { data: uuid() },
      "happened-done": { data: [] },
    });
  }
  function readLater(body) {
    const text = (value(body, "happened-text", "value") || "").trim();
    return { "happened-read": { children: text ? part("P", { className: "quiet", children: say("read_later") }) : [] } };
  }

  /* -- sending: one tab at a time, in order, up to the first that asks something ---------------------- */
  let lastSent = -Infinity, isSending = false;
  async function send() {
    if (isSending) return;
    isSending = true;
    lastSent = performance.now();
    try {
      if (navigator.locks) await navigator.locks.request("croftbook-waiting", { ifAvailable: true }, (lock) => lock && sendAll());
      else await sendAll();
    } catch (_error) { /* no store, or no answer: the next round tries again */ }
    finally { isSending = false; show(); }
  }
  /* Whether entries are ready to go; behind an open question they are not, and a new one need not wait for it. */
  const anyWaits = async () => { try { const [first] = (await every()).filter((one) => !one.tick); return Boolean(first) && first.state === "waits"; } catch (_error) { return false; } };
  async function sendAll() {
    for (;;) {
      const ready = [];
      const all = await every();
      ready.push(...all.filter((one) => one.tick).slice(0, AT_ONCE));
      for (const one of all.filter((other) => !other.tick)) {
        if (one.state !== "waits" || ready.length >= 2 * AT_ONCE) break;
        ready.push(one);
      }
      if (!ready.length) return;
      const entries = ready.map(({ id, day, at, form, said, tick, shelf }) => ({ id, day, at, ...(tick ? { tick } : shelf ? { shelf } : form ? { form } : { said }) }));
      const answer = await net("/waiting", {
        method: "POST", headers: { "Content-Type": "application/json", Accept: "application/json" },
        body: JSON.stringify({ entries }), signal: AbortSignal.timeout?.(60e3),
      }).catch((error) => { away(); throw error; });
      if (answer.status === 401) return out();
      if (!answer.ok) return;
      const { done, busy, position } = await answer.json();
      await settle(ready, done);
      seen(position);
      if (busy || done.some((one) => one.state === "asks" || one.state === "refused") || !done.length) return;
    }
  }
  async function settle(ready, done) {
    for (const one of done) {
      const mine = ready.find((other) => other.id === one.id);
      if (one.state === "asks" || one.state === "refused") await change({ ...mine, state: one.state, asked: one.asked, why: one.said });
      else {
        if (!mine.tick) news.push({ label: mine.label, isAgain: one.state === "again", lines: one.lines, entries: one.entries, notes: one.notes || [] });
        await remove(mine.n);
      }
    }
    told?.postMessage(1);
  }

  /* -- the strip ------------------------------------------------------------------------------------- */
  const news = [];
  let isOpen = false, drawnAs = "";
  const make = (name, props, ...inside) => { const node = Object.assign(document.createElement(name), props); node.append(...inside.filter(Boolean)); return node; };
  const press = (text, act, quiet = true) => make("button", { type: "button", className: quiet ? "button quiet-button" : "button", textContent: text, onclick: act });
  async function show() {
    const at = place();
    if (!at) return;
    let waiting = [];
    try { waiting = (await every()).filter((one) => !one.tick); } catch (_error) { /* no store in this browser: nothing waits */ }
    const now = JSON.stringify([waiting, isAway, isOut, isOpen, news]);
    if (now === drawnAs && at.childNodes.length) return;
    drawnAs = now;
    const open = waiting.find((one) => one.state !== "waits"), behind = waiting.length - 1;
    at.replaceChildren(...(news.length ? [written()] : []));
    at.classList.toggle("asks", Boolean(open));
    if (!waiting.length) return;
    const text = open ? say(behind > 1 ? "asks_more" : behind ? "asks_two" : "asks_one", { n: behind }) : [isAway ? say("no_signal") : "", waiting.length === 1 ? say("one") : say("many", { n: waiting.length }), isOut ? say("sign_in") : ""].filter(Boolean).join(" ");
    const head = make("div", { className: "waiting-head" }, make("span", { textContent: text, role: "status" }));
    if (isOut) head.append(make("a", { href: "/enter", className: "button quiet-button", textContent: say("enter") }));
    const look = press(say("look"), () => { isOpen = !isOpen; show(); });
    look.setAttribute("aria-expanded", String(isOpen || Boolean(open)));
    if (!open) head.append(look);
    at.append(head);
    if (isOpen || open) at.append(make("ul", { className: "waiting-list" }, ...waiting.map((one) => line(one))));
  }
  function line(one) {
    const kind = one.form ? words.kinds[one.form.kind] || one.form.kind : "";
    const name = [kind, one.form?.replaces ? say("correction") : ""].filter(Boolean).join(", ");
    const node = make("li", {}, make("span", { className: "quiet", textContent: [whenSaid(one.at), name].filter(Boolean).join(" · ") }), make("p", { textContent: one.label }));
    if (one.why) node.append(make("p", { className: "trouble", textContent: one.why }));
    for (const asked of one.asked || []) node.append(question(one, asked));
    const tools = make("div", { className: "tools" });
    if (one.state !== "waits" && !one.shelf) tools.append(press(say("open_it"), () => intoBox(one)));
    if (one.state !== "waits") tools.append(press(say("throw_out"), (event) => {
      if (event.target.dataset.sure) return remove(one.n).then(after);
      event.target.dataset.sure = "1";
      event.target.textContent = say("throw_out_sure");
    }));
    if (tools.childNodes.length) node.append(tools);
    return node;
  }
  function question(one, asked) {
    const chips = make("div", { className: "tools" }, ...asked.chips.map((chip) => press(chip.text, () => answered(one, chip.answer))));
    return make("div", { className: asked.danger ? "danger" : "read-asked", role: asked.danger ? "alert" : "group" }, make("p", { textContent: asked.text }), chips);
  }
  async function answered(one, answer) {
    const next = { ...one, state: "waits", asked: undefined, why: undefined };
    if (one.shelf) next.shelf = { ...one.shelf, accepted: [...one.shelf.accepted, answer] };
    else if (one.form) next.form = { ...one.form, accepted: [...one.form.accepted, answer] };
    else next.said = { ...one.said, settling: [...one.said.settling.filter((other) => answer[0] === "door" || JSON.stringify(other.slice(0, 3)) !== JSON.stringify(answer.slice(0, 3))), answer] };
    await change(next);
    await after();
  }
  async function after() { told?.postMessage(1); await show(); await send(); }
  /* Only what the house has refused goes back: it is known not to be written, so its box may write it anew. */
  async function intoBox(one) {
    const query = new URLSearchParams(one.form ? { kind: one.form.kind, ...(one.form.replaces ? { replaces: one.form.replaces } : {}) } : {});
    const address = one.form ? `/write?${query}` : "/write";
    const boxes = one.form ? Object.fromEntries(one.form.boxes.map(([field, row, text]) => [spelt({ field, part: "box", row }), text])) : { "happened-text": one.said.text };
    if (one.form) Object.assign(boxes, { "form-when": "other", [spelt({ field: "day", part: "box", row: 0 })]: one.form.when });
    window.croftDrafts.keep(address, boxes, one.at);
    await remove(one.n);
    told?.postMessage(1);
    location.assign(address);
  }
  function written() {
    const list = make("ul", { className: "waiting-list" });
    for (const one of news) {
      if (one.isAgain || !one.lines.length) list.append(make("li", { textContent: `${one.label}: ${say("again")}` }));
      else one.lines.forEach((text, i) => {
        const [kind, id] = one.entries[i];
        if (kind === "struck") list.append(make("li", { textContent: text }));
        else list.append(make("li", { className: "waiting-head" }, make("span", { textContent: text }), make("a", { href: `/write?kind=${kind}&replaces=${id}`, className: "button quiet-button", textContent: say("put_right") })));
      });
      for (const note of one.notes) list.append(make("li", { className: "quiet", textContent: note }));
    }
    const head = make("div", { className: "waiting-head" }, make("span", { textContent: say("written_now"), role: "status" }), press(say("good"), () => { news.length = 0; show(); }));
    return make("div", { className: "waiting-news" }, head, list);
  }

  /* -- beginning ------------------------------------------------------------------------------------- */
  let seenAt = null;
  new MutationObserver(() => { if (place() !== seenAt) { seenAt = place(); drawnAs = ""; show(); } }).observe(document.documentElement, { subtree: true, childList: true });
  window.addEventListener("online", () => { lastSent = -Infinity; });
  window.addEventListener("load", async () => {
    if (!("serviceWorker" in navigator) || !window.isSecureContext) return;
    navigator.serviceWorker.addEventListener("message", (event) => { if (event.data?.forgotten) epoch += 1; });
    try {
      await navigator.serviceWorker.register("/worker.js", { scope: "/" });
      const ready = await navigator.serviceWorker.ready;
      // A page that was on its way while the worker came up has none before it, until it asks for it.
      if (!navigator.serviceWorker.controller) ready.active.postMessage({ stand: true });
      const loaded = () => performance.getEntriesByType("resource").map((one) => one.name);
      setTimeout(() => ready.active.postMessage({ keep: [...new Set(loaded())] }), QUIET_MS);
    } catch (_error) { /* a browser that keeps no worker still keeps the entries */ }
  });
})();
