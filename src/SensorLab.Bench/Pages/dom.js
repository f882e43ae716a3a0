// Elements with their text; text from files goes in through textContent alone.
export const byId = id => document.getElementById(id);

export function el(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (key === 'on') for (const [event, act] of Object.entries(value)) element.addEventListener(event, act);
    else if (key === 'text') element.textContent = value;
    else element.setAttribute(key, value === true ? '' : value);
  }
  element.append(...children.filter(child => child !== null && child !== undefined));
  return element;
}

// Draws a part anew only where its data changed, and gives the focus back to what had it.
const drawn = new Map();
export function redraw(target, data, make) {
  const text = JSON.stringify(data);
  if (drawn.get(target) === text) return;
  drawn.set(target, text);
  const held = target.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  const open = new Set([...target.querySelectorAll('details[open]')].map(d => d.dataset.key));
  target.replaceChildren(...[make()].flat().filter(Boolean));
  for (const d of target.querySelectorAll('details')) if (open.has(d.dataset.key)) d.open = true;
  if (held) [...target.querySelectorAll('[data-key]')].find(e => e.dataset.key === held)?.focus();
}

export function table(caption, heads, rows) {
  const head = el('tr', {}, ...heads.map((h, i) => el('th', { scope: 'col', class: i === 0 || h.words ? 'words' : null, text: h.words ?? h })));
  const body = rows.map(cells => el('tr', {}, ...cells.map((cell, i) => {
    const content = cell instanceof Node ? cell : document.createTextNode(cell ?? '');
    const words = heads[i].words !== undefined;
    return i === 0
      ? el('th', { scope: 'row', 'data-label': labelOf(heads[i]) }, content)
      : el('td', { class: words ? 'words' : null, 'data-label': labelOf(heads[i]) }, content);
  })));
  return el('div', { class: 'scroll' }, el('table', { class: 'cards' }, el('caption', { text: caption }), el('thead', {}, head), el('tbody', {}, ...body)));
}

const labelOf = head => head.words ?? head;

export async function send(address, document) {
  const answer = await fetch(address, document === undefined ? {} : { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(document) });
  const isJson = answer.headers.get('Content-Type')?.startsWith('application/json');
  const body = isJson ? await answer.json() : null;
  if (!answer.ok) throw new Error(body?.error ?? (answer.status === 401 ? 'This page has lost its token: open the address that the terminal shows.' : `The bench answered ${answer.status}.`));
  return body;
}

export function say(target, error) {
  target.textContent = error ?? '';
  target.hidden = !error;
}

export const ev = value => value === null || value === undefined ? '' : `${Math.abs(value) < 0.005 ? '' : value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
export const plural = (count, one) => `${count} ${one}${count === 1 ? '' : 's'}`;
