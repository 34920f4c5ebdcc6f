// What a screen reader says of open pages: new messages, and of a changed one only the lines that are new.

import { make } from "./elements.js";

const MANY = 3;
const LONGEST = 300;
const KEPT_MS = 20000;

/** Say of a person's page what is new on it. */
export function hear(name, fresh, changed) {
  if (fresh.length > MANY) {
    say(`${fresh.length} new messages to ${name}.`);
  } else {
    for (const message of fresh) say(`Plimsoll to ${name}: ${cut(message.text || message.file?.name || message.kind)}`);
  }
  const lines = changed.flatMap(({ before, after }) => newLines(before, after));
  if (lines.length > 0) say(`Edited, to ${name}: ${cut(lines.join("; "))}`);
}

function newLines(before, after) {
  const known = new Set(before.text.split("\n"));
  return after.text.split("\n").filter((line) => line.trim() !== "" && !known.has(line));
}

function cut(text) {
  return text.length > LONGEST ? `${text.slice(0, LONGEST)} …` : text;
}

function say(text) {
  const line = make("p", { text });
  document.getElementById("heard").append(line);
  setTimeout(() => line.remove(), KEPT_MS);
}
