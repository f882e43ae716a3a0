import { byId, el, plural, say, send } from './dom.js';
import { choose } from './folders.js';

// The form that begins a set. The plan and its prediction change with every word.
let form = null;
let plan = null;
let asked = 0;

const value = id => byId(id).value.trim();
const number = id => value(id) === '' ? null : Number(value(id));

export async function begin() {
  if (form) return;
  form = await send('/api/form');
  byId('protocol').replaceChildren(
    ...form.protocols.map(p => el('option', { value: p.name, text: p.title })),
    el('option', { value: '', text: 'No plan: judge what is there' }));
  byId('protocol').value = form.protocols.some(p => p.name === 'evening') ? 'evening' : form.protocols[0]?.name ?? '';
  for (const id of ['fastest', 'slowest']) byId(id).replaceChildren(...form.shutters.map(t => el('option', { value: t, text: `${t} s` })));
  byId('fastest').value = form.fastest;
  byId('slowest').value = form.slowest;
  byId('metered').replaceChildren(el('option', { value: '', text: 'unknown' }), ...form.shutters.map(t => el('option', { value: t, text: `${t} s` })));
  byId('mains').value = form.mains ?? '';
  await renew();
}

async function renew() {
  const turn = ++asked;
  const protocol = form.protocols.find(p => p.name === value('protocol'));
  byId('purpose').textContent = protocol?.purpose ?? 'Frames of a finished set, or of another list: each is told by its settings and its light, as far as that goes.';
  byId('planned').hidden = !protocol;
  plan = null;
  if (!protocol) {
    say(byId('formTrouble'));
    byId('preview').replaceChildren();
    return;
  }

  try {
    const isos = value('isos') === '' ? [] : value('isos').split(/[\s,;]+/).filter(w => w !== '').map(Number);
    if (isos.some(i => !Number.isInteger(i) || i < 1)) throw new Error('ISOs are whole numbers, as in 100, 400.');
    const made = await send('/api/plan', {
      protocol: protocol.name, isos, fastest: value('fastest'), slowest: value('slowest'), mains: number('mains'),
      meteredShutter: value('metered') && number('meteredIso') ? value('metered') : null, meteredIso: number('meteredIso'), from: value('from') || null,
    });
    if (turn !== asked) return;
    plan = made;
    say(byId('formTrouble'));
    preview(made);
  } catch (error) {
    if (turn !== asked) return;
    byId('preview').replaceChildren();
    say(byId('formTrouble'), error.message);
  }
}

const half = figure => figure?.budget?.upper95 !== undefined ? (figure.budget.upper95 - figure.budget.lower95) / 2 : figure?.upper95 !== undefined ? (figure.upper95 - figure.lower95) / 2 : null;

function preview(made) {
  const lines = made.prediction.map(p => `ISO ${p.iso}: clip to ±${(half(p.aboveEv) ?? NaN).toFixed(2)} EV, texture to ±${(half(p.belowEv) ?? NaN).toFixed(2)} EV`.replaceAll('±NaN EV', 'no figure'));
  byId('preview').replaceChildren(
    el('p', { class: 'sum', text: `${plural(made.summary.frames, 'frame')}, about ${plural(made.summary.minutes, 'minute')}, ISO ${made.isos.join(', ')}` }),
    el('h3', { text: 'To lay out' }), el('ul', {}, ...made.kit.map(text => el('li', { text }))),
    el('h3', { text: 'How sure it should be' }), el('ul', {}, ...lines.map(text => el('li', { text }))),
    ...(made.notices.length ? [el('h3', { text: 'What it cannot reach' }), el('ul', {}, ...made.notices.map(n => el('li', { text: `${n.message} ${n.remedy}` })))] : []),
    el('h3', { text: 'Take care' }), el('ul', {}, ...made.cautions.map(text => el('li', { text }))));
}

byId('form').addEventListener('change', event => { if (event.target.id !== 'folder') renew(); });
byId('browse').addEventListener('click', async () => {
  const path = await choose(value('folder') || form?.home, 'folder');
  if (path) byId('folder').value = path;
  byId('browse').focus();
});
byId('browseProfile').addEventListener('click', async () => {
  const path = await choose('', 'profile');
  if (path) { byId('from').value = path; renew(); }
  byId('browseProfile').focus();
});
byId('form').addEventListener('submit', async event => {
  event.preventDefault();
  try {
    if (value('protocol') && !plan) await renew();
    if (value('protocol') && !plan) return;
    await send('/api/sets', { folder: value('folder'), plan, metered: [] });
    say(byId('formTrouble'));
    byId('main').focus();
  } catch (error) {
    say(byId('formTrouble'), error.message);
  }
});
