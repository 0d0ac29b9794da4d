/** A drawing that is moved and enlarged with two fingers, and drawn again at the scale it is seen at then. */

const FINGER_PX = 8; // what a fingertip may miss by on glass: common practice, no source
const EDGE_PX = { left: 38, right: 16, over: 24, under: 16 }; // beside the face, for figures along its edges
const STEP = 1.6;
const CLOSEST = 0.25; // mm a pixel
const MOST_HIGH = 0.55; // of the window

/**
 * @typedef {object} View
 * @property {() => number} missed  what a touch may miss by at this scale, mm
 * @property {() => SVGElement} drawing  as it stands now
 * @property {(event: MouseEvent) => number[]} at  x and z of a touch, mm
 * @property {(what: string, show: (svg: SVGElement, scale: number) => void) => void} mark  have something shown in it
 * @property {(by: number) => void} enlarge  by steps; negative: smaller
 * @property {(point: number[], scale?: number) => void} centre
 */

/**
 * Let a drawing be looked at in parts.
 * @param {HTMLElement} holder
 * @param {(scale: number) => SVGElement} draw  with letters for `scale` mm a pixel
 * @param {{xFrom: number, xTo: number, zFrom: number, zTo: number}} part  all of it, mm
 * @param {{point: number[], scale: number}|null} begin  what lies in the middle at first; null: all of it is seen
 * @returns {View}
 */
export function viewing(holder, draw, part, begin = null) {
  const { left: l, right: r, over, under } = EDGE_PX;
  let [size, least, scale, centre] = [[0, 0], Infinity, begin?.scale ?? 0, begin?.point ?? [0, 0]];
  let [drawing, fingers] = [draw(begin?.scale ?? 10), /** @type {any} */ (null)];
  /** @type {Map<string, (svg: SVGElement, scale: number) => void>} */
  const marks = new Map();
  holder.replaceChildren(drawing);
  holder.classList.add("viewed");

  function look() {
    const [w, h] = [size[0] * scale, size[1] * scale];
    holder.dataset.scale = String(Math.round(scale * 100) / 100); // mm a pixel
    drawing.setAttribute("viewBox", [centre[0] - w / 2, -centre[1] - h / 2, w, h].join(" "));
  }
  function redraw() {
    if (!size[0]) return;
    scale = Math.min(least, Math.max(CLOSEST, scale || least));
    drawing = draw(scale);
    holder.replaceChildren(drawing);
    look();
    for (const show of marks.values()) show(drawing, scale);
  }
  function measure() {
    const width = holder.clientWidth;
    if (!width || (width === size[0] && holder.clientHeight === size[1])) return;
    const [wide, high] = [part.xTo - part.xFrom, part.zTo - part.zFrom];
    const first = width !== size[0];
    if (!begin && first) {
      const fits = ((width - l - r) * high) / wide + over + under;
      holder.style.height = `${Math.round(Math.min(innerHeight * MOST_HIGH, fits))}px`;
    }
    size = [width, holder.clientHeight];
    least = Math.max(wide / (size[0] - l - r), high / Math.max(1, size[1] - over - under));
    if (!begin && first) scale = least;
    if (!begin && first) centre = [(part.xFrom + part.xTo + (r - l) * least) / 2, (part.zFrom + part.zTo + (over - under) * least) / 2];
    redraw();
  }
  new ResizeObserver(measure).observe(holder);

  const spread = (/** @type {TouchEvent} */ { touches: { 0: one, 1: other } }) => ({
    middle: [(one.clientX + other.clientX) / 2, (one.clientY + other.clientY) / 2],
    apart: Math.max(1, Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY)),
  });
  holder.addEventListener("touchstart", (event) => {
    fingers = event.touches.length === 2 ? spread(event) : null;
  });
  holder.addEventListener(
    "touchmove",
    (event) => {
      if (!fingers || event.touches.length !== 2) return;
      event.preventDefault(); // the page stays where it is
      const now = spread(event);
      const { left, top } = holder.getBoundingClientRect();
      const off = [fingers.middle[0] - left - size[0] / 2, fingers.middle[1] - top - size[1] / 2];
      const held = [centre[0] + off[0] * scale, centre[1] - off[1] * scale]; // stays under the fingers
      scale = Math.min(least, Math.max(CLOSEST, (scale * fingers.apart) / now.apart));
      const moved = [now.middle[0] - left - size[0] / 2, now.middle[1] - top - size[1] / 2];
      centre = [held[0] - moved[0] * scale, held[1] + moved[1] * scale];
      fingers = now;
      look();
    },
    { passive: false },
  );
  for (const end of ["touchend", "touchcancel"]) {
    holder.addEventListener(end, () => {
      if (fingers) redraw();
      fingers = null;
    });
  }
  holder.addEventListener("keydown", ({ key }) => {
    const step = { ArrowLeft: [-60, 0], ArrowRight: [60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] }[key];
    if (step) centre = [centre[0] + step[0] * scale, centre[1] + step[1] * scale];
    if (step) look();
    else if (key === "+" || key === "-") view.enlarge(key === "+" ? 1 : -1);
  });

  const view = {
    missed: () => Math.ceil(FINGER_PX * scale),
    drawing: () => drawing,
    at({ clientX, clientY }) {
      const at = new DOMPoint(clientX, clientY).matrixTransform(/** @type {any} */ (drawing).getScreenCTM().inverse());
      return [Math.round(at.x), Math.round(-at.y)];
    },
    /** Have `show` called with the drawing and its scale now, and after it was drawn again. */
    mark(what, show) {
      marks.set(what, show);
      show(drawing, scale);
    },
    enlarge(by) {
      scale *= STEP ** -by;
      redraw();
    },
    centre(point, at = scale) {
      [centre, scale] = [point, at];
      redraw();
    },
  };
  return view;
}
