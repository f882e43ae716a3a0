(function () {
  'use strict';
  const name = 'sensorlab-plan-' + document.querySelector('main').dataset.plan;
  const boxes = [...document.querySelectorAll('.steps input')];
  const sets = [...document.querySelectorAll('input[name=set]')];
  const done = document.getElementById('done');
  const progress = document.getElementById('progress');
  const reset = document.getElementById('reset');
  let asked = null;

  function store(work) {
    try {
      return work(window.localStorage);
    } catch (e) {
      const words = document.getElementById('no-ticks');
      words.textContent = 'This browser keeps no ticks: leave the page open until the last frame, or use the printed sheet.';
      words.hidden = false;
      return null;
    }
  }

  function key() {
    const set = sets.find(s => s.checked);
    return name + '-' + (set ? set.value : '0');
  }

  function nextBox() { return boxes.find(b => !b.checked); }

  function show() {
    const shot = boxes.filter(b => b.checked).reduce((sum, b) => sum + Number(b.dataset.frames), 0);
    done.textContent = shot + ' of ' + done.dataset.frames + ' frames';
    progress.value = shot;
    for (const li of document.querySelectorAll('.steps li.next')) li.classList.remove('next');
    const next = nextBox();
    if (next) next.closest('li').classList.add('next');
    document.getElementById('next').disabled = !next;
  }

  function load() {
    const text = store(s => s.getItem(key())) || '';
    const ticked = new Set(text.split(' '));
    for (const box of boxes) box.checked = ticked.has(box.id);
    show();
  }

  function save() {
    store(s => s.setItem(key(), boxes.filter(b => b.checked).map(b => b.id).join(' ')));
    show();
  }

  document.addEventListener('change', e => {
    if (e.target.name === 'set') {
      store(s => s.setItem(name + '-set', e.target.value));
      load();
    } else {
      save();
    }
  });
  document.getElementById('next').addEventListener('click', () => {
    const next = nextBox();
    if (next) {
      next.closest('li').scrollIntoView({ block: 'center' });
      next.focus({ preventScroll: true });
    }
  });
  reset.addEventListener('click', () => {
    if (asked === null) {
      reset.textContent = 'Untick all: tap again';
      asked = setTimeout(() => { reset.textContent = 'Untick all'; asked = null; }, 4000);
      return;
    }
    clearTimeout(asked);
    asked = null;
    reset.textContent = 'Untick all';
    for (const box of boxes) box.checked = false;
    save();
  });

  const chosen = store(s => s.getItem(name + '-set'));
  for (const set of sets) set.checked = set.value === (chosen || '0');
  load();
})();
