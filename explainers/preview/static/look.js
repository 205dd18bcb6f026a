// Shows what the program draws, whenever it draws anew. What it is sent is finished markup; nothing is made of text here.
"use strict";
(() => {
  const view = document.getElementById("view");
  const link = document.getElementById("link");
  let news = null;
  let asked = 0;

  const say = (words, gone) => {
    if (link.textContent !== words) link.textContent = words;
    link.classList.toggle("gone", gone);
  };

  const load = async () => {
    const mine = ++asked;
    try {
      const answer = await fetch("view", { cache: "no-store" });
      if (!answer.ok) throw new Error(String(answer.status));
      const markup = await answer.text();
      if (mine !== asked) return;
      const colours = view.firstElementChild?.dataset.colours;
      view.innerHTML = markup;
      view.dataset.tag = answer.headers.get("X-Tag");
      document.title = view.firstElementChild?.dataset.title ?? document.title;
      // Another theme: its style sheet stands at an address of the page's own.
      const now = view.firstElementChild?.dataset.colours;
      if (colours && now && colours !== now) location.reload();
    } catch {
      say("The preview has stopped: what you see is the last that it drew.", true);
    }
  };

  const listen = () => {
    if (news || document.hidden) return;
    news = new EventSource("news");
    news.onopen = () => say("Redrawn whenever the file is saved.", false);
    news.onmessage = (event) => {
      if (event.data !== view.dataset.tag) load();
    };
    news.onerror = () => {
      say("The preview has stopped: what you see is the last that it drew.", true);
      if (news && news.readyState === EventSource.CLOSED) {
        news = null;
        setTimeout(listen, 2000);
      }
    };
  };

  // A browser holds few connections to one address: a page that nobody sees gives its own back.
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) {
      news?.close();
      news = null;
    } else listen();
  });
  listen();
})();
