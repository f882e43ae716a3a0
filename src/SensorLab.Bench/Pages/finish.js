import { byId, el, redraw, say, send } from './dom.js';
import { choose } from './folders.js';

export function finish(state) {
  byId('finish').hidden = state.phase === 'idle' || state.frames.assigned === 0;
  redraw(byId('finishing'), [state.phase, state.progress !== null, state.profile, state.next === null], () =>
    state.phase === 'measuring' ? measuring() : state.phase === 'done' ? done(state) : ready(state));
  const bar = byId('finishing').querySelector('progress');
  if (bar) bar.value = Math.round(100 * (state.progress ?? 0));
}

const act = (address, document) => send(address, document).then(answer => say(byId('trouble'), answer?.notices?.join(' ')), error => say(byId('trouble'), error.message));
const button = (text, key, click, isMain) => el('button', { type: 'button', 'data-key': key, class: isMain ? 'main' : null, on: { click }, text });

function ready(state) {
  return [
    el('p', { text: state.next ? 'The set is not whole yet. It can be finished all the same: what the missing frames would have told stays open.' : 'The frames are there. What was measured is not measured again.' }),
    el('p', { class: 'go' }, button('Finish the set', 'characterise', () => act('/api/characterise', {}), state.next === null)),
  ];
}

const working = label => el('progress', { max: 100, value: 0, 'aria-label': label });

function measuring() {
  return [el('p', { text: 'Measuring what is left, and fitting…' }), working('Measuring')];
}

function shelved(shelf) {
  if (!shelf) return [];
  return [
    el('h3', { text: 'The shelf' }),
    shelf.holds ? el('p', { class: 'quiet', text: 'The profile is on your shelf: later sets of this body can be held against it.' })
      : el('p', { class: 'row' }, button('Put it on the shelf', 'shelve', () => act('/api/shelf', {}))),
  ];
}

function done(state) {
  const link = (href, text) => el('li', {}, el('a', { href, target: '_blank', rel: 'noopener', text }));
  const download = (href, name, text) => el('li', {}, el('a', { href, download: name, text }));
  const anonymous = el('input', { type: 'checkbox', id: 'anonymous', 'data-key': 'anonymous' });
  const accept = el('input', { type: 'checkbox', id: 'accept', 'data-key': 'accept' });
  const key = el('input', { type: 'text', id: 'key', 'data-key': 'key', spellcheck: 'false', autocomplete: 'off', value: state.profile.key });
  anonymous.addEventListener('change', () => { key.value = anonymous.checked ? '' : state.profile.key ?? ''; });
  const chooseKey = async () => { const path = await choose('', 'key'); if (path) key.value = path; };
  const earlier = state.profile.shelf?.earlier ?? [];
  const compare = one => el('li', {}, button(`With ${one.label}`, one.path, () => act('/api/retest', { before: one.path })));
  return [
    el('h3', { text: state.profile.body }),
    ...state.profile.answers.map((text, i) => el('p', { class: i === 0 ? 'answer' : null, text })),
    el('ul', { class: 'links' }, link('/report/report.html', 'The report'), link('/report/report.pdf', 'The report to print'), link('/pocket.html', 'The pocket sheet'), link('/pocket.pdf', 'The pocket sheet to print'), download('/profile.json', 'profile.json', 'The sensor profile')),
    state.profile.path ? el('p', { class: 'quiet', text: `Kept as ${state.profile.path}, the report beside it.` }) : null,
    el('h3', { text: 'Against an earlier profile' }),
    ...(earlier.length > 0 ? [el('p', { class: 'quiet', text: 'Of this body, on the shelf:' }), el('ul', { class: 'links' }, ...earlier.map(compare))] : []),
    el('p', { class: 'row' }, button('Choose the earlier profile…', 'retest', async () => { const before = await choose('', 'profile'); if (before) await act('/api/retest', { before }); }), state.profile.hasRetest ? el('a', { href: '/retest/retest.html', target: '_blank', rel: 'noopener', text: 'The re-test' }) : null),
    ...shelved(state.profile.shelf),
    el('h3', { text: 'A day\u2019s work' }),
    el('p', { class: 'quiet', text: 'How a finished assignment used this sensor: what clipped, what was left, what sank. Its raw files stay as they are.' }),
    state.progress !== null ? working('Reading the day') : el('p', { class: 'row' }, button('Choose the day\u2019s folder…', 'debrief', async () => { const folder = await choose('', 'folder'); if (folder) await act('/api/debrief', { folder }); }), state.profile.hasDebrief ? el('a', { href: '/debrief/debrief.html', target: '_blank', rel: 'noopener', text: 'The debrief' }) : null),
    el('h3', { text: 'Publish' }),
    el('p', {}, anonymous, ' ', el('label', { for: 'anonymous', text: 'without names and serial numbers' })),
    el('p', {}, accept, ' ', el('label', { for: 'accept', text: 'with its findings, which I accept' })),
    el('p', { class: 'row' }, el('label', { for: 'key', text: 'Sign it with this private key' }), key, button('Choose…', 'chooseKey', chooseKey)),
    el('p', { class: 'quiet', text: 'Empty for no signature. The command "sensorlab key --out name.pem" makes a key. A signature tells whose key it is, on an anonymous bundle as well.' }),
    el('p', { class: 'row' }, button('Make the bundle', 'publish', () => act('/api/publish', { anonymous: anonymous.checked, acceptFindings: accept.checked, key: key.value })), state.profile.hasBundle ? el('a', { href: '/bundle.zip', download: 'bundle.zip', text: 'The bundle' }) : null),
    el('p', { class: 'row' }, button('Finish again with the frames that came since', 'again', () => act('/api/characterise', {}))),
  ];
}
