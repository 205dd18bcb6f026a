// The clock of a question, which is never in the way.

const asking = {};
{
  const PATCHES = 6;
  const MORE_S = 30;
  const TICK_MS = 250;
  const COARSE_S = 10; // the time left is told in steps of this, so that nothing hurries

  const word = (key) => deck.words[key];
  const make = deck.element;
  const button = (key, click, more = {}) => make("button", { type: "button", click, ...more }, word(key));

  function lasting(seconds) {
    const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
    if (!minutes) return deck.filled("clock.seconds", { count: rest });
    if (rest) return deck.filled(minutes === 1 ? "clock.minuteMore" : "clock.minutesMore", { minutes, count: rest });
    return minutes === 1 ? word("clock.minute") : deck.filled("clock.minutes", { count: minutes });
  }

  // The clock of a slide runs only when it is started. When it has run down, a sentence says so, and that is all.
  const clocks = new Map();

  function clockIn(slide) {
    if (!clocks.has(slide.id)) clocks.set(slide.id, { total: slide.pause, left: slide.pause, running: false, begun: false });
    const clock = clocks.get(slide.id);
    const patches = Array.from({ length: PATCHES }, () => make("span"));
    const row = make("div", { class: "choose-patches", "aria-hidden": "true" }, ...patches);
    const told = make("p", { class: "choose-time" });
    const run = button("clock.start", () => {
      if (clock.running) clock.running = false;
      else {
        if (clock.left <= 0) clock.left = clock.total;
        Object.assign(clock, { running: true, begun: true, at: performance.now() });
      }
      show(true);
    });
    const more = button("clock.more", () => {
      clock.left = Math.max(0, clock.left) + MORE_S;
      clock.total = Math.max(clock.total + MORE_S, clock.left);
      if (clock.begun && clock.up) Object.assign(clock, { running: true, at: performance.now() });
      clock.up = false;
      show(true);
    });
    const off = button("clock.turnOff", () => {
      deck.store.noClock = !deck.store.noClock;
      deck.keep();
      Object.assign(clock, { total: slide.pause, left: slide.pause, running: false, begun: false, up: false });
      show(true);
    });

    function words() {
      if (deck.store.noClock) return word("clock.off");
      if (clock.up) return word("clock.up");
      if (!clock.begun) return deck.filled("clock.ready", { time: lasting(Math.round(clock.left)) });
      const few = clock.left <= COARSE_S;
      const time = lasting(Math.ceil(clock.left / COARSE_S) * COARSE_S);
      if (clock.running) return few ? word("clock.fewLeft") : deck.filled("clock.left", { time });
      return few ? word("clock.fewHeld") : deck.filled("clock.held", { time });
    }

    function show(aloud) {
      const text = words();
      if (told.textContent !== text) told.textContent = text;
      if (aloud) deck.say(text);
      const gone = clock.up ? 1 : 1 - clock.left / clock.total;
      patches.forEach((patch, i) => patch.classList.toggle("filled", gone >= (i + 1) / PATCHES));
      row.hidden = run.hidden = more.hidden = Boolean(deck.store.noClock);
      run.textContent = word(clock.running ? "clock.stop" : "clock.start");
      off.textContent = word(deck.store.noClock ? "clock.turnOn" : "clock.turnOff");
    }

    function tick() {
      if (!clock.running) return;
      const now = performance.now();
      clock.left -= (now - clock.at) / 1000;
      clock.at = now;
      const up = clock.left <= 0;
      if (up) Object.assign(clock, { left: 0, running: false, up: true });
      show(up);
    }

    show(false);
    const timer = setInterval(tick, TICK_MS);
    const place = make("section", { class: "choose-clock", "aria-label": word("clock.title") },
      row, told, make("div", { class: "choose-buttons" }, run, more, off));
    const hold = () => {
      clock.running = false;
      show(false);
    };
    return { place, hold, stop() { clearInterval(timer); hold(); } };
  }

  Object.assign(asking, { lasting, clockIn, button });
}
