// What a board plays: a film of the present setting, and its sound. Read together with board.js.

// ---- a film
function player(made, model, line, screen) {
  let film = null, began = null, at = 0, frame = -1;
  const box = make('input', {type: 'checkbox', onchange: () => box.checked ? wanted() : redraw()});
  const phase = make('input', {type: 'range', min: 0, max: 1, step: 0.01, value: 0, 'aria-label': 'place in the period',
                               oninput: () => { box.checked = false; at = Number(phase.value); wanted(); }});
  const words = make('span', {class: 'lesson-small'});
  const swing = make('label', {}, box, ' let it move');
  const show = number => {
    if (number === frame) return;
    frame = number;
    [...screen.playing.children].forEach((group, slot) => {
      if (group.shown) group.shown.style.display = 'none';
      group.shown = group.children[film.frames[number][slot]];      // none where this frame draws less than another
      if (group.shown) group.shown.style.display = '';
    });
  };
  const tick = now => {
    if (!film || !box.checked || !box.isConnected) { began = null; return; }
    began ??= now - at * film.seconds * 1000;
    at = (now - began) / (film.seconds * 1000) % 1;
    phase.value = at;
    show(Math.floor(at * film.frames.length));
    requestAnimationFrame(tick);
  };
  const redraw = () => { if (film) show(Math.min(Math.floor(at * film.frames.length), film.frames.length - 1)); };
  const wanted = () => {
    if (!film) line.wish('film');
    else if (box.checked && !still()) { began = null; requestAnimationFrame(tick); }
    else redraw();
  };
  const drop = () => {
    film = null; frame = -1; began = null;
    screen.playing.replaceChildren();
    screen.moving.style.display = '';
  };
  return {
    row: made.film && make('div', {class: 'lesson-film'}, swing, phase, words),
    moved: drop,
    rested() { if (made.film && box.checked) wanted(); },
    came() {
      const news = model.get('film');
      if (!news.frames || news.count !== model.get('frame').count) return;
      drop();
      film = news;
      words.textContent = film.words;
      screen.playing.replaceChildren(...film.slots.map(slot => {
        const group = make('g');
        group.innerHTML = slot.map(piece => `<g style="display: none">${piece}</g>`).join('');
        return group;
      }));
      screen.moving.style.display = 'none';
      wanted();
    },
  };
}

// ---- sound
function sounder(made, model, line) {
  const words = 'Sound of these settings';
  const button = make('button', {type: 'button', class: 'lesson-button', text: words, onclick: () => line.wish('sound')});
  const place = make('div', {class: 'lesson-sound'});
  const silent = () => [...place.querySelectorAll('audio')].every(one => one.paused);
  return {
    row: made.sound && make('div', {}, button, place),
    moved() { place.classList.toggle('lesson-old', place.children.length > 0); },
    rested() { if (place.children.length && silent()) line.wish('sound'); },
    came() {
      const news = model.get('sound');
      if (!news.players) return;
      place.innerHTML = news.players;
      place.classList.remove('lesson-old');
    },
  };
}
