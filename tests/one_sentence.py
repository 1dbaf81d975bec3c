"""A command that fails, and the one sentence in which it says why."""
from lessons_lib.__main__ import main


def one_sentence(words, capsys):
    """Run a command that fails; return what it said."""
    assert main(list(map(str, words))) == 1
    said = capsys.readouterr().err
    assert said.count("\n") == 1 and "Traceback" not in said
    return said
