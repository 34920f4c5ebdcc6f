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
const SHORT_MS = 500;

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
    this.asked = false;
    this.moved = "";
    this.state = null;
    this.later = 0;
    this.slots = new Map();
    this.showPlaces(PLACES);
  }

  /**
   * Show the clock of a state. Whatever is answered takes a moment of the story's time: that is shown only where it is
   * not over at once.
   */
  update(state) {
    this.state = state;
    if (!state.moving || this.moving || this.asked) {
      clearTimeout(this.later);
      this.later = 0;
      this.show(state);
    } else if (this.later === 0) {
      this.later = setTimeout(() => this.show(this.state), SHORT_MS);
    }
  }

  show(state) {
    if (!state.moving) this.stand(state);
    this.moving = state.moving;
    this.going.hidden = !state.moving;
    tell(this.doing, state.doing || "");
    if (state.progress === null || state.progress === undefined) this.progress.removeAttribute("value");
    else this.progress.value = state.progress;
    tell(this.status, state.moving ? this.wordsOfMoving() : this.wordsOfStanding(state));
    if (state.places?.length) this.showPlaces(state.places);
    for (const { pressed } of this.slots.values()) set(pressed, "aria-disabled", state.moving ? "true" : "false");
  }

  stand(state) {
    if (this.asked && state.now !== this.left?.now) {
      this.moved = this.left ? lapse(new Date(state.now) - new Date(this.left.now)) : "";
      this.asked = false;
    } else if (this.moving) {
      this.asked = false;
    }
    this.left = { now: state.now, told: state.told };
  }

  wordsOfMoving() {
    if (!this.left) return "Getting the story ready.";
    return this.asked ? `The clock is moving on from ${this.left.told}.` : `${this.left.told}.`;
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
    this.asked = true;
    try {
      await send("/clock", { to });
    } catch (problem) {
      this.asked = false;
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
