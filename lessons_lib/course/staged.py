"""The files of one run: all written beside their places first, then moved there; if one cannot be written, none is."""
import os
import shutil
from pathlib import Path


class Staged:
    """New files below *folder*; as a context manager it moves them into place at its end.

    Where writing fails (no space left, a folder that may not be written), what was there before stays as it was. Where
    a run is killed between two moves, the next run writes and moves all of them again.
    """

    def __init__(self, folder):
        self._folder, self._beside, self._gone, self._last = folder, {}, [], set()

    def __enter__(self):
        for left_over in self._folder.rglob("*.new"):
            left_over.unlink()
        return self

    def place(self, name, begin_as=None):
        """Return the path where the coming content of file *name* is written, begun as a copy of *begin_as*.

        A file that was begun as a copy is moved into place after all others.
        """
        target = self._folder / name
        self._beside[target] = beside = target.with_name(target.name + ".new")
        try:
            beside.parent.mkdir(parents=True, exist_ok=True)
            if begin_as:
                self._last.add(target)
                if begin_as.exists():
                    shutil.copyfile(begin_as, beside)
        except OSError as error:
            raise _refused(target, error) from None
        return beside

    def write(self, name, data):
        """Write the coming content of file *name*, bytes."""
        beside = self.place(name)
        try:
            beside.write_bytes(data)
        except OSError as error:
            raise _refused(self._folder / name, error) from None

    def remove(self, name):
        """Have the file *name* removed at the end."""
        self._gone.append(self._folder / name)

    def __exit__(self, kind, error, trace):
        if kind is not None:
            self._drop()
            if isinstance(error, OSError) and not _is_outside(error.filename, self._folder):
                raise _refused(self._folder, error) from None
            return
        for target, beside in sorted(self._beside.items(), key=self._turn):
            os.replace(beside, target)
        for path in self._gone:
            path.unlink(missing_ok=True)

    def _turn(self, pair):
        """Tables before pages, and what was begun as a copy last."""
        return pair[0] in self._last, len(pair[0].parts)

    def _drop(self):
        for beside in self._beside.values():
            try:
                beside.unlink(missing_ok=True)
            except OSError:
                pass    # where nothing may be written, nothing may be removed


def _is_outside(name, folder):
    """Whether an error names a file that was only read for what is written here."""
    return isinstance(name, (str, os.PathLike)) and not Path(name).resolve().is_relative_to(folder.resolve())


def _refused(path, error):
    return ValueError(f"{path} could not be written: {error.strerror or error}. What was in {path.parent} before is "
                      "unchanged. Make room or choose another place, then run this again.")
