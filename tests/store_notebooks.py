"""Run the lesson notebooks and store them executed, so that they read well without a kernel.

    .venv/bin/python tests/store_notebooks.py            # all of them
    .venv/bin/python tests/store_notebooks.py 01         # those whose name begins with 01
"""
import sys

import nbformat

from notebooks import copy_of_notebooks, pages, read, run, tidy


def main(beginnings):
    for path in pages():
        if beginnings and not path.name.startswith(tuple(beginnings)):
            continue
        with copy_of_notebooks() as folder:
            nbformat.write(tidy(run(read(path), folder)), path)
        print(f"stored {path.name}, {path.stat().st_size / 1e3:.0f} kB")


if __name__ == "__main__":
    main(sys.argv[1:])
