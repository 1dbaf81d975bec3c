"""A code cell that has run, as a page's file holds it."""


def code(source, tags=(), **more):
    seven = {"output_type": "stream", "name": "stdout", "text": "7"}
    return {"cell_type": "code", "source": source, "outputs": [seven], "metadata": {"tags": list(tags)},
            "execution_count": 3, **more}
