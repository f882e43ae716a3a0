import { byId, say, send } from './dom.js';
import { begin } from './plan.js';
import { finish } from './finish.js';
import { lists } from './lists.js';
import { pictures } from './pictures.js';
import { stage } from './stage.js';
import * as sound from './sound.js';

// The state comes as one document whenever it changes; each part of the page draws its own share of it.
let heard = 0;

function show(state) {
  const isOpen = state.phase !== 'idle';
  byId('set').textContent = state.set ?? '';
  byId('close').hidden = !isOpen;
  byId('begin').hidden = isOpen;
  byId('stage').hidden = !isOpen || state.phase === 'done';
  if (!isOpen) begin().catch(error => say(byId('trouble'), error.message));
  if (isOpen) stage(state);
  finish(state);
  lists(state);
  pictures(state);
  if (state.trouble !== show.trouble) say(byId('trouble'), state.trouble);
  show.trouble = state.trouble;
  if (state.verdict && state.verdict.serial !== heard) {
    heard = state.verdict.serial;
    sound.play(state.verdict.isGood);
  }
  document.title = state.next ? `ISO ${state.next.iso}, ${state.next.shutter} – Bench` : 'Bench – SensorLab';
}

const events = new EventSource('/api/events');
events.addEventListener('message', event => { byId('link').hidden = true; show(JSON.parse(event.data)); });
events.addEventListener('error', () => { byId('link').hidden = false; });
byId('close').addEventListener('click', () => send('/api/close', {}).catch(error => say(byId('trouble'), error.message)));
byId('sound').addEventListener('click', async () => {
  await sound.turn(!sound.isOn());
  byId('sound').setAttribute('aria-pressed', String(sound.isOn()));
  byId('sound').textContent = sound.isOn() ? 'Sound on' : 'Sound off';
});
