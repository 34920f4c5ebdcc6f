// What happened: the queue, what is due, and the decisions with all that lies behind them. Only to look at.

import { button, make, set, tell } from "./elements.js";
import { look } from "./calls.js";

const SUBJECTS = [
  { of: "queue", label: "Queue" },
  { of: "due", label: "Due" },
  { of: "decisions", label: "Decisions" },
];

export class Inside {
  /** @param {function()} onClose  called when it is to be closed */
  constructor(onClose) {
    this.of = "queue";
    this.names = "";
    this.turn = null;
    this.heading = make("h2", { id: "inside-heading", tabindex: "-1", text: "What happened" });
    this.subjects = SUBJECTS.map((subject) => button(subject.label, () => this.choose(subject.of)));
    this.whose = make("select", { id: "inside-whose", on: { change: () => this.load() } });
    this.problem = make("p", { class: "problem", role: "alert" });
    this.state = make("p", { class: "inside-state", role: "status" });
    this.room = make("div", { class: "inside-room", tabindex: "0", role: "group", "aria-label": "What was found" });
    this.element = this.drawn(onClose);
  }

  drawn(onClose) {
    return make(
      "section",
      { class: "panel inside", "aria-labelledby": this.heading.id },
      make(
        "div",
        { class: "panel-head" },
        button("Back to people", onClose, { class: "narrow" }),
        make(
          "div",
          { class: "panel-title" },
          this.heading,
          make("p", { class: "person-line", text: "Only to look at: nothing changes here." }),
        ),
        button("Close", onClose, { class: "wide", "aria-label": "Close what happened" }),
      ),
      make(
        "div",
        { class: "inside-tools" },
        make("div", { class: "row", role: "group", "aria-label": "Of what" }, ...this.subjects),
        make("div", { class: "whose" }, make("label", { for: this.whose.id, text: "Whose" }), this.whose),
        button("Look again", () => this.load()),
      ),
      this.problem,
      this.state,
      this.room,
    );
  }

  /** Take the people that can be asked about. */
  update(people) {
    const names = JSON.stringify(people.map(({ key, name }) => [key, name]));
    if (names === this.names) return;
    this.names = names;
    const chosen = this.whose.value;
    this.whose.replaceChildren(
      make("option", { value: "", text: "Everybody" }),
      ...people.map(({ key, name }) => make("option", { value: key, text: name })),
    );
    this.whose.value = people.some(({ key }) => key === chosen) ? chosen : "";
  }

  choose(subject) {
    this.of = subject;
    this.load();
  }

  /** Ask anew, and show what is found. */
  async load() {
    const turn = (this.turn = {});
    this.subjects.forEach((pressed, place) => {
      set(pressed, "aria-pressed", SUBJECTS[place].of === this.of ? "true" : "false");
    });
    tell(this.problem, "");
    tell(this.state, "Looking.");
    try {
      const asked = new URLSearchParams({ of: this.of, who: this.whose.value });
      const found = await look(`/inside?${asked}`);
      if (turn === this.turn) this.show(found);
    } catch (problem) {
      if (turn !== this.turn) return;
      tell(this.state, "");
      tell(this.problem, problem.message);
    }
  }

  show({ title, columns, rows, note }) {
    tell(this.state, rows.length === 0 ? "Nothing of this kind." : "");
    const table = make(
      "table",
      { role: "table" },
      make("caption", { text: title }),
      make("thead", { role: "rowgroup" }, make("tr", { role: "row" }, ...columns.map(heading))),
      make("tbody", { role: "rowgroup" }, ...rows.flatMap((row) => lines(row, columns))),
    );
    this.room.replaceChildren(table, make("p", { class: "note", text: note ?? "" }));
    this.room.scrollTop = 0;
  }
}

function heading(text) {
  return make("th", { role: "columnheader", scope: "col", text });
}

function lines({ cells, more }, columns) {
  const shown = cells.map((text, place) =>
    make(
      "td",
      { role: "cell" },
      make("span", { class: "column", "aria-hidden": "true", text: columns[place] }),
      make("span", { class: "value", text }),
    ),
  );
  const row = make("tr", { role: "row", class: more.length > 0 ? "with-more" : null }, ...shown);
  if (more.length === 0) return [row];
  const behind = make(
    "details",
    {},
    make("summary", { text: "What lies behind it" }),
    make("div", { class: "more", text: more.join("\n") }),
  );
  const cell = make("td", { role: "cell", colspan: columns.length }, behind);
  return [row, make("tr", { role: "row", class: "behind" }, cell)];
}
