"""The code of a page's cell as Python reads it: which answers it asks for, and what is in their places."""
import ast
import re
from dataclasses import dataclass

_ANSWER = re.compile(r'^\s*(?:\w+\s*=\s*)?sheet\.answer\(\s*["\']([^"\']+)["\']', re.MULTILINE)
_MAGIC = re.compile(r"^[%!]", re.MULTILINE)


@dataclass(frozen=True, kw_only=True)
class Answer:
    """A call of ``sheet.answer``: the exercise, the call, and the value in it; both None where nothing can be read."""

    exercise_id: str
    call: ast.Call | None = None
    value: ast.expr | None = None
    is_empty: bool = False


def parsed(source):
    """Return the syntax tree of a cell, or None where it is no Python; lines with % or ! count as comments."""
    try:
        return ast.parse(_MAGIC.sub("#", source))
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return None


def answers_in(source):
    """Return the `Answer` of every ``sheet.answer`` in a cell, in order.

    Examples
    --------
    >>> [(one.exercise_id, one.is_empty) for one in answers_in('sheet.answer("1.1", ..., "mm")')]
    [('1.1', True)]
    """
    if "sheet.answer" not in source:
        return []
    tree = parsed(source)
    return answers_of(tree) if tree else [Answer(exercise_id=one) for one in _ANSWER.findall(source)]


def answers_of(tree):
    """Return the `Answer` of every ``sheet.answer`` in a syntax tree, in order."""
    return [_answer(call) for call in calls(tree)
            if is_of_sheet(call, "answer") and call.args and isinstance(call.args[0], ast.Constant)]


def calls(tree):
    """Return the calls in a tree, in the order of their lines."""
    return sorted((node for node in ast.walk(tree) if isinstance(node, ast.Call)),
                  key=lambda node: (node.lineno, node.col_offset))


def is_of_sheet(call, *names):
    """Whether a call is ``sheet.name(...)`` for one of the *names*."""
    return (isinstance(call.func, ast.Attribute) and isinstance(call.func.value, ast.Name)
            and call.func.value.id == "sheet" and call.func.attr in names)


def _answer(call):
    value = call.args[1] if call.args[1:] else next((one.value for one in call.keywords if one.arg == "value"), None)
    return Answer(exercise_id=str(call.args[0].value), call=call, value=value,
                  is_empty=value is None or is_empty(value))


def is_empty(node):
    """Whether an expression holds nothing yet: three dots, with or without quotes, or a dict or list of such."""
    if isinstance(node, ast.Constant):
        return node.value in (..., None) or isinstance(node.value, str) and node.value.strip() in ("", "...", "…")
    if isinstance(node, ast.Dict):
        return all(map(is_empty, node.values))
    if isinstance(node, (ast.List, ast.Tuple)):
        return bool(node.elts) and all(map(is_empty, node.elts))
    return False
