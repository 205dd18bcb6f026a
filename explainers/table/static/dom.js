// Elements, the line in which is said what happened, and parts that are drawn anew without losing the focus.
// Words always become text, never markup.
const SVG = "http://www.w3.org/2000/svg";

const filled = (element, attributes, children) => {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...children.flat(9).filter((each) => each !== null && each !== undefined && each !== false));
  return element;
};

export const h = (tag, attributes, ...children) => filled(document.createElement(tag), attributes, children);
export const s = (tag, attributes, ...children) => filled(document.createElementNS(SVG, tag), attributes, children);

let order = 0;

/** Say what happened: seen at the foot of the page and read out. */
export const announce = (words) => {
  const line = document.getElementById("status");
  const mine = ++order;
  line.textContent = "";
  requestAnimationFrame(() => {
    if (mine === order) line.textContent = words;
  });
};

/** A button; `key` is by what it is found again when its part is drawn anew. */
export const button = (key, words, does, attributes = {}) =>
  h("button", { type: "button", "data-key": key, onclick: does, ...attributes }, words);

/** A field with its label; `does` is given the value when it is left or Enter is pressed. */
export const field = (key, label, value, does, attributes = {}) =>
  h("label", { class: "field" }, h("span", {}, label), h("input", {
    "data-key": key, value, autocomplete: "off", ...attributes,
    onchange: (event) => {
      event.target.defaultValue = event.target.value; // sent: what becomes of it is shown from now on
      does(event.target.value, event.target);
    },
  }));

export const choice = (key, label, options, value, does) =>
  h("label", { class: "field" }, h("span", {}, label), h("select", {
    "data-key": key, onchange: (event) => does(event.target.value),
  }, options.map(([name, words]) => h("option", { value: name, selected: name === value }, words))));

const found = (part, key) => [...part.querySelectorAll("[data-key]")].find((each) => each.dataset.key === key);

/** Put new content into a part: focus, what is being typed and what is unfolded stay. */
export const redraw = (part, ...content) => {
  const active = part.contains(document.activeElement) ? document.activeElement : null;
  const key = active?.dataset.key;
  const written = [...part.querySelectorAll("input:not([type]), textarea")].filter((each) => each.value !== each.defaultValue)
    .map((each) => [each.dataset.key, each.value]);
  const open = new Map([...part.querySelectorAll("details")].map((each) => [each.dataset.key, each.open]));
  part.replaceChildren(...content.flat(9).filter(Boolean));
  for (const each of part.querySelectorAll("details")) {
    if (open.has(each.dataset.key)) each.open = open.get(each.dataset.key);
  }
  for (const [name, value] of written) {
    const field = found(part, name);
    if (field) field.value = value;
  }
  if (!key) return;
  const again = found(part, key) ?? part.querySelector("button, input, select, summary");
  again?.focus({ preventScroll: true });
};

const parsed = new Map();

/** A picture that the program drew, as an image of the page; what could run is left out, whoever wrote it. */
export const picture = (text, label) => {
  if (!parsed.has(text)) {
    if (parsed.size > 60) parsed.clear();
    const root = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
    for (const each of [root, ...root.querySelectorAll("*")]) {
      if (["script", "foreignObject", "a", "style"].includes(each.localName)) each.remove();
      for (const { name } of [...each.attributes]) if (name.startsWith("on") || /href$/.test(name)) each.removeAttribute(name);
    }
    parsed.set(text, root);
  }
  const shown = document.importNode(parsed.get(text), true);
  const wide = Number(shown.getAttribute("width")), high = Number(shown.getAttribute("height"));
  shown.setAttribute("role", "img");
  shown.setAttribute("class", "picture");
  if (label) shown.setAttribute("aria-label", label);
  if (wide > high * 1.2) shown.setAttribute("data-wide", "");
  return shown;
};
