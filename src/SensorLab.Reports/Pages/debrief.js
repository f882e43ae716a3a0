"use strict";

(() => {
  const sheet = document.getElementById("sheet");
  if (!sheet) {
    return;
  }

  const controls = document.getElementById("controls");
  const byId = id => document.getElementById(id);
  const frames = [...sheet.children].map(element => {
    const { first, taken, name, iso, room, sunk } = element.dataset;
    return {
      element, name, iso, first: +first, taken: +taken, room: +room, sunk: +sunk,
      clips: "clips" in element.dataset, lies: "lies" in element.dataset, lower: name.toLowerCase(),
    };
  });
  const byName = (a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0);
  const orders = {
    first: (a, b) => a.first - b.first,
    taken: (a, b) => a.taken - b.taken || byName(a, b),
    room: (a, b) => b.room - a.room || byName(a, b),
    over: (a, b) => a.room - b.room || byName(a, b),
    sunk: (a, b) => b.sunk - a.sunk || byName(a, b),
    name: byName,
  };
  const filters = { all: () => true, clips: f => f.clips, room: f => f.room >= 1, lies: f => f.lies };

  function show() {
    const iso = byId("iso").value, name = byId("name").value.toLowerCase();
    const passes = filters[byId("filter").value];
    let shown = 0;
    for (const frame of frames) {
      const isShown = passes(frame) && (!iso || frame.iso === iso) && frame.lower.includes(name);
      frame.element.hidden = !isShown;
      shown += isShown ? 1 : 0;
    }
    byId("shown").textContent = shown === frames.length ? `${shown} frames` : `${shown} of ${frames.length} frames`;
  }

  function sort() {
    frames.sort(orders[byId("order").value]);
    sheet.append(...frames.map(frame => frame.element));
  }

  controls.hidden = false;
  controls.addEventListener("submit", event => event.preventDefault());
  byId("order").addEventListener("change", sort);
  for (const id of ["filter", "iso", "name"]) {
    byId(id).addEventListener("input", show);
  }
  sort();
  show();
})();
