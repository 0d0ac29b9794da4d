/** How far a record is, asked for every second until it is finished. */

const PAUSE_MS = 1000;
const area = document.querySelector("[data-progress]");

async function look() {
  const response = await fetch(location.href, { headers: { Accept: "application/json" } });
  const { share, words, finished } = await response.json();
  area.querySelector("[data-words]").textContent = words;
  area.querySelector("progress").value = share;
  return finished;
}

async function follow() {
  let finished = false;
  try {
    finished = await look();
  } catch {
    area.querySelector("[data-words]").textContent = "The server does not answer just now; trying again";
  }
  if (finished) location.reload();
  else setTimeout(follow, PAUSE_MS);
}

if (area) follow();
