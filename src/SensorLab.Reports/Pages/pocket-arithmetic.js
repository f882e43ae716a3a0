"use strict";

// What the library's Placement does, on the page's own figures: tests run the same questions through both.
const pocketArithmetic = (() => {
  const stepsAnEv = 3, hair = 1e-9, highestCode = 255, codeUncertainty = 0.28867513459481287, quantile975 = 1.959963984540054;
  const first = (...values) => values.find(v => v !== undefined && v !== null) ?? null;

  const ceiling = ev => Math.ceil(ev * stepsAnEv - hair) / stepsAnEv;
  const floor = ev => Math.floor(ev * stepsAnEv + hair) / stepsAnEv;

  // The light, in EV at ISO 100, that dialled settings put at middle grey; shutter and f-number in thirds.
  const lightEv = (shutterThirds, apertureThirds, speedEv) => (apertureThirds - shutterThirds) / stepsAnEv - speedEv;

  function shifted(figure, amount) {
    if (!figure) return null;
    const moved = { ...figure };
    for (const key of ["value", "lower95", "upper95", "atLeast", "atMost"]) if (key in moved) moved[key] += amount;
    return moved;
  }

  function negated(figure) {
    if (!figure) return null;
    if ("value" in figure) return { ...figure, value: -figure.value, lower95: -figure.upper95, upper95: -figure.lower95 };
    return "atLeast" in figure ? { atMost: -figure.atLeast } : { atLeast: -figure.atMost };
  }

  function clips(headroom) {
    if (!headroom) return null;
    if ("value" in headroom) return headroom.value <= 0;
    if (headroom.atLeast > 0) return false;
    return headroom.atMost <= 0 ? true : null;
  }

  // Whether a tone lies at or above a limit that may be a bound.
  function reaches(limit, ev) {
    if (!limit) return null;
    if ("value" in limit) return ev >= limit.value;
    if ("atMost" in limit && ev >= limit.atMost) return true;
    return "atLeast" in limit && ev < limit.atLeast ? false : null;
  }

  function holds(iso, light, placedEv, guardEv) {
    const clipped = clips(shifted(light.aboveEv, -placedEv));
    if (clipped === null) return "unknown";
    if (clipped) return "clipped";
    const brightest = shifted(light.aboveEv, -guardEv), limit = first(brightest.value, brightest.atLeast);
    if (limit !== null && placedEv > limit) return "inGuard";
    let isKnown = true;
    for (const [limitEv, hold] of [[iso.darkestCleanEv, "clean"], [iso.darkestTexturedEv, "texture"], [iso.darkestToneEv, "toneOnly"]]) {
      const reached = reaches(limitEv, placedEv);
      if (reached) return hold;
      isKnown = isKnown && reached !== null;
    }
    return isKnown ? "sunk" : "unknown";
  }

  const inOrder = curve => [...curve].sort((a, b) => a.ev - b.ev);

  function codeAt(curve, ev) {
    const points = inOrder(curve), upper = points.findIndex(p => p.ev >= ev);
    if (upper < 0 || (upper === 0 && points[0].ev > ev)) return null;
    if (upper === 0 || points[upper].ev <= points[upper - 1].ev) return points[upper].code;
    const share = (ev - points[upper - 1].ev) / (points[upper].ev - points[upper - 1].ev);
    return (1 - share) * points[upper - 1].code + share * points[upper].code;
  }

  // What every look of the camera's preview pretends of a tone.
  const pretences = (iso, placedEv) => (iso.previews ?? []).map(p => ({
    look: p.look,
    toneCode: codeAt(p.toneCurve ?? [], placedEv),
    showsClipped: reaches(p.clipEv, placedEv),
    showsBlack: reaches(negated(p.shadowEndEv), -placedEv),
  }));

  // From where a striped warning that is set to a percentage appears, in EV from middle grey.
  function warningFromEv(preview, percent, greyEv) {
    const code = percent * highestCode / 100, curve = inOrder(preview.toneCurve ?? []);
    const upper = curve.findIndex(p => p.code >= code);
    if (upper < 1) return null;
    const low = curve[upper - 1], high = curve[upper];
    const evPerCode = (high.ev - low.ev) / (high.code - low.code), grey = greyEv ?? 0;
    const standardUncertainty = Math.sqrt(grey * grey + codeUncertainty * evPerCode * codeUncertainty * evPerCode);
    const value = low.ev + (code - low.code) * evPerCode, half = quantile975 * standardUncertainty;
    return { value, standardUncertainty, lower95: value - half, upper95: value + half };
  }

  // What is left between both limits, pessimistic sides first: an estimate, a bound, or nothing.
  function room(bright, dark, spanEv) {
    if (!bright || !dark) return null;
    const least = first(bright.value, bright.atLeast), deepest = first(dark.value, dark.atMost);
    if ("value" in bright && "value" in dark) return { value: bright.value - dark.value - spanEv };
    if (least !== null && deepest !== null) return { atLeast: least - deepest - spanEv };
    const most = first(bright.value, bright.atMost), shallowest = first(dark.value, dark.atLeast);
    return most !== null && shallowest !== null ? { atMost: most - shallowest - spanEv } : null;
  }

  function fits(left) {
    if (!left) return null;
    if ("value" in left) return left.value >= 0;
    if (left.atLeast >= 0) return true;
    return left.atMost < 0 ? false : null;
  }

  // Readings and exposures on one scale of light: { brightEv, darkEv, toneEvs, exposureEv, originEv }.
  function place(iso, light, guardEv, readings) {
    const hasDark = readings.darkEv !== null && readings.darkEv !== undefined, originEv = readings.originEv ?? 0;
    if (hasDark && readings.darkEv > readings.brightEv) return { upsideDown: true };
    const bright = shifted(light.aboveEv, -guardEv), dark = iso.darkestTexturedEv;
    const highest = bright ? first(bright.value, bright.atLeast) : null, lowest = dark ? first(dark.value, dark.atMost) : null;
    const mostLightEv = highest === null ? null : -(highest - readings.brightEv);
    const leastLightEv = !hasDark || lowest === null ? null : -(lowest - readings.darkEv);
    const advisedEv = mostLightEv !== null ? ceiling(mostLightEv - originEv) + originEv
      : leastLightEv !== null ? floor(leastLightEv - originEv) + originEv : null;
    const exposureEv = first(readings.exposureEv, advisedEv);
    const placed = ev => {
      const placedEv = ev - exposureEv;
      return {
        placedEv,
        headroomEv: shifted(light.aboveEv, -placedEv),
        shadowRoomEv: shifted(negated(iso.darkestTexturedEv), placedEv),
        holds: holds(iso, light, placedEv, guardEv),
        previews: pretences(iso, placedEv),
      };
    };
    const roomEv = hasDark ? room(bright, dark, readings.brightEv - readings.darkEv) : null;
    return {
      mostLightEv, leastLightEv, advisedEv, exposureEv, roomEv,
      fits: fits(roomEv),
      bright: exposureEv === null ? null : placed(readings.brightEv),
      dark: exposureEv === null || !hasDark ? null : placed(readings.darkEv),
      tones: exposureEv === null ? [] : (readings.toneEvs ?? []).map(placed),
    };
  }

  return { lightEv, place, warningFromEv, ceiling, floor, clips };
})();
