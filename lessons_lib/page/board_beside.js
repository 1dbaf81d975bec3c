// What is beside the present setting: a list to begin from, a setting that is kept, words about what a change did.
// Read together with board.js.

// ---- many sliders at once
function beginnings(made, line) {
  const names = Object.keys(made.presets);
  if (!names.length) return '';
  const list = make('select', {'aria-label': 'begin from', onchange: () => {
    line.ask(made.presets[list.value]);
    list.selectedIndex = 0;
  }}, make('option', {text: 'choose …', value: ''}), ...names.map(text => make('option', {text})));
  return make('label', {class: 'lesson-control lesson-list'}, make('span', {class: 'lesson-label', text: 'begin from'}), list);
}

// ---- a kept setting: its picture stays pale, its number beside the large one
function keeper(made, model, line, screen) {
  const place = make('p', {class: 'lesson-kept', role: 'status', 'aria-live': 'polite'});
  const button = (text, act) => make('button', {type: 'button', class: 'lesson-button', text, onclick: act});
  const go = button('Go to the kept one', () => line.ask(model.get('kept').values));
  const drop = button('Let go', () => line.wish('let go'));
  return {
    place,
    buttons: made.keeps ? [button('Keep this one', () => line.settled(() => line.wish('keep'))), go, drop] : [],
    came() {
      const {pieces, said} = model.get('kept');
      go.hidden = drop.hidden = place.hidden = !pieces;
      place.textContent = pieces ? `kept: ${said}` : '';
      screen.pin(pieces);
    },
  };
}

// ---- what the last change did
function teller(made, model, line) {
  const row = made.told && make('p', {class: 'lesson-told', role: 'status', 'aria-live': 'polite'});
  return {
    row,
    moved() { if (row) row.classList.add('lesson-old'); },
    rested() { if (row) line.wish('told'); },
    came() {
      if (!row) return;
      row.textContent = model.get('told').words ?? '';
      row.classList.remove('lesson-old');
    },
  };
}
