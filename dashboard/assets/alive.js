/* What is alive on a page: boxes, choices, sliders, the panel (see dashboard/parts/alive.py), and, under the
   names that Dash's own library gives them, the few of its components that pages use: links, stores, the
   address, and pictures to explore, for which that library itself is fetched. React draws them. */
(function () {
  "use strict";
  const { createElement: part, useState, useRef, useEffect, useLayoutEffect, useId } = window.React;
  const passed = (props) => Object.fromEntries(Object.entries(props).filter(([name]) => /^(data|aria)-/.test(name)));
  const shown = (value) => (value === null || value === undefined ? "" : String(value));

  /* -- boxes ------------------------------------------------------------------------------------------ */
  /* A label above, what is wrong below, and the box between, which names both. */
  function framed(props, kind, box, told, ...beside) {
    return part("div", { className: `box ${kind}` },
      props.label ? part("label", { className: "box-label", htmlFor: props.id }, props.label) : null,
      box, ...beside,
      props.error ? part("p", { className: "wrong", role: "alert", id: told }, props.error) : null);
  }
  const wrong = (props, told) => (props.error ? { "aria-invalid": "true", "aria-describedby": told } : {});

  /* What is typed stands at once; it is told to the page at once too, or after a rest. */
  function useTyped(props) {
    const [typed, type] = useState(shown(props.value)), rest = useRef(null), told = useRef(shown(props.value)), latest = useRef(props);
    latest.current = props;
    useLayoutEffect(() => {
      if (shown(props.value) === told.current) return;
      clearTimeout(rest.current); // said by the page: it takes the place of what was typed
      told.current = shown(props.value);
      type(told.current);
    }, [props.value]);
    useEffect(() => () => clearTimeout(rest.current), []);
    function tell(value) {
      clearTimeout(rest.current);
      if (value === told.current) return;
      told.current = value;
      latest.current.setProps({ value });
    }
    return {
      value: typed,
      onChange: (event) => {
        const value = event.target.value;
        type(value);
        clearTimeout(rest.current);
        if (!props.debounce) tell(value);
        else if (props.debounce !== true) rest.current = setTimeout(() => tell(value), props.debounce);
      },
      onBlur: (event) => { if (props.debounce) tell(event.target.value); },
      onKeyDown: (event) => { if (event.key === "Enter" && props.debounce && event.target.matches("input")) tell(event.target.value); },
    };
  }
  const common = (props, told) => ({
    id: props.id, className: "in", placeholder: props.placeholder || undefined, autoComplete: props.autoComplete || undefined,
    ...passed(props), ...wrong(props, told),
  });

  function Box(props) {
    const told = useId(), offers = useId(), some = props.offers && props.offers.length ? props.offers : null;
    const box = part("input", { type: "text", inputMode: props.inputMode || undefined, list: some ? offers : undefined, ...common(props, told), ...useTyped(props) });
    return framed(props, "box-line", box, told, some && part("datalist", { id: offers }, ...some.map((one) => part("option", { value: one, key: one }))));
  }

  const GROWS = window.CSS && CSS.supports && CSS.supports("field-sizing", "content");
  function Lines(props) {
    const told = useId(), at = useRef(null), typed = useTyped(props);
    useLayoutEffect(() => {
      if (GROWS || !at.current) return;
      at.current.style.height = "auto";
      at.current.style.height = `${at.current.scrollHeight + 3}px`; // and its two edges
    });
    const style = { "--rows": props.rows || 2, "--most": props.most || 14 };
    return framed(props, "box-lines", part("textarea", { ref: at, rows: props.rows || 2, style, ...common(props, told), ...typed }), told);
  }

  function Choice(props) {
    const told = useId(), { options = [], empty } = props, value = shown(props.value);
    const box = part("select", { ...common(props, told), value, onChange: (event) => props.setProps({ value: event.target.value || (empty === undefined ? "" : null) }) },
      empty === undefined || empty === null ? null : part("option", { value: "" }, empty),
      ...options.map((one) => part("option", { value: one.value, key: one.value }, one.label)));
    return framed(props, "box-choice", box, told);
  }

  /* Moved by a thumb it follows at once; the page hears of it when it is let go. */
  function Slide(props) {
    const at = useRef(null), latest = useRef(props), [value, move] = useState(props.value);
    latest.current = props;
    useLayoutEffect(() => move(props.value), [props.value]);
    useEffect(() => {
      const box = at.current, tell = () => latest.current.setProps({ value: Number(box.value) });
      box.addEventListener("change", tell);
      return () => box.removeEventListener("change", tell);
    }, []);
    const { id, min, max, step } = props, style = { "--at": `${Math.round((100 * (value - min)) / (max - min || 1))}%` };
    return part("input", { style, ref: at, type: "range", className: "slide", id, min, max, step, value, ...passed(props), onInput: (event) => move(Number(event.target.value)), onChange: () => {} });
  }

  function OneOf(props) {
    const one = ({ value, label }) => part("label", { key: value },
      part("input", { type: "radio", name: props.id, value, checked: value === props.value, onChange: () => props.setProps({ value }) }), part("span", null, label));
    return part("div", { id: props.id, className: "one-of", role: "radiogroup", ...passed(props) }, ...(props.options || []).map(one));
  }

  /* -- the panel: the browser's own dialogue; Back, Escape and a tap beside it close it ---------------- */
  const here = () => Boolean(window.history.state && window.history.state.panel);
  function Panel(props) {
    const at = useRef(null), latest = useRef(props), head = useId();
    latest.current = props;
    useEffect(() => {
      const panel = at.current;
      if (props.opened && !panel.open && panel.isConnected) {
        panel.showModal();
        if (!here()) window.history.pushState({ panel: true }, "", window.location.href);
      } else if (!props.opened && panel.open) {
        panel.close();
        if (here()) window.history.back();
      }
    }, [props.opened]);
    useEffect(() => {
      const gone = () => { if (!here() && latest.current.opened) latest.current.setProps({ opened: false }); };
      window.addEventListener("popstate", gone);
      if (here()) window.history.replaceState({}, "", window.location.href); // of a page loaded anew
      return () => window.removeEventListener("popstate", gone);
    }, []);
    const close = () => props.setProps({ opened: false });
    return part("dialog", {
      id: props.id, ref: at, className: "panel", "aria-labelledby": props.opened ? head : undefined,
      onCancel: (event) => { event.preventDefault(); close(); }, onClick: (event) => { if (event.target === at.current) close(); },
    }, part("div", { className: "panel-in" },
      part("div", { className: "panel-head" }, part("h2", { id: head }, props.title), part("button", { type: "button", className: "ibtn panel-close", "aria-label": props.closes, onClick: close }, part("i", { className: "ic ic-close", "aria-hidden": "true" }))),
      props.children));
  }

  /* -- a line that waits: its boxes are known to the page, and made when it is wanted ----------------- */
  const Spare = (props) => (props.opened ? part("div", { className: "row" }, props.children) : null);

  window.dashboard = { Box, Lines, Choice, Slide, OneOf, Panel, Spare };

  /* -- links, the address, what a page keeps ------------------------------------------------------------ */
  const MOVED = "_dashprivate_pushstate";
  function Link(props) {
    const to = props.href ? window.dash_clientside.clean_url(props.href) : undefined;
    const goes = (event) => {
      if (event.metaKey || event.shiftKey || event.altKey || event.ctrlKey || (props.target && props.target !== "_self")) return;
      event.preventDefault();
      if (props.refresh) window.location.assign(to);
      else {
        window.history.pushState({}, "", to);
        window.dispatchEvent(new CustomEvent(MOVED));
      }
      window.scrollTo(0, 0);
    };
    return part("a", { id: props.id, className: props.className, style: props.style, title: props.title, target: props.target, href: to, onClick: goes, ...passed(props) }, props.children === undefined || props.children === null ? to : props.children);
  }

  const PARTS = ["pathname", "search", "hash", "href"];
  function Location(props) {
    const latest = useRef(props);
    latest.current = props;
    const hear = () => {
      const now = Object.fromEntries(PARTS.filter((one) => latest.current[one] !== window.location[one]).map((one) => [one, window.location[one]]));
      if (Object.keys(now).length) latest.current.setProps(now);
    };
    useLayoutEffect(() => {
      window.addEventListener("popstate", hear);
      window.addEventListener(MOVED, hear);
      hear();
      return () => { window.removeEventListener("popstate", hear); window.removeEventListener(MOVED, hear); };
    }, []);
    useLayoutEffect(() => { // an answer says another address
      const { pathname, search, hash } = props, said = { pathname, search, hash };
      if (pathname === undefined || Object.keys(said).every((one) => said[one] === window.location[one])) return;
      window.history.pushState({}, "", `${pathname}${search || ""}${hash || ""}`);
      window.dispatchEvent(new CustomEvent(MOVED));
    }, [props.pathname, props.search, props.hash]);
    return null;
  }

  /* Kept in the page's own state; where it is to outlive the page, in the browser's store of this tab. */
  function Store(props) {
    const { id, data, setProps } = props, isKept = props.storage_type === "session", begun = useRef(false);
    useLayoutEffect(() => {
      if (!isKept) return;
      const kept = read(id), text = JSON.stringify(data);
      if (!begun.current) {
        begun.current = true;
        if (kept !== null && JSON.stringify(kept) !== text) return setProps({ data: kept });
      }
      if (data !== undefined) try { window.sessionStorage.setItem(id, text); } catch (_error) { /* kept as long as the page */ }
    }, [data]);
    return null;
  }
  function read(id) { try { return JSON.parse(window.sessionStorage.getItem(id)); } catch (_error) { return null; } }

  /* -- pictures to explore: Dash's library, and with it the charting script, when one is drawn ---------- */
  let library = null;
  const script = (src) => new Promise((done, fail) => {
    const node = document.createElement("script");
    Object.assign(node, { src, async: false, onload: done, onerror: () => { library = null; fail(new TypeError(`not loaded: ${src}`)); } });
    document.head.append(node);
  });
  function fetched() {
    library = library || Promise.all(document.querySelector("meta[name=library]").content.split(" ").map(script)).then(() => {
      const whole = window.dash_core_components;
      window.dash_core_components = light;
      return { default: whole.Graph };
    });
    return library;
  }
  const Drawn = window.React.lazy(() => fetched());
  const Graph = (props) => part(window.React.Suspense, { fallback: part("div", { id: props.id, className: "dash-graph dash-graph--pending" }) }, part(Drawn, props));
  const light = { Link, Location, Store, Graph };
  window.dash_core_components = light;
})();
