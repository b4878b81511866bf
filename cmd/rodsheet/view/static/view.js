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
    if (!old) continue;
    const active = old.contains(document.activeElement) ? document.activeElement : null;
    const key = active && active.dataset.key, from = active && active.selectionStart, to = active && active.selectionEnd;
    const opened = new Map([...old.querySelectorAll("details")].map(e => [foldOf(e), e.open]));
    for (const e of old.querySelectorAll("[data-op]")) if (e.value !== e.dataset.was) keep(e, "");
    old.outerHTML = html;
    const now = document.getElementById(id);
    for (const e of now.querySelectorAll("details")) e.open = opened.get(foldOf(e)) ?? e.open;
    for (const e of now.querySelectorAll("[data-op]")) restore(e);
    const again = key && now.querySelector(`[data-key="${CSS.escape(key)}"]`);
    if (!again) continue;
    again.focus({ preventScroll: true });
    if (typeof from === "number" && again.setSelectionRange) again.setSelectionRange(from, to);
  }
  if (answer.fragments && stage) afterShow();
}

const foldOf = e => e.dataset.key || e.firstElementChild.dataset.key;
const fieldOf = key => document.querySelector(`#measures [data-key="${CSS.escape(key)}"]`);

// typed holds what stands in fields and isn't taken, by key, with the reason where it was refused, and where the field is: a
// key means another wall once one before it is gone.
const typed = new Map();
const whereIs = (e, up = e.parentElement.closest(".entry")) => up ? whereIs(up) + up.querySelector("h4").textContent : "";
const keep = (e, refused) => typed.set(e.dataset.key, { refused: (typed.get(e.dataset.key) || {}).refused || "", ...(refused && { refused }), value: e.value, at: whereIs(e) });

function restore(field) {
  const was = typed.get(field.dataset.key);
  if (!was) return;
  if (was.at !== whereIs(field)) { lose(field.dataset.key, "Its place is gone."); return; }
  field.value = was.value;
  for (const old of field.parentElement.querySelectorAll(".refused")) old.remove();
  if (was.refused) field.parentElement.append(Object.assign(document.createElement("p"), { className: "wrong refused", textContent: was.refused }));
}

function lose(key, why) {
  words(`“${typed.get(key).value}” was not taken. ${why}`);
  typed.delete(key);
}

async function ask(path, options) {
  try {
    return await fetch(path, options);
  } catch (error) {
    if (error.name !== "AbortError") words("rodsheet has stopped; start it again, and open the address it prints. What you typed stays on this page.");
    return null;
  }
}

// send asks for something with a JSON body; null while nobody answers.
async function send(path, fields) {
  const response = await ask(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(fields) });
  return response && response.json().catch(() => ({ error: "rodsheet was started anew: open the address it printed." }));
}

async function post(path, fields) {
  const mine = ++asked, answer = await send(path, fields);
  if (answer && (mine === asked || answer.error)) words(answer.error || answer.words);
  return answer;
}

const change = (path, fields) => post(path, fields).then(answer => answer && (show(answer), !answer.error));

// take asks for the edit of a field that was left with something new in it.
async function take(field) {
  const { key, op, path, was } = field.dataset, value = field.value;
  if (value === was) { typed.delete(key); if (previewed === key) preview(field); return; }
  previewed = "";
  const answer = await post("/edit", { v: version, op, path, was, [op === "choose" ? "field" : "value"]: value });
  if (!answer || answer.error) keep(field, answer ? answer.error : "This is not taken yet.");
  else if ((typed.get(key) || { value }).value === value) { typed.delete(key); field.dataset.was = value; }
  if (answer) show(answer);
  if (!typed.has(key)) return;
  if (fieldOf(key)) restore(fieldOf(key)); else lose(key, answer.error);
}

// preview shows what a value would make of the wall while it is typed.
let waiting = 0, previewed = "";
function preview(field) {
  clearTimeout(waiting);
  waiting = setTimeout(async () => {
    const mine = ++asked, { path, was } = field.dataset;
    const answer = await send("/preview", { v: version, op: "set", path, was, value: field.value });
    if (answer && !answer.error && mine === asked) { previewed = field.dataset.key; show(answer); }
  }, 120);
}

function fieldsOf(form) {
  const fields = document.body.dataset.version ? { v: version } : {};
  for (const e of form.elements) if (e.name) {
    fields[e.name] = "number" in e.dataset ? Number(e.value) : "truth" in e.dataset ? e.value === "true" && (e.type !== "checkbox" || e.checked) : e.value;
  }
  return fields;
}

document.addEventListener("submit", event => {
  const form = event.target;
  if (!form.dataset.post) return;
  event.preventDefault();
  change((event.submitter && event.submitter.getAttribute("formaction")) || form.dataset.post, fieldsOf(form))
    .then(done => done && form.dataset.then && goTo(form.dataset.then));
});

document.addEventListener("change", event => {
  clearTimeout(waiting);
  if (event.target.dataset.op) take(event.target);
  if ("drop" in event.target.dataset) drop(event.target.files);
});
document.addEventListener("input", event => { if (event.target.dataset.op === "set") preview(event.target); });

document.addEventListener("keydown", event => {
  const e = event.target, key = event.key.toLowerCase(), command = event.ctrlKey || event.metaKey;
  if (key === "enter" && e.dataset.op) {
    event.preventDefault();
    const topic = e.closest(".topic"), seen = within => [...within.querySelectorAll("[data-op]")].filter(f => f.checkVisibility());
    if (seen(topic).at(-1) === e && topic.nextElementSibling) topic.nextElementSibling.open = true;
    const all = seen(document.getElementById("measures"));
    (all[all.indexOf(e) + 1] || e).focus();
  } else if (command && key === "s") {
    event.preventDefault();
    Promise.resolve(e.dataset.op && take(e)).then(() => change("/save", { v: version }));
  } else if (command && (key === "z" || key === "y") && !e.matches("textarea[name=text]") && !(e.dataset.op && e.value !== e.dataset.was)) {
    event.preventDefault();
    change(key === "y" || event.shiftKey ? "/redo" : "/undo", { v: version });
  }
});

// drop takes a copy of a file from elsewhere.
async function drop([file]) {
  const response = file && await ask(`/drop?name=${encodeURIComponent(file.name)}`, { method: "POST", body: file });
  const answer = response ? await response.json() : {};
  words(answer.error);
  show(answer);
}

document.addEventListener("dragover", event => event.preventDefault());
document.addEventListener("drop", event => { event.preventDefault(); drop(event.dataTransfer.files); });

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

const middle = box => [box.left + box.width / 2, box.top + box.height / 2];

// zoomTo makes the picture so many times as large as the stage, and takes what is at x, y of the window to toX, toY.
function zoomTo(times, x, y, toX = x, toY = y) {
  const walls = stage.querySelector(".walls");
  if (!walls) return;
  const was = walls.getBoundingClientRect();
  zoom = Math.min(24, Math.max(1, times));
  stage.style.setProperty("--zoom", zoom);
  sizeLetters();
  const now = walls.getBoundingClientRect();
  stage.scrollBy(now.left + (x - was.left) / was.width * now.width - toX, now.top + (y - was.top) / was.height * now.height - toY);
}

// sizeLetters lets letters grow less than the picture.
function sizeLetters() {
  const svg = stage.querySelector(".walls > :not([hidden]) > svg");
  const scale = svg ? svg.getBoundingClientRect().height / svg.viewBox.baseVal.height : 4;
  stage.style.setProperty("--letters", Math.min(1, (4 / scale) ** 0.75).toFixed(3));
}

const zoomBy = times => zoomTo(times ? zoom * times : 1, ...middle(stage.getBoundingClientRect()));

// zoomOn shows a part of the picture as large as there is room for.
function zoomOn(part) {
  const room = stage.getBoundingClientRect(), box = part.getBoundingClientRect();
  zoomTo(zoom * 0.7 * Math.min(room.width / box.width, room.height / box.height), ...middle(box), ...middle(room));
}

const partOf = panel => stage.querySelector(`.panel[data-key="${CSS.escape(panel)}"]`);
async function showBoard(panel) {
  const part = partOf(panel), board = document.getElementById("board"), list = document.getElementById("panel");
  for (const e of stage.querySelectorAll(".chosen")) e.classList.remove("chosen");
  if (list) list.value = panel;
  chosen = panel;
  if (!part) { board.replaceChildren(); return; }
  part.classList.add("chosen");
  const response = await ask(`/board?panel=${encodeURIComponent(panel)}`);
  const html = response && response.ok && await response.text();
  if (html && chosen === panel) board.innerHTML = html;
}

const within = (path, key) => key.startsWith(path) && ".[".includes(key[path.length]);

// goTo opens the measure with a path, or the first below it, or else of what it is in.
function goTo(path) {
  const fields = [...document.querySelectorAll("#measures [data-key]")];
  for (let p = path; p; p = p.replace(/(\.|^)[^.[]*$|\[\d+\]$/, "")) {
    const field = fields.find(e => e.dataset.key === p) || fields.find(e => within(p, e.dataset.key));
    if (!field) continue;
    for (let e = field.parentElement; e; e = e.parentElement) if (e.matches("details")) e.open = true;
    field.focus();
    return;
  }
}

// under reports whether key is path or a part of it. A whole wall has nothing under it: all would be.
const under = (path, key) => key === path || within(path, key) && !/^walls\[\d+\]$/.test(path);
const keysOf = e => [e.dataset.key, ...(e.dataset.about || "").split("\n")].filter(Boolean);

// light lights everything up that has to do with what is pointed at: things, fields and findings. What has to do with it
// only because both have to do with a third, as panels of one run, stays dark.
let pointed = null;
function light(target) {
  const e = target.closest("[data-key], [data-about]");
  if (e === pointed) return;
  pointed = e;
  const keys = e ? keysOf(e) : [], of = e && e.closest("#stage") ? keys.slice(0, 1) : keys.length > 1 ? keys.slice(1) : keys;
  const meet = (list, k) => list.some(own => under(own, k) || under(k, own));
  for (const other of document.querySelectorAll("#stage [data-key], #measures [data-key], #findings > ul > [data-key]")) {
    other.classList.toggle("lit", keysOf(other).some((k, i) => meet(i ? of : keys, k)));
  }
}

// showPages asks for the pages that print, until they are there or something else is asked for.
let laying = new AbortController();
async function showPages() {
  const list = document.getElementById("pages"), choice = new URLSearchParams(new FormData(document.getElementById("prints")));
  laying.abort();
  laying = new AbortController();
  list.innerHTML = '<p>The sheets are being laid out … <button type="button" data-close="pages">Stop</button></p>';
  const response = await ask(`/sheets?${choice}`, { signal: laying.signal });
  if (response) list.innerHTML = await response.text();
  afterShow();
}

function press(target) {
  const own = target.closest("[data-go], [data-zoom], [data-pages], [data-get], [data-close]"), part = target.closest("#stage [data-key]");
  const { go, zoom: times, pages, get, close } = own ? own.dataset : {};
  if (go) goTo(go);
  else if (times) zoomBy(Number(times));
  else if (pages) showPages();
  else if (get) location.assign(`${get}?${new URLSearchParams(new FormData(own.form))}`);
  else if (close === "board") showBoard("");
  else if (close) { laying.abort(); document.getElementById(close).replaceChildren(); }
  else if (part) part.matches(".panel, .clip") ? showBoard(part.dataset.key) : goTo(part.dataset.key);
}

// afterShow puts what a window has chosen back onto pictures that are new.
function afterShow() {
  const look = document.getElementById("look"), wall = look ? look.value : "all", pages = document.getElementById("pages");
  for (const e of stage.querySelectorAll("[data-wall]")) e.hidden = e.dataset.wall !== wall && (wall !== "all" || e.matches(".sizer"));
  const of = pages.firstElementChild;
  pages.classList.toggle("old", !!of && "changed" in of.dataset && of.dataset.changed !== document.getElementById("sheets").dataset.changed);
  pointed = null;
  sizeLetters();
  showBoard(chosen);
}

function startPicture() {
  let dragged = 0; // how far, since the button went down
  new ResizeObserver(sizeLetters).observe(stage);
  document.addEventListener("click", event => { if (dragged < 5) press(event.target); dragged = 0; });
  for (const points of ["pointerover", "focusin"]) document.addEventListener(points, event => light(event.target));
  document.addEventListener("change", async ({ target }) => {
    if (target.id === "look") { afterShow(); zoomBy(0); }
    if (target.id === "panel") { await showBoard(target.value); partOf(chosen) ? zoomOn(partOf(chosen)) : zoomBy(0); }
  });
  stage.addEventListener("pointerdown", () => { dragged = 0; });
  stage.addEventListener("pointermove", ({ buttons, pointerType, movementX, movementY }) => {
    if (buttons !== 1 || pointerType === "touch") return;
    dragged += Math.abs(movementX) + Math.abs(movementY);
    stage.scrollBy(-movementX, -movementY);
  });
  stage.addEventListener("wheel", event => {
    if (event.ctrlKey) { event.preventDefault(); zoomTo(zoom * Math.exp(-event.deltaY / 300), event.clientX, event.clientY); }
  }, { passive: false });
  stage.addEventListener("keydown", event => {
    const button = document.querySelector(`[aria-keyshortcuts~="${CSS.escape(event.key)}"]`);
    if (button && !event.ctrlKey && !event.metaKey) button.click();
  });
}
if (stage) startPicture();
