// The board of a panel: what panel.py declares, as sliders, words and a picture that can be dragged and played.
// A step is one message to the kernel and one back; while one is on its way only the newest values wait.
// board_plays.js, board_beside.js and board_folds.js are read together with it.
const SVG = 'http://www.w3.org/2000/svg';
const REST = 300;           // ms without a new value: the hand rests
const MANY = 12;            // sliders; more are in two columns
const still = () => matchMedia('(prefers-reduced-motion: reduce)').matches;

function make(tag, attributes = {}, ...children) {
  const one = ['svg', 'g', 'circle'].includes(tag) ? document.createElementNS(SVG, tag) : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) one.addEventListener(name.slice(2), value);
    else if (name === 'text') one.textContent = value;
    else one.setAttribute(name, value);
  }
  one.append(...children);
  return one;
}

// ---- the kernel
function line(model) {
  let asked = null, busy = false, rest = null;
  const send = () => {
    busy = true;
    model.send({wish: 'values', values: asked});
    asked = null;
  };
  const line = {
    moved: () => {}, rested: () => {},
    ask(values) {
      line.moved();
      asked = {...asked, ...values};
      clearTimeout(rest);
      rest = setTimeout(() => line.rested(), REST);
      if (!busy) send();
    },
    wish(wish) { model.send({wish}); },
    answered() { busy = false; if (asked) send(); },
    get waits() { return busy || asked !== null; },
    settled(act) { if (line.waits) setTimeout(() => line.settled(act), 50); else act(); },
  };
  return line;
}

// ---- controls
function control(spec, line) {
  const label = make('span', {class: 'lesson-label', text: spec.label});
  if (spec.options) {
    const list = make('select', {'aria-label': spec.label, onchange: () => line.ask({[spec.name]: list.value})},
                      ...spec.options.map(text => make('option', {text})));
    return {row: make('label', {class: 'lesson-control lesson-list'}, label, list), show(text) { list.value = text; }};
  }
  const value = position => spec.logarithmic ? 10 ** position : position;
  const name = spec.unit ? `${spec.label} (${spec.unit})` : spec.label;
  const handle = make('input', {type: 'range', min: spec.low, max: spec.high, step: spec.step,
                                'aria-label': `${name}, slider`,
                                oninput: () => {
                                  const now = value(Number(handle.value));
                                  say(String(Number(spec.logarithmic ? now.toPrecision(3) : now.toFixed(spec.digits))));
                                  line.ask({[spec.name]: now});
                                }});
  const box = make('input', {type: 'text', inputmode: 'decimal', 'aria-label': name, autocomplete: 'off',
                             oninput: () => { typing = true; },
                             onchange: () => { typing = false; line.ask({[spec.name]: box.value}); }});
  let typing = false;
  const say = text => {       // what a reader of the screen hears is what the box says
    if (!typing) box.value = text;
    handle.setAttribute('aria-valuetext', spec.unit ? `${text} ${spec.unit}` : text);
  };
  return {row: make('div', {class: 'lesson-control'}, label, handle, box,
                    make('span', {class: 'lesson-unit', text: spec.unit})),
          show(text, number) {
            say(text);
            handle.value = spec.logarithmic ? Math.log10(number) : number;
          }};
}

// the rows, those of one heading together under it
function grouped(specs, controls) {
  const rows = [];
  specs.forEach(({group}, number) => {
    const last = rows.at(-1), row = controls[number].row;
    if (!group) rows.push(row);
    else if (last?.getAttribute('aria-label') === group) last.append(row);
    else rows.push(make('div', {role: 'group', 'aria-label': group, class: 'lesson-group'},
                        make('p', {'aria-hidden': true, text: group}), row));
  });
  return rows;
}

// ---- the picture
function picture(made, line) {
  const [ground, layer, hands] = ['', '', 'lesson-hands'].map(name => make('svg', {
    class: name, viewBox: `0 0 ${made.size[0]} ${made.size[1]}`, 'aria-hidden': true}));
  const before = make('g', {class: 'lesson-before'}), moving = make('g'), playing = make('g');
  ground.innerHTML = made.ground;
  layer.append(before, moving, playing);
  const stack = make('div', {class: 'lesson-picture', role: 'img'}, ground, layer, hands);
  let pieces = [], pinned = false;
  // a narrow page makes the picture small, and not what a finger is to hit
  const fit = () => {
    const scale = hands.clientWidth / made.size[0], least = matchMedia('(pointer: coarse)').matches ? 16 : 12.5;
    for (const ring of hands.children) ring.setAttribute('r', scale ? Math.max(13, least / scale) : 13);
  };
  new ResizeObserver(fit).observe(stack);
  return {
    stack, moving, playing,
    show(frame) {
      while (moving.children.length > frame.pieces.length) moving.lastChild.remove();
      frame.pieces.forEach((piece, number) => {
        const place = moving.children[number] ?? moving.appendChild(make('g'));
        if (pieces[number] !== piece) place.innerHTML = piece;
      });
      pieces = frame.pieces;
      stack.setAttribute('aria-label', frame.alt);
    },
    keep() { if (!pinned) before.innerHTML = moving.innerHTML; },     // the pale picture of the setting before
    pin(pieces) {                                                     // or of the one that is kept
      if (pieces || pinned) before.innerHTML = (pieces ?? []).join('');
      pinned = Boolean(pieces);
    },
    grips(list) {
      list.forEach((grip, number) => {
        if (!hands.children[number]) {
          hands.append(handleFor(hands, line));
          fit();
        }
        const ring = hands.children[number];
        ring.grip = grip;
        ring.setAttribute('cx', grip.x);
        ring.setAttribute('cy', grip.y);
      });
    },
  };
}

function handleFor(hands, line) {
  const ring = make('circle', {class: 'lesson-grip'});
  const at = event => new DOMPoint(event.clientX, event.clientY).matrixTransform(hands.getScreenCTM().inverse());
  let from = null;
  // a finger on it never scrolls the page; Chromium heeds no touch-action of a circle
  ring.addEventListener('touchstart', event => event.preventDefault(), {passive: false});
  ring.addEventListener('pointerdown', event => {
    ring.setPointerCapture(event.pointerId);
    const point = at(event);
    from = {x: ring.grip.x - point.x, y: ring.grip.y - point.y};
    ring.classList.add('held');
    line.begun();
    event.preventDefault();
  });
  ring.addEventListener('pointermove', event => {
    if (!from) return;
    const point = at(event), values = {};
    for (const way of ['x', 'y']) {
      const along = ring.grip[`along_${way}`];
      if (along) values[along.name] = valueAt(along, point[way] + from[way]);
    }
    line.ask(values);
  });
  ring.addEventListener('lostpointercapture', () => { from = null; ring.classList.remove('held'); });
  return ring;
}

// the value whose place is nearest to where the hand is, between two places by a straight line, to a whole step
function valueAt({places, values, low, step}, place) {
  const rising = places.at(-1) >= places[0];
  let upper = places.findIndex(one => rising ? one >= place : one <= place);
  if (upper === 0) return values[0];
  if (upper < 0) return values.at(-1);
  const share = (place - places[upper - 1]) / (places[upper] - places[upper - 1]);
  const value = values[upper - 1] + share * (values[upper] - values[upper - 1]);
  return low + Math.round((value - low) / step) * step;
}

// ---- all of it
function build(model, el) {
  const made = model.get('made');
  if (!made.controls) return () => {};
  const wire = line(model), starts = Object.fromEntries(made.controls.map(one => [one.name, one.start]));
  const screen = picture(made, wire), controls = made.controls.map(spec => control(spec, wire));
  const film = player(made, model, wire, screen), sound = sounder(made, model, wire);
  const kept = keeper(made, model, wire, screen), told = teller(made, model, wire);
  const many = controls.length > MANY;
  const large = make('p', {class: 'lesson-large'}), small = make('p', {class: 'lesson-small'});
  const message = make('p', {role: 'status', 'aria-live': 'polite', class: 'lesson-message'});
  const back = make('button', {type: 'button', class: 'lesson-button', text: 'Start again',
                               onclick: () => { wire.begun(); wire.ask(starts); }});
  // a gesture begins with the first new value after a rest: what was seen then stays, pale
  let begun = false;
  wire.begun = () => { if (!begun) screen.keep(); begun = true; };
  wire.moved = () => { wire.begun(); film.moved(); sound.moved(); told.moved(); };
  wire.rested = () => wire.settled(() => {
    begun = false;
    told.rested();
    film.rested();
    sound.rested();
  });
  const parts = [make('div', {class: 'lesson-stage'},
                      made.title ? make('p', {class: 'lesson-title', text: made.title}) : '', screen.stack,
                      film.row || '', many ? '' : told.row || '')];
  if (many) parts.push(make('div', {class: 'lesson-under'}, told.row || '', small));
  parts.push(make('div', {class: 'lesson-side'},
                  make('div', {role: 'status', 'aria-live': 'polite', class: 'lesson-shown'}, large), kept.place,
                  beginnings(made, wire), make('div', {class: many ? 'lesson-many' : ''}, ...grouped(made.controls, controls)),
                  make('div', {class: 'lesson-buttons'}, ...(controls.length ? [back] : []), ...kept.buttons),
                  message, many ? '' : small, sound.row || ''));
  el.replaceChildren(...parts);
  const show = () => {
    const frame = model.get('frame');
    if (frame.pieces) {
      screen.show(frame);
      screen.grips(frame.grips);
      words(large, small, frame.shown);
    }
    wire.answered();
    if (!wire.waits) {      // else the hand is further on already
      made.controls.forEach(({name}, number) => controls[number].show(frame.values[name], frame.numbers[name]));
    }
    message.textContent = frame.message;
  };
  show();
  kept.came();
  told.came();
  const heard = [['change:frame', show], ['change:film', film.came], ['change:sound', sound.came],
                 ['change:kept', kept.came], ['change:told', told.came]];
  heard.forEach(([name, act]) => model.on(name, act));
  return () => heard.forEach(([name, act]) => model.off(name, act));
}

// the first one large, the others small; each keeps the room of its longest value
function words(large, small, shown) {
  const [first, ...others] = shown;
  const spot = (place, words) => {
    place.textContent = words;
    place.room = Math.max(place.room ?? 0, Math.min(words.length, 26));
    place.style.minWidth = `${place.room}ch`;
  };
  if (first && large.dataset.label !== first[0]) {
    large.dataset.label = first[0];
    large.replaceChildren(make('span', {text: first[0]}), make('b'));
  }
  if (first) spot(large.lastChild, first[1]);
  const labels = others.map(one => one[0]).join('|');
  if (small.dataset.labels !== labels) {
    small.dataset.labels = labels;
    small.replaceChildren(...others.map(([label]) => make('span', {}, `${label}: `, make('b'))));
  }
  others.forEach(([, text], number) => spot(small.children[number].lastChild, text));
}

export default {
  render({model, el}) {
    el.classList.add('lesson-board');
    let forget = build(model, el);
    const leave = folds(model, el);
    const anew = () => { forget(); forget = build(model, el); };
    model.on('change:made', anew);
    return () => { forget(); leave(); model.off('change:made', anew); };
  },
};
