/** Telling that the laptop's book is not the one this phone knew, until somebody has read it. */

/**
 * @param {any} context
 * @param {(about: string, words: string, button: string, act: () => void) => void} notice
 */
export function showRestored({ notebook }, notice) {
  const told = () => document.querySelector("#notices [data-about=restored]");
  const { restored } = notebook.facts;
  if (!restored || told()) return;
  const others = restored.others ? ` Among them are ${restored.others} that others made.` : "";
  const words = `The laptop’s book was restored, or put back from a copy: this phone knew ${restored.known} of its entries, and it has the first ${restored.shared} of them as they were. What this phone still has goes up again.${others}`;
  notice("restored", words, "Understood", () => {
    told()?.remove();
    notebook.choose({ restored: undefined });
  });
}
