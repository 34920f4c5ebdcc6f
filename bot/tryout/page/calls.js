// What the page asks the program for. Whatever goes wrong comes back as one plain sentence.

/** Something did not work; its message is a sentence to show. */
export class Problem extends Error {}

const OUT_OF_REACH = "The program does not answer. It may have been stopped.";

/** Fetch JSON from the program. */
export async function look(path) {
  return (await answer(path, {})).json();
}

/** Send JSON to the program. */
export async function send(path, body) {
  await answer(path, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Plimsoll-Try": "1" },
    body: JSON.stringify(body),
  });
}

/** Send a form with a file. */
export async function sendForm(path, form) {
  await answer(path, { method: "POST", headers: { "X-Plimsoll-Try": "1" }, body: form });
}

/** The path of a person, with what is wanted of her. */
export function of(key, what) {
  return `/people/${encodeURIComponent(key)}/${what}`;
}

async function answer(path, request) {
  let response;
  try {
    response = await fetch(path, { credentials: "same-origin", ...request });
  } catch {
    throw new Problem(OUT_OF_REACH);
  }
  if (!response.ok) throw new Problem(await sentence(response));
  return response;
}

async function sentence(response) {
  if (response.status === 403) return "This page is not let in any more. Open the address that the program printed.";
  try {
    const { problem } = await response.json();
    if (typeof problem === "string" && problem) return problem;
  } catch {
    // No sentence came along: one of ours is shown.
  }
  return `That did not work (${response.status}). Nothing was lost; try again.`;
}
