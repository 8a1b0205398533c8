/* What came ahead (see dashboard/first.py): the page drawn, and the first answers of the house. Read before
   away.js, so that for it and all others they are answers like any. The live page is made beside the drawn
   one, out of sight, and takes its place at once when it is whole: with what was typed meanwhile, what was
   unfolded, and what was tapped. */
(function () {
  "use strict";
  const net = window.fetch.bind(window), node = document.getElementById("at-once");
  const came = node && JSON.parse(node.textContent);
  const isMine = came && came.path === location.pathname && came.search === location.search && !document.documentElement.classList.contains("past");
  const answers = isMine ? { "/_dash-layout": came.layout, "/_dash-dependencies": came.dependencies } : {};
  let page = isMine ? came.page : null, drawn = document.getElementById("drawn"), alive = null;
  if (node) node.remove();
  if (drawn && !isMine) { drawn.remove(); drawn = null; } // kept for another page, or of another day

  const json = (content) => new Response(JSON.stringify(content), { status: 200, headers: { "Content-Type": "application/json" } });
  const value = (body, id, property) => [...body.inputs, ...(body.state || [])].flat(2).find((one) => one.id === id && one.property === property)?.value;
  const isPage = (body) => body.output.includes("page.children") && value(body, "url", "pathname") === came.path && (value(body, "url", "search") || "") === came.search && value(body, "scheme", "data") === came.scheme && !(value(body, "moment", "data") || {}).as_of && !(value(body, "moment", "data") || {}).known_at;
  window.fetch = async function (asked, options) {
    const to = new URL(asked.url || asked, location.href).pathname, own = answers[to];
    if (own) { delete answers[to]; return json(own); }
    if (page && to === "/_dash-update-component" && typeof options?.body === "string" && isPage(JSON.parse(options.body))) {
      const first = page;
      page = null;
      return json(first);
    }
    return net(asked, options);
  };

  const PRESSED = "button, [role=radiogroup] label"; // as the first answer's own line of script says
  if (!drawn) window.croftTaps = null;

  window.croftAhead = {
    /* The renderer has begun in its place, which now waits outside of the page. */
    begins: function () {
      if (!drawn) return;
      alive = document.getElementById("react-entry-point");
      alive.remove();
    },
    /* The live page is whole. */
    takes: function () {
      if (!drawn || !alive) return;
      const was = drawn, spelt = (id) => (id.startsWith("{") ? JSON.parse(id) : id);
      drawn = null;
      const pressed = [...was.querySelectorAll(PRESSED)], taps = (window.croftTaps || []).map((one) => pressed.indexOf(one));
      window.croftTaps = null;
      const boxes = [...was.querySelectorAll("input[id]:not([type=range]), textarea[id], select[id]")];
      const first = (box) => (box.matches("select") ? ([...box.options].find((one) => one.defaultSelected) || box.options[0] || {}).value : box.defaultValue);
      const typed = boxes.filter((box) => box.value !== first(box)).map((box) => [box.id, box.value]);
      const folds = [...was.querySelectorAll("details")].map((one) => one.open);
      const focused = was.contains(document.activeElement) ? document.activeElement : null, from = focused?.selectionStart, to = focused?.selectionEnd;
      was.replaceWith(alive);
      typed.forEach(([id, text]) => window.dash_clientside.set_props(spelt(id), { value: text }));
      queueMicrotask(() => {
        [...alive.querySelectorAll("details")].forEach((one, n) => { if (n < folds.length && one.open !== folds[n]) one.open = folds[n]; });
        const box = focused && focused.id && document.getElementById(focused.id);
        if (box) {
          box.focus({ preventScroll: true });
          setTimeout(() => { try { box.setSelectionRange(from, to); } catch (_error) { /* no text */ } }, 0);
        }
        setTimeout(() => {
          typed.forEach(([id]) => document.getElementById(id)?.dispatchEvent(new Event("input", { bubbles: true })));
          const places = [...alive.querySelectorAll(PRESSED)];
          taps.forEach((n) => places[n]?.click());
        }, 150);
      });
    },
  };
})();
