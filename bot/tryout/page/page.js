// The whole page: which pages are open, and what the feed brings to each.

import { arrange, set, tell } from "./elements.js";
import { Clock } from "./clock.js";
import { follow } from "./feed.js";
import { Inside } from "./inside.js";
import { Panel } from "./panel.js";
import { People } from "./people.js";
import { showSteps } from "./steps.js";

const TITLE = "Plimsoll, tried out here";
const INSIDE = "inside:";
const PRESS = "No page is open. Press a name to open that person's page. Press more names to see them side by side.";
const WAIT = "The story is being played up to its second week. The names come in a moment.";
const LINK_SHOWN_MS = 5000;

const narrow = matchMedia("(max-width: 47.99rem)");
const pages = document.getElementById("pages");
const link = document.getElementById("link");
const nobody = document.getElementById("nobody");
const insideToggle = document.getElementById("inside-toggle");
const clock = new Clock();
const people = new People(toggle);
const inside = new Inside(() => close(INSIDE));
const panels = new Map();
const doings = { onClose: close, canJoin: () => stranger() !== undefined, onJoin: join, onClock: () => showClock() };

let state = { people: [], moving: true };
let open = [];

function onState(next) {
  const moved = state.moving && !next.moving;
  state = next;
  clock.update(state);
  inside.update(state.people);
  for (const person of state.people) panels.get(person.key)?.update(person);
  if (!state.moving) tellSeen();
  if (moved && open.includes(INSIDE)) inside.load();
  reopen();
  show();
}

function tellSeen() {
  for (const key of open) panels.get(key)?.log.tellSeen();
}

function onMessages({ who, changed, gone }) {
  if (open.includes(who)) panels.get(who)?.receive(changed, gone);
}

function onLink(words, back) {
  tell(link, words);
  set(link, "data-lost", !back);
  if (!back) return;
  for (const key of open) if (key !== INSIDE) panels.get(key).load();
  setTimeout(() => link.textContent === words && tell(link, ""), LINK_SHOWN_MS);
}

function toggle(key) {
  if (open.includes(key)) close(key);
  else openPage(key);
}

function openPage(key) {
  open = narrow.matches ? [key] : [...open.filter((each) => each !== key), key];
  show();
  if (key === INSIDE) inside.load();
  else panelOf(key).load();
  keepInAddress();
  const shown = key === INSIDE ? inside : panelOf(key);
  shown.heading.focus({ preventScroll: !narrow.matches });
  if (!narrow.matches) shown.element.scrollIntoView({ block: "nearest" });
}

function close(key) {
  open = narrow.matches ? [] : open.filter((each) => each !== key);
  showClock(false);
  show();
  keepInAddress();
  if (key === INSIDE) insideToggle.focus();
  else people.focus(key);
}

function panelOf(key) {
  if (!panels.has(key)) {
    const person = state.people.find((each) => each.key === key);
    panels.set(key, new Panel(person, doings));
  }
  return panels.get(key);
}

function stranger() {
  return state.people.find(({ role }) => role === "stranger");
}

function join(code) {
  const { key } = stranger();
  if (!open.includes(key)) openPage(key);
  panelOf(key).composer.put(`/start ${code}`);
}

function showClock(shown = !document.body.classList.contains("with-clock")) {
  document.body.classList.toggle("with-clock", shown);
  for (const { clockButton } of panels.values()) set(clockButton, "aria-expanded", String(shown));
}

function show() {
  people.update(state.people, open);
  set(insideToggle, "aria-expanded", String(open.includes(INSIDE)));
  const elements = open.map((key) => (key === INSIDE ? inside.element : panelOf(key).element));
  arrange(pages, elements);
  elements.forEach((element, place) => element.classList.toggle("current", place === elements.length - 1));
  document.body.classList.toggle("reading", open.length > 0);
  nobody.hidden = open.length > 0;
  tell(nobody, state.people.length > 0 ? PRESS : WAIT);
  const fresh = state.people.reduce((sum, { unread }) => sum + unread, 0);
  const title = fresh > 0 ? `(${fresh}) ${TITLE}` : TITLE;
  if (document.title !== title) document.title = title;
}

// The address keeps which pages are open: they are so after a reload, and on a phone the browser's Back closes one.

function keepInAddress() {
  const address = `#${open.map(encodeURIComponent).join("+")}`;
  if (address === (location.hash || "#")) return;
  history[narrow.matches && open.length > 0 ? "pushState" : "replaceState"](null, "", address);
}

function inAddress() {
  const keys = location.hash.slice(1).split("+").filter(Boolean).map(decodeURIComponent);
  return keys.filter((key) => key === INSIDE || state.people.some((person) => person.key === key));
}

let reopened = false;

function reopen() {
  if (reopened || state.people.length === 0) return;
  reopened = true;
  open = narrow.matches ? inAddress().slice(-1) : inAddress();
  loadOpen();
}

function loadOpen() {
  show();
  for (const key of open) (key === INSIDE ? inside : panelOf(key)).load();
}

addEventListener("popstate", () => {
  open = inAddress();
  loadOpen();
});
document.addEventListener("visibilitychange", tellSeen);
document.getElementById("skip").addEventListener("click", (event) => {
  event.preventDefault(); // The address stays: it says which pages are open.
  document.getElementById("open").focus();
});
insideToggle.addEventListener("click", () => toggle(INSIDE));
showSteps();
show();
follow(onState, onMessages, onLink);
