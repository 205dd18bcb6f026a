// How the picture is laid out: as the stage is, or, on a narrow screen, its panels one under the other.
// Entries are shifted with the region in which they stand; what that is stands in the slide's data.

const narrow = matchMedia("(max-width: 40rem) and (max-aspect-ratio: 1/1), (max-aspect-ratio: 4/5)");
let stacked = null; // the layout of the moment that is shown, where it is a stacked one
let lengthwise = data.view; // the part of the stage that the slide shows

const beyond = (low, value, high) => Math.max(low - value, value - high, 0);

function regionOf([x, y]) {
  let best = null;
  let least = Infinity;
  for (const region of stacked.regions) {
    const off = Math.hypot(beyond(region[0], x, region[2]), beyond(region[1], y, region[3]));
    if (off < least) [best, least] = [region, off];
  }
  return best;
}

const shiftAt = (place) => (stacked ? regionOf(place).slice(4) : [0, 0]);
// An entry of a figure, or the track of one.
const isPanel = (each) => stacked !== null && (Array.isArray(each) ? each[1] : each.group) === stacked.panels;

function middleOf(shape) {
  const { x, y, width, height } = shape.getBBox();
  return [x + width / 2, y + height / 2];
}

// Entries that stand still, once they are in the picture.
function shiftEntries(made) {
  if (!stacked) return;
  for (const shape of made) {
    const [right, down] = shiftAt(middleOf(shape));
    shape.setAttribute("transform", `translate(${right} ${down})`);
  }
}

// The panels of a stacked picture, each in the colours of the one that it stands for.
function framesOf(entries) {
  if (!stacked) return [];
  const panels = entries.filter((each) => isPanel(each) && Array.isArray(each));
  return stacked.frames.filter(([number]) => panels[number]).map(([number, x, y, width, height]) => {
    const [[fill, stroke, line, [, , , , rx = 0]]] = shapes[panels[number][0]];
    const own = { x, y, width, height, rx, fill: colour(fill), class: "frame" };
    return svg("rect", stroke < 0 ? own : { ...own, stroke: colour(stroke), "stroke-width": line });
  });
}

Object.assign(deck, {
  onLayout: [], // called when places in the picture have come to lie elsewhere in the window
  seen: () => (stacked ? [0, 0, ...stacked.size] : lengthwise),
  layOut(slide, moment) {
    stacked = narrow.matches ? slide.layouts[moment.layout] : null;
    lengthwise = slide.view;
    deck.svg.setAttribute("viewBox", deck.seen().join(" "));
    deck.svg.style.setProperty("--least", `${stacked ? stacked.least : 0}px`);
    byId("stage").classList.toggle("stacked", stacked !== null);
  },
  // A place of the stage where the picture shows it.
  spot([x, y]) {
    const [right, down] = shiftAt([x, y]);
    return [x + right, y + down];
  },
  // An element of the page over a box of the stage: [left, top, width, height].
  lay(over, [x, y, width, height]) {
    const matrix = deck.svg.getScreenCTM();
    if (!matrix) return;
    const [left, top] = deck.spot([x + width / 2, y + height / 2]);
    const corner = new DOMPoint(left - width / 2, top - height / 2).matrixTransform(matrix);
    const frame = byId("stage").getBoundingClientRect();
    const { scrollLeft, scrollTop, clientLeft, clientTop } = byId("stage");
    over.style.left = `${corner.x - frame.left - clientLeft + scrollLeft}px`;
    over.style.top = `${corner.y - frame.top - clientTop + scrollTop}px`;
    over.style.width = `${width * matrix.a}px`;
    over.style.height = `${height * matrix.d}px`;
  },
});

const laidAnew = () => { for (const told of deck.onLayout) told(); };
new ResizeObserver(() => requestAnimationFrame(laidAnew)).observe(byId("picture")); // a frame later: what it does may change sizes
