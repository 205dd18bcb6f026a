// Laying a piece by hand: by dragging, by keys, by buttons. Poses are compared here, never worked out: what the piece
// must come to, what is said there, and how near counts, stand in the slide's data.
{
  const SNAP_MS = 200;
  const BACK_MS = 500;
  const SHIFT_MS = 1600;
  const MS_A_DEGREE = 1000 / 60; // as calm as in the clip
  const EXACT = 0.01; // view box units, and degrees
  const GRIP_PX = 14; // radius of what is taken hold of: 24 px across at least, WCAG 2.5.8
  const PIECE_PX = 22;
  const SIDES = [-90, 90, 0, 180, -45, -135, 45, 135]; // where the grip may stand, seen from the middle of the piece as it lies at first
  const MOST_OF_WORDS = 60; // view box units: what is no higher than this is words or a letter
  const ROUND_ARROW = "M8 -6A10.5 10.5 0 1 0 10.5 2M9 -14L8 -6L0 -7";
  const TICK = "M-9 0L-3 7L10 -8";

  const wrapped = (degrees) => degrees - 360 * Math.round(degrees / 360);
  const between = (low, value, high) => Math.min(Math.max(value, low), high);
  // How far a motion has come after a part of its time: on the page's curve, straight between its samples.
  const eased = (part, at = part * (data.eased.length - 1), low = Math.floor(at)) =>
    data.eased[low] + (at - low) * (data.eased[Math.ceil(at)] - data.eased[low]);
  const bearing = (from, to) => (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
  const set = (shape, attributes) => {
    for (const [name, value] of Object.entries(attributes)) shape.setAttribute(name, value);
  };

  // A group's shapes turn and move; its letters move along and stay upright.
  function poseGroup(shapes, { about, letters }, pose) {
    const turn = (pose.turn * Math.PI) / 180;
    const upright = new Map(letters.map(([number, x, y]) => [number, [x - about[0], y - about[1]]]));
    shapes.forEach((shape, number) => {
      const from = upright.get(number);
      if (from) {
        const [x, y] = from;
        const to = [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)];
        set(shape, { transform: `translate(${pose.x - about[0] + to[0] - x} ${pose.y - about[1] + to[1] - y})` });
      } else {
        set(shape, { transform: `translate(${pose.x} ${pose.y}) rotate(${pose.turn}) translate(${-about[0]} ${-about[1]})` });
      }
    });
  }

  // What can be taken hold of: a disc under the hand, and a grip to turn by. It lies over the picture.
  function handles(reach) {
    const layer = svg("g", { class: "handle-layer", "aria-hidden": "true" });
    const hold = svg("circle", { class: "handle-hold handle-touch" });
    const stem = svg("line", { class: "handle-stem" });
    const grip = svg("g", { class: "handle-grip handle-touch" });
    const disc = svg("circle", {});
    const sign = svg("path", { class: "handle-sign" });
    grip.append(disc, sign);
    const ring = svg("circle", { class: "handle-ring" });
    layer.append(stem, ring, hold, grip);
    let side = SIDES[0];

    function grips(pose) {
      const pixel = 1 / (deck.svg.getScreenCTM()?.a || 1);
      const radius = Math.max(22, GRIP_PX * pixel);
      const at = (angle) => {
        const turned = ((angle + pose.turn) * Math.PI) / 180;
        const away = reach + radius + 10;
        return [pose.x + away * Math.cos(turned), pose.y + away * Math.sin(turned)];
      };
      const [left, top, across, down] = data.view;
      const isSeen = ([x, y]) =>
        x > left + radius && x < left + across - radius && y > top + radius && y < top + down - radius;
      return { pixel, radius, at, isSeen };
    }

    // The grip takes a side on which it covers no words, if there is one: for the piece where it lies now.
    function takeSide(pose, others) {
      const { radius, at, isSeen } = grips(pose);
      const words = others.map((shape) => shape.getBBox()).filter(({ height }) => height <= MOST_OF_WORDS);
      const isClear = ([x, y]) => words.every((box) =>
        Math.hypot(x - between(box.x, x, box.x + box.width), y - between(box.y, y, box.y + box.height)) > radius + 4);
      side = SIDES.find((angle) => isSeen(at(angle)) && isClear(at(angle))) ?? side;
    }

    // settled: the piece has come to lie where it must, and a tick stands in place of the grip
    function put(pose, settled, mayChangeSides) {
      const { pixel, radius, at, isSeen } = grips(pose);
      if (mayChangeSides && !isSeen(at(side))) side = SIDES.find((angle) => isSeen(at(angle))) ?? side;
      const [x, y] = at(side);
      set(hold, { cx: pose.x, cy: pose.y, r: Math.max(0.7 * reach, PIECE_PX * pixel) });
      set(ring, { cx: pose.x, cy: pose.y, r: reach + 4 });
      set(stem, { x1: pose.x, y1: pose.y, x2: x, y2: y });
      set(disc, { r: radius });
      set(grip, { transform: `translate(${x} ${y})` });
      set(sign, { d: settled ? TICK : ROUND_ARROW, transform: `scale(${radius / 22})` });
      layer.classList.toggle("met", settled);
    }
    return { layer, hold, grip, put, takeSide };
  }

  // One slide's piece, from when the slide is entered until it is left.
  function handled(slide, place) {
    const { group, about, meeting, slips, near, nearDeg, moves, turns, reach, room, via } = slide.handling;
    const word = (key) => deck.words[`handle.${key}`];
    const kept = ((deck.store.handled ??= {})[slide.id] ??= { x: about[0], y: about[1], turn: 0, done: "" });
    const gone = new AbortController();
    const whileHere = { signal: gone.signal };
    let pose = { x: kept.x, y: kept.y, turn: kept.turn };
    let state = kept.done; // what was said last: "met", "shown", a slip, or how far it is; "" for nothing yet
    let gliding = null; // the motion that plays
    let isTurning = false; // by the grip
    const touch = handles(reach);
    const isSettled = () => state === "met" || state === "shown";

    function put() {
      kept.x = pose.x;
      kept.y = pose.y;
      kept.turn = pose.turn;
      kept.done = isSettled() ? state : "";
      if (touch.layer.parentNode !== deck.svg) return; // another picture is shown just now
      poseGroup(deck.groups(group), slide.handling, pose);
      touch.put(pose, isSettled(), !isTurning);
    }

    function takeSide() {
      const own = [touch.layer, ...deck.groups(group)];
      touch.takeSide(pose, [...deck.svg.children].filter((shape) => !own.includes(shape)));
    }

    // The piece can be laid while the slide's own picture is shown: not in the picture before, nor on the way from it.
    function look() {
      const isOwn = deck.svg.getAttribute("aria-label") === figures[slide.figure][0];
      if (isOwn === (touch.layer.parentNode === deck.svg)) return;
      if (!isOwn) return touch.layer.remove();
      deck.svg.append(touch.layer);
      takeSide();
      for (const shape of deck.groups(group)) {
        shape.classList.add("handle-touch");
        listen(shape);
      }
      put();
    }
    const looking = new MutationObserver(look);

    const off = (landing) => ({
      turn: Math.abs(wrapped(pose.turn - landing.turn)),
      away: Math.hypot(pose.x - landing.at[0], pose.y - landing.at[1]),
    });
    const isThere = ({ turn, away }) => turn <= nearDeg && away <= near;
    const howFar = ({ turn, away }) => Math.max(turn / nearDeg, away / near);

    // What is true of where the piece lies now: a key, and the sentences.
    function found() {
      const { turn, away } = off(meeting);
      if (isThere({ turn, away })) return ["met", meeting.said];
      const [slip] = slips.map((each, number) => ({ ...each, number, ...off(each) })).filter(isThere)
        .sort((one, other) => howFar(one) - howFar(other));
      if (slip) return [`slip-${slip.number}`, slip.said];
      let key = "apart";
      if (turn <= nearDeg) key = turn <= EXACT ? "turnIsRight" : "turnIsNear";
      else if (away <= near) key = away <= EXACT ? "placeIsRight" : "placeIsNear";
      return [key, [word(key)]];
    }

    function tell(key, words) {
      state = key;
      said.textContent = words.join(" ");
      said.dataset.state = isSettled() ? "met" : key.startsWith("slip") ? "slip" : key;
      for (const button of steps) button.setAttribute("aria-disabled", String(isSettled()));
      tick.hidden = !isSettled();
      again.hidden = !isSettled();
    }

    // The piece has made a step or been let go of. `first` is said before what is new of where it lies.
    function settle(first, always) {
      const [key, words] = found();
      const isNew = always || key !== state;
      tell(key, words);
      if (first || isNew) deck.say([...(first ? [first] : []), ...(isNew ? words : [])].join(" "));
      if (key !== "met") return put();
      glide([{ x: meeting.at[0], y: meeting.at[1], turn: pose.turn + wrapped(meeting.turn - pose.turn), ms: SNAP_MS }]);
    }

    // Legs, one after the other, the middle ones without a stop; the last pose at once where all is calm.
    function glide(legs, then = () => {}) {
      const own = (gliding = {});
      const arrive = ({ x, y, turn }) => { pose = { x, y, turn }; };
      const end = () => {
        gliding = null;
        arrive(legs.at(-1));
        takeSide();
        put();
        deck.keep();
        then();
      };
      if (deck.calm) return end();
      let start = pose;
      let number = 0;
      let began = null;
      const frame = (now) => {
        if (gliding !== own) return;
        began ??= now;
        const leg = legs[number];
        const part = leg.ms > 0 ? between(0, (now - began) / leg.ms, 1) : 1;
        if (part === 1 && number === legs.length - 1) return end();
        const share = leg.even ? part : eased(part);
        const mixed = (name) => start[name] + (leg[name] - start[name]) * share;
        arrive({ x: mixed("x"), y: mixed("y"), turn: mixed("turn") });
        if (part === 1) {
          start = pose;
          began = now;
          number += 1;
        }
        put();
        requestAnimationFrame(frame);
      };
      requestAnimationFrame(frame);
    }

    // Whoever lays the piece wants to see it: no motion plays on, and no other picture is shown.
    function begin() {
      gliding = null;
      if (touch.layer.parentNode === deck.svg) return;
      deck.show(slide.figure);
      look();
    }

    function step(dx, dy, turn, words) {
      begin();
      if (isSettled()) return deck.say(word("again"));
      const x = between(room[0], pose.x + dx, room[2]);
      const y = between(room[1], pose.y + dy, room[3]);
      const isStuck = turn === 0 && Math.hypot(x - pose.x, y - pose.y) < EXACT;
      pose = { x, y, turn: pose.turn + turn };
      settle(isStuck ? word("edge") : words, false);
      deck.keep();
    }

    function turnBy(degrees) {
      const key = `handle.turned${degrees < 0 ? "Left" : "Right"}${Math.abs(degrees) === 1 ? "ByOne" : ""}`;
      step(0, 0, degrees, deck.filled(key, { count: Math.abs(degrees) }));
    }

    function moveBy(dx, dy) {
      step(dx, dy, 0, word(dx < 0 ? "movedLeft" : dx > 0 ? "movedRight" : dy < 0 ? "movedUp" : "movedDown"));
    }

    const first = { x: about[0], y: about[1], turn: 0 };

    function putBack() {
      begin();
      tell("", [word("lead")]);
      deck.say(word("back"));
      pose.turn = wrapped(pose.turn);
      glide([{ ...first, ms: BACK_MS }]);
    }

    // The true motion, from where the piece lay at first: the whole turn, then the way to its place.
    function showMe() {
      begin();
      tell("", [word("lead")]);
      pose.turn = wrapped(pose.turn);
      const isAway = howFar(off({ at: about, turn: 0 })) > 0;
      const stops = [...via, meeting.at];
      const lengths = stops.map(([x, y], i) => Math.hypot(x - (stops[i - 1] ?? about)[0], y - (stops[i - 1] ?? about)[1]));
      const whole = lengths.reduce((sum, length) => sum + length, 0);
      const way = stops.map(([x, y], i) => ({ x, y, turn: meeting.turn, ms: (SHIFT_MS * lengths[i]) / whole, even: true }));
      const turn = { ...first, turn: meeting.turn, ms: MS_A_DEGREE * Math.abs(meeting.turn) };
      glide([...(isAway ? [{ ...first, ms: BACK_MS }] : []), turn, ...way], () => {
        tell("shown", meeting.said);
        put();
        deck.keep();
        deck.say(meeting.said.join(" "));
      });
    }

    // By pointer: one moves the piece, and turns it at the grip; two turn it between them.
    const fingers = new Map();
    const spot = (event) => {
      const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(deck.svg.getScreenCTM().inverse());
      return { x, y };
    };
    const hand = () => {
      const [one, other = one] = fingers.values();
      return { x: (one.x + other.x) / 2, y: (one.y + other.y) / 2, angle: other === one ? 0 : bearing(one, other) };
    };

    function take(event) {
      if (event.button !== 0 || fingers.size === 2) return;
      event.preventDefault();
      gliding = null;
      if (isSettled()) tell("", [word("lead")]);
      isTurning ||= event.currentTarget === touch.grip;
      fingers.set(event.pointerId, spot(event));
      event.currentTarget.setPointerCapture(event.pointerId);
      touch.layer.classList.add("held");
    }

    function drag(event) {
      const from = fingers.get(event.pointerId);
      if (!from) return;
      const before = hand();
      fingers.set(event.pointerId, spot(event));
      const now = hand();
      if (isTurning) {
        pose.turn += wrapped(bearing(pose, spot(event)) - bearing(pose, from));
      } else {
        pose.x = between(room[0], pose.x + now.x - before.x, room[2]);
        pose.y = between(room[1], pose.y + now.y - before.y, room[3]);
        pose.turn += wrapped(now.angle - before.angle);
      }
      put();
    }

    function letGo(event) {
      if (event.type === "pointerup") drag(event); // the last stretch may not have been told of as a move
      if (!fingers.delete(event.pointerId) || fingers.size) return;
      isTurning = false;
      touch.layer.classList.remove("held");
      if (event.pointerType !== "touch") pad.focus({ preventScroll: true }); // a finger needs no help with keys over the words
      settle("", true);
      deck.keep();
    }

    function listen(shape) {
      shape.addEventListener("pointerdown", take, whileHere);
      shape.addEventListener("pointermove", drag, whileHere);
      shape.addEventListener("pointerup", letGo, whileHere);
      shape.addEventListener("pointercancel", letGo, whileHere);
      // touch-action is not enough: on shapes of a picture some browsers scroll or zoom all the same
      shape.addEventListener("touchstart", (event) => event.preventDefault(), { ...whileHere, passive: false });
    }

    function press(event) {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const far = moves[event.shiftKey ? 1 : 0];
      const wide = turns[event.shiftKey ? 2 : 0];
      const acts = {
        arrowleft: () => moveBy(-far, 0), arrowright: () => moveBy(far, 0),
        arrowup: () => moveBy(0, -far), arrowdown: () => moveBy(0, far),
        l: () => turnBy(-wide), "[": () => turnBy(-wide), "{": () => turnBy(-wide),
        r: () => turnBy(wide), "]": () => turnBy(wide), "}": () => turnBy(wide),
      };
      const act = acts[event.key.toLowerCase()];
      if (!act) return;
      event.preventDefault();
      event.stopPropagation(); // while the piece has the keys, they turn no slide
      act();
    }

    const button = (key, sign, click) => element("button", { type: "button", class: `handle-${key}`, click },
      element("span", { class: "handle-sign-of", "aria-hidden": "true" }, sign), word(key));
    const arrow = (key, sign, click) =>
      element("button", { type: "button", class: `handle-${key}`, "aria-label": word(key), title: word(key), click }, sign);
    const large = element("input", { type: "checkbox" });
    const far = () => moves[large.checked ? 1 : 0];
    const wide = () => turns[large.checked ? 1 : 0];
    const steps = [
      arrow("turnLeft", "↺", () => turnBy(-wide())),
      arrow("turnRight", "↻", () => turnBy(wide())),
      arrow("left", "←", () => moveBy(-far(), 0)),
      arrow("right", "→", () => moveBy(far(), 0)),
      arrow("up", "↑", () => moveBy(0, -far())),
      arrow("down", "↓", () => moveBy(0, far())),
    ];
    const tick = element("span", { class: "handle-tick", "aria-hidden": "true", hidden: true }, "✓");
    const said = element("p", { class: "handle-said" }, word("lead"));
    const again = element("p", { class: "handle-again", hidden: true }, word("again"));
    const pad = element("div", {
      class: "handle-pad", tabindex: "0", role: "application", "aria-label": word("pad"), "aria-describedby": "handle-keys",
    }, element("span", { id: "handle-keys" }, word("keys")));
    place.append(element("section", { class: "handle", "aria-label": word("title"), keydown: press },
      pad,
      element("div", { class: "handle-steps", role: "group", "aria-label": word("steps") }, ...steps),
      element("div", { class: "handle-row" },
        element("label", {}, large, word("large")), button("putBack", "⤺", putBack), button("show", "▷", showMe)),
      element("div", { class: "handle-state" }, tick, element("div", {}, said, again))));

    pad.addEventListener("focus", () => touch.layer.classList.add("focused"), whileHere);
    pad.addEventListener("blur", () => touch.layer.classList.remove("focused"), whileHere);
    addEventListener("resize", put, whileHere);
    for (const shape of [touch.hold, touch.grip]) listen(shape);
    looking.observe(deck.svg, { childList: true, attributes: true, attributeFilter: ["aria-label"] });
    deck.svg.classList.add("handled");
    if (isSettled()) tell(state, meeting.said);
    look();
    // Where the piece has been laid already, the slide's own motion would put it back and have it jump.
    if (isSettled() || howFar(off({ at: about, turn: 0 })) > 0) queueMicrotask(begin);

    return () => {
      gliding = null;
      looking.disconnect();
      gone.abort();
      touch.layer.remove();
      deck.svg.classList.remove("handled");
      deck.keep();
    };
  }

  let leave = () => {};
  extras.push({
    wants: (slide) => Boolean(slide.handling),
    enter(slide, place) { leave = handled(slide, place); },
    leave() { leave(); },
  });
}
