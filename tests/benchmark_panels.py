"""How fast the panels answer, in a real browser: python tests/benchmark_panels.py [01 02 ...]

For every panel of the named lessons (else of all) 20 single key presses on each slider: from the press to the second
animation frame after the picture was changed, when the browser has painted it. Beside the first slider the same figure
drawn whole for every value, the plain way. A jump is a change of the height of the page; an unseen press changed
nothing. The times are honest only on an idle machine; the ratios hold on a busy one too. Nothing here is a test.
"""
import os
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import TimeoutError as NothingSeen

import lab
from lessons_lib.page.controls import Slider
from shown import panel_makers

PRESSES, STEPS = 20, 10     # presses on a slider; so many one way, then back
UNSEEN = 3000               # ms after which a press has moved no pixel
SETUP = """%matplotlib inline
import ipywidgets as W
from IPython.display import display
from lessons_lib.lessons.lesson_{lesson} import panels as lesson

def plainly(panel, name):
    start, spec = panel._si(), panel.specs[name]
    figure, draw = panel._drawing.figure, panel._drawing._draw
    def redraw(value):
        values = start | {{name: spec.in_si(spec.tidy(value))}}
        draw(panel._data(panel._compute(**values), **values))
        display(figure)
    way = spec.described()
    kind = W.FloatLogSlider if spec.logarithmic else W.FloatSlider
    W.interact(redraw, value=kind(value=spec.start, min=way["low"], max=way["high"], step=way["step"]))"""

# the picture of one cell is watched; what the page changed is painted by the second frame after
PROBE = """(cell) => {
  const area = document.querySelectorAll('.jp-CodeCell')[cell].querySelector('.jp-OutputArea');
  const page = document.querySelector('.jp-WindowedPanel-outer') || document.scrollingElement;
  const s = window.__probe = {pressed: null, changed: null, last: null, heights: new Set()};
  const seen = () => requestAnimationFrame(() => requestAnimationFrame(now => {
    s.last = performance.now(); s.changed ??= s.last; s.heights.add(page.scrollHeight); }));
  s.observer = new MutationObserver(changes => {
    if (!s.pressed) return;
    if (changes.some(one => one.target.closest?.('.lesson-picture'))) seen();
    const image = changes.flatMap(one => [...one.addedNodes]).map(
      one => one.matches?.('img') ? one : one.querySelector?.('img')).find(Boolean);
    if (image) image.decode().then(seen);
  });
  s.observer.observe(area, {childList: true, subtree: true, attributes: true, attributeFilter: ['src', 'aria-label']});
  document.addEventListener('keydown', () => { s.pressed = performance.now(); s.changed = null; }, true);
}"""


def watch(page, cell):
    """Start the probe on a code cell and give its slider the keyboard."""
    page.evaluate("() => { if (window.__probe) window.__probe.observer.disconnect(); }")
    page.evaluate(PROBE, cell)
    page.wait_for_timeout(300)


def slider_of(page, cell, number=0):
    of_quantities = ".lesson-control input[type=range], .widget-slider [role=slider]"      # not the one of a film
    handle = page.locator(".jp-CodeCell").nth(cell).locator(of_quantities).nth(number)
    handle.scroll_into_view_if_needed()
    handle.focus()
    page.wait_for_timeout(300)
    return handle


def single_presses(page, keys):
    """Milliseconds from each press to changed pixels, and how many presses changed none."""
    times, unseen = [], 0
    for key in keys:
        page.keyboard.press(key)
        try:
            page.wait_for_function("() => window.__probe.changed !== null", timeout=UNSEEN, polling=5)
            times.append(page.evaluate("() => window.__probe.changed - window.__probe.pressed"))
        except NothingSeen:
            unseen += 1
        page.wait_for_timeout(60)
    return times, unseen


def to_and_fro(spec):
    """Keys that stay within the slider: away from its nearer end, then back."""
    there, back = ("ArrowRight", "ArrowLeft") if spec.start - spec.low <= spec.high - spec.start else (
        "ArrowLeft", "ArrowRight")
    steps = STEPS if spec.logarithmic else min(STEPS,
                                               round(max(spec.start - spec.low, spec.high - spec.start) / spec.step))
    return [there if number // steps % 2 == 0 else back for number in range(PRESSES)]


def row(name, times, unseen, page):
    jumps = page.evaluate("() => Math.max(0, window.__probe.heights.size - 1)")
    ordered = sorted(times) or [float("nan")]
    middle, late = statistics.median(ordered), ordered[int(0.95 * (len(ordered) - 1))]
    print(f"{name:45} {middle:8.0f} {late:8.0f} {jumps:6d} {unseen:7d}", flush=True)
    return middle


def press_all(page, cell, name, panel):
    """Each slider of one panel; the first one again in the plain way."""
    first = None
    for number, spec in enumerate(panel.specs.values()):
        if not isinstance(spec, Slider):
            continue
        watch(page, cell)
        # choices have no handle
        slider_of(page, cell, sum(isinstance(one, Slider) for one in list(panel.specs.values())[:number]))
        middle = row(f"{name}: {spec.label}", *single_presses(page, to_and_fro(spec)), page)
        if first is None:
            first = middle, spec
    watch(page, cell + 1)
    slider_of(page, cell + 1)
    plain = row("   the same figure, drawn whole", *single_presses(page, to_and_fro(first[1])), page)
    print(f"   ratio {plain / first[0]:.1f}")


def measure(browser, lesson, folder):
    panels = {name: make() for name, make in panel_makers(lesson).items()}
    cells = [SETUP.format(lesson=lesson)]
    for name, panel in panels.items():
        slider = next(key for key, spec in panel.specs.items() if isinstance(spec, Slider))
        cells += [f"{name} = lesson.{name}(); {name}", f"plainly(lesson.{name}(), {slider!r})"]
    notebook = lab.write_notebook(Path(folder) / f"panels_{lesson}.ipynb", *cells)
    with lab.lab_server(folder) as address:
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        lab.open_notebook(page, address, notebook)
        if not lab.run_all(page):
            raise SystemExit("a cell of the benchmark raised")
        page.wait_for_timeout(2000)
        for number, (name, panel) in enumerate(panels.items()):
            press_all(page, 1 + 2 * number, f"{lesson} {name}", panel)
        page.close()


def main(lessons):
    print(f"{os.cpu_count()} processors, {os.getloadavg()[0]:.1f} other jobs running at the start")
    print(f"{'':45} {'median':>8} {'95 %':>8} {'jumps':>6} {'unseen':>7}   (ms, ms, heights, presses)")
    with tempfile.TemporaryDirectory() as folder, lab.chromium() as browser:
        for lesson in lessons:
            measure(browser, lesson, folder)


if __name__ == "__main__":
    here = Path(__file__).resolve().parent.parent / "lessons_lib" / "lessons"
    main(sys.argv[1:] or sorted(path.name[-2:] for path in here.glob("lesson_[0-9][0-9]") if path.name[-2:] != "00"))
