// A thing that lies in the picture and is moved by hand: by dragging, by its round grip, between two fingers, by steps.
// It knows nothing of where it should lie.

const clamped = (low, value, high) => Math.min(Math.max(value, low), high);
const hand = {
  wrapped: (degrees) => degrees - 360 * Math.round(degrees / 360),
  EXACT: 0.01, // view box units, and degrees
};
{
  const GRIP_PX = 14; // radius of what is taken hold of: 24 px across at least, WCAG 2.5.8
  const PIECE_PX = 22;
  const SIDES = [-90, 90, 0, 180, -45, -135, 45, 135]; // where the grip may stand, seen from the middle of the piece as it lies at first
  const MOST_OF_WORDS = 60; // view box units: what is no higher than this is words or a letter
  const ROUND_ARROW = "M8 -6A10.5 10.5 0 1 0 10.5 2M9 -14L8 -6L0 -7";
  const TICK = "M-9 0L-3 7L10 -8";

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
      const [left, top, across, down] = deck.seen();
      const isSeen = ([x, y]) =>
        x > left + radius && x < left + across - radius && y > top + radius && y < top + down - radius;
      return { pixel, radius, at, isSeen };
    }

    // The grip takes a side on which it covers no words, if there is one: for the piece where it lies now.
    function takeSide(pose, others) {
      const { radius, at, isSeen } = grips(pose);
      const toPicture = deck.svg.getScreenCTM()?.inverse();
      const words = others.map((shape) => shape.getBoundingClientRect()).map(({ left, top, right, bottom }) => {
        const [one, other] = [new DOMPoint(left, top), new DOMPoint(right, bottom)].map((corner) => corner.matrixTransform(toPicture));
        return { left: one.x, top: one.y, right: other.x, bottom: other.y };
      }).filter(({ top, bottom }) => bottom - top <= MOST_OF_WORDS);
      const isClear = ([x, y]) => words.every((box) =>
        Math.hypot(x - clamped(box.left, x, box.right), y - clamped(box.top, y, box.bottom)) > radius + 4);
      side = SIDES.find((angle) => isSeen(at(angle)) && isClear(at(angle))) ?? SIDES.find((angle) => isSeen(at(angle))) ?? side;
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
    return { layer, hold, grip, put, takeSide, gripAt: (pose) => grips(pose).at(side) };
  }

  // One thing, while its picture is shown. `figure` is the number of that picture; `own` what its owner does with it:
  // {start, room, isSettled(), taken(), moved(), dropped(event)}.
  hand.thing = (thing, figure, own) => {
    const { group, reach } = thing;
    const about = deck.spot(thing.about);
    const gone = new AbortController();
    const whileHere = { signal: gone.signal };
    const touch = handles(reach);
    let gliding = null; // the motion that plays
    let isTurning = false; // by the grip
    const self = { pose: own.start, about, layer: touch.layer, gripAt: () => touch.gripAt(self.pose) };

    self.put = () => {
      own.moved();
      if (touch.layer.parentNode !== deck.svg) return; // another picture is shown just now
      poseGroup(deck.groups(group), thing, self.pose);
      touch.put(self.pose, own.isSettled(), !isTurning);
    };

    self.takeSide = () => {
      const mine = [touch.layer, ...deck.groups(group)];
      touch.takeSide(self.pose, [...deck.svg.children].filter((shape) => !mine.includes(shape) && !shape.matches(".handle-layer, .frame")));
    };

    // It can be moved while its own picture is shown: not in the picture before, nor on the way from it.
    self.look = () => {
      const isOwn = deck.shown === figure;
      if (isOwn && touch.layer.parentNode === deck.svg) return;
      if (!isOwn) return touch.layer.remove();
      deck.svg.append(touch.layer);
      for (const shape of deck.groups(group)) {
        shape.classList.add("handle-touch");
        listen(shape);
      }
      self.put();
      self.takeSide();
      self.put();
    };

    // Whoever moves it wants to see it: no motion plays on, and no other picture is shown.
    self.begin = () => {
      gliding = null;
      if (touch.layer.parentNode === deck.svg) return;
      deck.show(figure);
      self.look();
    };

    // Legs, one after the other, the middle ones without a stop; the last pose at once where all is calm.
    self.glide = (legs, then = () => {}) => {
      const mine = (gliding = {});
      const arrive = ({ x, y, turn }) => { self.pose = { x, y, turn }; };
      const end = () => {
        gliding = null;
        arrive(legs.at(-1));
        self.takeSide();
        self.put();
        deck.keep();
        then();
      };
      if (deck.calm) return end();
      let start = self.pose;
      let number = 0;
      let began = null;
      const frame = (now) => {
        if (gliding !== mine) return;
        began ??= now;
        const leg = legs[number];
        const part = leg.ms > 0 ? clamped(0, (now - began) / leg.ms, 1) : 1;
        if (part === 1 && number === legs.length - 1) return end();
        const share = leg.even ? part : eased(part);
        const mixed = (name) => start[name] + (leg[name] - start[name]) * share;
        arrive({ x: mixed("x"), y: mixed("y"), turn: mixed("turn") });
        if (part === 1) {
          start = self.pose;
          began = now;
          number += 1;
        }
        self.put();
        requestAnimationFrame(frame);
      };
      requestAnimationFrame(frame);
    };
    self.stopGliding = () => { gliding = null; };

    // A step; says whether the edge of its room has held it back.
    self.step = (dx, dy, turn) => {
      const [left, top, right, bottom] = own.room;
      const x = clamped(left, self.pose.x + dx, right);
      const y = clamped(top, self.pose.y + dy, bottom);
      const isStuck = turn === 0 && Math.hypot(x - self.pose.x, y - self.pose.y) < hand.EXACT;
      self.pose = { x, y, turn: self.pose.turn + turn };
      return isStuck;
    };

    // By pointer: one moves the piece, and turns it at the grip; two turn it between them.
    const fingers = new Map();
    const spot = (event) => {
      const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(deck.svg.getScreenCTM().inverse());
      return { x, y };
    };
    const held = () => {
      const [one, other = one] = fingers.values();
      return { x: (one.x + other.x) / 2, y: (one.y + other.y) / 2, angle: other === one ? 0 : bearing(one, other) };
    };

    function take(event) {
      if (event.button !== 0 || fingers.size === 2) return;
      event.preventDefault();
      gliding = null;
      own.taken();
      isTurning ||= event.currentTarget === touch.grip;
      fingers.set(event.pointerId, spot(event));
      event.currentTarget.setPointerCapture(event.pointerId);
      touch.layer.classList.add("held");
    }

    function drag(event) {
      const from = fingers.get(event.pointerId);
      if (!from) return;
      const before = held();
      fingers.set(event.pointerId, spot(event));
      const now = held();
      const { pose } = self;
      if (isTurning) {
        pose.turn += hand.wrapped(bearing(pose, spot(event)) - bearing(pose, from));
      } else {
        pose.x = clamped(own.room[0], pose.x + now.x - before.x, own.room[2]);
        pose.y = clamped(own.room[1], pose.y + now.y - before.y, own.room[3]);
        pose.turn += hand.wrapped(now.angle - before.angle);
      }
      self.put();
    }

    function letGo(event) {
      if (event.type === "pointerup") drag(event); // the last stretch may not have been told of as a move
      if (!fingers.delete(event.pointerId) || fingers.size) return;
      isTurning = false;
      touch.layer.classList.remove("held");
      own.dropped(event);
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

    for (const shape of [touch.hold, touch.grip]) listen(shape);
    deck.onShow.push(self.look);
    deck.onLayout.push(self.put);
    deck.svg.classList.add("handled");
    self.leave = () => {
      gliding = null;
      gone.abort();
      for (const list of [deck.onShow, deck.onLayout]) list.splice(0, list.length, ...list.filter((each) => each !== self.look && each !== self.put));
      touch.layer.remove();
      deck.svg.classList.remove("handled");
      deck.keep();
    };
    return self;
  };

  // Where it may be slid about, in the picture as it is laid out now.
  hand.room = ({ room, reach }, [x, y]) => {
    if (!stacked) return room;
    const isIn = ([left, top, right, bottom]) => beyond(room[0] - reach, (left + right) / 2, room[2] + reach) === 0
      && beyond(room[1] - reach, (top + bottom) / 2, room[3] + reach) === 0;
    const own = stacked.regions.filter(isIn);
    const [left, top] = [0, 1].map((i) => Math.min(...own.map((region) => region[i] + region[4 + i])));
    const [right, bottom] = [2, 3].map((i) => Math.max(...own.map((region) => region[i] + region[2 + i])));
    return [Math.min(left + reach, x), Math.min(top + reach, y), Math.max(right - reach, x), Math.max(bottom - reach, y)];
  };

  // Buttons and keys that move and turn it by steps, small and large; `act` is called with [right, down, degrees, words].
  hand.steps = ({ moves, turns }, act) => {
    const word = (key) => deck.words[`handle.${key}`];
    const turnBy = (degrees) => {
      const key = `handle.turned${degrees < 0 ? "Left" : "Right"}${Math.abs(degrees) === 1 ? "ByOne" : ""}`;
      act(0, 0, degrees, deck.filled(key, { count: Math.abs(degrees) }));
    };
    const moveBy = (dx, dy) => act(dx, dy, 0, word(dx < 0 ? "movedLeft" : dx > 0 ? "movedRight" : dy < 0 ? "movedUp" : "movedDown"));
    const large = element("input", { type: "checkbox" });
    const far = () => moves[large.checked ? 1 : 0];
    const wide = () => turns[large.checked ? 1 : 0];
    const arrow = (key, sign, click) =>
      element("button", { type: "button", class: `handle-${key}`, "aria-label": word(key), title: word(key), click }, sign);
    const buttons = [
      arrow("turnLeft", "↺", () => turnBy(-wide())),
      arrow("turnRight", "↻", () => turnBy(wide())),
      arrow("left", "←", () => moveBy(-far(), 0)),
      arrow("right", "→", () => moveBy(far(), 0)),
      arrow("up", "↑", () => moveBy(0, -far())),
      arrow("down", "↓", () => moveBy(0, far())),
    ];

    // Whether the key was one of these.
    function press(event) {
      const long = moves[event.shiftKey ? 1 : 0];
      const turn = turns[event.shiftKey ? 2 : 0];
      const acts = {
        arrowleft: () => moveBy(-long, 0), arrowright: () => moveBy(long, 0),
        arrowup: () => moveBy(0, -long), arrowdown: () => moveBy(0, long),
        l: () => turnBy(-turn), "[": () => turnBy(-turn), "{": () => turnBy(-turn),
        r: () => turnBy(turn), "]": () => turnBy(turn), "}": () => turnBy(turn),
      };
      acts[event.key.toLowerCase()]?.();
      return event.key.toLowerCase() in acts;
    }

    const row = element("div", { class: "handle-steps", role: "group", "aria-label": word("steps") }, ...buttons);
    return { buttons, press, row, large: element("label", {}, large, word("large")) };
  };

  hand.button = (key, sign, click) => element("button", { type: "button", class: `handle-${key}`, click },
    element("span", { class: "handle-sign-of", "aria-hidden": "true" }, sign), deck.words[`handle.${key}`]);

  // How it is done, by hand first: what a finger does where there is one, and what keys do wherever the focus is.
  hand.how = () => [
    element("p", { class: "handle-by-finger" }, deck.words["handle.finger"]),
    element("p", { class: "handle-by-mouse" }, deck.words["handle.mouse"]),
    element("p", { class: "handle-by-keys" }, deck.words["handle.keys"]),
  ];
}
