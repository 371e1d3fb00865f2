// Sliders beside the figures of a sizing question, and its answer while they move. Without it the button asks.
"use strict";
(() => {
  const form = document.getElementById("sizing-question");
  const answer = document.getElementById("sizing-answer");
  if (!form || !answer) return;
  const pauseMilliseconds = 250;
  const usualMost = 40;
  let timer;
  let asked;

  const ask = async () => {
    if (!form.checkValidity()) return;
    const address = `${location.pathname}?${new URLSearchParams(new FormData(form))}`;
    asked?.abort();
    asked = new AbortController();
    answer.classList.add("busy");
    try {
      const page = await fetch(address, { signal: asked.signal, headers: { Accept: "text/html" } });
      const found = new DOMParser().parseFromString(await page.text(), "text/html").getElementById("sizing-answer");
      if (page.redirected) return location.assign(address);
      answer.classList.remove("busy");
      // A shop that is busy just now leaves the answer that stands.
      if (!found) return;
      answer.replaceChildren(...found.childNodes);
      history.replaceState(null, "", `${address}#sizing`);
    } catch (fault) {
      if (fault.name !== "AbortError") answer.classList.remove("busy");
    }
  };

  for (const number of form.querySelectorAll("input[type=number][required]")) {
    const slider = document.createElement("input");
    slider.type = "range";
    slider.min = number.min;
    slider.max = number.max || Math.max(usualMost, Number(number.value));
    slider.value = number.value;
    slider.setAttribute("aria-label", number.labels[0].textContent);
    slider.addEventListener("input", () => {
      number.value = slider.value;
      number.dispatchEvent(new Event("input", { bubbles: true }));
    });
    number.addEventListener("input", () => {
      if (!number.max) slider.max = Math.max(usualMost, Number(number.value));
      slider.value = number.value;
    });
    number.after(slider);
  }

  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(ask, pauseMilliseconds);
  });
})();
