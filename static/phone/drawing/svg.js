/** Elements of a drawing. Only attributes, no styles, so that a strict content policy lets them through. */

const SPACE = "http://www.w3.org/2000/svg";

/**
 * @param {string} name
 * @param {Record<string, any>} attributes  those that are null are left out
 * @param {...(Node|string)} children
 * @returns {SVGElement}
 */
export function element(name, attributes = {}, ...children) {
  const made = document.createElementNS(SPACE, name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== null && value !== undefined) made.setAttribute(key, typeof value === "number" ? short(value) : value);
  }
  made.append(...children);
  return made;
}

/** A line of a class of the stylesheet, whose width does not grow with the drawing. */
export function path(d, className, more = {}) {
  return element("path", { d, class: className, "vector-effect": "non-scaling-stroke", ...more });
}

/** Path data through points. */
export function through(points, closed = false) {
  return `M${points.map(([x, y]) => `${short(x)} ${short(y)}`).join("L")}${closed ? "Z" : ""}`;
}

/** Words at a point. */
export function letters(words, [x, y], size, className = "", anchor = "start") {
  return element("text", { x, y, "font-size": size, class: `letters ${className}`, "text-anchor": anchor }, words);
}

function short(value) {
  return String(Math.round(value * 100) / 100);
}
