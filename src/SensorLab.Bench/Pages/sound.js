// Two sounds that differ in more than pitch: one short high note for good, three low ones for "shoot again".
let context = null;

export const isOn = () => context !== null;

export async function turn(on) {
  if (on) {
    context = new AudioContext();
    await context.resume();
    play(true);
  } else {
    await context?.close();
    context = null;
  }
}

export function play(isGood) {
  if (!context) return;
  (isGood ? [[880, 0]] : [[220, 0], [220, 0.28], [220, 0.56]]).forEach(([hertz, after]) => note(hertz, after));
}

function note(hertz, after) {
  const start = context.currentTime + after;
  const tone = new OscillatorNode(context, { frequency: hertz, type: 'triangle' });
  const level = new GainNode(context, { gain: 0 });
  level.gain.setValueAtTime(0, start);
  level.gain.linearRampToValueAtTime(0.5, start + 0.01);
  level.gain.exponentialRampToValueAtTime(0.001, start + 0.2);
  tone.connect(level).connect(context.destination);
  tone.start(start);
  tone.stop(start + 0.22);
}
