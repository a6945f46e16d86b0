// The web booklet's script: shows what a reader chose, keeps what they ticked, and enlarges drawings.
// Without it the page is a plain document for all sizes. It fetches nothing and adds no text of its own.
(() => {
  "use strict";
  const root = document.documentElement;
  const form = document.querySelector(".chooser");
  const views = form.dataset.views.split(" ");
  const sets = form.dataset.sets.split(",").map((set) => new Set(set.split(" ")));
  const place = `${form.dataset.pattern}/${form.dataset.release}`;
  const fields = ["size", "show", "color", "measures", "look"].map((name) => form.elements[name]).filter(Boolean);
  const parts = document.querySelectorAll("[data-in]");
  const boxes = document.querySelectorAll("[data-check]");

  // What is kept on the device; where the browser keeps nothing, it is remembered until the page is left.
  const kept = {
    memory: new Map(),
    read(key) {
      try {
        return JSON.parse(this.memory.get(key) ?? localStorage.getItem(`patchwright/${key}`));
      } catch (fault) {
        if (!(fault instanceof SyntaxError)) this.lost();
        return null;
      }
    },
    write(key, value) {
      const text = JSON.stringify(value);
      try {
        localStorage.setItem(`patchwright/${key}`, text);
        this.memory.delete(key);
      } catch {
        this.memory.set(key, text);
        this.lost();
      }
    },
    lost() {
      const note = form.querySelector(".kept");
      note.textContent = note.dataset.lost;
    },
  };

  // Choices: the address says them, then what was kept, then the page's own first ones.
  const usual = (field) => field.dataset.usual ?? field.options[0].value;
  const value = (name) => form.elements[name]?.value ?? "";

  function fromAddress() {
    const text = location.hash.slice(1);
    return text.includes("=") ? Object.fromEntries(new URLSearchParams(text)) : { at: plain(text) };
  }

  function plain(text) {
    try {
      return decodeURIComponent(text);
    } catch {
      return text;
    }
  }

  function choose(wanted) {
    for (const field of fields) {
      const choice = wanted[field.name] ?? usual(field);
      field.value = [...field.options].some((option) => option.value === choice) ? choice : usual(field);
    }
  }

  function address(at) {
    const said = new URLSearchParams();
    for (const field of fields) {
      if (field.name !== "look" && field.value !== usual(field)) said.set(field.name, field.value);
    }
    if (at && ![...said].length) return `#${encodeURIComponent(at)}`;
    if (at) said.set("at", at);
    return `#${said}`;
  }

  function record(at, anew) {
    try {
      history[anew ? "pushState" : "replaceState"](null, "", address(at));
    } catch {
      // Some browsers let a file on the device have one address only.
    }
  }

  function current() {
    const wanted = [value("show") || views[0].split("/")[0], value("size"), value("color")];
    const exact = views.indexOf(wanted.join("/"));
    return exact < 0 ? views.findIndex((view) => view.split("/")[1] === wanted[1]) : exact;
  }

  function show() {
    const view = String(Math.max(current(), 0));
    for (const part of parts) part.hidden = !sets[part.dataset.in].has(view);
    for (const name of ["look", "measures", "color"]) {
      if (value(name)) root.dataset[name] = value(name);
      else delete root.dataset[name];
    }
    showChecks();
    reachable();
  }

  // Only what can be scrolled is a stop of the Tab key.
  function reachable() {
    for (const part of document.querySelectorAll(".scroll")) {
      if (part.scrollWidth > part.clientWidth + 1) part.tabIndex = 0;
      else part.removeAttribute("tabindex");
    }
  }

  // Checks, for each size apart; a step has the same name in all sizes and editions.
  const checksKey = () => `${place}/checks/${value("size")}`;
  let checked = new Set();
  let cleared = null;

  function showChecks() {
    const found = kept.read(checksKey());
    checked = new Set(Array.isArray(found) ? found : []);
    cleared = null;
    tick();
  }

  function tick() {
    let all = 0;
    let done = 0;
    for (const box of boxes) {
      box.checked = checked.has(box.dataset.check);
      if (box.closest("[hidden]")) continue;
      all += 1;
      done += box.checked ? 1 : 0;
    }
    const told = form.querySelector(".progress");
    told.textContent = told.dataset.words.replace("{done}", done).replace("{all}", all);
    const button = form.elements.clear;
    button.textContent = cleared ? button.dataset.undo : clearWords;
  }

  const clearWords = form.elements.clear.textContent;

  function keepChecks() {
    kept.write(checksKey(), [...checked].sort());
    tick();
  }

  for (const box of boxes) {
    box.addEventListener("change", () => {
      if (box.checked) checked.add(box.dataset.check);
      else checked.delete(box.dataset.check);
      cleared = null;
      keepChecks();
    });
  }
  form.elements.clear.addEventListener("click", () => {
    [checked, cleared] = cleared ? [cleared, null] : [new Set(), checked];
    keepChecks();
  });
  form.elements.print.addEventListener("click", () => window.print());

  // Links inside the page lead to the part that the shown view has.
  function target(name) {
    const named = [document.getElementById(name), ...document.querySelectorAll("[data-anchor]")];
    return named.find((part) => part && (part.id === name || part.dataset.anchor === name) && !part.closest("[hidden]"));
  }

  function go(name) {
    const part = name && target(name);
    if (!part) return false;
    if (!part.hasAttribute("tabindex")) part.tabIndex = -1;
    part.scrollIntoView();
    part.focus({ preventScroll: true });
    return true;
  }

  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    if (!link || event.button || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    const name = plain(link.getAttribute("href").slice(1));
    if (go(name)) {
      event.preventDefault();
      record(name, true);
    }
  });

  function arrive() {
    const said = fromAddress();
    const before = Object.fromEntries(fields.map((field) => [field.name, field.value]));
    choose({ ...before, ...said });
    show();
    go(said.at);
  }

  window.addEventListener("hashchange", arrive);

  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("change", () => {
    show();
    record("", false);
    kept.write(`${place}/choices`, Object.fromEntries(fields.map((field) => [field.name, field.value])));
    kept.write("look", { look: value("look") });
  });

  // The panel closes when a reader goes on elsewhere.
  const more = form.querySelector(".more");
  const leave = (event) => {
    if (!more.contains(event.target)) more.open = false;
  };
  document.addEventListener("pointerdown", leave);
  document.addEventListener("focusin", leave);
  more.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !more.open) return;
    more.open = false;
    more.querySelector("summary").focus();
  });

  // Enlarged drawings.
  const dialog = document.querySelector(".enlarged");
  const sheet = dialog.querySelector(".enlarged-sheet");
  const steps = [1, 1.5, 2, 3, 4, 6];
  let step = 0;
  let opener = null;

  function scale() {
    const picture = sheet.firstElementChild;
    const box = picture.viewBox.baseVal;
    const style = getComputedStyle(sheet);
    const wide = sheet.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    const high = sheet.clientHeight - parseFloat(style.paddingTop) - parseFloat(style.paddingBottom);
    const fit = Math.min(wide / box.width, high / box.height);
    picture.style.width = `${Math.floor(box.width * fit * steps[step])}px`;
    picture.style.height = `${Math.floor(box.height * fit * steps[step])}px`;
    for (const [name, edge] of [["smaller", 0], ["larger", steps.length - 1]]) {
      dialog.querySelector(`[name=${name}]`).setAttribute("aria-disabled", String(step === edge));
    }
  }

  function resize(by) {
    step = Math.min(Math.max(step + by, 0), steps.length - 1);
    scale();
  }

  function enlarge(figure) {
    const picture = figure.querySelector("svg[role=img]").cloneNode(true);
    const caption = figure.querySelector("figcaption");
    picture.removeAttribute("aria-labelledby");
    picture.setAttribute("aria-label", [...picture.querySelectorAll("title, desc")].map((own) => own.textContent).join(" "));
    for (const own of picture.querySelectorAll("title, desc")) own.remove();
    dialog.querySelector("#enlarged-title").textContent = (caption ?? figure.querySelector("title")).textContent.trim();
    sheet.replaceChildren(picture);
    opener = figure.querySelector(".enlarge");
    step = 0;
    dialog.showModal();
    scale();
    dialog.querySelector("[name=close]").focus();
  }

  document.addEventListener("click", (event) => {
    const figure = event.target.closest(".enlarge, .drawing .scroll svg")?.closest(".drawing");
    if (figure) enlarge(figure);
  });
  dialog.addEventListener("click", (event) => {
    const name = event.target.name;
    if (name === "larger") resize(1);
    else if (name === "smaller") resize(-1);
    else if (name === "close" || event.target === dialog) dialog.close();
  });
  dialog.addEventListener("keydown", (event) => {
    if (event.key === "+" || event.key === "=") resize(1);
    else if (event.key === "-") resize(-1);
  });
  dialog.addEventListener("close", () => {
    sheet.replaceChildren();
    opener?.focus();
  });

  // The bar must not cover what a link or the Tab key leads to.
  const measure = () => {
    const stuck = getComputedStyle(form).position === "sticky";
    root.style.setProperty("--bar", stuck ? `${form.offsetHeight}px` : "0px");
  };
  new ResizeObserver(measure).observe(form);
  window.addEventListener("resize", () => {
    measure();
    reachable();
    if (dialog.open) scale();
  });

  root.classList.add("scripted");
  const said = fromAddress();
  choose({ ...kept.read(`${place}/choices`), ...kept.read("look"), ...said });
  show();
  measure();
  go(said.at);
})();
