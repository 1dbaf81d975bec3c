"""Names that a package offers and loads when they are first used: a page takes a few in one line."""
import ast
from importlib import import_module
from pathlib import Path

from lessons_lib.base.words import did_you_mean


def offered(package, path):
    """Return `__all__`, `__getattr__` and `__dir__` of a package that offers what its file imports for type checkers.

    Parameters
    ----------
    package, path : str
        Its ``__name__`` and ``__file__``. The names are those of the imports under ``if TYPE_CHECKING:`` there, which
        editors and type checkers read as they stand and which are never run.

    Examples
    --------
    >>> import lessons_lib.physics
    >>> names, load, _ = offered("lessons_lib.physics", lessons_lib.physics.__file__)
    >>> "RodMagnet" in names, load("RodMagnet").__module__
    (True, 'lessons_lib.physics.magnets')
    >>> load("RodMagnets")
    Traceback (most recent call last):
        ...
    AttributeError: module 'lessons_lib.physics' has no attribute 'RodMagnets'. Did you mean RodMagnet?
    """
    tree = ast.parse(Path(path).read_text(encoding="utf-8"))
    homes = {one.name: node.module for block in tree.body
             if isinstance(block, ast.If) and ast.unparse(block.test) == "TYPE_CHECKING"
             for node in block.body for one in node.names}

    def load(name):
        if name not in homes:
            raise AttributeError(f"module {package!r} has no attribute {name!r}.{did_you_mean(name, homes)}")
        return getattr(import_module(homes[name]), name)

    return list(homes), load, lambda: sorted({*vars(import_module(package)), *homes})
