"""``python -m lessons_lib``: what an instructor runs from the command line."""
import argparse
import sys
from pathlib import Path

_CHECKOUT = Path(__file__).resolve().parents[1]


def _parser():
    parser = argparse.ArgumentParser(prog="python -m lessons_lib", description="The instructor's commands.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="command")
    sheets = commands.add_parser(
        "sheets", help="make the self-study sheets again from the model answers",
        description="Make the self-study sheets again from the model answers: same answers, same bytes.",
        epilog="example: python -m lessons_lib sheets --answers answers --notebooks notebooks")
    sheets.add_argument("--answers", default=_CHECKOUT / "answers", metavar="DIR",
                        help="folder of lesson_NN.py (default: the checkout's)")
    sheets.add_argument("--notebooks", default=_CHECKOUT / "notebooks", metavar="DIR",
                        help="folder whose sheets/ is written (default: the checkout's)")
    return parser


def main(words=None):
    """Run the command in *words* (default: the command line's); return the exit status."""
    arguments = _parser().parse_args(words)
    try:
        from lessons_lib.course import sheets  # a student's pack has no course: no command runs there
        print(sheets.run(arguments))
    except (ImportError, OSError, ValueError) as error:
        print(f"{error}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
