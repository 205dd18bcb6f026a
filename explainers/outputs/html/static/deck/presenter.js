// The presenter view: notes, time and the next slide, in a window of its own that follows the deck and leads it.
// The second window is an empty page that this one fills, so that both are of one origin even where pages are files.

{
  const words = data.words;
  let view = null; // {window, parts, timer}: where it is shown; window is this one where no other could be opened
  let began = 0; // when the time was started
  let turn = 0; // counts what was asked for, so that a slide that is unpacked late does not take the place of a later one

  const heading = (text) => element("h2", {}, text);
  const paragraphs = (lines) => lines.map((line) => element("p", {}, line));
  const button = (text, click, more = {}) => element("button", { type: "button", click, ...more }, text);

  function built(alone) {
    const parts = {
      place: element("p", { class: "p-place" }),
      time: element("b", { role: "timer" }),
      now: element("div"),
      next: element("div"),
      notes: element("div"),
      said: element("div"),
      told: element("p", { role: "status", class: "p-told" }), // what the deck has said of itself
      ask: button(words.reveal, solve, { hidden: true }),
    };
    const time = element("p", {}, `${words.presenter_time}: `, parts.time);
    const head = element("header", {}, element(alone ? "h1" : "h2", {}, words.presenter_title), parts.place, time,
      button(words.presenter_restart, restart), ...(alone ? [] : [button(words.presenter_close, close)]));
    const text = element("div", { class: "p-text" }, element("section", {}, heading(words.presenter_notes), parts.notes),
      element("section", {}, heading(words.presenter_said), parts.said));
    const pictures = element("div", { class: "p-pictures" },
      ...(alone ? [element("section", {}, heading(words.presenter_now), parts.now)] : []),
      element("section", {}, heading(words.presenter_next), parts.next));
    const bar = element("nav", { "aria-label": words.slides },
      button(words.back, () => deck.back(), { "data-go": "back" }), parts.ask, button(words.next, ahead, { "data-go": "next" }));
    const main = element(alone ? "main" : "div", { class: "p-main" }, pictures, text);
    return [parts, [head, parts.told, main, ...(alone ? [bar] : [])]];
  }

  // A slide as it stands where learners are to go on by themselves.
  const pictured = ({ moments }) => {
    const moment = moments[runFrom(moments, 0).last];
    const picture = deck.card(moment.figure, data.view);
    picture.removeAttribute("aria-hidden");
    picture.setAttribute("role", "img");
    picture.setAttribute("aria-label", moment.alt);
    return [element("p", { class: "p-heading" }, moment.heading), picture];
  };

  // What belongs to each step of a slide, under its id: by that its words are written and its takes are named.
  const bySteps = (steps, lines) => steps.flatMap((step, i) => (lines[i].length
    ? [element("p", { class: "p-step" }, step.step), ...paragraphs(lines[i])] : []));

  // Learners ask for the solution on their own page; whoever leads them asks for it here.
  function ahead() {
    const { at } = deck;
    deck.next();
    if (view !== null && deck.at === at && data.slides[at + 1]?.closed) view.parts.ask.hidden = false;
  }

  async function solve() {
    await deck.reveal(data.slides[deck.at + 1].part);
    deck.go(deck.at + 1);
  }

  // A slide though it may still be closed to learners.
  async function slideAt(index) {
    const slide = data.slides[index];
    if (!slide || !slide.closed) return slide;
    return (await deck.open(slide.part)).slides.find(([number]) => number === index)[1];
  }

  async function follow() {
    if (view === null) return;
    if (view.window.closed) {
      view = null;
      return;
    }
    const mine = (turn += 1);
    view.parts.told.textContent = "";
    view.parts.ask.hidden = true; // at once: what is asked for while a part is unpacked must stay
    const { notes } = await deck.open(0);
    const [slide, next] = await Promise.all([slideAt(deck.at), slideAt(deck.at + 1)]);
    if (view === null || mine !== turn) return;
    const { parts } = view;
    parts.place.textContent = deck.filled("position", { number: deck.at + 1, count: data.slides.length });
    parts.now.replaceChildren(...pictured(slide));
    parts.next.replaceChildren(...(next ? pictured(next) : paragraphs([words.last])));
    const told = bySteps(notes[deck.at], notes[deck.at].map(({ note }) => note));
    parts.notes.replaceChildren(...(told.length ? told : paragraphs([words.presenter_no_notes])));
    const said = bySteps(notes[deck.at], slide.moments.map((moment) => moment.said));
    parts.said.replaceChildren(...said);
    parts.said.parentElement.hidden = !said.length;
    const palette = document.documentElement.dataset.palette;
    if (palette) view.window.document.documentElement.dataset.palette = palette;
    else delete view.window.document.documentElement.dataset.palette;
  }

  function tick() {
    if (view === null) return;
    const seconds = Math.floor((Date.now() - began) / 1000);
    const two = (number) => String(number).padStart(2, "0");
    const hours = Math.floor(seconds / 3600);
    const minutes = Math.floor(seconds / 60) % 60;
    view.parts.time.textContent = hours ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
  }

  function restart() {
    began = Date.now();
    tick();
  }

  function show(shownIn, parts) {
    if (began === 0) began = Date.now();
    // The timer is the other window's, which is not slowed down while it is in sight and this one is not.
    view = { window: shownIn, parts, timer: shownIn.setInterval(tick, 250) };
    tick();
    return follow();
  }

  function close() {
    if (view === null) return;
    view.window.clearInterval(view.timer);
    if (view.window === window) byId("presenter").remove();
    else view.window.close();
    view = null;
  }

  function here() {
    byId("presenter-ask")?.remove();
    const [parts, elements] = built(false);
    document.querySelector("main").after(element("aside", { id: "presenter", "aria-label": words.presenter_title }, ...elements));
    return show(window, parts);
  }

  function blocked() {
    if (byId("presenter-ask")) return;
    const ask = button(words.presenter_here, here);
    document.querySelector("main").prepend(
      element("div", { id: "presenter-ask" }, element("p", { role: "alert" }, words.presenter_blocked), ask));
    ask.focus();
  }

  // Only ever after a key or a click.
  function present() {
    if (view !== null && !view.window.closed) {
      if (view.window !== window) view.window.focus();
      return;
    }
    const other = open("", "_blank", "popup,width=1100,height=760");
    if (!other) {
      blocked();
      return;
    }
    byId("presenter-ask")?.remove();
    const page = other.document;
    page.documentElement.lang = data.language;
    // The very style of this page, since no other is allowed.
    page.head.replaceChildren(...[...document.querySelectorAll("style")].map((style) => style.cloneNode(true)));
    page.title = `${words.presenter_title} – ${data.title}`;
    const [parts, elements] = built(true);
    page.body.className = "presenter";
    page.body.replaceChildren(...elements);
    other.onkeydown = keys;
    show(other, parts);
  }

  function keys(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || event.target.closest("button") && event.key === " ") return;
    const go = { ArrowRight: ahead, PageDown: ahead, " ": ahead, ArrowLeft: deck.back, PageUp: deck.back }[event.key];
    if (!go) return;
    event.preventDefault();
    go();
  }

  addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key.toLowerCase() !== "p" || byId("choices").open) return;
    if (event.target.closest("input, select, textarea, [contenteditable]")) return;
    event.preventDefault();
    present();
  });
  addEventListener("pagehide", () => {
    if (view !== null && view.window !== window && !view.window.closed) view.parts.told.textContent = words.presenter_gone;
  });
  deck.onSlide.push(follow);
  const { say } = deck;
  deck.say = (text) => {
    say(text);
    if (view !== null && view.window !== window) view.parts.told.textContent = text;
  };
  // Once all scripts have run, since what makes a tool comes last.
  queueMicrotask(() => {
    deck.tool(words.presenter_view, () => {
      byId("choices").close();
      present();
    });
  });
}
