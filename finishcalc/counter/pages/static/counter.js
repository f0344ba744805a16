// What a page needs beside its forms: fields that something else has changed, marks of mistakes, the studio's button.
"use strict";

const field = (name) => document.getElementsByName(name);

// Fields are never swapped; where an option, undo or another page has changed one, its value is set. One that has been
// typed in since the form was posted keeps what was typed.
let posted = new Map();
document.addEventListener("htmx:beforeSend", (event) => {
  if (event.detail.requestConfig.verb === "post") posted = new Map(new FormData(document.getElementById("job")));
});
function hold(name, value) {
  const same = [...field(name)];
  for (const each of same) {
    if (each.type === "radio") each.checked = each.value === value;
    else if (each.type === "checkbox") each.checked = name === "charges.extras" ? value.split("\n").includes(each.value) : value !== "";
    else if (each !== document.activeElement || each.tagName === "SELECT" || each.value === posted.get(name)) each.value = value;
  }
}

document.addEventListener("fields", (event) => {
  for (const [name, value] of Object.entries(event.detail)) if (name !== "elt") hold(name, String(value));
});

// The note beside a field is swapped, not the field: so its mark follows the note.
function markMistakes() {
  for (const note of document.querySelectorAll("[id$=-note]")) {
    const named = document.getElementById(note.id.slice(0, -5));
    const wrong = note.querySelector("strong")?.textContent === "Mistake:";
    note.classList.toggle("wrong", wrong);
    note.classList.toggle("careful", !wrong);
    if (named?.matches("input, select, textarea")) {
      if (wrong) named.setAttribute("aria-invalid", "true");
      else named.removeAttribute("aria-invalid");
    }
  }
}
document.addEventListener("htmx:afterSettle", markMistakes);
document.addEventListener("DOMContentLoaded", markMistakes);
