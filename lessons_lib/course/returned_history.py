"""What a bench handed in of one lesson: every answer judged once, with what lateness takes off it."""
import hashlib
import json
from dataclasses import dataclass

from lessons_lib.exercises.log import History, read_again

MOST_COMPUTED = 20      # different answers to one exercise whose judging runs a model, the last ones of each return


@dataclass(frozen=True, kw_only=True)
class Text:
    """An open *text*, with the per cent that lateness takes *off* it."""

    text: str
    off: float

    @property
    def id(self):
        """Eight characters that tell this text from others."""
        return hashlib.sha256(self.text.encode()).hexdigest()[:8]


class ReturnedHistory(History):
    """The history of a *lesson* in returned events; every answer is judged once.

    Parameters
    ----------
    came : list of (event, places)
        In their order; *places* are those of the returns that hold the event.
    offs : sequence of float
        Of each return, the per cent that lateness takes off.
    lesson : str
    last_only : bool
        Whether of each exercise only the last readable answer counts, as in an examination.

    Attributes
    ----------
    left_out : dict
        Exercise id -> how many different answers were not judged, for judging them would take too long.
    ids : set of str
        Of all events.
    """

    def __init__(self, came, offs, lesson, last_only=False):
        super().__init__((), lesson)
        self._last_only = last_only
        self._offs, self._by_exercise, self.left_out = offs, {}, {}
        self.ids = {event["id"] for event, _ in came}
        for place, (event, places) in enumerate(came):
            self._by_exercise.setdefault(event["exercise"], []).append((place, event, places))

    def handed_in(self, record):
        """Return (place among all events, judgement, per cent off) of every readable answer."""
        if record["id"] not in self._judged:
            answers = self._answers(record["id"])
            if record.is_computed:
                answers = self._last_of_each_return(record["id"], answers)
            readable = [(place, judged, min(self._offs[one] for one in places))
                        for place, event, places in answers if (judged := read_again(record, event))]
            self._judged[record["id"]] = readable[-1:] if self._last_only else readable
        return self._judged[record["id"]]

    def answers(self, record):
        """Return the judgements on the readable answers, in their order."""
        return [judged for _, judged, _ in self.handed_in(record)]

    def digest(self, exercise_id):
        """Return eight characters that change when other answers to an exercise are handed in, in whatever order."""
        return short(sorted({_name(event) for _, event, _ in self._answers(exercise_id)}))

    def texts(self, record):
        """Return every `Text`, in the order of their last coming."""
        offs = {}
        for _, judged, off in self.handed_in(record):
            text = judged.entry["value"]
            offs[text] = min(off, offs.pop(text, off))      # popped, so that it stands at its last place
        return [Text(text=text, off=off) for text, off in offs.items()]

    def told(self, exercise_id, event):
        """Return the events of one kind on an exercise, in their order."""
        return [one for _, one, _ in self._by_exercise.get(exercise_id, ()) if one["event"] == event]

    _events = told      # under the name by which a `History` asks

    def _answers(self, exercise_id):
        return [one for one in self._by_exercise.get(exercise_id, ()) if one[1]["event"] == "answer"]

    def _last_of_each_return(self, exercise_id, answers):
        """Different answers, with those of their returns in which they are among the last."""
        named = [(_name(event), place, event, places) for place, event, places in answers]
        last = {}       # place of a return -> its last different answers
        for name, _, event, places in sorted(named, key=lambda one: (one[2]["number"], one[0]), reverse=True):
            for one in places:
                names = last.setdefault(one, set())
                if len(names) < MOST_COMPUTED:
                    names.add(name)
        found = {}
        for name, place, event, places in named:
            if here := {one for one in places if name in last[one]}:
                found.setdefault(name, (place, event, set()))[2].update(here)
        self.left_out[exercise_id] = len({name for name, *_ in named}) - len(found)
        return list(found.values())


def to_mark(texts):
    """Return those of a bench's `Text`s that a marker is to see, in their order, the last of them last.

    For each date with a price of its own it is the last text that had come by then, unless it is shorter than half of
    the longest: then the last one that is not.
    """
    shown = {}
    for off in sorted({one.off for one in texts}):
        here = [one for one in texts if one.off <= off]
        longest = max(len(one.text) for one in here)
        one = next(one for one in reversed(here) if 2 * len(one.text) >= longest)
        shown[one.id] = one
    return list(shown.values())


def short(content):
    """Return eight characters that change with plain *content*."""
    return hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()[:8]


def _name(event):
    return json.dumps((event["value"], event.get("unit"), event.get("readings")), sort_keys=True)
