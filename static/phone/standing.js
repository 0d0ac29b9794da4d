/** What stands over the page: the page makes room for it, so that nothing ends under it. */

/**
 * Keep a property of the style sheet at the height of an element, 0 once it is gone.
 * @param {HTMLElement} element
 * @param {"--bar"|"--thumb"} name
 */
export function tellHeight(element, name) {
  new ResizeObserver(() => document.documentElement.style.setProperty(name, `${element.offsetHeight}px`)).observe(element);
}

/** Of what is longer than the screen and moved sideways, keep the end in sight. */
export function stayAtEnd(/** @type {HTMLElement} */ element) {
  const move = () => {
    element.scrollLeft = element.scrollWidth;
  };
  new ResizeObserver(move).observe(element);
  new MutationObserver(move).observe(element, { childList: true });
}
