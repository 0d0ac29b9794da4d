/** Keeping the screen from going dark while work is under way, where the phone lets an app ask for that. */

/** Ask for it; returns what ends it. */
export function stayAwake() {
  let [over, lock] = [false, /** @type {any} */ (null)];
  const ask = async () => {
    if (over || document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
    lock = await navigator.wakeLock.request("screen").catch(() => null); // a phone low on power says no
    if (over) lock?.release();
  };
  document.addEventListener("visibilitychange", ask); // the phone takes it away whenever the app is put away
  ask();
  return () => {
    over = true;
    document.removeEventListener("visibilitychange", ask);
    lock?.release();
  };
}
