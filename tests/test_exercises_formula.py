"""A formula as an answer: what is read and what it gives, dimensions, slips; nothing is ever run as code."""
import ast
import builtins
import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises_in_words import loop
from lessons_lib.base.dimensions import dimension_of, dimension_words
from lessons_lib.exercises import expressions
from lessons_lib.exercises.declaration import FormulaExercise, Slip, Symbol
from lessons_lib.exercises.expressions import DimensionError, read_expression
from lessons_lib.exercises.kinds.formula import FormulaRecord
from lessons_lib.exercises.review import review
from lessons_lib.exercises.verdicts import State
from test_exercises_inputs import ANYTHING

RECORD = FormulaRecord(loop.sheet_record(None, "salt"), id="1.1")
NAMES = {"a": 2.0, "b": 3.0, "c": 5.0, "x_1": 0.5}


# ---- the reader ------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text, number", [
    # worked by hand
    ("a + b * c", 17), ("(a + b) * c", 25), ("a - b - c", -6), ("c / a / b", Fraction(5, 6)), ("a^b", 8), ("a**b", 8),
    ("a^b^a", 512), ("-a^2", -4), ("(-a)^2", 4), ("a^-1", Fraction(1, 2)), ("2 * -a", -4), ("+a", 2), ("1e3*a", 2000),
    (".5*c", Fraction(5, 2)), ("5.", 5), ("007", 7), ("a*x_1", 1),
    ("sqrt(a*8)", 4), ("√(16)", 4),
    ("ln(exp(c))", 5), ("log(exp(b))", 3), ("log10(1000)", 3), ("sin(pi / 6)", Fraction(1, 2)), ("cos(0)", 1),
    ("π/pi", 1), ("a·b × c", 30), ("c − a", 3), ("c ÷ a", Fraction(5, 2)), ("b²", 9), ("a³", 8), ("[a + b]", 5),
    ("8^(1/3)", 2), ("1E-3*1e+3", 1), ("  a\n+\tb ", 5), ("ａ", 2)])
def test_what_a_formula_gives(text, number):
    assert read_expression(text, NAMES).value(NAMES) == pytest.approx(float(number), rel=1e-12)


TREES = st.recursive(st.sampled_from(["a", "b", "c"]) | st.integers(1, 9).map(str), lambda inner: st.tuples(
    inner, st.sampled_from(["+", "-", "*", "/"]), inner).map(lambda parts: f"({' '.join(parts)})"), max_leaves=12)


def by_hand(text, values):
    """The value of a fully bracketed text in exact fractions, by a reader of ten lines: no precedence, no parser."""
    def read(at):
        if text[at] != "(":
            return Fraction(values.get(text[at], 0) or int(text[at])), at + 1
        left, at = read(at + 1)
        sign, (right, at) = text[at + 1], read(at + 3)
        return {"+": lambda: left + right, "-": lambda: left - right, "*": lambda: left * right,
                "/": lambda: left / right}[sign](), at + 1
    return read(0)[0]


@settings(max_examples=300, deadline=None, derandomize=True)
@given(TREES)
def test_values_are_those_of_exact_fractions(text):
    values = {"a": 2, "b": 3, "c": 5}
    try:
        due = by_hand(text, values)
    except ZeroDivisionError:
        return      # rounding decides in floats whether this is zero
    if len(text) <= expressions.LONGEST:
        assert read_expression(text, values).value(values) == pytest.approx(float(due), rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("text, words", [
    ("2a", 'a sign is missing between "2" and "a": write * where you mean times'), ("a b", 'between "a" and "b"'),
    ("2(a)", 'between "2" and "("'), ("(a)(b)", 'between ")" and "("'), ("a(b)", 'between "a" and "("'),
    ("2 pi", 'between "2" and "pi"'), ("2e", '"e" is not one of the names'),
    ("sqrt a", "after sqrt there must be brackets: sqrt(...)"), ("√2", "after sqrt there must be brackets"),
    ("a + sin", "after sin there must be brackets"), ("x1", '"x1" is not one of the names here: a, b, '
     "c, x_1. Did you mean x_1?"), ("A", "Did you mean a?"), ("flux = a", '"flux" is not one of the names'),
    ("a = b", "write only what is to the right of the equals sign"),
    ("0,5 * a", "a decimal point, not a comma"), ("((a)", "a bracket is not closed"),
    ("a)", "closed that was not opened"), ("a +", "not whole"), ("* a", "not whole"), ("a // b", "not whole"),
    ("()", "not whole"), ("sqrt()", "not whole"), ("sqrt(*a)", "not whole"), ("a % b", 'has no "%"'),
    ("a.b", 'has no "."'), ("a if b", '"if" is not one of the names'), ("__import__", "is not one of the names"),
    ('"a"', "has no"), ("a @ b", "has no"), ("a; b", 'has no ";"'), ("1e999", "too large"), ("9" * 201, "at most 200"),
    ("-" * 150 + "a", "nested too deeply"), ("(" * 150 + "a", "a bracket is not closed"), ("", "not whole"),
    ("\ud800", "has no"), ("a\0", "has no"), (3, "as a text in quotes, with a, b"), (len, "as a text in quotes"),
    ({"a": 1}, "as a text in quotes")])
def test_what_cannot_be_read_gets_one_sentence(text, words):
    with pytest.raises(ValueError) as caught:
        read_expression(text, NAMES)
    assert words in str(caught.value) and len(str(caught.value)) < 160 and "\n" not in str(caught.value)


@pytest.mark.parametrize("text", ["1/0", "1/(a - 2)", "sqrt(-1)", "(-8)^(1/3)", "ln(0)", "exp(1e5)", "9^9^9", "0^-1",
                                  "9e99^9e99", "1e308*1e308", "1e308*10 - 1e308*10"])
def test_no_finite_value_is_nan_and_nothing_is_raised(text):
    assert math.isnan(read_expression(text, NAMES).value(NAMES))


def test_nothing_is_ever_run(monkeypatch):
    """Only Python's parser sees the text, and it is asked for a tree alone."""
    asked, run, real = [], [], builtins.compile

    def watched(source, filename, mode, flags=0, *more, **others):
        asked.append((mode, flags & ast.PyCF_ONLY_AST))
        return real(source, filename, mode, flags, *more, **others)

    with monkeypatch.context() as patch:
        patch.setattr(builtins, "compile", watched)
        for name in ("eval", "exec", "open", "print"):
            patch.setattr(builtins, name, lambda *_, **__: run.append("a formula"))
        for text in ("a*b", '__import__("os").system("ls")', "open(a)", "exec(a)", "print(a)", "sqrt(print(a))"):
            try:
                read_expression(text, NAMES).value(NAMES)
            except ValueError:
                pass
    assert run == [] and set(asked) == {("eval", ast.PyCF_ONLY_AST)}


# ---- dimensions ------------------------------------------------------------------------------------------------------

UNITS = {"current": "A", "reluctance": "A/Wb", "flux": "Wb", "d": "mm", "r": "kohm", "c": "nF", "l": "H", "b": "mT",
         "turns": "1", "angle": "deg", "k": "N/m", "m": "g"}
KNOWN = {name: dimension_of(unit) for name, unit in UNITS.items()}


@pytest.mark.parametrize("text, words", [
    ("current / reluctance", "a flux"), ("flux / d^2", "a flux density"), ("b*pi*d^2/4", "a flux"),
    ("r * c", "a time"), ("1 / (2*pi*sqrt(l*c))", "a frequency"), ("sqrt(k/m)", "a frequency"), ("r*sqrt(c/l)",
     "a plain number"), ("exp(-d/(2*d)) * flux", "a flux"), ("turns^turns", "a plain number"),
    ("sin(angle)*d", "a length"), ("(d^3)^(1/3)", "a length"), ("d^0.5*d^0.5", "a length"), ("d^(-1)*d", "a plain "
     "number"), ("-d + d/2 - 3*d", "a length"), ("2 + flux/flux", "a plain number"), ("d^4", "a quantity in m⁴"),
    ("2^(d/d)", "a plain number")])
def test_dimension_of_a_formula(text, words):
    assert dimension_words(read_expression(text, KNOWN).dimension(KNOWN)) == words


@pytest.mark.parametrize("text, words", [
    ("d + r", "One cannot add a length (d) and a resistance (r)."),
    ("flux - current / r", "One cannot subtract a quantity in kg⁻¹ m⁻² s³ A³ (current / r) from a flux (flux)."),
    ("1 + d", "One cannot add a plain number (1) and a length (d)."),
    ("sin(d)", "sin is taken of a plain number, and d is a length."),
    ("exp(-d/2)", "exp is taken of a plain number, and -d / 2 is a length."),
    ("2^d", "A power must be a plain number, and d is a length."),
    ("d^turns", "d is a length: its power must be a number that is written out."),
    ("d^99", "The power of d is higher than any formula here needs."),
    ("d^(1/0)", "The power of d is higher than any formula here needs.")])
def test_what_has_no_dimension_is_said(text, words):
    with pytest.raises(DimensionError) as caught:
        read_expression(text, KNOWN).dimension(KNOWN)
    assert str(caught.value) == words


# ---- the exercise ----------------------------------------------------------------------------------------------------

def test_the_declaration_has_no_faults():
    assert list(review(loop)) == []


@pytest.mark.parametrize("text", [
    "mmf / (r_magnet + r_air)", "mmf/(r_air+r_magnet)", "1/(r_magnet/mmf + r_air/mmf)", "mmf*(r_magnet + r_air)^-1",
    "mmf / r_magnet / (1 + r_air/r_magnet)", "2*mmf/(2*r_magnet + 2*r_air)", "(mmf^2/(r_magnet + r_air)**2)^0.5",
    "pi*mmf/(3.14*r_magnet + 3.14159*r_air)", "(r_magnet - r_air)*mmf/(r_magnet^2 - r_air^2)",
    "mmf ÷ [r_magnet+r_air]"])
def test_equal_forms_are_equal(text):
    assert RECORD.judge(text).state == State.RIGHT


@pytest.mark.parametrize("text, words", [
    ("mmf/r_magnet + mmf/r_air", "does it divide"), ("mmf*(r_air + r_magnet)/(r_magnet*r_air)", "does it divide"),
    ("(r_magnet + r_air)/mmf", "Which of the two drives"),
    ("flux / flux", "This is a flux divided by a flux, so a plain number; a flux is asked."),
    ("mmf * r_air", "This is a current times a reluctance, so a quantity in"), ("mmf", "This is a current; a flux is"),
    ("mmf + r_air", "One cannot add a current (mmf) and a reluctance (r_air)."), ("5e-6", "This is a plain number; a"),
    ("mmf / (r_magnet + r_air) + 0", "One cannot add a flux"), ("mmf/(r_air - r_air)", "divides by zero"),
    ("mmf / r_air", ""), ("flux", ""), ("1.01*mmf / (r_magnet + r_air)", "")])
def test_wrong_formulas(text, words):
    judged = RECORD.judge(text)
    assert judged.state == State.NOT_YET and words in judged.text and judged.unmatched == (not words)
    assert RECORD.judge(**judged.entry).try_name == judged.try_name


def test_a_right_value_with_a_wrong_dimension_is_another_try_than_the_right_formula():
    wrong, right = RECORD.judge("mmf / (r_magnet + r_air) + 0"), RECORD.judge("mmf / (r_magnet + r_air)")
    assert wrong.try_name != right.try_name


def test_a_formula_has_no_unit_behind_it():
    with pytest.raises(ValueError, match="leave the unit out"):
        RECORD.judge("mmf", "A")


def test_the_sheet_does_not_say_the_formula():
    said = str(loop.sheet_record(None, "salt"))
    rights = [values["mmf"] / (values["r_magnet"] + values["r_air"]) for values in loop.tried_at]
    assert not any(f"{right:.3g}"[:5] in said for right in rights) and "r_magnet + r_air" not in said
    other = loop.sheet_record(None, "other salt")
    assert not set(other["sealed"]) & set(RECORD["sealed"])


@pytest.mark.parametrize("changes, words", [
    ({"written": "mmf / r_air"}, "is not right"), ({"written": "mmf * r_air"}, "This is a current times a reluctance"),
    ({"answer": lambda mmf: 0 * mmf}, "no share can be taken"),
    ({"slips": (Slip("same", lambda mmf, r_magnet, r_air: mmf / (r_air + r_magnet), "What?"),)}, "cannot be told from"),
    ({"slips": (Slip("infinite", lambda mmf: mmf * math.inf, "What?"),)}, "gives [inf"),
    ({"slips": tuple(Slip(note, lambda mmf: mmf, note) for note in ("one", "two"))}, "has another note")])
def test_faults_of_a_declaration_are_found(changes, words):
    faults = list(review(replace(loop, **changes)))
    assert len(faults) == 1 and words in faults[0]


@pytest.mark.parametrize("changes, words", [
    ({"notes": ("one",)}, "three texts"), ({"symbols": {"lambda": Symbol("", "m", 1, 2)}}, "no word of Python"),
    ({"symbols": {"pi": Symbol("", "m", 1, 2)}}, "no function"), ({"answer": lambda other: other}, "one of mmf"),
    ({"asked": "dB"}, "a product of kg, m, s and A"), ({"tolerance": 0}, "above zero")])
def test_what_cannot_be_declared(changes, words):
    with pytest.raises(ValueError, match=words):
        replace(loop, **changes)


def test_a_symbol_must_have_a_range():
    with pytest.raises(ValueError, match="high must be a finite number"):
        Symbol("length", "m", 2, 1)


@settings(max_examples=400, deadline=None, derandomize=True)
@given(ANYTHING | st.text(st.sampled_from("ar()+-*/^.,e19 sqrtmf_gbi=²π"), max_size=40) | st.lists(st.sampled_from(
    ["mmf", "r_air", "+", "-", "*", "/", "^", "(", ")", "2", "0", "sqrt", "exp", "1e300", "pi"]), max_size=20).map(
        " ".join))
def test_whatever_is_typed_gets_a_judgement_or_one_sentence(value):
    try:
        judged = RECORD.judge(value)
    except ValueError as error:
        assert str(error) and "\n" not in str(error) and len(str(error)) < 200
    else:
        assert RECORD.judge(**judged.entry) == judged


def test_a_formula_of_one_constant_and_a_sign():
    fall = FormulaExercise(id="1.2", symbols={"v": Symbol("speed", "m/s", 1, 3), "t": Symbol("time", "s", 1, 2)},
                           asked="m/s", answer=lambda v: -v, written="-v", notes=("", "", ""), worked="-v")
    record = FormulaRecord(fall.sheet_record(None, "salt"), id="1.2")
    assert list(review(fall)) == [] and record.judge("-1*v").state == State.RIGHT
    assert record.judge("v").state == State.NOT_YET
