"""A formula as somebody types it: read by a closed grammar, never run as code; its value, and its dimension.

Numbers, the names that the exercise declares, + - * / and brackets, powers by ** or ^, pi, and the functions below.
What is read is a tree of Python's own parser, of which only these pieces are let through.
"""
import ast
import math
import operator
import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from lessons_lib.base.dimensions import PLAIN, dimension_words, times, to_power
from lessons_lib.base.words import did_you_mean
from lessons_lib.exercises import reading

LONGEST = 200       # characters of a formula
_DEEPEST = 40       # pieces inside of each other
_HIGHEST = 20       # power of a quantity with a unit
# log is the natural logarithm, as in Python
FUNCTIONS = {"sqrt": math.sqrt, "sin": math.sin, "cos": math.cos, "exp": math.exp, "log": math.log, "ln": math.log,
             "log10": math.log10}
NOT_NAMES = {*FUNCTIONS, "pi"}
_OPERATIONS = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv,
               ast.Pow: math.pow}
_SIGNS = str.maketrans({"−": "-", "–": "-", "‐": "-", "·": "*", "⋅": "*", "×": "*", "∙": "*", "÷": "/", "∕": "/",
                        "^": "**", "²": "**2", "³": "**3", "π": "pi", "√": " sqrt ", "[": "(", "]": ")"})
_TOKEN = re.compile(r"(?P<number>(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)|(?P<name>[^\W\d]\w*)"
                    r"|(?P<sign>\*\*|[-+*/()])")
_INSTEAD = {"=": "write only what is to the right of the equals sign", ",": "write a decimal point, not a comma"}
_NOT_WHOLE = "the formula is not whole: something is missing beside + - * / ^ or between brackets"


class DimensionError(Exception):
    """A formula that adds, raises or takes a function of what it cannot; the message is a sentence."""


@dataclass(frozen=True)
class Expression:
    """A formula that was read: its *text* as typed, and the tree; made by `read_expression`."""

    text: str
    tree: ast.expr

    def value(self, values):
        """Return what it gives for the named *values*; NaN where that is no finite number."""
        try:
            number = _value(self.tree, values)
        except (ArithmeticError, ValueError):
            return math.nan
        return number if math.isfinite(number) else math.nan

    def dimension(self, dimensions):
        """Return its dimension, for the named ones; `DimensionError` with a sentence where it has none."""
        return _dimension(self.tree, dimensions)

    def dimension_said(self, dimensions):
        """Return in words what it is: "a flux divided by a flux, so a plain number"."""
        words, tree = dimension_words(self.dimension(dimensions)), self.tree
        if isinstance(tree, ast.BinOp) and isinstance(tree.op, (ast.Mult, ast.Div)):
            parts = [_dimension(part, dimensions) for part in (tree.left, tree.right)]
            if PLAIN not in parts:
                verb = "times" if isinstance(tree.op, ast.Mult) else "divided by"
                return f"{dimension_words(parts[0])} {verb} {dimension_words(parts[1])}, so {words}"
        return words


def read_expression(value, names):
    """Return the `Expression` that *value* spells with *names*.

    Raises
    ------
    ValueError
        For anything that the grammar does not have; the message is a sentence for a student.

    Examples
    --------
    >>> read_expression("mmf / (2·r_gap^2)", ["mmf", "r_gap"]).value({"mmf": 36.0, "r_gap": 3.0})
    2.0
    """
    if not isinstance(value, str):
        raise ValueError(f'write the formula as a text in quotes, with {", ".join(names)}')
    text = reading.read_text(value, LONGEST)
    tokens = _tokens(text, names)
    try:
        tree = ast.parse(" ".join(tokens), mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        more = tokens.count("(") - tokens.count(")")
        raise ValueError(f"a bracket is {'not closed' if more > 0 else 'closed that was not opened'}" if more else
                         _NOT_WHOLE) from None
    _check(tree, _DEEPEST)
    return Expression(text, tree)


def _tokens(text, names):
    """The pieces of a text; what is written side by side without a sign is refused here, and so is every other name."""
    text, tokens, at, before = unicodedata.normalize("NFKC", text.translate(_SIGNS)), [], 0, ""
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        found = _TOKEN.match(text, at)
        if not found:
            sign = reading.shortened(text[at])
            raise ValueError(_INSTEAD.get(text[at]) or f'a formula here has no "{sign}": write numbers, names, + - * / '
                             "^ and brackets")
        token, at = found[0], found.end()
        if found["name"] and token not in names and token not in NOT_NAMES:
            raise ValueError(f'"{reading.shortened(token)}" is not one of the names here: {", ".join(names)}.'
                             f"{did_you_mean(token, [*names, *NOT_NAMES])}")
        if before in FUNCTIONS and token != "(":
            raise ValueError(f"after {before} there must be brackets: {before}(...)")
        if before and (token == "(" or not found["sign"]) and before not in FUNCTIONS and (
                before == ")" or _TOKEN.match(before)["sign"] is None):
            raise ValueError(f'a sign is missing between "{reading.shortened(before)}" and '
                             f'"{reading.shortened(token)}": write * where you mean times')
        tokens.append(token.lstrip("0") or "0" if token.isdecimal() else token)
        before = token
    if before in FUNCTIONS:
        raise ValueError(f"after {before} there must be brackets: {before}(...)")
    return tokens


def _check(node, room):
    """Refuse every piece of a tree that the grammar does not have; names were looked at before."""
    if not room:
        raise ValueError("the formula is nested too deeply: write it in a simpler way")
    parts = ()
    match node:
        case ast.Constant(value=int() | float()):
            if not math.isfinite(node.value):
                raise ValueError("a number in the formula is too large")
        case ast.Name():
            pass
        case ast.UnaryOp(op=ast.UAdd() | ast.USub()):
            parts = (node.operand,)
        case ast.BinOp() if type(node.op) in _OPERATIONS:
            parts = node.left, node.right
        case ast.Call(func=ast.Name(), args=[part], keywords=[]) if node.func.id in FUNCTIONS:
            parts = (part,)
        case _:
            raise ValueError(_NOT_WHOLE)
    for part in parts:
        _check(part, room - 1)


def _value(node, values):
    match node:
        case ast.Constant():
            return float(node.value)
        case ast.Name():
            return math.pi if node.id == "pi" else values[node.id]
        case ast.UnaryOp():
            return _value(node.operand, values) * (-1 if isinstance(node.op, ast.USub) else 1)
        case ast.Call():
            return FUNCTIONS[node.func.id](_value(node.args[0], values))
    return _OPERATIONS[type(node.op)](_value(node.left, values), _value(node.right, values))


def _dimension(node, known):
    match node:
        case ast.Constant():
            return PLAIN
        case ast.Name():
            return known.get(node.id, PLAIN)
        case ast.UnaryOp():
            return _dimension(node.operand, known)
        case ast.Call():
            return _of_function(node, _dimension(node.args[0], known))
    left, right = _dimension(node.left, known), _dimension(node.right, known)
    match node.op:
        case ast.Mult():
            return times(left, right)
        case ast.Div():
            return times(left, to_power(right, -1))
        case ast.Pow():
            return _of_power(node, left, right)
    if left != right:
        one, other = (f"{dimension_words(dimension)} ({_source(part)})"
                      for dimension, part in ((left, node.left), (right, node.right)))
        raise DimensionError(f"One cannot add {one} and {other}." if isinstance(node.op, ast.Add) else
                             f"One cannot subtract {other} from {one}.")
    return left


def _of_function(node, inside):
    if node.func.id == "sqrt":
        return to_power(inside, Fraction(1, 2))
    if inside != PLAIN:
        raise DimensionError(f"{node.func.id} is taken of a plain number, and {_source(node.args[0])} is "
                             f"{dimension_words(inside)}.")
    return PLAIN


def _of_power(node, base, exponent):
    if exponent != PLAIN:
        raise DimensionError(f"A power must be a plain number, and {_source(node.right)} is "
                             f"{dimension_words(exponent)}.")
    if base == PLAIN:
        return PLAIN
    if any(isinstance(part, ast.Name) and part.id != "pi" for part in ast.walk(node.right)):
        raise DimensionError(f"{_source(node.left)} is {dimension_words(base)}: its power must be a number that is "
                             "written out.")
    number = Expression("", node.right).value({})
    if not abs(number) <= _HIGHEST:
        raise DimensionError(f"The power of {_source(node.left)} is higher than any formula here needs.")
    return to_power(base, Fraction(number).limit_denominator(60))


def _source(node):
    return reading.shortened(ast.unparse(node).replace("**", "^"), 40)
