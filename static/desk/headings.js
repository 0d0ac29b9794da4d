/** The headings of a logger's file or pasted table, offered where the form asks for them. */

const FIRST_BYTES = 20_000;
const DELIMITERS = [",", ";", "\t", "|"];

/**
 * The cells of the line that looks most like a header: the one with the most of them.
 * @param {string} text  the beginning of a file
 * @returns {string[]}
 */
export function headingsIn(text) {
  const lines = text.split(/\r?\n/).slice(0, -1);
  const cut = lines.flatMap((line) => DELIMITERS.map((delimiter) => line.split(delimiter)));
  const longest = cut.reduce((best, cells) => (cells.length > best.length ? cells : best), []);
  return longest.map((cell) => cell.trim().replace(/^"|"$/g, "").replace(/^\ufeff/, "")).filter(Boolean);
}

const files = /** @type {HTMLInputElement|null} */ (document.querySelector("#files"));
const list = document.querySelector("#headings");
for (const input of document.querySelectorAll("[name$=_column]")) input.setAttribute("list", "headings");

/** @param {string} text  the beginning of what is to be read */
function offer(text) {
  const options = headingsIn(text).map((heading) => Object.assign(document.createElement("option"), { value: heading }));
  list.replaceChildren(...options);
}

files?.addEventListener("change", async () => offer((await files.files[0]?.slice(0, FIRST_BYTES).text()) ?? ""));
const pasted = /** @type {HTMLTextAreaElement|null} */ (document.querySelector("#pasted"));
pasted?.addEventListener("input", () => offer(`${pasted.value.slice(0, FIRST_BYTES)}\n`));
