/* What the browser does by itself: opens a figure's arithmetic, saves pictures, asks every three
   seconds whether somebody else wrote, shows the next line of a form, writes once for a double tap, says what
   became of a request that failed. No data is made here. */
(function () {
  "use strict";
  function known(id) {
    try { return window.dash_component_api.getLayout(id); } catch (_error) { return undefined; } // not (any more) there
  }
  const set = (id, props) => { if (known(id)) window.dash_clientside.set_props(id, props); };
  const EVERY_MS = 3000, AGAIN_MS = 1500;

  /* An answer other than success is said, in the words that came with it; what an earlier entry was told
     goes away, what was typed stays. A page that cannot begin asks again by itself. */
  const WIRE = "_dash-update-component", BEGINS = /_dash-(layout|dependencies)/, RELOAD_MS = 5000;
  const ask = window.fetch.bind(window);
  window.fetch = async function (asked, ...more) {
    const to = String(asked.url || asked), begins = BEGINS.test(to);
    if (!begins && !to.includes(WIRE)) return ask(asked, ...more);
    let answer;
    try { answer = await ask(asked, ...more); }
    catch (error) { unsaid(); if (begins) setTimeout(() => location.reload(), RELOAD_MS); else askPosition(); throw error; }
    if (answer.ok) return answer;
    const text = await words(answer.clone());
    if (!begins) failed(text, answer.status);
    else if (answer.status === 401) location.assign("/enter");
    else {
      setTimeout(() => { document.body.textContent = text; }, 100); // after the renderer's own line
      setTimeout(() => location.reload(), RELOAD_MS);
    }
    return answer;
  };
  async function words(answer) {
    const line = document.getElementById("failed"), says = line ? line.dataset : {};
    if (answer.status === 413) return says.tooMuch;
    try { return (await answer.json()).said || says.says; } catch (_error) { return says.says; }
  }
  function unsaid() {
    if (document.querySelector("#form-said *")) set("form-said", { children: null });
    if (document.querySelector("#strike-said *")) set("strike-said", { children: null });
  }
  function failed(text, status) {
    const line = document.getElementById("failed");
    if (!line) return;
    unsaid();
    line.replaceChildren([text, all(BOXES).some((box) => box.value) ? line.dataset.kept : ""].join(" ").trim());
    if (status !== 401) return;
    const link = document.createElement("a");
    link.href = "/enter"; link.target = "_blank"; link.textContent = line.dataset.enter;
    line.append(" ", link);
  }
  function mended() { document.getElementById("failed")?.replaceChildren(); }

  /* The charting script is kept for long, so it is asked for under its version. */
  const charting = document.querySelector("meta[name=charting]");
  if (charting) Object.defineProperty(window, "_dashPlotlyJSURL", { get: () => charting.content, set: () => {} });

  /* So are the parts that a library loads when they are wanted. */
  const parts = document.querySelector("meta[name=parts]");
  const src = Object.getOwnPropertyDescriptor(HTMLScriptElement.prototype, "src");
  if (parts) Object.defineProperty(HTMLScriptElement.prototype, "src", {
    ...src,
    set: function (url) {
      src.set.call(this, /_dash-component-suites\/.*\/async-[^?]*\.js$/.test(url) ? url + parts.content : url);
    },
  });

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    croft: {
      scheme: function (scheme) {
        if (chosen()) document.body.className = scheme;
        return scheme;
      },
      shown: function () {
        // the box that was refused comes into sight, and takes what is typed next
        requestAnimationFrame(() => {
          const box = document.querySelector('.form [aria-invalid="true"]');
          if (box) { box.scrollIntoView({ block: "center" }); box.focus({ preventScroll: true }); }
          // somebody else was writing: what was typed is tried again
          const again = document.querySelector("#form-said .again"), button = document.getElementById("form-write");
          if (again) setTimeout(() => { if (again.isConnected) { passes = button; button.click(); } }, AGAIN_MS);
          // what stands beside a batch belongs to the boxes, which a written entry leaves empty
          document.querySelector(".form")?.dispatchEvent(new Event("input", { bubbles: true }));
          setTimeout(sumUp, 60);
        });
        return "";
      },
      bill: function (read) {
        if (!read) return "";
        read.lines.forEach(([text, paid]) => {
          const row = emptyLine("lines");
          if (row === null) return;
          set(boxId("lines", row), { value: text });
          if (paid) set(boxId("paid", row), { value: paid });
          taken.add(row);
        });
        ["shop", "receipt_total"].forEach((name) => read[name] && set(boxId(name, 0), { value: read[name] }));
        read.other.forEach((text, n) => set(boxId("other", n), { value: text }));
        setTimeout(() => { taken.clear(); sumUp(); }, 50);
        return "";
      },
      otherDay: function (when) {
        return when !== "other";
      },
      arrived: function (_children, path, search) {
        window.croftAhead.takes();
        document.querySelectorAll("[data-still]").forEach(fill);
        if (!chosen() && known("scheme").props.data !== system()) set("scheme", { data: system() });
        const name = document.querySelector("#page h1");
        if (name) document.title = name.textContent + " · " + document.querySelector(".brand").textContent;
        document.querySelectorAll(".menu-link").forEach((link) => {
          const here = new URL(link.href).pathname === path;
          if (here) link.setAttribute("aria-current", "page");
          else link.removeAttribute("aria-current");
        });
        if (!document.querySelector(".bar [aria-current]")) document.getElementById("bar-more")?.setAttribute("aria-current", "true");
        setTimeout(sumUp, 500);
        holdOn();
        mended();
        if (at !== null && at !== path) { set("said", { children: null }); opened.clear(); } // the card stays until the next page
        at = path;
        // a page that came in another language than the menu brings the menu along
        if (document.getElementById("main").lang !== document.documentElement.lang) location.reload();
        return path + (search || "");
      },
    },
  });

  /* A choice redraws its page, itself too: whoever moves it by keys keeps the focus. */
  const CHOICE = `#page [id^='{"choice"']`;
    let held = null;
  document.addEventListener("focusin", (event) => {
    const box = event.target.closest(CHOICE);
    held = box ? box.id : null;
  });
  document.addEventListener("pointerdown", (event) => {
    if (!event.target.closest(CHOICE)) held = null;
  });
  function holdOn(tries = 20) {
    if (held === null || tries === 0) return;
    const lost = document.activeElement === null || document.activeElement === document.body;
    const box = document.getElementById(held);
    if (lost && box) box.focus({ preventScroll: true });
    else setTimeout(() => holdOn(tries - 1), 25);
  }

  /* What somebody chose is kept in one cookie, what the device's system shows in another, so that the
     first drawing comes in the right colours; croft.css follows the system by itself. */
  const isDark = window.matchMedia("(prefers-color-scheme: dark)");
  const chosen = () => /(^|; )scheme=/.test(document.cookie);
  const system = () => (isDark.matches ? "dark" : "light");
  function seeSystem() {
    document.cookie = "system=" + system() + ";path=/;max-age=31536000;samesite=strict";
    if (!chosen()) set("scheme", { data: system() });
  }
  seeSystem();
  isDark.addEventListener("change", seeSystem);

  let at = null;
  function changeScheme() {
    const shown = known("scheme").props.data, scheme = shown === "dark" ? "light" : "dark";
    document.cookie = "scheme=" + scheme + ";path=/;max-age=31536000;samesite=strict";
    set("scheme", { data: scheme });
  }

  function savePicture(button) {
    const box = document.getElementById(button.dataset.picture);
    const drawing = box && box.querySelector(".js-plotly-plot");
    if (!drawing || !window.Plotly) return;
    const layout = Object.assign({}, drawing.layout, { paper_bgcolor: getComputedStyle(document.body).backgroundColor });
    window.Plotly.downloadImage(
      { data: drawing.data, layout: layout },
      { format: button.dataset.format, filename: button.dataset.picture, width: 1000, height: 600, scale: 2 }
    );
  }

  /* Lines of a form: those that wait are made when they are wanted (see Spare in alive.js). */
  const boxId = (field, row) => ({ field: field, part: "box", row: row });
  const boxAt = (field, row) => document.getElementById(JSON.stringify(boxId(field, row)));
  const spareAt = (field, row) => known({ field: field, part: "line", row: row });
  function unfold(field, row) {
    const spare = spareAt(field, row);
    if (spare && !spare.props.opened) set({ field: field, part: "line", row: row }, { opened: true });
    const another = document.querySelector(`[data-next="rows-${field}"]`);
    if (another && !known(boxId(field, row + 1))) another.hidden = true;
  }
  window.croftLines = { unfold: unfold };
  function nextLine(button) {
    const field = button.dataset.next.replace("rows-", "");
    let row = 0;
    while (known(boxId(field, row)) && !(spareAt(field, row) && !spareAt(field, row).props.opened)) row += 1;
    if (!known(boxId(field, row))) return;
    unfold(field, row);
    queueMicrotask(() => (boxAt(field, row) ? boxAt(field, row).focus() : requestAnimationFrame(() => boxAt(field, row)?.focus())));
  }

  /* The first empty line takes what was tapped or pasted; one that waits comes into sight. */
  const taken = new Set(); // lines filled a moment ago, which their boxes do not show yet
  function emptyLine(field) {
    for (let row = 0; known(boxId(field, row)); row += 1) {
      const box = boxAt(field, row);
      if (taken.has(row) || (box ? box.value : known(boxId(field, row)).props.value)) continue;
      unfold(field, row);
      return row;
    }
    return null;
  }
  function fillLine(button) {
    const field = button.dataset.fills, row = emptyLine(field);
    if (row === null) return;
    set(boxId(field, row), { value: button.dataset.text });
    typing({ target: button });
  }

  /* The bill's running sum; nothing of it is written: what was paid stands in its boxes. */
  const number = (text) => Number(String(text).trim().replace(/[^\d.,-]/g, "").replace(",", "."));
  function sumUp() {
    const says = document.getElementById("bill-says"), sum = document.getElementById("bill-sum");
    if (!says || !sum) return;
    const things = all("#rows-lines > .row > :first-child input").filter((box) => box.value.trim()).length;
    const paid = all(`#rows-lines [id*='"field":"paid"']`).map((box) => number(box.value)).filter((one) => one > 0);
    const money = new Intl.NumberFormat(says.dataset.locale, { style: "currency", currency: says.dataset.currency })
      .format(paid.reduce((whole, one) => whole + one, 0));
    const text = things === 0 ? says.dataset.none : things === 1 ? says.dataset.one : says.dataset.many;
    const told = text.replace("{n}", things).replace("{money}", money);
    if (says.textContent !== told) says.textContent = told;
    if (sum.textContent !== money) sum.textContent = money;
  }
  document.addEventListener("input", () => requestAnimationFrame(sumUp));

  /* What just so much cost last stands in an empty price beside its line, to be typed over. */
  function lastPrice(told) {
    const said = told.closest("[id*='\"part\":\"said\"']");
    if (!said) return;
    const row = JSON.parse(said.id).row, box = boxAt("paid", row);
    if (box && !box.value) set(boxId("paid", row), { value: told.dataset.paid });
    setTimeout(sumUp, 60);
  }

  /* One chip of a row is chosen. */
  function choose(button) {
    set(button.dataset.sets, { data: button.dataset.text });
    for (const one of button.parentElement.children) one.setAttribute("aria-pressed", String(one === button));
  }

  /* What was done is never filled in by itself: a tap says that it was done as it is printed. */
  function justSo(button) {
    JSON.parse(button.dataset.just).forEach(([field, row, text]) => set(boxId(field, row), { value: text }));
    typing({ target: button });
  }
  /* One more or less of what stands in a box; an empty one stays empty. */
  function oneMore(button) {
    const [field, row, by] = JSON.parse(button.dataset.steps), box = boxAt(field, row);
    if (!/^\d+$/.test(box?.value || "")) return;
    set(boxId(field, row), { value: String(Math.max(0, Number(box.value) + by)) });
    typing({ target: button });
  }

  /* The list goes out by the phone's own sheet, or onto the clipboard. */
  async function send(button) {
    const text = button.dataset.send;
    try {
      if (navigator.share) await navigator.share({ text: text });
      else { await navigator.clipboard.writeText(text); button.lastChild.textContent = button.dataset.sent; }
    } catch (_error) { /* the sheet was closed again */ }
  }

  function complete(button) {
    const id = JSON.parse(button.dataset.completes);
    set(id, { value: button.dataset.text });
    const at = document.getElementById(button.dataset.completes);
    if (at) at.focus();
  }

  /* A tap that writes waits until what was typed has reached the renderer, which it does a few frames
     late: else a quick thumb would write half of a word. The second tap of a double one is dropped, one
     right after an answer came (a question may have moved under the thumb), and one on the boxes that an
     entry left empty. */
  const WRITES = `#form-write, #happened-write, #house-write, #strike-do, #bill-write, [id^='{"accept"'], [id^='{"settle"'], [id^='{"opens"'], [id^='{"back"'], [id^='{"take"']`, DOUBLE_MS = 500, WAIT_MS = 3000;
  const BOXES = `.form [id^='{"field"']:is(input, textarea, select)`, TEXTS = BOXES + ", #form-by, #strike-why, #happened-text, .house input";
  const all = (which) => [...document.querySelectorAll(which)];
  function isDone() {
    const written = document.querySelector("#form-said .written, #strike-said .written");
    return written && (written.closest("#strike-said") || all(BOXES).every((box) => !box.value || box.id.includes('"day"')));
  }
  function isKnown(box) {
    const at = known(box.id.startsWith("{") ? JSON.parse(box.id) : box.id);
    return !at || String(at.props.value ?? "") === box.value;
  }
  let tapped = -Infinity, waits = null, passes = null;
  function wait() {
    const button = waits;
    if (!all(TEXTS).every(isKnown) && performance.now() - tapped < WAIT_MS) return setTimeout(wait, 20);
    waits = null;
    if (isDone()) return;
    passes = button;
    button.click();
  }
  /* Where a thumb just wrote, nothing listens for two seconds, whatever has moved there meanwhile. */
  const INERT_MS = 2000;
  let place = null;
  function nowInert() {
    if (lastTap) place = { ...lastTap, until: performance.now() + INERT_MS };
  }
  let lastTap = null;
  const isInert = (event) =>
    place && event.isTrusted && performance.now() < place.until && event.detail > 0 &&
    event.clientX >= place.left && event.clientX <= place.right && event.clientY >= place.top && event.clientY <= place.bottom;
  document.addEventListener("click", function (event) {
    if (isInert(event)) { event.preventDefault(); event.stopPropagation(); return; }
    const written = event.target.closest(WRITES);
    if (!written) return;
    const box = written.getBoundingClientRect();
    lastTap = { left: box.left, right: box.right, top: box.top, bottom: box.bottom };
  }, true);

  document.addEventListener("click", function (event) {
    const button = event.target.closest(WRITES), now = performance.now();
    if (!button) return;
    if (button === passes) { passes = null; return; }
    const isDropped = waits || now - tapped < DOUBLE_MS || isDone(), isEarly = !all(TEXTS).every(isKnown);
    if (isDropped || isEarly) event.stopPropagation();
    if (isDropped) return;
    tapped = now;
    mended();
    askPosition(); // a tap that nobody hears is told at once
    if (isEarly) { waits = button; setTimeout(wait, 20); }
  }, true);

  document.addEventListener("click", function (event) {
    const at = (name) => event.target.closest("[data-" + name + "]");
    let button;
    if (event.target.closest("#change-scheme")) changeScheme();
    else if (event.target.closest("#back-to-now")) set("moment", { data: { as_of: null, known_at: null } });
    else if ((button = at("why")))
      set("why-asked", { data: { address: button.dataset.why, field: button.dataset.field || null, n: Date.now() } });
    else if ((button = at("picture"))) savePicture(button);
    else if (at("print")) window.print();
    else if ((button = at("send"))) send(button);
    else if ((button = at("next"))) nextLine(button);
    else if ((button = at("sets"))) choose(button);
    else if ((button = at("fills"))) fillLine(button);
    else if ((button = at("just"))) justSo(button);
    else if ((button = at("steps"))) oneMore(button);
    else if ((button = at("completes"))) complete(button);
    else if ((button = at("goes"))) goes(event, button);
  });

  /* What is still comes as markup with every text escaped (see dashboard/parts/still.py). Nodes put
     here are remembered, as the renderer does not know of them; what was unfolded stays so. */
  const put = new WeakMap();
  const called = (summary) => (summary.querySelector("b") || summary).textContent;
  const opened = new Set(); // on this page, however often it is drawn anew
  document.addEventListener("toggle", (event) => {
    const name = event.target.closest("#page details") && called(event.target.firstElementChild);
    if (name) event.target.open ? opened.add(name) : opened.delete(name);
  }, true);
  function fill(box) {
    const had = put.get(box);
    if (had && had.text === box.dataset.still && had.nodes.every((node) => node.parentNode === box)) return;
    const panel = box.closest(".panel"); // another figure's arithmetic begins anew, at its top
    const kept = panel ? [] : [...box.querySelectorAll("details[open] > summary")];
    const unfolded = new Set([...kept.map(called), ...(panel ? [] : opened)]);
    const focused = [...box.querySelectorAll("a, button, summary")].indexOf(document.activeElement);
    (had ? had.nodes : []).forEach((node) => node.remove());
    if (box.dataset.still === undefined) return;
    const made = document.createElement("template");
    made.innerHTML = box.dataset.still;
    put.set(box, { text: box.dataset.still, nodes: [...made.content.childNodes] });
    made.content.querySelectorAll("details").forEach((one) => {
      if (unfolded.has(called(one.firstElementChild))) one.open = true;
    });
    box.append(made.content);
    if (panel) {
      panel.scrollTo(0, 0);
      if (panel.open) panel.querySelector(".panel-close").focus({ preventScroll: true });
    } else if (focused >= 0) (box.querySelectorAll("a, button, summary")[focused] || box).focus({ preventScroll: true });
  }
  new MutationObserver((seen) => {
    const boxes = new Set();
    seen.forEach((change) => {
      if (change.target.closest("#form-said")) tapped = performance.now(); // an answer came: as after a tap
      change.addedNodes.forEach((node) => {
        if (node.nodeType === Node.ELEMENT_NODE && (node.matches(".written") || node.querySelector(".written"))) nowInert();
      });
      if (change.type === "attributes") boxes.add(change.target);
      change.addedNodes.forEach((node) => {
        if (node.nodeType !== Node.ELEMENT_NODE) return;
        if (node.matches("input, #rows-lines") || node.querySelector("#rows-lines input")) requestAnimationFrame(sumUp); // a bill that came filled
        if (node.matches("[data-paid]")) lastPrice(node);
        node.querySelectorAll("[data-paid]").forEach(lastPrice);
        if (node.matches("[data-still]")) boxes.add(node);
        node.querySelectorAll("[data-still]").forEach((box) => boxes.add(box));
      });
    });
    boxes.forEach(fill);
  }).observe(document.documentElement, { subtree: true, childList: true, attributeFilter: ["data-still"] });

  function goes(event, link) {
    if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    set("why-panel", { opened: false }); // an entry's link in the panel leads behind it
    // an entry's link in the panel takes the place of the panel's own step back
    window.history[window.history.state && window.history.state.panel ? "replaceState" : "pushState"]({}, "", link.href);
    window.dispatchEvent(new PopStateEvent("popstate"));
    window.scrollTo(0, 0);
  }

  let rest = null, rests = 0;
  function typing(event) {
    if (!event.target.closest(".form") || !document.querySelector("#batch-takes")) return;
    clearTimeout(rest);
    rest = setTimeout(() => set("form-rested", { data: ++rests }), 700);
  }
  document.addEventListener("input", typing);
  document.addEventListener("click", (event) => {
    if (event.target.closest(".chip")) typing({ target: document.querySelector(".form") || event.target });
  });

  /* While nothing answers, a line says so and what was typed stays; back again, the page is drawn anew. */
  let isAway = false, isOut = false;
  function nowAway(says) {
    const line = document.getElementById("away"), isBack = isAway && !says;
    if (line && line.textContent !== says) line.textContent = says;
    isAway = Boolean(says);
    return isBack;
  }
  /* News of another phone waits while somebody types on a page that would be drawn anew. */
  function isBusy() {
    const box = document.getElementById("happened-text");
    return Boolean(box && (box.value || box === document.activeElement));
  }
  async function askPosition() {
    if (document.hidden || !known("seen")) return;
    let now;
    try {
      const answer = await ask("/position", {
        credentials: "same-origin", headers: { Accept: "application/json" }, signal: AbortSignal.timeout?.(2 * EVERY_MS),
      });
      if (answer.status === 401) return out(await words(answer));
      if (!answer.ok) { nowAway(await words(answer)); return; }
      now = (await answer.json()).position;
    } catch (_error) { nowAway(document.getElementById("away")?.dataset.says || ""); return; } // the next round asks again
    if (isOut) { isOut = false; mended(); }
    const isBack = nowAway("");
    if (window.croftIsTapped?.()) return; // its answer first: a page drawn now would take it along
    if (isBack || (now !== known("seen").props.data && !isBusy())) set("seen", { data: now });
  }
  /* A device that was signed out is led to the entrance, unless that would lose what was typed. */
  function out(text) {
    if (!all(BOXES).some((box) => box.value)) return window.location.assign("/enter");
    if (!isOut) failed(text, 401);
    isOut = true;
  }
  setInterval(askPosition, EVERY_MS);
})();
