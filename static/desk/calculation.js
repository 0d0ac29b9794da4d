/** The page of a calculation: tables typed as text are offered as cells, and what is to be mended comes first. */

import { offerCells } from "./rows.js";

document.documentElement.classList.add("scripted");
document.querySelector("#refused")?.focus();
for (const text of document.querySelectorAll("form.entry textarea[data-columns]")) offerCells(text);
