/** A photograph from the same place: the one before lies faintly over what the camera sees. */

import { filled, made, slot, wire } from "./markup.js";
import { showPicture } from "./parts.js";
import { enterPhotographs } from "./taking.js";

const QUALITY = 0.92;
const WANTED = { video: { facingMode: "environment", width: { ideal: 2560 } }, audio: false };

/**
 * Open the camera on a page; what is taken is entered at once. Without a camera in the page, the phone's own is used.
 * @param {import("../book/registry.js").Context} context
 * @param {HTMLElement} body  of the page
 * @param {import("../book/site.js").Item} subject
 * @param {{before: import("../book/site.js").Item|undefined, purpose: string}} about
 */
export async function openGuide(context, body, subject, { before, purpose }) {
  const stream = await navigator.mediaDevices?.getUserMedia(WANTED).catch(() => null); // refused, or none there
  if (!stream) return withThePhones(context, body, subject, purpose);
  const part = filled("guide-page", {});
  const video = /** @type {HTMLVideoElement} */ (slot(part, "video"));
  video.srcObject = stream;
  if (before) showPicture(slot(part, "before"), before.values.sha256, true);
  else slot(part, "before").remove();
  const close = () => {
    for (const track of stream.getTracks()) track.stop();
    part.remove();
  };
  wire(part, {
    close,
    async take() {
      const file = await frameOf(video);
      if (file && (await enterPhotographs(context, subject, [file], undefined, purpose))) close();
    },
  });
  addEventListener("hashchange", close, { once: true });
  body.prepend(part);
  part.scrollIntoView();
  return undefined;
}

/** The phone's own camera instead. */
function withThePhones(context, body, subject, purpose) {
  const input = /** @type {HTMLInputElement} */ (made("shutter"));
  input.addEventListener("change", async () => {
    await enterPhotographs(context, subject, [...input.files], undefined, purpose);
    input.remove();
  });
  body.append(input);
  input.click();
}

/** What the camera shows now, as a file; null before it shows anything. */
async function frameOf(video) {
  if (!video.videoWidth) return null;
  const canvas = Object.assign(document.createElement("canvas"), { width: video.videoWidth, height: video.videoHeight });
  canvas.getContext("2d").drawImage(video, 0, 0);
  const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", QUALITY));
  return new File([blob], "photograph.jpg", { type: "image/jpeg" });
}
