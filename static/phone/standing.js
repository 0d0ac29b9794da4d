/** What stands over the page: the page makes room for it, so that nothing ends under it. */

/** @typedef {"--bar"|"--thumb"} Height  a property of the style sheet */

/** Make the page's room as high as an element is now. */
export function makeRoom(/** @type {HTMLElement} */ element, /** @type {Height} */ name) {
  for (const { style } of [document.documentElement, document.body]) style.setProperty(name, `${element.offsetHeight}px`);
}

/** Keep the page's room as high as an element is; 0 once it is gone. */
export function tellHeight(/** @type {HTMLElement} */ element, /** @type {Height} */ name) {
  new ResizeObserver(() => makeRoom(element, name)).observe(element);
}

/** Of what is longer than the screen and moved sideways, keep the end in sight. */
export function stayAtEnd(/** @type {HTMLElement} */ element) {
  const move = () => {
    element.scrollLeft = element.scrollWidth;
  };
  new ResizeObserver(move).observe(element);
  new MutationObserver(move).observe(element, { childList: true });
}
