/** Sentences that were entered before in the same field are offered under it, at the desk too: chosen, then changed where they differ. */

/**
 * @param {HTMLTextAreaElement} area
 * @param {string[]} sentences  the latest first
 */
export function offerSaid(area, sentences) {
  if (!sentences.length) return;
  const list = Object.assign(document.createElement("select"), { className: "said-before" });
  list.setAttribute("aria-label", `${area.labels[0]?.firstChild?.textContent.trim() ?? area.name}: take what was said before`);
  list.append(new Option("As said before…", ""), ...sentences.map((one) => new Option(one, one)));
  area.after(list);
  list.addEventListener("input", (event) => event.stopPropagation()); // what is typed is the text
  list.addEventListener("change", (event) => {
    event.stopPropagation();
    const before = area.value.trimEnd();
    area.value = before ? `${before}\n${list.value}` : list.value;
    list.value = "";
    area.dispatchEvent(new Event("input", { bubbles: true }));
    area.focus();
  });
}
