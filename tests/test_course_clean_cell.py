"""Of a cell into which an instructor typed, what is emptied and what stays."""
import pytest

from code_cell import code
from lessons_lib.course.clean_page import clean_page, without_traces
from lessons_lib.course.read_page import LIVE, WORKED

ASKED = {"1.1": ("number", "mm"), "1.2": ("number", "1"), "1.4": ("choice", None), "1.5": ("text", None),
         "1.6": ("measured", "H"), "1.7": ("design", None), "1.8": ("function", None)}
EMPTY = {"1.1": 'sheet.answer("1.1", ..., "mm")', "1.2": 'sheet.answer("1.2", ...)',
         "1.4": 'sheet.answer("1.4", "...")',
         "1.5": 'sheet.answer("1.5", """\n\n""")', "1.6": 'sheet.answer("1.6", ..., "H", table=rows, diameter=5)',
         "1.7": 'sheet.answer("1.7", ...)', "1.8": 'sheet.answer("1.8", ...)'}


def cleaned(*cells):
    """The sources that are left of code cells, and what was found."""
    page, found = clean_page({"cells": [code(cell) if isinstance(cell, str) else cell for cell in cells],
                              "metadata": {}}, ASKED)
    return ["".join(cell["source"]) for cell in page["cells"]], found


@pytest.mark.parametrize("exercise_id, typed", [
    ("1.1", 'sheet.answer("1.1", 3.25, "mm")'), ("1.1", 'sheet.answer("1.1", 3.25e-3, "m")'),
    ("1.1", 'sheet.answer("1.1", 3,25, "mm")'), ("1.1", "sheet.answer('1.1', '3,25', 'mm')"),
    ("1.1", 'sheet.answer("1.1", 4 * 0.8, "mm")  # about 3.2'), ("1.1", 'sheet.answer("1.1", 3.25 mm)'),
    ("1.1", 'sheet.answer("1.1", value=3.25)'), ("1.1", 'result = sheet.answer("1.1", 3.25)'),
    ("1.1", 'sheet.answer("1.1",\n             3.25,\n             "mm")'), ("1.2", 'sheet.answer("1.2", -0.5)'),
    ("1.2", 'sheet.answer("1.2", 50, "%")'), ("1.4", 'sheet.answer("1.4", "b")'), ("1.4", 'sheet.answer("1.4", b)'),
    ("1.5", 'sheet.answer("1.5", """\nBecause the field ... (see above).\n""")'),
    ("1.5", 'sheet.answer("1.5", "Because.")'), ("1.5", 'sheet.answer("1.5", """\nSays "why".""")'),
    ("1.6", 'sheet.answer("1.6", 2.2, "H", table=rows, diameter=5)'),
    ("1.7", 'sheet.answer("1.7", {"wire": 44, "turns": 7600})'),
    ("1.7", 'sheet.answer("1.7", {"wire": 44, "turns": ...})'), ("1.8", 'sheet.answer("1.8", voltage)'),
    ("1.8", 'sheet.answer("1.8", lambda flux, time: -np.gradient(flux, time))')])
def test_an_answer_goes_back_to_its_empty_form(exercise_id, typed):
    assert cleaned(typed) == ([EMPTY[exercise_id]], [("answer", exercise_id)])


@pytest.mark.parametrize("typed, left", [
    ('v = sheet.given("1.1")\nprint(v)  # 3.2\nsheet.answer("1.1", v["a"] / 2, "mm")', EMPTY["1.1"]),
    ('import csv\nrows = csv.rows\nown = 2.2\nsheet.answer("1.6", own, "H", table=rows, diameter=5)',
     f'import csv\nrows = csv.rows\n{EMPTY["1.6"]}')])
def test_of_the_lines_beside_an_answer_those_stay_that_the_page_needs(typed, left):
    sources, found = cleaned(typed)
    assert sources == [left] and [what for what, _ in found] == ["answer", "lines"]


@pytest.mark.parametrize("source", [
    *EMPTY.values(), '# put it here\nsheet.answer("1.1", ..., "mm")', 'sheet.answer("1.5", "")', 'use_card("...")',
    '# sheet.unclear("1.1", "why?")', 'sheet.parts_list("1.7")', 'print("presenting()")', 'sheet.answer("1.4", ...)',
    'sheet.answer("1.7", {"wire": ..., "turns": ...})', "%matplotlib inline\nx = 3", "not Python at all",
    "def voltage(flux, time):\n    return ...", ""])
def test_what_nobody_typed_stays_as_it_is(source):
    assert cleaned(source) == ([source], [])


def test_what_the_page_works_out_itself_stays():
    shown = code('x = 3\nsheet.answer("1.1", x, "mm")', tags=[WORKED])
    assert cleaned(shown) == ([shown["source"]], [])


@pytest.mark.parametrize("typed, left, found", [
    ('use_card("b003")', 'use_card("...")', "card"), ("use_card('B017 - 7QK4MP')", 'use_card("...")', "card"),
    ('use_card(b003)', 'use_card("...")', "card"), ("use_card(b017-7QK 4MP)", 'use_card("...")', "card"),
    ('a = 3\nuse_card(text="b003"); b = 4', 'a = 3\nuse_card("..."); b = 4', "card"),
    ("from lessons_lib import presenting\npresenting()\n\na = 3", "a = 3", "presenting"),
    ("from lessons_lib import open_sheet, presenting\n\nsheet = open_sheet('03')\npresenting()   # for the evening",
     "from lessons_lib import open_sheet\n\nsheet = open_sheet('03')", "presenting"),
    ("a = 3; presenting()", "a = 3", "presenting"), ("presenting(); a = 3", "a = 3", "presenting"),
    ("a = 1; presenting(); b = 'µ'", "a = 1; b = 'µ'", "presenting"),
    ("b = 'µΩ'; presenting()\nc = 4", "b = 'µΩ'\nc = 4", "presenting"),
    ("import lessons_lib\nlessons_lib.presenting()\na = 3", "import lessons_lib\na = 3", "presenting"),
    ("from lessons_lib import presenting as show\nshow()\na = 3", "a = 3", "presenting"),
    ("if True:\n    presenting()", "if True:\n    None", "presenting"),
    ("%time\npresenting()\na = 3", "%time\na = 3", "presenting"), ("presenting()\na = 3 mm", "a = 3 mm", "presenting"),
    ('sheet.unclear("1.3", "why\\nso?")', '# sheet.unclear("1.3", "why\\nso?")', "unclear"),
    ('a = 3\nsheet.predict("p1", "a", 2)', "a = 3", "prediction"),
    ('sheet.parts_list("1.7", {"wire": 44})', 'sheet.parts_list("1.7")', "design")])
def test_calls_that_belong_on_no_students_page(typed, left, found):
    sources, things = cleaned(typed)
    assert sources == [left] and {what for what, _ in things} == {found}


def test_a_cell_with_nothing_else_in_it_goes():
    assert cleaned("a = 3", "from lessons_lib import presenting\npresenting()", "", "b = 4")[0] == [
        "a = 3", "", "b = 4"]


QUESTION = {"cell_type": "markdown", "metadata": {}, "source": "### Exercise 1.8\nWrite the body of `voltage`."}


@pytest.mark.parametrize("typed", [
    "def voltage(flux, time):\n    return -np.gradient(flux, time)",
    "import numpy as np\n\ndef slope(a, b):\n    return np.gradient(a, b)\n\n"
    "def voltage(flux, time):\n    # the minus\n    return -slope(flux, time)\nprint(voltage([1], [2]))",
    "voltage = lambda flux, time: -np.gradient(flux, time)"])
def test_a_students_own_function_is_emptied_and_what_it_gave_goes_with_it(typed):
    page, found = clean_page({"cells": [QUESTION, code(typed), code("print(voltage(3, 4))"), code("print(3)")],
                              "metadata": {}}, ASKED)
    _, body, tried, other = page["cells"]
    assert "".join(body["source"]).removeprefix("import numpy as np\n") == "def voltage(flux, time):\n    return ..."
    assert found == [("function", "voltage")] and body["outputs"] == tried["outputs"] == [] != other["outputs"]


def test_other_functions_are_the_pages():
    source = "def slope(flux, time):\n    return 3"
    assert clean_page({"cells": [QUESTION, code(source)], "metadata": {}}, ASKED)[1] == []


def test_traces_of_running_are_taken_out():
    slider = {"output_type": "display_data", "data": {"application/vnd.jupyter.widget-view+json": {}}, "metadata": {}}
    error = {"output_type": "error", "ename": "E", "evalue": "", "traceback": ["/home/ada/pages"]}
    warning = {"output_type": "stream", "name": "stderr", "text": "/home/ada"}
    kept = {"output_type": "execute_result", "data": {"text/plain": "7"}, "metadata": {}, "execution_count": 41}
    cells = [code("print(3)", outputs=[slider, error, warning, kept], id="a"),
             code("panels.hear()", tags=[LIVE], id="b"), code('sheet.given("1.1")', id="c")]
    cells[0]["metadata"] |= {"execution": {"iopub.status.busy": "2030-01-01"}, "trusted": True}
    page = without_traces({"cells": cells, "metadata": {"widgets": {"state": {"b": "typed"}}, "kernelspec": {
        "name": "my-venv"}}})
    assert [cell["outputs"] for cell in page["cells"]] == [[{**kept, "execution_count": 1}], [], []]
    assert [cell["metadata"] for cell in page["cells"]] == [{}, {"tags": [LIVE]}, {}]
    assert set(page["metadata"]) == {"kernelspec", "language_info"}
    assert page["metadata"]["kernelspec"]["name"] == "python3"
