/** The page of a calculation: tables typed as text are offered as cells, and what is to be mended comes first. */

import { offerCells } from "./rows.js";

document.documentElement.classList.add("scripted");
/** @type {HTMLElement|null} */ (document.querySelector("#refused"))?.focus();
/** @type {NodeListOf<HTMLTextAreaElement>} */
const texts = document.querySelectorAll("form.entry textarea[data-columns]");
for (const text of texts) offerCells(text);
