// The messages of one page, newest last and in view, unless somebody has scrolled up.

import { arrange, button, make } from "./elements.js";
import { entry, renew } from "./message.js";

const SHOWN_AT_FIRST = 30;
const NEAR_PX = 24;

export class Log {
  /**
   * @param {Object} page  the page that the messages stand on, see message.js
   * @param {function(number)} onSeen  told the newest message whenever it is in view
   */
  constructor(page, onSeen) {
    this.page = page;
    this.onSeen = onSeen;
    this.messages = new Map();
    this.entries = new Map();
    this.days = new Map();
    this.from = null;
    this.sticks = true;
    this.earlier = button("Show earlier messages", () => this.showEarlier(), { class: "earlier", hidden: true });
    this.list = make("div", { class: "list" });
    this.box = make(
      "div",
      { class: "log", role: "log", "aria-live": "off", tabindex: "0", "aria-label": `Messages of ${page.person.name}` },
      this.earlier,
      this.list,
    );
    this.below = button("New below", () => this.toEnd(), { class: "below", hidden: true });
    const columns = make("div", { class: "log-columns", "aria-hidden": "true" });
    columns.append(make("span", { text: "Hour" }), make("span", { text: "Entry" }));
    this.element = make("div", { class: "log-room" }, columns, this.box, this.below);
    this.box.addEventListener("scroll", () => this.scrolled());
    const grown = new ResizeObserver(() => this.hold());
    grown.observe(this.list);
    grown.observe(this.box);
  }

  find(id) {
    return this.messages.get(id);
  }

  get newest() {
    return Math.max(0, ...this.messages.keys());
  }

  /** Take all messages anew, as after opening the page or losing the connection. */
  replace(messages) {
    const known = this.messages;
    this.messages = new Map(messages.map((message) => [message.id, message]));
    for (const message of messages) {
      const before = known.get(message.id);
      if (before && JSON.stringify(before) !== JSON.stringify(message)) this.renewed(message);
    }
    const ids = [...this.messages.keys()].sort((a, b) => a - b);
    if (this.from === null || !known.size) this.from = ids.at(-SHOWN_AT_FIRST) ?? 0;
    this.lay();
    this.hold();
  }

  /** Take what changed; returns what is new of the program's and what was edited. */
  receive(changed, gone) {
    const fresh = [];
    const edited = [];
    const stuck = this.sticks;
    for (const message of changed) {
      const before = this.messages.get(message.id);
      this.messages.set(message.id, message);
      if (before === undefined) fresh.push(message);
      else this.renewed(message);
      if (before !== undefined && before.text !== message.text) edited.push({ before, after: message });
    }
    for (const id of gone) this.messages.delete(id);
    this.from ??= 0;
    this.lay();
    if (fresh.length > 0) this.came(fresh, stuck);
    return { fresh: fresh.filter((message) => !message.mine), edited: edited.filter(({ after }) => !after.mine) };
  }

  renewed(message) {
    const shown = this.entries.get(message.id);
    if (shown) renew(shown, message, this.page);
  }

  came(fresh, stuck) {
    if (stuck) this.toEnd();
    else this.below.hidden = false;
  }

  lay() {
    const shown = [...this.messages.values()].filter((each) => each.id >= this.from).sort((a, b) => a.id - b.id);
    const hidden = this.messages.size - shown.length;
    const nodes = [];
    let day = "";
    for (const message of shown) {
      const on = message.local.split(", ")[0];
      if (on !== day) nodes.push(this.heading((day = on)));
      nodes.push(this.entryOf(message));
    }
    for (const id of this.entries.keys()) if (!this.messages.has(id)) this.entries.delete(id);
    arrange(this.list, nodes.length > 0 ? nodes : [this.nothing()]);
    this.earlier.hidden = hidden === 0;
    this.earlier.textContent = `Show ${hidden} earlier ${hidden === 1 ? "message" : "messages"}`;
  }

  heading(day) {
    if (!this.days.has(day)) this.days.set(day, make("h3", { class: "day", text: day }));
    return this.days.get(day);
  }

  nothing() {
    this.empty ??= make("p", { class: "nothing", text: "Nothing is written here yet." });
    return this.empty;
  }

  entryOf(message) {
    if (!this.entries.has(message.id)) this.entries.set(message.id, entry(message, this.page));
    return this.entries.get(message.id);
  }

  showEarlier() {
    const below = this.box.scrollHeight - this.box.scrollTop;
    const first = this.list.querySelector("article");
    this.from = 0;
    this.lay();
    this.box.scrollTop = this.box.scrollHeight - below;
    first?.focus({ preventScroll: true });
  }

  toEnd() {
    this.sticks = true;
    this.below.hidden = true;
    this.hold();
  }

  /** Keep the newest in view, if it was. */
  hold() {
    if (this.sticks) this.box.scrollTop = this.box.scrollHeight;
    this.shape = this.shapeNow();
    this.tellSeen();
  }

  shapeNow() {
    return `${this.box.scrollHeight} ${this.box.clientHeight} ${this.box.clientWidth}`;
  }

  scrolled() {
    // A page that became narrower or lower scrolls by itself; only what somebody scrolled lets go of the newest.
    if (this.sticks && this.shape !== this.shapeNow()) {
      this.hold();
      return;
    }
    this.shape = this.shapeNow();
    this.sticks = this.box.scrollHeight - this.box.scrollTop - this.box.clientHeight < NEAR_PX;
    if (this.sticks) this.below.hidden = true;
    this.tellSeen();
  }

  tellSeen() {
    if (this.sticks && this.box.clientHeight > 0 && this.messages.size > 0) this.onSeen(this.newest);
  }
}
