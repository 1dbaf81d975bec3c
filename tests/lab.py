"""Drive a notebook in real JupyterLab with Playwright and the Chromium of the machine.

with lab_server(folder) as base, chromium() as browser:
    page = browser.new_page()
    open_notebook(page, base, "a.ipynb")
    assert run_all(page)

Where no Chromium or Playwright is found need_browser() skips with the reason; LESSONS_NEED_BROWSER=1 makes it a
failure.
"""
import importlib.util
import json
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from contextlib import contextmanager
from pathlib import Path

import pytest

CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
FLAGS = ("--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
         "--disable-component-update --disable-sync").split()
OVERRIDES = {
    "@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False,
                                                    "doNotDisturbMode": True},
    "@jupyterlab/notebook-extension:tracker": {"windowingMode": "none"},     # every cell is in the page
    "@jupyterlab/docmanager-extension:plugin": {"autosave": False},
}
DARK = {"@jupyterlab/apputils-extension:themes": {"theme": "JupyterLab Dark"}}

# the sign of the page's own indicator says idle before the kernel is connected, so ask the application
_READY = """(name) => { const a = window.jupyterapp, w = a && a.shell && a.shell.currentWidget;
  const k = w && w.sessionContext && w.sessionContext.session && w.sessionContext.session.kernel;
  return !!(k && w.context && w.context.path === name && w.context.isReady && w.sessionContext.isReady
            && k.connectionStatus === 'connected' && k.status === 'idle'); }"""


def need_browser():
    """Skip the test, or fail it where LESSONS_NEED_BROWSER is set, if no real browser can be driven."""
    missing = []
    if not CHROMIUM:
        missing.append("no Chromium was found (on Debian: apt-get install chromium)")
    if importlib.util.find_spec("playwright") is None:
        missing.append("Playwright is not installed (pip install -r tests/requirements.txt)")
    need(missing, "LESSONS_NEED_BROWSER")


def need(missing, variable):
    """Skip the test, or its whole file, for what is *missing* (sentences); where the variable is 1, fail it."""
    if missing and os.environ.get(variable) == "1":
        pytest.fail("; ".join(missing))
    if missing:
        pytest.skip("; ".join(missing), allow_module_level=True)


@contextmanager
def running(command, log, *, patience=15, **more):
    """A process that writes into the file *log*, and is ended, after some seconds of *patience* by force."""
    with log.open("wb") as sink:
        process = subprocess.Popen(command, stdout=sink, stderr=sink, **more)
        try:
            yield process
        finally:
            process.terminate()
            try:
                process.wait(patience)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()


@contextmanager
def chromium():
    """The machine's Chromium under Playwright."""
    from playwright.sync_api import sync_playwright
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        try:
            yield browser
        finally:
            browser.close()


def _environment(home, extra):
    places = {"JUPYTER_CONFIG_PATH": "shared", "JUPYTER_CONFIG_DIR": "config", "JUPYTER_DATA_DIR": "data",
              "JUPYTER_RUNTIME_DIR": "runtime", "JUPYTERLAB_SETTINGS_DIR": "settings",
              "JUPYTERLAB_WORKSPACES_DIR": "workspaces", "IPYTHONDIR": "ipython"}
    kept = {name: value for name, value in os.environ.items() if name != "MPLBACKEND"}
    top = Path(__file__).resolve().parent.parent
    # the kernels of this interpreter, not of whoever is logged in
    return kept | {name: str(home / place) for name, place in places.items()} | {
        "JUPYTER_PREFER_ENV_PATH": "1", "PYTHONPATH": str(top)} | (extra or {})


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def wait_for(server, address, log):
    """Wait until a server answers at an address; where it does not, what its log says is raised."""
    for _ in range(480):
        try:
            urllib.request.urlopen(address, timeout=5).close()
            return
        except OSError:
            if server.poll() is not None:
                break
            time.sleep(0.25)
    raise RuntimeError(f"{address} does not answer: {log.read_text(errors='replace')[-2000:]}")


@contextmanager
def lab_server(folder, *, environment=None, settings=None):
    """JupyterLab on the folder, without token, with settings and runtime files of its own; yields its address.

    environment: further variables for server and kernels. settings: further overrides, as DARK.
    """
    with tempfile.TemporaryDirectory() as temporary:
        home = Path(temporary)
        overrides = home / "shared" / "labconfig" / "default_setting_overrides.json"
        overrides.parent.mkdir(parents=True)
        overrides.write_text(json.dumps(OVERRIDES | (settings or {})))
        port, log = free_port(), home / "lab.log"
        command = [sys.executable, "-m", "jupyterlab", "--no-browser", "--ip=127.0.0.1", f"--port={port}",
                   "--ServerApp.port_retries=0", "--allow-root", "--IdentityProvider.token=",
                   f"--ServerApp.root_dir={folder}", "--LabApp.expose_app_in_browser=True"]
        with running(command, log, env=_environment(home, environment)) as server:
            address = f"http://127.0.0.1:{port}"
            wait_for(server, address + "/api/status", log)
            yield address


def write_notebook(path, *cells):
    """A notebook of code cells; returns its name."""
    kernel = {"name": "python3", "display_name": "Python 3 (ipykernel)", "language": "python"}
    path.write_text(json.dumps({"nbformat": 4, "nbformat_minor": 5, "metadata": {"kernelspec": kernel}, "cells": [
        {"cell_type": "code", "id": f"cell-{number:03d}", "metadata": {}, "execution_count": None, "outputs": [],
         "source": source} for number, source in enumerate(cells)]}))
    return path.name


def open_notebook(page, address, name):
    """Open a notebook by its path below the server's folder and wait for its kernel."""
    page.goto(f"{address}/lab/workspaces/t/tree/{name}?reset", wait_until="domcontentloaded")
    page.wait_for_function(_READY, arg=name, timeout=90_000)


def _command(page, command, timeout):
    # never await a promise of the application inside evaluate, which has no time-out: poll a flag
    page.evaluate("""command => { window.__done = null; window.jupyterapp.commands.execute(command).then(
        result => { window.__done = String(result); },
        trouble => { window.__done = 'error ' + trouble; }); }""", command)
    page.wait_for_function("() => window.__done !== null", timeout=timeout)
    return page.evaluate("() => window.__done")


def run_all(page, timeout=180_000):
    """Run every cell; whether none raised."""
    return _command(page, "notebook:run-all-cells", timeout) == "true"


def restart(page, timeout=60_000):
    """Restart the kernel as a student would who closes and opens the notebook, and wait for it."""
    page.evaluate("""() => { const s = window.jupyterapp.shell.currentWidget.sessionContext; window.__done = null;
        s.session.kernel.restart().then(() => { window.__done = 'true'; },
                                        trouble => { window.__done = 'error ' + trouble; }); }""")
    page.wait_for_function("() => window.__done !== null", timeout=timeout)
    name = page.evaluate("() => window.jupyterapp.shell.currentWidget.context.path")
    page.wait_for_function(_READY, arg=name, timeout=timeout)


def outputs(page):
    """The text under each code cell, a list of outputs a cell."""
    return page.locator(".jp-Notebook .jp-CodeCell").evaluate_all(
        "cells => cells.map(c => [...c.querySelectorAll('.jp-OutputArea-output')].map(o => o.innerText))")


def save(page):
    """Save the notebook to its file."""
    _command(page, "docmanager:save", 30_000)


def end_all_kernels(page):
    """End every kernel of the server, as its menu or a night does, and leave the page."""
    page.evaluate("""() => { window.__over = null;
        window.jupyterapp.serviceManager.sessions.shutdownAll().finally(() => { window.__over = true; }); }""")
    page.wait_for_function("() => window.__over")
    page.goto("about:blank")


def cell_with(page, text):
    """The first cell of code that has the text."""
    return page.locator(".jp-CodeCell").filter(has=page.locator(".cm-content", has_text=text)).first


def type_and_run(page, cell, source):
    """Replace the source of the cell by keyboard and run it."""
    cell.locator(".cm-content").click()
    page.keyboard.press("Control+A")
    page.keyboard.insert_text(source)
    page.keyboard.press("Control+Enter")


def status_of(cell):
    """What the last output of a cell says to a screen reader."""
    return cell.locator(".jp-OutputArea [role=status]").last
