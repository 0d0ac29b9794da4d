/** Before the app may record: on the home screen, under the book's one address, and joined with a code. */

import { ErrorAnswer, NoAnswer, hello, join } from "../sync/channel.js";
import { writeFacts } from "../store/facts.js";
import { filled, made, slot, wire } from "./markup.js";

const COOKIE = "fieldbook-";

/**
 * What must come before anything else; null when nothing must.
 * @param {import("../book/registry.js").Context} context
 * @returns {Promise<object|null>} a view
 */
export async function gate(context) {
  if (inABrowserThatForgets()) return { title: "Install", body: made("install"), actions: [] };
  const { facts, joined } = context.notebook;
  if (joined) {
    remember(facts.book);
    return null;
  }
  const book = await bookHere();
  const first = book && remembered(book);
  if (first && first !== location.origin) return secondAddress(context, book, first);
  if (book && !first && !atHome()) return otherAddress(context, book);
  return joinPage(context);
}

/** The book that answers under this address; null while none does. */
async function bookHere() {
  try {
    return (await hello({})).book;
  } catch (error) {
    if (!(error instanceof NoAnswer) && !(error instanceof ErrorAnswer)) throw error;
    return null;
  }
}

export function joinPage(context) {
  const { notebook } = context;
  const body = filled("join", {});
  const form = slot(body, "form");
  form.elements.name.value = notebook.facts.name ?? calledByItself();
  form.elements.code.value = notebook.facts.device ? "" : (codeBrought() ?? "");
  slot(body, "cable").hidden = location.hostname !== "localhost";
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    ask(context, body, form);
  });
  return { title: "Join", body, actions: notebook.joined ? [{ words: "Back", act: () => history.back() }] : [] };
}

/** The code that came with the address, as the square at the desk carries it. */
export function codeBrought() {
  return new URLSearchParams(location.search).get("join");
}

function calledByItself() {
  if (/iPhone|iPad/.test(navigator.userAgent)) return "iPhone";
  return navigator.userAgent.includes("Android") ? "Android phone" : "";
}

/** What is put on the home screen begins with the code too, since it does not share this page's store everywhere. */
export function carryCodeHome() {
  const code = codeBrought();
  const manifest = /** @type {HTMLLinkElement|null} */ (document.querySelector("link[rel=manifest]"));
  if (code && manifest) manifest.href = `/phone/join-${encodeURIComponent(code)}.webmanifest`;
}

async function ask(context, body, form) {
  const { notebook } = context;
  const refused = slot(body, "refused");
  refused.hidden = true;
  const code = form.elements.code.value.trim().toUpperCase();
  try {
    const { book, epoch, device, token } = await join(code, form.elements.name.value.trim(), notebook.facts.device ?? null);
    if (notebook.facts.book && notebook.facts.book !== book) throw new NoAnswer("This is another book than the one whose entries are on this phone.");
    await writeFacts({ book, device, token, name: form.elements.name.value.trim(), ...(notebook.facts.epoch ? {} : { epoch, cursor: 0 }) });
    remember(book);
    await notebook.load();
    await context.go("#/");
    context.say("This phone has joined.");
    await context.runner.run({ byHand: true });
    context.refresh();
  } catch (error) {
    if (!(error instanceof ErrorAnswer) && !(error instanceof NoAnswer)) return context.fail(error);
    refused.hidden = false;
    refused.textContent = error.message;
    refused.focus();
  }
  return undefined;
}

function secondAddress(context, book, first) {
  const body = filled("second-address", { first });
  slot(body, "first").href = `${first}/phone/`;
  wire(body, {
    forget() {
      remember(book);
      context.refresh();
    },
  });
  return { title: "Second address", body, actions: [] };
}

function otherAddress(context, book) {
  const own = document.body.dataset.address;
  const body = filled("other-address", { own });
  slot(body, "own").href = own;
  wire(body, {
    stay() {
      remember(book);
      context.refresh();
    },
  });
  return { title: "Another address", body, actions: [] };
}

/** Whether this is the book's own address, or the laptop itself, or a book without one. */
function atHome() {
  const { address } = document.body.dataset;
  return !address || new URL(address).origin === location.origin || ["localhost", "127.0.0.1"].includes(location.hostname);
}

/** Safari clears a page's store after a week without it; what is on the home screen keeps its own. */
function inABrowserThatForgets() {
  return /** @type {Navigator & {standalone?: boolean}} */ (navigator).standalone === false && navigator.maxTouchPoints > 1;
}

/** A cookie is seen under every port of a host, unlike the store: it tells of the address a book was opened under. */
function remember(book) {
  document.cookie = `${COOKIE}${book}=${encodeURIComponent(location.origin)}; path=/phone/; max-age=315360000; SameSite=Strict`;
}

function remembered(book) {
  const found = document.cookie.split("; ").find((pair) => pair.startsWith(`${COOKIE}${book}=`));
  return found ? decodeURIComponent(found.split("=")[1]) : null;
}
