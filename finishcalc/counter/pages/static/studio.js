// The studio's view: its button is held for a second to open it, and it closes by itself when nobody is there.
"use strict";

// --- the button -------------------------------------------------------------------------------------------------

const HELD = 1000; // milliseconds
const BY_KEY = "studio by key";
const said = (id, text) => {
  const element = document.getElementById(id);
  if (element && element.textContent !== text) element.textContent = text;
};

function holdToOpen(form) {
  const button = form.querySelector("button");
  const usual = document.getElementById("hold-how").textContent;
  let timer = 0;
  document.getElementById("hold-how").setAttribute("role", "status");

  const begin = (byKey) => {
    if (timer) return;
    button.classList.add("held");
    timer = setTimeout(() => {
      if (byKey) sessionStorage.setItem(BY_KEY, "yes");
      form.insertAdjacentHTML("beforeend", '<input type="hidden" name="sure" value="yes">');
      form.submit();
    }, HELD);
  };
  const end = () => {
    clearTimeout(timer);
    timer = 0;
    button.classList.remove("held");
  };

  form.addEventListener("submit", (event) => { // a short press; also by whatever else presses buttons
    event.preventDefault();
    said("hold-how", "Hold it for a second.");
    setTimeout(() => said("hold-how", usual), 5000);
  });
  button.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    button.setPointerCapture(event.pointerId); // options that come late may move the button away from under the pointer
    begin(false);
  });
  button.addEventListener("keydown", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    if (event.key === "Enter") event.preventDefault(); // else each repeat would press it
    if (event.repeat || timer) return;
    begin(true);
  });
  button.addEventListener("keyup", (event) => {
    if (timer && event.key === "Enter") form.requestSubmit();
    end();
  });
  for (const name of ["pointerup", "pointercancel", "blur"]) button.addEventListener(name, end);
  button.addEventListener("contextmenu", (event) => event.preventDefault()); // a long touch would open a menu
}

// --- the view ---------------------------------------------------------------------------------------------------

const LAST = 10; // seconds before the end that are told
const NOTED = 5000; // milliseconds between two notes to the server

function closeByItself(seconds) {
  const usual = document.getElementById("closing").textContent;
  let used = Date.now();
  let noted = used;

  const leave = () => {
    document.body.hidden = true;
    document.getElementById("close").submit();
  };
  const look = () => {
    const left = Math.ceil(seconds - (Date.now() - used) / 1000);
    if (left <= 0 || left > seconds) leave(); // a tab that slept, or a clock that was set
    else said("closing", left <= Math.min(LAST, seconds / 2) ? "Closes in a moment; any key or touch keeps it open." : usual);
  };
  const use = () => {
    look();
    if (document.body.hidden) return;
    used = Date.now();
    if (used - noted < NOTED) return;
    noted = used;
    fetch("/studio/stay", { method: "POST" }).then((answer) => { if (answer.status !== 204) leave(); }, leave);
  };

  for (const name of ["keydown", "pointerdown", "pointermove", "wheel", "input"]) addEventListener(name, use, { passive: true });
  addEventListener("scroll", use, { passive: true, capture: true });
  document.addEventListener("visibilitychange", look);
  addEventListener("pagehide", () => { document.body.hidden = true; }); // nothing of it is seen on the way back
  addEventListener("pageshow", (event) => { if (event.persisted) leave(); else look(); });
  setInterval(look, 1000);
}

// The key that opened the view is still down when the view appears; it must not press the button that closes it.
function waitForKeyUp() {
  if (sessionStorage.getItem(BY_KEY) === null) return;
  sessionStorage.removeItem(BY_KEY);
  const stop = (event) => { if (event.key === " " || event.key === "Enter") event.preventDefault(); };
  const done = () => {
    removeEventListener("keydown", stop, true);
    removeEventListener("keyup", last, true);
  };
  const last = (event) => { stop(event); done(); };
  addEventListener("keydown", stop, true);
  addEventListener("keyup", last, true);
  setTimeout(done, 3000);
}

const toStudio = document.getElementById("to-studio");
if (toStudio) holdToOpen(toStudio);
if (document.body.dataset.seconds) {
  waitForKeyUp();
  closeByItself(Number(document.body.dataset.seconds));
}
