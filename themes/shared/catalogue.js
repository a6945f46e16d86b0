// The catalogue's script: light or dark, as a reader chose it here or in a booklet. Without it the device decides.
(() => {
  "use strict";
  const root = document.documentElement;
  const field = document.getElementById("shown-look");
  const key = "patchwright/look";

  function show() {
    if (field.value) root.dataset.look = field.value;
    else delete root.dataset.look;
  }

  field.addEventListener("change", () => {
    show();
    try {
      localStorage.setItem(key, JSON.stringify({ look: field.value }));
    } catch {
      // A browser that keeps nothing shows the choice until the page is left.
    }
  });
  field.form.addEventListener("submit", (event) => event.preventDefault());
  try {
    const kept = JSON.parse(localStorage.getItem(key))?.look;
    if ([...field.options].some((option) => option.value === kept)) field.value = kept;
  } catch {
    // Nothing is kept, or nothing of ours.
  }
  root.classList.add("scripted");
  show();
})();
