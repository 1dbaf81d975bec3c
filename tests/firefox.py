"""Drive the machine's Firefox by WebDriver BiDi, with as much of Playwright's page as lab.py needs.

Playwright drives a Firefox of its own making only; this one speaks the standard's protocol over a websocket, and
websocket-client comes with JupyterLab's server.

with firefox() as page:
    open_notebook(page, base, "a.ipynb")
    assert run_all(page)

Where no Firefox is found need_firefox() skips with the reason; LESSONS_NEED_SECOND_BROWSER=1 makes it a failure.
"""
import json
import os
import shutil
import tempfile
from contextlib import closing, contextmanager
from pathlib import Path
from time import monotonic, sleep

import websocket

from lab import need, running

FIREFOX = os.environ.get("FIREFOX") or shutil.which("firefox-esr") or shutil.which("firefox")
PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
KEYS = {"Tab": "\uE004", "Enter": "\uE007", "Space": " ", "Shift": "\uE008", "Control": "\uE009",
        "ArrowLeft": "\uE012", "ArrowRight": "\uE014", "ArrowDown": "\uE015", "Home": "\uE011", "End": "\uE010"}


def need_firefox():
    """Skip the test, or fail it where LESSONS_NEED_SECOND_BROWSER is set, if there is no Firefox."""
    need([] if FIREFOX else ["no Firefox was found (on Debian: apt-get install firefox-esr)"],
         "LESSONS_NEED_SECOND_BROWSER")


@contextmanager
def firefox():
    """A page of a new Firefox with a profile of its own."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        command = [FIREFOX, "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port=0",
                   "--width=1280", "--height=900", "about:blank"]
        place, log = Path(profile) / "WebDriverBiDiServer.json", Path(profile) / "said.txt"
        with running(command, log, env=os.environ | {"HOME": profile}) as browser:
            with closing(_connected(browser, place, log)) as wire:
                yield Page(wire)


def _connected(browser, place, log):
    end = monotonic() + PATIENCE / 1000
    while monotonic() < end and browser.poll() is None:
        try:
            server = json.loads(place.read_text())
        except (OSError, ValueError):       # not there yet, or half written
            sleep(0.1)
        else:
            return websocket.create_connection(f"ws://{server['ws_host']}:{server['ws_port']}/session",
                                               timeout=PATIENCE / 1000, suppress_origin=True)
    raise RuntimeError("Firefox did not start: " + log.read_text(errors="replace")[-2000:])


class Page:
    """A tab; its methods are Playwright's of these names."""

    def __init__(self, wire):
        self._wire, self._number = wire, 0
        self.errors = []        # what no script of the page has caught
        self.keyboard = self
        self._ask("session.new", capabilities={})
        # the tab that is there never has the keyboard, and JupyterLab asks what has it
        self._tab = self._ask("browsingContext.create", type="tab")["context"]
        self._ask("session.subscribe", events=["log.entryAdded"])

    def _ask(self, method, **params):
        self._number += 1
        self._wire.send(json.dumps({"id": self._number, "method": method, "params": params}))
        while True:
            came = json.loads(self._wire.recv())
            if came.get("method") == "log.entryAdded" and came["params"]["type"] == "javascript":
                self.errors.append(came["params"]["text"])
            if came.get("id") != self._number:
                continue
            if came["type"] == "error":
                raise RuntimeError(f"{method}: {came['error']}: {came['message']}")
            return came["result"]

    def goto(self, address, wait_until="interactive"):
        self._ask("browsingContext.navigate", context=self._tab, url=address, wait="interactive")

    def evaluate(self, function, arg=None):
        """What a function of JavaScript gives for *arg*, by way of JSON."""
        whole = f"async text => JSON.stringify(await ({function})(JSON.parse(text)) ?? null)"
        said = self._ask("script.callFunction", target={"context": self._tab}, awaitPromise=True,
                         functionDeclaration=whole, arguments=[{"type": "string", "value": json.dumps(arg)}])
        if said["type"] == "exception":
            raise RuntimeError(said["exceptionDetails"]["text"])
        return json.loads(said["result"]["value"])

    def wait_for_function(self, function, arg=None, timeout=PATIENCE):
        """Wait until the function gives something true; that."""
        end = monotonic() + timeout / 1000
        while not (came := self.evaluate(function, arg)):
            if monotonic() > end:
                raise TimeoutError(f"{timeout} ms: never true: {function} of {arg!r}")
            sleep(0.1)
        return came

    def press(self, keys):
        """Press "a", "Tab" or "Control+A"."""
        *held, last = [KEYS.get(key, key.lower()) for key in keys.split("+")]
        self._type([("keyDown", key) for key in [*held, last]] + [("keyUp", key) for key in [last, *reversed(held)]])

    def insert_text(self, text):
        """Type a text, letter for letter."""
        self._type([(act, letter) for letter in text for act in ("keyDown", "keyUp")])

    def _type(self, acts):
        self._ask("input.performActions", context=self._tab, actions=[
            {"type": "key", "id": "keyboard", "actions": [{"type": act, "value": key} for act, key in acts]}])
