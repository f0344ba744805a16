"use strict";
// Remembers the ticked boxes of this list in the page's own storage. Where there is none, boxes can be ticked all the same.
(() => {
  const key = document.documentElement.dataset.ticks;
  const boxes = [...document.querySelectorAll("input[type=checkbox]")];
  const show = () => {
    try {
      const ticked = JSON.parse(localStorage.getItem(key));
      if (Array.isArray(ticked)) boxes.forEach((box, number) => { box.checked = ticked.includes(number); });
    } catch {}
  };
  const keep = () => {
    try {
      const ticked = boxes.flatMap((box, number) => box.checked ? [number] : []);
      localStorage.setItem(key, JSON.stringify(ticked));
    } catch {}
  };
  show();
  document.addEventListener("change", keep);
  addEventListener("storage", show); // the same list in another window
  addEventListener("pageshow", show);
})();
