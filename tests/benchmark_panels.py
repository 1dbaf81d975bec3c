"""How fast the panels of lesson 1 answer, in a real browser: python tests/benchmark_panels.py

For each panel 40 single key presses on one slider: from the press to the frame in which the picture has other
pixels (the page compares them at every animation frame; about one frame more until the eye sees it). Beside it the
same figure drawn afresh for every value, the plain way. Then new geometries of a permeable magnet: each press a new
one, and a held key. A blank frame is one in which no picture stood; a jump is a change of the height of the page.
The times are honest only on an idle machine; the ratios hold on a busy one too. Nothing here is a test.
"""
import os
import statistics
import tempfile
from pathlib import Path

import lab

PRESSES = 40
SETUP = """%matplotlib inline
import ipywidgets as W
from IPython.display import display
from lessons_lib.panels import lesson_01
from lessons_lib.panels.lesson_01_numbers import flux_map, ring_curves, axis_curve, inside_curves

def plainly(panel, make_figure, arrays, name):
    start, spec = panel._start_values(), panel.rows[name].spec
    def redraw(value):
        figure, draw = make_figure()
        draw(arrays(**(start | {name: spec.in_si(spec.tidy(value))})))
        display(figure)
    slider = (W.FloatLogSlider(value=spec.start, min=-0.52, max=1.69, step=1 / 40) if spec.logarithmic
              else W.FloatSlider(value=spec.start, min=spec.low, max=spec.high, step=spec.step))
    W.interact(redraw, value=slider)"""
# panel, slider, function that makes the figure, function that computes its arrays
CASES = [("lines_of_flux", "remanence", "flux_figure", "flux_map"),
         ("adding_up", "radius", "rings_figure", "ring_curves"),
         ("falling_field", "z", "falling_figure", "axis_curve"),
         ("inside_the_rod", "place", "inside_figure", "inside_curves")]
SLOW = [("lines_of_flux", "recoil_permeability"), ("inside_the_rod", "recoil_permeability")]

# the page looks at the picture of one cell at every animation frame and keeps what it saw since the last press
PROBE = """(cell) => {
  const area = document.querySelectorAll('.jp-CodeCell')[cell].querySelector('.jp-OutputArea');
  const page = document.querySelector('.jp-WindowedPanel-outer') || document.scrollingElement;
  const small = new OffscreenCanvas(200, 130), brush = small.getContext('2d', {willReadFrequently: true});
  const s = window.__probe = {hash: null, pressed: null, changed: null, last: null, blank: 0, heights: new Set(),
                              stop: false};
  let source = null;
  const look = () => {
    if (s.stop) return;
    const image = area.querySelector('img');
    s.heights.add(page.scrollHeight);
    if (!image || !image.complete || !image.naturalWidth) s.blank += 1;
    else if (image.src !== source) {
      source = image.src;
      brush.drawImage(image, 0, 0, 200, 130);
      let hash = 0;
      for (const value of brush.getImageData(0, 0, 200, 130).data) hash = (hash * 31 + value) | 0;
      if (s.hash !== null && hash !== s.hash) { s.last = performance.now(); s.changed ??= s.last; }
      s.hash = hash;
    }
    requestAnimationFrame(look);
  };
  document.addEventListener('keydown', event => { s.pressed = performance.now(); s.changed = null; }, true);
  look();
}"""


def watch(page, cell):
    """Start the probe on a code cell and give its slider the keyboard."""
    page.evaluate("() => { if (window.__probe) window.__probe.stop = true; }")
    page.evaluate(PROBE, cell)
    page.wait_for_timeout(300)


def slider_of(page, cell, number=0):
    handle = page.locator(".jp-CodeCell").nth(cell).get_by_role("slider").nth(number)
    handle.scroll_into_view_if_needed()
    handle.focus()
    page.wait_for_timeout(300)
    return handle


def single_presses(page, count, key):
    """Milliseconds from each press to changed pixels."""
    times = []
    for number in range(count):
        page.keyboard.press(key(number))
        page.wait_for_function("() => window.__probe.changed !== null", timeout=20_000, polling=5)
        times.append(page.evaluate("() => window.__probe.changed - window.__probe.pressed"))
        page.wait_for_timeout(60)
    return times


def held_key(page, key, count=15):
    """Milliseconds from the last of many presses, 33 ms apart, to the last picture."""
    for _ in range(count):
        page.keyboard.press(key)
        page.wait_for_timeout(33)
    page.wait_for_timeout(1500)
    return page.evaluate("() => window.__probe.last - window.__probe.pressed")


def to_and_fro(number):
    """Nine steps up, eighteen down, thirteen up: within the range of every slider."""
    return "ArrowLeft" if 9 <= number < 27 else "ArrowRight"


def row(name, times, page):
    seen = page.evaluate("() => [window.__probe.blank, window.__probe.heights.size - 1]")
    ordered = sorted(times)
    middle, late = statistics.median(ordered), ordered[int(0.95 * (len(ordered) - 1))]
    print(f"{name:45} {middle:8.0f} {late:8.0f} {seen[0]:6d} {seen[1]:6d}", flush=True)
    return middle


def quick(page):
    for number, (name, slider, *_) in enumerate(CASES):
        watch(page, 1 + 2 * number)
        slider_of(page, 1 + 2 * number, slider_number(name, slider))
        ours = row(f"{name}: {slider}", single_presses(page, PRESSES, to_and_fro), page)
        watch(page, 2 + 2 * number)
        slider_of(page, 2 + 2 * number)
        plain = row("   the same figure, drawn afresh", single_presses(page, PRESSES, to_and_fro), page)
        print(f"   ratio {plain / ours:.1f}")


def slow(page):
    for name, slider in SLOW:
        cell = 1 + 2 * [case[0] for case in CASES].index(name)
        watch(page, cell)
        slider_of(page, cell, slider_number(name, slider))
        row(f"{name}: new geometry at each press", single_presses(page, 20, lambda _: "ArrowLeft"), page)
        print(f"   held key: last picture {held_key(page, 'ArrowRight'):.0f} ms after the last press (seen values), "
              f"{held_key(page, 'PageUp', 3):.0f} ms (new ones)")


def slider_number(name, slider):
    from lessons_lib.panels import lesson_01
    return list(getattr(lesson_01, name)().rows).index(slider)


def main():
    cells = [SETUP]
    for name, slider, make_figure, arrays in CASES:
        cells += [f"{name} = lesson_01.{name}(); {name}",
                  f"plainly({name}, lesson_01.{make_figure}, {arrays}, {slider!r})"]
    with tempfile.TemporaryDirectory() as folder:
        notebook = lab.write_notebook(Path(folder) / "panels.ipynb", *cells)
        with lab.lab_server(folder) as address, lab.chromium() as browser:
            page = browser.new_page(viewport={"width": 1280, "height": 900})
            lab.open_notebook(page, address, notebook)
            if not lab.run_all(page):
                raise SystemExit("a cell of the benchmark raised")
            page.wait_for_timeout(2000)
            print(f"{os.cpu_count()} processors, {os.getloadavg()[0]:.1f} other jobs running at the start")
            print(f"{'':45} {'median':>8} {'95 %':>8} {'blank':>6} {'jumps':>6}   (ms, ms, frames, heights)")
            quick(page)
            slow(page)


if __name__ == "__main__":
    main()
