"""Make the saved tables again: an invented class's tables, filled in by a spreadsheet in two locales.

PYTHONPATH=. python tests/saved_by_a_spreadsheet/make_them.py /usr/bin/python3
where the argument is a Python that has the module uno, and soffice is in the path.
"""
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))

from lessons_lib.course.received import begin_received  # noqa: E402
from saved_class import TABLES, SavedClass  # noqa: E402


def make_them(python):
    """Begin the tables as the course does, then have each locale's spreadsheet fill them in."""
    with tempfile.TemporaryDirectory() as home:
        small = SavedClass(Path(home))
        small.mark()
        begin_received(small.course)
        (small.folder / "extensions.csv").write_bytes(b"")      # nothing begins this one but a person
        for locale in ("en-US", "de-DE"):
            subprocess.run([python, HERE / "type_and_save.py", locale, HERE / locale, Path(home) / locale,
                            *(small.folder / name for name in TABLES)], check=True)


if __name__ == "__main__":
    make_them(sys.argv[1])
