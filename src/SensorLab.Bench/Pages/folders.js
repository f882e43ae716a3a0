import { byId, el, plural, say, send } from './dom.js';

// A dialogue that shows this machine's folders by name, to take one, or a profile or a private key that lies in it.
let done = null;

const titles = { folder: 'Choose a folder', profile: 'Choose a profile', key: 'Choose your private key' };

export function choose(start, kind) {
  const dialog = byId('chooser');
  byId('chooser-h').textContent = titles[kind];
  byId('chooserTake').hidden = kind !== 'folder';
  dialog.showModal();
  show(start, kind);
  return new Promise(resolve => { done = resolve; });
}

function end(result) {
  byId('chooser').close();
  done?.(result);
  done = null;
}

async function show(path, kind) {
  let listing;
  try {
    listing = await send(`/api/folders?path=${encodeURIComponent(path ?? '')}`);
    say(byId('chooserTrouble'));
  } catch (error) {
    say(byId('chooserTrouble'), error.message);
    if (path) show('', kind);
    return;
  }

  const into = name => `${listing.path}${listing.path.endsWith('/') || listing.path.endsWith('\\') ? '' : listing.path.includes('\\') ? '\\' : '/'}${name}`;
  byId('chooserPath').textContent = kind !== 'folder' ? listing.path : `${listing.path} – ${plural(listing.rawFiles, 'raw file')} here`;
  byId('chooserTake').onclick = () => end(listing.path);
  const item = (text, act, kind) => el('li', {}, el('button', { type: 'button', class: kind, on: { click: act }, text }));
  byId('chooserList').replaceChildren(
    ...(listing.parent ? [item('Up one folder', () => show(listing.parent, kind), 'up')] : []),
    ...listing.folders.map(name => item(name, () => show(into(name), kind), 'folder')),
    ...(kind === 'profile' ? listing.profiles : kind === 'key' ? listing.keys : []).map(name => item(name, () => end(into(name)), 'file')));
  byId('chooserList').querySelector('button')?.focus();
}

byId('chooserCancel').addEventListener('click', () => end(null));
byId('chooser').addEventListener('cancel', event => { event.preventDefault(); end(null); });
