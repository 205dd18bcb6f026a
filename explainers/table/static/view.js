// Which part of the paper is seen: moved, made larger and smaller. Pixels go down, the paper's y goes up.
export class View {
  scale = 44; // pixels a unit
  left = -2;
  top = 6;
  width = 600;
  height = 500;
  fitted = false;

  toPixels([x, y]) {
    return [(x - this.left) * this.scale, (this.top - y) * this.scale];
  }

  toPaper([x, y]) {
    return [this.left + x / this.scale, this.top - y / this.scale];
  }

  pan(dx, dy) {
    this.left -= dx / this.scale;
    this.top += dy / this.scale;
  }

  /** Larger or smaller, the point under a pixel stays. */
  zoom(factor, at = [this.width / 2, this.height / 2]) {
    const before = this.toPaper(at);
    this.scale = Math.min(400, Math.max(4, this.scale * factor));
    const after = this.toPaper(at);
    this.left += before[0] - after[0];
    this.top += before[1] - after[1];
  }

  /** Show a box of the paper whole, above the buttons at its foot. */
  fit({ left, right, low, high }) {
    const room = Math.min(this.width, this.height) < 420 ? 26 : 44;
    const foot = this.width < 560 ? 40 : 0; // on a phone the buttons below take all the width
    const wide = Math.max(right - left, 1), tall = Math.max(high - low, 1);
    this.scale = Math.min(64, Math.max(4, Math.min((this.width - 2 * room) / wide, (this.height - foot - 2 * room) / tall)));
    this.left = (left + right) / 2 - this.width / 2 / this.scale;
    this.top = (low + high) / 2 + (this.height - foot) / 2 / this.scale;
  }

  /** Move as little as it takes for a point to be seen. */
  reveal(point) {
    const [x, y] = this.toPixels(point), room = 40;
    this.pan(
      x < room ? room - x : x > this.width - room ? this.width - room - x : 0,
      y < room ? room - y : y > this.height - room ? this.height - room - y : 0,
    );
  }
}
