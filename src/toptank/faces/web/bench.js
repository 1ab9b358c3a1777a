// What a page does by itself: its theme, what is said in passing, the way to print.
(() => {
  const root = document.documentElement;
  const kept = localStorage.getItem("toptank:theme");
  if (kept === "light" || kept === "dark") root.dataset.theme = kept;
  root.lang = "en";
  const dark = () => root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  window.toptank = {
    turnLight() {
      const theme = dark() ? "light" : "dark";
      root.dataset.theme = theme;
      localStorage.setItem("toptank:theme", theme);
    },
    say(words) {
      const place = document.querySelector(".said");
      if (!place) return;
      place.textContent = words;
      clearTimeout(place.dataset.timer);
      place.dataset.timer = setTimeout(() => (place.textContent = ""), 6000);
    },
    print(address) {
      if (!address) return window.print();
      const frame = document.querySelector("iframe.paper-preview");
      if (frame) { frame.contentWindow.focus(); frame.contentWindow.print(); }
    },
  };
})();
