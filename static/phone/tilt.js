/** How far a face leans, from the phone's own sensor: its back is held flat on the face. */

import { Refusal } from "../checks/refusal.js";

// What a phone's sensor may be wrong by that nobody has calibrated: common practice, no source.
export const UNCERTAIN_DEG = 1;
const SAMPLES = 20;
const PATIENCE_MS = 3_000;
const STILL_DEG = 1;
const RAD = Math.PI / 180;

/**
 * How far the face behind a phone leans over: 0 upright, 90 overhead, -90 a floor.
 * @param {number} beta  degrees, turned about the screen's short edge, as W3C's Device Orientation Events has it
 * @param {number} gamma  degrees, about its long edge
 */
export function leanOf(beta, gamma) {
  return -Math.asin(Math.cos(beta * RAD) * Math.cos(gamma * RAD)) / RAD;
}

/** Whether this phone may have such a sensor. */
export function hasTilt() {
  return "DeviceOrientationEvent" in window;
}

/**
 * The mean of a second's readings, degrees.
 * @returns {Promise<number>}
 * @throws {Refusal} no-sensor, not-still
 */
export async function measureLean() {
  const { requestPermission } = /** @type {any} */ (DeviceOrientationEvent);
  const may = requestPermission ? await requestPermission().catch(() => "denied") : "granted";
  if (may !== "granted") throw refusal("no-sensor", "This phone does not let the app ask its sensor.", "Measure with a level, and type the figure.");
  const leans = await readings();
  if (leans.length < SAMPLES) throw refusal("no-sensor", "This phone does not say how it leans.", "Measure with a level, and type the figure.");
  if (Math.max(...leans) - Math.min(...leans) > STILL_DEG) throw refusal("not-still", "The phone was not held still.", "Hold its back flat on the face, and measure again.");
  return leans.reduce((sum, lean) => sum + lean, 0) / leans.length;
}

/** @returns {Promise<number[]>} */
function readings() {
  return new Promise((done) => {
    const leans = [];
    const end = () => {
      removeEventListener("deviceorientation", hear);
      clearTimeout(timer);
      done(leans);
    };
    const hear = (/** @type {DeviceOrientationEvent} */ { beta, gamma }) => {
      if (beta === null || gamma === null) return;
      leans.push(leanOf(beta, gamma));
      if (leans.length === SAMPLES) end();
    };
    const timer = setTimeout(end, PATIENCE_MS);
    addEventListener("deviceorientation", hear);
  });
}

function refusal(code, reason, remedy) {
  return new Refusal(code, reason, remedy, { field: "slope_deg" });
}
