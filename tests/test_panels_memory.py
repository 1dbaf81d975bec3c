"""A kernel gives back what its cells no longer show: pages that run again and again, and the rules behind that."""
import contextlib
import gc

import pytest
from IPython.core.interactiveshell import InteractiveShell
from ipywidgets.widgets.widget import _instances as widgets  # the registry that keeps every widget until it is closed
from matplotlib.figure import Figure
from traitlets.config import Config

from lessons_lib.exercises import showing
from lessons_lib.page import canvas, cells
from lessons_lib.page.panel import Panel
from notebooks import copy_of_notebooks, lessons, read
from shown import pieces
from small_panel import FakeSheet, a_panel


@pytest.fixture
def shell():
    """An IPython like a kernel's, which is told the id of every cell that runs; other tests see none."""
    assert not InteractiveShell.initialized()
    one = InteractiveShell.instance(config=Config({"HistoryManager": {"enabled": False}}))
    one.history_manager.outputs.clear()     # all shells share it
    yield one
    InteractiveShell.clear_instance()
    cells._shows.clear()


def run(shell, source, cell="one"):
    """Run a cell; return its value."""
    result = shell.run_cell(source, store_history=True, cell_id=cell)
    result.raise_error()
    return result.result


def living(kind):
    gc.collect()
    return sum(isinstance(one, kind) for one in gc.get_objects())


# ---- a whole page ----------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("presenting, runs", [(True, 5), (False, 2)], ids=["open", "predictions to be made"])
def test_a_page_that_runs_again_and_again_keeps_what_one_run_shows(shell, monkeypatch, presenting, runs):
    """Widgets, living figures, IPython's memory of outputs: lesson 3's six panels and the curves of one exercise."""
    monkeypatch.setattr(showing, "_presenting", presenting)
    page = read(next(path for path in lessons() if path.name.startswith("03")))
    code = [cell for cell in page.cells if cell.cell_type == "code"]
    widgets_before, figures_before, kept = len(widgets), living(Figure), []
    with copy_of_notebooks() as folder, contextlib.chdir(folder):
        for _ in range(runs):
            for cell in code:
                run(shell, cell.source, cell.id)
            kept.append((len(widgets) - widgets_before, living(Figure) - figures_before))
    shown = [one for one in shell.user_ns["Out"].values() if isinstance(one, Panel)]
    asking = [one for one in shown if one.prediction]
    assert len(asking) == 6 and all(one.started == presenting for one in asking) and len(shown) == 7
    assert kept == [(kept[0][0], 7)] * runs and 50 < kept[0][0] < 400


# ---- stills and paper ------------------------------------------------------------------------------------------------

def test_a_still_and_a_page_on_paper_make_no_widget(monkeypatch):
    monkeypatch.setattr(canvas, "display", lambda bundle, raw: None)
    before = len(widgets)
    panel = a_panel(sheet=FakeSheet(), prediction="p1")
    panel.still(slope=6.0)
    panel.at(slope=6.0)
    assert len(widgets) == before
    assert not panel.started and len(widgets) > before      # asked for, they are made
    panel.close()
    assert len(widgets) == before


# ---- what is closed --------------------------------------------------------------------------------------------------

def closed(panel):
    return "view" not in vars(panel)


MAKE = "from small_panel import a_panel; "


def test_a_cell_that_runs_again_closes_its_former_panel(shell):
    first = run(shell, MAKE + "a_panel()")
    in_the_page = first.view
    second = run(shell, MAKE + "a_panel()")
    assert closed(first) and in_the_page.comm is None and not closed(second)
    other = run(shell, MAKE + "a_panel()", cell="another")
    assert not closed(second) and not closed(other)


def test_out_forgets_the_former_panel_and_nothing_else(shell):
    shell.run_cell("1 + 1", store_history=True, cell_id="sum")
    first = run(shell, MAKE + "a_panel()")
    second = run(shell, MAKE + "a_panel()")
    assert shell.user_ns["Out"] == {1: 2, 3: second} and {"_1", "_3"} <= set(shell.user_ns)
    for names in (shell.user_ns, shell.user_ns_hidden):
        assert "_2" not in names
    assert first is not second


def test_two_panels_of_one_run_stand_side_by_side_until_the_next(shell):
    source = MAKE + "from IPython.display import display; both = a_panel(), a_panel(); display(*both)"
    run(shell, source)
    former = shell.user_ns["both"]
    assert not any(map(closed, former))
    run(shell, source)
    assert all(map(closed, former)) and not any(map(closed, shell.user_ns["both"]))


def test_a_panel_that_stays_or_is_in_another_cell_is_left_alone(shell):
    run(shell, MAKE + "one = a_panel()", cell="name")
    one = run(shell, "one", cell="first")
    one.asked(slope=5000)
    for cell in ("first", "second"):        # the same panel once more; beside another view of it
        assert run(shell, "one", cell=cell) is one and one.values["slope"] == 5000
    run(shell, MAKE + "one = a_panel()", cell="name")
    run(shell, "one", cell="first")
    assert not closed(one)
    run(shell, "one", cell="second")
    assert closed(one)


def test_a_page_that_shares_the_kernel_closes_nothing_of_the_other(shell):
    """Stored pages have equal ids: the answer-m1 of one is not that of the other."""
    first = run(shell, MAKE + "a_panel()", cell="answer-m1")
    run(shell, MAKE + "a_panel(prediction='p1')", cell="answer-m1")
    assert not closed(first)


def test_without_cells_nothing_is_closed(shell):
    first, second = (run(shell, MAKE + "a_panel()", cell=None) for _ in range(2))
    assert not closed(first) and not closed(second)


def test_a_closed_panel_that_is_shown_again_begins_anew():
    panel = a_panel()
    first = pieces(panel)
    panel.asked(slope=5000)
    panel.close()
    assert pieces(panel) == first and panel.values["slope"] == 2000
    panel.close()
    panel.close()       # twice does no harm


def test_an_answered_prediction_goes_with_its_card():
    sheet = FakeSheet()
    panel = a_panel(sheet=sheet, prediction="p1")
    card = panel.card
    card.choice.value, card.sureness.value, card.reason.value = "a", 1, "a guess"
    card.button.click()
    assert panel.started and all(part.comm is None for part in (
        card.view, *card.view.children, card.choice.style, card.button.layout))


# ---- sounds ----------------------------------------------------------------------------------------------------------

HEAR = ("import numpy as np; from lessons_lib.page.sound import sound; "
        "sound(np.sin(np.arange(4410)), 44100, caption='a tone')")


def test_out_forgets_the_former_sound(shell):
    run(shell, HEAR)
    second = run(shell, HEAR)
    assert shell.user_ns["Out"] == {2: second}
    assert set(shell.history_manager.outputs) <= {2}
