/** What answers to typing, done once the key is on the screen: no key waits for it, and no answer outlives its figures. */

const HIDDEN_MS = 100; // a page that is not looked at gets no pictures

/**
 * @param {() => Iterator<unknown>} answer  gives way at each `yield`, so that a key may come between
 * @returns {{now: () => void, later: () => Promise<void>, finish: () => void}}  `later` begins after the next picture, in
 *   place of what was not finished; `finish` does at once what is still open, before somebody relies on it
 */
export function afterKey(answer) {
  /** @type {Iterator<unknown>|null} */
  let open = null;
  const finish = () => {
    const rest = open;
    open = null;
    while (rest && !rest.next().done);
  };
  return {
    finish,
    now() {
      open = answer();
      finish();
    },
    async later() {
      const mine = (open = answer());
      await picture();
      while (open === mine) {
        if (mine.next().done) open = null;
        else await turn();
      }
    },
  };
}

/** Wait until what has changed by now is on the screen. */
function picture() {
  return new Promise((go) => {
    requestAnimationFrame(() => setTimeout(go));
    setTimeout(go, HIDDEN_MS);
  });
}

/** Let whatever waits, such as a key, have its turn. */
function turn() {
  return new Promise((go) => setTimeout(go));
}
