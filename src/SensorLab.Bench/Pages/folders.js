import { byId, el, plural, say, send } from './dom.js';

// A dialogue that shows this machine's folders by name; with files, profiles as well.
let done = null;

export function choose(start, wantsProfile) {
  const dialog = byId('chooser');
  byId('chooser-h').textContent = wantsProfile ? 'Choose a profile' : 'Choose a folder';
  byId('chooserTake').hidden = wantsProfile;
  dialog.showModal();
  show(start, wantsProfile);
  return new Promise(resolve => { done = resolve; });
}

function end(result) {
  byId('chooser').close();
  done?.(result);
  done = null;
}

async function show(path, wantsProfile) {
  let listing;
  try {
    listing = await send(`/api/folders?path=${encodeURIComponent(path ?? '')}`);
    say(byId('chooserTrouble'));
  } catch (error) {
    say(byId('chooserTrouble'), error.message);
    if (path) show('', wantsProfile);
    return;
  }

  const into = name => `${listing.path}${listing.path.endsWith('/') || listing.path.endsWith('\\') ? '' : listing.path.includes('\\') ? '\\' : '/'}${name}`;
  byId('chooserPath').textContent = wantsProfile ? listing.path : `${listing.path} – ${plural(listing.rawFiles, 'raw file')} here`;
  byId('chooserTake').onclick = () => end(listing.path);
  const item = (text, act, kind) => el('li', {}, el('button', { type: 'button', class: kind, on: { click: act }, text }));
  byId('chooserList').replaceChildren(
    ...(listing.parent ? [item('Up one folder', () => show(listing.parent, wantsProfile), 'up')] : []),
    ...listing.folders.map(name => item(name, () => show(into(name), wantsProfile), 'folder')),
    ...(wantsProfile ? listing.profiles.map(name => item(name, () => end(into(name)), 'file')) : []));
  byId('chooserList').querySelector('button')?.focus();
}

byId('chooserCancel').addEventListener('click', () => end(null));
byId('chooser').addEventListener('cancel', event => { event.preventDefault(); end(null); });
