// Shows one size: hides the columns, drawings and steps that are about other sizes alone.
(() => {
  const form = document.querySelector(".chooser");
  if (!form) return;
  const select = form.querySelector("select");
  const bound = document.querySelectorAll("[data-size], [data-sizes]");
  const show = () => {
    const size = select.value;
    for (const part of bound) {
      const sizes = (part.dataset.size || part.dataset.sizes).split(" ");
      part.hidden = size !== "" && !sizes.includes(size);
    }
  };
  select.addEventListener("change", show);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.hidden = false;
  show();
})();
