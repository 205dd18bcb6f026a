// The drawing itself as an image of the page: a picture as it is, an SVG only within <img>, where nothing of it can run.
import { box } from "./plane.js";

const MOST_SIDE = 1600; // pixels of an SVG when it is shown

const numbers = (text) => (text ?? "").trim().split(/[\s,]+/).map(Number);

// Read as text: a document made of it would have its styles and handlers looked at by the page's own policy.
const ROOT = /<(?:[\w-]+:)?svg(?=[\s/>])(?:[^>"']|"[^"]*"|'[^']*')*>/;
const OWN = /\s(viewBox|width|height|preserveAspectRatio)\s*=\s*("[^"]*"|'[^']*')/g;

const lengthOf = (text) => {
  const match = /^\s*(\d+\.?\d*|\.\d+)\s*(px)?\s*$/.exec(text ?? "");
  return match ? Number(match[1]) : 0;
};

/** Where the corners lie that were read from it, with some room. */
const aroundRead = (told) => {
  const points = [...told.outlines, ...told.left_out].flatMap((each) => each.rings.flat()).filter(Boolean);
  const b = box(points), room = 0.06 * Math.max(b.right - b.left, b.high - b.low, 1e-9);
  return { x: b.left - room, y: b.low - room, width: b.right - b.left + 2 * room, height: b.high - b.low + 2 * room };
};

/** An SVG of a size that is known: its units are those in which places on it are told. */
const framed = async (bytes, told) => {
  const text = (await bytes.text()).replace(/<!--[\s\S]*?-->/g, "");
  const root = ROOT.exec(text)?.[0];
  if (!root) return { url: null, frame: aroundRead(told) };
  const own = Object.fromEntries([...root.matchAll(OWN)].map(([, name, value]) => [name, value.slice(1, -1)]));
  const [x, y, wide, high] = numbers(own.viewBox), width = lengthOf(own.width), height = lengthOf(own.height);
  const frame = [x, y, wide, high].every(Number.isFinite) && wide > 0 && high > 0 ? { x, y, width: wide, height: high }
    : width && height ? { x: 0, y: 0, width, height } : aroundRead(told);
  const by = MOST_SIDE / Math.max(frame.width, frame.height);
  const given = ` viewBox="${frame.x} ${frame.y} ${frame.width} ${frame.height}"`
    + ` width="${Math.max(1, frame.width * by)}" height="${Math.max(1, frame.height * by)}"`;
  const anew = root.replace(OWN, "").replace(/^<[\w:-]+/, (start) => start + given);
  const whole = text.replace(root, () => anew).replace(/^\ufeff?<\?xml[^>]*\?>/, ""); // it is UTF-8 from here on
  return { url: URL.createObjectURL(new Blob([whole], { type: "image/svg+xml" })), frame };
};

/** {url, frame}: what is to be shown and which part of the source it shows; a slide has no picture. */
export const originalOf = async (bytes, told) => {
  const whole = { x: 0, y: 0, width: told.size[0], height: told.size[1] };
  if (told.kind === "picture") {
    const start = new Uint8Array(await bytes.slice(0, 2).arrayBuffer());
    const type = start[0] === 0xff ? "image/jpeg" : "image/png"; // by its bytes, whatever its name says
    return { url: URL.createObjectURL(new Blob([bytes], { type })), frame: whole };
  }
  if (told.kind === "drawing") return framed(bytes, told);
  return { url: null, frame: whole.width > 0 && whole.height > 0 ? whole : aroundRead(told) };
};
