// What a page does by itself: its theme, what is said in passing, the way to print.
(() => {
  const root = document.documentElement;
  const kept = localStorage.getItem("toptank:theme");
  if (kept === "light" || kept === "dark") root.dataset.theme = kept;
  root.lang = "en";
  const dark = () => root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  // What is typed but not yet written down is kept in this tab: a page that is built anew, or a reload, gives it back.
  const draft = (element) => "toptank:draft:" + location.pathname + "#" + element.id;
  addEventListener("input", (event) => {
    const element = event.target;
    if (!element.matches?.("[data-draft]")) return;
    if (element.value) sessionStorage.setItem(draft(element), element.value);
    else sessionStorage.removeItem(draft(element));
  });
  const giveBack = () => {
    if (!window.did_handshake) return;
    for (const element of document.querySelectorAll("[data-draft]:not([data-given])")) {
      element.dataset.given = "";
      const kept = sessionStorage.getItem(draft(element));
      if (!kept || element.value) continue;
      element.value = kept;
      element.dispatchEvent(new Event("input", { bubbles: true }));
    }
  };
  setInterval(giveBack, 250);
  // A field that is folded away is opened for whoever is led to it.
  const unfold = () => {
    const found = location.hash.startsWith("#f-") && document.getElementById(location.hash.slice(1));
    if (!found) return;
    for (let place = found; place; place = place.parentElement) if (place.tagName === "DETAILS") place.open = true;
    found.scrollIntoView({ block: "center" });
    found.focus({ preventScroll: true });
  };
  addEventListener("hashchange", unfold);
  addEventListener("click", (event) => {
    if (event.target.closest?.('a[href^="#f-"]')) setTimeout(unfold, 0);
  });
  // Another tab may sign this browser out: what is typed here is kept, and nobody is told that it was saved.
  const CHECKED = 4000;
  let out = null;
  const ask = async () => {
    if (!window.socket || !document.querySelector('form[action="/sign-out"]')) return;  // nobody signed in
    let code;
    try { code = (await fetch("/known", { cache: "no-store" })).status; } catch { return; }
    if (code === 401 && !out) {
      out = setInterval(ask, CHECKED);
      root.classList.add("signed-out");
      const told = document.createElement("div");
      told.className = "note bad signed-out-told";
      told.setAttribute("role", "alert");
      told.append("This browser is signed out: nothing is saved from here. What you typed is kept in it and will be saved once you ");
      const way = Object.assign(document.createElement("a"), { href: "/sign-in", target: "_blank", textContent: "sign in again" });
      told.append(way, ".");
      document.body.prepend(told);
      dispatchEvent(new Event("toptank-signed-out"));
    } else if (code === 204 && out) {
      location.reload();
    }
  };
  const hooked = setInterval(() => {
    if (!window.socket) return;
    clearInterval(hooked);
    window.socket.on("disconnect", ask);
    window.socket.on("connect_error", ask);
  }, 250);
  addEventListener("storage", (event) => { if (event.key === "toptank:signed-out") setTimeout(ask, 500); });
  addEventListener("submit", (event) => {
    if (event.target.getAttribute("action") === "/sign-out") localStorage.setItem("toptank:signed-out", Date.now());
  });
  // On a narrow screen the steps are pushed sideways: the one that stands here is in view.
  const atStep = () => {
    const here = document.querySelector(".steps [aria-current]"), frame = here?.closest(".steps");
    if (frame && frame.scrollWidth > frame.clientWidth) frame.scrollLeft = here.offsetLeft - frame.clientWidth / 3;
  };
  addEventListener("load", () => { for (const later of [0, 300, 1200]) setTimeout(atStep, later); });
  // Some of what is folded on a screen belongs on paper.
  const folded = () => document.querySelectorAll("details.on-paper:not([open])");
  addEventListener("beforeprint", () => {
    for (const one of folded()) { one.open = true; one.dataset.forPaper = ""; }
  });
  addEventListener("afterprint", () => {
    for (const one of document.querySelectorAll("details[data-for-paper]")) { one.open = false; delete one.dataset.forPaper; }
  });
  // A press may build a part of the page anew: whoever pressed stays where he is, and the page keeps its height meanwhile.
  const HELD = 2500;
  addEventListener("click", (event) => {
    const page = event.target.closest?.("#page");
    if (!page || !event.target.closest("button.press")) return;
    const y = scrollY, until = Date.now() + HELD;
    let free = false;
    const leave = () => (free = true);
    for (const what of ["wheel", "touchmove", "keydown", "mousedown"]) addEventListener(what, leave, { once: true, passive: true });
    page.style.minHeight = page.offsetHeight + "px";
    const hold = () => {
      if (free || Date.now() > until) { page.style.minHeight = ""; return; }
      if (Math.abs(scrollY - y) > 1) scrollTo(0, y);
      requestAnimationFrame(hold);
    };
    requestAnimationFrame(hold);
  });
  // A page is built anew only while nobody writes on it, and whoever stood in a field stands there again.
  const SILENCE = 2500;
  let written = 0;
  for (const what of ["input", "focusin"]) addEventListener(what, () => (written = Date.now()), true);
  const writesIn = () => document.activeElement?.matches("#page input:not([type=checkbox], [type=file]), #page textarea");
  window.toptank = {
    writes() {
      return !!writesIn() && Date.now() - written < SILENCE;
    },
    place() {
      const { id, selectionStart, selectionEnd } = document.activeElement || {};
      return writesIn() && id ? [id, selectionStart, selectionEnd] : null;
    },
    backTo([id, start, end], tries = 20) {
      const element = document.getElementById(id);
      if (!element) return tries && setTimeout(() => this.backTo([id, start, end], tries - 1), 50);
      if (document.activeElement !== document.body) return;
      element.focus({ preventScroll: true });
      element.setSelectionRange?.(start, end);
    },
    drop(id) {
      const element = document.getElementById(id);
      sessionStorage.removeItem("toptank:draft:" + location.pathname + "#" + id);
      if (element) element.value = "";
    },
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
    // Photos that were taken before the job was there: sent once it is; what was not taken comes back in words.
    async sendPhotos(id, address, largest) {
      const wrong = [];
      for (const file of document.getElementById(id)?.files || []) {
        if (file.size > largest) { wrong.push(file.name + ": larger than " + Math.floor(largest / 1048576) + " MiB"); continue; }
        const form = new FormData();
        form.append("file", file);
        try {
          const answer = await fetch(address, { method: "POST", body: form });
          if (!answer.ok) wrong.push(file.name + ": " + ((await answer.json().catch(() => ({}))).refused || answer.status));
        } catch { wrong.push(file.name + ": the server did not answer"); }
      }
      return wrong;
    },
    print(address) {
      if (!address) return window.print();
      const frame = document.querySelector("iframe.paper-preview");
      if (frame) { frame.contentWindow.focus(); frame.contentWindow.print(); }
    },
  };
})();
