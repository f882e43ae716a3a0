import { byId, el, plural, redraw } from './dom.js';

// What is read from where the camera stands.
const words = {
  dark: 'Dark: cap on, eyepiece covered',
  metered: 'Metered: the meter reads zero',
  bracket: 'Bracket: leave the light as it is',
  light: 'Another light, metered',
};

export function stage(state) {
  redraw(byId('verdict'), state.verdict, () => verdict(state.verdict));
  byId('verdict').dataset.kind = !state.verdict ? 'none' : state.verdict.isGood ? 'good' : 'again';
  redraw(byId('next'), [state.next, state.isLooked, state.plan, state.phase, state.frames.seen > 0, state.questions.length], () => next(state));
  redraw(byId('counts'), [state.next?.framesLeft, state.next?.minutesLeft, state.next?.then, state.frames, state.waiting.length], () => counts(state));
}

function verdict(said) {
  if (!said) return el('p', { class: 'mark', text: 'Waiting for the first frame' });
  return [
    el('p', { class: 'mark', text: said.isGood ? 'Good' : 'Look here' }),
    ...(said.isGood && said.words === 'Good.' ? [] : [el('p', { class: 'what', text: said.words })]),
    ...(said.remedy ? [el('p', { class: 'remedy', text: said.remedy })] : []),
  ];
}

function next(state) {
  const shot = state.next;
  if (!state.isLooked) return el('p', { class: 'all', text: 'Looking through the folder.' });
  if (!shot) {
    return el('p', { class: 'all', text: !state.plan ? (state.frames.seen > 0 ? 'No plan: shoot on, or finish.' : 'No plan: frames are judged as they come.') : 'All there. Finish the set.' });
  }

  const dial = (label, text) => el('div', { class: 'dial' }, el('dt', { text: label }), el('dd', { text }));
  return [
    ...(shot.isPassedOver ? [el('p', { class: 'note', text: 'Passed over: go back to this one.' })] : []),
    ...(shot.reason ? [el('p', { class: 'note', text: shot.reason })] : []),
    el('dl', { class: 'dials' }, dial('ISO', String(shot.iso)), dial('Shutter', shot.shutter), dial(shot.frames === 1 ? 'frame' : 'frames', `× ${shot.frames}`)),
    el('p', { class: 'role', text: words[shot.role] + (shot.lightStep ? `; light step ${shot.lightStep}` : '') + (shot.light ? `: ${shot.light}` : '') + (shot.look ? `; look ${shot.look}` : '') }),
    ...(shot.actions.length ? [el('ul', { class: 'actions' }, ...shot.actions.map(text => el('li', { text })))] : []),
  ];
}

function counts(state) {
  const line = [];
  if (state.next) line.push(el('p', {}, el('b', { text: String(state.next.framesLeft) }), ' frames left'), el('p', {}, 'about ', el('b', { text: String(state.next.minutesLeft) }), ' min'));
  if (state.next?.then) line.push(el('p', { text: `then ${state.next.then}` }));
  line.push(el('p', { class: 'quiet', text: `${plural(state.frames.seen, 'frame')} seen, ${state.frames.assigned} of the set${state.frames.refused ? `, ${state.frames.refused} unreadable` : ''}${state.waiting.length ? `, ${state.waiting.length} coming in` : ''}` }));
  return line;
}
