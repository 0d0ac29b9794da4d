/** Before and after: the later photograph over the earlier, as much of it as a slider lets through. */

document.documentElement.classList.add("scripted");
const pair = /** @type {HTMLElement} */ (document.querySelector("[data-pair]"));
if (pair) begin();

function begin() {
  const slider = Object.assign(document.createElement("input"), { type: "range", min: "0", max: "100", value: "50", id: "share" });
  const label = Object.assign(document.createElement("label"), { htmlFor: "share", textContent: "Left of it before, right of it after" });
  const beside = Object.assign(document.createElement("button"), { type: "button", textContent: "Side by side" });
  const tools = document.createElement("p");
  tools.className = "sliding";
  tools.append(label, slider, beside);
  pair.before(tools);
  const show = () => pair.style.setProperty("--share", `${slider.value}%`);
  const lay = (laid) => {
    pair.classList.toggle("laid", laid);
    beside.textContent = laid ? "Side by side" : "Over each other";
    slider.disabled = !laid;
  };
  slider.addEventListener("input", show);
  beside.addEventListener("click", () => lay(!pair.classList.contains("laid")));
  pair.addEventListener("click", (event) => event.target instanceof HTMLImageElement && place(event, event.target));
  show();
  lay(true);
}

/** The place that was clicked goes along with a new observation. */
function place({ offsetX, offsetY }, image) {
  const { left, top, wide, high } = Object.fromEntries(Object.entries(pair.dataset).map(([name, text]) => [name, Number(text)]));
  const x = String(Math.round(left + (offsetX / image.clientWidth) * wide));
  const z = String(Math.round(top - (offsetY / image.clientHeight) * high));
  const link = /** @type {HTMLAnchorElement} */ (document.querySelector("[data-change]"));
  const address = new URL(link.href);
  address.searchParams.set("x_mm", x);
  address.searchParams.set("z_mm", z);
  link.href = address.href;
  document.querySelector("[data-place]").textContent = `x ${x}, z ${z} mm goes into the entry.`;
}
