"use strict";

(() => {
  const { sheet, scales } = JSON.parse(document.getElementById("sheet").textContent);
  const byId = id => document.getElementById(id);
  const calculator = byId("calculator"), readingsBox = byId("readings");
  const thirdsAnEv = 3, mostTones = 6;
  const holdWords = {
    clipped: "clips", inGuard: "peaks may clip", clean: "clean", texture: "texture", toneOnly: "tone only, no texture",
    sunk: "sunk in noise", unknown: "not known",
  };
  const holdMarks = { clipped: "▲", inGuard: "△", clean: "●", texture: "●", toneOnly: "▽", sunk: "▼", unknown: "?" };
  const channelWords = { R: "red", B: "blue", G1: "green", G2: "green", Y: "the sensor" };

  const state = { body: 0, iso: 0, light: 0, isDialled: true, aperture: 18, exposure: null, guard: null, readings: [], warning: {} };
  const newReading = (name, isTone) => ({ name, isTone, shutter: null, stops: null, aperture: null, iso: null, isOpen: false });
  state.readings = [newReading("Bright end", false), newReading("Dark end", false)];

  // What was dialled in outlives a reload where the browser lets a file keep anything; another sheet starts afresh.
  const keep = "sensorlab-pocket-" + [...document.getElementById("sheet").textContent].reduce((hash, c) => (Math.imul(hash, 31) + c.charCodeAt(0)) | 0, 7).toString(36);
  function store() {
    try { localStorage.setItem(keep, JSON.stringify(state)); } catch { /* a file may not be allowed to */ }
  }
  function recall() {
    let kept = null;
    try { kept = JSON.parse(localStorage.getItem(keep)); } catch { /* as above, or not ours */ }
    const whole = (n, count) => Number.isInteger(n) && n >= 0 && n < count;
    const dialled = n => n === null || Number.isFinite(n);
    if (!kept || !whole(kept.body, sheet.bodies.length) || !whole(kept.iso, sheet.bodies[kept.body].isos.length) || !whole(kept.light, Math.max(1, sheet.bodies[kept.body].isos[kept.iso].lights.length))
      || !dialled(kept.exposure) || !dialled(kept.guard) || !Number.isInteger(kept.aperture) || !Array.isArray(kept.readings) || kept.readings.length < 2 || kept.readings.length > mostTones + 2
      || !kept.readings.every(r => r && typeof r.name === "string" && [r.shutter, r.stops, r.aperture, r.iso].every(dialled))) return;
    Object.assign(state, { body: kept.body, iso: kept.iso, light: kept.light, isDialled: kept.isDialled === true, aperture: kept.aperture, exposure: kept.exposure, guard: kept.guard, warning: kept.warning ?? {} });
    state.readings = kept.readings.map((r, i) => ({ ...newReading(i === 0 ? "Bright end" : i === 1 ? "Dark end" : r.name.slice(0, 40), i > 1), shutter: r.shutter, stops: r.stops, aperture: r.aperture, iso: r.iso }));
  }
  recall();

  // Building blocks: text always through textContent, since names come from files.
  function make(tag, attributes, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes ?? {})) {
      if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
      else if (value === true) element.setAttribute(name, "");
      else if (value !== null && value !== undefined && value !== false) element.setAttribute(name, value);
    }
    element.append(...children.filter(c => c !== null && c !== undefined));
    return element;
  }

  // Numbers as they are read at arm's length: one decimal, a true minus, half-widths rounded up.
  const digits = (ev, decimals) => Math.abs(ev).toFixed(decimals);
  function signed(ev, decimals = 1) {
    const text = digits(ev, decimals);
    return Number(text) === 0 ? text : (ev > 0 ? "+" : "−") + text;
  }
  function halfWidth(figure) {
    const half = Math.max(figure.upper95 - figure.value, figure.value - figure.lower95);
    return "±" + (Math.ceil(half * 10 - 1e-9) / 10).toFixed(1);
  }
  function figureText(figure, show = signed) {
    if (!figure) return "not measured";
    if ("value" in figure) return show(figure.value) + " " + halfWidth(figure);
    return "atLeast" in figure ? "at least " + show(figure.atLeast) : "at most " + show(figure.atMost);
  }
  function thirdsText(thirds) {
    const whole = Math.trunc(Math.abs(thirds) / 3), part = ["", "⅓", "⅔"][Math.abs(thirds) % 3];
    const text = (whole || !part ? whole : "") + part;
    return thirds === 0 ? "0" : (thirds > 0 ? "+" : "−") + text;
  }

  const shutterLabels = new Map(scales.shutters.map(s => [s.thirds, s.label]));
  function shutterText(thirds) {
    const label = shutterLabels.get(thirds);
    if (label !== undefined) return label.includes("/") ? label : label + " s";
    const seconds = 2 ** (thirds / thirdsAnEv);
    if (seconds < 1) return "1/" + Math.round(1 / seconds);
    return seconds < 90 ? Math.round(seconds) + " s" : Math.round(seconds / 60) + " min";
  }
  const apertureText = thirds => "f/" + (scales.apertures.find(a => a.thirds === thirds)?.label ?? (2 ** (thirds / 6)).toFixed(1));

  const body = () => sheet.bodies[state.body];
  const iso = () => body().isos[state.iso];
  const light = () => iso().lights[state.light] ?? iso().lights[0];

  // A value between two buttons: the buttons for a step, the list for a leap.
  function stepper(id, label, items, value, change, start) {
    const index = items.findIndex(item => item.value === value);
    const list = make("select", { id, "aria-label": label, onchange: e => change(e.target.value === "" ? null : Number(e.target.value), id) });
    if (start !== undefined) list.append(make("option", { value: "" }, "– dial in –"));
    for (const item of items) list.append(make("option", { value: item.value }, item.label));
    list.value = value === null ? "" : String(value);
    const step = by => {
      const next = index < 0 ? items.findIndex(item => item.value === start) : index + by;
      if (items[next]) change(items[next].value, `${id}-${by > 0 ? "up" : "down"}`);
    };
    const button = (by, sign) => make("button", {
      type: "button", id: `${id}-${by > 0 ? "up" : "down"}`, "aria-label": `${label}, ${by > 0 ? "next" : "previous"}`,
      "aria-disabled": index >= 0 && !items[index + by] ? "true" : null, onclick: () => step(by),
    }, sign);
    return make("div", { class: "stepper", role: "group", "aria-label": label }, button(-1, "−"), list, button(1, "+"));
  }

  const dials = {
    shutter: [...scales.shutters].sort((a, b) => b.thirds - a.thirds).map(s => ({ value: s.thirds, label: shutterText(s.thirds) })),
    aperture: scales.apertures.map(a => ({ value: a.thirds, label: "f/" + a.label })),
    iso: scales.isos.map(s => ({ value: s.thirds, label: "ISO " + s.label })),
    stops: Array.from({ length: 61 }, (_, i) => ({ value: i - 39, label: thirdsText(i - 39) })),
    guard: Array.from({ length: 10 }, (_, i) => ({ value: i, label: `${thirdsText(i).replace("+", "")} EV` })),
  };

  function choices(name, legend, items, chosen, change) {
    const set = make("fieldset", { class: "choices" }, make("legend", null, legend));
    const row = make("div", { class: "row" });
    items.forEach((text, i) => {
      const input = make("input", { type: "radio", name, id: `${name}-${i}`, value: i, onchange: () => change(i, `${name}-${i}`) });
      input.checked = i === chosen;
      row.append(make("label", null, input, make("span", null, text)));
    });
    set.append(row);
    return set;
  }

  const kinshipWords = {
    inHand: "the body in hand",
    inHandOtherState: "The body in hand by its serial number, in another state.",
    otherBody: "Not the body in hand: a colleague's. Read with its own meter.",
    unknown: "No serial number tells whether this is the body in hand.",
  };

  function bodyName(b) {
    const name = [b.body.maker, b.body.model].filter(Boolean).join(" ") || "Body not named by its frames";
    return name + (b.body.serialNumber ? ` no. ${b.body.serialNumber}` : "");
  }

  function drawCamera() {
    const box = byId("camera");
    box.replaceChildren();
    if (sheet.bodies.length > 1) {
      const list = make("select", { id: "body", onchange: e => { state.body = Number(e.target.value); state.iso = sameIso(); state.light = 0; state.exposure = null; draw("body"); } });
      sheet.bodies.forEach((b, i) => list.append(make("option", { value: i }, `${i + 1}. ${bodyName(b)}${i === 0 ? " (in hand)" : ""}`)));
      list.value = String(state.body);
      box.append(make("div", { class: "field wide" }, make("label", { for: "body" }, "Body"), list));
      if (state.body > 0) box.append(make("p", { class: "mark" }, kinshipWords[body().kinship], ...dialLine()));
    }
    box.append(choices("iso", "Shoot at ISO", body().isos.map(p => String(p.iso)), state.iso, (i, id) => { wanted = body().isos[i].iso; state.iso = i; state.exposure = null; draw(id); }));
    if (iso().lights.length > 1) {
      const list = make("select", { id: "light", onchange: e => { state.light = Number(e.target.value); state.exposure = null; draw("light"); } });
      iso().lights.forEach((l, i) => list.append(make("option", { value: i }, l.name ?? "as in the set")));
      list.value = String(state.light);
      box.append(make("div", { class: "field" }, make("label", { for: "light" }, "Light"), list));
    }
    box.append(choices("mode", "Readings", ["as dialled", "in stops"], state.isDialled ? 0 : 1, (i, id) => { state.isDialled = i === 0; state.exposure = null; draw(id); }));
    if (state.isDialled) {
      box.append(make("div", { class: "field" }, make("span", { class: "name" }, "Aperture"),
        stepper("aperture", "Aperture", dials.aperture, state.aperture, (v, id) => { state.aperture = v; draw(id); })));
    } else {
      box.append(make("p", { class: "quiet" }, "Stops that the spot meter shows at the exposure now set: + is brighter than middle grey."));
    }
    box.append(make("div", { class: "field" }, make("span", { class: "name" }, "Guard"),
      stepper("guard", "Guard below the clip", dials.guard, Math.round(guardEv() * thirdsAnEv), (v, id) => { state.guard = v / thirdsAnEv; state.exposure = null; draw(id); })));
  }

  // The room left below the clip: the sheet's, until another is set.
  const guardEv = () => state.guard ?? sheet.guardEv;

  // An ISO stays chosen from body to body where both have it.
  let wanted = iso().iso;
  const sameIso = () => Math.max(0, body().isos.findIndex(p => p.iso === wanted));

  function dialLine() {
    const dial = (body().dialIn ?? []).find(d => d.iso === iso().iso);
    return [make("strong", { id: "dial" }, dial
      ? ` Dial in ${thirdsText(Math.round(dial.nearestThirdEv * 3))} EV on its meter (exactly ${figureText(dial.compensationEv, v => signed(v, 2))}).`
      : " What to dial in is not known at this ISO.")];
  }

  function drawReading(reading, index) {
    const id = `reading-${index}`, box = make("div", { class: "reading" });
    box.append(make("h3", null, reading.name));
    if (state.isDialled) {
      box.append(stepper(id, `${reading.name}: shutter`, dials.shutter, reading.shutter, (v, from) => { reading.shutter = v; state.exposure = null; draw(from); }, -21));
    } else {
      box.append(stepper(id, `${reading.name}: stops`, dials.stops, reading.stops, (v, from) => { reading.stops = v; state.exposure = null; draw(from); }, 0));
    }
    box.append(make("p", { class: "verdict", id: `${id}-verdict` }));
    const tools = make("div", { class: "row tools" });
    if (state.isDialled) {
      const isOwn = reading.aperture !== null;
      tools.append(make("button", {
        type: "button", class: "plain", id: `${id}-own`, "aria-expanded": String(isOwn),
        onclick: () => {
          reading.aperture = isOwn ? null : state.aperture;
          reading.iso = isOwn ? null : Math.round(iso().speedEv * thirdsAnEv);
          state.exposure = null;
          draw(`${id}-own`);
        },
      }, isOwn ? `Read at ${apertureText(state.aperture)}, ISO ${iso().iso}` : "Other f-number or ISO"));
      if (isOwn) {
        box.append(stepper(`${id}-aperture`, `${reading.name}: aperture`, dials.aperture, reading.aperture, (v, from) => { reading.aperture = v; state.exposure = null; draw(from); }));
        box.append(stepper(`${id}-iso`, `${reading.name}: ISO`, dials.iso, reading.iso, (v, from) => { reading.iso = v; state.exposure = null; draw(from); }));
      }
    }
    if (reading.isTone) {
      tools.append(make("button", { type: "button", class: "plain", onclick: () => { state.readings.splice(index, 1); draw("add"); } }, "Remove"));
    }
    box.append(tools);
    return box;
  }

  function drawReadings() {
    readingsBox.replaceChildren(...state.readings.map(drawReading));
    const tones = state.readings.length - 2;
    readingsBox.append(make("button", {
      type: "button", id: "add", "aria-disabled": tones >= mostTones ? "true" : null,
      onclick: () => {
        if (tones < mostTones) {
          state.readings.push(newReading(`Tone ${tones + 1}`, true));
          draw(`reading-${state.readings.length - 1}`);
        }
      },
    }, "Add a tone"));
  }

  // On the scale of the arithmetic: EV at ISO 100 as dialled, or stops from the exposure now set.
  const evOf = reading => state.isDialled
    ? (reading.shutter === null ? null : pocketArithmetic.lightEv(reading.shutter, reading.aperture ?? state.aperture, reading.iso === null ? iso().speedEv : reading.iso / thirdsAnEv))
    : (reading.stops === null ? null : reading.stops / thirdsAnEv);

  const originEv = () => state.isDialled ? -iso().speedEv : 0;
  const stepsOf = exposureEv => Math.round((exposureEv - originEv()) * thirdsAnEv);
  // What an exposure, or a light, is called: a shutter time at the aperture and ISO to shoot with, or a change in stops.
  const settingText = exposureEv => state.isDialled
    ? shutterText(state.aperture - Math.round((exposureEv + iso().speedEv) * thirdsAnEv))
    : thirdsText(-Math.round(exposureEv * thirdsAnEv));

  function answer() {
    const [bright, dark] = [evOf(state.readings[0]), evOf(state.readings[1])];
    if (bright === null) return null;
    const toneEvs = state.readings.slice(2).map(evOf).filter(ev => ev !== null);
    return pocketArithmetic.place(iso(), light(), guardEv(), { brightEv: bright, darkEv: dark, toneEvs, exposureEv: state.exposure, originEv: originEv() });
  }

  function describe(tone) {
    const parts = [`${holdMarks[tone.holds]} ${signed(tone.placedEv)} EV: ${holdWords[tone.holds]}`];
    if (tone.placedEv >= 0 || tone.holds === "unknown") {
      parts.push(tone.holds === "clipped" && "value" in tone.headroomEv && Number(digits(tone.headroomEv.value, 1)) === 0 ? "just over the clip"
        : tone.holds === "clipped" && "value" in tone.headroomEv
        ? `${figureText({ ...tone.headroomEv, value: -tone.headroomEv.value, lower95: -tone.headroomEv.upper95, upper95: -tone.headroomEv.lower95 }, v => digits(v, 1))} over the clip`
        : tone.headroomEv ? `${figureText(tone.headroomEv, v => v < 0 ? signed(v) : digits(v, 1))} to the clip` : "where it clips was not measured");
    }
    if (tone.placedEv < 0) {
      const room = tone.shadowRoomEv;
      parts.push(!room ? "where texture ends was not measured"
        : "value" in room && Number(digits(room.value, 1)) === 0 ? "just where texture ends"
        : "value" in room && room.value < 0 ? `${digits(room.value, 1)} ${halfWidth(room)} below where texture ends`
        : `${figureText(room, v => v < 0 ? signed(v) : digits(v, 1))} above where texture ends`);
    }
    return parts.join(", ");
  }

  // Looks that pretend the same share a line.
  function pretenceLines(tone) {
    const isHeldBright = ["inGuard", "clean", "texture"].includes(tone.holds), isHeldDark = ["clean", "texture"].includes(tone.holds);
    const looks = test => tone.previews.filter(test).map(p => `"${p.look}"`).join(", ");
    const blown = looks(p => p.showsClipped === true), black = looks(p => p.showsBlack === true);
    return [
      blown ? `Preview blown in ${blown}${isHeldBright ? "; the raw file holds it" : ""}.` : null,
      black ? `Preview black in ${black}${isHeldDark ? "; the raw file holds texture" : ""}.` : null,
    ].filter(Boolean);
  }

  function drawResult() {
    store();
    const found = answer(), set = byId("set"), verdict = byId("verdict"), tools = byId("set-tools");
    tools.hidden = true;
    const tones = [];
    state.readings.forEach((_, i) => { byId(`reading-${i}-verdict`).replaceChildren(); });
    if (!found || found.upsideDown || found.exposureEv === null) {
      set.textContent = "–";
      verdict.textContent = !found ? "Dial in what the spot meter reads on the bright end."
        : found.upsideDown ? "The dark end reads brighter than the bright end: swap them."
        : "No advice: where the sensor clips was not measured at this ISO.";
      drawWarnings(null);
      return;
    }
    set.textContent = state.isDialled ? `${settingText(found.exposureEv)}  ${apertureText(state.aperture)}  ISO ${iso().iso}` : `${settingText(found.exposureEv)} stops`;
    tools.hidden = false;
    byId("advised").hidden = state.exposure === null || found.advisedEv === null;
    const placed = [found.bright, found.dark];
    let next = 0;
    state.readings.slice(2).forEach(r => placed.push(evOf(r) === null ? null : found.tones[next++]));
    placed.forEach((tone, i) => {
      if (!tone) return;
      tones.push([state.readings[i].name, tone]);
      byId(`reading-${i}-verdict`).replaceChildren(make("strong", null, describe(tone)), ...pretenceLines(tone).map(line => make("span", { class: "pretence" }, line)));
    });
    verdict.textContent = summary(found, tones);
    drawWarnings(found.exposureEv);
  }

  function summary(found, tones) {
    const named = (...kinds) => tones.filter(([, t]) => kinds.includes(t.holds)).map(([name]) => name.toLowerCase());
    const lines = [], clipped = named("clipped"), guarded = named("inGuard"), sunk = named("toneOnly", "sunk"), open = named("unknown");
    const list = names => { const text = names.join(", "); return text[0].toUpperCase() + text.slice(1); };
    if (clipped.length) lines.push(`${list(clipped)}: clips.`);
    if (guarded.length) lines.push(`${list(guarded)}: peaks may clip.`);
    if (sunk.length) lines.push(`${list(sunk)}: texture sinks.`);
    if (open.length) lines.push(`${list(open)}: not known.`);
    if (!lines.length) lines.push("All read tones hold texture.");
    if (found.fits === false) lines.push(found.roomEv.value !== undefined && Number(digits(found.roomEv.value, 1)) !== 0 ? `The scene is ${digits(found.roomEv.value, 1)} stops too long.` : "The scene is just too long.");
    else if (found.fits === true && found.leastLightEv !== null && found.mostLightEv !== null) {
      const least = pocketArithmetic.floor(found.leastLightEv - originEv()) + originEv();
      if (least > found.advisedEv) lines.push(`Down to ${settingText(least)} holds both ends.`);
    }
    return lines.join(" ");
  }

  function drawWarnings(exposureEv) {
    const box = byId("warnings"), previews = iso().previews ?? [], grey = iso().greyStandardUncertaintyEv;
    const from = figure => {
      const ev = figure.value ?? figure.atLeast ?? figure.atMost;
      const where = exposureEv === null ? "" : state.isDialled ? `: what meters ${settingText(exposureEv + ev)} or shorter` : `: what meters ${signed(exposureEv + ev)} or more now`;
      return `${figureText(figure)} EV${where}`;
    };
    box.replaceChildren();
    if (!previews.length) box.append(make("p", null, "No preview was measured at this ISO: what the camera's warnings mean is not known."));
    previews.forEach((p, i) => {
      const percent = p.highlightWarningPercent, look = make("div", { class: "look" }, make("h3", null, `Look: ${p.look}`));
      const blinks = iso().looks[i].blinksFromEv;
      look.append(make("p", null, make("strong", null, "Blinks from "), blinks ? from(blinks) : "not measured"));
      if (p.hiddenHeadroomEv) look.append(make("p", null, `The raw file holds ${figureText(p.hiddenHeadroomEv, v => v < 0 ? signed(v) : digits(v, 1))} stops above that.`));
      const advice = !percent ? "not measured" : "value" in percent ? `${Math.round(percent.value)} %` : "atLeast" in percent
        ? (percent.atLeast >= 99 ? "none will do: blown before bright texture ends" : `over ${Math.floor(percent.atLeast)} %`) : `at most ${Math.ceil(percent.atMost)} %`;
      look.append(make("p", null, make("strong", null, "Striped warning to set "), advice));
      const chosen = state.warning[i] ?? (percent && "value" in percent ? Math.min(100, Math.round(percent.value)) : 95);
      look.append(stepper(`warning-${i}`, `Striped warning in ${p.look}, percent`, Array.from({ length: 51 }, (_, n) => ({ value: n + 50, label: `${n + 50} %` })), chosen,
        (v, id) => { state.warning[i] = v; store(); drawWarnings(exposureEv); byId(id)?.focus(); }));
      const appears = pocketArithmetic.warningFromEv(p, chosen, grey);
      look.append(make("p", { class: "verdict" }, appears ? `Appears from ${from(appears)}` : "This look's curve does not pass that code."));
      box.append(look);
    });
    byId("sure").textContent = grey ? "± is half the 95 % interval in stops: sensor, meter, shutter and lamp together." : "± is half the 95 % interval in stops; the meter is not in it.";
    const first = channelWords[light().limitingChannel];
    byId("cautions").replaceChildren(...[
      "Sensor only: flare of lens and scene comes on top.",
      guardEv() > 0 ? `${thirdsText(Math.round(guardEv() * thirdsAnEv)).replace("+", "")} EV of guard are left below the clip for the peaks of bright texture and a meter step.` : "No guard is left below the clip: the peaks of bright texture may go.",
      first ? `First to clip: ${first}.` : null,
      light().name ? "The spot meter is taken to read this light as green does." : iso().aboveAnyLightEv ? "For the light of the set: under another, red or blue may clip first, and headroom is less." : null,
      ...(iso().cautions ?? []),
    ].filter(Boolean).map(text => make("li", null, text)));
  }

  function draw(focus) {
    drawCamera();
    drawReadings();
    drawResult();
    if (focus) byId(focus)?.focus({ preventScroll: true });
  }

  function nudge(by) {
    const found = answer();
    if (!found || found.upsideDown || found.exposureEv === null) return;
    state.exposure = originEv() + (stepsOf(found.exposureEv) + by) / thirdsAnEv;
    drawResult();
  }

  // Auto follows the system; the choice is kept where the browser lets a file keep anything.
  function setTheme(theme) {
    document.documentElement.dataset.theme = theme;
    document.querySelectorAll("#themes button").forEach(b => b.setAttribute("aria-pressed", String(b.value === theme)));
    try { localStorage.setItem("sensorlab-pocket-theme", theme); } catch { /* a file may not be allowed to */ }
  }
  let theme = "auto";
  try { theme = localStorage.getItem("sensorlab-pocket-theme") ?? theme; } catch { /* as above */ }
  setTheme(["auto", "sun", "dark"].includes(theme) ? theme : "auto");
  document.querySelectorAll("#themes button").forEach(b => b.addEventListener("click", () => setTheme(b.value)));

  calculator.addEventListener("submit", e => e.preventDefault());
  byId("less").addEventListener("click", () => nudge(1));
  byId("more").addEventListener("click", () => nudge(-1));
  byId("advised").addEventListener("click", () => { state.exposure = null; drawResult(); byId("more").focus(); });
  byId("themes").hidden = calculator.hidden = false;
  draw();
})();
