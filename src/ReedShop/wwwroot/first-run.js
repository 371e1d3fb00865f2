// Where the maker's browser stands is a better guess of the zone than where the program runs; the money follows it.
"use strict";
(() => {
  const [zone, currency] = ["zone", "currency"].map((id) => document.getElementById(id));
  if (!zone) return;
  let chosen = false;
  const known = (name) => [...zone.list.options].find((option) => option.value === name);
  const follow = () => {
    const there = known(zone.value);
    if (there && !chosen) currency.value = there.dataset.currency;
  };
  currency.addEventListener("input", () => { chosen = true; });
  zone.addEventListener("input", follow);
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
  if ("guess" in zone.dataset && known(here)) {
    zone.value = here;
    follow();
  }
})();
