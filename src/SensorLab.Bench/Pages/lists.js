import { byId, el, ev, plural, redraw, say, send, table } from './dom.js';

export function lists(state) {
  part('goals', state.isos.length > 0, [state.figures, state.isos, state.wanted], () => goals(state));
  part('questions', state.questions.length > 0, state.questions, () => state.questions.map(question));
  part('findings', state.findings.length > 0, state.findings, () => state.findings.map(finding));
  part('levels', state.levels.length > 0, state.levels, () => levels(state));
  part('frames', state.latest.length > 0, state.latest, () => frames(state));
  part('share', state.share !== null && state.share !== undefined, state.share, () => share(state.share));
}

function part(id, isShown, data, make) {
  byId(id).hidden = !isShown;
  if (isShown) redraw(byId(`${id}Body`), data, make);
}

const digits = (value, unit) => value === null || value === undefined ? '–' : value.toFixed(unit === '%' ? 1 : 3);

function figureText(f) {
  if (f.value !== null) return `${Number(f.value.toPrecision(4))} ${f.unit}`;
  if (f.atLeast !== null) return `at least ${Number(f.atLeast.toPrecision(3))} ${f.unit}`;
  return f.atMost !== null ? `at most ${Number(f.atMost.toPrecision(3))} ${f.unit}` : 'not measured';
}

function goals(state) {
  const units = Object.fromEntries(state.figures.map(f => [f.name, [f.label, f.wantedUnit]]));
  const edit = Object.entries(state.wanted).filter(([name]) => units[name]).map(([name, goal]) => {
    const id = `want-${name}`;
    const input = el('input', { id, 'data-key': id, type: 'number', min: '0', step: 'any', value: goal, on: { change: async () => { try { await send('/api/wanted', { figure: name, uncertainty: Number(input.value) }); say(byId('trouble')); } catch (error) { say(byId('trouble'), error.message); } } } });
    return el('div', {}, el('label', { for: id, text: `${units[name][0]}, ± ${units[name][1]}` }), input);
  });
  return [
    el('ul', { class: 'isos' }, ...state.isos.map(i => el('li', { class: i.isEnough ? 'enough' : 'open' }, el('b', { text: `ISO ${i.iso}` }), ' ', i.words))),
    state.figures.length ? table('Beside each figure the uncertainty that this set has reached and the one wanted, both as half the 95 % interval of its sampling; what the meter adds, more frames do not narrow.',
      ['ISO', { words: 'Figure' }, 'Value', 'Reached ±', 'Wanted ±', { words: 'Stands' }],
      state.figures.map(f => [String(f.iso), f.label, figureText(f), f.uncertainty === null ? '–' : `${digits(f.uncertainty, f.wantedUnit)} ${f.wantedUnit}`, `${f.wanted} ${f.wantedUnit}`, f.isReached ? 'yes' : 'not yet'])) : null,
    edit.length ? el('details', { 'data-key': 'wanted' }, el('summary', { text: 'How sure it is to be' }), el('div', { class: 'grid' }, ...edit)) : null,
  ];
}

const sayRole = (files, role) => send('/api/frames', { files, role }).then(() => say(byId('trouble')), error => say(byId('trouble'), error.message));

function question(q) {
  return el('div', { class: 'item' }, el('p', { text: q.question }),
    el('p', { class: 'quiet', text: q.files.join(', ') }),
    el('div', { class: 'row' }, ...['dark', 'metered', 'bracket', 'none'].map(role => el('button', { type: 'button', 'data-key': `${role} ${q.files[0]}`, on: { click: () => sayRole(q.files, role) }, text: role === 'none' ? 'not of the set' : role }))));
}

function finding(f) {
  return el('div', { class: `item ${f.severity}` }, el('p', {}, el('b', { text: f.severity === 'refusal' ? 'Refused: ' : f.severity === 'warning' ? 'Mind: ' : 'Note: ' }), f.message), f.remedy ? el('p', { class: 'remedy', text: f.remedy }) : null,
    f.frames.length ? el('details', { 'data-key': `${f.code} ${f.iso} ${f.frames[0]}` }, el('summary', { text: plural(f.frames.length, 'frame') }), el('p', { class: 'quiet', text: f.frames.join(', ') })) : null);
}

function levels(state) {
  const stands = { open: 'to shoot', shot: 'shot', measured: 'measured', skipped: 'left out: enough' };
  const byIso = Map.groupBy(state.levels, l => l.iso);
  return [...byIso].sort(([a], [b]) => a - b).map(([iso, own]) => el('details', { 'data-key': `levels ${iso}` },
    el('summary', { text: `ISO ${iso}: ${own.filter(l => l.state === 'measured').length} of ${plural(own.length, 'setting')} measured` }),
    table(`Settings of ISO ${iso}`, [{ words: 'Setting' }, 'Frames', 'From grey, EV', 'Of the range', { words: 'State' }],
      own.map(l => [`${l.role} ${l.shutter}${l.lightStep ?? l.light ? ` (${l.lightStep ?? l.light})` : ''}`, l.wanted === null ? String(l.frames) : `${l.frames} of ${l.wanted}`, ev(l.ev), l.signalShare === null ? '' : `${(100 * Math.min(1, l.signalShare)).toFixed(1)} %`, l.frames > 0 && l.wanted !== null && l.frames < l.wanted && l.state !== 'skipped' ? `${l.wanted - l.frames} missing` : stands[l.state]]))));
}

function frames(state) {
  return [...state.latest.map(f => el('div', { class: `item frame ${f.flaws.length ? 'again' : f.role === 'none' ? 'aside' : 'good'}` },
    el('p', {}, el('b', { text: f.flaws.length ? 'Look: ' : f.role === 'none' ? 'Aside: ' : 'Good: ' }), `${f.file} – ${f.role === 'none' ? 'not of the set' : f.role}${f.iso ? `, ISO ${f.iso}` : ''}${f.shutter ? `, ${f.shutter} s` : ''}${f.lightStep ? `, ${f.lightStep}` : ''}${f.lightEv !== null ? `, light ${ev(f.lightEv)} EV` : ''}`),
    ...f.flaws.map(x => el('p', { class: 'remedy', text: `${x.message} ${x.remedy}` })),
    el('details', { 'data-key': `why ${f.file}` }, el('summary', { text: 'Why, and what to do' }), el('p', { class: 'quiet', text: f.why }),
      el('div', { class: 'row' },
        el('button', { type: 'button', 'data-key': `strike ${f.file}`, on: { click: () => sayRole([f.file], 'none') }, text: 'Strike this frame' }),
        el('button', { type: 'button', 'data-key': `back ${f.file}`, on: { click: () => sayRole([f.file], null) }, text: 'Judge it anew' })))))];
}

function share(s) {
  const one = (title, link, code) => link ? el('figure', { class: 'code' }, el('img', { src: code, alt: `QR code for the ${title}`, width: 240, height: 240 }), el('figcaption', {}, el('b', { text: title }), el('br'), el('code', { text: link }))) : null;
  return [el('p', { text: s.who }), el('div', { class: 'codes' }, one('shot list', s.shotList, '/share/shot-list.svg'), one('pocket sheet', s.pocketSheet, '/share/pocket.svg'))];
}
