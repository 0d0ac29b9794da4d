/** A room's four walls, each entered by one touch: its mark, its name and what sort of face it is. */

import { filled, slot, wire } from "./markup.js";

const WALLS = ["North wall", "East wall", "South wall", "West wall"];

/** Those that are not there yet, by name, with the mark each would have; "" where the room has none. */
export function wallsLacking(site, room) {
  const there = site.of(room, "face").map(({ values }) => values);
  const all = WALLS.map((name) => ({ name, mark: room.values.mark ? `${room.values.mark}-${name[0]}` : "" }));
  return all.filter((wall) => !there.some(({ mark, name }) => name.startsWith(wall.name) || (mark && mark === wall.mark)));
}

/**
 * Offer those that are not there yet at the head of the form of a new face.
 * @param {any} state  of the form
 * @param {() => void} begin  what is to follow once one was chosen
 */
export function addWalls({ context, about, body, form }, begin) {
  const { site } = context.notebook;
  const room = site.get(about.values.room);
  if (room?.kind !== "room") return;
  const lacking = wallsLacking(site, room);
  const buttons = lacking.map(({ name }) => filled("wall", { name }));
  if (!buttons.length) return;
  const part = filled("walls", { walls: buttons });
  wire(part, {
    wall: (_, pressed) => {
      const { name, mark: usual } = lacking[buttons.indexOf(pressed.closest("[data-do=wall]"))];
      const mark = usual || form.elements.mark.value;
      for (const [field, value] of Object.entries({ mark, name, sort: "wall" })) form.elements[field].value = value;
      form.dispatchEvent(new Event("input", { bubbles: true }));
      begin();
    },
  });
  slot(body, "before").append(part);
}
