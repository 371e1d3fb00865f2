// A sitting may be dragged to another day; what follows is shown before it is kept. Without it "move" asks for the day.
"use strict";
(() => {
  let dragged;
  for (const link of document.querySelectorAll(".week a.move")) {
    const sitting = link.closest(".do");
    sitting.draggable = true;
    sitting.addEventListener("dragstart", (event) => {
      dragged = link;
      event.dataTransfer.effectAllowed = "move";
      event.dataTransfer.setData("text/plain", link.textContent.trim());
      sitting.classList.add("dragged");
    });
    sitting.addEventListener("dragend", () => {
      dragged = undefined;
      sitting.classList.remove("dragged");
      for (const day of document.querySelectorAll(".week .drop")) day.classList.remove("drop");
    });
  }
  for (const day of document.querySelectorAll(".week .day[data-date]:not(.past)")) {
    day.addEventListener("dragover", (event) => {
      if (!dragged || day.contains(dragged)) return;
      event.preventDefault();
      day.classList.add("drop");
    });
    day.addEventListener("dragleave", (event) => {
      if (!day.contains(event.relatedTarget)) day.classList.remove("drop");
    });
    day.addEventListener("drop", (event) => {
      if (!dragged) return;
      event.preventDefault();
      const address = new URL(dragged.href);
      address.searchParams.set("to", day.dataset.date);
      location.assign(address);
    });
  }
})();
