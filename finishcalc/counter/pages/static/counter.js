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

// What takes longer comes part by part, and is marked as old until the last has come. Parts of a quote that another edit
// has overtaken are not gone on with.
const later = (name) => document.querySelector(`#later [name=${name}]`);

function goOn(part) {
  document.body.classList.toggle("renewing", part !== null);
  if (part === null) return;
  later("part").value = part;
  htmx.trigger(document.body, "more");
}
document.addEventListener("renew", () => goOn(0));
document.addEventListener("later", ({ detail }) => {
  later("more").value = detail.more;
  if (field("seen")[0].value === detail.seen) goOn(detail.part);
});

// An option that is taken goes: whoever pressed it by key stays among the options.
let pressed = null;
document.addEventListener("click", (event) => { pressed = event.target.closest(".option")?.closest("section") ?? null; });
document.addEventListener("htmx:afterSettle", () => {
  if (pressed && document.activeElement === document.body) pressed.focus({ preventScroll: true });
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

// An edit that was not taken in is told, because the page goes on showing the quote from before it. The next one that is
// taken in has all that the fields hold.
function reasonOf(request) {
  if (!request.status) return "the counter does not answer. Is it still running?";
  const said = new DOMParser().parseFromString(request.responseText, "text/html");
  return (said.querySelector("main") ?? said.body).textContent.replace(/\s+/g, " ").trim();
}
function tellLost(event) {
  const lost = document.getElementById("lost");
  if (!lost || event.detail.requestConfig.verb !== "post") return;
  lost.textContent = event.detail.successful ? "" : `Not taken in: ${reasonOf(event.detail.xhr)}`;
}
for (const name of ["htmx:responseError", "htmx:sendError"]) document.addEventListener(name, tellLost);
document.addEventListener("htmx:afterRequest", (event) => { if (event.detail.successful) tellLost(event); });
