"""Things put in order: what is read of what people type, ties, slips as orders of a part, orders of a bench's own."""
import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises_in_words import ladders, rods
from lessons_lib.exercises.declaration import Slip
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.kinds.order import OrderRecord, order_text, read_order
from lessons_lib.exercises.review import review
from lessons_lib.exercises.sealing import digest
from lessons_lib.exercises.verdicts import State
from test_exercises_inputs import ANYTHING

RECORD = OrderRecord(ladders.sheet_record(None, "salt"), id="1.2")


@pytest.mark.parametrize("typed", [
    "b > a = d > c", "B > A = D > C", "b>a=d>c", "c < a = d < b", "C<d=a<B", "b, a=d, c", "b a=d c", "b a = d c",
    " b ; a≈d ; c ", "b > a == d > c", "(b) > (a) = (d) > (c)", "b >> d ~ a > c", "ba=dc", "b\n> a = d\n> c",
    ["b", "a=d", "c"], ("b", ["a", "d"], "c"), ["B", ("d", "a"), "C"], "b > d=a, c", "ｂ ＞ ａ＝ｄ ＞ ｃ"])
def test_what_people_type(typed):
    assert read_order(typed, "abcd") == ("b", "ad", "c")


@pytest.mark.parametrize("typed, words", [
    ("b > a > c", "still missing: d; put all of a, b, c, d in order"), ("a", "still missing: b, c, d; put"),
    ("b > a = d > c > b", "there twice: b"), ("b > a = d > c > x", '"x" is not one of the letters a, b, c, d'),
    ("b > a < d = c", "there is < and > in one order"), ("b >= a = d > c", "between two letters write either > or ="),
    ("b ≥ a", '"≥" is not'), ("> b > a = d > c", "begins or ends with a sign"), ("b > a = d > c =", "begins or ends"),
    ("b and a", '"n" is not one of'), ("", "still missing"), ("b > ... > c", '"." is not one of'), (3, "as a text in"),
    (["b", 3], '"3" is not one of'), ([], "still missing"), (["a"] * 9, "as a text in"), ({"b": 1}, "as a text"),
    (None, "as a text in quotes"), ("b" * 301, "at most 300"),
    ("\ud800", "is not one of"), ([[["a"]]], "is not one of")])
def test_what_cannot_be_read_gets_one_sentence(typed, words):
    with pytest.raises(ValueError) as caught:
        read_order(typed, "abcd")
    assert words in str(caught.value) and len(str(caught.value)) < 160


def all_orders(letters):
    """Every order with ties, by giving each letter a place; as its text."""
    for places in itertools.product(range(len(letters)), repeat=len(letters)):
        if set(places) == set(range(max(places) + 1)):
            yield " > ".join(" = ".join(one for one, at in zip(letters, places) if at == place)
                             for place in range(max(places) + 1))


def test_each_of_all_orders_is_read_as_itself_and_one_is_right():
    orders = list(all_orders("abcd"))
    assert len(orders) == 75        # ordered Bell number; OEIS A000670: 1, 1, 3, 13, 75, 541, 4683
    assert [order_text(read_order(one, "abcd")) for one in orders] == orders
    assert [one for one in orders if RECORD.judge(one).state == State.RIGHT] == ["b > a = c > d"]


def before(order, one, other):
    place = {letter: at for at, rank in enumerate(order.split(" > ")) for letter in rank.split(" = ")}
    return place[one] < place[other]


@pytest.mark.parametrize("order", list(all_orders("abcd")))
def test_notes_and_names_of_slips(order):
    judged, names = RECORD.judge(order), ladders.slips_by_try(None).get(RECORD.judge(order).try_name, [])
    if order == "d > c > a > b":
        assert "Which end" in judged.text and names == ["from the other end"]
    elif before(order, "a", "c") or before(order, "c", "a"):
        assert "turning it round" in judged.text and names == ["turning counts"]
    else:
        assert judged.unmatched == (order != "b > a = c > d") and names == []
    assert RECORD.judge(**judged.entry) == judged


def test_the_sheet_does_not_say_the_order():
    assert "b >" not in str(RECORD) and RECORD["right"] == digest("salt", "1.2", "order", "b > a = c > d")


@pytest.mark.parametrize("bench", [f"b{number:03d}" for number in range(10)])
def test_an_order_of_a_benchs_own(bench):
    drawn = draw(rods, secret="test", bench=bench)
    a, b = drawn.shown["first"], drawn.shown["second"]
    numbers = {"a": a, "b": b, "c": a + b, "d": 2 * b}
    right = " > ".join(" = ".join(sorted(one for one in numbers if numbers[one] == level))
                       for level in sorted(set(numbers.values()), reverse=True))
    record = OrderRecord(rods.sheet_record(drawn, "salt"), id="1.3")
    assert record.judge(right).state == State.RIGHT and rods.model_answer(drawn)[0] == rods.key_value(drawn) == right
    assert right in rods.worked_answer(drawn) and rods.right_for_all() == ""


def test_benches_have_different_orders_with_and_without_ties():
    orders = {rods.key_value(draw(rods, secret="test", bench=f"b{number:03d}")) for number in range(40)}
    assert len(orders) > 2 and any("=" in one for one in orders)


def test_what_is_nearly_a_tie_is_not_given_out():
    near = replace(rods, same=0.1, slips=())
    for number in range(40):
        drawn = draw(near, secret="test", bench=f"b{number:03d}")
        a, b = drawn.shown["first"], drawn.shown["second"]
        assert a == b or abs(a - b) / max(a, b) > 0.3 or abs(a - b) / max(a, b) <= 0.1


@pytest.mark.parametrize("changes, words", [
    ({"slips": (Slip("no", "b > a", ""),)}, "slip no leads to the right order")])
def test_faults_of_a_declaration_are_found(changes, words):
    assert [words in one for one in review(replace(ladders, **changes))] == [True]


@pytest.mark.parametrize("changes, words", [
    ({"right": "b > a"}, "missing"), ({"right": "b > a > c > x"}, "not one of the letters"), ({"notes": ()}, "three"),
    ({"slips": (Slip("no", "a > z", ""),)}, "not one of"), ({"right": lambda: {}}, "given must be there"),
    ({"worked": "{other}"}, "a field in a text"), ({"options": {"a": "", "b": ""}}, "3 to 8 things"),
    ({"slips": (Slip("no", lambda other: {}, ""),)}, "an argument in a formula")])
def test_what_cannot_be_declared(changes, words):
    with pytest.raises(ValueError, match=words):
        replace(ladders, **changes)


@settings(max_examples=400, deadline=None, derandomize=True)
@given(ANYTHING | st.text(st.sampled_from("abcdABCD>=< ,;()x"), max_size=14) | st.lists(st.sampled_from(
    ["a", "b", "c", "d", "a=b", 3, None]), max_size=6))
def test_whatever_is_typed_gets_a_judgement_or_one_sentence(value):
    try:
        judged = RECORD.judge(value)
    except ValueError as error:
        assert str(error) and "\n" not in str(error) and len(str(error)) < 200
    else:
        assert RECORD.judge(**judged.entry) == judged
