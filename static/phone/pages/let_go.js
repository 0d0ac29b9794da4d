/** Telling that something was taken out of the book and has gone from this phone, until somebody has read it. */

/**
 * @param {any} context
 * @param {(about: string, words: string, button: string, act: () => void) => void} notice
 * @param {(about: string) => void} unsay
 */
export function showLetGo({ notebook }, notice, unsay) {
  if (!notebook.facts.letGo) return;
  const words = "Somebody asked to be forgotten: a name, a signature or a photograph was taken out of the book at the laptop, and has gone from this phone as well. Clear it from the phone’s own gallery too, if it is there.";
  notice("let-go", words, "Understood", () => {
    unsay("let-go");
    notebook.choose({ letGo: undefined });
  });
}
