/** A long page: its headings stand on top to jump to, what is longer than a screen folds, and stays as it was left. */

const LONG = 3; // screens; a shorter page is left as it is
const FEWEST = 3;
const NARROW = matchMedia("(max-width: 40rem)").matches;
const FOLDED_ABOVE = NARROW ? 1.5 : 8; // screens; what is longer is folded until somebody opens it
const KEPT = "folded";

const main = document.querySelector("main");
const screens = (/** @type {Element} */ part) => part.getBoundingClientRect().height / innerHeight;
const there = location.pathname.split("/").filter((part) => part && !/^[0-9a-f]{8}-/.test(part)).join("/");

if (screens(main) > LONG) begin();

function begin() {
  const sections = [...main.querySelectorAll("section[aria-labelledby] > :is(h2, h3):first-child")];
  for (const heading of sections) if (screens(heading.parentElement) > 1) fold(heading);
  const groups = main.querySelectorAll("form.entry > fieldset.group > legend, form.entry > details.group > summary");
  const headings = /** @type {HTMLElement[]} */ ([...sections, ...groups].filter((one) => one.getClientRects().length));
  headings.forEach((heading, at) => (heading.id ||= `part-${at + 1}`));
  if (headings.length >= FEWEST) showJumps(headings);
  addEventListener("hashchange", openWhereItLeads);
  addEventListener("beforeprint", () => main.querySelectorAll("details.part:not([open])").forEach((part) => (/** @type {any} */ (part).open = true)));
  openWhereItLeads();
}

/** Fold what stands under a heading. */
function fold(heading) {
  const section = heading.parentElement;
  const name = `${there}#${heading.id}`;
  const part = document.createElement("details");
  part.className = "part";
  part.open = kept()[name] ?? ("open" in section.dataset || screens(section) <= FOLDED_ABOVE);
  const summary = document.createElement("summary");
  const rest = [...section.childNodes].filter((node) => node !== heading);
  summary.append(heading);
  part.append(summary, ...rest);
  section.append(part);
  summary.addEventListener("click", () => keep({ ...kept(), [name]: !part.open }));
}

/** The headings in one line that stays in sight; the one that is being read is marked. */
function showJumps(headings) {
  const nav = document.createElement("nav");
  nav.className = "jumps";
  nav.setAttribute("aria-label", "On this page");
  const list = nav.appendChild(document.createElement("ul"));
  const links = headings.map((heading) => {
    const link = Object.assign(document.createElement("a"), { href: `#${heading.id}`, textContent: heading.textContent.trim() });
    link.addEventListener("click", () => open(heading));
    list.appendChild(document.createElement("li")).append(link);
    return link;
  });
  /** @type {Element} */
  let title = main.querySelector("h1");
  while (title.parentElement !== main) title = title.parentElement;
  title.after(nav);
  const look = () => {
    const under = nav.getBoundingClientRect().bottom + innerHeight / 4;
    const tops = headings.map((heading) => heading.getBoundingClientRect().top);
    const at = tops.indexOf(tops.findLast((top) => top < under)); // of those side by side the first
    links.forEach((link, number) => (number === at ? link.setAttribute("aria-current", "true") : link.removeAttribute("aria-current")));
    if (at >= 0) list.scrollLeft = links[at].offsetLeft - list.offsetLeft - list.clientWidth / 3;
  };
  addEventListener("scroll", () => requestAnimationFrame(look), { passive: true });
  look();
}

function openWhereItLeads() {
  const target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!target || !main.contains(target) || !open(target)) return;
  target.scrollIntoView();
}

/** Open what something is folded under; tells whether it was shut. */
function open(target) {
  const shut = /** @type {HTMLDetailsElement|null} */ (target.closest("details:not([open])"));
  if (shut) shut.open = true;
  return Boolean(shut);
}

function kept() {
  try {
    return JSON.parse(localStorage.getItem(KEPT) ?? "{}");
  } catch {
    return {}; // kept by another program at this address, or storage is shut
  }
}

function keep(folded) {
  try {
    localStorage.setItem(KEPT, JSON.stringify(folded));
  } catch {
    // what is not kept is folded as at first the next time
  }
}
