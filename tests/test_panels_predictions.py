"""A panel's prediction without a browser: made before the panel opens, and compared with what was seen."""
from types import SimpleNamespace

from lessons_lib.exercises import showing
from shown import alt, words
from small_panel import FakeSheet, a_panel


def test_the_sliders_wait_for_the_prediction():
    sheet = FakeSheet()
    panel = a_panel(sheet=sheet, prediction="p1")
    assert not panel.started and panel.board.frame == {}
    card = panel.card
    assert words(card.view.children[0]) == "Before you move anything: Which way <does> it go?"
    assert card.choice.value is None and card.sureness.value is None
    assert card.button.description == "Save my prediction"
    card.button.click()
    assert words(card.trouble) == "Still missing: an answer, how sure you are, why you think so."
    card.choice.value, card.sureness.value = "b", 2
    card.button.click()
    assert words(card.trouble) == "Still missing: why you think so." and not panel.started
    card.reason.value = "a guess"
    card.button.click()
    assert panel.started and sheet.made == ("b", 2, "a guess")
    assert [words(line) for line in panel.head.children] == [
        "You expected b) down (leaning this way): a guess", "Your prediction is b. Now look."]
    assert alt(panel).startswith("A straight line that rises by 2.0 m")


def test_on_ones_own_no_reason_is_needed():
    panel = a_panel(sheet=FakeSheet(needs_reason=False), prediction="p1")
    assert panel.card.reason.description == "Why (if you like):"
    panel.card.button.click()
    assert words(panel.card.trouble) == "Still missing: an answer, how sure you are."
    panel.card.choice.value, panel.card.sureness.value = "b", 2
    panel.card.button.click()
    assert panel.started and words(panel.head.children[0]) == "You expected b) down (leaning this way)."


def test_what_the_sheet_does_not_take_is_said_and_the_card_stays():
    panel = a_panel(sheet=FakeSheet(), prediction="p1")
    panel.card.choice.value, panel.card.sureness.value, panel.card.reason.value = "a", 1, "x" * 30
    panel.card.button.click()
    assert words(panel.card.trouble) == "Write one line." and not panel.started


def test_a_kept_prediction_opens_the_panel_again():
    sheet = FakeSheet()
    sheet.made = "a", 3, "<b>sure</b>"
    panel = a_panel(sheet=sheet, prediction="p1")
    assert panel.started
    assert words(panel.head.children[0]).endswith("(would bet on it): <b>sure</b>")


def test_what_was_seen_gets_its_sentence_and_is_kept():
    sheet = FakeSheet()
    sheet.made = "a", 3, "sure"
    panel = a_panel(sheet=sheet, prediction="p1")
    panel.card.button.click()
    assert words(panel.card.answer) == "First choose what you saw." and panel.board.unfolded == 0
    panel.card.choice.value = "b"
    panel.card.button.click()
    assert words(panel.card.answer) == "Look again: it rises." and panel.board.unfolded == 1
    again = a_panel(sheet=sheet, prediction="p1")
    assert again.card.choice.value == "b" and again.board.unfolded == 1


def test_a_button_opens_what_the_panel_means_without_a_word_on_what_was_seen():
    sheet = FakeSheet()
    sheet.made = "a", 3, "sure"
    panel = a_panel(sheet=sheet, prediction="p1")
    panel.card.show.click()
    assert panel.board.unfolded == 1 and words(panel.card.answer) == "What it means is open, below."
    alone = a_panel(prediction="p1")
    button, said = alone.foot.children[0].children
    assert button.description == "Show what it means" and alone.board.unfolded == 0
    button.click()
    assert alone.board.unfolded == 1 and words(said) == "What it means is open, below."
    assert a_panel().foot.children == ()


def test_presenting_opens_without_predictions(monkeypatch):
    monkeypatch.setattr(showing, "_presenting", True)
    panel = a_panel(sheet=FakeSheet(), prediction="p1")
    assert panel.started and panel.card is None and panel.head.children == panel.foot.children == ()
    assert panel.board.unfolded == 1


def test_a_sheet_in_trouble_says_why_and_the_panel_opens():
    sheet = FakeSheet()
    sheet.trouble = SimpleNamespace(text="No bench yet.")
    panel = a_panel(sheet=sheet, prediction="p9")
    assert panel.started and words(panel.head.children[0]) == "No bench yet."


def test_without_a_sheet_the_panel_opens_at_once():
    assert a_panel(prediction="p1").started
