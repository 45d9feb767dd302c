"use strict";
// Puts what is new in its place, and says so when nothing new comes any more.
(() => {
  const PATIENCE_MS = 5000;
  const stale = document.getElementById("stale");
  let heard = Date.now();

  const listen = () => {
    const source = new EventSource("/events");
    source.addEventListener("fresh", (event) => {
      heard = Date.now();
      stale.hidden = true;
      document.body.classList.remove("old");
      for (const [id, html] of Object.entries(JSON.parse(event.data).parts ?? {})) {
        const place = document.getElementById(id);
        if (place === null) {
          location.reload(); // another machine: the page has no place for it
          return;
        }
        place.innerHTML = html;
      }
    });
    source.addEventListener("error", () => {
      if (source.readyState === EventSource.CLOSED) {
        setTimeout(listen, PATIENCE_MS);
      }
    });
  };

  setInterval(() => {
    if (Date.now() - heard > PATIENCE_MS && stale.hidden) {
      stale.hidden = false;
      document.body.classList.add("old");
    }
  }, 1000);
  listen();
})();
