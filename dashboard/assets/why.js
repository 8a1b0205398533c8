/* A branch of a figure's arithmetic that is not there yet is fetched when it is opened (see
   dashboard/parts/why.py). What could not be fetched is said in its place; opened again, it is asked for again. */
(function () {
  "use strict";
  const WAIT_MS = 20000;
  document.addEventListener("toggle", (event) => {
    const at = event.target;
    if (at.open && at.matches(".why-tree details[data-place]:not([aria-busy])")) fetched(at);
  }, true);

  async function fetched(at) {
    const tree = at.closest(".why-tree").dataset;
    at.setAttribute("aria-busy", "true");
    at.querySelector(":scope > .trouble")?.remove();
    const { ok, drawn, said } = await asked(`${tree.of}&${new URLSearchParams({ place: at.dataset.place, mark: at.dataset.mark })}`);
    at.removeAttribute("aria-busy");
    if (ok) delete at.dataset.place;
    if (drawn) at.insertAdjacentHTML("beforeend", drawn); // every text in it is escaped
    else at.append(Object.assign(document.createElement("p"), { className: "trouble", role: "alert", textContent: said || tree.away }));
  }
  async function asked(address) {
    try {
      const answer = await fetch(address, { headers: { Accept: "application/json" }, signal: AbortSignal.timeout?.(WAIT_MS) });
      return { ...(await answer.json()), ok: answer.ok };
    } catch (_error) { return {}; } // not reached, or no answer of the house's own
  }
})();
