/** A drawing in its panel, made larger and smaller by buttons, keys and the wheel; what lies under the pointer stays there. */

const STEP = 1.25;
const LARGEST = 8;
const KEYS = { "+": STEP, "=": STEP, "-": 1 / STEP, 0: 0 };

/**
 * @param {HTMLElement} panel  scrolls, and can be focused
 * @param {SVGSVGElement} svg
 * @param {HTMLElement} tools  holds buttons with `data-zoom`: what the size is multiplied by, 0 for all of it
 */
export function zoom(panel, svg, tools) {
  let size = 1;
  const to = (by, at = middleOf(panel)) => {
    const box = svg.getBoundingClientRect();
    const share = { x: (at.clientX - box.left) / box.width, y: (at.clientY - box.top) / box.height };
    size = by ? Math.min(LARGEST, Math.max(1, size * by)) : 1;
    svg.style.width = `${size * 100}%`;
    const now = svg.getBoundingClientRect();
    panel.scrollLeft += now.left + share.x * now.width - at.clientX;
    panel.scrollTop += now.top + share.y * now.height - at.clientY;
    panel.dataset.size = size.toFixed(2);
  };
  tools.hidden = false;
  tools.addEventListener("click", (event) => {
    const button = /** @type {Element} */ (event.target).closest("[data-zoom]");
    if (button) to(Number(/** @type {HTMLElement} */ (button).dataset.zoom));
  });
  panel.addEventListener("keydown", (event) => {
    if (!(event.key in KEYS) || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    to(KEYS[event.key]);
  });
  // The page scrolls as ever until the drawing is meant: it was clicked, or the key for it is held.
  panel.addEventListener("wheel", (event) => zoomed(event) && to(event.deltaY < 0 ? STEP : 1 / STEP, event), { passive: false });

  function zoomed(event) {
    const meant = event.ctrlKey || panel.contains(document.activeElement);
    const room = event.deltaY < 0 ? size < LARGEST : size > 1;
    if (meant && room) event.preventDefault();
    return meant && room;
  }
}

function middleOf(panel) {
  const box = panel.getBoundingClientRect();
  return { clientX: box.left + box.width / 2, clientY: box.top + box.height / 2 };
}
