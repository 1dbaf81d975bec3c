"""A page as students start with it: without the answers, cards and outputs that whoever worked it left in it."""
import ast
import json
import re
from copy import deepcopy

from lessons_lib.course.read_page import (
    LIVE,
    WORKED,
    Code,
    Question,
    answers_in,
    answers_of,
    calls,
    is_empty,
    is_of_sheet,
    parsed,
    read_page,
)
from lessons_lib.exercises.kinds import KINDS
from lessons_lib.exercises.kinds.kind import Record

_KERNEL = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}
_PRESENTING = re.compile(r"^.*\bpresenting\b.*\n?", re.MULTILINE)
_TYPED_CARD = re.compile(r"\buse_card\((?!\s*\"\.\.\.\")[^)\n]*\)?")


def asked_of(exercises):
    """Return exercise id -> (kind, asked unit or None) of declared *exercises*, as `clean_page` wants it."""
    return {one.id: (one.kind, one.unit) for one in exercises}


def clean_page(notebook, asked):
    """Return a page without what was typed into it, and what that was.

    Parameters
    ----------
    notebook : dict
        As it is stored.
    asked : dict
        As `asked_of` gives it for the page's lesson.

    Returns
    -------
    (dict, list)
        The page, a copy; (what, name) of each thing taken out: "answer", "lines" beside it, "design", "prediction" or
        "unclear" with the exercise's id, "function" with its name, "card" or "presenting" with an empty text.

    Notes
    -----
    What a cell is decides: an answer goes back to its empty form, a student's own function to ``return ...``, a card
    to ``use_card("...")``; cells with the tag for worked-out answers keep them. A constant that somebody changed in
    other code cannot be told from the page alone.

    Examples
    --------
    >>> cell = {"cell_type": "code", "source": 'sheet.answer("1.1", 3.2, "mm")', "outputs": [], "metadata": {}}
    >>> page, found = clean_page({"cells": [cell], "metadata": {}}, {"1.1": ("number", "mm")})
    >>> page["cells"][0]["source"], found
    (['sheet.answer("1.1", ..., "mm")'], [('answer', '1.1')])
    """
    page, found = deepcopy(notebook), []
    code, emptied = [cell for cell in page["cells"] if cell["cell_type"] == "code"], set()
    # a student's own: the names between backquotes in the questions that ask for a function
    functions = {name for cell in read_page(notebook) if isinstance(cell, Question)
                 and KINDS.get(asked.get(cell.exercise_id, ("",))[0], Record).takes_function
                 for name in re.findall(r"`(\w+)`", cell.text)}
    for cell in code:
        before = "".join(cell["source"])
        source, typed = _clean_code(before, asked, functions, WORKED in _tags(cell))
        found += typed
        emptied |= {name for what, name in typed if what == "function"}
        if source != before:
            cell["source"], cell["outputs"] = source.splitlines(keepends=True), []
    for cell in code:       # what somebody's own function gave goes with it
        if any(re.search(rf"\b{name}\b", "".join(cell["source"])) for name in emptied):
            cell["outputs"] = []
    page["cells"] = [cell for cell, old in zip(page["cells"], notebook["cells"])
                     if cell["source"] or not "".join(old["source"])]
    return page, list(dict.fromkeys(found))


def without_traces(notebook):
    """Return a page without the outputs of the bench at which it was run, and without what JupyterLab notes in it."""
    page, count = deepcopy(notebook), 0
    of_a_bench = {cell.place for cell in read_page(page) if isinstance(cell, Code) and cell.of_a_bench}
    for place, cell in enumerate(page["cells"]):
        tags = _tags(cell)
        cell["metadata"] = {"tags": tags} if tags else {}
        if cell["cell_type"] == "code":
            count += 1
            is_bare = place in of_a_bench or LIVE in tags
            cell["execution_count"] = None if is_bare else count
            cell["outputs"] = [] if is_bare else [
                {**one, "execution_count": count} if "execution_count" in one else one
                for one in cell["outputs"] if _is_kept(one)]
    page["metadata"] = {"kernelspec": _KERNEL, "language_info": {"name": "python"}}
    return page


def notebook_bytes(notebook):
    """Return a page as the bytes of its file."""
    return (json.dumps(notebook, indent=1, ensure_ascii=False) + "\n").encode()


def _tags(cell):
    return list(cell.get("metadata", {}).get("tags", ()))


def _is_kept(output):
    """Errors and warnings name folders of the machine where the page was run; a slider needs its kernel."""
    return (output["output_type"] != "error" and output.get("name") != "stderr"
            and not any("widget" in kind for kind in output.get("data", ())))


def _clean_code(source, asked, functions, is_worked):
    """Return a cell's code without what was typed, and (what, name) of that."""
    if parsed(source) is None:
        return _clean_words(source, asked, is_worked)
    source, found = _without_calls(source)
    if not is_worked:
        source, answers = _without_answers(source, asked)
        source, bodies = _without_functions(source, functions)
        found += answers + bodies
    return source, found


def _clean_words(source, asked, is_worked):
    """The same for what is no Python, such as an answer with its unit outside of the quotation marks."""
    found = [(what, "") for what, words in (("presenting", _PRESENTING), ("card", _TYPED_CARD)) if words.search(source)]
    source = _TYPED_CARD.sub('use_card("...")', _PRESENTING.sub("", source))
    answers = [] if is_worked else answers_in(source)
    if answers:
        source = "\n".join(_empty_call(one, source, asked) for one in answers)
    return source, found + [("answer", one.exercise_id) for one in answers]


# ---- calls that belong on no student's page --------------------------------------------------------------------------

def _without_calls(source):
    """Take out `presenting` and predictions, put the card's place back, and what is unclear behind its #."""
    tree = parsed(source)
    names, edits, found = {"presenting"}, [], []
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and any(one.name == "presenting" for one in node.names):
            names |= {one.asname for one in node.names if one.name == "presenting" and one.asname}
            others = [one for one in node.names if one.name != "presenting"]
            edits.append((node, ast.unparse(ast.ImportFrom(node.module, others, node.level)) if others else None))
            found.append(("presenting", ""))
    statements = {id(node.value): node for node in tree.body if isinstance(node, ast.Expr)}
    for call in calls(tree):
        name = getattr(call.func, "id", getattr(call.func, "attr", ""))
        of = str(call.args[0].value) if call.args and isinstance(call.args[0], ast.Constant) else ""
        statement, values = statements.get(id(call)), [*call.args, *(one.value for one in call.keywords)]
        if name in names or is_of_sheet(call, "predict", "saw"):    # these two are called by the panels
            edits.append((statement, None) if statement else (call, "None"))
            found.append(("presenting", "") if name in names else ("prediction", of))
        elif name == "use_card" and values and not is_empty(values[0]):
            edits.append((call, f'{ast.get_source_segment(source, call.func)}("...")'))
            found.append(("card", ""))
        elif is_of_sheet(call, "unclear") and statement:
            edits.append((call, "# " + ast.get_source_segment(source, call).replace("\n", "\n# ")))
            found.append(("unclear", of))
        elif is_of_sheet(call, "parts_list") and values[1:] and not is_empty(values[1]):
            edits.append((call, f'sheet.parts_list("{of}")'))
            found.append(("design", of))
    return _edited(source, edits), found


def _edited(source, edits):
    """Return the source with each node replaced by its text; None takes out a statement, and its line with it."""
    data, starts = source.encode(), [0]
    for line in data.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    for node, text in sorted(edits, key=lambda edit: (edit[0].lineno, edit[0].col_offset), reverse=True):
        before = data[:starts[node.lineno - 1] + node.col_offset]
        after = data[starts[node.end_lineno - 1] + node.end_col_offset:]
        if text is None:
            after, joined = re.subn(rb"^[ \t]*;[ \t]*", b"", after)
            before = before if joined else re.sub(rb"[ \t]*;[ \t]*$", b"", before)
            if before[-1:] in (b"", b"\n"):
                after = re.sub(rb"^[ \t]*(#.*)?(\n|$)", b"", after, count=1)
        data = before + (text or "").encode() + after
    return data.decode().strip("\n") if edits else source


# ---- answers and functions -------------------------------------------------------------------------------------------

def _without_answers(source, asked):
    """Put answers back to their empty form; of the lines beside them only imports and what they need stay."""
    tree = parsed(source)
    answers = {id(one.call): one for one in answers_of(tree)}
    typed = [one for one in answers.values() if not one.is_empty]
    if not typed:
        return source, []
    pieces, needed, found = [], set(), [("answer", one.exercise_id) for one in typed]
    for statement in reversed(tree.body):
        inside = [answers[id(call)] for call in calls(statement) if id(call) in answers]
        if inside:
            piece = "\n".join(_empty_call(one, source, asked) for one in inside)
        elif isinstance(statement, (ast.Import, ast.ImportFrom)) or needed & _names_in(statement, ast.Store):
            piece = ast.get_source_segment(source, statement)
        else:
            found.append(("lines", typed[0].exercise_id))
            continue
        pieces.insert(0, piece)
        needed |= _names_in(ast.parse(piece), ast.Load)
    return "\n".join(pieces), found


def _names_in(tree, context):
    return {node.id for node in ast.walk(tree) if isinstance(node, ast.Name) and isinstance(node.ctx, context)}


def _empty_call(answer, source, asked):
    """The call with nothing answered; as it is where it holds nothing."""
    if answer.is_empty:
        return ast.get_source_segment(source, answer.call)
    kind, unit = asked.get(answer.exercise_id) or _by_form(answer)
    record = KINDS.get(kind, Record)
    words = [f'"{answer.exercise_id}"', record.blank,
             *([f'"{unit}"'] if unit not in (None, "1") else []),
             *(f"{one.arg}={record.blank_readings.get(one.arg) or ast.get_source_segment(source, one.value)}"
               for one in (answer.call.keywords if answer.call else ()) if one.arg not in (None, "value", "unit"))]
    return f"sheet.answer({', '.join(words)})"


def _by_form(answer):
    """Kind and unit of an exercise that the lesson does not declare, by what was typed."""
    typed = [one.value for one in (answer.call.args[1:] if answer.call else ()) if isinstance(one, ast.Constant)]
    texts = [one for one in typed if isinstance(one, str)]
    if typed and typed[0] in texts:
        return ("text" if "\n" in typed[0] else "choice"), None
    return "", next(iter(texts), None)


def _without_functions(source, functions):
    """Put a student's own functions back to ``return ...``; of the lines beside them only imports stay."""
    tree = parsed(source)
    own = {id(one): definition for one in tree.body if (definition := _definition(one)) and definition[0] in functions}
    filled = [name for name, _, is_bare in own.values() if not is_bare]
    if not filled:
        return source, []
    pieces = [f"def {own[id(one)][0]}({own[id(one)][1]}):\n    return ..." if id(one) in own
              else ast.get_source_segment(source, one)
              for one in tree.body if id(one) in own or isinstance(one, (ast.Import, ast.ImportFrom))]
    return "\n".join(pieces), [("function", name) for name in filled]


def _definition(statement):
    """Return (name, arguments, whether nothing is in it yet) where a statement defines a function, else None."""
    if isinstance(statement, ast.FunctionDef):
        last = statement.body[-1]
        value = last.value if isinstance(last, (ast.Return, ast.Expr)) else last
        is_bare = len(statement.body) == 1 and (isinstance(last, ast.Pass) or value is None or is_empty(value))
        return statement.name, ast.unparse(statement.args), is_bare
    if isinstance(statement, ast.Assign) and isinstance(statement.value, ast.Lambda) and isinstance(
            statement.targets[0], ast.Name):
        return statement.targets[0].id, ast.unparse(statement.value.args), False
    return None
