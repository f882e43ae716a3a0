import { byId, el, redraw } from './dom.js';

// The report's own drawings, drawn anew as the set grows.
const titles = [['latitude-ruler', 'What it holds, in EV from middle grey'], ['lamp', 'The lamp over time'], ['photon-transfer-', 'Noise against signal'], ['response-', 'Response'], ['snr-', 'Signal to noise'], ['shadow-end', 'Where texture ends, ISO to ISO']];
const titleOf = name => (titles.find(([start]) => name.startsWith(start))?.[1] ?? name) + (/iso-(\d+)/.test(name) ? `, ISO ${/iso-(\d+)/.exec(name)[1]}` : '');

export function pictures(state) {
  const place = name => titles.findIndex(([start]) => name.startsWith(start));
  const shown = state.charts.filter(name => place(name) >= 0).sort((a, b) => place(a) - place(b));
  byId('pictures').hidden = shown.length === 0;
  if (shown.length) redraw(byId('picturesBody'), [shown, state.chartSerial, state.frames.seen], () => [
    ...shown.map((name, i) => picture(name, titleOf(name), `/chart/${name}?v=${state.chartSerial}-${name === 'lamp' ? state.frames.seen : 0}`, i === 0)),
    el('details', { 'data-key': 'field' }, el('summary', { text: 'The field, with the region measured' }), el('img', { class: 'field', loading: 'lazy', src: `/field.png?v=${state.chartSerial}`, alt: 'The lit field as the camera saw it, with the region that is measured and the spot that the meter looks at' })),
  ]);
}

function picture(name, title, address, isOpen) {
  return el('details', { 'data-key': name, open: isOpen }, el('summary', { text: title }), el('picture', {},
    el('source', { media: '(prefers-color-scheme: dark)', srcset: `${address}&theme=dark` }),
    el('img', { class: 'chart', loading: isOpen ? null : 'lazy', src: address, alt: `${title}: of the frames so far; the figures stand in the tables of this page and of the report` })));
}
