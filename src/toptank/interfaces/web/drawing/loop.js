// From a part of the drawing to its fields on the sheet: #part-core opens what hides the first field of the core.
(() => {
  const PATIENCE = 60;
  const show = (part, left) => {
    const field = document.querySelector(`[data-path^="${part}."]`);
    if (!field) return left ? setTimeout(() => show(part, left - 1), 100) : undefined;
    for (let place = field; place; place = place.parentElement) if (place.tagName === "DETAILS") place.open = true;
    field.scrollIntoView({ block: "center" });
    const input = field.querySelector("input, select, textarea");
    if (input) input.focus({ preventScroll: true });
  };
  const heed = () => {
    const found = /^#part-([a-z_]+)$/.exec(location.hash);
    if (found) show(found[1], PATIENCE);
  };
  window.addEventListener("hashchange", heed);
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", heed); else heed();
})();
