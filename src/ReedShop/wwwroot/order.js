// Shows price and ship date while a buyer types. Without it the button "See the date" does the same.
"use strict";
(() => {
  const form = document.getElementById("order");
  const offer = document.getElementById("offer");
  if (!form || !offer) return;
  const pauseMilliseconds = 350;
  const days = { weekday: "long", day: "numeric", month: "long", year: "numeric", timeZone: "UTC" };
  const shortDays = { weekday: "short", day: "numeric", month: "long", timeZone: "UTC" };
  let timer;
  let asked;

  const make = (tag, text, className) => {
    const element = document.createElement(tag);
    if (text) element.textContent = text;
    if (className) element.className = className;
    return element;
  };
  const day = (date, options) => {
    const element = make("time", new Intl.DateTimeFormat("en-GB", options).format(new Date(`${date}T00:00:00Z`)).replace(",", ""));
    element.dateTime = date;
    return element;
  };
  const chance = (value) => `about ${Math.floor(value * 100)} in 100`;
  const strength = (value) => `${Math.floor(value) || ""}${["", "¼", "½", "¾"][Math.round((value % 1) * 4)]}`;
  const money = ({ amount, currency }) => {
    const digits = new Intl.NumberFormat("en-GB", { style: "currency", currency }).resolvedOptions().maximumFractionDigits;
    return `${(amount / 10 ** digits).toFixed(digits)} ${currency}`;
  };
  const list = (title, className, items) => {
    if (items.length === 0) return [];
    const element = make("ul", "", className);
    element.append(...items.map((item) => {
      const entry = make("li");
      entry.append(...item);
      return entry;
    }));
    return [make("h2", title), element];
  };

  const needBy = (need) => {
    if (!need) return [];
    const text = make("p", "", "need");
    text.append(
      "Left here by ", day(need.date, shortDays), ` ${chance(need.chance)}. Order by `, day(need.latestOrder, shortDays),
      " at the latest, if nobody orders before you.",
    );
    return [text];
  };
  const parcels = (all) => {
    if (!all) return [];
    const [, element] = list("", "parcels", all.map((parcel) => [
      `${parcel.lines.map((line) => `${line.quantity} of ${strength(line.strength)}`).join(", ")} by `,
      day(parcel.shipBy, shortDays),
      `, kept ${chance(parcel.chance)}`,
    ]));
    return [element];
  };

  const showQuote = (quote) => {
    const card = make("div", "", "offer");
    const date = make("p", "", "date");
    date.append(make("span", "Ships by"), day(quote.shipBy, days));
    const total = make("p", "", "total");
    total.append(make("b", money(quote.price)));
    card.append(
      date,
      make("p", `A date like this is kept ${chance(quote.chance)}.`, "kept"),
      ...needBy(quote.needBy),
      ...parcels(quote.parcels),
      total,
      ...list("Because", "because", quote.because.map((reason) => [reason])),
      ...list("Sooner, if you", "sooner", quote.sooner.map((sooner) => [`${sooner.change}: `, day(sooner.shipBy, shortDays)])),
    );
    offer.replaceChildren(card);
  };
  const showRefusal = (problem) => {
    const note = make("p", "", "refusal");
    note.append(make("strong", problem.detail));
    if (problem.allowed) note.append(` Accepted: ${problem.allowed}.`);
    offer.replaceChildren(note);
  };

  const readRequest = () => {
    const all = (name) => [...form.querySelectorAll(`[name="${name}"]`)].map((field) => field.value);
    const [models, strengths, quantities] = [all("model"), all("strength"), all("quantity")];
    const lines = models
      .map((model, index) => ({ model, strength: Number(strengths[index]), quantity: Number(quantities[index]) }))
      .filter((line, index) => quantities[index] !== "");
    const confidence = form.elements.confidence.value;
    return {
      lines,
      ...(confidence && { confidence: Number(confidence) }),
      neighbours: form.elements.neighbours.checked ? 1 : 0,
      partsAreFine: form.elements.partsAreFine.checked,
      ...(form.elements.needBy.value && { needBy: form.elements.needBy.value }),
      draft: true,
    };
  };

  const ask = async () => {
    const request = readRequest();
    if (request.lines.length === 0 || request.lines.some((line) => !Number.isInteger(line.quantity) || line.quantity < 1)) return;
    asked?.abort();
    asked = new AbortController();
    offer.firstElementChild?.classList.add("busy");
    try {
      const answer = await fetch("/api/quotes", {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify(request),
        signal: asked.signal,
      });
      const body = await answer.json();
      if (answer.ok) showQuote(body);
      else showRefusal(body);
    } catch (fault) {
      if (fault.name !== "AbortError") showRefusal({ detail: "The date could not be asked for just now.", allowed: "the button “See the date”" });
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
