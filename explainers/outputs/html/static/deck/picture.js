// The picture: shapes as elements of SVG, figures, and motions played from their poses.

const SVG = "http://www.w3.org/2000/svg";

function svg(tag, attributes) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

const colour = (number) => (number < 0 ? "none" : `var(--c${number})`);

function drawn([fill, stroke, width, path, evenOdd]) {
  const own = { fill: colour(fill) };
  if (stroke >= 0 && width > 0) {
    Object.assign(own, { stroke: colour(stroke), "stroke-width": width });
    Object.assign(own, { "stroke-linecap": "round", "stroke-linejoin": "round" });
  }
  if (evenOdd) own["fill-rule"] = "evenodd";
  if (typeof path === "string") return svg("path", { ...own, d: path });
  const [x, y, across, down, rx] = path;
  return svg("rect", { ...own, x, y, width: across, height: down, rx });
}

function entry([shape, group, opacity]) {
  const made = svg("g", { "data-group": group });
  if (opacity !== undefined) made.setAttribute("opacity", opacity);
  made.append(...shapes[shape].map(drawn));
  return made;
}

// The entries of a figure in the picture.
function pictured(entries) {
  const made = entries.filter((each) => !isPanel(each)).map(entry);
  deck.svg.replaceChildren(...framesOf(entries), ...made);
  shiftEntries(made);
}

function described(alt) {
  deck.svg.setAttribute("aria-label", alt);
  byId("in-words").replaceChildren(...alt.split(/(?<=[.!?])\s+/).map((sentence) => element("p", {}, sentence)));
}

Object.assign(deck, {
  svg: byId("picture"),
  shown: null, // the number of the figure that stands in the picture; null while something moves
  onShow: [], // called when another picture stands there, or none
  groups: (number) => [...deck.svg.querySelectorAll(`:scope > [data-group="${number}"]`)],
  described,
  show(figure) {
    stopMotion();
    const [alt, entries] = figures[figure];
    pictured(entries);
    described(alt);
    deck.shown = figure;
    for (const told of deck.onShow) told();
  },
  // Entries of another figure that this one has not, over what is shown: of a question the mark on one option.
  add(figure, over) {
    const known = new Set(figures[over][1].map(String));
    const made = figures[figure][1].filter((each) => !known.has(String(each))).map(entry);
    deck.svg.append(...made);
    shiftEntries(made);
  },
  card(figure, box) {
    const made = svg("svg", { viewBox: box.join(" "), "aria-hidden": "true", class: "card" });
    made.append(...figures[figure][1].map(entry));
    return made;
  },
});

// Motions: each entry has a track with keys, [look, numbers ...]; between two keys one goes straight.

const LEAD_MS = 400; // what is shown first is looked at before it moves
const REST_MS = 500; // and what came of it before something else moves

// The last key at or before a look, and how far it is from there to the next.
function between(keys, look) {
  let i = 0;
  while (i + 1 < keys.length && keys[i + 1][0] <= look) i += 1;
  const after = keys[i + 1];
  if (!after || look <= keys[i][0]) return [keys[i], keys[i], 0];
  return [keys[i], after, (look - keys[i][0]) / (after[0] - keys[i][0])];
}

function numbersAt(keys, look) {
  const [one, other, part] = between(keys, look);
  return one.slice(1).map((number, i) => number + part * (other[i + 1] - number));
}

const NUMBER = /-?(?:\d+\.?\d*|\.\d+)/g;

function pathAt(keys, index, look) {
  const [one, other, part] = between(keys, look);
  if (part === 0) return one[index];
  const goal = other[index].match(NUMBER);
  let i = -1;
  return one[index].replace(NUMBER, (number) => (Number(number) + part * (goal[(i += 1)] - number)).toFixed(2));
}

// What keeps one entry as its track says; a function of the look.
function follow(track, poses, made) {
  let ways = null; // how far it is shifted at the start and at the end, where panels are stacked
  const paths = [...made.children];
  const widths = paths.map((path) => path.getAttribute("stroke-width"));
  const strokes = track.strokes ? paths[0].getAttribute("d").split(/(?=M)/) : null;
  let step = null;
  const poseAt = (look) => (track.pose === undefined ? null : numbersAt(poses[track.pose].keys, look));
  const shiftedAt = (look) => {
    const [x, y] = middleOf(made);
    const [right, down] = poseAt(look) ?? [0, 0];
    return shiftAt([x + right, y + down]);
  };
  return (look) => {
    if (stacked) ways ??= [shiftedAt(track.first), shiftedAt(track.last)];
    const seen = look > track.first - 1 && look < track.last + 1;
    made.setAttribute("visibility", seen ? "visible" : "hidden");
    if (!seen) return;
    const [opacity] = numbersAt(track.opacity, look);
    made.setAttribute("opacity", opacity);
    let shift = "";
    if (ways) {
      const part = Math.min(1, Math.max(0, (look - track.first) / (track.last - track.first || 1)));
      const [across, drop] = ways[0].map((from, i) => from + part * (ways[1][i] - from));
      shift = `translate(${across} ${drop}) `;
      if (track.pose === undefined) made.setAttribute("transform", shift);
    }
    if (track.pose !== undefined) {
      const { about: [x, y] } = poses[track.pose];
      const [right, down, turn, scale] = poseAt(look);
      made.setAttribute("transform", `${shift}translate(${x + right} ${y + down}) rotate(${turn}) scale(${scale}) translate(${-x} ${-y})`);
      paths.forEach((path, i) => { if (widths[i]) path.setAttribute("stroke-width", widths[i] / scale); });
    }
    if (track.paths) paths.forEach((path, i) => path.setAttribute("d", pathAt(track.paths, i + 1, look)));
    if (strokes) paths[0].setAttribute("d", strokes.slice(0, between(track.strokes, look)[0][1]).join(""));
    if (track.steps) {
      const [now] = between(track.steps, look);
      if (now !== step) made.replaceChildren(...shapes[now[1]].map(drawn));
      step = now;
    }
  };
}

// The entries of a motion in the picture, and a function that shows it at a part of its way from 0 to 1.
function staged(motion) {
  const moving = [];
  const still = [];
  const entries = motion.tracks.filter((track) => !isPanel(track)).map((track) => {
    const made = entry(Array.isArray(track) ? track : [track.shape ?? track.steps[0][1], track.group]);
    if (Array.isArray(track)) still.push(made);
    else moving.push(follow(track, motion.poses, made));
    return made;
  });
  deck.svg.replaceChildren(...framesOf(motion.tracks), ...entries);
  shiftEntries(still);
  deck.shown = null;
  for (const told of deck.onShow) told();
  return (part) => { for (const keep of moving) keep(part * motion.looks); };
}

let playing = 0; // counts whatever is shown, so that a motion knows when it is no longer wanted

function stopMotion() {
  playing += 1;
}

const frame = () => new Promise((done) => { requestAnimationFrame(done); });
const wait = (ms) => new Promise((done) => { setTimeout(done, ms); });

// Whether they were played to their end.
async function playMotions(motions) {
  for (const [number, motion] of motions.entries()) {
    deck.show(motion.from);
    const turn = playing;
    await wait(number === 0 ? LEAD_MS : REST_MS);
    if (turn !== playing) return false;
    const show = staged(motion);
    const start = await frame();
    for (let now = start; now - start < motion.seconds * 1000; now = await frame()) {
      if (turn !== playing) return false;
      show((now - start) / (motion.seconds * 1000));
    }
    if (turn !== playing) return false;
    deck.show(motion.to);
  }
  return true;
}

// Whether nothing else has been shown meanwhile.
async function rest(ms) {
  const turn = playing;
  await wait(Math.max(REST_MS, ms));
  return turn === playing;
}
