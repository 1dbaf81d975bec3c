// What a panel means, in the cells after it up to the next panel or heading: closed until it was looked at.
// Read together with board.js.
function* foldsAfter(cell) {
  for (let next = cell?.nextElementSibling; next; next = next.nextElementSibling) {
    if (next.querySelector('.lesson-panel, .jp-RenderedMarkdown :is(h1, h2, h3, h4)')) return;
    yield* next.querySelectorAll('details.lesson-fold');
  }
}

function folds(model, el) {
  let opened, wait, watch;
  const open = () => {
    for (const fold of foldsAfter(el.closest('.jp-Cell'))) {
      if (opened.has(fold)) continue;         // who closes it again has it closed
      opened.add(fold);
      fold.open = true;
    }
  };
  const begin = () => {
    if (!model.get('unfolded')) return;
    opened = new WeakSet();
    const page = el.closest('.jp-Cell')?.parentElement;
    if (!page) {
      if (!el.isConnected) wait = setTimeout(begin, 200);
      return;
    }
    open();
    watch ??= new MutationObserver(open);     // a cell that is run is made anew; one far down comes late
    watch.observe(page, {childList: true, subtree: true});
  };
  model.on('change:unfolded', begin);
  begin();
  return () => {
    clearTimeout(wait);
    watch?.disconnect();
    model.off('change:unfolded', begin);
  };
}
