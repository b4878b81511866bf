"use strict";

// The page is a window on the open job: a form posts a change, and what is new comes back as fragments.
let version = Number(document.body.dataset.version || 0);
let asked = 0; // changes asked for, so that an older answer doesn't overwrite a newer one

const words = text => { document.getElementById("words").textContent = text || ""; };

// show puts what is new into the page. Focus, selection, what is open and what is typed and not yet taken stay.
function show(answer) {
  if (answer.reload) { location.assign("/"); return; }
  if (answer.v < version) return;
  version = answer.v || version;
  for (const [id, html] of Object.entries(answer.fragments || {})) {
    const old = document.getElementById(id);
    const active = old.contains(document.activeElement) ? document.activeElement : null;
    const key = active && active.dataset.key;
    const from = active && active.selectionStart, to = active && active.selectionEnd;
    const opened = [...old.querySelectorAll("details[open][data-key], details[open] > summary[data-key]")].map(e => e.dataset.key);
    for (const e of old.querySelectorAll("[data-op]")) if (e.value !== e.dataset.was) typed.set(e.dataset.key, { refused: "", ...typed.get(e.dataset.key), value: e.value });
    old.outerHTML = html;
    const now = document.getElementById(id);
    for (const e of now.querySelectorAll("details[data-key], summary[data-key]")) {
      if (opened.includes(e.dataset.key)) e.closest("details").open = true;
    }
    for (const e of now.querySelectorAll("[data-op]")) restore(e);
    const again = key && now.querySelector(`[data-key="${CSS.escape(key)}"]`);
    if (!again) continue;
    again.focus({ preventScroll: true });
    if (typeof from === "number" && again.setSelectionRange) again.setSelectionRange(from, to);
  }
  if (answer.fragments && stage) afterShow();
}

// typed holds what stands in fields and isn't taken, by key, with the reason where it was refused.
const typed = new Map();

function restore(field) {
  const was = typed.get(field.dataset.key);
  if (!was) return;
  field.value = was.value;
  for (const old of field.parentElement.querySelectorAll(".refused")) old.remove();
  if (!was.refused) return;
  const why = document.createElement("p");
  why.className = "wrong refused";
  why.textContent = was.refused;
  field.parentElement.append(why);
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
  if (!response) return null;
  const answer = await response.json();
  if (mine === asked || answer.error) words(answer.error || answer.words);
  return answer;
}

// take asks for the edit of a field that was left with something new in it.
async function take(field) {
  const { key, op, path, was } = field.dataset, value = field.value;
  if (value === was) { typed.delete(key); return; }
  const answer = await post("/edit", op === "set" ? { v: version, op, path, was, value }
    : op === "choose" ? { v: version, op, path, field: value } : { v: version, op, path, value });
  if (!answer) return;
  const theirs = answer.conflict && ` You typed ${answer.conflict.yours}, it is now ${answer.conflict.theirs || "empty"}.`;
  if (answer.error) typed.set(key, { value, refused: answer.error + (theirs || "") });
  else if ((typed.get(key) || {}).value === value || !typed.has(key)) { typed.delete(key); field.dataset.was = value; }
  show(answer);
  const now = document.querySelector(`#measures [data-key="${CSS.escape(key)}"]`);
  if (answer.error && now) restore(now);
}

// preview shows what a value would make of the wall while it is typed.
let waiting = 0;
function preview(field) {
  clearTimeout(waiting);
  waiting = setTimeout(async () => {
    const mine = ++asked, { path, was } = field.dataset;
    const response = await ask("/preview", {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ v: version, op: "set", path, was, value: field.value }),
    });
    if (response && response.ok && mine === asked) show(await response.json());
  }, 120);
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
  post(path, fieldsOf(event.target)).then(answer => answer && show(answer));
});

document.addEventListener("change", event => {
  clearTimeout(waiting);
  if (event.target.dataset.op) take(event.target);
});
document.addEventListener("input", event => { if (event.target.dataset.op === "set") preview(event.target); });

document.addEventListener("keydown", event => {
  const e = event.target, key = event.key.toLowerCase(), command = event.ctrlKey || event.metaKey;
  if (key === "enter" && e.dataset.op && !e.matches("textarea")) {
    const all = [...document.querySelectorAll("#measures [data-op]")].filter(f => f.getClientRects().length);
    event.preventDefault();
    (all[all.indexOf(e) + 1] || e).focus();
  } else if (command && key === "s") {
    event.preventDefault();
    if (e.dataset.op) take(e).then(() => post("/save", { v: version })).then(answer => answer && show(answer));
    else post("/save", { v: version }).then(answer => answer && show(answer));
  } else if (command && (key === "z" || key === "y") && !e.matches("textarea[name=text]") && !(e.dataset.op && e.value !== e.dataset.was)) {
    event.preventDefault();
    post(key === "y" || event.shiftKey ? "/redo" : "/undo", { v: version }).then(answer => answer && show(answer));
  }
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

// The picture. Zoom lives on the stage: what is in it is replaced whole.
const stage = document.getElementById("stage");
let zoom = 1;
let chosen = ""; // the panel whose board is shown

// zoomTo makes the picture so many times as large as the stage; the place under x, y of the window stays there.
function zoomTo(times, x, y) {
  const walls = stage.querySelector(".walls");
  if (!walls) return;
  const was = walls.getBoundingClientRect();
  zoom = Math.min(24, Math.max(1, times));
  stage.style.setProperty("--zoom", zoom);
  sizeLetters();
  const now = walls.getBoundingClientRect();
  stage.scrollBy({
    left: now.left + (x - was.left) / was.width * now.width - x,
    top: now.top + (y - was.top) / was.height * now.height - y, behavior: "instant",
  });
}

// sizeLetters lets letters grow less than the picture.
function sizeLetters() {
  const svg = stage.querySelector(".walls > :not([hidden]) > svg");
  const scale = svg ? svg.getBoundingClientRect().height / svg.viewBox.baseVal.height : 4;
  stage.style.setProperty("--letters", Math.min(1, (4 / scale) ** 0.75).toFixed(3));
}

function zoomBy(times) {
  const room = stage.getBoundingClientRect();
  zoomTo(times ? zoom * times : 1, room.left + room.width / 2, room.top + room.height / 2);
}

// zoomOn shows a part of the picture as large as there is room for.
function zoomOn(part) {
  const room = stage.getBoundingClientRect();
  let box = part.getBoundingClientRect();
  zoomTo(zoom * 0.7 * Math.min(room.width / box.width, room.height / box.height), box.left + box.width / 2, box.top + box.height / 2);
  box = part.getBoundingClientRect();
  stage.scrollBy({
    left: box.left + box.width / 2 - room.left - room.width / 2,
    top: box.top + box.height / 2 - room.top - room.height / 2, behavior: "instant",
  });
}

// lookAt shows one wall, or all.
function lookAt(wall) {
  for (const e of stage.querySelectorAll("[data-wall]")) {
    e.hidden = e.matches(".sizer") ? e.dataset.wall !== wall : wall !== "all" && e.dataset.wall !== wall;
  }
}

const partOf = panel => stage.querySelector(`.panel[data-key="${CSS.escape(panel)}"]`);

async function showBoard(panel) {
  chosen = panel;
  for (const e of stage.querySelectorAll(".chosen")) e.classList.remove("chosen");
  const board = document.getElementById("board");
  document.getElementById("panel").value = panel;
  if (!panel || !partOf(panel)) { board.replaceChildren(); return; }
  partOf(panel).classList.add("chosen");
  const response = await ask(`/board?panel=${encodeURIComponent(panel)}`);
  if (response && response.ok && chosen === panel) board.innerHTML = await response.text();
}

// goTo opens the measure with a path, or the first below it.
function goTo(path) {
  const fields = [...document.querySelectorAll("#measures [data-key]")];
  for (let p = path; p; p = p.replace(/(\.|^)[^.[]*$|\[\d+\]$/, "")) {
    const field = fields.find(e => e.dataset.key === p) || fields.find(e => under(p, e.dataset.key));
    if (!field) continue;
    for (let e = field.parentElement; e; e = e.parentElement) if (e.matches("details")) e.open = true;
    field.focus();
    return;
  }
}

// under reports whether key is path or a part of it. A whole wall has nothing under it: all would be.
const under = (path, key) => key === path || key.startsWith(path) && ".[".includes(key[path.length]) && !/^walls\[\d+\]$/.test(path);
const keysOf = e => [e.dataset.key, ...(e.dataset.about || "").split("\n")].filter(Boolean);

// light lights everything up that has to do with what is pointed at: things, fields and findings.
let pointed = null;
function light(target) {
  const e = target && target.closest && target.closest("[data-key], [data-about]");
  if (e === pointed) return;
  pointed = e;
  const keys = e ? keysOf(e) : [];
  for (const other of document.querySelectorAll("#stage [data-key], #measures [data-key], #findings > ul > [data-key]")) {
    other.classList.toggle("lit", keys.length > 0 && keysOf(other).some(k => keys.some(own => under(own, k) || under(k, own))));
  }
}

function press(target) {
  const go = target.closest("[data-go]"), times = target.closest("[data-zoom]"), part = target.closest("#stage [data-key]");
  if (go) goTo(go.dataset.go);
  else if (times) zoomBy(Number(times.dataset.zoom));
  else if (target.closest("[data-close]")) showBoard("");
  else if (part && part.matches(".panel, .clip")) showBoard(part.dataset.key);
  else if (part) goTo(part.dataset.key);
}

// afterShow puts what a window has chosen back onto pictures that are new.
function afterShow() {
  const look = document.getElementById("look");
  pointed = null;
  lookAt(look ? look.value : "all");
  sizeLetters();
  showBoard(chosen);
}

function drag(down) {
  if (down.button !== 0 || down.pointerType === "touch") return;
  let moved = false;
  const move = event => {
    moved ||= Math.hypot(event.clientX - down.clientX, event.clientY - down.clientY) > 4;
    stage.classList.toggle("dragged", moved);
    if (moved) stage.scrollBy({ left: -event.movementX, top: -event.movementY, behavior: "instant" });
  };
  const up = () => {
    stage.classList.remove("dragged");
    removeEventListener("pointermove", move);
    if (moved) addEventListener("click", event => event.stopPropagation(), { capture: true, once: true });
  };
  addEventListener("pointermove", move);
  addEventListener("pointerup", up, { once: true });
}

if (stage) {
  new ResizeObserver(sizeLetters).observe(stage);
  document.addEventListener("click", event => press(event.target));
  document.addEventListener("pointerover", event => light(event.target));
  document.addEventListener("focusin", event => light(event.target));
  document.addEventListener("change", event => {
    if (event.target.id === "look") { lookAt(event.target.value); zoomBy(0); }
    if (event.target.id !== "panel") return;
    showBoard(event.target.value);
    const part = partOf(event.target.value);
    if (part) zoomOn(part); else zoomBy(0);
  });
  stage.addEventListener("pointerdown", drag);
  stage.addEventListener("wheel", event => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    zoomTo(zoom * Math.exp(-event.deltaY / 300), event.clientX, event.clientY);
  }, { passive: false });
  stage.addEventListener("keydown", event => {
    const times = { "+": 1.5, "=": 1.5, "-": 1 / 1.5, 0: 0 }[event.key];
    if (times === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    zoomBy(times);
  });
}
