/** A room's four walls, each entered by one touch: its mark, its name and what sort of face it is. */

import { filled, slot, wire } from "./markup.js";

const WALLS = ["North wall", "East wall", "South wall", "West wall"];

/**
 * Offer those that are not there yet at the head of the form of a new face.
 * @param {any} state  of the form
 * @param {() => void} begin  what is to follow once one was chosen
 */
export function addWalls({ context, about, body, form }, begin) {
  const { site } = context.notebook;
  const room = site.get(about.values.room);
  if (room?.kind !== "room") return;
  const markOf = (/** @type {string} */ name) => (room.values.mark ? `${room.values.mark}-${name[0]}` : "");
  const there = site.of(room, "face").map(({ values }) => values);
  const isThere = (/** @type {string} */ wall) => there.some(({ mark, name }) => name.startsWith(wall) || (mark && mark === markOf(wall)));
  const buttons = WALLS.filter((name) => !isThere(name)).map((name) => filled("wall", { name }));
  if (!buttons.length) return;
  const part = filled("walls", { walls: buttons });
  wire(part, {
    wall: (_, pressed) => {
      const name = pressed.textContent.trim();
      const mark = markOf(name) || form.elements.mark.value;
      for (const [field, value] of Object.entries({ mark, name, sort: "wall" })) form.elements[field].value = value;
      form.dispatchEvent(new Event("input", { bubbles: true }));
      begin();
    },
  });
  slot(body, "before").append(part);
}
