/**
 * Sees to it that the app opens: it runs before the app and needs nothing of it, so that it is here when that is not.
 * What does not come whole, or stands still, is loaded once more by itself, then told with the way out of it.
 */

const LONG_MS = 30_000; // several times what the largest book takes on a slow phone
const AGAIN = "fieldbook-opened-again";

const opening = document.getElementById("opening");

document.getElementById("app").addEventListener("error", () => {
  tell("Not all of the app has come to this phone. Load it again where the laptop can be reached.");
});

setTimeout(() => {
  const again = sessionStorage.getItem(AGAIN);
  sessionStorage.removeItem(AGAIN);
  if (!opening.isConnected) return;
  if (again) return tell("The book does not open. What was entered on this phone is kept. Load the app again, or close it and its other windows and open it.");
  sessionStorage.setItem(AGAIN, "1");
  location.reload();
}, LONG_MS);

/** Say it in the place of what was waited for; the app, should it open after all, puts its page there. */
function tell(words) {
  if (!opening.isConnected) return;
  opening.querySelector("p").textContent = words;
  opening.querySelector("button").hidden = false;
}

opening.querySelector("button").addEventListener("click", () => location.reload());
