"""The functions under the panel of the first page against the string's formula, and what is heard by its spectrum."""
import numpy as np
import pytest

from lessons_lib.lessons.lesson_00 import panels as lesson_00
from lessons_lib.lessons.lesson_00.model import LOUDEST, notes, shorter_curve, shorter_note

RATE = 22050


@pytest.mark.parametrize("length, speed", [(0.6, 250.0), (0.3, 250.0), (0.2, 420.0), (0.6, 100.0)])
def test_the_note_is_the_waves_way_there_and_back(length, speed):
    # Mersenne's law, f = c / (2 L)
    note = shorter_note(length=length, speed=speed)
    assert note.frequency == pytest.approx(speed / (2 * length)) and note.ratio == pytest.approx(0.6 / length)


def test_a_length_of_zero_is_refused():
    with pytest.raises(ValueError, match="length must be a finite number above zero; got 0"):
        shorter_note(length=0.0, speed=250.0)


@pytest.mark.parametrize("length, speed", [(0.3, 250.0), (0.2, 420.0)])
def test_what_is_heard_has_the_frequency_that_is_said(length, speed):
    note = shorter_note(length=length, speed=speed)
    for signal, expected in zip(notes(note, RATE, length=length, speed=speed).values(), (note.whole, note.frequency)):
        level = np.abs(np.fft.rfft(signal * np.hanning(signal.size)))
        frequency = np.fft.rfftfreq(signal.size, 1 / RATE)
        near = (frequency > 0.7 * expected) & (frequency < 1.3 * expected)
        assert frequency[near][level[near].argmax()] == pytest.approx(expected, abs=2 / 1.2)      # two lines of 1.2 s
        below = (frequency > 30) & (frequency < 0.7 * expected)
        assert level[below].max() < 0.01 * level[near].max()


def test_the_whole_string_alone_is_heard_once_and_nothing_is_louder_than_the_loudest():
    whole = shorter_note(length=0.6, speed=420.0)
    assert len(notes(whole, RATE, length=0.6, speed=420.0)) == 1
    peaks = [np.abs(signal).max() for length in (0.2, 0.3, 0.6) for speed in (100.0, 420.0) for signal in notes(
        shorter_note(length=length, speed=speed), RATE, length=length, speed=speed).values()]
    assert max(peaks) == pytest.approx(LOUDEST, rel=0.01)


def test_the_dot_is_under_the_fret():
    note = shorter_note(length=0.25, speed=250.0)
    data = shorter_curve(note, length=0.25, speed=250.0)
    figure, draw, string = lesson_00.string_figure()
    draw(data)
    assert data["string"]["frets"] == [0.25] and data["chart"]["now"] == (0.25, note.frequency)
    chart = next(axes for axes in figure.axes if axes is not string)
    assert chart.transData.transform((250, 0))[0] == pytest.approx(string.transData.transform((250, 0))[0])


def test_the_finger_is_dragged_along_the_string():
    panel = lesson_00.shorter_string()
    panel.asked(length=300)
    grip, string = panel.board.frame["grips"][0], panel._grips[0]._axes
    assert grip["along_x"]["name"] == "length"
    assert (grip["x"], string.figure.bbox.height - grip["y"]) == pytest.approx(
        tuple(string.transData.transform((300, 0))), abs=0.1)
