// The first steps: shown until they are closed, once and for all where the browser keeps that.

const KEPT = "plimsoll-steps-closed";

/** Show the first steps, unless they were closed before. */
export function showSteps() {
  const steps = document.getElementById("steps");
  steps.hidden = wasClosed();
  document.getElementById("steps-close").addEventListener("click", () => {
    steps.hidden = true;
    keepClosed();
    document.querySelector("#people button")?.focus();
  });
}

function wasClosed() {
  try {
    return localStorage.getItem(KEPT) !== null;
  } catch {
    return false;
  }
}

function keepClosed() {
  try {
    localStorage.setItem(KEPT, "yes");
  } catch {
    // Where nothing may be kept, they come again with the next visit.
  }
}
