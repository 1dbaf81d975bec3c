"""Docstrings: their examples run, and nothing public in the library is without one."""
import doctest
import importlib
import inspect
import pkgutil

import pytest

import lessons_lib

MODULES = sorted(found.name for found in pkgutil.walk_packages(lessons_lib.__path__, "lessons_lib.")
                 if not found.name.endswith("__main__"))


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name):
    result = doctest.testmod(importlib.import_module(name))
    assert result.failed == 0


def test_there_are_examples():
    finder = doctest.DocTestFinder()
    assert sum(bool(test.examples) for name in MODULES for test in finder.find(importlib.import_module(name))) > 40


def _public(module):
    for name, thing in vars(module).items():
        if not name.startswith("_") and getattr(thing, "__module__", None) == module.__name__:
            if inspect.isfunction(thing) or inspect.isclass(thing):
                yield f"{module.__name__}.{name}", thing
            if inspect.isclass(thing):
                for inner, method in vars(thing).items():
                    method = method.fget if isinstance(method, property) else method
                    if not inner.startswith("_") and inspect.isfunction(method):
                        yield f"{module.__name__}.{name}.{inner}", method


@pytest.mark.parametrize("name", MODULES)
def test_everything_public_says_what_it_is(name):
    module = importlib.import_module(name)
    assert module.__doc__
    assert [where for where, thing in _public(module) if not inspect.getdoc(thing)] == []
