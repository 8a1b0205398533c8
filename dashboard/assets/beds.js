/* Beds on their ground: dragged, nudged by arrows, or moved by their boxes; the boxes are what is written. */
(function () {
  "use strict";
  const AT = ["x", "y", "length", "width", "turned"], STEP = 0.5;
  const boxId = (at, lie) => ({ at, lie });
  const box = (at, lie) => document.getElementById(JSON.stringify(boxId(at, lie)));
  const ground = () => document.getElementById("beds-ground");
  const number = (text) => { const n = parseFloat(String(text || "").replace(",", ".")); return Number.isFinite(n) ? n : 0; };
  let lies = [], wide = 1, held = null;
  function read() {
    lies = [...ground().children].map((_, lie) => Object.fromEntries(AT.map((at) => [at, number(box(at, lie)?.value)])));
  }
  function place() {
    const at = ground();
    if (!at || !lies.length) return;
    if (!held) wide = 1.08 * Math.max(...lies.map((one) => Math.max(one.x + one.length, one.x + one.length / 2 + one.width / 2)), 1);
    const deep = 1.05 * Math.max(...lies.map((one) => one.y + Math.max(one.width, one.turned % 180 ? (one.width + one.length) / 2 : 0)), wide / 3);
    at.style.aspectRatio = `${wide} / ${deep}`;
    [...at.children].forEach((node, n) => {
      const one = lies[n];
      Object.assign(node.style, {
        left: `${(100 * one.x) / wide}%`, top: `${(100 * one.y) / deep}%`, width: `${(100 * one.length) / wide}%`,
        height: `${(100 * one.width) / deep}%`, transform: `rotate(${one.turned}deg)`,
      });
    });
  }
  function move(n, x, y) {
    const one = lies[n], to = { x: Math.max(0, Math.round(x / STEP) * STEP), y: Math.max(0, Math.round(y / STEP) * STEP) };
    for (const at of ["x", "y"]) {
      if (one[at] === to[at]) continue;
      one[at] = to[at];
      window.dash_clientside.set_props(boxId(at, n), { value: to[at].toLocaleString(document.documentElement.lang || "en", { useGrouping: false }) });
    }
    place();
  }
  document.addEventListener("click", (event) => {
    const button = event.target.closest("[data-nudge]");
    if (!button || !ground()) return;
    const [n, dx, dy] = button.dataset.nudge.split(" ").map(Number);
    move(n, lies[n].x + dx, lies[n].y + dy);
  });
  document.addEventListener("input", (event) => {
    if (event.target.id.startsWith('{"at":') && ground()) { read(); place(); }
  });
  document.addEventListener("pointerdown", (event) => {
    const node = event.target.closest("#beds-ground .lie");
    if (!node || event.button) return;
    const n = Number(node.dataset.lie);
    held = { n, left: event.clientX, top: event.clientY, x: lies[n].x, y: lies[n].y, per: wide / ground().clientWidth };
    node.setPointerCapture(event.pointerId);
    event.preventDefault();
  });
  document.addEventListener("pointermove", (event) => {
    if (held) move(held.n, held.x + (event.clientX - held.left) * held.per, held.y + (event.clientY - held.top) * held.per);
  });
  for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => { if (held) { held = null; place(); } });
  let seen = null;
  new MutationObserver(() => {
    const at = ground();
    if (at === seen || (at && !box("x", 0))) return;
    seen = at;
    if (at) { read(); place(); }
  }).observe(document.documentElement, { subtree: true, childList: true });
})();
