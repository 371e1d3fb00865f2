// Makes the bench pages handier: − and + beside counts, what is kept on the button, a timer for soaking.
"use strict";
(() => {
  const make = (tag, text, label) => {
    const element = document.createElement(tag);
    element.textContent = text;
    if (label) element.setAttribute("aria-label", label);
    return element;
  };

  for (const input of document.querySelectorAll(".count input:not([name=minutes])")) {
    const label = input.labels[0].textContent;
    const step = (change) => {
      const now = input.value === "" ? Number(input.placeholder || 0) : Number(input.value);
      input.value = Math.min(Number(input.max), Math.max(0, now + change));
      input.dispatchEvent(new Event("input", { bubbles: true }));
    };
    const stepper = document.createElement("div");
    stepper.className = "stepper";
    const [less, more] = [make("button", "−", `one less: ${label}`), make("button", "+", `one more: ${label}`)];
    less.type = more.type = "button";
    less.addEventListener("click", () => step(-1));
    more.addEventListener("click", () => step(1));
    input.replaceWith(stepper);
    stepper.append(less, input, more);
  }

  // Kept follows from the others unless the maker counted it too.
  for (const form of document.querySelectorAll("form.record[data-in]")) {
    const kept = form.querySelector("[name=kept]");
    const told = form.querySelector(".rest");
    const tell = () => {
      const others = [...form.querySelectorAll(".count input")]
        .filter((input) => input.name !== "kept" && input.name !== "minutes")
        .reduce((sum, input) => sum + Number(input.value || 0), 0);
      const rest = Number(form.dataset.in) - others;
      kept.placeholder = Math.max(0, rest);
      told.hidden = false;
      told.textContent = rest < 0 ? ", more than came in" : `, ${kept.value === "" ? rest : kept.value} kept`;
    };
    form.addEventListener("input", tell);
    tell();
  }

  // Readings outside the tolerance are warned of as they are typed; they are kept all the same.
  for (const input of document.querySelectorAll("input[data-least][data-most]")) {
    const note = make("p", "");
    note.className = "alarm";
    note.setAttribute("role", "status");
    input.after(note);
    input.addEventListener("input", () => {
      const readings = input.value.split(/[ ;]+/).filter(Boolean).map((text) => Number(text.replace(",", ".")));
      const thin = readings.filter((reading) => reading < Number(input.dataset.least)).length;
      const thick = readings.filter((reading) => reading > Number(input.dataset.most)).length;
      note.textContent = readings.some(Number.isNaN) ? "" : [thin && `${thin} too thin`, thick && `${thick} too thick`].filter(Boolean).join(", ");
    });
  }

  // A phone may sound only after it was touched, so the sound is made ready when a timer is started.
  let sound;
  const makeReady = () => {
    sound ??= new AudioContext();
    sound.resume();
  };
  const ring = () => {
    navigator.vibrate?.([300, 150, 300]);
    if (!sound) return;
    for (const [beep, pitch] of [660, 880, 660, 880].entries()) {
      const [tone, loudness] = [sound.createOscillator(), sound.createGain()];
      const start = sound.currentTime + beep * 0.4;
      tone.frequency.value = pitch;
      loudness.gain.setValueAtTime(0.3, start);
      loudness.gain.exponentialRampToValueAtTime(0.001, start + 0.35);
      tone.connect(loudness).connect(sound.destination);
      tone.start(start);
      tone.stop(start + 0.35);
    }
  };

  const [minuteMilliseconds, ringMilliseconds] = [60_000, 30_000];
  const title = document.title;
  for (const soak of document.querySelectorAll("[data-soak-minutes]")) {
    const key = `soak ${location.search} ${soak.closest("li").id}`;
    const minutes = Number(soak.dataset.soakMinutes);
    const button = make("button", `Start a timer of ${minutes} min`);
    const quiet = make("button", "Quiet");
    const left = make("span", "");
    left.className = "left";
    const said = make("span", "");
    said.className = "sr";
    said.setAttribute("role", "status");
    button.type = quiet.type = "button";
    quiet.hidden = true;
    soak.append(button, quiet, left, said);
    let ringing;
    const hush = () => {
      clearInterval(ringing);
      ringing = undefined;
      quiet.hidden = true;
      document.title = title;
    };
    const show = () => {
      const end = Number(localStorage.getItem(key));
      if (!end) return;
      const seconds = Math.ceil((end - Date.now()) / 1000);
      button.textContent = "Start the timer anew";
      left.textContent = seconds > 0 ? `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")} left` : "✓ soaked long enough";
      if (seconds > 0 || said.textContent) return;
      said.textContent = "Soaked long enough.";
      // What ran out while nobody looked is only told.
      if (Date.now() - end > ringMilliseconds) return;
      ring();
      ringing = setInterval(() => (Date.now() - end > ringMilliseconds ? hush() : ring()), 2000);
      quiet.hidden = false;
      document.title = `✓ soaked – ${title}`;
    };
    button.addEventListener("click", () => {
      makeReady();
      hush();
      localStorage.setItem(key, Date.now() + minutes * minuteMilliseconds);
      said.textContent = "";
      show();
    });
    quiet.addEventListener("click", hush);
    show();
    setInterval(show, 1000);
  }
})();
