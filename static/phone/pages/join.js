/** Before the app may record: on the home screen, under the book's one address, and joined with a code. */

import { join } from "../sync/channel.js";
import { Told, Unanswered } from "../sync/channel.js";
import { writeFacts } from "../store/facts.js";
import { fill, filled, made, slot, wire } from "./markup.js";

const COOKIE = "fieldbook-address";

/**
 * What must come before anything else; null when nothing must.
 * @param {object} context
 * @returns {object|null} a view
 */
export function gate(context) {
  if (inABrowserThatForgets()) return { title: "Install", body: made("install"), actions: [] };
  if (context.notebook.joined) {
    remember(location.origin);
    return null;
  }
  const first = remembered();
  if (first && first !== location.origin) return secondAddress(context, first);
  return joinPage(context);
}

export function joinPage(context) {
  const { notebook } = context;
  const body = filled("join", {});
  const form = slot(body, "form");
  form.elements.name.value = notebook.facts.name ?? "";
  const own = document.body.dataset.address;
  if (own && new URL(own).origin !== location.origin && !notebook.joined) {
    const note = made("own-address");
    fill(note, { own });
    slot(note, "own").href = own;
    body.append(note);
  }
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    ask(context, body, form);
  });
  return { title: "Join", body, actions: notebook.joined ? [{ words: "Back", act: () => history.back() }] : [] };
}

async function ask(context, body, form) {
  const { notebook } = context;
  const refused = slot(body, "refused");
  refused.hidden = true;
  const code = form.elements.code.value.trim().toUpperCase();
  try {
    const { book, epoch, device, token } = await join(code, form.elements.name.value.trim(), notebook.facts.device ?? null);
    if (notebook.facts.book && notebook.facts.book !== book) throw new Unanswered("This is another book than the one whose entries are on this phone.");
    await writeFacts({ book, device, token, name: form.elements.name.value.trim(), ...(notebook.facts.epoch ? {} : { epoch, cursor: 0 }) });
    remember(location.origin);
    await notebook.load();
    await context.go("#/");
    context.say("This phone has joined.");
    await context.runner.run({ byHand: true });
    context.refresh();
  } catch (error) {
    if (!(error instanceof Told) && !(error instanceof Unanswered)) return context.fail(error);
    refused.hidden = false;
    refused.textContent = error.message;
    refused.focus();
  }
  return undefined;
}

function secondAddress(context, first) {
  const body = filled("second-address", { first });
  slot(body, "first").href = `${first}/phone/`;
  wire(body, {
    forget() {
      remember(location.origin);
      context.refresh();
    },
  });
  return { title: "Second address", body, actions: [] };
}

/** Safari clears a page's store after a week without it; what is on the home screen keeps its own. */
function inABrowserThatForgets() {
  return navigator.standalone === false && navigator.maxTouchPoints > 1;
}

/** A cookie is seen under every port of a host, unlike the store: it tells of the address used first. */
function remember(origin) {
  document.cookie = `${COOKIE}=${encodeURIComponent(origin)}; path=/phone/; max-age=315360000; SameSite=Strict`;
}

function remembered() {
  const found = document.cookie.split("; ").find((pair) => pair.startsWith(`${COOKIE}=`));
  return found ? decodeURIComponent(found.slice(COOKIE.length + 1)) : null;
}
