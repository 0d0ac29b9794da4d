/** Boxes of a long list, ticked by the marks of what they are, at the desk too: "D1, D4 to D7". */

const FEWEST = 8;

/**
 * The marks that a text names; "to" between two leads through those that count on.
 * @param {string} text
 * @returns {string[]}
 */
export function marksIn(text) {
  const whole = text.replaceAll(/\s*(?:–|\s+to\s+)\s*/gi, "–").split(/[,;\s]+/).filter(Boolean);
  return whole.flatMap((word) => {
    const [first, last] = word.split("–").map((mark) => /^(.*?)(\d+)$/.exec(mark));
    const number = last ? Number(last[2]) - Number(first?.[2]) : NaN;
    if (!last || first?.[1] !== last[1] || !(number >= 0 && number < 500)) return [word];
    return Array.from({ length: number + 1 }, (_, at) => first[1] + String(Number(first[2]) + at).padStart(first[2].length, "0"));
  });
}

/** @param {HTMLElement} form */
export function tickByMarks(form) {
  /** @type {NodeListOf<HTMLElement>} */
  const lists = form.querySelectorAll("fieldset[data-marked-boxes]");
  for (const list of lists) if (list.querySelectorAll("input[type=checkbox]").length >= FEWEST) offerMarks(list);
}

/** An input above the boxes; what it could not tick stays in it, and is told. */
function offerMarks(list) {
  /** @type {HTMLInputElement[]} */
  const boxes = [...list.querySelectorAll("input[type=checkbox]")];
  const label = Object.assign(document.createElement("label"), { className: "by-marks", textContent: "Tick by their marks, as D1, D4 to D7" });
  const input = Object.assign(document.createElement("input"), { autocomplete: "off", dir: "auto" });
  const told = Object.assign(document.createElement("p"), { className: "help" });
  told.setAttribute("role", "status");
  label.append(input);
  list.querySelector("details, .boxes").before(label, told);
  input.addEventListener("change", () => {
    const ticked = [], left = [];
    for (const mark of marksIn(input.value)) {
      const meant = boxes.filter((box) => isCalled(box.closest("label").textContent.trim(), mark));
      (meant.length === 1 ? ticked : left).push(mark);
      if (meant.length !== 1) continue;
      meant[0].checked = true;
      meant[0].closest("details")?.setAttribute("open", "");
    }
    input.value = left.join(" ");
    told.textContent = [ticked.length ? `Ticked: ${ticked.join(", ")}.` : "", left.length ? `Nothing, or more than one, is called ${left.join(", ")}.` : ""].join(" ").trim();
    for (const told of ["input", "change"]) boxes[0].dispatchEvent(new Event(told, { bubbles: true }));
  });
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    input.dispatchEvent(new Event("change", { bubbles: true }));
  });
}

function isCalled(words, mark) {
  const [whole, begin] = [words.toLowerCase(), mark.toLowerCase()];
  return whole === begin || whole.startsWith(`${begin} `);
}
