"use strict";

// The page is a window on the open job: a form posts a change, and what is new comes back as fragments.
let version = Number(document.body.dataset.version || 0);
let asked = 0; // changes asked for, so that an older answer doesn't overwrite a newer one

const words = text => { document.getElementById("words").textContent = text || ""; };

// show puts what is new into the page; focus and selection stay where they were.
function show(answer) {
  if (answer.reload) { location.assign("/"); return; }
  if (answer.v < version) return;
  version = answer.v || version;
  for (const [id, html] of Object.entries(answer.fragments || {})) {
    const old = document.getElementById(id);
    const active = old.contains(document.activeElement) ? document.activeElement : null;
    const key = active && active.dataset.key;
    const from = active && active.selectionStart, to = active && active.selectionEnd;
    old.outerHTML = html;
    const again = key && document.querySelector(`#${id} [data-key="${CSS.escape(key)}"]`);
    if (!again) continue;
    again.focus({ preventScroll: true });
    if (typeof from === "number" && again.setSelectionRange) again.setSelectionRange(from, to);
  }
}

async function ask(path, options) {
  try {
    return await fetch(path, options);
  } catch {
    words("rodsheet has stopped; start it again. What you typed stays on this page.");
    return null;
  }
}

async function post(path, fields) {
  const mine = ++asked;
  const response = await ask(path, {
    method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(fields),
  });
  if (!response) return;
  const answer = await response.json();
  if (mine === asked || answer.error) words(answer.error || answer.words);
  show(answer);
}

function fieldsOf(form) {
  const fields = document.body.dataset.version ? { v: version } : {};
  for (const e of form.elements) {
    if (!e.name) continue;
    fields[e.name] = "number" in e.dataset ? Number(e.value) : "truth" in e.dataset ? e.value === "true" : e.value;
  }
  return fields;
}

document.addEventListener("submit", event => {
  const path = event.target.dataset.post;
  if (!path) return;
  event.preventDefault();
  post(path, fieldsOf(event.target));
});

document.addEventListener("change", async event => {
  const path = event.target.dataset.drop;
  if (!path || !event.target.files.length) return;
  const file = event.target.files[0];
  const response = await ask(`${path}?name=${encodeURIComponent(file.name)}`, { method: "POST", body: file });
  if (!response) return;
  const answer = await response.json();
  words(answer.error);
  show(answer);
});

async function look() {
  if (document.hidden || !document.body.dataset.version) return;
  const response = await ask(`/since?v=${version}`);
  if (response && response.status === 200) show(await response.json());
}

setInterval(look, 2000);
document.addEventListener("visibilitychange", look);
