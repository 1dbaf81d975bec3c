"""The log of a bench: one line of JSON per event, appended at once, never rewritten."""
import json
import secrets
from datetime import datetime


class Log:
    """Events of one bench in the file *path*, which is made with the first event.

    Events that could not be written are kept in memory, so that the lesson goes on.
    """

    def __init__(self, path):
        self._path = path
        self._unwritten = []

    def events(self):
        """Return the readable events in their order."""
        return [*self._read(), *self._unwritten]

    def add(self, event, *, lesson, exercise, after, **what):
        """Append one event, numbered after the events *after* which it comes; return what `save` returns."""
        number = 1 + max((known["number"] for known in after if type(known.get("number")) is int), default=0)
        entry = {"id": secrets.token_hex(8), "number": number,
                 "time": datetime.now().astimezone().isoformat(timespec="seconds"),
                 "event": event, "lesson": lesson, "exercise": exercise, **what}
        self._unwritten.append(entry)
        return self.save()

    def save(self):
        """Write what is not yet written; return an empty text, or a sentence saying why it could not be kept."""
        try:
            while self._unwritten:
                self._append(self._unwritten[0])
                del self._unwritten[0]
        except OSError as error:
            return (f"This could not be saved in the folder {self._path.parent} "
                    f"({error.strerror or 'access was refused'}), and will be lost when the page closes.")
        return ""

    def _append(self, entry):
        line = json.dumps(entry, ensure_ascii=True, allow_nan=False).encode() + b"\n"
        self._path.parent.mkdir(parents=True, exist_ok=True)
        with open(self._path, "ab", buffering=0) as file:
            # after a torn last line the new one starts on its own
            file.write(line if self._ends_whole() else b"\n" + line)

    def _ends_whole(self):
        with open(self._path, "rb") as file:
            if not file.seek(0, 2):
                return True
            file.seek(-1, 2)
            return file.read(1) == b"\n"

    def _read(self):
        try:
            data = self._path.read_bytes()
        except OSError:
            return
        for line in data.split(b"\n"):
            try:
                event = json.loads(line)
            except (ValueError, RecursionError):
                continue  # torn or damaged
            if isinstance(event, dict):
                yield event
