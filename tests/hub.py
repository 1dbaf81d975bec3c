"""A JupyterHub with invented users on this machine, for test_hub.py; all of them run with one user id.

need_hub() skips, or fails where LESSONS_NEED_HUB=1, if hub or proxy are missing. LESSONS_HUB_PROXY names the proxy.
"""
import importlib.util
import json
import os
import shutil
import sys
from contextlib import contextmanager

from lab import OVERRIDES, free_port, need, running, wait_for

PROXY = os.environ.get("LESSONS_HUB_PROXY") or shutil.which("configurable-http-proxy")
_CONFIG = """
c = get_config()
c.JupyterHub.bind_url = "http://127.0.0.1:{port}"
c.JupyterHub.hub_port = {hub_port}
c.JupyterHub.authenticator_class = "dummy"
c.Authenticator.allowed_users = {users!r}
c.JupyterHub.spawner_class = "simple"
c.SimpleLocalProcessSpawner.home_dir_template = "{homes}/{{username}}"
c.Spawner.cmd = [{python!r}, "-m", "jupyterhub.singleuser"]
c.Spawner.args = ["--allow-root", "--LabApp.expose_app_in_browser=True"]
c.Spawner.default_url = "/lab"
c.Spawner.environment = {environment!r}
c.Spawner.start_timeout = c.Spawner.http_timeout = 120
c.ConfigurableHTTPProxy.command = [{proxy!r}]
c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:{proxy_port}"
c.JupyterHub.db_url = "sqlite://"
c.JupyterHub.cookie_secret_file = "{folder}/cookie_secret"
"""


def need_hub():
    """Skip the test, or fail it where LESSONS_NEED_HUB is set, if no hub can be run."""
    missing = []
    if importlib.util.find_spec("jupyterhub") is None:
        missing.append("JupyterHub is not installed (pip install jupyterhub)")
    if not PROXY:
        missing.append("its proxy was not found (npm install configurable-http-proxy)")
    need(missing, "LESSONS_NEED_HUB")


@contextmanager
def hub_server(folder, users, **environment):
    """A hub whose users' homes are below folder/home; variables of the environment are every user's; its address."""
    overrides = folder / "shared" / "labconfig" / "default_setting_overrides.json"
    overrides.parent.mkdir(parents=True)
    overrides.write_text(json.dumps(OVERRIDES))
    port, hub_port, proxy_port = free_port(), free_port(), free_port()
    config, log = folder / "hub_config.py", folder / "hub.log"
    config.write_text(_CONFIG.format(
        port=port, hub_port=hub_port, proxy_port=proxy_port, users=set(users), homes=folder / "home", folder=folder,
        python=sys.executable, proxy=PROXY,
        environment={"JUPYTER_CONFIG_PATH": str(folder / "shared"), "PYTHONPATH": os.environ.get("PYTHONPATH", ""),
                     **environment}))
    # at its end it ends its users' servers and the proxy
    with running([sys.executable, "-m", "jupyterhub", "-f", str(config)], log, patience=60, cwd=folder) as hub:
        wait_for(hub, f"http://127.0.0.1:{port}/hub/login", log)
        yield f"http://127.0.0.1:{port}"


def log_in(page, address, user):
    """Log in as a user of the hub, and wait for the user's own server."""
    page.goto(f"{address}/hub/login")
    page.get_by_label("Username").fill(user)
    page.get_by_label("Password").fill("any will do")
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(f"{address}/user/{user}/lab**", timeout=120_000)
