// Mouse, finger and pen on the paper: one finger draws or drags, two move the paper and change its size.
import { app, drawnOf, outlineOf, ringOf } from "./app.js";
import { aimAt, putCorner } from "./draw.js";
import { cornerMoved, insertCorner, moveCorner } from "./change.js";
import { chooseSide, showFirstPart, showPart, sideAlong, startAlong } from "./marry.js";
import { focusQuietly, frameOf, isChosen } from "./scene.js";
import { less, near, sidesOf, distance, snapped } from "./plane.js";
import { itemOf } from "./keys.js";
import { setSize, takeSize } from "./size_grips.js";

const STILL = 7; // pixels within which a press is a click
const TWICE_MS = 400;

export const takeHands = (svg) => {
  const fingers = new Map();
  let press = null, pinch = null, last = null;

  const place = (event) => {
    const rect = svg.getBoundingClientRect();
    return [event.clientX - rect.left, event.clientY - rect.top];
  };
  const hit = (event) => itemOf(document.elementFromPoint(event.clientX, event.clientY)?.closest?.(".hit"));

  svg.addEventListener("pointerdown", (event) => {
    if (event.button > 1) return;
    const at = place(event);
    fingers.set(event.pointerId, at);
    svg.setPointerCapture(event.pointerId);
    if (fingers.size === 2) {
      dropDrag();
      if (press && app.selected !== press.before) { // the first finger chose nothing: it moves the paper
        app.selected = press.before;
        app.render();
      }
      press = null;
      pinch = spread();
      return;
    }
    if (fingers.size > 2) return;
    const item = hit(event);
    press = { at, from: at, start: app.view.toPaper(at), item, moved: false, kind: event.pointerType, middle: event.button === 1, before: app.selected };
    if (item?.kind !== "cursor") event.preventDefault(); // the focus is given below
    if (app.tool === "marry" && item?.kind === "side") press.along = startAlong(item, app.view.toPaper(at));
    if (app.tool !== "draw" && item) select(item, svg);
    else if (app.tool === "draw") svg.querySelector(".cursor-hit")?.focus({ preventScroll: true });
    if (app.tool === "select" && item?.kind === "corner" && !press.middle) {
      const ring = ringOf(outlineOf(item.id), item.hole);
      press.corner = { item, from: ring[item.n] };
    }
    if (app.tool === "select" && item?.kind === "size" && !press.middle) press.size = takeSize(item, press.start);
  });

  svg.addEventListener("pointermove", (event) => {
    const at = place(event);
    if (fingers.has(event.pointerId)) fingers.set(event.pointerId, at);
    if (pinch && fingers.size === 2) {
      const now = spread();
      app.view.pan(now.at[0] - pinch.at[0], now.at[1] - pinch.at[1]);
      app.view.zoom(now.wide / pinch.wide, now.at);
      pinch = now;
      app.renderPaper();
      return;
    }
    if (press && !press.moved && distance(press.from, at) > STILL) press.moved = true;
    if (press?.corner && press.moved) dragCorner(event, at);
    else if (press?.size && press.moved) press.size(app.view.toPaper(at), event.altKey);
    else if (press?.moved && pans(press)) app.view.pan(at[0] - press.at[0], at[1] - press.at[1]);
    else if (app.tool === "draw" && app.draft && (event.pointerType !== "touch" || press)) aimAt(app.view.toPaper(at), event.altKey);
    else if (app.tool === "marry" && (app.marrying?.first || press?.item?.kind === "side")) {
      if (press?.moved && press.item?.kind === "side") {
        press.item = sideAlong(press.item, press.start, app.view.toPaper(at));
        press.along = startAlong(press.item, press.start);
      }
      const item = press?.item ?? hit(event);
      if (!app.marrying.first) {
        if (press.moved && outlineOf(item.id)?.role === "piece") showFirstPart(item, app.view.toPaper(at), press.along ?? null);
      } else showPart(item?.kind === "side" ? item : null, app.view.toPaper(at), press?.moved ? press.along ?? null : null);
    } else return;
    if (press) press.at = at;
    app.renderPaper();
  });

  const up = (event) => {
    if (!fingers.delete(event.pointerId)) return;
    if (pinch) {
      if (!fingers.size) pinch = null;
      return;
    }
    const done = press;
    press = null;
    if (!done) return;
    if (event.type === "pointercancel") dropDrag();
    else if ((done.corner || done.size) && done.moved) letGo();
    else if (app.tool === "draw" && app.draft && !(done.moved && pans(done))) {
      aimAt(app.view.toPaper(place(event)), event.altKey);
      const double = isDouble(event);
      if (!(double && app.draft.points.length && near(app.draft.cursor, app.draft.points.at(-1)))) putCorner();
      else if (app.draft.points.length > 2) putCorner(app.draft.points[0]);
    } else if (app.tool === "marry" && done.item?.kind === "side") {
      chooseSide(done.item, app.view.toPaper(place(event)), done.moved ? done.along ?? null : null);
    } else if (app.tool === "select" && done.item?.kind === "side" && !done.moved && isDouble(event)) {
      const frame = frameOf(done.item.id), ring = ringOf(outlineOf(done.item.id), done.item.hole);
      const at = less(app.view.toPaper(place(event)), frame.shift), side = sidesOf(ring)[done.item.n];
      const found = snapped(at, { paper: app.paper, px: app.view.scale });
      insertCorner(done.item, side.some((end) => near(end, found.point)) ? null : found.point);
    } else if (app.tool === "select" && !done.item && !done.moved) {
      app.selected = null;
      app.render();
    }
  };
  svg.addEventListener("pointerup", up);
  svg.addEventListener("pointercancel", up);

  svg.addEventListener("wheel", (event) => {
    event.preventDefault();
    if (event.shiftKey) app.view.pan(-event.deltaY, 0);
    else app.view.zoom(Math.exp(-Math.max(-200, Math.min(200, event.deltaY)) / 400), place(event));
    app.render();
  }, { passive: false });

  const pans = (one) => !one.corner && !one.size && (one.middle || (app.tool === "draw" ? one.kind === "touch" : !one.item || one.along === undefined));

  const spread = () => {
    const [a, b] = [...fingers.values()];
    return { at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], wide: Math.max(10, distance(a, b)) };
  };

  const isDouble = (event) => {
    const now = { at: place(event), when: event.timeStamp };
    const twice = last && now.when - last.when < TWICE_MS && distance(last.at, now.at) < 12;
    last = twice ? null : now;
    return twice;
  };

  const dragCorner = (event, at) => {
    const { item } = press.corner, outline = drawnOf(app.store.state).find((each) => each.id === item.id);
    if (!outline) return;
    const ring = ringOf(outline, item.hole), shift = frameOf(item.id).shift;
    const before = ring[(item.n + ring.length - 1) % ring.length];
    const lengths = ring.length > 2 ? sidesOf(ring).map(([p, q]) => distance(p, q)) : [];
    const found = snapped(less(app.view.toPaper(at), shift), { paper: app.paper, px: app.view.scale, free: event.altKey, from: before, lengths });
    app.drag = { ...item, to: found.point };
    app.store.try(...cornerMoved(outline, item.hole, item.n, found.point));
  };

  const letGo = async () => {
    const drag = app.drag;
    app.store.settle(); // what is done is done to what is, not to what was tried
    if (drag?.kind === "size") await setSize(drag, drag.value);
    else if (drag) await moveCorner({ id: drag.id, kind: "corner", hole: drag.hole, n: drag.n }, drag.to);
    app.drag = null;
    app.render();
  };

  const dropDrag = () => {
    if (!app.drag) return;
    app.drag = null;
    app.store.settle();
    app.render();
  };
};

/** Choose something on the paper, and give it the focus. */
export const select = (item, svg) => {
  app.selected = item;
  app.drawNow();
  focusQuietly([...svg.querySelectorAll(".hit")].find(isChosen));
  app.render();
};
