/** Cautions that stand in a form only while what is typed calls for them: a hole is made, or it hangs overhead. */

/**
 * Keep them in step with what is chosen; each stands below the field it turns on.
 * @param {HTMLFormElement} form
 */
export function mindWhileTyping(form) {
  /** @type {NodeListOf<HTMLElement>} */
  const notes = form.querySelectorAll("[data-minded]");
  for (const note of notes) {
    /** @type {any} */
    const field = form.elements.namedItem(note.dataset.minded === "hole" ? "hole" : "face");
    field?.closest(".input")?.after(note);
  }
  const tell = () => {
    for (const note of notes) note.hidden = !calledFor(note, (name) => form.elements.namedItem(name)?.["value"] ?? "");
  };
  form.addEventListener("input", tell);
  tell();
}

function calledFor({ dataset }, value) {
  if (dataset.minded === "overhead") return dataset.of.split(" ").includes(value("face"));
  return value("fabric") !== "another fitting" && (value("hole") === "new" || dataset.of.split("|").includes(value("sort")));
}
