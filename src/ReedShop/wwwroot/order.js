// Shows price and ship date while a buyer types. Without it the button "See the date" does the same. What it shows is
// made by the shop, in the language of the page: no wording and no format lives here.
"use strict";
(() => {
  const form = document.getElementById("order");
  const offer = document.getElementById("offer");
  if (!form || !offer) return;
  const pauseMilliseconds = 350;
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

  form.addEventListener("input", (event) => {
    if (!event.target.closest(".wish")) return;
    fitStrengths();
    clearTimeout(timer);
    timer = setTimeout(ask, pauseMilliseconds);
  });
  fitStrengths();
  if (offer.querySelector(".empty")) ask();
})();
