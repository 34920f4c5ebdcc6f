// The clock of the story: where it stands, what moves it, and how far it has been moved.

import { button, make, set, tell } from "./elements.js";
import { send } from "./calls.js";

const PLACES = [
  { key: "due", label: "Next thing due", when: null },
  { key: "hour", label: "One hour on", when: null },
  { key: "session", label: "Tomorrow's session", when: null },
  { key: "digest", label: "Coach's digest", when: null },
];
const MINUTE_MS = 60_000;

export class Clock {
  constructor() {
    this.status = document.getElementById("clock-status");
    this.going = document.getElementById("clock-going");
    this.progress = document.getElementById("clock-progress");
    this.doing = document.getElementById("clock-doing");
    this.places = document.getElementById("clock-places");
    this.problem = document.getElementById("clock-problem");
    this.moving = true;
    this.left = null;
    this.moved = "";
    this.slots = new Map();
    this.showPlaces(PLACES);
  }

  /** Show the clock of a state. */
  update(state) {
    if (!state.moving && this.moving && this.left) this.moved = lapse(new Date(state.now) - new Date(this.left.now));
    if (!state.moving) this.left = { now: state.now, told: state.told };
    this.moving = state.moving;
    this.going.hidden = !state.moving;
    tell(this.doing, state.doing || "");
    if (state.progress === null || state.progress === undefined) this.progress.removeAttribute("value");
    else this.progress.value = state.progress;
    tell(this.status, state.moving ? this.wordsOfMoving() : this.wordsOfStanding(state));
    if (state.places?.length) this.showPlaces(state.places);
    for (const { pressed } of this.slots.values()) set(pressed, "aria-disabled", state.moving ? "true" : "false");
  }

  wordsOfMoving() {
    return this.left ? `The clock is moving on from ${this.left.told}.` : "Getting the story ready.";
  }

  wordsOfStanding(state) {
    return `${state.told}. ${this.moved ? `The clock was moved on by ${this.moved}.` : "The clock waits for you."}`;
  }

  showPlaces(places) {
    for (const place of places) {
      if (!this.slots.has(place.key)) this.addSlot(place);
      const { pressed, when } = this.slots.get(place.key);
      tell(pressed, place.label);
      tell(when, place.when ?? "");
    }
  }

  addSlot(place) {
    const when = make("span", { class: "when", id: `when-${place.key}` });
    const pressed = button(place.label, () => this.move(place.key), {
      "aria-describedby": when.id,
      "aria-disabled": "true",
    });
    this.slots.set(place.key, { pressed, when });
    this.places.append(make("div", { class: "place" }, pressed, when));
  }

  async move(to) {
    if (this.moving) return;
    tell(this.problem, "");
    try {
      await send("/clock", { to });
    } catch (problem) {
      tell(this.problem, problem.message);
    }
  }
}

/** How long that is, in days, hours and minutes; "" for less than a minute. */
export function lapse(ms) {
  const minutes = Math.round(ms / MINUTE_MS);
  const parts = [
    [Math.floor(minutes / 1440), "day"],
    [Math.floor(minutes / 60) % 24, "hour"],
    [minutes % 60, "minute"],
  ];
  const said = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}${count === 1 ? "" : "s"}`);
  return said.join(" ");
}
