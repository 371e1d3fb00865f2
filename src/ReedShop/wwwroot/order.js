// Shows price and ship date while a buyer types, and what is wrong with a field once it is left. Without it the buttons do
// the same. All it shows is made by the shop, in the language of the page: no wording, no format and no rule lives here.
"use strict";
(() => {
  const form = document.getElementById("order");
  const offer = document.getElementById("offer");
  if (!form || !offer) return;
  const pauseMilliseconds = 350;
  const stillTypingMilliseconds = 1200;
  let timer;
  let asked;

  const isReady = () => {
    const quantities = [...form.querySelectorAll("[name=quantity]")].map((field) => field.value).filter((value) => value !== "");
    return quantities.length > 0 && quantities.every((value) => Number.isInteger(Number(value)) && Number(value) >= 1);
  };

  const showNotAsked = () => offer.replaceChildren(document.getElementById("not-asked").content.cloneNode(true));

  const ask = async () => {
    if (!isReady()) return;
    asked?.abort();
    asked = new AbortController();
    offer.firstElementChild?.classList.add("busy");
    const typed = new URLSearchParams(new FormData(form));
    typed.set("do", "look");
    try {
      const answer = await fetch("/", { method: "POST", body: typed, signal: asked.signal });
      const text = await answer.text();
      // A busy shop, or a fault, answers with a whole page.
      if (/^\s*<!doctype/i.test(text)) showNotAsked();
      else offer.innerHTML = text;
    } catch (fault) {
      if (fault.name !== "AbortError") showNotAsked();
    }
  };

  // A model is offered in its own strengths only.
  const fitStrengths = () => {
    for (const line of form.querySelectorAll(".line")) {
      const strengths = line.querySelector("[name=strength]");
      const offered = line.querySelector("[name=model]").selectedOptions[0].dataset.strengths.split(" ");
      for (const option of strengths.options) option.hidden = option.disabled = !offered.includes(option.value);
      if (strengths.selectedOptions[0]?.disabled) strengths.value = offered[0];
    }
  };

  // The note is read out with its field, never by itself while somebody types.
  const showNote = (field, note) => {
    document.getElementById(`${field.id}-note`)?.remove();
    if (note) field.after(note);
    field.ariaInvalid = note ? "true" : null;
    if (note) field.setAttribute("aria-describedby", note.id);
    else field.removeAttribute("aria-describedby");
  };

  const left = new Set();
  let checking;
  let checked;
  let pressing = false;

  const check = async () => {
    checked?.abort();
    checked = new AbortController();
    try {
      const answer = await fetch("/orders/check", { method: "POST", body: new URLSearchParams(new FormData(form)), signal: checked.signal });
      if (!answer.ok) return;
      const notes = document.createElement("template");
      notes.innerHTML = await answer.text();
      for (const field of left) showNote(field, notes.content.getElementById(`${field.id}-note`));
    } catch {
      // The button says it all the same.
    }
  };

  // A pause in typing counts as leaving the field.
  const checkAfter = (milliseconds, field) => {
    clearTimeout(checking);
    checking = setTimeout(() => {
      left.add(field);
      check();
    }, milliseconds);
  };

  form.addEventListener("input", (event) => {
    if (event.target.id) checkAfter(event.target.ariaInvalid ? pauseMilliseconds : stillTypingMilliseconds, event.target);
    if (!event.target.closest(".wish")) return;
    fitStrengths();
    clearTimeout(timer);
    // A code is asked about once it is whole, not at each letter.
    if (event.target.name !== "voucher") timer = setTimeout(ask, pauseMilliseconds);
  });
  form.addEventListener("change", (event) => {
    if (event.target.name === "voucher") ask();
  });
  form.addEventListener("focusout", (event) => {
    if (pressing || !event.target.matches("input, select") || !event.target.id) return;
    left.add(event.target);
    checkAfter(0, event.target);
  });
  // A note that came between press and release would push the button away from under the finger.
  form.addEventListener("pointerdown", (event) => {
    pressing = event.target.closest("button") !== null;
  });
  form.addEventListener("pointerup", () => {
    pressing = false;
  });
  fitStrengths();
  if (offer.querySelector(".empty")) ask();
})();
