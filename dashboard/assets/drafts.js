/* Nothing typed is lost: what stands in a form's boxes is kept on this phone as it is typed, by the form's
   address, and comes back after Back, a reload, a closed browser or another sign-in, until it is written or
   begun anew on purpose. */
(function () {
  "use strict";
  const KEY = "croft-draft ", MOST = 40, ROOTS = "#page .form, #page .happened", LATER_MS = 60, SETTLES_MS = 400;
  const WRITTEN = "#form-said .written, #happened-said .written, #said .written", OWN = new Set(["form-by"]); // kept by itself
  const known = (id) => { try { return window.dash_component_api.getLayout(id.startsWith("{") ? JSON.parse(id) : id); } catch (_error) { return undefined; } };
  const put = (id, props) => window.dash_clientside.set_props(id.startsWith("{") ? JSON.parse(id) : id, props);
  const said = () => JSON.parse(document.getElementById("waiting")?.dataset.words || "{}");
  const address = () => document.getElementById("main")?.dataset.address || "";

  function load(at) { try { return JSON.parse(localStorage.getItem(KEY + at)); } catch (_error) { return null; } }
  function drop(at) { try { localStorage.removeItem(KEY + at); } catch (_error) { /* none is kept */ } }
  function keep(at, boxes, when) {
    try {
      localStorage.setItem(KEY + at, JSON.stringify({ at: when || new Date().toISOString(), boxes }));
      const all = drafts();
      all.slice(0, Math.max(0, all.length - MOST)).forEach(([old]) => drop(old));
    } catch (_error) { /* a browser that keeps nothing, or is full: what is typed stays in its box */ }
  }
  const drafts = () => Object.keys(localStorage).filter((key) => key.startsWith(KEY))
    .map((key) => [key.slice(KEY.length), load(key.slice(KEY.length))]).filter(([, one]) => one)
    .sort((a, b) => (a[1].at < b[1].at ? -1 : 1));
  window.croftDrafts = { keep: (at, boxes, when) => { keep(at, boxes, when); if (at === here) root = null; } }; // comes back as if found here

  /* What stands in each box now. */
  function boxes(root) {
    const out = {};
    root.querySelectorAll("[id]").forEach((node) => {
      const id = node.id, at = OWN.has(id) || id.includes('"choice"') ? undefined : known(id);
      if (!at || !("value" in at.props) || !/^(Box|Lines|Choice|OneOf)$/.test(at.type)) return;
      const typed = node.matches("input, textarea");
      out[id] = typed ? node.value : at.props.value === null || at.props.value === undefined ? "" : at.props.value;
    });
    return out;
  }

  let root = null, here = "", drawn = {};
  function begins() {
    const now = document.querySelector(ROOTS), at = address();
    if (!now) { root = null; return; }
    if ((now === root && at === here) || at !== location.pathname + location.search) return;
    const first = now.querySelector("input[id], textarea[id], select[id]");
    if (!first || !known(first.id)) return; // not drawn to its end
    root = now; here = at; drawn = boxes(root);
    root.querySelectorAll(".draft-note").forEach((old) => old.remove());
    const draft = load(here);
    if (draft) comesBack(draft);
    if (root.matches(".happened")) begun();
  }
  function comesBack(draft) {
    const back = Object.entries(draft.boxes).filter(([id, value]) => known(id) && (drawn[id] ?? "") !== value);
    if (!back.length) return;
    back.forEach(([id]) => unfold(id));
    back.forEach(([id, value]) => {
      const joined = id === "happened-text" && drawn[id] && !value.includes(drawn[id]) ? `${drawn[id]}\n${value}` : value;
      put(id, { value: joined });
      setTimeout(() => { // a line that waited is there by now
        for (let fold = document.getElementById(id)?.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
      });
    });
    setTimeout(() => root?.dispatchEvent(new Event("input", { bubbles: true })), LATER_MS); // what stands beside a batch
    note(said().draft.replace("{when}", whenSaid(draft.at)), said().anew, anew);
  }
  /* Lines stand in order: one that comes back brings those before it. */
  function unfold(id) {
    const at = id.startsWith("{") ? JSON.parse(id) : {};
    const field = [at.field, "lines", "made"].find((one) => one && known(JSON.stringify({ field: one, part: "line", row: at.row })));
    for (let row = 0; field && row <= at.row; row += 1) window.croftLines.unfold(field, row);
  }
  function anew() {
    drop(here);
    Object.keys(boxes(root)).forEach((id) => put(id, { value: drawn[id] ?? "" }));
    root.querySelectorAll(".draft-note").forEach((old) => old.remove());
  }
  function note(text, act, does) {
    const line = document.createElement("div"), button = document.createElement("button");
    line.className = "draft-note";
    line.setAttribute("role", "status");
    Object.assign(button, { type: "button", className: "button quiet-button", textContent: act, onclick: does });
    line.append(text, " ", button);
    root.prepend(line);
  }
  /* Forms begun and left: without this line nobody would come back to them. */
  function begun() {
    const left = drafts().filter(([at]) => at.startsWith("/write?kind=") && at !== here).reverse().slice(0, 4);
    if (!left.length) return;
    const line = document.createElement("div"), words = said();
    line.className = "draft-note";
    line.append(words.begun);
    left.forEach(([at, one]) => {
      const link = document.createElement("a"), kind = new URLSearchParams(at.split("?")[1]).get("kind");
      Object.assign(link, { href: at, className: "button quiet-button", textContent: `${words.kinds[kind] || kind}, ${whenSaid(one.at)}` });
      line.append(link);
    });
    root.append(line);
  }
  function whenSaid(text) {
    const at = new Date(text), lang = document.getElementById("main")?.lang || undefined;
    const clock = at.toLocaleTimeString(lang, { hour: "2-digit", minute: "2-digit" });
    return at.toDateString() === new Date().toDateString() ? clock : `${at.toLocaleDateString(lang, { weekday: "short", day: "numeric", month: "short" })}, ${clock}`;
  }

  function save(isTyped) {
    if (!root || !root.isConnected || address() !== here || (isWritten() && isTyped !== true)) return;
    const now = boxes(root), changed = Object.fromEntries(Object.entries(now).filter(([id, value]) => (drawn[id] ?? "") !== value));
    if (Object.keys(changed).some((id) => id !== "form-when")) keep(here, changed);
    else drop(here);
  }
  let done = null;
  const isWritten = () => done !== null && done.isConnected && Date.now() - doneAt < SETTLES_MS;
  let doneAt = 0;
  function written() {
    const card = document.querySelector(WRITTEN);
    if (!card || card === done || !root) return;
    done = card; doneAt = Date.now();
    drop(here);
    root.querySelectorAll(".draft-note").forEach((old) => old.remove());
    // an entry leaves its boxes empty, but for the day: what is typed from now on is another one
    const now = boxes(root);
    Object.keys(now).forEach((id) => { drawn[id] = id === "form-when" || id.includes('"day"') ? now[id] : ""; });
  }

  document.addEventListener("input", (event) => { if (event.target.closest(ROOTS)) save(true); });
  ["click", "change", "keyup"].forEach((name) => document.addEventListener(name, () => setTimeout(save, LATER_MS)));
  window.addEventListener("pagehide", save);
  document.addEventListener("visibilitychange", () => { if (document.hidden) save(); });
  let waits = null;
  new MutationObserver(() => { waits = waits || setTimeout(() => { waits = null; begins(); written(); }, 30); })
    .observe(document.documentElement, { subtree: true, childList: true, attributeFilter: ["data-address"] });
})();
