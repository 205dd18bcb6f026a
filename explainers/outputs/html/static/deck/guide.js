// The first time that something can be moved, a hand shows how: it drags a little, then goes round with the grip.
// Where nothing shall move the hand stands still. Whatever the learner does sends it away.
{
  const AT_FIRST_MS = 500;
  const DRAG_MS = 1700;
  const REST_MS = 300;
  const ROUND_MS = 1900;
  const SWING_DEG = 50;
  // A pointing finger, its tip at the origin.
  const FINGER = "M-5 2C-5 -5 5 -5 5 2V24L18 28C23 30 25 34 24 39L21 54H-8L-19 35C-22 29 -15 25 -11 30L-5 37Z";

  hand.show = (things, isWanted) => {
    if (deck.store.handShown || !isWanted()) return () => {};
    const [thing] = things;
    const shape = svg("g", { class: "guide-hand", "aria-hidden": "true" });
    shape.append(svg("path", { d: FINGER }));
    const gone = new AbortController();
    let stopped = false;

    function stop() {
      if (stopped) return;
      stopped = true;
      gone.abort();
      shape.remove();
      thing.layer.classList.remove("guided");
    }

    function seenOnce() {
      deck.store.handShown = true;
      deck.keep();
      stop();
    }

    function at([x, y]) {
      const pixel = 1 / (deck.svg.getScreenCTM()?.a || 1);
      shape.setAttribute("transform", `translate(${x} ${y}) scale(${pixel})`);
      if (shape.parentNode !== deck.svg) deck.svg.append(shape);
    }

    const swing = (part) => (1 - Math.cos(2 * Math.PI * Math.min(1, Math.max(0, part)))) / 2; // there and back again

    function frame(since) {
      if (stopped || deck.shown === null) return stop();
      const ms = performance.now() - since - AT_FIRST_MS;
      const { x, y } = thing.pose;
      const reach = Math.hypot(thing.gripAt()[0] - x, thing.gripAt()[1] - y);
      if (ms < DRAG_MS + REST_MS) at([x - 0.7 * reach * swing(ms / DRAG_MS), y - 0.15 * reach * swing(ms / DRAG_MS)]);
      else {
        const turned = ((SWING_DEG * swing((ms - DRAG_MS - REST_MS) / ROUND_MS)) * Math.PI) / 180;
        const [gx, gy] = [thing.gripAt()[0] - x, thing.gripAt()[1] - y];
        at([x + gx * Math.cos(turned) - gy * Math.sin(turned), y + gx * Math.sin(turned) + gy * Math.cos(turned)]);
      }
      if (ms > DRAG_MS + REST_MS + ROUND_MS) return seenOnce();
      requestAnimationFrame(() => frame(since));
    }

    const here = { signal: gone.signal, capture: true };
    addEventListener("pointerdown", seenOnce, here);
    addEventListener("keydown", (event) => { if (event.key !== "Tab") seenOnce(); }, here);
    thing.layer.classList.add("guided");
    if (deck.calm) at([thing.pose.x, thing.pose.y]);
    else frame(performance.now());
    return stop;
  };
}
